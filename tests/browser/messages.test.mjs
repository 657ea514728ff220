// What other pages say to a page, whatever it is: to one that may be led, to one that is, to a speaker's, to one in a frame and to the one
// around it. None throws, none acts by what it may not, none lets markup in, and none is the worse for it afterwards. In Node.

import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';
import { anyJson, fuzzed, oddText } from './fuzz.mjs';
import { COURSE, page, soon } from './node-page.mjs';

const LESSON = `<h1 id="top">Lean</h1><h2 id="one">One</h2><outlean-choose id="asked"></outlean-choose><outlean-rig id="rig"></outlean-rig><h2 id="two">Two</h2>`;
const ENTRIES = '<ul class="entries"><li><label><input type="radio">Nearer</label></li><li><label><input type="radio">Farther</label></li></ul><div class="again"></div>';
const SCENE = { verdict: { is: 'Inside its limits', why: 'nothing governs' }, sentence_text: 'A frame.', veiled: false, playing: false, reduced: false, undo: true };

const learner = await page('<html><body><a data-speaker href="#">Speaker</a></body></html>', ['projected.js'], () => true);
/** The hands of a page that is led, as it shows them. */
const counts = (/** @type {any} */ document) => [...document.querySelector('outlean-choose').shadowRoot.querySelectorAll('output')].map(each => Number(each.textContent));
/** What is done to the figure of the page that is led. @type {any[]} */
const acts = [];
const led = await page(`<html data-led><body><main>${LESSON}</main></body></html>`, ['led.js', 'hands.js'], document => counts(document).length, document => {
  for (const step of document.querySelectorAll('main>*')) Object.assign(step, { getBoundingClientRect: () => ({ top: 0 }), scrollIntoView: () => {} });
  Object.assign(document.querySelector('outlean-rig'), { told: SCENE, act: (/** @type {any} */ action) => acts.push(action), reveal: () => {} });
  const question = document.querySelector('outlean-choose');
  Object.assign(question, { known: { prompt: 'Which?', answer: 'Nearer', open: true }, reveal: () => {} });
  const tree = question.attachShadow({ mode: 'open' });
  tree.innerHTML = ENTRIES;
  tree.adoptedStyleSheets = [];
});
const speaker = await page(`<html><head></head><body><main><template>${LESSON}</template></main></body></html>`, ['speaker.js'], document => document.querySelector('.turns, .hands'));
const main = speaker.document.querySelector('main') ?? assert.fail();
const FRAMES = [`${COURSE}/embed.html?show=05-lean/slate`, `${COURSE}/embed.html`, `${COURSE}/05-lean/`, 'https://elsewhere.example/embed.html'];
const around = await page(`<html><body>${FRAMES.map(src => `<iframe src="${src}"></iframe>`).join('')}</body></html>`, ['frames.js'], () => true, document => {
  for (const frame of document.querySelectorAll('iframe')) Object.assign(frame, { contentWindow: { postMessage() {} }, offsetHeight: 102, clientHeight: 100 });
});
const windows = [...around.document.querySelectorAll('iframe')].map(frame => frame.contentWindow);
const framed = await page('<html><head></head><body></body></html>', ['embed.js'], document => document.querySelector('p'));

/** @param {string} of */
const reads = of => main.querySelector(of)?.textContent;

const text = fc.oneof(oddText, fc.constantFrom('x', 'top', 'one', 'nowhere'));
const any = anyJson('by', 'to', 'say', 'page', 'step', 'gone', 'question', 'hands', 'says', 'count', 'prompt', 'verdict', 'is', 'toString', 'valueOf');
/** What a page may say to another, and JSON cannot hold. */
const wild = fc.oneof(any, fc.bigInt(), fc.constantFrom(undefined, NaN, Infinity, new Date(NaN), new Map([['by', 'x']]), new Error('x'), { toString: 1, valueOf: 1 }, [{ toString: 1 }]));
/** Mostly what it should be. @param {fc.Arbitrary<any>} sound */
const mostly = sound => fc.oneof({ weight: 4, arbitrary: sound }, { weight: 1, arbitrary: wild });

