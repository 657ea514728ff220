// Records, plans and rigs that come from outside, whatever they are: taken, or refused in words; nothing lost, nothing hung, nothing changed
// that was there. In Node, without a page.

import assert from 'node:assert/strict';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';
import fc from 'fast-check';
import { here } from './no-page.mjs';
import { NoRecord, readFile, textOf } from '../../www/attempts.js';
import { linkedRig } from '../../www/link.js';
import { linked, linkOf } from '../../www/plan-kept.js';
import { templates } from './drawn.mjs';
import { anyJson, damaged, damagedText, fuzzed, oddText } from './fuzz.mjs';
import { root, wasm } from './place.mjs';

const require = createRequire(import.meta.url);
const program = require(join(wasm('node'), 'outlean.js'));
const { ClassTable } = require(join(wasm('node'), 'class.js'));
// Named apart: its types are those of a page, which tests without one do not have.
const wordsOfReasons = '../../www/reason.js';
const { reason } = await import(wordsOfReasons);
const words = JSON.parse(readFileSync(join(root, 'www/strings/en/records.json'), 'utf8'));

const { location } = here;

const files = ['crate/course/tests/records/first-version.json', 'crate/outlean/tests/data/ines.json', 'crate/outlean/tests/data/mo-damaged.json'].map(file => readFileSync(join(root, file), 'utf8'));
const fields = ['format', 'version', 'learner', 'attempts', 'aside', 'time', 'lesson', 'question', 'seed', 'response', 'mark', 'share', 'verdict', 'raw', 'why', 'field', 'value', 'allowed'];
const anyFile = fc.oneof(
  ...files.map(file => damaged(JSON.parse(file), anyJson(...fields)).map(whole => JSON.stringify(whole) ?? '')),
  ...files.map(file => damagedText(file)),
  anyJson(...fields).map(value => JSON.stringify(value) ?? ''),
  oddText,
);

/** What the native program makes of a file. @param {string} file @returns {{ learner: string | null, attempts: number, aside: any[] }} */
function natively(file) {
  const table = new ClassTable();
  const taken = JSON.parse(table.take(file));
  table.free();
  return taken;
}

/** A reason is told in words. @param {any} why */
function told(why) {
  const { field, value, allowed } = reason(words, why);
  assert.equal(typeof field, 'string');
  assert([...why.value].length <= 60 && value.length > 0);
  assert(!allowed.startsWith('allowed.'), `no words for ${JSON.stringify(why.allowed)}`);
}

fuzzed('a record is taken or refused by field, and what a page takes the native program reads whole', anyFile, file => {
  let read;
  try {
    read = readFile(file);
  } catch (why) {
    assert(why instanceof NoRecord, String(why));
    told(why.why);
    return;
  }
  read.aside.forEach(({ why }) => told(why));
  const again = { format: 'outlean-record', version: 2, learner: read.learner, attempts: read.attempts, aside: read.aside.map(({ raw, why }) => ({ raw, why })) };
  const taken = natively(JSON.stringify(again));
  assert.equal(taken.learner, read.learner);
  assert(read.attempts.length + read.aside.length >= taken.attempts + taken.aside.length - new Set(read.attempts.map(each => JSON.stringify(each))).size);
  // Two at one time contradict one another: one of them stands aside there.
  const names = new Set(read.attempts.map(({ time, question, seed }) => JSON.stringify([time, question, seed])));
  assert.equal(taken.attempts, names.size);
  // Nothing is taken by the one and refused whole by the other.
  const whole = natively(file);
  if (whole.learner !== null) assert.equal(whole.learner, read.learner);
}, { runs: 1500 });

test('each bound of a record, from both sides, as the native program has them', async () => {
  const whole = JSON.stringify({ format: 'outlean-record', version: 2, learner: 'Ines', attempts: [], aside: [] });
  const why = (/** @type {string} */ file) => {
    try {
      return void readFile(file);
    } catch (why) {
      return /** @type {NoRecord} */ (why).why;
    }
  };
  const same = (/** @type {string} */ file) => {
    const { aside: [there] } = natively(file);
    const here = why(file);
    assert.deepEqual([here?.field, here?.allowed], [there?.field, there?.allowed]);
    return here?.allowed;
  };
  const padded = (/** @type {number} */ bytes) => whole + ' '.repeat(bytes - whole.length);
  assert.equal(same(padded(16_000_000)), undefined);
  assert.deepEqual(same(padded(16_000_001)), { bytes: 16_000_000 });
  const deep = (/** @type {number} */ levels) => whole.replace('"attempts":[]', `"attempts":[${'['.repeat(levels - 2)}${']'.repeat(levels - 2)}]`);
  assert.equal(why(deep(127)), undefined);
  assert.equal(same(deep(128)), 'json');
  assert.equal(same(deep(1_000_000)), 'json');
  assert.equal(why(whole.replace('"attempts":[]', `"attempts":[${'"[{\\"",'.repeat(500)}0]`)), undefined, 'what stands in a text is not deep');
  const listed = (/** @type {number} */ count) => whole.replace('"attempts":[]', `"attempts":[${'0,'.repeat(count - 1)}0]`);
  assert.equal(why(listed(50_000)), undefined);
  assert.deepEqual(same(listed(50_001)), { items: 50_000 });
  // A file that is longer is not even read.
  const file = (/** @type {number} */ size) => /** @type {any} */ ({ size, text: async () => 'read' });
  assert.equal(await textOf(file(16_000_000)), 'read');
  await assert.rejects(textOf(file(16_000_001)), NoRecord);
});

