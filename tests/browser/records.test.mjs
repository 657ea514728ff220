// The learner's record: kept before it is said to be, whatever happens to the machine's storage.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { test } from 'node:test';
import { eachBrowser, run } from './harness.mjs';
import { answer, LESSON, ready, rest } from './lesson.mjs';
import { outlean } from './place.mjs';

/** @typedef {import('./harness.mjs').Stage} Stage */
/** @typedef {import('./harness.mjs').Stage['page']} Page */

const RECORD = '/record/';
/** A page of the site that does not open the database. */
const BARE = '/';

/** Does something to the database by hand: an object store's method on each value. @param {Page} page @param {number | undefined} version @param {string} store @param {'add' | 'put' | 'getAll'} method @param {any[]} values @returns {Promise<any>} */
const byHand = (page, version, store, method, values = []) =>
  page.evaluate(
    (version, store, method, values) =>
      new Promise((done, failed) => {
        const asked = indexedDB.open('outlean', version);
        asked.onupgradeneeded = () => {
          if (version !== 1) return;
          asked.result.createObjectStore('attempts', { autoIncrement: true });
          asked.result.createObjectStore('settings');
        };
        asked.onerror = () => failed(asked.error);
        asked.onsuccess = () => {
          const change = asked.result.transaction(store, 'readwrite');
          const place = /** @type {any} */ (change.objectStore(store));
          const all = method === 'getAll' ? place.getAll() : undefined;
          for (const value of values) place[method](value);
          change.oncomplete = () => {
            asked.result.close();
            done(all?.result);
          };
          change.onabort = () => failed(change.error);
        };
      }),
    version,
    store,
    method,
    values,
  );

/** What is kept. @param {Page} page @returns {Promise<any[]>} */
const kept = page => byHand(page, undefined, 'attempts', 'getAll');

/** Answers the question, and waits until the answer is said to be kept; where. @param {Page} page @param {string} typed @returns {Promise<string>} */
async function recorded(page, typed) {
  await page.evaluate(() => {
    /** @type {any} */ (window).recorded = new Promise(done => addEventListener('outlean-recorded', event => done(/** @type {CustomEvent} */ (event).detail.kept), { once: true }));
  });
  await answer(page, typed);
  return page.evaluate(() => /** @type {any} */ (window).recorded);
}

/** Puts another question. @param {Page} page */
const another = page => page.$eval('>>> .keys button', button => /** @type {HTMLElement} */ (button).click());

/** @param {Page} page @param {string} part */
const part = (page, part) => page.$eval(`[data-part=${part}]`, at => at.textContent ?? '');

/** The record page, once it shows what there is. @param {Stage} stage */
async function record({ page, open }) {
  await open(RECORD);
  await page.waitForSelector('outlean-record[data-ready]');
}

/** What the export key gives out. @param {Page} page @param {string} key @returns {Promise<string>} */
const given = (page, key) =>
  page.evaluate(async key => {
    const make = URL.createObjectURL;
    const blob = new Promise(done => { URL.createObjectURL = made => (done(made), make(made)); });
    addEventListener('click', event => { if (event.target instanceof HTMLAnchorElement) event.preventDefault(); }, { capture: true });
    HTMLAnchorElement.prototype.click = () => {};
    /** @type {HTMLElement} */ (document.querySelector(`[data-part=${key}]`)).click();
    const said = await /** @type {Blob} */ (await blob).text();
    URL.createObjectURL = make;
    return said;
  }, key);

/** Takes in a file with this text. @param {Page} page @param {string} text */
async function take(page, text) {
  await page.evaluate(() => { /** @type {any} */ (document.querySelector('[data-part=said]')).textContent = ''; });
  await page.evaluate(text => {
    const input = /** @type {HTMLInputElement} */ (document.querySelector('[data-part=file]'));
    const files = new DataTransfer();
    files.items.add(new File([text], 'record.json', { type: 'application/json' }));
    input.files = files.files;
    input.dispatchEvent(new Event('change'));
  }, text);
  await page.waitForFunction(() => document.querySelector('[data-part=said]')?.textContent);
}

