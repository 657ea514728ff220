// The words of a figure, renewed over some frames: each lays out and paints one part of them, about as long as any other, so that no key
// or hand is held up by all of them. See "What a figure takes of a machine" in DEVELOPERS.md.

import { say } from './element.js';
import { HANDLES } from './pictures.js';
import { signOf } from './readings.js';
import { show } from './slider.js';
import { fill } from './words.js';

/** In how many frames they are renewed: still seven times a second, faster than they are read. */
export const TURNS = 9;

/**
 * What of a figure's element says something.
 * @typedef {object} Parts
 * @property {import('./curves-axis.js').CurvesAxis} axis
 * @property {HTMLElement} covers
 * @property {import('./keys.js').Keys} keys
 * @property {HTMLElement} more
 * @property {HTMLElement} note
 * @property {import('./pictures.js').Pictures} pictures
 * @property {import('./readings.js').Readings} readings
 * @property {import('./sentence.js').Sentence} sentence
 * @property {Record<'is' | 'sign' | 'why', HTMLElement>} verdict
 * @property {import('./working.js').WorkingPanel} working
 */

/**
 * Says what the view says: on the keys and below the readings, in the sentence, in the verdict, in the readings and in their bars by
 * every other row, on rules, on handles.
 * @param {Parts} parts @param {any} figure @param {import('./engine.js').Words} words
 * @param {import('./engine.js').View} view @param {string} noted What else is to be said under the keys. @param {number} turn
 */
export function sayInTurn({ axis, covers, keys, more, note, pictures, readings, sentence, verdict, working }, figure, words, view, noted, turn) {
  const { is, sign, why } = view.verdict;
  if (turn === 0) {
    keys.show(view);
    axis.show(over => figure.curvesOffer(over), view.veiled);
    pictures.curves.classList.toggle('veiled', view.veiled || !axis.key);
    readings.showMore(view.more);
    more.hidden = view.veiled;
  } else if (turn === 1) sentence.show(view);
  else if (turn === 2) {
    if (verdict.sign.dataset.sign !== sign) {
      verdict.sign.dataset.sign = sign;
      verdict.sign.replaceChildren(signOf(sign));
    }
    say(verdict.is, is);
    say(verdict.why, why);
    say(covers, view.covers);
    say(note, noted || (view.halted ? words['verdict.held'] : ''));
  } else if (turn < 5) readings.show(view, turn - 3);
  else if (turn < 7) readings.showBars(view, turn - 5);
  else if (turn < 8) sentence.point();
  else {
    pictures.place(figure);
    for (const [name, key] of HANDLES) {
      const handle = pictures[name];
      const at = view.sliders.find(each => each.key === key);
      if (at) show(handle, { ...at, name: words[`figure.${name}`] });
      handle.setAttribute('aria-disabled', String(view.veiled));
    }
    pictures.chart.element.setAttribute('aria-label', axis.told);
    pictures.side.element.setAttribute('aria-label', fill(words, 'figure.alt', { sentence: view.sentence_text, verdict: `${is} ${why}` }));
    if (working.key && !figure.moving()) working.show();
  }
}
