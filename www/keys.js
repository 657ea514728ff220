// The keys under the curves: sweep and steps, a step back and forth, the lesson's rig, a link to the rig as it is.

import { element, say } from './element.js';
import { svg } from './readings.js';

const PLAY = 'M1 0l9 5l-9 5z';
const PAUSE = 'M1 0h3v10h-3zM6 0h3v10h-3z';

/**
 * @typedef {object} Doings
 * @property {(action: import('./engine.js').Action) => void} act
 * @property {() => import('./engine.js').View} view
 * @property {(way: number) => void} press A lean key was pressed, out or back.
 * @property {() => void} reset
 * @property {() => void} link
 */

/** The row of keys. */
export class Keys {
  /** @param {import('./engine.js').Words} words @param {Doings} doings */
  constructor(words, doings) {
    this.words = words;
    const key = (/** @type {string} */ name, /** @type {() => void} */ press) => {
      const button = element('button', { type: 'button', 'data-key': name }, words[`key.${name}`] ?? '');
      button.addEventListener('click', press);
      return button;
    };
    this.sweep = key('sweep', () => doings.act({ kind: doings.view().playing ? 'pause' : 'play' }));
    this.back = key('back', () => doings.press(-1));
    this.out = key('out', () => doings.press(1));
    this.slow = key('slow', () => doings.act({ kind: 'pace', word: doings.view().slow ? 'usual' : 'slow' }));
    this.undo = key('undo', () => doings.act({ kind: 'undo' }));
    this.redo = key('redo', () => doings.act({ kind: 'redo' }));
    this.reset = key('reset', doings.reset);
    this.link = key('link', doings.link);
    const { sweep, back, out, slow, undo, redo, reset, link } = this;
    this.element = element('div', { class: 'keys', part: 'keys' }, sweep, back, out, slow, undo, redo, reset, link);
  }

  /** @param {import('./engine.js').View} view */
  show(view) {
    const { words, sweep } = this;
    for (const button of [this.back, this.out, this.slow, this.reset, this.link]) button.disabled = view.veiled;
    this.undo.disabled = !view.undo;
    this.redo.disabled = !view.redo;
    sweep.disabled = view.veiled || view.reduced;
    const [label, mark] = view.playing ? [words['key.pause'], PAUSE] : [words['key.sweep'], PLAY];
    if (sweep.textContent !== label) sweep.replaceChildren(svg('svg', { viewBox: '0 0 10 10', 'aria-hidden': 'true' }, svg('path', { d: mark })), label);
    sweep.setAttribute('aria-label', view.playing ? words['key.pause'] : words['key.aria_sweep']);
    say(this.back, words[view.reduced ? 'key.back_2' : 'key.back']);
    say(this.out, words[view.reduced ? 'key.out_2' : 'key.out']);
    this.slow.setAttribute('aria-pressed', String(view.slow));
  }
}
