// A tab that is killed while answers are being kept: whatever it had said is kept is there when the next one opens, and nothing is there
// that nobody answered. Chromium only: it lets a test kill what runs a tab. KILLS=… asks for another number of times.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import { run } from './harness.mjs';
import { kept } from './kept.mjs';

const KILLS = Number(process.env.KILLS ?? 100);

test(`a tab is killed ${KILLS} times while it keeps answers`, { timeout: 12_000 * KILLS }, () => run('a tab killed', 'chromium', {}, async ({ page, origin }) => {
  // A page without a figure is there at once; it keeps answers as a lesson does.
  const address = `${origin}/glossary/`;
  await page.goto(address);
  /** @type {Set<string>} What was said to be kept. */
  const said = new Set();
  for (let kill = 0; kill < KILLS; kill++) {
    const tab = await page.browserContext().newPage();
    tab.on('error', () => {}); // it is killed on purpose
    await tab.exposeFunction('told', (/** @type {string} */ what) => { said.add(what); });
    await tab.goto(address);
    await tab.evaluate(kill => {
      const question = document.createElement('p');
      document.querySelector('main')?.append(question);
      let number = 0;
      const next = () => {
        const typed = `${kill}.${number++}`;
        question.addEventListener('outlean-recorded', event => {
          if (/** @type {CustomEvent} */ (event).detail.kept === 'disk') /** @type {any} */ (window).told(typed);
          next();
        }, { once: true });
        question.dispatchEvent(new CustomEvent('outlean-marked', { bubbles: true, composed: true, detail: { seed: 1, typed, share: 1, verdict: 'right', seconds: 1, hints: 0 } }));
      };
      next();
    }, kill);
    await new Promise(done => setTimeout(done, 10 + (kill * 37) % 60));
    const client = await tab.createCDPSession();
    await Promise.race([client.send('Page.crash').catch(() => {}), new Promise(done => setTimeout(done, 50))]);
    await tab.close().catch(() => {});
  }
  const rows = await kept(page);
  const responses = rows.map(({ response }) => response);
  assert(said.size >= KILLS, `only ${said.size} answers were said to be kept: the tabs were killed too early to prove anything`);
  assert.deepEqual([...said].filter(each => !responses.includes(each)), [], 'said to be kept and lost');
  assert.equal(new Set(responses).size, responses.length, 'kept twice');
  assert(responses.length <= said.size + KILLS, 'of each killed tab one answer at most is kept without having been said');
  console.log(`  ${said.size} answers said to be kept by ${KILLS} killed tabs, ${responses.length} there`);
}));
