// The class table in the page, held against what `outlean class` prints of the same files.

import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { outlean, site } from './place.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {import('./harness.mjs').Stage['page']} Page */

const folder = mkdtempSync(join(tmpdir(), 'class-'));
after(() => rmSync(folder, { recursive: true }));

/** Objectives of the built course, and some that it does not have. @type {string[]} */
const course = [...readFileSync(join(site, 'class', 'index.html'), 'utf8').matchAll(/"objectives":(\[.*?\])/g)].flatMap(([, list]) => JSON.parse(list));
const OBJECTIVES = [course[5], course[1], course[0], course[9], 'Something else, that “no” lesson has.', ''];

/** Whole numbers below `most`, the same every time. */
function dice() {
  let state = 20_261_126;
  return (/** @type {number} */ most) => {
    state = (Math.imul(state, 1_664_525) + 1_013_904_223) >>> 0;
    return Math.floor((state / 2 ** 32) * most);
  };
}

/** Files of a class: eleven learners, one of them in three files that overlap, some damaged, some no records. @returns {Record<string, string>} */
function files() {
  const below = dice();
  const attempt = () => {
    const share = [0, 0.25, 1 / 3, 0.5, 0.625, 1][below(6)];
    return {
      time: 1_790_000_000 + below(9_000_000), lesson: '05-lean', question: ['leg', 'guy', 'lean'][below(3)], lesson_version: '5f', seed: below(1e6),
      response: ['2 kN', '=1+1', 'a "b", c'][below(3)], mark: { share, verdict: share === 1 ? 'right' : 'near' }, seconds: below(2) ? below(90) : null, hints: below(3), objective: OBJECTIVES[below(OBJECTIVES.length)],
    };
  };
  const file = (/** @type {string} */ learner, /** @type {any[]} */ attempts) => JSON.stringify({ format: 'outlean-record', version: 2, learner, attempts, aside: [] });
  const some = (/** @type {number} */ count) => Array.from({ length: count }, attempt);
  /** @type {Record<string, string>} */
  const made = {};
  for (const learner of ['Ada', 'Bo', '=Cy', '12', 'Dov Ørsted, "the younger"', 'Eve', 'Fen', 'Gus', 'Hal']) made[`${learner.replace(/\W/g, '')}.json`] = file(learner, some(1 + below(30)));
  const whole = some(20);
  made['ines.json'] = file('Ines', whole.slice(0, 12));
  made['ines-later.json'] = file('Ines', whole.slice(8));
  made['ines-other.json'] = file('Ines', [{ ...whole[3], mark: { share: whole[3].mark.share === 1 ? 0 : 1, verdict: 'other' } }]);
  made['halves.json'] = file('Jo', [1, 0.5].map((share, at) => ({ ...attempt(), time: 1_800_000_000 + at, objective: course[0], mark: { share: share === 1 ? 1 : 0.25, verdict: 'near' } })));
  made['damaged.json'] = file('Kit', [attempt(), { ...attempt(), mark: { share: 3, verdict: 'near' } }, { ...attempt(), when: 5 }, 'nothing']);
  made['first.json'] = JSON.stringify({ format: 'outlean-record', version: 1, learner: 'Lu', attempts: [{ time: 1_700_000_000, lesson: '05-lean', question: 'leg', seed: 1, response: '2 kN', right: true }] });
  made['torn.json'] = made['ines.json'].slice(0, 200);
  made['newer.json'] = JSON.stringify({ ...JSON.parse(made['ines.json']), version: 9 });
  made['nobody.json'] = file(' ', []);
  return made;
}
const FILES = files();
for (const [name, text] of Object.entries(FILES)) writeFileSync(join(folder, name), text);

/** What the native program says of all files. @param {...string} options */
function native(...options) {
  const { stdout, stderr, status } = spawnSync(outlean, ['class', ...Object.keys(FILES), ...options], { cwd: folder, encoding: 'utf8' });
  assert.equal(status, 1, 'something is damaged');
  return { stdout, aside: stderr.trim().split('\n') };
}

/** Learner, objective and what is told of it, out of what the native program prints. */
function told() {
  let learner = '';
  return native().stdout.split('\n\n')[0].split('\n').flatMap(line => {
    if (!line.startsWith('  ')) learner = line;
    const [, objective, said] = line.match(/^ {2}(.*): (nothing yet|\d+ answers?, .*)$/) ?? [];
    return objective === undefined ? [] : [`${learner} | ${objective} | ${said}`];
  });
}

/** @param {Stage} stage */
async function ready({ page, open }) {
  await open('/class/');
  await page.waitForSelector('outlean-class[data-ready]');
}

/** Takes in files, all at once. @param {Page} page @param {[string, string][]} files */
async function take(page, files) {
  await page.evaluate(files => {
    /** @type {any} */ (document.querySelector('[data-part=said]')).textContent = '';
    const input = /** @type {HTMLInputElement} */ (document.querySelector('[data-part=file]'));
    const chosen = new DataTransfer();
    for (const [name, text] of files) chosen.items.add(new File([text], name, { type: 'application/json' }));
    input.files = chosen.files;
    input.dispatchEvent(new Event('change'));
  }, files);
  await page.waitForFunction(() => document.querySelector('[data-part=said]')?.textContent);
}

