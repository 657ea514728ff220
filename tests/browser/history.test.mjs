// Steps taken back and done again; a rig sent in a link.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { answer, lean, ready, rest, rig, text } from './lesson.mjs';

const DEG = Math.PI / 180;

/** Presses a key of the row under the curves. @param {import('./harness.mjs').Stage['page']} page @param {string} key */
async function press(page, key) {
  await (await page.waitForSelector(`>>> .keys [data-key=${key}]`))?.click();
  await rest(page);
}

/** The rig shown, to be compared: zero has no sign in an address. @param {import('./harness.mjs').Stage['page']} page */
const shown = async page => JSON.stringify(await rig(page));

/** Whether a key can be pressed. @param {import('./harness.mjs').Stage['page']} page @param {string} key */
const live = (page, key) => page.$eval(`>>> .keys [data-key=${key}]`, button => !(/** @type {HTMLButtonElement} */ (button).disabled));

eachBrowser('steps are taken back by key and by keyboard, and done again', async stage => {
  const { page } = stage;
  await ready(stage);
  assert.equal(await live(page, 'undo'), false);
  await answer(page, '3 kN');
  const first = await lean(page);
  await press(page, 'out');
  await press(page, 'out');
  assert.notEqual(await lean(page), first);
  await press(page, 'undo');
  await press(page, 'undo');
  assert.equal(await lean(page), first);
  assert.deepEqual([await live(page, 'undo'), await live(page, 'redo')], [false, true]);
  await page.$eval('>>> .head', head => /** @type {HTMLElement} */ (head).focus());
  await page.keyboard.down('Control');
  await page.keyboard.press('y');
  await page.keyboard.up('Control');
  await rest(page);
  const forth = await lean(page);
  assert(Math.abs(forth - first - DEG) < 1e-9, `${forth / DEG}`);
  await page.keyboard.down('Control');
  await page.keyboard.press('z');
  await page.keyboard.up('Control');
  await rest(page);
  assert.equal(await lean(page), first);
});

eachBrowser('a link holds the rig to the last bit, and a bad one says what is wrong with it', async stage => {
  const { page, axe } = stage;
  await ready(stage);
  await answer(page, '3 kN');
  await press(page, 'back');
  const sent = await shown(page);
  await press(page, 'link');
  await page.waitForFunction(() => location.hash.length > 100);
  const link = await page.evaluate(() => location.href);
  // Opened elsewhere it shows that rig at once, and the lesson's question waits.
  await page.waitForNetworkIdle({ idleTime: 100 });
  await page.goto('about:blank');
  await page.goto(link, { waitUntil: 'load' });
  await page.waitForFunction(() => /** @type {any} */ (document.querySelector('outlean-rig'))?.rig);
  await page.waitForSelector('>>> .said');
  await rest(page);
  assert.equal(await shown(page), sent);
  assert.match(await text(page, '.said'), /came with the link/);
  assert.match(await text(page, '.verdict'), /working range/);
  assert.equal(await page.$('>>> #mark'), null);
  assert.deepEqual(await axe(), []);
  await press(page, 'reset');
  assert.notEqual(await shown(page), sent);
  await press(page, 'undo');
  assert.equal(await shown(page), sent);
  // The question is put when it is asked for.
  const [put] = await page.$$('outlean-estimate >>> button');
  await put.click();
  await page.waitForSelector('>>> #mark');
  await rest(page);
  assert.match(await text(page, '.verdict'), /Predict first/);

  for (const [from, to, said] of /** @type {const} */ ([
    [/lean=[^&]*/, 'lean=9', /`lean` is .*allowed is/],
    [/lean=[^&]*/, 'lean=steep', /`lean` is `steep`; allowed is a number/],
    [/line\.path=[^&]*/, 'line.path=sideways', /`line.path` is `sideways`; allowed is hung, /],
    [/lean=/, 'slope=', /a rig has no `slope`/],
  ])) {
    await page.waitForNetworkIdle({ idleTime: 100 });
    await page.goto('about:blank');
    await page.goto(link.replace(from, to), { waitUntil: 'load' });
    await page.waitForFunction(words => new RegExp(words).test(document.querySelector('outlean-rig')?.shadowRoot?.querySelector('.said')?.textContent ?? ''), {}, said.source);
    // Nothing is lost: the lesson's own rig stands.
    assert.notEqual(await lean(page), 9);
  }
});
