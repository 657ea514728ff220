// The course as a plain folder on servers of others: it runs from one that knows nothing of it; one that is set up for it is asked for
// what pages load once; and what that costs is what the page on serving many says.

import assert from 'node:assert/strict';
import { existsSync, readFileSync, readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import { host } from './host.mjs';
import { answer, rest } from './lesson.mjs';
import { programOf, root, site } from './place.mjs';
import { watch } from './watch.mjs';

after(closeBrowsers);

/** @typedef {import('puppeteer-core').Page} Page */

/** Waits until a lesson's figure is drawn and all that it loads has come. @param {Page} page @param {string} address */
async function opened(page, address) {
  await page.goto(address, { waitUntil: 'networkidle0' });
  await page.waitForFunction(() => document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#asks')?.textContent && /** @type {any} */ (document.querySelector('outlean-rig')).told);
  await rest(page);
}

for (const browser of BROWSERS) {
  test(`the course runs from a server that knows nothing of it, below a folder of its own (${browser})`, { timeout: 60_000 }, async () => {
    const { at, answers, stop } = await host(site);
    const { page, close } = await newPage(browser);
    try {
      const watched = await watch(page, new URL(at).origin);
      await opened(page, `${at}05-lean/?seed=7`);
      await answer(page, '1.2 kN');
      await page.waitForSelector('>>> [data-verdict]');
      await page.goto(`${at}plan/`);
      await page.waitForFunction(() => document.querySelector('outlean-plan [data-part=verdict], outlean-plan form'));
      for (const name of ['glossary/', 'record/', '']) {
        await page.goto(at + name);
        assert((await page.$eval('h1', title => title.textContent ?? '')).length > 3, name);
      }
      assert.deepEqual(await watched.noise(), []);
      assert.deepEqual(answers.filter(({ file, status }) => status !== 200 || /\.(br|gz)$/.test(file)), []);
    } finally {
      await close();
      await stop();
    }
  });
}

/** What the page on serving many says, by what its rows begin with: requests, bytes by brotli and by gzip. */
const said = Object.fromEntries([...readFileSync(join(root, 'crate/outlean/SERVING.md'), 'utf8').matchAll(/^\| ([^|]+) \| (\d+) \| (\d+) kB \| (\d+) kB \|$/gm)].map(([, what, ...numbers]) => [what, numbers.map(Number)]));

/** What files are, sent packed where they are packed, kB. @param {string[]} files @param {string} ending */
const kilobytes = (files, ending) => files.reduce((sum, file) => sum + statSync(join(site, existsSync(join(site, file + ending)) ? file + ending : file)).size, 0) / 1000;

/** Holds what was sent against what is said of it, the more of both browsers: to a tenth above, a quarter below. @param {string} what @param {import('./host.mjs').Answer[]} answers */
function held(what, answers) {
  const sent = answers.filter(({ status }) => status === 200).map(({ file }) => file);
  const found = [answers.length, kilobytes(sent, '.br'), kilobytes(sent, '.gz')];
  console.log(`${what.padEnd(44)}${found.map(number => number.toFixed(0).padStart(7)).join('')}  requests, kB by brotli, by gzip`);
  const wanted = said[what] ?? assert.fail(`nothing is said of: ${what}`);
  found.forEach((number, place) => assert(number <= 1 + 1.1 * wanted[place] && number >= 0.75 * wanted[place] - 1, `${what}: ${wanted} is said, ${found} found`));
}

for (const browser of BROWSERS) {
  test(`what a learner costs a host that is set up for it (${browser})`, { timeout: 60_000 }, async () => {
    const { at, answers, stop } = await host(site, { careful: true });
    const { page, close } = await newPage(browser);
    try {
      // The icon of the address bar is asked for or not, as a browser likes.
      const since = () => answers.splice(0).filter(({ file }) => !/favicon/.test(file));
      await opened(page, `${at}05-lean/?seed=7`);
      held('a first lesson', since());
      await opened(page, `${at}08-guys/`);
      held('another lesson', since());
      await opened(page, `${at}05-lean/?seed=7`);
      const again = since();
      held('a lesson again', again);
      // All that is asked is whether the page is as it was.
      assert.deepEqual(again, [{ file: '05-lean/index.html', status: 304 }]);
      await page.goto(`${at}plan/`, { waitUntil: 'networkidle0' });
      held('the planning page after a lesson', since());
    } finally {
      await close();
      await stop();
    }
  });
}

test('what the whole course is', () => {
  const ways = readdirSync(site, { recursive: true }).map(String).filter(way => !/\.(br|gz)$/.test(way) && statSync(join(site, way)).isFile());
  const kept = ways.filter(way => way !== 'files.txt' && way !== 'offline-worker.js');
  held('the whole course, kept on a machine', kept.map(file => ({ file, status: 200 })));
  assert(readdirSync(programOf(site)).length > 10);
});
