// The course kept on a machine: it opens where there is no server any more, and takes a newer version when it is told to.

import assert from 'node:assert/strict';
import { cpSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { after, test } from 'node:test';
import { axe } from './axe.mjs';
import { BROWSERS, closeBrowsers, newPage } from './browsers.mjs';
import { LESSON, answer, rest } from './lesson.mjs';
import { programOf, shot, site } from './place.mjs';
import { scratch } from './scratch.mjs';
import { serve } from './server.mjs';

const { folder } = scratch();
after(closeBrowsers);

for (const browser of BROWSERS) {
  test(`the course opens without a network once it is kept, and is renewed (${browser})`, { timeout: 120_000 }, async () => {
    const mine = join(folder, browser);
    cpSync(site, mine, { recursive: true });
    let server = await serve(mine);
    const port = Number(new URL(server.origin).port);
    const { page, close } = await newPage(browser, { width: 320, height: 700 });
    try {
      const { origin } = server;
      const is = (/** @type {string} */ state) => page.waitForFunction(state => /** @type {HTMLElement | null} */ (document.querySelector('outlean-offline'))?.dataset.state === state, { timeout: 30_000 }, state);
      const said = () => page.$eval('outlean-offline [role=status]', at => at.textContent ?? '');
      await page.goto(`${origin}/`);
      await is('away');
      assert.match(await said(), /\d\.\d MB/);
      assert.deepEqual(await axe(page), []);
      // A server that has not all of it: nothing is kept, and what was missing is named.
      const icon = join(programOf(mine), 'favicon.svg');
      renameSync(icon, `${icon}.away`);
      await page.click('[data-part=keep]');
      await is('failed');
      assert.match(await said(), /favicon\.svg: 404/);
      renameSync(`${icon}.away`, icon);
      await page.click('[data-part=keep]');
      await is('kept');
      const version = /Version ([0-9a-f]{8})/.exec(await said())?.[1] ?? assert.fail(await said());
      await page.$eval('outlean-offline', at => at.scrollIntoView());
      await page.screenshot({ path: /** @type {`${string}.png`} */ (shot(`offline ${browser}`)) });
      await server.stop();

      // No server: a lesson never opened before is whole, its question is marked, its figure moves.
      await page.goto(`${origin}${LESSON}`);
      await page.waitForFunction(() => document.querySelector('outlean-estimate')?.shadowRoot?.querySelector('#asks')?.textContent && /** @type {any} */ (document.querySelector('outlean-rig')).told);
      await rest(page);
      await answer(page, '1.2 kN');
      await page.waitForSelector('>>> [data-verdict]');
      for (const way of ['/02-lashing-the-head/', '/plan/', '/glossary/', '/record/', '/05-lean']) {
        const came = await page.goto(origin + way);
        assert.equal(came?.ok(), true, way);
        assert((await page.$eval('h1', title => title.textContent ?? '')).length > 3, way);
      }
      // What is none of the course is not made up.
      await assert.rejects(page.goto(`${origin}/not-of-the-course/`));

      // A newer version waits until it is told to take over.
      writeFileSync(join(mine, 'offline-worker.js'), readFileSync(join(mine, 'offline-worker.js'), 'utf8').replace(/"version":"[0-9a-f]{8}/, '"version":"feedbeef'));
      server = await serve(mine, port);
      assert.equal(server.origin, origin);
      await page.goto(`${origin}/`);
      // Still the one that was kept; a browser may have looked for another by itself.
      await page.waitForFunction(version => document.querySelector('outlean-offline [role=status]')?.textContent?.includes(version), {}, version);
      await page.evaluate(async () => { await (await navigator.serviceWorker.getRegistration())?.update(); });
      await is('newer');
      await Promise.all([page.waitForNavigation(), page.$eval('[data-part=use]', key => /** @type {HTMLElement} */ (key).click())]);
      await page.waitForFunction(() => document.querySelector('outlean-offline [role=status]')?.textContent?.includes('feedbeef'), { timeout: 30_000 });
      await is('kept');
      assert.deepEqual((await page.evaluate(() => caches.keys())).map(name => name.slice(0, 16)), ['outlean-feedbeef']);

      // And is forgotten when told so.
      await page.click('[data-part=forget]');
      await is('away');
      assert.deepEqual(await page.evaluate(() => caches.keys()), []);
    } finally {
      await close();
      await server.stop();
    }
  });
}
