// Questions of every kind but estimates: answered by pointer and by keyboard, marked, shown in the figure, put anew.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { ready, rest, rig } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** The right answer, as the program has it. @param {Page} page @param {string} kind */
const solved = (page, kind) => page.$eval(`outlean-${kind}`, question => /** @type {any} */ (question).asked.solved());
/** @param {Page} page @param {string} kind @param {string} selector */
const texts = (page, kind, selector) => page.$$eval(`outlean-${kind} >>> ${selector}`, all => all.map(each => each.textContent ?? ''));
/** @param {Page} page @param {string} kind */
const verdict = (page, kind) => page.$eval(`outlean-${kind} >>> .answer`, answer => (/** @type {HTMLElement} */ (answer).hidden ? 'open' : /** @type {HTMLElement} */ (answer).dataset.verdict));
/** @param {Page} page @param {string} kind @param {string} selector */
const press = async (page, kind, selector) => {
  await page.$eval(`outlean-${kind} >>> ${selector}`, key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
};
/** Notes what is told of marks. @param {Page} page */
const listen = page =>
  page.evaluate(() => {
    const seen = /** @type {any} */ (window);
    seen.marks = [];
    document.addEventListener('outlean-marked', event => seen.marks.push(/** @type {CustomEvent} */ (event).detail));
  });
/** @param {Page} page */
const marks = page => page.evaluate(() => /** @type {any} */ (window).marks);

for (const kind of ['choose', 'faults']) {
  eachBrowser(`${kind}: what is marked by keyboard is told from what was to be`, { width: 1280, height: 900 }, async stage => {
    const { page, axe } = stage;
    await ready(stage);
    await listen(page);
    assert.equal(await verdict(page, kind), 'open');
    const wanted = await solved(page, kind);
    const boxes = await page.$$(`outlean-${kind} >>> .entries input`);
    assert(wanted.length > 0 && wanted.length < boxes.length);
    const wrong = boxes.findIndex((_, place) => !wanted.includes(place));
    // All but the first of those that hold, and one that does not.
    for (const place of [...wanted.slice(1), wrong]) {
      await boxes[place].focus();
      await page.keyboard.press(' ');
    }
    await page.keyboard.press('Enter');
    await rest(page);
    assert.equal(await verdict(page, kind), 'other');
    const ticks = await page.$$eval(`outlean-${kind} >>> .tick`, all => all.map(each => /** @type {HTMLElement} */ (each).dataset.tick));
    boxes.forEach((_, place) => {
      const told = place === wanted[0] ? 'miss' : wanted.includes(place) ? 'hit' : place === wrong ? 'false_alarm' : 'left_alone';
      assert.equal(ticks[place], told, `entry ${place}`);
    });
    const [{ share, verdict: is }] = await marks(page);
    assert.equal(is, 'other');
    assert(Math.abs(share - (boxes.length - 2) / boxes.length) < 1e-12);
    assert.deepEqual(await axe(), []);
    // The same again, rightly.
    await press(page, kind, 'section > .keys button');
    assert.equal(await verdict(page, kind), 'open');
    for (const place of await solved(page, kind)) await page.$$(`outlean-${kind} >>> .entries input`).then(all => all[place].click());
    await press(page, kind, 'form button[type=submit]');
    assert.equal(await verdict(page, kind), 'right');
  });
}

eachBrowser('choose: nothing picked is asked for, and nothing is lost', async stage => {
  const { page } = stage;
  await ready(stage);
  await press(page, 'choose', 'form button[type=submit]');
  assert.equal(await verdict(page, 'choose'), 'open');
  assert.deepEqual(await texts(page, 'choose', '.problem:not([hidden])'), ['Pick at least one first.']);
});

eachBrowser('order: steps are put in order by the arrow keys, and what comes too early is said', { width: 320, height: 720 }, async stage => {
  const { page, axe } = stage;
  await ready(stage);
  await listen(page);
  const shown = await texts(page, 'order', '.step');
  await press(page, 'order', 'form button[type=submit]');
  assert.equal(await verdict(page, 'order'), 'other', 'it is never shown in a right order');
  assert.match((await texts(page, 'order', '.answer p')).join(' '), /comes too early\. It must wait for/);
  assert.equal((await texts(page, 'order', '.tick:not(:empty)')).length, 1);
  await press(page, 'order', 'section > .keys button');
  assert.notDeepEqual(await texts(page, 'order', '.step'), shown, 'another seed, another order');
  const right = await solved(page, 'order');
  for (let place = 0; place < right.length; place++) {
    for (let steps = 0; steps < right.length; steps++) {
      const at = await page.$$eval('outlean-order >>> li', (rows, of) => rows.findIndex(row => /** @type {HTMLElement} */ (row).dataset.place === String(of)), right[place]);
      if (at <= place) break;
      await page.$eval(`outlean-order >>> li[data-place="${right[place]}"] .moves button`, key => /** @type {HTMLElement} */ (key).focus());
      await page.keyboard.press('ArrowUp');
    }
  }
  await press(page, 'order', 'form button[type=submit]');
  assert.equal(await verdict(page, 'order'), 'right');
  assert.equal((await marks(page)).at(-1).share, 1);
  assert.deepEqual(await axe(), []);
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert(over <= 0, `${over} px too wide`);
});

eachBrowser('order: a step is dragged over its neighbour', { width: 1280, height: 900 }, async stage => {
  const { page } = stage;
  await ready(stage);
  const before = await texts(page, 'order', '.step');
  const grips = await page.$$('outlean-order >>> .grip');
  await grips[0].evaluate(grip => grip.scrollIntoView({ block: 'center' }));
  const [from, to] = [await grips[0].boundingBox(), await grips[1].boundingBox()];
  assert(from && to);
  await page.mouse.move(from.x + 5, from.y + from.height / 2);
  await page.mouse.down();
  await page.mouse.move(from.x + 5, to.y + to.height, { steps: 8 });
  await page.mouse.up();
  await rest(page);
  const after = await texts(page, 'order', '.step');
  assert.deepEqual(after.slice(0, 2), [before[1], before[0]]);
});

eachBrowser('set: the figure takes the rig, and what it was left at is marked', { width: 1280, height: 900 }, async stage => {
  const { page, axe } = stage;
  await ready(stage);
  await press(page, 'set', '.place button');
  const begun = await page.$eval('outlean-set', question => /** @type {any} */ (question).asked.rig());
  assert.deepEqual(await rig(page), begun);
  await press(page, 'set', 'form button[type=submit]');
  assert.equal(await verdict(page, 'set'), 'other');
  await press(page, 'set', 'section > .keys button');
  await press(page, 'set', '.place button');
  const goal = await solved(page, 'set');
  const again = await page.$eval('outlean-set', question => /** @type {any} */ (question).asked.rig());
  const moved = Object.keys(goal).filter(key => goal[key] !== again[key]);
  assert(moved.length > 0);
  for (const key of moved) {
    await page.evaluate((key, value) => {
      const figure = /** @type {any} */ (document.querySelector('outlean-rig'));
      figure.act({ kind: 'grab' });
      figure.act({ kind: 'set', key, value });
    }, key, goal[key]);
  }
  await rest(page);
  await press(page, 'set', 'form button[type=submit]');
  assert.equal(await verdict(page, 'set'), 'right', (await texts(page, 'set', '.answer p')).join(' '));
  assert.deepEqual(await axe(), []);
});

eachBrowser('what is said of an entry after the mark has its emphasis, and no marks of Markdown', async stage => {
  const { page, axe } = stage;
  await ready(stage, '/07-path/?seed=7');
  for (const [id, stressed] of [['price-of-a-straight-haul', 'more'], ['afternoon-walk-round', 'Manual of Military Engineering']]) {
    await page.waitForFunction(id => /** @type {any} */ (document.getElementById(id))?.asked, {}, id);
    // All is marked: of every entry something is said.
    await page.$$eval(`#${id} >>> .entries input`, boxes => boxes.forEach(box => /** @type {HTMLElement} */ (box).click()));
    await page.$eval(`#${id} >>> button[type=submit]`, key => /** @type {HTMLElement} */ (key).click());
    await rest(page);
    const said = await page.$$eval(`#${id} >>> .tick`, all => all.map(each => ({ text: each.textContent ?? '', stressed: [...each.querySelectorAll('em')].map(em => em.textContent) })));
    assert(said.some(each => each.stressed.includes(stressed)), `${id}: ${JSON.stringify(said)}`);
    assert(said.every(({ text }) => text.length > 5 && !/[*<>]|&\w+;/.test(text)), `${id}: ${JSON.stringify(said)}`);
  }
  assert.deepEqual(await axe(), []);
});
