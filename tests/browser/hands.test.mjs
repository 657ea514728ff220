// A page that is led: hands counted for each option, the answer hidden until it is revealed, in step with the speaker's page.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { shortcuts } from './keys.mjs';
import { ready, rest } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {Stage['page']} Page */

const PROJECTED = '/05-lean/?seed=7&theme=projector';

/** Waits until the page is led. @param {Page} page */
const led = page => page.waitForFunction(() => document.querySelector('outlean-choose[led]')?.shadowRoot?.querySelector('.hands')?.checkVisibility());
/** @param {Page} page @param {string} kind @returns {Promise<number[]>} */
const counts = (page, kind) => page.$$eval(`outlean-${kind} >>> .hands output`, all => all.map(each => Number(each.textContent)));
/** The shares of the longest that the bars are long. @param {Page} page @param {string} kind */
const bars = (page, kind) =>
  page.$$eval(`outlean-${kind} >>> .bars`, all => all.map(each => (each.firstElementChild?.getBoundingClientRect().width ?? 0) / each.getBoundingClientRect().width));
/** @param {Page} page */
const listen = page =>
  page.evaluate(() => {
    const seen = /** @type {any} */ (window);
    seen.marks = 0;
    document.addEventListener('outlean-marked', () => seen.marks++);
  });
/** @param {Page} page */
const marks = page => page.evaluate(() => /** @type {any} */ (window).marks);
/** @param {Page} page @param {string} kind */
const verdict = (page, kind) => page.$eval(`outlean-${kind} >>> .answer`, answer => (/** @type {HTMLElement} */ (answer).hidden ? 'open' : /** @type {HTMLElement} */ (answer).dataset.verdict));
/** Goes on with the tab key until the focus is on this in a question. @param {Page} page @param {string} selector */
async function tabTo(page, selector) {
  for (let tries = 0; tries < 80; tries++) {
    if (await page.evaluate(selector => document.activeElement?.shadowRoot?.activeElement?.matches(selector), selector)) return;
    await page.keyboard.press('Tab');
  }
  assert.fail(`the tab key does not come to ${selector}`);
}

for (const kind of ['choose', 'faults']) {
  eachBrowser(`${kind}: hands are counted by keys and by pointer, and no answer is kept`, async stage => {
    const { page, axe, shot } = stage;
    await ready(stage, PROJECTED);
    await led(page);
    await listen(page);
    // While the focus is elsewhere they are not heard.
    if (kind === 'choose') assert.deepEqual(await shortcuts(page, '[led]'), []);
    const zero = await counts(page, kind);
    assert(zero.length >= 3 && zero.every(count => count === 0));
    // By number keys from anywhere in the question; with shift one less; never below none.
    await page.$eval(`outlean-${kind} >>> .entries input`, box => /** @type {HTMLElement} */ (box).focus());
    for (let hands = 0; hands < 6; hands++) await page.keyboard.press('2');
    for (let hands = 0; hands < 3; hands++) await page.keyboard.press('1');
    await page.keyboard.down('Shift');
    for (const key of /** @type {const} */ (['2', '3'])) await page.keyboard.press(key);
    await page.keyboard.up('Shift');
    assert.deepEqual((await counts(page, kind)).slice(0, 3), [3, 5, 0]);
    assert.match(await page.$eval(`outlean-${kind} >>> [role=status]`, at => at.textContent ?? ''), /^0 hands for number 3/);
    // By the tab key and Enter, and by pointer.
    await tabTo(page, 'li:nth-child(3) .hands button:last-of-type');
    await page.keyboard.press('Enter');
    const [less] = await page.$$(`outlean-${kind} >>> li:nth-child(1) .hands button`);
    await less.click();
    assert.deepEqual((await counts(page, kind)).slice(0, 3), [2, 5, 1]);
    const long = await bars(page, kind);
    for (const [place, share] of [[0, 0.4], [1, 1], [2, 0.2]]) assert(Math.abs(long[place] - share) < 0.01, `bar ${place}: ${long[place]}`);
    assert.equal(await verdict(page, kind), 'open', 'the answer is hidden');
    await page.$eval(`outlean-${kind}`, at => at.scrollIntoView());
    await rest(page);
    await shot(`hands ${kind}`);
    assert.deepEqual(await axe(), []);
    // Revealed: by the keyboard, over the lock; the hands stay beside it.
    await tabTo(page, '.reveal');
    await page.keyboard.press('Enter');
    await rest(page);
    assert.equal(await verdict(page, kind), 'revealed');
    assert.deepEqual((await counts(page, kind)).slice(0, 3), [2, 5, 1]);
    assert.equal(await page.$eval(`outlean-${kind} >>> .reveal`, key => key.checkVisibility()), false);
    await shot(`hands ${kind} revealed`);
    assert.equal(await marks(page), 0, 'nothing was answered');
    const rows = await page.evaluate(() => new Promise(done => {
      const asked = indexedDB.open('outlean');
      asked.onsuccess = () => {
        const has = asked.result.objectStoreNames.contains('attempts');
        if (!has) return done(0);
        const count = asked.result.transaction('attempts').objectStore('attempts').count();
        count.onsuccess = () => done(count.result);
      };
    }));
    assert.equal(rows, 0, 'nothing is kept');
    // Another one begins at none.
    await page.$eval(`outlean-${kind} >>> .again button:not(.reveal)`, key => /** @type {HTMLElement} */ (key).click());
    await rest(page);
    assert((await counts(page, kind)).every(count => count === 0));
    assert.equal(await page.$eval(`outlean-${kind} >>> .reveal`, key => key.checkVisibility()), true);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert(over <= 0, `${over} px wider than the window`);
  });
}