/** The page's table, a line each cell, in the native program's words. @param {Page} page @returns {Promise<string[]>} */
const shown = page =>
  page.$eval('[data-part=table]', table => {
    const learners = [...table.querySelectorAll('thead th')].slice(1).map(at => at.textContent);
    return [...table.querySelectorAll('tbody tr:has(td)')].flatMap(row => {
      const objective = row.querySelector('th')?.textContent;
      return [...row.querySelectorAll('td')].map((cell, at) => {
        const [first, more] = [...cell.children].map(part => part.textContent ?? '');
        const said = first === '–' ? more : more.replace(', ', `, ${first.replace('\u202f', ' ')} of the marks, `);
        return `${learners[at]} | ${objective} | ${said}`;
      });
    });
  });

/** @param {Page} page @param {string} part */
const part = (page, part) => page.$eval(`[data-part=${part}]`, at => at.textContent ?? '');

/** What a key gives out as a file. @param {Page} page @param {string} key @returns {Promise<string>} */
const given = (page, key) =>
  page.evaluate(async key => {
    const make = URL.createObjectURL;
    const blob = new Promise(done => { URL.createObjectURL = made => (done(made), make(made)); });
    HTMLAnchorElement.prototype.click = () => {};
    /** @type {HTMLElement} */ (document.querySelector(`[data-part=${key}]`)).click();
    const said = await /** @type {Blob} */ (await blob).text();
    URL.createObjectURL = make;
    return said;
  }, key);

/** @param {Page} page @returns {Promise<string[]>} */
const asides = page => page.$$eval('[data-part=files] .aside', all => all.map(each => each.textContent ?? ''));

eachBrowser('the class table of the page is that of the native program', async stage => {
  const { page } = stage;
  await ready(stage);
  const all = Object.entries(FILES);
  await take(page, all.slice(0, 5));
  await take(page, all.slice(5)); // in two goes
  const wanted = told();
  assert(wanted.length > 60, `${wanted.length} cells are few`);
  const percents = wanted.flatMap(line => line.match(/\d+ %/) ?? []);
  assert(native().aside.some(line => line.startsWith('ines-other.json') && line.endsWith('one answer to a question at a time')), 'what contradicts is named');
  assert(new Set(percents).size > 10 && percents.includes('63 %') && wanted.some(line => line.endsWith('nothing yet')));
  assert.deepEqual((await shown(page)).sort(), wanted.sort());
  assert.deepEqual(await asides(page), native().aside, 'what stands aside is named, in the same words');
  assert.equal(await given(page, 'csv'), native('--table').stdout);
  assert.equal(await given(page, 'answers'), native('--csv').stdout);
  assert.match(await part(page, 'said'), /in the class: 13\. Set aside, and named below the table: 7\./);
  // Files in another order, and some twice: the same table.
  await page.click('[data-part=empty]');
  assert.equal(await page.$eval('[data-part=all]', at => at.checkVisibility()), false);
  await take(page, [...all.reverse(), ...all.slice(0, 4)]);
  assert.deepEqual((await shown(page)).sort(), wanted);
  assert.equal(await page.evaluate(() => indexedDB.databases().then(all => all.length)), 0, 'nothing is kept');
});

eachBrowser('objectives stand lesson by lesson, as the course has them', async stage => {
  const { page } = stage;
  await ready(stage);
  await take(page, Object.entries(FILES));
  const rows = await page.$$eval('[data-part=table] tbody th[scope=row]', all => all.map(each => each.textContent));
  const known = OBJECTIVES.slice(0, 4).sort((a, b) => course.indexOf(a) - course.indexOf(b));
  assert.deepEqual(rows, [...known, 'objective not known', OBJECTIVES[4]]);
  const heads = await page.$$eval('[data-part=table] [scope=rowgroup]', all => all.map(each => each.textContent));
  assert.equal(heads.at(-1), 'Not in this course');
  const marked = await page.$$eval('[data-part=table] td', all => all.filter(each => each.querySelector('u')).map(each => Number.parseInt(each.textContent ?? '', 10)));
  const free = await page.$$eval('[data-part=table] td', all => all.filter(each => !each.querySelector('u') && /%/.test(each.textContent ?? '')).map(each => Number.parseInt(each.textContent ?? '', 10)));
  assert(marked.length > 5 && marked.every(share => share < 80) && free.length > 0 && free.every(share => share >= 80), 'what is below the mark is underlined');
});

