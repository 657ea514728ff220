// What learning systems and record stores answer, whatever it is and however often they fail: nothing is thrown but what is said to the
// learner, and no answer is lost: what was not taken is told once they are sound again. In Node, without a page.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { test } from 'node:test';
import fc from 'fast-check';
import { here } from './no-page.mjs';
import { Cmi5 } from '../../www/cmi5.js';
import { launchOfPage, Unlaunched } from '../../www/cmi5-launch.js';
import { completed, dressed, initialized } from '../../www/cmi5-statement.js';
import { Lms } from '../../www/lms-api.js';
import { State } from '../../www/lms-state.js';
import { hundredths, percent } from '../../www/share.js';
import { asked, MOST, Refused, said } from '../../www/xapi-store.js';
import { anyJson, damaged, damagedText, fuzzed, oddText } from './fuzz.mjs';
import { root } from './place.mjs';

const words = JSON.parse(readFileSync(join(root, 'www/strings/en/lms.json'), 'utf8'));
const QUESTIONS = ['q1', 'q2', 'q3', 'q4'];

/** Timers run out at no time here: who sends again is the test. */
const timed = globalThis.setTimeout;

const shares = fc.oneof(fc.constantFrom(0, 0.5, 1), fc.double({ min: 0, max: 1, noNaN: true }));
const taken = fc.array(fc.tuple(fc.constantFrom(...QUESTIONS), shares), { maxLength: 12 });
/** @param {[string, number][]} all @param {number} [pass] */
function stateOf(all, pass = 0.8) {
  const state = new State(QUESTIONS, pass);
  for (const [question, share] of all) state.take(question, share);
  return state;
}

fuzzed('how far a lesson is comes back as it was kept, in whatever room', fc.tuple(taken, fc.nat(120)), ([all, most]) => {
  const state = stateOf(all);
  const { text, left_out } = state.kept(most);
  assert(text.length <= most && left_out <= state.answered);
  const again = new State(QUESTIONS, 0.8);
  again.resume(text);
  if (text) assert.equal(again.answered, state.answered - left_out);
  if (text && !left_out) assert.deepEqual([again.last, Math.round(again.share * 100)], [state.last, Math.round(again.share * 100)]);
}, { runs: 500 });

const kept = '1;q3;q1:100:2;q2:33:1;q3:0:7';
fuzzed('what a system says was kept never takes an answer away', fc.tuple(taken, fc.oneof(damagedText(kept), oddText, fc.constantFrom('1;q1;q1:100:1e308', `1;q1;${'q1:100:9;'.repeat(20_000)}`))), ([all, text]) => {
  const state = stateOf(all);
  const [answered, last] = [state.answered, state.last];
  state.resume(text);
  assert(state.answered >= answered && state.answered <= QUESTIONS.length);
  assert(state.share >= 0 && state.share <= 1);
  if (last) assert.equal(state.last, last);
  state.take('q1', 1);
  const again = new State(QUESTIONS, 0.8);
  again.resume(state.kept(64_000).text);
  assert.equal(again.answered, state.answered, 'what was taken up can be kept');
}, { runs: 1000 });

test('what was kept is taken up to 64,000 signs and no further', () => {
  for (const [length, answered] of [[64_000, 1], [64_001, 0]]) {
    const state = new State(QUESTIONS, 0.8);
    state.resume('1;q1;q1:100:1;'.padEnd(length, 'x'));
    assert.equal(state.answered, answered);
  }
});

/** A system that is as sound as scripted: each call answers as it should, or what the script says. @param {boolean} later @param {(call: string, sound: string) => unknown} says */
function system(later, says) {
  /** @type {Map<string, string>} */
  const values = new Map();
  let [committed, error] = [new Map(), '0'];
  const prefix = later ? '' : 'LMS';
  /** @param {string} name @param {(...given: string[]) => string} act */
  const call = (name, act) => [prefix + name, (/** @type {string[]} */ ...given) => {
    const answer = says(name, 'x');
    // Of one that says that it did what it did not, nothing can be known.
    const done = answer === 'true' && name !== 'GetValue';
    if (answer !== undefined && !done) {
      error = '101';
      if (answer instanceof Error) throw answer;
      return answer;
    }
    error = '0';
    return act(...given);
  }];
  const count = () => new Set([...values.keys()].map(key => /^cmi\.interactions\.(\d+)\./.exec(key)?.[1]).filter(Boolean)).size;
  const api = Object.fromEntries([
    call('Initialize', () => 'true'),
    call('GetValue', key => (key === 'cmi.interactions._count' ? String(count()) : values.get(key) ?? '')),
    call('SetValue', (key, value) => { values.set(key, value); return 'true'; }),
    call('Commit', () => { committed = new Map(values); return 'true'; }),
    [later ? 'Terminate' : 'LMSFinish', () => 'true'],
    [`${prefix}GetLastError`, () => error],
    [`${prefix}GetErrorString`, () => 'said by the system'],
  ]);
  return { api, kept: () => committed };
}

