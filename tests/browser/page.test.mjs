// The first lesson as a learner meets it: asked first, then shown; dragged, played, typed; read and compared with the
// native program on the same rig.

import assert from 'node:assert/strict';
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { eachBrowser } from './harness.mjs';
import { answer, lean, LESSON, ready, rest, rig, text } from './lesson.mjs';
import { solved } from './native.mjs';
import { root } from './place.mjs';

const DEG = Math.PI / 180;

/** @typedef {import('./harness.mjs').Stage} Stage */

/** What the table says each part carries, N, by part. @param {Stage['page']} page */
const carried = page =>
  page.$$eval('outlean-rig >>> tbody tr', rows => Object.fromEntries(rows.map(row => [row.dataset.part, [Number(row.dataset.demand), row.querySelector('b')?.textContent]])));

/** Holds every number of the table against the native program on the same rig. @param {Stage['page']} page */
async function sameAsNative(page) {
  await rest(page);
  const native = solved(await rig(page));
  const forces = native.solution.balance.stands;
  const wanted = {
    'guy-0-holdfast': forces.guys[0].tension,
    'guy-1-holdfast': forces.guys[1].tension,
    'leg-left': forces.compression.left,
    'leg-right': forces.compression.right,
    'main-line': native.solution.line.greatest_tension,
  };
  const found = await carried(page);
  for (const [part, force] of Object.entries(wanted)) {
    const [demand, shown] = found[part];
    assert(Math.abs(demand - force) <= 1e-9 * Math.max(1, Math.abs(force)), `${part}: ${demand} in the page, ${force} natively`);
    if (shown !== 'slack') assert.equal(shown?.split('\u2009')[0].replace('−', '-'), (force / 1000).toFixed(2), part);
  }
  return native;
}

eachBrowser('nothing of the answer is told before the mark is set', async stage => {
  const { page, axe } = stage;
  await ready(stage);
  const told = Object.values(await carried(page));
  assert.deepEqual(told.map(([, shown]) => shown), told.map(() => '?'));
  assert.match(await text(page, '.verdict'), /Predict first/);
  const before = await lean(page);
  await page.$eval('>>> .head', head => /** @type {HTMLElement} */ (head).focus());
  const [sweep] = await page.$$('outlean-rig >>> .keys button');
  assert(await sweep.evaluate(key => /** @type {HTMLButtonElement} */ (key).disabled));
  assert.equal(await lean(page), before);
  assert.deepEqual(await axe(), []);
});

eachBrowser('the forgotten line is recognised, and the native program has the same answer', async stage => {
  const { page, axe } = stage;
  await ready(stage);
  const shown = await rig(page);
  const leg = String(shown['line.path']).includes('left') ? 'left' : 'right';
  const hung = solved({ ...shown, 'line.path': 'hung' });
  await answer(page, `${(hung.solution.balance.stands.compression[leg] / 1000).toFixed(2)} kN`);
  const place = await page.$('>>> .answer');
  assert.equal(await place?.evaluate(each => /** @type {HTMLElement} */ (each).dataset.verdict), 'slip');
  assert.match(await text(page, '.answer'), /with the load hung; .*the haul line adds its own/);
  const native = await sameAsNative(page);
  const told = Number(await place?.evaluate(each => /** @type {HTMLElement} */ (each).dataset.answer));
  assert(Math.abs(told - native.solution.balance.stands.compression[leg]) < 1e-6);
  await (await page.$('>>> .answer summary'))?.click();
  assert((await page.$$('>>> .answer math')).length >= 5);
  assert.deepEqual(await axe(), []);
});

eachBrowser('right, wrong, in other units, and no number at all', async stage => {
  const { page } = stage;
  await ready(stage);
  const shown = await rig(page);
  const leg = String(shown['line.path']).includes('left') ? 'left' : 'right';
  const newtons = solved(shown).solution.balance.stands.compression[leg];
  const verdictOf = async (/** @type {string} */ typed) => {
    await ready(stage);
    await answer(page, typed);
    return page.$eval('>>> .answer', each => [String(/** @type {HTMLElement} */ (each).dataset.verdict), each.textContent ?? '']);
  };
  assert.equal((await verdictOf(`${(newtons / 4.4482).toFixed(0)} lbf`))[0], 'right');
  assert.equal((await verdictOf(`${(newtons / 1000).toFixed(2).replace('.', ',')}`))[0], 'right');
  const unit = await verdictOf(`${newtons.toFixed(0)} kN`);
  assert.equal(unit[0], 'unit', unit[1]);
  const other = await verdictOf('3.0 kN');
  assert.match(other[1], /at a lean of|Nothing near|is this leg|upright|shared/, other[1]);
  await ready(stage);
  await answer(page, 'about three');
  assert.match(await text(page, '.problem'), /about three.*does not read/);
  assert.equal(await page.$eval('>>> #mark', input => /** @type {HTMLInputElement} */ (input).value), 'about three');
  assert.match(await text(page, '.verdict'), /Predict first/);
});

