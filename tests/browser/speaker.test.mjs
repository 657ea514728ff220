// A speaker's page leads the projected one: two pages of one browser that talk to one another, and nothing between.

import assert from 'node:assert/strict';
import { axe as check } from './axe.mjs';
import { eachBrowser } from './harness.mjs';
import { answer, lean, LESSON, ready, rest, rig, text } from './lesson.mjs';
import { solved } from './native.mjs';
import { watch } from './watch.mjs';

const DEG = Math.PI / 180;
const SPEAKER = '/05-lean/?view=speaker';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** A second page beside the first, watched like it. @param {Stage} stage @param {string} path */
async function beside({ page, origin }, path) {
  const other = await page.browserContext().newPage({ type: 'window' });
  await other.setViewport({ width: 980, height: 1000 });
  const { noise } = await watch(other, origin);
  await other.goto(origin + path, { waitUntil: 'load' });
  return { other, quiet: async () => assert.deepEqual(await noise(), [], 'the second page says nothing') };
}

/** A speaker's page that has heard of the projected one. @param {Stage} stage */
async function speaker(stage) {
  const { other, quiet } = await beside(stage, SPEAKER);
  await says(other, '.verdict', /\w/);
  await says(other, '.held', /\d/);
  return { other, quiet };
}

/** Waits until a place of a page says something. @param {Page} page @param {string} selector @param {RegExp} wanted */
async function says(page, selector, wanted) {
  const { source, flags } = wanted;
  await page
    .waitForFunction((at, s, f) => new RegExp(s, f).test(document.querySelector(at)?.textContent ?? ''), { timeout: 10_000, polling: 100 }, selector, source, flags)
    .catch(async () => assert.match(await page.$eval(selector, at => at.textContent ?? ''), wanted));
}

/** @param {Page} page @param {string} key */
const press = (page, key) => page.$eval(`[data-key=${key}]`, button => /** @type {HTMLButtonElement} */ (button).click());
/** @param {Page} page @param {string} key */
const off = (page, key) => page.$eval(`[data-key=${key}]`, button => /** @type {HTMLButtonElement} */ (button).disabled);
/** @param {Page} page */
const current = page => page.$$eval('.steps [aria-current=step]', all => all.map(one => one.parentElement?.dataset.step ?? ''));
/** Waits until a page holds something true. @param {Page} page @param {() => unknown} what */
const until = (page, what) => page.waitForFunction(what, { timeout: 10_000, polling: 100 });

eachBrowser('learners are told nothing of the notes', async stage => {
  const { page, requests } = stage;
  await ready(stage);
  const source = await page.evaluate(() => document.documentElement.outerHTML);
  assert.doesNotMatch(source, /misbelief/);
  assert(!requests.some(address => /notes|speaker/.test(address)), requests.join(' '));
});

eachBrowser('the speaker sees what is hidden, and reveals it', async stage => {
  const { page } = stage;
  await ready(stage);
  const { other, quiet } = await speaker(stage);
  await says(other, '.held', /The forces and the answer/);
  const shown = await rig(page);
  const leg = String(shown['line.path']).includes('left') ? 'left' : 'right';
  const newtons = solved(shown).solution.balance.stands.compression[leg];
  await says(other, '.answer', new RegExp(`^${(newtons / 1000).toFixed(2)}\\s*kN$`));
  await says(other, '.verdict', /Predict first/);
  assert(await off(other, 'out'));
  const before = await lean(page);
  assert(await page.$eval('outlean-rig', figure => figure.hasAttribute('veiled')));
  await press(other, 'reveal');
  await says(other, '.held', /^Nothing/);
  assert.equal(await page.$eval('outlean-rig', figure => figure.hasAttribute('veiled')), false);
  assert.match(await text(page, '.answer'), new RegExp(`The answer is ${(newtons / 1000).toFixed(2)}`));
  assert.equal(await page.$eval('>>> .answer', at => /** @type {HTMLElement} */ (at).dataset.verdict), 'revealed');
  assert.equal(await page.$eval('>>> #mark', at => /** @type {HTMLInputElement} */ (at).disabled), true);
  assert.equal(await lean(page), before);
  assert(await off(other, 'reveal'));
  await quiet();
});

