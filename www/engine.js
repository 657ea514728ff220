// The program behind the elements: loaded once a page, however many elements ask.
// Every way it can fail to start has a name, and so a sentence in the page's words.

import { load } from './origin.js';
import begin from './wasm/outlean.js';
import { wordsOf } from './words.js';

/**
 * @typedef {import('./words.js').Words} Words
 * @typedef {{ kind: string, key?: string, value?: number, word?: string }} Action What is done to a figure; see crate/widget/src/action.rs.
 * @typedef {{ key: string, name: string, text: string, spoken: string, now: number, least: number, most: number, page: number }} SliderView
 * @typedef {{ key: string, name: string, now: string, options: [string, string][] }} ChoiceView
 * @typedef {{ key: string, name: string, carries: string, allowable: string, used: string, ratio?: number, governs: boolean, demand: number }} Row
 * @typedef {{ sign: 'in'|'at'|'out'|'not_assessed', is: string, why: string }} Verdict
 * @typedef {{ kind: 'text'|'slider'|'choice', is: string }} Piece
 * @typedef {{ key: string, name: string, value: string }} Named
 * @typedef {object} View
 * @property {Piece[]} sentence
 * @property {string} sentence_text
 * @property {Verdict} verdict
 * @property {string} covers
 * @property {SliderView[]} sliders
 * @property {ChoiceView[]} choices
 * @property {Row[]} rows
 * @property {Named[]} more
 * @property {boolean} veiled
 * @property {boolean} playing
 * @property {boolean} reduced
 * @property {boolean} slow
 * @property {boolean} halted
 * @property {boolean} undo
 * @property {boolean} redo
 */

/** What an action changed: flags of the number that the program answers with. */
export const CHANGED = { lean: 1, rig: 2, units: 4, veil: 8, motion: 16, halted: 32, tips: 64, fault: 128 };

/** A failure to start, by name; `fail.` and the name is what it is told as. */
export class StartFailure extends Error {
  /**
   * @param {'absent'|'fetch'|'type'|'forbidden'|'compile'|'version'|'words'|'style'|'canvas'|'late'|'attribute'|'src'|'content'|'rig'|'question'|'other'} cause
   * @param {Record<string, string>} [places] What the words are filled with.
   */
  constructor(cause, places = {}) {
    super(cause);
    this.cause = cause;
    this.places = places;
  }
}

const PARTS = ['page', 'picture', 'curves', 'question', 'questions', 'working'];
/** @type {Promise<Words> | undefined} */
let started;
/** @type {Promise<Words> | undefined} */
let spoken;

/** Starts the compiled program and gives the page's words; the same promise for every caller. */
export function engine() {
  started ??= Promise.all([vocabulary(), program()])
    .then(([words]) => words)
    .catch(why => {
      started = undefined; // the next caller may try again
      throw why;
    });
  return started;
}

/** The page's words; the same promise for every caller. */
export function vocabulary() {
  spoken ??= Promise.all(PARTS.map(wordsOf))
    .then(parts => Object.assign({}, ...parts))
    .catch(why => {
      spoken = undefined;
      throw new StartFailure('words');
    });
  return spoken;
}

async function program() {
  if (!('WebAssembly' in globalThis)) throw new StartFailure('absent');
  const answer = await load('wasm/outlean_bg.wasm').catch(() => undefined);
  if (!answer?.ok) throw new StartFailure('fetch');
  if (!(answer.headers.get('content-type') ?? '').startsWith('application/wasm')) throw new StartFailure('type');
  try {
    await begin({ module_or_path: answer });
  } catch (why) {
    throw new StartFailure(causeOf(why));
  }
}

/** Why the program that arrived does not run. @param {unknown} why */
function causeOf(why) {
  if (why instanceof WebAssembly.LinkError) return 'version';
  if (why instanceof TypeError) return 'fetch'; // broken off on its way
  try {
    new WebAssembly.Module(Uint8Array.of(0, 97, 115, 109, 1, 0, 0, 0)); // the least there is
  } catch {
    return 'forbidden';
  }
  return 'compile';
}

/** @type {Map<string, Promise<CSSStyleSheet>>} */
const sheets = new Map();

/** A style sheet to adopt in a shadow root, fetched once. @param {string} name */
export function sheet(name) {
  const known = sheets.get(name);
  if (known) return known;
  const made = load(name)
    .then(answer => (answer.ok ? answer.text() : Promise.reject()))
    .then(text => new CSSStyleSheet().replace(text))
    .catch(() => {
      sheets.delete(name);
      throw new StartFailure('style');
    });
  sheets.set(name, made);
  return made;
}

/** Resolves once the lettering of the figures is there, or after a while without it. */
export function lettering() {
  const faces = ['500 13px "Outlean Label"', '600 14px "Outlean Label"', 'italic 400 16px "Outlean Text"'];
  const all = Promise.all(faces.map(face => document.fonts.load(face))).catch(() => {});
  return Promise.race([all, new Promise(done => setTimeout(done, 1500))]);
}

/** The colours of the present theme as plain numbers, for the pictures: forced colours have names of their own. @param {Element} element */
export function inks(element) {
  const style = getComputedStyle(element);
  const resolver = document.createElement('canvas').getContext('2d');
  /** @type {Record<string, string>} */
  const found = {};
  if (!resolver) throw new StartFailure('canvas');
  for (const token of '--paper --ink --ink-2 --rule --timber --earth --figure --push --pull --load --ground --out-wash --out-hatch --pencil'.split(' ')) {
    resolver.fillStyle = style.getPropertyValue(token).trim();
    found[token] = String(resolver.fillStyle);
  }
  return found;
}

/** Calls `then` whenever what the reader's system asks for or the pixel density changes. Returns how to stop. @param {() => void} then */
export function onMedia(then) {
  const stop = new AbortController();
  for (const query of ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)', '(forced-colors: active)']) {
    matchMedia(query).addEventListener('change', then, { signal: stop.signal });
  }
  const density = () => {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => { then(); density(); }, { once: true, signal: stop.signal });
  };
  density();
  return () => stop.abort();
}
