// The program behind the elements: loaded once a page, however many elements ask.
// Every way it can fail to start has a name, and so a sentence in the page's words.

import { load } from './origin.js';
import begin from './wasm/outlean.js';

/**
 * @typedef {Record<string, string>} Words Words of the page by key.
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

/** A failure to start, by name. */
export class StartFailure extends Error {
  /** @param {'fetch'|'compile'|'type'|'words'|'rig'|'other'} cause @param {string} [why] */
  constructor(cause, why = '') {
    super(why || cause);
    this.name = 'StartFailure';
    this.key = `fail.${cause}`;
    this.why = why;
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
  spoken ??= Promise.all(PARTS.map(vocabularyOf))
    .then(parts => Object.assign({}, ...parts))
    .catch(why => {
      spoken = undefined;
      throw new StartFailure('words', String(why));
    });
  return spoken;
}

/** The words of one part of the page. @param {string} part @returns {Promise<Words>} */
export async function vocabularyOf(part) {
  const language = document.documentElement.lang.split('-')[0] || 'en';
  const answer = await load(`strings/${language}/${part}.json`);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

async function program() {
  let answer;
  try {
    answer = await load('wasm/outlean_bg.wasm');
    if (!answer.ok) throw new Error(String(answer.status));
  } catch (why) {
    throw new StartFailure('fetch', String(why));
  }
  if (!(answer.headers.get('content-type') ?? '').startsWith('application/wasm')) throw new StartFailure('type');
  try {
    await begin({ module_or_path: answer });
  } catch (why) {
    throw new StartFailure('compile', String(why));
  }
}

/** @type {Map<string, Promise<CSSStyleSheet>>} */
const sheets = new Map();

/** A style sheet to adopt in a shadow root, fetched once. @param {string} name */
export function sheet(name) {
  const known = sheets.get(name);
  if (known) return known;
  const made = load(name)
    .then(answer => answer.text())
    .then(text => new CSSStyleSheet().replace(text));
  sheets.set(name, made);
  return made;
}

/** Resolves once the lettering of the figures is there, or after a while without it. */
export function lettering() {
  const faces = ['500 13px "Outlean Label"', '600 14px "Outlean Label"', 'italic 400 16px "Outlean Text"'];
  const all = Promise.all(faces.map(face => document.fonts.load(face))).catch(() => {});
  return Promise.race([all, new Promise(done => setTimeout(done, 1500))]);
}

/** Words with {places} filled. @param {Words} words @param {string} key @param {Record<string, string>} [values] */
export function fill(words, key, values = {}) {
  return (words[key] ?? key).replace(/\{(\w+)\}/g, (whole, name) => values[name] ?? whole);
}

/** The colours of the present theme as plain numbers, for the pictures: forced colours have names of their own. @param {Element} element */
export function inks(element) {
  const style = getComputedStyle(element);
  const resolver = document.createElement('canvas').getContext('2d');
  /** @type {Record<string, string>} */
  const found = {};
  for (const token of ['--paper', '--ink', '--ink-2', '--rule', '--timber', '--earth', '--figure', '--push', '--pull', '--load', '--ground', '--out-wash', '--out-hatch', '--pencil']) {
    const colour = style.getPropertyValue(token).trim();
    if (resolver) resolver.fillStyle = colour;
    found[token] = resolver ? String(resolver.fillStyle) : colour;
  }
  return found;
}

/** Calls `then` whenever the page's theme, units or pixel density change. Returns how to stop. @param {() => void} then */
export function onSettings(then) {
  const stop = new AbortController();
  const observer = new MutationObserver(then);
  observer.observe(document.documentElement, { attributeFilter: ['data-theme', 'data-units'] });
  for (const query of ['(prefers-color-scheme: dark)', '(prefers-reduced-motion: reduce)', '(forced-colors: active)']) {
    matchMedia(query).addEventListener('change', then, { signal: stop.signal });
  }
  const density = () => {
    matchMedia(`(resolution: ${devicePixelRatio}dppx)`).addEventListener('change', () => { then(); density(); }, { once: true, signal: stop.signal });
  };
  density();
  return () => { observer.disconnect(); stop.abort(); };
}