/** What cannot be made a text of. */
const MUTE = { toString: 1, valueOf: 1 };
/** What no page says. @type {unknown[]} */
const NONSENSE = [
  { by: MUTE, say: 'lead' }, { by: 'x', say: 'go', step: MUTE }, { by: 'x', say: 'hand', place: 0, way: MUTE }, { page: 'w', step: '', rig: '', verdict: { is: MUTE, why: '' } },
  { page: 'v', step: 'constructor', rig: '', question: { prompt: '', answer: '', hands: [{ says: '', count: MUTE }] } },
  null, 7, 'hello', [], {}, { page: { a: 1 }, step: ['__proto__'] }, { page: 'y', step: '__proto__', rig: { a: 1 }, verdict: 'so', question: 'what' }, { page: 'z', step: 'constructor', rig: '', question: { prompt: 5, hands: 'many' } }, { by: 3 }, { by: null }, { by: 'x', say: 'go', step: 9 }, { by: 'x', say: 'hand', place: '__proto__', way: {} }, { by: 'x', say: 'toString' },
];

eachBrowser('nonsense on the channel is not heard', async stage => {
  const { page } = stage;
  await ready(stage);
  const { other, quiet } = await speaker(stage);
  await page.evaluate(all => {
    const line = new BroadcastChannel(`outlean ${location.pathname}`);
    for (const what of JSON.parse(all)) line.postMessage(what);
  }, JSON.stringify(NONSENSE));
  await press(other, 'reveal');
  await says(other, '.held', /^Nothing/);
  assert.equal(await page.$eval('outlean-rig', figure => figure.hasAttribute('veiled')), false);
  await quiet();
});

eachBrowser('the speaker’s keys act on the projected figure, and its verdict is told live', async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  const { other, quiet } = await speaker(stage);
  await says(other, '.verdict', /In the working range/);
  const start = await lean(page);
  await press(other, 'out');
  await until(other, () => !(/** @type {HTMLButtonElement} */ (document.querySelector('[data-key=undo]')).disabled));
  await rest(page);
  assert(Math.abs((await lean(page)) - start - DEG) < 1e-9, `${(await lean(page)) / DEG}`);
  await press(other, 'back');
  await press(other, 'back');
  await page.waitForFunction(at => Math.abs(/** @type {any} */ (document.querySelector('outlean-rig')).rig.lean - at) < 1e-9, { polling: 100 }, start - DEG);
  await press(other, 'undo');
  await page.waitForFunction(at => Math.abs(/** @type {any} */ (document.querySelector('outlean-rig')).rig.lean - at) > 1e-3, { polling: 100 }, start - DEG);
  await press(other, 'reset');
  await page.waitForFunction(at => Math.abs(/** @type {any} */ (document.querySelector('outlean-rig')).rig.lean - at) < 1e-9, { polling: 100 }, start);
  await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).act({ kind: 'set', key: 'lean', value: 1.1 }));
  await says(other, '.verdict', /At the end of the working range|Outside the working range/);
  await page.bringToFront();
  await rest(page);
  assert.equal(await other.$eval('.verdict b', at => at.textContent), await page.$eval('outlean-rig >>> .verdict b', at => at.textContent));
  await press(other, 'sweep');
  await says(other, '[data-key=sweep]', /Pause/);
  await press(other, 'sweep');
  await says(other, '[data-key=sweep]', /Sweep/);
  await quiet();
});

