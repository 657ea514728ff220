// The frame from behind and the forces on the head: shown when asked for, in step with the figure; the feet are spread
// by drag and by keyboard.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { inked } from './inked.mjs';
import { answer, ready, rest, rig, text } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** Presses the key of a view. @param {Page} page @param {string} view */
async function show(page, view) {
  await page.$eval(`>>> .views [data-view=${view}]`, key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
  await rest(page);
}

/** @param {Page} page */
const spread = async page => Number((await rig(page))['feet.at.left.left']) - Number((await rig(page))['feet.at.right.left']);

eachBrowser('the frame from behind and the forces on the head move with the figure', { width: 1280, height: 900 }, async stage => {
  const { page, axe, shot } = stage;
  await ready(stage);
  await show(page, 'forces');
  assert.equal((await inked(page, '.forces canvas')).count, 0, 'no force is told before the answer');
  await answer(page, '3 kN');
  await show(page, 'front');
  await new Promise(done => setTimeout(done, 600));
  const before = [await inked(page, '.front canvas'), await inked(page, '.forces canvas')];
  for (const { count } of before) assert(count > 1000, `${count} pixels are drawn`);
  await page.$eval('>>> [data-key=out]', key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
  await rest(page);
  const after = [await inked(page, '.front canvas'), await inked(page, '.forces canvas')];
  before.forEach(({ sum }, i) => assert.notEqual(after[i].sum, sum, `picture ${i} follows the lean`));
  await shot('views 1280');
  assert.deepEqual(await axe(), []);
});

eachBrowser('the feet are spread by keyboard and by drag', { width: 1280, height: 900 }, async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '3 kN');
  await show(page, 'front');
  const foot = await page.waitForSelector('>>> .front .head');
  const first = await spread(page);
  await foot?.focus();
  await page.keyboard.press('ArrowRight');
  await rest(page);
  assert(Math.abs((await spread(page)) - first - 0.05) < 1e-9, `${first} to ${await spread(page)}`);
  assert.match((await foot?.evaluate(at => at.getAttribute('aria-valuetext'))) ?? '', /1\.55\u2009m/);
  await foot?.evaluate(at => at.scrollIntoView({ block: 'center' }));
  const box = await foot?.boundingBox();
  assert(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 20, y, { steps: 4 });
  await page.mouse.up();
  await rest(page);
  const wide = await spread(page);
  assert(wide > first + 0.3, `${wide}`);
  assert.match(await text(page, '.value[data-key="feet.spread"]'), new RegExp(wide.toFixed(2)));
  await page.keyboard.down('Control');
  await page.keyboard.press('z');
  await page.keyboard.press('z');
  await page.keyboard.up('Control');
  await rest(page);
  assert(Math.abs((await spread(page)) - first) < 1e-9);
});

eachBrowser('where there is room for one view, one is shown', { width: 320, height: 720 }, async stage => {
  const { page, axe } = stage;
  await ready(stage);
  await answer(page, '3 kN');
  /** @type {[string, string, string[]][]} */
  const each = [
    ['side', '.plate > canvas', ['.front', '.forces']],
    ['front', '.front canvas', ['.plate > canvas', '.forces', '.curves']],
    ['forces', '.forces canvas', ['.plate > canvas', '.front', '.curves']],
    ['curves', '.curves canvas', ['.plate']],
    ['readings', 'table', ['.plate', '.curves']],
  ];
  for (const [view, shown, hidden] of each) {
    await show(page, view);
    const seen = (/** @type {string} */ selector) => page.$eval(`>>> ${selector}`, at => at.getClientRects().length > 0);
    assert(await seen(shown), `${view} is shown`);
    for (const other of hidden) assert(!(await seen(other)), `${other} is hidden where ${view} is shown`);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert(over <= 0, `${over} px wider than the window in ${view}`);
    assert.deepEqual(await axe(), []);
  }
});

eachBrowser('the aft holdfast is moved by drag and by keyboard', { width: 1280, height: 900 }, async stage => {
  const { page, axe } = stage;
  await ready(stage);
  await answer(page, '3 kN');
  const setback = async () => Number((await rig(page))['guy.0.setback']);
  const first = await setback();
  const anchor = await page.waitForSelector('>>> .head[aria-label^="Aft holdfast"]');
  await anchor?.evaluate(at => at.scrollIntoView({ block: 'center' }));
  const box = await anchor?.boundingBox();
  assert(box);
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  await page.mouse.move(x + 60, y, { steps: 4 });
  await page.mouse.up();
  await rest(page);
  const near = await setback();
  assert(near < first - 0.5, `${first} to ${near}`);
  assert(Math.abs(near * 10 - Math.round(near * 10)) < 1e-9, `${near} is a step of the tape`);
  await page.keyboard.press('ArrowLeft');
  await rest(page);
  assert(Math.abs((await setback()) - near + 0.1) < 1e-9);
  assert.deepEqual(await axe(), []);
});
