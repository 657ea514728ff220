// What a lesson page does once a speaker's page asks: tells where it stands, and goes and acts as it is told.

import { channel, QUESTIONS, someName, STEPS } from './channel.js';

/** A figure and a question, as far as they are led. @typedef {HTMLElement & { told?: import('./engine.js').View, act(action: import('./engine.js').Action): void, reveal(): void }} Figure */
/** @typedef {HTMLElement & { words: import('./words.js').Words, known?: { prompt: string, answer: string, open: boolean }, reveal(): void, hands?: import('./channel.js').Hands, hand?(place: number, way: number): void }} Asked */

/** Least time between two tellings, ms. */
const BETWEEN = 80;

const name = someName();
const line = channel();
let waiting = false;
/** @type {Element | undefined} The step that was gone to, and where the page stood then. */
let gone;
let goneTo = -1;

const steps = () => [...document.querySelectorAll(STEPS)];

/** The step in view: the one gone to, until the page is moved by hand; then the last that begins in its upper third. */
function present() {
  if (gone && Math.abs(scrollY - goneTo) < 2) return gone;
  gone = undefined;
  const all = steps();
  return all.filter(step => step.getBoundingClientRect().top < innerHeight / 3).at(-1) ?? all[0];
}

/** The first of `selector` at or after the present step, else the last before it. @param {string} selector @returns {any} */
function nearest(selector) {
  const all = [...document.querySelectorAll(selector)];
  const at = present();
  return all.find(each => each === at || (at && at.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_FOLLOWING)) ?? all.at(-1);
}

/** @returns {Figure | undefined} */
const figure = () => nearest('outlean-rig');

/** The question that goes with the figure. @returns {Asked | undefined} */
const question = () => nearest(QUESTIONS);

/** @returns {import('./channel.js').Told} */
function standing() {
  const view = figure()?.told;
  const put = question();
  return {
    page: name,
    step: present()?.id ?? '',
    hidden: document.hidden,
    veiled: view?.veiled ?? true,
    playing: view?.playing ?? false,
    reduced: view?.reduced ?? false,
    undo: view?.undo ?? false,
    verdict: view?.verdict,
    rig: view?.sentence_text ?? '',
    question: put?.known && { ...put.known, hands: put.hands },
  };
}

/** Tells where things stand, soon. */
function tell() {
  if (waiting) return;
  waiting = true;
  setTimeout(() => {
    waiting = false;
    line.postMessage(standing());
  }, BETWEEN);
}

/** @param {import('./channel.js').Said} said */
function heed({ to, say, step, place = 0, way = 0 }) {
  if (to && to !== name) return;
  const held = figure();
  const lean = (/** @type {number} */ way) => {
    held?.act({ kind: 'grab' });
    held?.act({ kind: 'step', key: 'lean', value: way * (held.told?.reduced ? 2 : 1) });
  };
  if (say === 'go' && typeof step === 'string') {
    gone = document.getElementById(step) ?? undefined;
    gone?.scrollIntoView({ behavior: 'instant', block: 'start' });
    goneTo = scrollY;
  } else if (say === 'hand') question()?.hand?.(place, way);
  else if (say === 'reveal') {
    question()?.reveal();
    held?.reveal();
  } else if (held?.told?.veiled) {
    // The rig is not moved while its prediction is open, by whom it may be.
  } else if (say === 'sweep') held?.act({ kind: held.told?.playing ? 'pause' : 'play' });
  else if (say === 'back') lean(-1);
  else if (say === 'out') lean(1);
  else if (say === 'undo' || say === 'reset') held?.act({ kind: say });
  tell();
}

line.onmessage = ({ data }) => { if (typeof data?.by === 'string') heed(data); };
for (const event of ['scroll', 'resize', 'visibilitychange', 'outlean-told', 'outlean-ready', 'outlean-hands']) addEventListener(event, tell, { passive: true });
addEventListener('pageshow', () => line.postMessage(standing()));
addEventListener('pagehide', () => line.postMessage({ page: name, gone: true }));
tell();
