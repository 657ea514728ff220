// A lesson in one file, opened from a disk: it is whole, asks nothing of anyone, and keeps to the policy that it carries.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { pathToFileURL } from 'node:url';
import { axe } from './axe.mjs';
import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import { rest } from './lesson.mjs';
import { outlean, shot, site } from './place.mjs';
import { scratch } from './scratch.mjs';

const { folder } = scratch();
const file = join(folder, 'a lesson.html');
execFileSync(outlean, ['pack', 'file', '--site', site, '--lesson', '05-lean', '--output', file]);
after(closeBrowsers);

for (const browser of BROWSERS) {
  test(`a lesson in one file runs from a disk (${browser})`, { timeout: 60_000 }, async () => {
    const { page, close } = await newPage(browser);
    try {
      /** @type {string[]} */
      const asked = [];
      /** @type {string[]} */
      const said = [];
      page.on('request', request => asked.push(request.url()));
      page.on('console', message => { if (message.type() === 'error') said.push(message.text()); });
      page.on('pageerror', why => said.push(String(why)));
      const address = `${pathToFileURL(file).href}?seed=7`;
      await page.goto(address);
      await page.waitForFunction(() => document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#asks')?.textContent && /** @type {any} */ (document.querySelector('outlean-rig')).told);
      await rest(page);
      const input = await page.waitForSelector('>>> #mark');
      await input?.type('1.2 kN');
      await input?.press('Enter');
      await page.waitForFunction(() => document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('[data-verdict]')?.textContent);
      // The figure leans.
      await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).reveal());
      const lean = () => page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).rig.lean);
      const before = await lean();
      await page.$eval('>>> .plate > .head', head => /** @type {HTMLElement} */ (head).focus());
      await page.keyboard.press('ArrowRight');
      await rest(page);
      assert((await lean()) > before);
      assert.equal(await page.evaluate(() => document.fonts.check('500 13px "Outlean Label"')), true);
      await page.select('[data-setting=theme]', 'projector');
      await rest(page);
      await page.select('[data-setting=theme]', 'dark');
      await rest(page);
      await page.screenshot({ path: /** @type {`${string}.png`} */ (shot(`one file ${browser}`)) });
      assert.deepEqual(await axe(page), []);
      // Nothing was asked of anyone, nothing went wrong, and no way leads to where nothing is.
      assert.deepEqual(asked.filter(url => url !== address && !url.startsWith('data:')), []);
      assert.deepEqual(said, []);
      const ways = await page.$$eval('a[href]', all => all.map(link => link.getAttribute('href') ?? ''));
      assert.deepEqual(ways.filter(way => !/^(#|https:)/.test(way)), []);
      assert.match((await page.$eval('.caution', at => at.textContent)) ?? '', /teaching aid/i);
    } finally {
      await close();
    }
  });
}

test('a script that was put into the file afterwards does not run', async () => {
  const { page, close } = await newPage('chromium');
  try {
    const other = join(folder, 'other.html');
    writeFileSync(other, readFileSync(file, 'utf8').replace('</body>', '<script>document.title = "theirs";</script></body>'));
    await page.goto(pathToFileURL(other).href);
    assert.notEqual(await page.title(), 'theirs');
  } finally {
    await close();
  }
});