eachBrowser('who learns on this machine comes in, and what was taken in is kept where asked for', async stage => {
  const { page } = stage;
  await ready(stage);
  await page.click('[data-part=here]');
  await page.waitForFunction(() => /Nobody/.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  const [one] = JSON.parse(FILES['ines.json']).attempts;
  await kept(page, [{ ...one, key: 'a', learner: 'Mo' }]);
  await page.click('[data-part=here]');
  await page.waitForFunction(() => /in the class: 1\./.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  assert.equal(await part(page, 'files'), 'this machine: Mo, 1 answer');
  await take(page, Object.entries(FILES).filter(([name]) => name === 'ines.json' || name === 'torn.json'));
  assert.equal((await kept(page)).length, 1, 'not yet asked for');
  await page.click('[data-part=keep]');
  await page.waitForFunction(() => /^12 answers were new here, 0/.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  assert.deepEqual([...new Set((await kept(page)).map(row => row.learner))].sort(), ['Ines', 'Mo']);
});

/** Has the database fail. @param {Page} page @param {'open' | 'read'} where */
const failing = (page, where) => page.evaluateOnNewDocument(where => {
  if (where === 'open') Object.defineProperty(window, 'indexedDB', { value: { open() { throw new DOMException('no', 'SecurityError'); } } });
  else IDBObjectStore.prototype.openCursor = () => { throw new DOMException('damaged', 'UnknownError'); };
}, where);

for (const [where, said] of /** @type {['open' | 'read', RegExp][]} */ ([['open', /^This browser does not let the page keep answers/], ['read', /^That did not work: UnknownError: damaged/]])) {
  eachBrowser(`where the database cannot be ${where === 'open' ? 'opened' : 'read'} nobody is said to have answered`, async stage => {
    const { page } = stage;
    await failing(page, where);
    await ready(stage);
    await page.click('[data-part=here]');
    await page.waitForFunction(() => document.querySelector('[data-part=said]')?.textContent);
    assert.match(await part(page, 'said'), said);
  });
}

eachBrowser('a share that all but passes stands below the mark, and one that is the mark passes', async stage => {
  const { page } = stage;
  const file = (/** @type {string} */ learner, /** @type {number[]} */ shares) => JSON.stringify({ format: 'outlean-record', version: 2, learner, aside: [], attempts: shares.map((share, seed) => ({ ...JSON.parse(FILES['ines.json']).attempts[0], time: 1_800_000_000, seed, objective: course[0], mark: { share, verdict: 'near' } })) });
  const near = { near: file('near', [0.797]), full: file('full', [1, 1, 1, 1, 1, 1, 1, 1, 1, 0.6, 0, 0]) };
  await ready(stage);
  await take(page, Object.entries(near));
  assert.deepEqual(await page.$$eval('[data-part=table] td', all => all.map(each => [each.firstElementChild?.localName, each.firstElementChild?.textContent])), [['span', '80\u202f%'], ['u', '79\u202f%']]);
  for (const [name, text] of Object.entries(near)) writeFileSync(join(folder, `${name}.json`), text);
  const { stdout } = spawnSync(outlean, ['class', 'full.json', 'near.json'], { cwd: folder, encoding: 'utf8' });
  assert.deepEqual(stdout.match(/\d+ %/g), ['80 %', '79 %'], 'natively too');
});

for (const theme of ['light', 'dark', 'projector', 'sunlight']) {
  for (const width of [320, 1280]) {
    eachBrowser(`the class page, ${theme}, ${width} px`, { width }, async stage => {
      const { page, axe, shot } = stage;
      await ready(stage);
      await page.evaluate(theme => { document.documentElement.dataset.theme = theme; }, theme);
      assert.deepEqual(await axe(), []);
      await take(page, Object.entries(FILES));
      for (const counts of [false, true]) {
        if (counts) await page.$eval('[data-part=counts]', box => /** @type {HTMLElement} */ (box).click());
        await shot(`class ${theme} ${width} ${counts ? 'with counts' : ''}`);
        const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
        assert(over <= 0, `${over} px wider than the window`);
        const text = await page.$$eval('[data-part=table] .more', all => all.map(each => Number(each.getBoundingClientRect().width > 40)));
        assert.deepEqual([...new Set(text)], [Number(counts)], 'counts and days stand there where asked for');
        assert.deepEqual(await axe(), []);
      }
    });
  }
}

eachBrowser('the class table is printed alone', async stage => {
  const { page, shot } = stage;
  await ready(stage);
  await take(page, Object.entries(FILES));
  if (stage.browser === 'chromium') {
    await page.emulateMediaType('print');
    const seen = await page.evaluate(() => ['[data-part=table]', '[data-part=files] .aside', '[data-part=csv]', '[data-part=file]', '.caution'].map(at => document.querySelector(at)?.checkVisibility()));
    assert.deepEqual(seen, [true, true, false, false, true]);
  }
  const bytes = await page.pdf({ preferCSSPageSize: true });
  writeFileSync(join(folder, 'class.pdf'), bytes);
  const boxes = [...Buffer.from(bytes).toString('latin1').matchAll(/\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)/g)].map(([, x, y]) => Number(x) > Number(y));
  if (stage.browser === 'chromium') assert(boxes.length > 0 && boxes.every(Boolean), 'the sheet lies on its side');
  await shot('class printed');
});
