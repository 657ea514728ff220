// Any number opens the working behind it, with the present values.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { answer, ready, rest, text } from './lesson.mjs';

eachBrowser('every number of the readings opens its working', { width: 1280, height: 900 }, async stage => {
  const { page, axe, shot } = stage;
  await ready(stage);
  await page.$eval('>>> tbody .opener', opener => /** @type {HTMLElement} */ (opener).click());
  await rest(page);
  assert.equal(await page.$eval('>>> .working', panel => /** @type {HTMLElement} */ (panel).hidden), true, 'nothing is told before the answer');
  await answer(page, '3 kN');
  await page.$eval('>>> .below summary', summary => /** @type {HTMLElement} */ (summary).click());
  const keys = await page.$$eval('>>> [data-opens]', openers => openers.map(opener => /** @type {HTMLElement} */ (opener).dataset.opens ?? ''));
  assert(keys.length >= 15, keys.join());
  for (const key of keys) {
    const opener = await page.$(`>>> [data-opens="${key}"]`);
    await opener?.focus();
    await page.keyboard.press('Enter');
    await rest(page);
    const said = await page.$eval('>>> .working > div', body => body.textContent ?? '');
    assert(said.length > 20, `${key}: ${said}`);
    assert.doesNotMatch(said, /\b(symbol|check_rule|source|how|step|working)\.[a-z_]+/, `${key} has a word that is missing`);
    // The heading says the number that was opened; the last step of a formula comes to it.
    const shown = key.startsWith('reading.') ? await text(page, `[data-reading="${key}"]`) : await text(page, `tr[data-part="${key}"] b`);
    const heading = await text(page, '.working h3');
    if (shown !== 'slack') assert(heading.endsWith(shown), `${key}: ${heading} against ${shown}`);
    const last = await page.$$eval('>>> .working .plain', steps => steps.at(-1)?.textContent ?? '');
    if (last && shown !== 'slack') assert(last.endsWith(shown), `${key}: ${last} against ${shown}`);
    await page.keyboard.press('Escape');
    await rest(page);
    const back = await page.evaluate(() => /** @type {HTMLElement | null | undefined} */ (document.querySelector('outlean-rig')?.shadowRoot?.activeElement)?.dataset.opens);
    assert.equal(back, key, 'the focus returns');
  }
  // Open, it keeps step with the figure.
  await page.$eval('>>> [data-opens="leg-left"]', opener => /** @type {HTMLElement} */ (opener).click());
  await rest(page);
  const before = await text(page, '.working');
  assert((await page.$$('>>> .working math')).length >= 5);
  await shot('working 1280');
  assert.deepEqual(await axe(), []);
  await page.$eval('>>> [data-key=out]', key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
  await rest(page);
  assert.notEqual(await text(page, '.working'), before);
});
