// The rig in a sentence whose values are the controls: sliders on a small graduated rule, choices underlined.

import { element, say } from './element.js';
import { sayIn, svg } from './readings.js';
import { show, slider } from './slider.js';

/** Pixels of drag that take a slider from one end to the other. */
const TRAVEL = 320;

/** The sentence and its controls. */
export class Sentence {
  /** @param {(action: import('./engine.js').Action) => void} act */
  constructor(act) {
    this.act = act;
    this.element = element('p', { class: 'rig', part: 'sentence' });
    /** @type {Map<string, { at?: import('./engine.js').SliderView, value: HTMLElement, number: Element, pointer: HTMLElement }>} */
    this.sliders = new Map();
    /** @type {Map<string, HTMLSelectElement>} */
    this.choices = new Map();
    this.built = '';
  }

  /** @param {import('./engine.js').View} view */
  show(view) {
    const shape = JSON.stringify(view.sentence.map(piece => [piece.kind, piece.kind === 'text' ? '' : piece.is]));
    if (shape !== this.built) {
      this.built = shape;
      this.element.replaceChildren(...view.sentence.map(piece => this.#piece(piece, view)));
    }
    const texts = view.sentence.filter(piece => piece.kind === 'text');
    this.element.querySelectorAll('.piece').forEach((place, i) => say(place, texts[i].is));
    for (const at of view.sliders) {
      const known = this.sliders.get(at.key);
      if (!known) continue;
      known.at = at;
      sayIn(known.value, known.number, at.text);
      show(known.value, at);
      known.value.setAttribute('aria-disabled', String(view.veiled));
    }
    for (const choice of view.choices) {
      const select = this.choices.get(choice.key);
      if (!select) continue;
      if (select.value !== choice.now) select.value = choice.now;
      select.disabled = view.veiled;
    }
  }

  /** Sets the marks on the rules: apart from the numbers, since either has the page laid out and painted anew. */
  point() {
    for (const { at, pointer } of this.sliders.values()) {
      if (at) pointer.style.left = `${(100 * Math.min(1, Math.max(0, (at.now - at.least) / (at.most - at.least)))).toFixed(2)}%`;
    }
  }

  /** @param {import('./engine.js').Piece} piece @param {import('./engine.js').View} view */
  #piece(piece, view) {
    if (piece.kind === 'text') return element('span', { class: 'piece' }, piece.is);
    return piece.kind === 'slider' ? this.#slider(piece.is, view) : this.#choice(piece.is, view);
  }

  /** @param {string} key @param {import('./engine.js').View} view */
  #slider(key, view) {
    const name = view.sliders.find(at => at.key === key)?.name ?? key;
    const ticks = Array.from({ length: 11 }, (_, i) => svg('line', { x1: i * 5, y1: 4, x2: i * 5, y2: i % 5 ? 7.5 : 10, class: 'tick' }));
    const pointer = element('i');
    const drawn = svg('svg', { viewBox: '0 0 50 11', preserveAspectRatio: 'none' }, svg('line', { x1: 0, y1: 4, x2: 50, y2: 4, class: 'tick' }), ...ticks);
    const rule = element('span', { class: 'rule', 'aria-hidden': 'true' }, drawn, pointer);
    const number = element('span');
    const value = element('span', { class: 'value', 'data-key': key }, number, rule);
    /** @type {{ at?: import('./engine.js').SliderView, value: HTMLElement, number: Element, pointer: HTMLElement }} */
    const known = { value, number, pointer };
    this.sliders.set(key, known);
    let from = 0;
    slider(value, {
      grab: () => { from = known.at?.now ?? 0; this.act({ kind: 'grab' }); },
      step: steps => this.act({ kind: 'step', key, value: steps }),
      end: where => known.at && this.act({ kind: 'set', key, value: known.at[where] }),
      page: () => known.at?.page ?? 5,
      drag: dx => {
        if (!known.at) return;
        const { least, most } = known.at;
        // As far along the rule as it is drawn, or farther for a finer hand.
        const travel = Math.max(TRAVEL, rule.getBoundingClientRect().width);
        const raw = from + (dx / travel) * (most - least);
        this.act({ kind: 'set_stepped', key, value: Math.min(most, Math.max(least, raw)) });
      },
      tap: x => this.act({ kind: 'step', key, value: x < pointer.getBoundingClientRect().left + pointer.offsetWidth / 2 ? -1 : 1 }),
    });
    return element('span', { class: 'set' }, element('span', { class: 'name', 'aria-hidden': 'true' }, name), value);
  }

  /** @param {string} key @param {import('./engine.js').View} view */
  #choice(key, view) {
    const choice = view.choices.find(each => each.key === key);
    const options = (choice?.options ?? []).map(([word, text]) => element('option', { value: word }, text));
    const select = element('select', { 'aria-label': choice?.name ?? key, 'data-key': key }, ...options);
    select.addEventListener('change', () => {
      this.act({ kind: 'grab' });
      this.act({ kind: 'choose', key, word: select.value });
    });
    this.choices.set(key, select);
    return element('span', { class: 'set choice' }, element('span', { class: 'name', 'aria-hidden': 'true' }, choice?.name ?? key), select);
  }
}