/** Whether the page asks before it is closed. @param {Page} page */
const asksToStay = page =>
  page.evaluate(() => {
    const closing = new Event('beforeunload', { cancelable: true });
    dispatchEvent(closing);
    return closing.defaultPrevented;
  });

/** An attempt as it stands in a file. */
const ONE = { time: 1_700_000_000, lesson: '05-lean', question: 'leg', lesson_version: '5f', seed: 1, response: '=1+1', mark: { share: 0.5, verdict: 'near' }, seconds: 9, hints: 0, objective: 'Estimate, "well".' };

eachBrowser('an answer is on the disk before it is said to be kept, and a reload loses nothing', async stage => {
  const { page } = stage;
  await ready(stage);
  const before = Math.floor(Date.now() / 1000);
  await page.evaluate(() => addEventListener('outlean-recorded', () => location.reload(), { once: true }));
  const reloaded = page.waitForNavigation();
  await answer(page, '4 kN').catch(() => {});
  await reloaded;
  const rows = await kept(page);
  assert.equal(rows.length, 1);
  const { key, time, mark, seconds, lesson_version, ...rest } = rows[0];
  assert.match(key, /^[0-9a-f]{32}$/);
  assert(time >= before && time <= Date.now() / 1000);
  assert(seconds >= 0 && seconds < 60);
  assert.match(lesson_version, /^[0-9a-f]{16}$/);
  assert.match(mark.verdict, /^[a-z_]+$/);
  assert([0, 0.5, 1].includes(mark.share));
  assert.deepEqual(rest, { learner: '1', lesson: '05-lean', question: 'leg-with-the-line', seed: 7, response: '4 kN', hints: 0, objective: 'Estimate the compression of a leg with the main line redirected at its foot.' });
});

eachBrowser('two pages add and neither takes from the other', async stage => {
  const { page, origin } = stage;
  await ready(stage);
  const other = await page.browserContext().newPage();
  await ready({ ...stage, page: other, open: path => other.goto(origin + path, { waitUntil: 'load' }) });
  assert.equal(await recorded(other, '3 kN'), 'disk');
  await page.bringToFront();
  assert.equal(await recorded(page, '4 kN'), 'disk');
  assert.deepEqual((await kept(page)).map(row => row.response).sort(), ['3 kN', '4 kN']);
  await other.goto(origin + RECORD);
  await other.waitForSelector('outlean-record[data-ready]');
  await another(page);
  assert.equal(await recorded(page, '5 kN'), 'disk');
  await other.waitForFunction(() => document.querySelector('[data-part=table] tbody td')?.textContent === '3', { polling: 100 });
  assert.equal(await other.$eval('[data-part=table] tbody th', at => at.textContent), 'Lean and its price', 'a lesson goes by its title');
});

eachBrowser('where the page may keep nothing it says so, and offers what it holds', async stage => {
  const { page } = stage;
  await page.evaluateOnNewDocument(() => {
    Object.defineProperty(window, 'indexedDB', { value: { open() { throw new DOMException('no', 'SecurityError'); } } });
    const make = URL.createObjectURL;
    URL.createObjectURL = made => ((/** @type {any} */ (window).made = made), make(made));
  });
  await ready(stage);
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await page.waitForSelector('.record-said a[download]');
  assert.match(await page.$eval('.record-said', at => at.textContent ?? ''), /does not let the page keep answers/);
  const file = JSON.parse(await page.evaluate(() => /** @type {any} */ (window).made.text()));
  assert.deepEqual([file.format, file.version, file.learner, file.attempts.length, file.attempts[0].response], ['outlean-record', 2, '1', 1, '4 kN']);
  assert.match(await page.$eval('.record-said', at => at.textContent ?? ''), /lost when it closes/);
  assert.equal(await asksToStay(page), true, 'only the page holds it');
  if (stage.browser === 'chromium') {
    // What a reader sees, and that it can be refused.
    const asked = new Promise(done => page.once('dialog', async dialog => { await dialog.dismiss(); done(dialog.type()); }));
    await page.close({ runBeforeUnload: true });
    assert.equal(await asked, 'beforeunload');
    assert.equal(await page.evaluate(() => document.querySelectorAll('.record-said').length), 1, 'it stays open');
  }
  await page.$eval('.record-said a', link => {
    link.addEventListener('click', event => event.preventDefault());
    /** @type {HTMLElement} */ (link).click();
  });
  assert.equal(await asksToStay(page), false, 'a file has it');
  await another(page);
  assert.equal(await recorded(page, '3 kN'), 'memory');
  assert.equal(await asksToStay(page), true, 'one more, that no file has');
  await page.waitForFunction(() => document.querySelector('.record-said a'));
  await page.$eval('.record-said a', link => {
    link.addEventListener('click', event => event.preventDefault());
    /** @type {HTMLElement} */ (link).click();
  });
  await record(stage);
  assert.match(await part(page, 'said'), /does not let the page keep answers/);
});

