// Lettering spread as WCAG 2.2 has it in 1.4.12: nothing is cut off, nothing lies on anything else, and what has the focus is in sight. On the
// same pages no letter, digit or sign does anything but where it is typed (2.1.4).

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { shortcuts } from './keys.mjs';
import { amiss, obscured, SPACED, styledBy } from './laid.mjs';
import { answer, ready, rest } from './lesson.mjs';
import { site } from './place.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */

/** Answers of a learner, as the database has them. */
const OBJECTIVE = JSON.parse(/"objectives":(\[.*?\])/.exec(readFileSync(join(site, 'class/index.html'), 'utf8'))?.[1] ?? '[]')[0];
const ROWS = [0, 0.5, 1].map((share, at) => ({ key: `k${at}`, learner: 'Ines of the long name', time: 1_790_000_000 + at * 90_000, lesson: '05-lean', question: 'leg', lesson_version: '5f', seed: at, response: '2 kN', mark: { share, verdict: 'near' }, seconds: 9, hints: 0, objective: OBJECTIVE }));
const RECORD = JSON.stringify({ format: 'outlean-record', version: 2, learner: 'Ines of the long name', attempts: ROWS.map(({ key: _, learner: __, ...attempt }) => attempt), aside: [] });

/** Each kind of page, as full as it gets. @type {Record<string, (stage: Stage) => Promise<void>>} */
const PAGES = {
  lesson: async stage => {
    const { page } = stage;
    await ready(stage);
    await answer(page, '4 kN');
    await page.evaluate(() => {
      for (const at of document.querySelectorAll('*')) for (const each of at.shadowRoot?.querySelectorAll('details') ?? []) each.open = true;
    });
    await rest(page);
  },
  plan: async ({ page, open }) => {
    await open('/plan/');
    await page.waitForSelector('outlean-plan[data-ready]');
    await page.select('[data-part=example]', '0');
    await page.waitForSelector('.plan-form form:not([aria-busy])');
  },
  record: async ({ page, open }) => {
    await open('/record/');
    await page.waitForSelector('outlean-record[data-ready]');
    await kept(page, ROWS);
    await page.evaluate(() => new BroadcastChannel('outlean records').postMessage('changed'));
    await page.$eval('[data-part=who]', at => { /** @type {HTMLInputElement} */ (at).value = 'Ines of the long name'; });
    await page.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
    await page.waitForFunction(() => document.querySelector('[data-part=table] tbody td'));
  },
  class: async ({ page, open }) => {
    await open('/class/');
    await page.waitForSelector('outlean-class[data-ready]');
    await page.evaluate(text => {
      const input = /** @type {HTMLInputElement} */ (document.querySelector('outlean-class input[type=file]'));
      const files = new DataTransfer();
      files.items.add(new File([text], 'ines.json', { type: 'application/json' }));
      input.files = files.files;
      input.dispatchEvent(new Event('change', { bubbles: true }));
    }, RECORD);
    await page.waitForSelector('outlean-class tbody');
  },
  refresher: async ({ page, open }) => {
    await open('/refresher/?seed=3');
    await page.waitForSelector('outlean-refresher[data-ready]');
    await page.$eval('[data-part=begin]', key => /** @type {HTMLElement} */ (key).click());
    await page.waitForFunction(() => [...document.querySelectorAll('outlean-refresher section:not([hidden]) *')].some(at => /** @type {any} */ (at).asked));
    await rest(page);
  },
  sources: async ({ open }) => void (await open('/sources/')),
  accessibility: async ({ open }) => void (await open('/accessibility/')),
  first: async ({ page, open }) => {
    await open('/');
    await page.waitForSelector('outlean-offline[data-state]');
  },
};

for (const width of [320, 1280]) {
  eachBrowser(`with text spread as wide as WCAG asks nothing is cut off or covered, ${width} px`, { width, height: 700 }, async stage => {
    const { page, shot } = stage;
    const wrong = [];
    for (const [name, fill] of Object.entries(PAGES)) {
      await fill(stage);
      const before = await amiss(page);
      await styledBy(page, SPACED);
      await rest(page);
      await shot(`spaced ${name} ${width}`);
      wrong.push(...before.map(each => `${name}, as it is: ${each}`), ...(await amiss(page)).map(each => `${name}: ${each}`));
      wrong.push(...[...(await obscured(page)), ...(await shortcuts(page))].map(each => `${name}: ${each}`));
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      if (over > 0) wrong.push(`${name}: ${over} px wider than the window`);
      const caution = await page.evaluate(() => {
        scrollTo(0, document.documentElement.scrollHeight);
        const last = document.querySelector('.pages')?.getBoundingClientRect().bottom ?? 0;
        return last - (document.querySelector('footer.caution')?.getBoundingClientRect().top ?? 0);
      });
      if (caution > 0) wrong.push(`${name}: the caution covers ${caution} px of the end of the page`);
    }
    assert.equal(wrong.join('\n'), '');
  });
}
