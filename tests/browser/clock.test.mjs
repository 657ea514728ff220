// A clock that leaps, by hours and by days, forward and back, while questions are answered and while pages judge dates: nothing is lost, no
// question took longer or shorter than it did, and what is dated oddly is said.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { answer, ready, rest } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** Has the clock of every page go by as much as is kept under a name, ms. @param {Stage['page']} page */
const clocked = page => page.evaluateOnNewDocument(() => {
  const real = Date.now.bind(Date);
  const now = () => real() + Number(sessionStorage.getItem('leapt') ?? 0);
  // Called without an argument a date is of now.
  globalThis.Date = /** @type {any} */ (new Proxy(Date, { construct: (target, given) => (given.length ? Reflect.construct(target, given) : new target(now())), get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)) }));
});

/** @param {Stage['page']} page @param {number} by ms, from what it truly is */
const leap = (page, by) => page.evaluate(by => sessionStorage.setItem('leapt', String(by)), by);

/** Asks the same question anew and answers it. @param {Stage['page']} page */
async function again(page) {
  await page.$eval('>>> .again button:last-child', key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
}

eachBrowser('a clock that leaps loses no answer, makes none longer, and is said', async stage => {
  const { page, open } = stage;
  await clocked(page);
  await ready(stage);
  const begun = performance.now();
  for (const [place, by] of [40 * DAY + 2 * HOUR, -400 * DAY].entries()) {
    if (place) await again(page);
    await leap(page, by);
    await answer(page, '4 kN');
    await page.waitForFunction(count => new Promise(done => {
      const asked = indexedDB.open('outlean');
      asked.onsuccess = () => {
        const all = asked.result.transaction('attempts').objectStore('attempts').count();
        all.onsuccess = () => (asked.result.close(), done(all.result === count));
      };
    }), {}, place + 1);
  }
  const rows = (await kept(page)).sort((a, b) => a.time - b.time);
  assert.equal(rows.length, 2);
  const longest = (performance.now() - begun) / 1000 + 1;
  for (const { seconds } of rows) assert(seconds >= 0 && seconds <= longest, `${seconds} s for one of ${longest}`);
  const days = rows.map(({ time }) => Math.round((time - Date.now() / 1000) / 3600));
  assert.deepEqual(days, [-9600, 962], 'each has the time that the clock had');
  assert.match((await page.$eval('.record-said', at => at.textContent)) ?? '', /clock is behind/);
  // The record has both, says that one is dated ahead, and names no day for the next refresher that only that one could.
  await leap(page, 0);
  await open('/record/');
  await page.waitForSelector('outlean-record[data-ready]');
  const [told, due, answers, whole] = await page.evaluate(() => ['[data-part=said]', '[data-part=due]', '[data-part=table] tbody td', 'main'].map(part => document.querySelector(part)?.textContent ?? ''));
  assert.match(told, /dated after today/);
  const day = Date.parse(/\d{4}-\d\d-\d\d/.exec(due)?.[0] ?? '');
  assert(day > Date.now() - DAY && day < Date.now() + 35 * DAY, due);
  assert.equal(answers, '2', 'both count');
  assert.doesNotMatch(whole, /NaN|Invalid|undefined/);
});