const scorm = fc.tuple(fc.boolean(), fc.array(fc.oneof(fc.constant(undefined), fc.constantFrom(new Error('gone'), 'false', '', null, undefined, 7.5, '<b>', {}, 'true', '99999999999999999999', '-1', 'NaN')), { maxLength: 80 }), taken);
fuzzed('a system of SCORM that answers anything in the end has every answer, each in one place', scorm, ([later, script, answers]) => {
  const left = [...script];
  const { api, kept } = system(later, () => left.shift());
  const state = new State(QUESTIONS, 0.8);
  const lms = new Lms(api, later);
  /** @param {() => void} act */
  const tried = act => {
    try {
      act();
    } catch (why) {
      assert(why instanceof Error, String(why));
    }
  };
  tried(() => lms.begin(state));
  const all = answers.map(([question, share], seed) => ({ name: `lesson.${question}`, kind: 'choose', seed, typed: '1 2', steps: [], share, seconds: seed, at: new Date(0) }));
  all.forEach((answer, at) => {
    state.take(answers[at][0], answer.share);
    tried(() => lms.take(state, answer));
  });
  left.length = 0;
  state.take('q1', 1);
  const last = { name: 'lesson.q1', kind: 'choose', seed: 999, typed: '1', steps: [], share: 1, seconds: 1, at: new Date(0) };
  lms.take(state, last);
  const ids = [...kept()].filter(([key]) => /^cmi\.interactions\.\d+\.id$/.test(key)).map(([, id]) => id);
  assert.deepEqual([...new Set(ids)].sort(), [...all, last].map(({ name, seed }) => `${name}.${seed}`).sort());
  const again = new State(QUESTIONS, 0.8);
  again.resume(kept().get('cmi.suspend_data'));
  assert.equal(again.answered, state.answered);
}, { runs: 400 });

test('of a system that takes no interaction how far the lesson is is kept all the same', () => {
  for (const later of [false, true]) {
    const { api, kept } = system(later, () => undefined);
    const set = later ? 'SetValue' : 'LMSSetValue';
    const before = api[set];
    api[set] = (/** @type {string} */ key, /** @type {string} */ value) => (key.startsWith('cmi.interactions') ? 'false' : before(key, value));
    const state = stateOf([['q1', 1]]);
    const lms = new Lms(api, later);
    lms.begin(state);
    assert.throws(() => lms.take(state, { name: 'lesson.q1', kind: 'set', seed: 1, typed: '3', steps: [], share: 1, seconds: 1, at: new Date(0) }), /said by the system/);
    assert.match(kept().get('cmi.suspend_data') ?? '', /q1:100:1/);
  }
});

const one = { name: 'lesson.q1', kind: 'set', seed: 1, typed: '3', steps: [], share: 1, seconds: 1, at: new Date(0) };

test('what was not taken is told once more as the visit ends, and it ends whatever is refused on the way', () => {
  for (const later of [false, true]) {
    for (const [first, then] of [['suspend_data', 'session_time'], ['score', 'interactions'], ['interactions', 'suspend_data']]) {
      const { api, kept } = system(later, () => undefined);
      const [set, end] = later ? ['SetValue', 'Terminate'] : ['LMSSetValue', 'LMSFinish'];
      const before = api[set];
      let refused = '';
      let ended = false;
      api[set] = (/** @type {string} */ key, /** @type {string} */ value) => (refused && key.includes(refused) ? 'false' : before(key, value));
      api[end] = () => ((ended = true), 'true');
      const state = stateOf([]);
      const lms = new Lms(api, later);
      lms.begin(state);
      assert.equal(kept().size, 0);
      state.take('q1', 1);
      refused = first;
      assert.throws(() => lms.take(state, one));
      refused = then;
      lms.end(state);
      const told = [...kept().keys()].join(' ');
      for (const what of ['suspend_data', 'score', 'session_time', 'interactions', '.exit']) assert.equal(told.includes(what), what !== then || first === 'interactions', `${what}, ${first} refused and then ${then}`);
      assert(ended);
    }
  }
});