eachBrowser('what was held is kept as of whoever answers here, once the database says who that is', async stage => {
  const { page } = stage;
  await record(stage);
  await byHand(page, undefined, 'settings', 'getAll');
  await page.$eval('[data-part=who]', at => { /** @type {HTMLInputElement} */ (at).value = 'Mo'; });
  await page.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
  await page.waitForFunction(() => /Mo/.test(document.querySelector('caption')?.textContent ?? ''));
  await ready(stage);
  await page.evaluate(() => {
    const real = IDBFactory.prototype.open;
    /** @type {any} */ (window).shut = true;
    IDBFactory.prototype.open = function (...given) {
      if (/** @type {any} */ (window).shut) throw new DOMException('no', 'UnknownError');
      return real.apply(this, given);
    };
  });
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await page.evaluate(() => { /** @type {any} */ (window).shut = false; });
  await another(page);
  assert.equal(await recorded(page, '3 kN'), 'disk');
  assert.deepEqual((await kept(page)).map(row => [row.response, row.learner]).sort(), [['3 kN', 'Mo'], ['4 kN', 'Mo']]);
});

eachBrowser('a file has the answers of one learner: those of another are still asked about', async stage => {
  const { page, origin } = stage;
  await page.evaluateOnNewDocument(() => {
    const put = IDBObjectStore.prototype.put;
    /** @type {Set<IDBTransaction>} */
    const broken = new Set();
    IDBObjectStore.prototype.put = function (/** @type {any[]} */ ...given) {
      const { transaction } = this;
      if (this.name === 'attempts' && !broken.has(transaction)) queueMicrotask(() => transaction.abort());
      broken.add(transaction);
      return put.apply(this, /** @type {any} */ (given));
    };
    const make = URL.createObjectURL;
    URL.createObjectURL = made => ((/** @type {any} */ (window).made = made), make(made));
  });
  await ready(stage);
  const other = await page.browserContext().newPage();
  await other.goto(origin + RECORD);
  await other.waitForSelector('outlean-record[data-ready]');
  await page.bringToFront();
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await other.$eval('[data-part=who]', at => { /** @type {HTMLInputElement} */ (at).value = 'Mo'; });
  await other.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
  await other.waitForFunction(() => /Mo/.test(document.querySelector('caption')?.textContent ?? ''), { polling: 100 });
  await another(page);
  assert.equal(await recorded(page, '3 kN'), 'memory');
  await page.waitForFunction(() => /** @type {any} */ (window).made);
  await rest(page);
  const file = JSON.parse(await page.evaluate(() => /** @type {any} */ (window).made.text()));
  assert.deepEqual([file.learner, file.attempts.map((/** @type {any} */ each) => each.response)], ['Mo', ['3 kN']]);
  await page.$eval('.record-said a', link => {
    link.addEventListener('click', event => event.preventDefault());
    /** @type {HTMLElement} */ (link).click();
  });
  assert.equal(await asksToStay(page), true, 'the other answer is in no file');
});