const says = fc.record({
  by: mostly(text),
  to: mostly(fc.constant(undefined)),
  say: mostly(fc.constantFrom('hello', 'lead', 'bye', 'go', 'reveal', 'sweep', 'back', 'out', 'undo', 'reset', 'hand')),
  step: mostly(text),
  place: mostly(fc.integer({ min: -1, max: 2 })),
  way: mostly(fc.constantFrom(1, -1)),
});
const hands = fc.array(mostly(fc.record({ says: mostly(text), count: mostly(fc.nat()) })), { maxLength: 4 });
const question = fc.record({ prompt: mostly(text), answer: mostly(text), open: mostly(fc.boolean()), hands: mostly(hands) });
const verdict = fc.record({ is: mostly(text), why: mostly(text) });
const tells = fc.record({ page: mostly(text), gone: mostly(fc.constant(undefined)), step: mostly(text), veiled: wild, playing: wild, verdict: mostly(verdict), rig: mostly(text), question: mostly(question) });

fuzzed('a page is led by who says a name, and by nothing else', fc.oneof(says, tells, wild), data => {
  const { dataset } = learner.document.documentElement;
  learner.hear(data);
  assert.equal('led' in dataset, typeof data?.by === 'string');
  delete dataset.led;
}, { runs: 300 });

const ACTION = [{ kind: 'grab' }, { kind: 'play' }, { kind: 'undo' }, { kind: 'reset' }, { kind: 'step', key: 'lean', value: 1 }, { kind: 'step', key: 'lean', value: -1 }].map(each => JSON.stringify(each));
fuzzed('what is said to a page that is led moves its figure, counts one hand, or nothing; it tells where it stands', fc.oneof(says, tells, wild), data => {
  const before = counts(led.document);
  const named = typeof data?.by === 'string';
  led.hear(data);
  const now = counts(led.document);
  const moved = now.reduce((sum, count, place) => sum + Math.abs(count - before[place]), 0);
  const acted = acts.splice(0);
  assert(moved <= 1 && now.every(count => Number.isInteger(count) && count >= 0 && count <= 999), String(now));
  if (!named) assert(!moved && !acted.length, 'of nobody');
  if (data?.to) assert(!moved && !acted.length, 'said to another');
  assert(acted.length < 3 && acted.every(action => ACTION.includes(JSON.stringify(action))), JSON.stringify(acted));
  soon();
  for (const told of led.said()) assert(told.step === '' || led.document.getElementById(told.step));
}, { runs: 600, kept: [{ by: 'x', say: 'go', step: { toString: 1 } }, { by: 'x', say: 'hand', place: 0, way: 1n }, { by: 'x', say: 'hand', place: '__proto__', way: 1 }] });

const TAGS = new Set(['H1', 'H2', 'DIV', 'P', 'A', 'BUTTON', 'SECTION', 'OL', 'LI', 'B', 'SPAN']);

test('what a page that is led tells the speaker hears', () => {
  led.hear({ by: 'x', say: 'hello' });
  soon();
  const [told] = led.said();
  speaker.hear(told);
  assert.match(reads('.state') ?? '', /^You lead/);
  assert.deepEqual([reads('.prompt'), reads('.verdict'), reads('.rig'), reads('.hands')?.slice(0, 6)], ['Which?', 'Inside its limits nothing governs', undefined, 'Nearer']);
  speaker.hear({ ...told, gone: true });
  assert.match(reads('.state') ?? '', /^No page/);
});