test('a visit in which nothing is answered is one that is taken up again', () => {
  for (const later of [false, true]) {
    const { api, kept } = system(later, () => undefined);
    api[later ? 'SetValue' : 'LMSSetValue']('cmi.suspend_data', stateOf([['q1', 1]]).kept(4096).text);
    const state = stateOf([]);
    const lms = new Lms(api, later);
    lms.begin(state);
    lms.end(state);
    assert.equal(state.answered, 1);
    assert.equal(kept().get(later ? 'cmi.exit' : 'cmi.core.exit'), 'suspend');
  }
});

test('a share beside a mark that it does not pass stands below it', () => {
  for (const [share, told] of [[0.797, 79], [0.7999, 79], [0.794, 79], [0.5, 50], [0, 0]]) assert.equal(hundredths(share, 0.8), told);
  assert.equal(hundredths(0.797), 80);
  assert.equal(percent(0.797, 0.8), '79\u202f%');
  assert.deepEqual([hundredths(0.811, 0.812), hundredths(0, 0.004)], [80, 0]);
  const { api, kept } = system(true, () => undefined);
  const [state, lms] = [new State(['q1'], 0.8), new Lms(api, true)];
  lms.begin(state);
  state.take('q1', 0.797);
  lms.take(state, one);
  assert.deepEqual(['cmi.score.raw', 'cmi.score.scaled', 'cmi.success_status'].map(key => kept().get(key)), ['79', '0.7970', 'failed']);
  const summed = new State(Array.from({ length: 12 }, (_, at) => `q${at}`), 0.8);
  [1, 1, 1, 1, 1, 1, 1, 1, 1, 0.6, 0, 0].forEach((share, at) => summed.take(`q${at}`, share));
  assert(summed.share < 0.8 && summed.passed, 'the mark itself, however it is summed');
});

/** Has the clock stand otherwise for as long as something is done. @param {number} by ms @param {() => void} act */
function leapt(by, act) {
  const real = Date.now;
  Date.now = () => real() + by;
  try {
    act();
  } finally {
    Date.now = real;
  }
}

test('a clock that leaps makes no visit longer or shorter, and ends none without its system', () => {
  for (const by of [-3_600_000, 3 * 86_400_000]) {
    for (const [later, key, span] of /** @type {[boolean, string, RegExp][]} */ ([[true, 'cmi.session_time', /^PT[0-9]S$/], [false, 'cmi.core.session_time', /^0000:00:0[0-9]$/]])) {
      const { api, kept } = system(later, () => undefined);
      const lms = new Lms(api, later);
      const state = stateOf([['q1', 1]]);
      lms.begin(state);
      leapt(by, () => lms.end(state));
      assert.match(kept().get(key) ?? '', span);
    }
    leapt(by, () => assert.match(completed({ ...launch, visit: 'v', began: performance.timeOrigin }).result.duration, /^PT[0-9.]{1,5}S$/));
  }
});

const launch = { endpoint: 'https://store.example/xapi/', fetch: 'https://lms.example/key?once=1', actor: { account: { homePage: 'https://lms.example', name: 'ines' } }, registration: 'd3f0c5a4-0e5b-4c3e-9a80-0a8f3ad6a1c2', activityId: 'https://lms.example/lesson' };
const data = { contextTemplate: { contextActivities: { grouping: [{ id: 'https://lms.example/course' }] }, extensions: { 'https://w3id.org/xapi/cmi5/context/extensions/sessionid': 's1' } }, launchMode: 'Normal', masteryScore: 0.75, returnURL: 'https://lms.example/back', moveOn: 'Passed' };