eachBrowser('the pages keep in step, by key, by clicker and by hand', async stage => {
  const { page } = stage;
  await ready(stage);
  const { other, quiet } = await speaker(stage);
  const steps = await other.$$eval('.steps li', all => all.map(one => [/** @type {HTMLElement} */ (one).dataset.step, one.textContent]));
  assert.deepEqual(steps.slice(0, 5), [
    ['title', 'Lean and its price'],
    ['what-leans-and-what-it-asks-for', 'What leans, and what it asks for'],
    ['predict', 'Predict'],
    ['leg-with-the-line', 'Question: predict'],
    ['see', 'See'],
  ]);
  assert.deepEqual(await current(other), ['title']);
  await says(other, '.next', /Next: What leans/);
  await says(other, '.notes', /broom handles/);
  await other.bringToFront();
  await other.keyboard.press('PageDown');
  await other.keyboard.press('PageDown');
  const top = () => page.$eval('#predict', heading => heading.getBoundingClientRect().top);
  await until(page, () => Math.abs(/** @type {Element} */ (document.querySelector('#predict')).getBoundingClientRect().top) < 40);
  assert(Math.abs(await top()) < 40, `${await top()}`);
  assert.deepEqual(await current(other), ['predict']);
  await says(other, '.notes', /No number, no vote/);
  await press(other, 'following');
  await says(other, '#now', /Question: predict/);
  await other.$eval('[data-step=sources] button', button => /** @type {HTMLElement} */ (button).click());
  await until(page, () => scrollY > innerHeight);
  await new Promise(done => setTimeout(done, 300));
  assert.deepEqual(await current(other), ['sources'], 'though the page ends before it is at the top');
  assert(await off(other, 'following'));
  await says(other, '.next', /last step/);
  await page.bringToFront();
  await page.evaluate(() => scrollTo({ top: 0, behavior: 'instant' }));
  await says(other, '#now', /Lean and its price/);
  await quiet();
});

eachBrowser('no page to speak to', async stage => {
  const { page, open, axe } = stage;
  await open(SPEAKER);
  await page.waitForSelector('.steps');
  await says(page, '.state', /No page to speak to/);
  for (const key of ['reveal', 'sweep', 'back', 'out', 'undo', 'reset']) assert(await off(page, key), key);
  await press(page, 'following');
  await says(page, '.notes', /at 70°/);
  assert.deepEqual(await axe(), []);
  assert(await page.$eval('[data-key=following]', key => key.checkVisibility()));
  // It comes, and goes again.
  const { other, quiet } = await beside(stage, LESSON);
  await says(page, '.state', /You lead|behind/);
  await says(page, '.held', /answer/);
  await quiet();
  await other.close();
  await says(page, '.state', /No page to speak to/);
});

eachBrowser('two speakers: the one that came last leads, until it closes or the other takes over', async stage => {
  await ready(stage);
  const first = await speaker(stage);
  const second = await speaker(stage);
  await says(first.other, '.state', /Another speaker's page leads/);
  assert(await off(first.other, 'following'));
  assert(await off(first.other, 'reveal'));
  await press(second.other, 'following');
  await says(first.other, '#now', /What leans/);
  await press(first.other, 'take');
  await says(second.other, '.state', /Another speaker's page leads/);
  assert.equal(await off(first.other, 'following'), false);
  await first.quiet();
  // One that goes without a word is missed all the same.
  await first.other.evaluate(() => { BroadcastChannel.prototype.postMessage = () => {}; });
  await first.other.close();
  await says(second.other, '.state', /You lead|behind/);
  assert.equal(await off(second.other, 'following'), false);
  await second.quiet();
});

eachBrowser('the key in the settings opens it', async stage => {
  const { page } = stage;
  await ready(stage);
  const opened = new Promise(done => page.once('popup', done));
  await page.click('[data-speaker]');
  const popup = /** @type {Page} */ (await opened);
  await popup.waitForSelector('.steps');
  assert.match(await popup.evaluate(() => location.href), /\?view=speaker$/);
  await says(popup, '.held', /answer/);
});

for (const theme of ['light', 'dark', 'projector', 'sunlight']) {
  for (const width of [320, 980]) {
    eachBrowser(`the speaker’s page, ${theme}, ${width} px`, { width, height: 900 }, async stage => {
      const { page, open, shot } = stage;
      await open(`${SPEAKER}&theme=${theme}`);
      await page.waitForSelector('.steps');
      const { quiet } = await beside(stage, LESSON);
      await says(page, '.held', /\d/);
      await page.bringToFront();
      await shot(`speaker ${theme} ${width}`);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert(over <= 0, `${over} px wider than the window`);
      assert.deepEqual(await check(page), []);
      await quiet();
    });
  }
}