const sound = { page: 'sound', step: 'two', hidden: false, veiled: false, playing: false, reduced: false, undo: false, verdict: { is: 'Stands', why: '' }, rig: 'R', question: { prompt: 'P?', answer: 'A', open: true, hands: [{ says: 'S', count: 4 }] } };
/** The same with hands for other options. @param {...string} says */
const handed = (...says) => ({ ...sound, question: { ...sound.question, hands: says.map(each => ({ says: each, count: 1 })) } });
fuzzed('what is said to a speaker is shown as text, and once who said it is gone all is as it was', fc.array(fc.oneof(says, tells, wild), { minLength: 1, maxLength: 5 }), async all => {
  for (const data of all) {
    speaker.hear(data);
    for (const each of main.querySelectorAll('*')) assert(TAGS.has(each.tagName), each.tagName);
    assert.doesNotMatch(main.textContent, /\[object |native code|\{title\}/);
  }
  for (const data of all) {
    if (typeof data?.page === 'string') speaker.hear({ page: data.page, gone: true });
    if (typeof data?.by === 'string') speaker.hear({ by: data.by, say: 'bye' });
  }
  await new Promise(done => setImmediate(done));
  speaker.hear(sound);
  assert.match(reads('.state') ?? '', /^You lead/);
  assert.deepEqual([reads('.prompt'), reads('.answer'), reads('section.figure .verdict'), reads('ol.hands b'), reads('#now')], ['P?', 'A', 'Stands ', '4', 'Two']);
  speaker.hear({ page: 'sound', gone: true });
  speaker.said();
}, { runs: 300, kept: [[{ ...sound, page: 'x', step: 'constructor' }], [handed(), handed('')], [handed('a', 'b'), handed('a\nb')]] });

const origin = mostly(fc.oneof({ weight: 4, arbitrary: fc.constant(COURSE) }, { weight: 1, arbitrary: fc.constantFrom('https://elsewhere.example', 'null', `${COURSE}.example`) }));
const toFrame = fc.record({
  outlean: mostly(fc.constantFrom('set', 'set', 'measure', 'height', 'height')),
  name: mostly(fc.constantFrom('theme', 'theme', 'units', 'seed', 'onclick', '__proto__')),
  value: mostly(fc.constantFrom('dark', 'sunlight', 'projector', 'us', '1', 'dark" onclick="alert(1)')),
  height: mostly(fc.double()),
});

fuzzed('a frame is as high as it says itself, whatever is said to the page around it', fc.tuple(mostly(toFrame), origin, fc.constantFrom(0, 0, 1, 2, 3, 4)), ([data, origin, from]) => {
  const heights = () => [...around.document.querySelectorAll('iframe')].map(({ style }) => style.height);
  const before = heights();
  around.message({ data, origin, source: windows[from] });
  const heard = origin === COURSE && from < 2 && data?.outlean === 'height' && Number.isFinite(data.height);
  heights().forEach((height, at) => {
    if (at !== from || !heard) assert.equal(height, before[at]);
    else assert(/^[\d.e-]+px$/.test(height) && parseFloat(height) >= 2 && parseFloat(height) <= 100_002, height);
  });
}, { runs: 500 });

let measured = false;
fuzzed('a page in a frame takes theme and units of the page around it, and tells it its height, and nothing else to nobody else', fc.tuple(mostly(toFrame), origin, fc.boolean()), ([data, origin, above]) => {
  const looks = () => framed.document.body.innerHTML;
  const before = looks();
  framed.message({ data, origin, source: above ? globalThis.parent : windows[0] });
  const heard = above && origin === COURSE;
  if (!heard) assert.equal(looks(), before);
  for (const each of framed.document.body.children) {
    assert([null, 'light', 'dark', 'sunlight'].includes(each.getAttribute('theme')) && [null, 'metric', 'us'].includes(each.getAttribute('units')));
    assert([...each.getAttributeNames()].every(name => ['role', 'theme', 'units'].includes(name)));
  }
  const said = framed.said();
  assert.equal(said.length, Number(heard && data?.outlean === 'measure'));
  for (const each of said) assert.deepEqual(each, { what: { outlean: 'height', height: 0 }, to: COURSE });
  measured ||= said.length > 0;
}, { runs: 500, kept: [[{ outlean: 'set', name: 'theme', value: { toString: 1 } }, COURSE, true]] });

test('some of what was made up was heard', () => {
  assert(measured && framed.document.querySelector('[theme]'));
  assert(around.document.querySelector('iframe')?.style.height);
});