fuzzed('what a system adds to a statement adds, and takes nothing of it', fc.oneof(damaged(data.contextTemplate), anyJson('contextActivities', 'extensions', 'registration', 'category', 'grouping').filter(value => typeof value === 'object' && value && !Array.isArray(value))), template => {
  const made = initialized({ ...launch, visit: 'v', began: 0 });
  const whole = dressed(made, typeof template === 'object' && template && !Array.isArray(template) ? template : {});
  assert.deepEqual({ ...whole, context: 0 }, { ...made, context: 0 });
  assert.equal(whole.context.registration, launch.registration);
  const { category } = whole.context.contextActivities;
  assert(category.some((/** @type {any} */ each) => each.id.endsWith('/cmi5')));
  JSON.stringify(whole);
}, { runs: 500 });

const address = fc.array(fc.tuple(fc.constantFrom('endpoint', 'fetch', 'actor', 'registration', 'activityId', 'auth', 'activity_id', 'seed'), fc.oneof(oddText, fc.constantFrom(launch.endpoint, launch.fetch, JSON.stringify(launch.actor), 'null', '[]', 'ftp://x', 'javascript:alert(1)', '1'))), { maxLength: 9 });
fuzzed('an address starts a visit, or none, or it is said what is wrong; the key is taken out of it', fc.tuple(address, fc.boolean()), ([pairs, whole]) => {
  here.sessionStorage.clear();
  const sound = Object.entries({ ...launch, actor: JSON.stringify(launch.actor) });
  here.location.href = `https://course.example/lesson/?${new URLSearchParams([...pairs, ...(whole ? sound : [])])}`;
  let found;
  try {
    found = launchOfPage();
  } catch (why) {
    assert(why instanceof Unlaunched, String(why));
    assert(words[`lms.${why.said}`]);
    assert(why.said === 'plain' || why.field);
  }
  assert(!/[?&](endpoint|fetch|actor|registration|activityId|auth|activity_id)=/.test(here.location.href));
  if (!found) return;
  assert.match(found.endpoint, /^https?:.*\/$/s);
  assert.match(found.fetch, /^https?:/);
  assert(typeof found.actor === 'object' && found.actor);
}, { runs: 800 });

/** What answers a request: soundly, or with a status and anything. @typedef {{ status: number, body: string } | 'sound' | 'gone'} Answer */
const wrong = fc.oneof(
  { weight: 3, arbitrary: fc.constant('sound') },
  { weight: 1, arbitrary: fc.constant('gone') },
  fc.record({ status: fc.constantFrom(200, 200, 200, 204, 301, 400, 401, 403, 404, 409, 429, 500, 503), body: fc.oneof(anyJson('auth-token', 'error-text', 'contextTemplate', 'state', 'completed', 'passed', 'masteryScore').map(value => JSON.stringify(value)), damaged(data, anyJson()).map(value => JSON.stringify(value) ?? ''), oddText) }),
);
/** @type {fc.Arbitrary<Answer[]>} */
const script = /** @type {any} */ (fc.array(wrong, { maxLength: 25 }));