eachBrowser('the head is dragged, halts at the end of the range, and goes past when taken again', async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  const head = async () => {
    const box = await (await page.$('>>> .head'))?.boundingBox();
    assert(box);
    return [box.x + box.width / 2, box.y + box.height / 2];
  };
  await page.$eval('>>> .plate', plate => plate.scrollIntoView({ block: 'center' }));
  await rest(page);
  const start = await lean(page);
  const drag = async (/** @type {number} */ dx, /** @type {number} */ dy) => {
    const [x, y] = await head();
    await page.mouse.move(x, y);
    await page.mouse.down();
    await page.mouse.move(x + dx, y + dy, { steps: 8 });
    await page.mouse.up();
    await rest(page);
  };
  await drag(18, 5);
  const moved = await lean(page);
  assert(moved > start + 1 * DEG, `${moved / DEG}`);
  const native = await sameAsNative(page);
  const end = native.range.intervals[0].to;
  await drag(160, 120);
  assert(Math.abs((await lean(page)) - end) < 0.011 * DEG, `${(await lean(page)) / DEG} against ${end / DEG}`);
  assert.match(await text(page, '.said'), /again to go past/);
  await sameAsNative(page);
  await drag(40, 30);
  assert((await lean(page)) > end + 1 * DEG);
  assert.match(await text(page, '.verdict'), /Outside the working range/);
  await sameAsNative(page);
});

eachBrowser('the sweep passes the limit and returns, and can be paused', async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  await page.evaluate(() => /** @type {any} */ (document.querySelector('outlean-rig')).act({ kind: 'set', key: 'lean', value: 0.5 }));
  const { range } = await sameAsNative(page);
  const [sweep] = await page.$$('outlean-rig >>> .keys button');
  await sweep.click();
  /** @type {number[]} */
  const leans = await page.evaluate(
    () =>
      new Promise(done => {
        const figure = /** @type {any} */ (document.querySelector('outlean-rig'));
        /** @type {number[]} */
        const leans = [];
        const look = () => {
          leans.push(figure.rig.lean);
          const rested = leans.length > 60 && leans.slice(-30).every(lean => lean === 0.5);
          if (rested || leans.length > 3000) done(leans);
          else requestAnimationFrame(look);
        };
        requestAnimationFrame(look);
      }),
  );
  const most = Math.max(...leans);
  assert(Math.abs(most - (range.intervals[0].to + 6 * DEG)) < 1e-6, `${most / DEG}`);
  assert(Math.abs((leans.at(-1) ?? 0) - 0.5) < 1e-9);
  await sweep.click();
  await new Promise(done => setTimeout(done, 400));
  await sweep.click();
  await rest(page);
  const paused = await lean(page);
  await new Promise(done => setTimeout(done, 200));
  assert.equal(await lean(page), paused);
  await sameAsNative(page);
});

eachBrowser('the keyboard alone does everything', async stage => {
  const { page } = stage;
  await ready(stage);
  /** The element that has the focus, through shadow roots. */
  const focused = () =>
    page.evaluate(() => {
      let at = document.activeElement;
      while (at?.shadowRoot?.activeElement) at = at.shadowRoot.activeElement;
      return `${at?.getAttribute('role') ?? at?.tagName.toLowerCase()} ${at?.getAttribute('aria-label') ?? at?.id ?? ''} ${at?.textContent ?? ''}`;
    });
  const tabTo = async (/** @type {RegExp} */ wanted) => {
    for (let i = 0; i < 60; i++) {
      await page.keyboard.press('Tab');
      if (wanted.test(await focused())) return;
    }
    assert.fail(`${wanted} is not reached by Tab`);
  };
  await tabTo(/^input/);
  await page.keyboard.type('4.4');
  await page.keyboard.press('Enter');
  await rest(page);
  await tabTo(/^slider Lean/);
  const start = await lean(page);
  await page.keyboard.press('ArrowRight');
  await rest(page);
  assert(Math.abs((await lean(page)) - start - DEG) < 1e-9);
  const spoken = await page.$eval('>>> .value[data-key=lean]', at => at.getAttribute('aria-valuetext'));
  assert.match(spoken ?? '', /^\d+ degrees, in the working range; aft guy [\d.]+\u2009kN, \d+\u2009% of its allowable$/);
  await sameAsNative(page);
  await tabTo(/^slider Load/);
  const load = (await rig(page))['load.mass'];
  await page.keyboard.press('PageUp');
  await page.keyboard.press('ArrowLeft');
  await rest(page);
  assert.equal((await rig(page))['load.mass'], Math.ceil(Number(load) / 10 - 1e-9) * 10 + 40 + (Number(load) % 10 === 0 ? 0 : -10) + (Number(load) % 10 === 0 ? 0 : 0));
  await tabTo(/^slider Aft guy, setback/);
  await page.keyboard.press('ArrowRight');
  await tabTo(/^slider Head of the frame/);
  await page.keyboard.press('ArrowLeft');
  await rest(page);
  await sameAsNative(page);
  await tabTo(/Reset/);
  await page.keyboard.press('Enter');
  await rest(page);
  assert.equal((await rig(page))['load.mass'], load);
});

