// The refresher: drawn from the record, asked one at a time with the lessons' own questions, kept, summed up.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { rest } from './lesson.mjs';
import { outlean, root, target } from './place.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {Stage['page']} Page */

/** A course of one lesson with questions of each kind: fewer than a refresher is long. */
const place = mkdtempSync(join(tmpdir(), 'outlean-refresher-'));
const folder = join(place, 'site');
cpSync(join(root, 'lessons/05-lean'), join(place, 'lessons/05-lean'), { recursive: true });
execFileSync(outlean, ['build', '--lessons', join(place, 'lessons'), '--assets', join(root, 'www'), '--program', join(target, 'program'), '--out', folder]);
after(() => rmSync(place, { recursive: true, force: true }));

/** The same lesson, whose choose and faults have its figure. @returns {string} the folder of its site */
function withFigures() {
  const lessons = join(place, 'with-figures');
  const out = join(place, 'site-with-figures');
  cpSync(join(root, 'lessons/05-lean'), join(lessons, '05-lean'), { recursive: true });
  rmSync(join(lessons, '05-lean/lang'), { recursive: true }); // it has other questions now
  const file = join(lessons, '05-lean/lesson.md');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/^```(choose|faults)\n(?!figure)/gm, '$&figure = "slate"\n'));
  execFileSync(outlean, ['build', '--lessons', lessons, '--assets', join(root, 'www'), '--program', join(target, 'program'), '--out', out]);
  return out;
}

/** As the harness has it, of that course. @param {string} name @param {import('./harness.mjs').Options | ((stage: Stage) => Promise<void>)} options @param {(stage: Stage) => Promise<void>} [body] */
const inEach = (name, options, body) => typeof options === 'function' ? eachBrowser(name, { folder }, options) : eachBrowser(name, { ...options, folder }, body);

const REFRESHER = '/refresher/';
/** How many questions its lesson has. */
const ALL = 8;
const ASKED = 'outlean-refresher section:not([hidden]) :is(outlean-estimate,outlean-choose,outlean-order,outlean-faults,outlean-set)';

/** @param {Stage} stage */
async function ready({ page, open }, path = `${REFRESHER}?seed=3`) {
  await open(path);
  await page.waitForSelector('outlean-refresher[data-ready]');
}

/** Presses the key of a part, once it is offered: by the keyboard, since a figure that begins may move what lies under a pointer. @param {Page} page @param {string} part */
async function click(page, part) {
  const key = await page.waitForSelector(`[data-part=${part}]`, { visible: true });
  await key?.press('Enter');
}

/** @param {Page} page @param {string} part */
const part = (page, part) => page.$eval(`[data-part=${part}]`, at => at.textContent ?? '');

/** The question that is asked, once it is put: its name, seed and lesson. @param {Page} page */
async function asked(page) {
  await page.waitForFunction(selector => /** @type {any} */ (document.querySelector(selector))?.asked, {}, ASKED);
  await rest(page);
  return page.$eval(ASKED, at => ({ id: at.id, seed: /** @type {any} */ (at).seed, lesson: /** @type {HTMLElement} */ (at.closest('[data-lesson]')).dataset.lesson, version: /** @type {HTMLElement} */ (at.closest('[data-lesson]')).dataset.version, kind: at.localName }));
}

/** Answers it rightly, by the keyboard alone: from the question's heading on. @param {Page} page @param {string} kind */
async function answerRightly(page, kind) {
  const solved = await page.$eval(ASKED, at => /** @type {any} */ (at).asked.solved('metric'));
  /** Goes on with the tab key until the focus is on this in the question's own tree. @param {string} selector */
  const tabTo = async selector => {
    for (let tries = 0; tries < 60; tries++) {
      if (await page.evaluate(selector => document.activeElement?.shadowRoot?.activeElement?.matches(selector), selector)) return;
      await page.keyboard.press('Tab');
    }
    assert.fail(`the tab key does not come to ${selector}`);
  };
  if (kind === 'outlean-estimate') {
    await tabTo('#mark');
    await page.keyboard.type(solved);
    await page.keyboard.press('Enter');
  } else if (kind === 'outlean-order') {
    for (let place = 0; place < solved.length; place++) {
      await page.$eval(`${ASKED} >>> li[data-place="${solved[place]}"] .moves button`, key => /** @type {HTMLElement} */ (key).focus());
      for (;;) {
        const at = await page.$$eval(`${ASKED} >>> li`, (rows, of) => rows.findIndex(row => /** @type {HTMLElement} */ (row).dataset.place === String(of)), solved[place]);
        if (at <= place) break;
        await page.keyboard.press('ArrowUp');
      }
    }
    await tabTo('button[type=submit]');
    await page.keyboard.press('Enter');
  } else if (kind === 'outlean-set') {
    await tabTo('.place button');
    await page.keyboard.press('Enter');
    // The controls have tests of their own.
    await page.evaluate(solved => { /** @type {any} */ (document.querySelector('outlean-refresher section:not([hidden]) outlean-rig')).rig = solved; }, solved);
    await tabTo('button[type=submit]');
    await page.keyboard.press('Enter');
  } else {
    for (const place of solved) {
      await tabTo(`input[value="${place}"]`);
      await page.keyboard.press(' ');
    }
    await tabTo('button[type=submit]');
    await page.keyboard.press('Enter');
  }
  await rest(page);
}

/** Presses a key of the page that the tab key comes to. @param {Page} page @param {string} name */
async function press(page, name) {
  for (let tries = 0; tries < 60; tries++) {
    if (await page.evaluate(name => /** @type {HTMLElement | null} */ (document.activeElement)?.dataset.part === name, name)) {
      await page.keyboard.press('Enter');
      return rest(page);
    }
    await page.keyboard.press('Tab');
  }
  assert.fail(`the tab key does not come to ${name}`);
}

for (const width of [1280, 320]) {
  inEach(`a refresher by keyboard alone, ${width} px: no question twice, all of it kept, passed`, { width, height: 900 }, async stage => {
    const { page, axe } = stage;
    await ready(stage);
    assert.match(await part(page, 'standing'), /^Nothing was answered yet/);
    assert.deepEqual(await axe(), []);
    await press(page, 'begin');
    /** @type {Awaited<ReturnType<typeof asked>>[]} */
    const seen = [];
    for (;;) {
      const question = await asked(page);
      assert.equal(await page.evaluate(() => document.activeElement?.textContent), `Question ${seen.length + 1} of ${ALL}`);
      assert(!seen.some(({ id }) => id === question.id), `${question.id} again`);
      assert.equal(await page.$$eval(`${ASKED} >>> .again`, all => all.filter(each => each.checkVisibility()).length), 0, 'a question is not put anew');
      seen.push(question);
      await answerRightly(page, question.kind);
      if (seen.length === 1) assert.deepEqual(await axe(), []);
      assert.equal(await page.$eval('[data-part=unknown]', at => at.checkVisibility()), false);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert(over <= 0, `${question.id}: ${over} px wider than the window`);
      await press(page, 'next');
      if (await page.$('[data-part=result]:not([hidden])')) break;
    }
    assert.equal(seen.length, ALL, 'all that the course has: fewer than a refresher is long');
    assert.match(await part(page, 'result'), new RegExp(`^Passed100\u202f% of the marks of ${ALL} questions`));
    assert.equal(await page.evaluate(() => document.activeElement?.textContent), 'Passed');
    const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
    assert.equal(await part(page, 'day'), `The next refresher is due on ${tomorrow}.`);
    const rows = (await kept(page)).sort((a, b) => a.time - b.time);
    const told = (/** @type {any[]} */ all) => all.map(({ id, question = id, seed, lesson, version, lesson_version = version }) => [question, seed, lesson, lesson_version].join(' ')).sort();
    assert.deepEqual(told(rows), told(seen));
    assert(rows.every(row => row.mark.share === 1 && row.objective.length > 10));
    const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
    assert(over <= 0, `${over} px wider than the window`);
    assert.deepEqual(await axe(), []);
    // The same lesson's page: the same version, and the place to go back to.
    await page.goto(`${stage.origin}/05-lean/`);
    assert.equal(await page.$eval('main', main => main.dataset.version), seen[0].version);
    assert.equal(await page.$$eval('[id^=objective-]', all => all.length), 3);
    // The record says when the next is due.
    await page.goto(`${stage.origin}/record/`);
    await page.waitForSelector('outlean-record[data-ready]');
    assert.equal(await part(page, 'due'), `The next is due on ${tomorrow}.`);
  });
}

/** An answer of this learner's, so many days before today. @param {string} key @param {string} question @param {number} days @param {number} share @param {string} learner */
const row = (key, question, days, share, learner = '1') => ({
  key, learner, question, time: Math.floor(Date.now() / 1000) - days * 86_400, lesson: '05-lean', lesson_version: '', seed: 1, response: 'x', mark: { share, verdict: 'x' }, seconds: 1, hints: 0, objective: 'o',
});

inEach('what is due comes first, the weakest of it; who does not know is shown, and goes back to it', async stage => {
  const { page } = stage;
  await ready(stage);
  // Objective 2 was answered wrongly, objective 1 rightly, both long ago; another learner has nothing to do with it.
  await kept(page, [row('a', 'leg-with-the-line', 9, 0), row('b', 'what-a-degree-does', 9, 1), row('c', 'as-far-as-it-goes', 1, 0, 'Mo')]);
  await ready(stage);
  assert.equal(await part(page, 'standing'), 'Due now: 2 objectives.');
  await click(page, 'begin');
  const { id: first } = await asked(page);
  assert(['leg-with-the-line', 'the-leg-that-has-no-line'].includes(first), `${first} is of objective 2`);
  await click(page, 'unknown');
  await rest(page);
  assert.equal(await page.$eval(`${ASKED} >>> .answer`, at => /** @type {HTMLElement} */ (at).dataset.verdict), 'revealed');
  await page.waitForFunction(() => document.activeElement instanceof HTMLElement && document.activeElement.dataset.part === 'next');
  for (let count = 1; count < ALL; count++) {
    await click(page, 'next');
    const { kind } = await asked(page);
    await answerRightly(page, kind);
  }
  await click(page, 'next');
  const back = await page.$$eval('[data-part=back] a', all => all.map(each => [each.getAttribute('href'), each.textContent]));
  assert.deepEqual(back, [['../05-lean/#objective-2', 'Estimate the compression of a leg with the main line redirected at its foot.']]);
  const rows = await kept(page);
  const unknown = rows.find(row => row.mark.verdict === 'revealed');
  assert.deepEqual([unknown.question, unknown.mark.share, unknown.learner], [first, 0, '1']);
  await page.click('[data-part=back] a');
  await page.waitForSelector('#objective-2');
  assert.equal(await page.evaluate(() => location.hash), '#objective-2');
  await page.goto(`${stage.origin}/record/`);
  await page.waitForSelector('outlean-record[data-ready]');
  assert.equal((await kept(page)).length, rows.length, 'none of them is set aside');
});

eachBrowser('choose and faults have their figure: their own rig, its forces held back until they are marked', { folder: withFigures() }, async stage => {
  const { page, axe, shot } = stage;
  await ready(stage);
  await click(page, 'begin');
  /** @type {Set<string>} */
  const seen = new Set();
  for (let count = 0; count < ALL; count++) {
    const { kind } = await asked(page);
    const figure = 'outlean-refresher section:not([hidden]) outlean-rig';
    if (kind === 'outlean-choose' || kind === 'outlean-faults') {
      const state = () => page.evaluate(([figure, question]) => {
        const [at, of] = /** @type {any[]} */ ([figure, question].map(each => document.querySelector(each)));
        const [shown, wanted] = [at.rig, of.asked.rig()];
        const keys = [...new Set([...Object.keys(shown), ...Object.keys(wanted)])];
        return { other: keys.filter(key => shown[key] !== wanted[key]), count: keys.length, veiled: at.hasAttribute('veiled'), told: at.told.veiled };
      }, [figure, ASKED]);
      await page.waitForFunction(([figure, question]) => {
        const [at, of] = /** @type {any[]} */ ([figure, question].map(each => document.querySelector(each)));
        return at?.told && of.asked && JSON.stringify(at.rig) === JSON.stringify(of.asked.rig());
      }, {}, [figure, ASKED]);
      const before = await state();
      assert.deepEqual([before.other, before.veiled, before.told], [[], true, true], `${kind} as it is put`);
      assert(before.count > 10);
      if (!seen.has(kind)) await shot(`refresher ${kind} with its figure`);
      await answerRightly(page, kind);
      const after = await state();
      assert.deepEqual([after.other, after.veiled, after.told], [[], false, false], `${kind} once it is marked`);
      if (!seen.has(kind)) assert.deepEqual(await axe(), []);
    } else await click(page, 'unknown');
    seen.add(kind);
    await click(page, 'next');
  }
  assert(['outlean-choose', 'outlean-faults'].every(kind => seen.has(kind)));
});

inEach('a question that did not start is not asked: nothing is kept of it, and it does not count, when it starts later either', async stage => {
  const { page } = stage;
  await page.evaluateOnNewDocument(() => {
    const real = window.fetch;
    const held = new Promise(done => { /** @type {any} */ (window).release = done; });
    window.fetch = async (...asked) => {
      if (/outlean_bg/.test(String(asked[0]))) await held;
      return real(...asked);
    };
  });
  await ready(stage);
  await click(page, 'begin');
  await page.waitForSelector(ASKED);
  assert.equal(await page.$eval(ASKED, at => Boolean(/** @type {any} */ (at).asked)), false);
  const first = await page.$eval(ASKED, at => at.id);
  await click(page, 'unknown');
  assert.match(await part(page, 'said'), /did not start: nothing is kept of it/);
  assert.equal(await page.evaluate(() => document.activeElement?.textContent), `Question 2 of ${ALL}`);
  await page.evaluate(() => /** @type {any} */ (window).release());
  for (let count = 1; count < ALL; count++) {
    const { kind } = await asked(page);
    await answerRightly(page, kind);
    await click(page, 'next');
  }
  assert.match(await part(page, 'result'), new RegExp(`^Passed100\u202f% of the marks of ${ALL - 1} questions`));
  const rows = await kept(page);
  assert.equal(rows.length, ALL - 1);
  assert(rows.every(row => row.question !== first));
  assert.equal(await page.$$eval('outlean-refresher section', all => all.filter(each => each.checkVisibility()).length), ALL - 1);
});

inEach('the same record, day and seed ask the same', async stage => {
  const { page } = stage;
  const first = async () => {
    await click(page, 'begin');
    return asked(page);
  };
  await ready(stage);
  const once = await first();
  await ready(stage);
  assert.deepEqual(await first(), once);
  await ready(stage, `${REFRESHER}?seed=4`);
  assert.notEqual((await first()).seed, once.seed);
});

inEach('a clock that goes back, and leaps forward, is said and takes no answer with it', async stage => {
  const { page } = stage;
  await page.evaluateOnNewDocument(() => {
    const real = Date.now.bind(Date);
    Date.now = () => real() + Number(/** @type {any} */ (window).back ?? 0);
  });
  await ready(stage);
  await kept(page, [row('a', 'leg-with-the-line', -40, 1)]);
  await ready(stage);
  assert.match(await part(page, 'said'), /dated after today/);
  assert.match(await part(page, 'standing'), /^Nothing is due before/);
  await click(page, 'begin');
  const { kind } = await asked(page);
  await page.evaluate(() => { /** @type {any} */ (window).back = -90 * 86_400_000; });
  await answerRightly(page, kind);
  for (let count = 1; count < ALL; count++) {
    await click(page, 'next');
    await asked(page);
    if (count === 2) await page.evaluate(() => { /** @type {any} */ (window).back = 3 * 86_400_000; });
    await click(page, 'unknown');
  }
  await click(page, 'next');
  const today = new Date().toISOString().slice(0, 10);
  const told = /(\d{4}-\d\d-\d\d)/.exec(await part(page, 'day'))?.[1] ?? '';
  assert(told > today, `${told} is after ${today}`);
  assert.equal((await kept(page)).length, ALL + 1);
});

inEach('what cannot be begun is said, and can be tried again', { allow: [/503/] }, async stage => {
  const { page } = stage;
  await ready(stage);
  await page.evaluate(() => {
    const real = window.fetch;
    window.fetch = (...asked) => {
      window.fetch = real;
      return Promise.resolve(new Response('', { status: 503 }));
    };
    console.warn('503');
  });
  await click(page, 'begin');
  await page.waitForFunction(() => /could not begin: .*503/.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  await click(page, 'begin');
  await asked(page);
  assert.equal(await part(page, 'said'), '');
});

for (const theme of ['light', 'dark', 'projector', 'sunlight']) {
  inEach(`the refresher's page and its result, ${theme}`, { width: 1280 }, async stage => {
    const { page, axe, shot } = stage;
    await ready(stage, `${REFRESHER}?seed=3&theme=${theme}`);
    await shot(`refresher offer ${theme}`);
    assert.deepEqual(await axe(), []);
    await click(page, 'begin');
    for (let count = 0; count < ALL; count++) {
      await asked(page);
      if (count === 0) await shot(`refresher question ${theme}`);
      await click(page, 'unknown');
      await click(page, 'next');
    }
    await rest(page);
    await shot(`refresher result ${theme}`);
    assert.deepEqual(await axe(), []);
    assert.equal(await page.$$eval('[data-part=back] a', all => all.length), 3);
    if (stage.browser === 'firefox') return; // its driver cannot show a page as it is printed
    await page.setViewport({ width: 688, height: 1032 });
    await page.emulateMediaType('print');
    await rest(page);
    const seen = await page.evaluate(() => ['.caution', '[data-part=result]', '[data-part=review]', '[data-part=print]', '.settings'].map(at => document.querySelector(at)?.checkVisibility()));
    assert.deepEqual(seen, [true, true, true, false, false], 'what is printed');
    assert.equal(await page.$$eval('outlean-refresher section', all => all.filter(each => each.checkVisibility()).length), ALL);
    assert(await page.evaluate(() => document.documentElement.scrollWidth - innerWidth) <= 0);
  });
}
