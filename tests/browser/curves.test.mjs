// The curves over another lever than the lean: chosen above them, drawn along, in step with the rig.

import assert from 'node:assert/strict';
import { eachBrowser } from './harness.mjs';
import { answer, lean, ready, rest, rig, text } from './lesson.mjs';

/** @typedef {import('./harness.mjs').Stage['page']} Page */

const CHOICE = 'select[data-key="curves.over"]';

/** Chooses what the curves run over, as a reader does. @param {Page} page @param {string} over */
async function choose(page, over) {
  const select = await page.waitForSelector(`>>> ${CHOICE}`);
  await select?.select(over);
  await rest(page);
  await rest(page);
}

/** A sum that tells pictures of the curves apart; 0 where nothing is drawn. @param {Page} page */
const picture = page =>
  page.$eval('>>> .curves canvas', canvas => {
    const { width, height } = /** @type {HTMLCanvasElement} */ (canvas);
    const copy = Object.assign(document.createElement('canvas'), { width, height }).getContext('2d', { willReadFrequently: true });
    copy?.drawImage(/** @type {HTMLCanvasElement} */ (canvas), 0, 0);
    const data = copy?.getImageData(0, 0, width, height).data ?? new Uint8ClampedArray();
    let sum = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i]) sum = (sum * 31 + i + data[i - 1]) % 1e9;
    return sum;
  });

/** Drags along the curves from one share of their width to another. @param {Page} page @param {number} from @param {number} to */
async function drag(page, from, to) {
  const curves = await page.waitForSelector('>>> .curves');
  await curves?.evaluate(place => place.scrollIntoView({ block: 'center' }));
  const box = await curves?.boundingBox();
  assert(box);
  const y = box.y + box.height * 0.4;
  await page.mouse.move(box.x + box.width * from, y);
  await page.mouse.down();
  await page.mouse.move(box.x + box.width * to, y, { steps: 5 });
  await page.mouse.up();
  await rest(page);
  await rest(page);
}

eachBrowser('the curves run over lean, setback, spread or haul direction', { width: 1280, height: 900 }, async stage => {
  const { page, axe, shot } = stage;
  await ready(stage);
  const disabled = () => page.$eval(`>>> ${CHOICE}`, select => /** @type {HTMLSelectElement} */ (select).disabled);
  assert(await disabled(), 'nothing is chosen before the answer');
  await answer(page, '3 kN');
  assert(!(await disabled()));
  const pictures = new Set([await picture(page)]);
  const told = () => page.$eval('>>> .curves canvas', canvas => canvas.getAttribute('aria-label') ?? '');

  await choose(page, 'setback');
  pictures.add(await picture(page));
  assert.match(await told(), /setback/);
  const [before, leaned] = [await rig(page), await lean(page)];
  await drag(page, 0.5, 0.7);
  const after = await rig(page);
  assert.equal(await lean(page), leaned, 'the lean stays');
  const changed = Object.keys(after).filter(key => after[key] !== before[key]);
  assert.deepEqual(changed, ['guy.0.setback']);
  const setback = Number(after['guy.0.setback']);
  // Whole steps, and where the pointer was let go: 1 m to 15 m over the panel.
  assert(Math.abs(setback * 10 - Math.round(setback * 10)) < 1e-6 && setback > 9 && setback < 12, `${setback}`);
  assert.match(await text(page, '.value[data-key="aft.setback"]'), new RegExp(setback.toFixed(1).replace('.', '\\.')));
  await shot('curves setback 1280');

  // They follow what else is set.
  const still = await picture(page);
  await page.$eval('>>> [data-key=out]', key => /** @type {HTMLElement} */ (key).click());
  await rest(page);
  await rest(page);
  assert.notEqual(await picture(page), still, 'another lean, other curves over setback');

  await choose(page, 'spread');
  pictures.add(await picture(page));
  await drag(page, 0.5, 0.6);
  const apart = Number((await rig(page))['feet.at.left.left']) - Number((await rig(page))['feet.at.right.left']);
  assert(apart > 2 && apart < 3, `${apart}`);
  await shot('curves spread 1280');

  await choose(page, 'haul');
  pictures.add(await picture(page));
  const fixed = await rig(page);
  await drag(page, 0.5, 0.7);
  assert.deepEqual(await rig(page), fixed, 'a haul direction is not dragged');
  assert.match(await text(page, '.over .fixed'), /only shown/);
  await shot('curves haul 1280');
  assert.deepEqual(await axe(), []);
  assert.equal(pictures.size, 4);

  // A hung load has no haul direction: over the lean again, and back when the line is.
  const path = await page.waitForSelector('>>> select[data-key="line.path"]');
  const was = await path?.evaluate(select => /** @type {HTMLSelectElement} */ (select).value);
  await path?.select('hung');
  await rest(page);
  await rest(page);
  const shown = () => page.$eval(`>>> ${CHOICE}`, select => /** @type {HTMLSelectElement} */ (select).value);
  const offered = () => page.$$eval(`>>> ${CHOICE} option`, options => options.filter(option => !/** @type {HTMLOptionElement} */ (option).disabled).map(option => /** @type {HTMLOptionElement} */ (option).value));
  assert.equal(await shown(), 'lean');
  assert.deepEqual(await offered(), ['lean', 'setback', 'spread']);
  await path?.select(was ?? '');
  await rest(page);
  await rest(page);
  assert.equal(await shown(), 'haul');
});

