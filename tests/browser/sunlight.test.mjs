// Sunlight: outdoors, in gloves.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { answer, LESSON, ready } from './lesson.mjs';

/** Whatever can be pressed or dragged, by its size: what is smaller than a fingertip in a glove. @param {import('./harness.mjs').Stage['page']} page */
const small = page =>
  page.evaluate(() => {
    /** @type {string[]} */
    const found = [];
    const look = (/** @type {Document | ShadowRoot} */ root) => {
      for (const each of root.querySelectorAll('*')) {
        if (each.shadowRoot) look(each.shadowRoot);
        if (getComputedStyle(each).pointerEvents === 'none') continue;
        if (!each.matches('a[href],button,select,input,summary,[role=slider]') || !each.checkVisibility()) continue;
        // A tick is set by a press anywhere on its label.
        const target = (each.matches('[type=checkbox],[type=radio]') && each.closest('label')) || each;
        const { width, height, left } = target.getBoundingClientRect();
        if (left >= 0 && (width < 44 || height < 44)) found.push(`${each.tagName} ${each.className} ${each.textContent?.slice(0, 20)}: ${width} by ${height}`);
      }
    };
    look(document);
    return found;
  });

for (const width of [320, 1280, 1920]) {
  eachBrowser(`in sunlight, ${width} px`, { width, height: width === 320 ? 640 : 1000 }, async stage => {
    const { page, shot, axe } = stage;
    await ready(stage, `${LESSON}&theme=sunlight`);
    await shot(`question ${width} sunlight`);
    assert.deepEqual(await small(page), []);
    await answer(page, '4 kN');
    await page.$$eval('>>> details', all => all.forEach(each => { /** @type {HTMLDetailsElement} */ (each).open = true; }));
    await page.$eval('outlean-rig', figure => figure.scrollIntoView());
    await new Promise(done => setTimeout(done, 700));
    await shot(`figure ${width} sunlight`);
    assert.deepEqual(await small(page), []);
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert(over <= 0, `${over} px wider than the window`);
    assert.deepEqual(await axe(), []);
  });
}

eachBrowser('sunlight is larger than paper, and remembered', async stage => {
  const { page, open } = stage;
  await ready(stage);
  const size = () => page.evaluate(() => parseFloat(getComputedStyle(document.body).fontSize));
  const usual = await size();
  await page.select('select[data-setting=theme]', 'sunlight');
  assert(Math.abs((await size()) / usual - 1.15) < 0.01);
  await open(LESSON);
  assert.equal(await page.evaluate(() => document.documentElement.dataset.theme), 'sunlight');
});

eachBrowser('the list of lessons in sunlight', async ({ page, open, axe }) => {
  await open('/?theme=sunlight');
  await page.waitForFunction(() => document.documentElement.dataset.theme === 'sunlight');
  assert.deepEqual(await small(page), []);
  assert.deepEqual(await axe(), []);
});