eachBrowser('where no words come it is said all the same that an answer is not kept', { allow: [/503/] }, async stage => {
  const { page } = stage;
  await page.evaluateOnNewDocument(() => {
    Object.defineProperty(window, 'indexedDB', { value: { open() { throw new DOMException('no', 'SecurityError'); } } });
    const real = window.fetch;
    window.fetch = (...asked) => (/records\.json/.test(String(asked[0])) ? (console.warn('503'), Promise.reject(new TypeError('offline'))) : real(...asked));
  });
  await ready(stage);
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await page.waitForSelector('.record-said a[download]');
  assert.match(await page.$eval('.record-said', at => at.textContent ?? ''), /^Not kept: this is lost when the page closes\. Save it$/);
});

eachBrowser('who is forgotten is who it was asked about, whoever learns here by then', async stage => {
  const { page, origin } = stage;
  await record(stage);
  await byHand(page, undefined, 'attempts', 'put', ['1', 'Mo'].map(learner => ({ ...ONE, key: learner, learner })));
  await record(stage);
  const turn = async (/** @type {string} */ who) => {
    const other = await page.browserContext().newPage();
    await other.goto(origin + RECORD);
    await other.waitForSelector('outlean-record[data-ready]');
    await other.$eval('[data-part=who]', (at, who) => { /** @type {HTMLInputElement} */ (at).value = who; }, who);
    await other.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
    await other.waitForFunction(who => document.querySelector('caption')?.textContent?.endsWith(who), { polling: 100 }, who);
    await page.bringToFront();
    await page.waitForFunction(who => document.querySelector('caption')?.textContent?.endsWith(who), { polling: 100 }, who);
  };
  const sure = () => page.$eval('[data-part=sure]', at => at.checkVisibility());
  await page.click('[data-part=clear]');
  assert.equal(await part(page, 'really'), 'Yes, forget 1 here');
  await turn('Mo');
  assert.equal(await sure(), false, 'it was not asked about Mo');
  await page.click('[data-part=clear]');
  assert.equal(await part(page, 'really'), 'Yes, forget Mo here');
  await page.click('[data-part=really]');
  await page.waitForFunction(() => /^Everything of Mo/.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  assert.deepEqual((await kept(page)).map(row => row.learner), ['1']);
});

eachBrowser('a record that cannot be read is said to be so, and is not said to be empty', async stage => {
  const { page, open } = stage;
  await page.evaluateOnNewDocument(() => {
    if (!location.search) return;
    IDBObjectStore.prototype.openCursor = () => { throw new DOMException('damaged', 'UnknownError'); };
  });
  await open(`${RECORD}?damaged`);
  await page.waitForSelector('outlean-record[data-ready]');
  assert.match(await part(page, 'said'), /^That did not work: UnknownError: damaged/);
});

eachBrowser('a full disk is said, and what was held is kept once there is room', async stage => {
  const { page } = stage;
  await page.evaluateOnNewDocument(() => {
    const put = IDBObjectStore.prototype.put;
    /** @type {any} */ (window).full = true;
    IDBObjectStore.prototype.put = function (/** @type {any[]} */ ...given) {
      const made = put.apply(this, /** @type {any} */ (given));
      if (/** @type {any} */ (window).full && this.name === 'attempts') {
        // As the standard has it: the transaction aborts with this error.
        Object.defineProperty(this.transaction, 'error', { value: new DOMException('full', 'QuotaExceededError') });
        this.transaction.abort();
      }
      return made;
    };
  });
  await ready(stage);
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await page.waitForSelector('.record-said a[download]');
  assert.match(await page.$eval('.record-said', at => at.textContent ?? ''), /disk is full/);
  assert.deepEqual(await kept(page), []);
  assert.equal(await asksToStay(page), true);
  await page.evaluate(() => { /** @type {any} */ (window).full = false; });
  await another(page);
  assert.equal(await recorded(page, '3 kN'), 'disk');
  assert.deepEqual((await kept(page)).map(row => row.response).sort(), ['3 kN', '4 kN']);
  await page.waitForFunction(() => /kept again/.test(document.querySelector('.record-said')?.textContent ?? ''));
  assert.equal(await asksToStay(page), false, 'all of it is on the disk');
});

/** No other browser here lets a page's quota be set. */
test('a quota that is really used up (chromium)', () => run('a quota that is really used up', 'chromium', {}, async stage => {
  const { page, origin } = stage;
  const session = await page.createCDPSession();
  await session.send('Storage.overrideQuotaForOrigin', { origin, quotaSize: 1 });
  await ready(stage);
  assert.equal(await recorded(page, '4 kN'), 'memory');
  await page.waitForFunction(() => /disk is full/.test(document.querySelector('.record-said')?.textContent ?? ''));
  await session.send('Storage.overrideQuotaForOrigin', { origin });
  await another(page);
  assert.equal(await recorded(page, '3 kN'), 'disk');
  assert.deepEqual((await kept(page)).map(row => row.response).sort(), ['3 kN', '4 kN']);
}));

eachBrowser('what is damaged stands aside, is told, and goes out whole', async stage => {
  const { page, axe } = stage;
  await record(stage);
  const row = { ...ONE, key: 'a', learner: '1' };
  await byHand(page, undefined, 'attempts', 'put', [row, { ...row, key: 'b', mark: { share: 7, verdict: 'near' } }, { ...row, key: 'c', learner: 5 }, { key: 'd' }]);
  await record(stage);
  assert.match(await part(page, 'said'), /^3 answers are damaged/);
  assert.equal((await kept(page)).length, 1);
  const file = JSON.parse(await given(page, 'export'));
  assert.equal(file.attempts.length, 1);
  assert.deepEqual(file.aside.map((/** @type {any} */ each) => each.why.field).sort(), ['learner', 'learner', 'share']);
  assert(file.aside.some((/** @type {any} */ each) => each.raw.includes('"share":7')));
  await record(stage);
  assert.equal(await part(page, 'said'), '', 'once');
  assert.match(await part(page, 'aside'), /^3 stand aside/);
  assert.deepEqual(await axe(), []);
});

const HOUR = 3_600_000;
const DAY = 24 * HOUR;

/** Has the clock of every page go by as much as is kept under a name, ms. @param {Page} page */
const clocked = page => page.evaluateOnNewDocument(() => {
  const real = Date.now.bind(Date);
  const now = () => real() + Number(sessionStorage.getItem('leapt') ?? 0);
  globalThis.Date = /** @type {any} */ (new Proxy(Date, {
    construct: (target, given) => (given.length ? Reflect.construct(target, given) : new target(now())),
    get: (target, name) => (name === 'now' ? now : Reflect.get(target, name)),
  }));
});

/** @param {Page} page @param {number} by ms, from what it truly is */
const leap = (page, by) => page.evaluate(by => sessionStorage.setItem('leapt', String(by)), by);

eachBrowser('a clock that leaps while a question is answered loses no answer, makes none longer, and is said', async stage => {
  const { page } = stage;
  await clocked(page);
  await ready(stage);
  const begun = performance.now();
  for (const [place, by] of [40 * DAY + 2 * HOUR, -400 * DAY].entries()) {
    if (place) await page.$eval('>>> .again button:last-child', key => /** @type {HTMLElement} */ (key).click());
    await leap(page, by);
    assert.equal(await recorded(page, '4 kN'), 'disk');
  }
  await page.waitForFunction(() => /clock is behind/.test(document.querySelector('.record-said')?.textContent ?? ''));
  const rows = (await kept(page)).sort((a, b) => a.time - b.time);
  const longest = (performance.now() - begun) / 1000 + 1;
  for (const { seconds } of rows) assert(seconds >= 0 && seconds <= longest, `${seconds} s for one of ${longest}`);
  const hours = rows.map(({ time }) => Math.round((time - Date.now() / 1000) / 3600));
  assert.deepEqual(hours, [-9600, 962], 'each has the time that the clock had');
  // The record has both, says that one is dated ahead, and names no day for the next refresher that only that one could.
  await leap(page, 0);
  await record(stage);
  const [told, due, answers, whole] = await page.evaluate(() => ['[data-part=said]', '[data-part=due]', '[data-part=table] tbody td', 'main'].map(part => document.querySelector(part)?.textContent ?? ''));
  assert.match(told, /dated after today/);
  const day = Date.parse(/\d{4}-\d\d-\d\d/.exec(due)?.[0] ?? '');
  assert(day > Date.now() - DAY && day < Date.now() + 35 * DAY, due);
  assert.equal(answers, '2', 'both count');
  assert.doesNotMatch(whole, /NaN|Invalid|undefined/);
});

eachBrowser('out, cleared, and in again: the same record, natively too', async stage => {
  const { page } = stage;
  await record(stage);
  const rows = [ONE, { ...ONE, time: ONE.time + 60, seed: 2, response: 'Ω "2", 3', seconds: null, mark: { share: 1, verdict: 'right' } }];
  await byHand(page, undefined, 'attempts', 'put', [...rows.map((row, at) => ({ ...row, key: `k${at}`, learner: '1' })), { ...ONE, key: 'mo', learner: 'Mo' }]);
  await record(stage);
  const file = await given(page, 'export');
  assert.deepEqual(JSON.parse(file), { format: 'outlean-record', version: 2, learner: '1', attempts: rows, aside: [] });
  const csv = await given(page, 'csv');
  await record(stage);
  await page.click('[data-part=clear]');
  await page.click('[data-part=really]');
  await page.waitForFunction(() => /forgotten/.test(document.querySelector('[data-part=said]')?.textContent ?? ''));
  assert.deepEqual((await kept(page)).map(row => row.learner), ['Mo'], 'another learner stays');
  await take(page, file);
  assert.match(await part(page, 'said'), /^Of 1: 2 answers were new, 0 stand aside/);
  await take(page, file);
  assert.match(await part(page, 'said'), /^Of 1: 0 answers were new/);
  assert.equal(await given(page, 'export'), file);
  const other = JSON.parse(file);
  other.attempts[0].mark.share = 1;
  await take(page, JSON.stringify(other));
  assert.match(await part(page, 'said'), /^Of 1: 0 answers were new, 1 stand aside/, 'what contradicts is not lost');
  const folder = mkdtempSync(join(tmpdir(), 'record-'));
  try {
    writeFileSync(join(folder, 'one.json'), file);
    assert.equal(execFileSync(outlean, ['class', '--csv', join(folder, 'one.json')], { encoding: 'utf8' }), csv);
  } finally {
    rmSync(folder, { recursive: true });
  }
  await record(stage);
  await take(page, JSON.stringify({ ...JSON.parse(file), version: 9 }));
  assert.match(await part(page, 'said'), /not taken: version is 9; allowed is a version from 1 to 2/);
});

eachBrowser('a database of the first version is brought up, nothing lost', async stage => {
  const { page, open } = stage;
  await open(BARE);
  const old = { learner: 'Ines', time: 1_690_000_000, lesson: '05-lean', question: 'leg', seed: 3, response: '2 kN' };
  await byHand(page, 1, 'attempts', 'add', [{ ...old, right: true }, { ...old, seed: 4, right: 'maybe' }, 'no row at all']);
  await record(stage);
  await page.$eval('[data-part=who]', at => { /** @type {HTMLInputElement} */ (at).value = 'Ines'; });
  await page.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
  await page.waitForFunction(() => /Ines/.test(document.querySelector('caption')?.textContent ?? ''));
  const file = JSON.parse(await given(page, 'export'));
  const { right: _, learner: __, ...kept } = { ...old, right: true };
  assert.deepEqual(file.attempts, [{ ...kept, lesson_version: '', seconds: null, hints: null, objective: '', mark: { share: 1, verdict: 'right' } }]);
  assert.deepEqual(file.aside.map((/** @type {any} */ each) => each.why.field).sort(), ['attempt', 'mark']);
  await record(stage);
  assert.equal(await page.$eval('[data-part=who]', at => /** @type {HTMLInputElement} */ (at).value), 'Ines', 'who learns is remembered');
});

eachBrowser('whoever learns now is whose answers are kept, on every page that is open', async stage => {
  const { page, origin } = stage;
  await ready(stage);
  const other = await page.browserContext().newPage();
  await other.goto(origin + RECORD);
  await other.waitForSelector('outlean-record[data-ready]');
  await other.$eval('[data-part=who]', at => { /** @type {HTMLInputElement} */ (at).value = '=Mo'; });
  await other.$eval('outlean-record form', form => /** @type {HTMLFormElement} */ (form).requestSubmit());
  await other.waitForFunction(() => /No answers/.test(document.querySelector('[data-part=none]')?.textContent ?? '') && !(/** @type {HTMLElement} */ (document.querySelector('[data-part=none]')).hidden));
  await page.bringToFront();
  assert.equal(await recorded(page, '4 kN'), 'disk');
  assert.deepEqual((await kept(page)).map(row => row.learner), ['=Mo']);
  assert.match(await given(other, 'csv'), /\r\n"'=Mo",/);
});

for (const theme of ['light', 'dark', 'projector', 'sunlight']) {
  for (const width of [320, 1280]) {
    eachBrowser(`the record page, ${theme}, ${width} px`, { width }, async stage => {
      const { page, open, axe, shot } = stage;
      await record(stage);
      await byHand(page, undefined, 'attempts', 'put', [0, 0.5, 1, 1].map((share, at) => ({ ...ONE, key: `k${at}`, learner: '1', time: ONE.time + at * 90_000, mark: { share, verdict: 'x' } })));
      await open(`${RECORD}?theme=${theme}`);
      await page.waitForSelector('outlean-record[data-ready]');
      assert.equal(await part(page, 'table').then(text => /463\u202f%/.test(text)), true, 'four answers, 63 % right');
      await shot(`record ${theme} ${width}`);
      const over = await page.evaluate(() => document.documentElement.scrollWidth - innerWidth);
      assert(over <= 0, `${over} px wider than the window`);
      assert.deepEqual(await axe(), []);
      await page.emulateMediaType('print').catch(() => {});
      if (stage.browser === 'chromium') {
        const seen = await page.evaluate(() => ['.caution', '.sign', '[data-part=table]', '[data-part=export]'].map(at => document.querySelector(at)?.checkVisibility()));
        assert.deepEqual(seen, [true, true, true, false], 'what is printed');
      }
    });
  }
}

eachBrowser('answers of every kind are kept, with their objective', async stage => {
  const { page } = stage;
  await ready(stage);
  for (const kind of ['choose', 'order', 'faults', 'set']) {
    await page.evaluate(() => {
      /** @type {any} */ (window).recorded = new Promise(done => addEventListener('outlean-recorded', done, { once: true }));
    });
    if (kind === 'choose') await page.$eval('outlean-choose >>> input', box => /** @type {HTMLElement} */ (box).click());
    await page.$eval(`outlean-${kind} >>> button[type=submit]`, key => /** @type {HTMLElement} */ (key).click());
    await page.evaluate(() => /** @type {any} */ (window).recorded.then(() => {}));
  }
  const rows = await kept(page);
  assert.deepEqual(rows.map(row => row.question).sort(), ['as-far-as-it-goes', 'before-it-leans', 'walk-round', 'what-a-degree-does']);
  for (const row of rows) {
    assert(row.objective.length > 10 && row.mark.share >= 0 && row.mark.share <= 1 && row.seconds >= 0 && row.hints === 0, JSON.stringify(row));
  }
  // None of them is set aside when the record is opened.
  await page.goto(`${stage.origin}${RECORD}`, { waitUntil: 'load' });
  await page.waitForSelector('outlean-record[data-ready]');
  assert.equal((await byHand(page, undefined, 'aside', 'getAll')).length, 0);
});