/** Whether there is no half sign in a text. @param {string} text */
const whole = text => !/\p{Surrogate}/u.test(text);
const plans = fc.oneof(fc.string({ unit: 'binary' }).filter(whole), fc.constantFrom('', 'lean = "19 deg"\n', 'é\u{1f9ed}\u0000'));
fuzzed('a plan comes back out of its link as it went in', plans, async text => {
  location.hash = new URL(await linkOf(text)).hash;
  assert.deepEqual(await linked(), { text });
}, { runs: 300 });

const right = 'plan=y8tJTM1TsFVQMjRUSElNU-ICAA';
fuzzed('a link holds a plan or it is said that it holds none', fc.oneof(damagedText(right), oddText.map(text => `plan=${text}`), oddText), async hash => {
  location.hash = `#${hash}`;
  const read = await linked();
  assert(hash.startsWith('plan=') || read === undefined || /[\r\n]/.test(hash));
  if (read && 'wrong' in read) assert(['link_bad', 'link_long'].includes(read.wrong));
  else if (read) assert(whole(read.text) && read.text.length <= 200_000);
}, { runs: 500 });

test('a link holds a plan of 200,000 bytes and none of one more, however small it is packed', async () => {
  location.hash = new URL(await linkOf('x'.repeat(200_000))).hash;
  assert.deepEqual(await linked(), { text: 'x'.repeat(200_000) });
  await assert.rejects(linkOf('x'.repeat(200_001)), RangeError);
  const packed = new Response(new Blob(['x'.repeat(50_000_000)]).stream().pipeThrough(new CompressionStream('deflate-raw')));
  location.hash = `#plan=${Buffer.from(await packed.arrayBuffer()).toString('base64url')}`;
  assert.deepEqual(await linked(), { wrong: 'link_long' });
});

const frame = new program.RigFigure({ lean: 0.3, 'guy.0.setback': 6 }, {});
/** @type {Record<string, any>} */
const rig = frame.rig();
const keys = Object.keys(rig);
/** Refused by a text that names a key, or taken: the program never breaks. @param {() => any} act */
function tried(act) {
  let made;
  try {
    made = act();
  } catch (why) {
    assert.equal(typeof why, 'string', `${why}`);
    assert.match(String(why), /`|seed|draw|rig/u);
    return;
  }
  made?.free?.();
}

const pair = fc.tuple(fc.oneof(fc.constantFrom(...keys), oddText, fc.constantFrom('guy.7.rise', 'guy.4294967295.rise', 'guy.99999999999999999999.rise', 'guy.-1.rise', 'guy.N.rise')), fc.oneof(fc.double().map(String), oddText));
const address = fc.tuple(fc.constantFrom('frame', 'other', '__proto__'), fc.array(pair, { maxLength: 12 }), fc.boolean()).map(([figure, pairs, whole]) =>
  `#${new URLSearchParams([['figure', figure], ...(whole ? Object.entries(rig).map(([key, value]) => [key, String(value)]) : []), ...pairs])}`);
fuzzed('a rig in a link is taken or refused by its key', fc.oneof(address, oddText.map(text => `#figure=frame&${text}`)), hash => {
  location.hash = hash;
  const read = linkedRig('frame');
  if (read) tried(() => new program.RigFigure(read, {}));
}, { runs: 1500 });

fuzzed('a figure takes any rig, and any action, or refuses it', fc.tuple(fc.oneof(damaged(rig), anyJson(...keys)), fc.array(fc.tuple(fc.constantFrom('set', 'step', 'set_stepped', 'choose', 'units', 'tick', 'undo', 'redo', 'play', 'veil', 'reveal', '__proto__'), fc.oneof(fc.constantFrom(...keys), oddText), fc.double(), oddText), { maxLength: 6 })), ([given, actions]) => {
  tried(() => {
    const figure = new program.RigFigure(given, {});
    for (const [kind, key, value, word] of actions) tried(() => void figure.act(kind, key, value, word));
    assert(Number.isFinite(figure.rig().lean));
    figure.view();
    return figure;
  });
}, { runs: 800 });

const asked = templates();
const oneOfEach = [...new Map(asked.map(template => [template.kind, template])).values()];
test('what says that it is a list without an end is none', () => {
  const lists = oneOfEach.flatMap(template => Object.keys(template).filter(key => Array.isArray(template[key])).map(key => ({ ...template, [key]: { length: 4294967295 } })));
  assert(lists.length > 3);
  for (const template of lists) tried(() => (template.kind === 'estimate' ? new program.Estimate(template, {}, 1) : new program.Asked(template, {}, 1)));
});
fuzzed('a question is drawn and marked, whatever stands in its template and whatever is answered, or it is refused', fc.tuple(fc.oneof(...oneOfEach.map(template => damaged(template))), anyJson('entries', 'fault', 'remedy')), ([template, answer]) => {
  tried(() => {
    const question = template?.kind === 'estimate' ? new program.Estimate(template, {}, 1) : new program.Asked(template, {}, 1);
    question.view('metric');
    tried(() => void question.mark(template?.kind === 'estimate' ? JSON.stringify(answer) : answer, 'metric'));
    return question;
  });
}, { runs: 150 });
