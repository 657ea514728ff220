// A lesson started by cmi5: its course structure held against the standard's schema, its statements against a validator that others
// wrote, and both browsers played against a record store that others wrote, with everything on the way going wrong. What is counted is
// what the store holds in the end.

import assert from 'node:assert/strict';
import { execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { dirname, join } from 'node:path';
import { test } from 'node:test';
import { setTimeout as wait } from 'node:timers/promises';
import { isDeepStrictEqual } from 'node:util';
import { unzipSync } from 'fflate';
import { validateXML } from 'xmllint-wasm';
import { answered, completed, dressed, initialized, judged, terminated } from '../../www/cmi5-statement.js';
import { State } from '../../www/lms-state.js';
import { RecordStore, Refused } from '../../www/xapi-store.js';
import { eachBrowser } from './harness.mjs';
import { kept } from './kept.mjs';
import { learningSystem, wrongIn } from './lms-host.mjs';
import { outlean, root, site } from './place.mjs';
import { scratch } from './scratch.mjs';

const LESSON = '08-guys';
const QUESTIONS = 'outlean-estimate,outlean-choose,outlean-order,outlean-faults,outlean-set';
const CMI5 = 'https://w3id.org/xapi/cmi5/context/';
const { folder } = scratch();

/** What is in a package. @param {string} [lesson] */
function pack(lesson) {
  const zip = join(folder, `cmi5-${lesson ?? 'all'}.zip`);
  execFileSync(outlean, ['pack', 'cmi5', '--site', site, ...(lesson ? ['--lesson', lesson] : []), '--output', zip]);
  return unzipSync(readFileSync(zip));
}

/** @type {ReturnType<typeof learningSystem> | undefined} */
let started;
/** The learning system, with the course in it. */
function system() {
  started ??= (async () => {
    const place = join(folder, 'course');
    for (const [file, content] of Object.entries(pack())) {
      mkdirSync(dirname(join(place, file)), { recursive: true });
      writeFileSync(join(place, file), content);
    }
    return learningSystem(place);
  })();
  return started;
}

test('the course structure is one, of a lesson and of the course', async () => {
  const schema = { fileName: 'CourseStructure.xsd', contents: readFileSync(join(root, 'tests/data/cmi5/CourseStructure.xsd'), 'utf8') };
  const held = (/** @type {string} */ contents) => validateXML({ xml: { fileName: 'cmi5.xml', contents }, schema });
  for (const lesson of [LESSON, undefined]) {
    const files = pack(lesson);
    const structure = Buffer.from(files['cmi5.xml']).toString('utf8');
    assert.deepEqual((await held(structure)).errors.map(({ message }) => message), []);
    assert(!(await held(structure.replace('moveOn="CompletedAndPassed"', 'moveOn="Done"'))).valid, 'a wrong one is seen');
    const starts = [...structure.matchAll(/<url>([^<]+)<\/url>/g)].map(([, url]) => url);
    assert.equal(starts.length, lesson ? 1 : 12);
    const course = /<course id="(urn:uuid:[-0-9a-f]{36})">/.exec(structure)?.[1];
    for (const start of starts) assert.match(Buffer.from(files[start]).toString('utf8'), new RegExp(`src="\\.\\./[^"]*lms[^"]*\\.js" data-pass="0\\.8" data-course="${course}"`));
    const names = [...structure.matchAll(/<au id="([^"]+)"/g)].map(([, id]) => id);
    assert.equal(new Set(names).size, starts.length);
  }
});

const launch = { endpoint: 'https://store.example/', fetch: '', actor: { objectType: 'Agent', account: { homePage: 'https://learning.example', name: '7' } }, registration: randomUUID(), activityId: 'https://learning.example/a/8', visit: '', began: 0 };
const template = { platform: 'A learning system', extensions: { [`${CMI5}extensions/sessionid`]: 'one' }, contextActivities: { grouping: [{ id: 'https://publisher.example/8' }], category: { id: 'https://learning.example/category' } } };

test('statements are ones, with all that the system adds and nothing of it changed', () => {
  launch.began = performance.timeOrigin - 61_500; // on a page before this one
  const lasting = () => 61.5 + performance.now() / 1000;
  const answer = { name: '', course: 'urn:uuid:course', question: 'q', title: 'Guys', language: 'en', seed: 7, steps: ['dig', 'haul'], share: 0.5, seconds: 12, at: new Date() };
  const told = { choose: ['1 3', 'choice', 'a[,]c'], faults: ['', 'choice', undefined], order: ['haul dig', 'sequencing', 'b[,]a'], estimate: ['1.2 kN', 'fill-in', '1.2 kN'], set: ['lean=0.2', 'fill-in', 'lean=0.2'] };
  const answers = Object.entries(told).map(([kind, [typed]]) => answered(launch, { ...answer, kind, typed: typed ?? '' }));
  const whole = [initialized(launch), completed(launch), judged(launch, true, 0.8, 0.8), judged(launch, false, 0.79, 0.8), terminated(launch)];
  for (const bare of [...answers, ...whole]) {
    const statement = dressed(bare, template);
    assert.deepEqual(wrongIn(statement).map(({ path }) => path), []);
    const { context, verb, result } = statement;
    assert.equal(context.platform, template.platform);
    assert.equal(context.extensions[`${CMI5}extensions/sessionid`], 'one');
    assert.deepEqual(context.contextActivities.grouping, template.contextActivities.grouping);
    const categories = context.contextActivities.category.map((/** @type {any} */ { id }) => id);
    const verbs = verb.id.split('/').at(-1);
    // cmi5, 9.6.2: which statements are the profile's own, and which of them are about moving on.
    /** @type {string[]} */
    const wanted = { answered: [], initialized: ['cmi5'], terminated: ['cmi5'], completed: ['cmi5', 'moveon'], passed: ['cmi5', 'moveon'], failed: ['cmi5', 'moveon'] }[/** @type {'answered'} */ (verbs)];
    assert.deepEqual(categories, ['https://learning.example/category', ...wanted.map(name => `${CMI5}categories/${name}`)]);
    assert.equal(context.extensions[`${CMI5}extensions/masteryscore`], ['passed', 'failed'].includes(verbs) ? 0.8 : undefined);
    if (wanted.length && verbs !== 'initialized') assert(Math.abs(Number(/^PT([\d.]+)S$/.exec(result.duration)?.[1]) - lasting()) < 1, result.duration);
    assert.deepEqual(dressed(statement, template), statement, 'said twice it is the same');
    assert.notDeepEqual(wrongIn({ ...statement, timestamp: 'noon' }), [], 'a wrong one is seen');
  }
  answers.forEach(({ object, result, context }, number) => {
    assert.equal(context.extensions['urn:uuid:course#seed'], 7);
    const [, type, response] = Object.values(told)[number];
    assert.deepEqual([object.definition.interactionType, result.response], [type, response]);
  });
});

test('of two visits the later answer to each question counts', () => {
  const [here, there] = [new State(['a', 'b'], 0.8), new State(['a', 'b'], 0.8)];
  here.take('a', 0);
  there.resume(here.kept(Infinity).text);
  there.take('a', 1);
  there.take('b', 0.6);
  here.resume(there.kept(Infinity).text);
  assert.deepEqual([here.share, here.done, here.passed], [0.8, true, true]);
  here.resume('1;a;a:0:1');
  assert.equal(here.share, 0.8, 'an older one is left');
});

test('what an answer of the store means', async () => {
  const server = createServer((request, answer) => {
    const status = Number(new URL(request.url ?? '', 'http://x').pathname.split('/')[1]);
    if (status) answer.writeHead(status, { 'Retry-After': '7' }).end();
    else answer.destroy();
  });
  await new Promise(done => server.listen(0, '127.0.0.1', () => done(undefined)));
  const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
  /** @type {Record<string, number[]>} */
  const found = { stored: [], later: [], refused: [] };
  for (const status of [200, 204, 409, 0, 401, 408, 429, 500, 503, 400, 403, 404, 413]) {
    const store = new RecordStore(`http://127.0.0.1:${port}/${status}/`, 'secret');
    const why = await store.store({ id: 'a' }).catch(failed => failed);
    found[!why ? 'stored' : why.passing ? 'later' : 'refused'].push(status);
    assert(!why || (why instanceof Refused && why.after === (status ? 7 : 0) && !why.message.includes('secret')));
  }
  server.close();
  assert.deepEqual(found, { stored: [200, 204, 409], later: [0, 401, 408, 429, 500, 503], refused: [400, 403, 404, 413] });
});

/** What the page last said of the learning system. @typedef {import('puppeteer-core').Page} Page */
const said = (/** @type {Page} */ page, /** @type {string} */ key) => page.waitForFunction(key => /** @type {any} */ (document.querySelector('.lms'))?.dataset.said === key, { timeout: 20_000 }, key);
const words = (/** @type {Page} */ page) => page.$eval('.lms', at => at.textContent ?? '');
const ready = (/** @type {Page} */ page) => page.waitForFunction(selector => [...document.querySelectorAll(selector)].every(question => /** @type {any} */ (question).parts) && /** @type {any} */ (document.querySelector('outlean-rig'))?.rig, {}, QUESTIONS);
/** Says to the page that there is a network again: it tries at once. @param {Page} page */
const online = page => page.evaluate(() => void dispatchEvent(new Event('online')));

/** Answers some questions, as a learner would; right or wrong. @param {Page} page @param {number[]} numbers @param {boolean} [right] */
const answer = (page, numbers, right = true) => page.evaluate((selector, numbers, right) => {
  for (const number of numbers) {
    const question = /** @type {any} */ (document.querySelectorAll(selector)[number]);
    const kind = question.localName.slice('outlean-'.length);
    const solved = question.asked.solved(question.units);
    if (kind === 'estimate') question.shadowRoot.querySelector('input').value = right ? solved : '1 N';
    else if (kind === 'set') { question.figure.reveal(); if (right) question.figure.rig = solved; }
    else if (kind === 'order') { for (const place of right ? solved : [...solved].reverse()) question.shadowRoot.querySelector('ol').append(question.shadowRoot.querySelector(`[data-place="${place}"]`)); }
    else question.shadowRoot.querySelectorAll('input').forEach((/** @type {HTMLInputElement} */ box, /** @type {number} */ at) => { if (solved.includes(at) === right) box.click(); });
    question.lock();
  }
}, QUESTIONS, numbers, right);

/** All questions marked so, without being asked: what is told of them is what matters. @param {Page} page @param {number} share */
const mark = (page, share) => page.evaluate((selector, share) => {
  const detail = { seed: 1, typed: '1', verdict: share === 1 ? 'right' : 'other', share, seconds: 2, hints: 0 };
  for (const question of document.querySelectorAll(selector)) question.dispatchEvent(new CustomEvent('outlean-marked', { bubbles: true, composed: true, detail }));
}, QUESTIONS, share);

/** Waits for something, 10 s at most. @param {() => unknown} holds */
async function until(holds) {
  for (const began = Date.now(); !(await holds()); await wait(30)) assert(Date.now() - began < 10_000, `it never came: ${holds}`);
}

const verb = (/** @type {any} */ statement) => statement.verb.id.split('/').at(-1);
/** How many statements there are of each verb. @param {any[]} statements */
const counted = statements => {
  /** @type {Record<string, number>} */
  const count = {};
  for (const each of statements) count[verb(each)] = (count[verb(each)] ?? 0) + 1;
  return count;
};
/** Those of one session, by their times. @param {any[]} statements @param {string} session */
const ofSession = (statements, session) => statements.filter(each => each.context.extensions[`${CMI5}extensions/sessionid`] === session).sort((a, b) => a.timestamp.localeCompare(b.timestamp));

/** Everything of the page's own that could give a key away. @param {Page} page */
const traces = page => page.evaluate(async () => {
  const bases = await Promise.all((await indexedDB.databases()).map(({ name = '' }) => new Promise(done => {
    const asked = indexedDB.open(name);
    asked.onsuccess = () => {
      const stores = [...asked.result.objectStoreNames];
      const change = asked.result.transaction(stores);
      const all = stores.map(store => change.objectStore(store).getAll());
      change.oncomplete = () => (asked.result.close(), done(all.map(({ result }) => result)));
    };
  })));
  return JSON.stringify([location.href, { ...localStorage }, document.cookie, [...document.querySelectorAll('[href],[src]')].map(node => node.outerHTML), bases]);
});

const noise = { allow: [/\/lrs\/|\/key\?|Failed to load resource/], folder: system };

eachBrowser('cmi5: with everything going wrong nothing is lost and nothing is there twice', noise, async ({ page, origin, browser, axe }) => {
  const lms = await system();
  const registration = randomUUID();
  const returnURL = `${origin}/?back`;
  /** @type {import('./lms-host.mjs').Fault[]} */
  let faults = [];
  lms.fault = resource => (resource === 'statements' ? faults.shift() : undefined);
  const first = lms.launch(`/${LESSON}/index.html`, { registration, returnURL });
  await page.goto(origin + first.address);
  await said(page, 'begun');
  await ready(page);
  assert.equal(await page.evaluate(() => location.search), '?seed=7', 'the launch is out of the address');
  const there = () => lms.store.statements(registration);
  assert.deepEqual(counted(await there()), { initialized: 1 });
  // The store answers nothing: it is tried again without being told to.
  lms.fault = resource => (resource === 'statements' ? 'down' : undefined);
  await answer(page, [0]);
  await said(page, 'no_answer');
  assert.match(await words(page), /Records waiting: 1/);
  lms.fault = () => undefined;
  await said(page, 'sent');
  // It is gone for a while, in which the page is loaded again; then its answer is lost once, and it is too busy twice.
  lms.fault = resource => (resource === 'statements' ? 'down' : undefined);
  await answer(page, [1], false);
  await said(page, 'no_answer');
  await page.reload();
  await said(page, 'no_answer');
  await ready(page);
  await answer(page, [2]);
  await page.waitForFunction(() => /waiting: 2/.test(document.querySelector('.lms')?.textContent ?? ''));
  assert.equal((await there()).length, 2);
  faults = ['lost', 503, 429];
  lms.fault = resource => (resource === 'statements' ? faults.shift() : undefined);
  while (faults.length) {
    const left = faults.length;
    await online(page);
    await until(() => faults.length < left);
  }
  await said(page, 'waiting');
  await online(page);
  await said(page, 'sent');
  // Left while it is being sent.
  faults = ['slow'];
  await answer(page, [3]);
  await until(async () => (await kept(page)).length === 4); // what is not on the disk yet may be lost
  await page.reload();
  await said(page, 'resumed');
  await ready(page);
  // Refused: it stands aside, is told, and holds nothing up.
  faults = [400];
  await answer(page, [4]);
  await said(page, 'aside');
  assert.match(await words(page), /\(400 Bad Request\).*Records refused: 1/);
  assert.deepEqual(await axe(), []);
  await answer(page, [5]);
  // Two pages of one visit at once.
  const opened = new Promise(done => page.once('popup', done));
  await page.evaluate(() => void open(location.href));
  const other = /** @type {Page} */ (await opened);
  const number = await page.$$eval(QUESTIONS, all => all.length);
  try {
    await said(other, 'aside');
    await ready(other);
    lms.fault = resource => (resource === 'statements' ? 'slow' : undefined);
    const before = lms.came;
    await Promise.all([answer(page, [6]), answer(other, [7])]);
    await until(async () => counted(await there()).answered === 7);
    await until(() => page.evaluate(name => navigator.locks.query().then(({ held, pending }) => ![...held ?? [], ...pending ?? []].some(lock => lock.name?.startsWith(name))), 'outlean statements'));
    assert.equal(lms.came - before, 2, 'each is sent by one page, once');
    lms.fault = () => undefined;
    await answer(other, Array.from({ length: number }, (_, at) => at).slice(8));
    await until(async () => counted(await there()).passed);
  } finally {
    await other.close();
    await page.bringToFront();
  }
  const end = (/** @type {Page} */ on) => on.$eval('.lms-end button', key => /** @type {HTMLButtonElement} */ (key).click());
  await end(page);
  await said(page, 'ended_aside');
  assert.equal(await page.$eval('.lms a', link => /** @type {HTMLAnchorElement} */ (link).href), returnURL);
  assert(!(await traces(page)).includes(lms.store.token), 'the key is nowhere');
  assert.equal(await page.evaluate(() => sessionStorage.length), 0, 'with the visit the key goes');
  assert.deepEqual(counted(await there()), { initialized: 1, answered: number - 1, completed: 1, passed: 1, terminated: 1 });
  // The next visit goes on where this one ended, and what was refused is taken.
  const second = lms.launch(`/${LESSON}/index.html`, { registration, returnURL });
  await page.goto(origin + second.address);
  await said(page, 'done');
  await end(page);
  await page.waitForFunction(url => location.href === url, {}, returnURL);
  const all = await there();
  assert.deepEqual(counted(all), { initialized: 2, answered: number, completed: 1, passed: 1, terminated: 2 });
  assert.equal(new Set(all.map(({ id }) => id)).size, all.length);
  assert(lms.came > all.length, 'some were sent more than once');
  assert.equal((await kept(page)).length, number, 'the record in the browser has them all');
  for (const [session, length] of [[first.session, all.length - 2], [second.session, 2]]) {
    const told = ofSession(all, String(session));
    assert.equal(told.length, length);
    assert.deepEqual([verb(told[0]), verb(told.at(-1))], ['initialized', 'terminated'], browser);
  }
  assert.deepEqual(lms.wrong, []);
  assert(lms.addresses.every(address => !address.includes(lms.store.token)), 'no address has the key');
});

eachBrowser('cmi5: what cannot be begun is said, and told once it can; failed is said at the end, and nothing is judged where that is not wanted', noise, async ({ page, origin }) => {
  const lms = await system();
  lms.fault = () => undefined;
  const registration = randomUUID();
  const path = `/${LESSON}/index.html`;
  const of = { registration, returnURL: `${origin}/?back` };
  const there = () => lms.store.statements(registration);
  const counts = async (/** @type {Record<string, number>} */ wanted) => {
    await until(async () => isDeepStrictEqual(counted(await there()), wanted)).catch(async () => assert.deepEqual(counted(await there()), wanted));
  };
  // Its key was fetched by somebody else.
  const taken = lms.launch(path, of);
  await fetch(new URLSearchParams(taken.address).get('fetch') ?? '', { method: 'POST' });
  await page.goto(origin + taken.address);
  await said(page, 'keyless');
  await ready(page);
  await answer(page, [0], false);
  await page.waitForFunction(() => /waiting: 2/.test(document.querySelector('.lms')?.textContent ?? ''));
  assert.equal((await kept(page)).length, 1);
  // The store is not there as the next visit begins, then does not know it, then takes all.
  lms.fault = resource => (resource === 'key' ? undefined : 'down');
  await page.goto(origin + lms.launch(path, of).address);
  await said(page, 'no_answer');
  lms.fault = resource => (resource === 'activities/state' ? 401 : undefined);
  await online(page);
  await said(page, 'expired');
  lms.fault = () => undefined;
  await online(page);
  await said(page, 'resumed');
  await counts({ initialized: 1, answered: 1 });
  await mark(page, 0);
  await said(page, 'done');
  const end = () => page.$eval('.lms-end button', key => /** @type {HTMLButtonElement} */ (key).click());
  await end();
  await page.waitForFunction(url => location.href === url, {}, of.returnURL);
  const number = (await kept(page)).length;
  await counts({ initialized: 1, answered: number, completed: 1, failed: 1, terminated: 1 });
  // On another machine, which knows nothing of all this, to look around is not judged.
  await page.evaluate(() => new Promise((done, failed) => {
    const asked = indexedDB.deleteDatabase('outlean statements');
    asked.onsuccess = done;
    asked.onerror = asked.onblocked = failed;
  }));
  await page.goto(origin + lms.launch(path, { ...of, mode: 'Browse' }).address);
  await said(page, 'done');
  assert.match(await words(page), /not judged/);
  await mark(page, 1);
  await counts({ initialized: 2, answered: 2 * number - 1, completed: 1, failed: 1, terminated: 1 });
  await end();
  await page.waitForFunction(url => location.href === url, {}, of.returnURL);
  await counts({ initialized: 2, answered: 2 * number - 1, completed: 1, failed: 1, terminated: 2 });
  // Judged by the mark that the system gives; passed is said once, and no failed after it.
  // A browser that keeps nothing has the page hold what waits, and says so.
  await page.evaluateOnNewDocument(() => Object.defineProperty(window, 'indexedDB', { get() { throw new DOMException('not here', 'SecurityError'); } }));
  lms.fault = resource => (resource === 'statements' ? 'down' : undefined);
  await page.goto(origin + lms.launch(path, { ...of, masteryScore: 0.95 }).address);
  await said(page, 'no_answer');
  assert.match(await words(page), /leave it open/);
  lms.fault = () => undefined;
  await online(page);
  await counts({ initialized: 3, answered: 2 * number - 1, completed: 1, failed: 1, terminated: 2, passed: 1 });
  assert.deepEqual((await there()).filter(each => verb(each) === 'passed').map(({ result, context }) => [result.score.scaled, context.extensions[`${CMI5}extensions/masteryscore`]]), [[1, 0.95]]);
  // Addresses that are no launch.
  for (const [asked, key] of [['endpoint=https://store.example/&auth=Basic%20secret&actor={}', 'plain'], ['endpoint=https://store.example/&fetch=javascript:alert(1)&actor={}&registration=1&activityId=a', 'damaged']]) {
    await page.goto(`${origin}/05-lean/index.html?${asked}`);
    await said(page, key);
    assert.equal(await page.evaluate(() => location.search), '');
  }
  assert.match(await words(page), /\(fetch\)/);
  assert.deepEqual(lms.wrong, []);
});