eachBrowser('straight back without a fore guy tips, calmly, and is set back', async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  await (await page.$('>>> select[data-key="line.path"]'))?.select('straight back');
  await rest(page);
  assert.doesNotMatch(await text(page, '.verdict'), /Tips/);
  await sameAsNative(page);
  await (await page.$('>>> select[data-key="fore.rigged"]'))?.select('no');
  await new Promise(done => setTimeout(done, 1700));
  assert.match(await text(page, '.verdict'), /Tips back/);
  assert.match(await text(page, '[role=status]'), /Tips back/);
  await (await page.$('>>> select[data-key="fore.rigged"]'))?.select('yes');
  await rest(page);
  assert.doesNotMatch(await text(page, '.verdict'), /Tips/);
});

eachBrowser('units are switched for the whole page and remembered', async stage => {
  const { page, open } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  await page.select('select[data-setting=units]', 'us');
  await rest(page);
  assert.match(await text(page, '#asks'), /15 ft 1\u2009in to the lashing/);
  assert.match(String((await carried(page))['leg-left'][1]), /\u2009lbf$/);
  assert.match(await text(page, '.answer'), /lbf/);
  await open(LESSON);
  await page.waitForSelector('>>> #mark');
  assert.equal(await page.$eval('select[data-setting=units]', select => /** @type {HTMLSelectElement} */ (select).value), 'us');
});

eachBrowser('with reduced motion nothing sweeps, and steps are of two degrees', { reducedMotion: true }, async stage => {
  const { page } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  const [sweep, , out] = await page.$$('outlean-rig >>> .keys button');
  assert(await sweep.evaluate(key => /** @type {HTMLButtonElement} */ (key).disabled));
  const start = await lean(page);
  await out.click();
  await rest(page);
  assert(Math.abs((await lean(page)) - start - 2 * DEG) < 1e-9);
});

for (const width of [320, 1280, 1920]) {
  for (const dark of [false, true]) {
    eachBrowser(`${width} px, ${dark ? 'dark' : 'light'}`, { width, height: width === 320 ? 640 : 1000, dark }, async stage => {
      const { page, shot, axe } = stage;
      await ready(stage);
      await shot(`question ${width} ${dark ? 'dark' : 'light'}`);
      await answer(page, '4 kN');
      await page.$eval('outlean-rig', figure => figure.scrollIntoView());
      await new Promise(done => setTimeout(done, 700));
      await shot(`figure ${width} ${dark ? 'dark' : 'light'}`);
      const heads = await page.$$eval('>>> .column thead th', all => all.map(head => {
        const text = document.createRange();
        text.selectNodeContents(head);
        return [head.textContent, text.getClientRects().length];
      }));
      assert.equal(heads.length, 4);
      assert.deepEqual(heads.filter(([, lines]) => lines !== 1), [], 'heads of the readings stand on a line each');
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert(over <= 0, `${over} px wider than the window`);
      assert.deepEqual(await axe(), []);
    });
  }
}

eachBrowser('at 200 % zoom nothing is cut or lost', { width: 640, height: 450, scale: 2 }, async stage => {
  const { page, shot, axe } = stage;
  await ready(stage);
  await answer(page, '4 kN');
  await page.$eval('outlean-rig', figure => figure.scrollIntoView());
  await new Promise(done => setTimeout(done, 700));
  await shot('figure zoomed');
  const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
  assert(over <= 0, `${over} px wider than the window`);
  // Everything that can be pressed is within the window's width.
  const beyond = await page.$$eval('>>> :is(button,select,input,summary,[role=slider])', all =>
    all.filter(each => each.checkVisibility()).map(each => each.getBoundingClientRect()).filter(({ left, right, width }) => width > 0 && (left < -1 || right > innerWidth + 1)).length);
  assert.equal(beyond, 0);
  assert.deepEqual(await axe(), []);
});

eachBrowser('on a projector', { width: 1920, height: 1080 }, async stage => {
  const { page, shot, axe } = stage;
  await ready(stage, `${LESSON}&theme=projector`);
  await answer(page, '4 kN');
  await page.$eval('outlean-rig', figure => figure.scrollIntoView());
  await new Promise(done => setTimeout(done, 700));
  await shot('figure projector');
  assert.deepEqual(await axe(), []);
});

eachBrowser('the course lists its lessons', async ({ page, open, axe }) => {
  await open('/');
  const listed = await page.$$eval('main ol a', links => links.map(link => [link.textContent, link.getAttribute('href')]));
  const folders = readdirSync(join(root, 'lessons'), { withFileTypes: true }).filter(entry => entry.isDirectory()).map(entry => entry.name).sort();
  assert.deepEqual(listed.map(([, href]) => href?.replace(/\/$/, '')), folders);
  assert(listed.some(([title]) => title === 'Lean and its price'));
  assert.deepEqual(await axe(), []);
});