eachBrowser('an option is told in the units that are shown now', async stage => {
  const { page } = stage;
  await ready(stage, PROJECTED);
  await led(page);
  const told = () => page.$eval('outlean-faults', question => {
    const [tree, { hands }] = [/** @type {ShadowRoot} */ (question.shadowRoot), /** @type {any} */ (question)];
    const keys = [...tree.querySelectorAll('.hands button:last-of-type')].map(key => (key.getAttribute('aria-label') ?? '').replace(/^.*?: /, ''));
    return { labels: [...tree.querySelectorAll('.entries label')].map(label => label.textContent), hands: hands.map((/** @type {{ says: string }} */ { says }) => says), keys };
  });
  const metric = await told();
  await page.select('[data-setting=units]', 'us');
  await page.waitForFunction(before => document.querySelector('outlean-faults')?.shadowRoot?.querySelector('.entries')?.textContent !== before, {}, metric.labels.join(''));
  await rest(page);
  const us = await told();
  assert.notDeepEqual(us.labels, metric.labels);
  for (const { labels, hands, keys } of [metric, us]) assert.deepEqual([hands, keys], [labels, labels]);
});

eachBrowser('every kind has a key that reveals, and a prediction gives way to it', async stage => {
  const { page } = stage;
  await ready(stage, PROJECTED);
  await led(page);
  for (const kind of ['estimate', 'order', 'set']) {
    await page.$eval(`outlean-${kind} >>> .reveal`, key => /** @type {HTMLElement} */ (key).focus());
    await page.keyboard.press('Enter');
    await rest(page);
    assert.equal(await verdict(page, kind), 'revealed', kind);
  }
  assert.equal(await page.$eval('outlean-rig', figure => /** @type {any} */ (figure).told.veiled), false, 'the forces show');
  assert.deepEqual(await counts(page, 'order'), [], 'steps are not voted on');
});

eachBrowser('a learner has none of it, and on other paper it goes away', async stage => {
  const { page, requests } = stage;
  await ready(stage);
  assert.equal((await page.$$('>>> .hands')).length, 0);
  assert(!requests.some(address => address.includes('hands.')), 'and loads none of it');
  await page.select('[data-setting=theme]', 'projector');
  await led(page);
  await page.select('[data-setting=theme]', 'light');
  await page.waitForFunction(() => !document.querySelector('outlean-choose')?.shadowRoot?.querySelector('.hands')?.checkVisibility());
  await page.$eval('outlean-choose >>> .entries input', box => /** @type {HTMLElement} */ (box).focus());
  await page.keyboard.press('1');
  assert.equal((await counts(page, 'choose'))[0], 0);
});

eachBrowser('the speaker counts and sees what the class does', async stage => {
  const { page, origin } = stage;
  await ready(stage);
  const desk = await page.browserContext().newPage({ type: 'window' });
  await desk.setViewport({ width: 980, height: 1000 });
  await desk.goto(`${origin}/05-lean/?view=speaker`, { waitUntil: 'load' });
  await desk.waitForFunction(() => document.querySelector('.prompt')?.textContent, { polling: 100 });
  assert.deepEqual(await shortcuts(desk), [], 'a speaker leads by keys that are no characters');
  await page.waitForFunction(() => document.querySelector('outlean-choose[led]'), { polling: 100 });
  // To the question about what a degree does.
  const step = await page.$eval('outlean-choose', at => at.id);
  await desk.$eval(`[data-step="${step}"] button`, key => /** @type {HTMLElement} */ (key).click());
  await desk.waitForFunction(() => document.querySelectorAll('ol.hands li').length >= 3, { polling: 100 });
  await desk.bringToFront();
  await desk.focus('ol.hands li:nth-child(2) button:last-child');
  await desk.keyboard.press('Enter');
  await desk.keyboard.press('Enter');
  await desk.waitForFunction(() => document.querySelector('ol.hands li:nth-child(2) b')?.textContent === '2', { polling: 100 });
  assert.equal((await counts(page, 'choose'))[1], 2);
  await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-choose')).hand(0, 1));
  await desk.waitForFunction(() => document.querySelector('ol.hands li b')?.textContent === '1', { polling: 100 });
  assert.equal(await desk.evaluate(() => document.activeElement?.matches('ol.hands li:nth-child(2) button:last-child')), true, 'the focus stays');
  await desk.$eval('[data-key=reveal]', key => /** @type {HTMLElement} */ (key).click());
  await page.waitForFunction(() => !(/** @type {HTMLElement} */ (document.querySelector('outlean-choose')?.shadowRoot?.querySelector('.answer'))).hidden, { polling: 100 });
});