fuzzed('a record store that answers anything in the end has every answer once, or it is offered aside', fc.tuple(script, taken), async ([answers, given]) => {
  const left = [...answers];
  /** @type {Map<string, any>} */
  const statements = new Map();
  /** Answers that the store said it has, whatever that is worth. @type {Set<number>} */
  const acknowledged = new Set();
  const seeds = (/** @type {any[]} */ all) => all.filter(each => each.verb.id.endsWith('/answered')).map(each => Number(each.result.response));
  let keyless = false;
  here.fetch = async (/** @type {string} */ way, /** @type {any} */ how) => {
    const answer = left.shift() ?? 'sound';
    const key = way === launch.fetch;
    if (answer === 'gone') throw new TypeError('gone');
    if (answer !== 'sound') {
      const empty = [204, 301].includes(answer.status);
      const has = answer.status < 300 || answer.status === 409;
      if (has && way.includes('statementId=')) seeds([JSON.parse(how.body)]).forEach(seed => acknowledged.add(seed));
      return new Response(empty ? null : answer.body, { status: answer.status });
    }
    const address = new URL(way);
    if (key) return Response.json({ 'auth-token': 'a2V5' });
    const id = address.searchParams.get('statementId');
    if (id) {
      const known = statements.has(id);
      if (!known) statements.set(id, JSON.parse(how.body));
      return new Response(null, { status: known ? 409 : 204 });
    }
    if (how.method === 'PUT') return new Response(null, { status: 204 });
    return address.searchParams.get('stateId') === 'LMS.LaunchData' ? Response.json(data) : new Response(null, { status: 404 });
  };
  here.setTimeout = () => 0;
  try {
    /** @type {import('../../www/cmi5.js').Told | undefined} */
    let last;
    const state = new State(QUESTIONS, 0.8);
    const cmi5 = new Cmi5({ ...launch, visit: String(Math.random()), began: Date.now() }, state, (said, told) => {
      assert(words[`lms.${said}`], `no words for ${said}`);
      assert(['count', 'why', 'pass'].every(name => (/** @type {any} */ (told))[name] !== undefined));
      assert.equal(typeof told.why, 'string');
      assert.doesNotMatch(told.why, /undefined|is not|Cannot|Unexpected/, 'what went wrong is not told in words of a program');
      assert(told.back === undefined || /^https?:/.test(told.back));
      assert(told.pass >= 0 && told.pass <= 1);
      keyless = said === 'keyless';
      last = told;
    });
    await cmi5.begin();
    for (const [at, [question, share]] of given.entries()) {
      await cmi5.take(question, { name: `lesson.${question}`, kind: 'set', seed: at, typed: String(at), steps: [], share, seconds: at, at: new Date(0), course: 'urn:uuid:c', title: 'A lesson', question, language: 'en' });
    }
    for (let tries = 0; left.length && tries < 40; tries++) await cmi5.send();
    left.length = 0;
    await cmi5.send();
    const waiting = await cmi5.kept.look(entry => entry.rows);
    const told = seeds([...statements.values()]);
    const aside = seeds((last?.aside ?? []));
    const unsent = seeds(waiting.filter(row => !row.aside).map(row => row.statement));
    const there = new Set([...told, ...aside, ...unsent, ...acknowledged]);
    assert.deepEqual(given.map((_, at) => at).filter(at => !there.has(at)), [], 'lost');
    if (!keyless) assert.deepEqual(unsent, []);
    assert.equal(new Set(told).size, told.length);
    assert.equal(state.answered, new Set(given.map(([question]) => question)).size);
  } finally {
    here.setTimeout = timed;
  }
}, { runs: 300, kept: [[['sound', { status: 200, body: JSON.stringify({ ...data, masteryScore: 5 }) }], []], [[{ status: 200, body: '__proto__' }], []]] });

test('an answer of a store is read up to its bound and no further', async () => {
  const long = (/** @type {number} */ bytes) => new Response(JSON.stringify('x'.repeat(bytes - 2)));
  assert.equal((await said(long(MOST))).length, MOST - 2);
  await assert.rejects(said(long(MOST + 1)), why => why instanceof Refused && why.message.includes(String(MOST)));
  let [given, stopped] = [0, false];
  const endless = new ReadableStream({ pull: control => { given += 1; control.enqueue(new Uint8Array(100_000)); }, cancel: () => { stopped = true; } });
  await assert.rejects(said(new Response(endless)), Refused);
  assert(stopped && given < 15, `${given} parts were asked for`);
});

test('a store that does not answer is waited for 20 seconds, and what was sent is sent again later', async () => {
  const real = AbortSignal.timeout;
  /** @type {number[]} */
  const waits = [];
  AbortSignal.timeout = wait => (waits.push(wait), real.call(AbortSignal, 5));
  here.fetch = (/** @type {string} */ _, /** @type {RequestInit} */ { signal }) => new Promise((_, broken) => signal?.addEventListener('abort', () => broken(signal.reason)));
  /** @type {ReturnType<typeof setTimeout> | undefined} */
  let late;
  try {
    const end = new Promise((_, failed) => { late = timed(() => failed(new Error('it is waited for ever')), 1000); });
    await assert.rejects(Promise.race([asked('https://store.example/', {}), end]), why => why instanceof Refused && why.passing);
    assert.deepEqual(waits, [20_000]);
  } finally {
    clearTimeout(late);
    AbortSignal.timeout = real;
  }
});
