// Several estimates of one figure: it shows the rig of the one that is being answered, and holds back its forces until then.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { rest } from './lesson.mjs';

eachBrowser('questions of one figure take it in turn', async ({ page, open }) => {
  await open('/06-resultant/?seed=7');
  await page.waitForFunction(() => [...document.querySelectorAll('outlean-estimate')].every(each => /** @type {any} */ (each).parts));
  await rest(page);
  const seen = () => page.evaluate(() => {
    const [first, second] = /** @type {any[]} */ ([...document.querySelectorAll('outlean-estimate')]);
    const figure = first.figure;
    const shown = JSON.stringify(figure.rig);
    return { one: first.getAttribute('figure') === second.getAttribute('figure'), first: shown === JSON.stringify(first.rig), second: shown === JSON.stringify(second.rig), veiled: figure.hasAttribute('veiled') };
  });
  const mark = async (/** @type {number} */ number) => {
    const [...marks] = await page.$$('>>> #mark');
    await marks[number].focus();
    await rest(page);
    return marks[number];
  };
  assert.deepEqual(await seen(), { one: true, first: true, second: false, veiled: true });
  await (await mark(0)).type('2 kN');
  await page.keyboard.press('Enter');
  await rest(page);
  assert.deepEqual(await seen(), { one: true, first: true, second: false, veiled: false }, 'answered: its forces are shown');
  const second = await mark(1);
  assert.deepEqual(await seen(), { one: true, first: false, second: true, veiled: true }, 'entered: another rig, its forces held back');
  await second.type('2 kN');
  await page.keyboard.press('Enter');
  await rest(page);
  assert.deepEqual(await seen(), { one: true, first: false, second: true, veiled: false });
});