for (const [name, look, theme] of /** @type {[string, import('./browsers.mjs').Look, string][]} */ ([
  ['320', { width: 320, height: 720 }, 'light'],
  ['projector', { width: 1920, height: 1080 }, 'projector'],
])) {
  eachBrowser(`the choice of axis has room: ${name}`, look, async stage => {
    const { page, axe, shot } = stage;
    await ready(stage, `/05-lean/?seed=7&theme=${theme}`);
    await answer(page, '3 kN');
    await page.$eval('>>> .views [data-view=curves]', key => /** @type {HTMLElement} */ (key).click());
    for (const over of ['setback', 'haul']) {
      await choose(page, over);
      await page.$eval('>>> .over', place => place.scrollIntoView());
      await rest(page);
      await shot(`curves ${over} ${name}`);
      const beyond = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert(beyond <= 0, `${beyond} px wider than the window`);
    }
    assert.deepEqual(await axe(), []);
  });
}

eachBrowser('uncertainty bands come under the curves, and what they are is said', { width: 1280, height: 900 }, async stage => {
  const { page, axe } = stage;
  await ready(stage);
  const disabled = () => page.$eval('>>> [data-key="curves.bands"]', box => /** @type {HTMLInputElement} */ (box).disabled);
  assert(await disabled(), 'what the lines would be is not told before the answer');
  await answer(page, '3 kN');
  await new Promise(done => setTimeout(done, 800));
  const before = await picture(page);
  const press = () => page.$eval('>>> [data-key="curves.bands"]', box => /** @type {HTMLElement} */ (box).click());
  await press();
  await page.waitForFunction(() => /nine in ten of 512/.test(document.querySelector('outlean-rig')?.shadowRoot?.querySelector('.over .fixed')?.textContent ?? ''));
  const start = Date.now();
  while ((await picture(page)) === before && Date.now() - start < 10_000) await rest(page);
  const banded = await picture(page);
  assert.notEqual(banded, before);
  assert.deepEqual(await axe(), []);
  // In step with the rig: away while it is another, back once that is drawn.
  const load = (/** @type {number} */ value) => page.evaluate(value => /** @type {any} */ (document.querySelector('outlean-rig')).act({ kind: 'set', key: 'load.mass', value }), value);
  const mass = Number((await rig(page))['load.mass']);
  await load(mass - 80);
  await new Promise(done => setTimeout(done, 2000));
  assert.notEqual(await picture(page), banded);
  await press();
  await load(mass);
  await rest(page);
  await rest(page);
  assert.equal(await picture(page), before);
});
