// <outlean-choose>, <outlean-faults>: entries of a list are marked. <outlean-order>: they are put in order.

import { element } from './element.js';
import { QuestionElement, written } from './question.js';
import { fill } from './words.js';

/** @typedef {import('./question.js').Put} Put */
/** @typedef {import('./question.js').Marked} Marked */

/**
 * A list whose entries are marked as true or not.
 *
 * @tag outlean-choose
 */
class ChooseElement extends QuestionElement {
  /** @type {HTMLInputElement[]} */ #boxes = [];
  /** @type {HTMLElement[]} */ #texts = [];
  /** @type {HTMLElement[]} */ #ticks = [];
  /** @type {number[]} */ #from = [];

  /** @param {Put} put */
  form({ options, from, one }) {
    this.#from = from;
    this.#texts = options.map(option => element('span', {}, option));
    this.#ticks = options.map(() => element('span', { class: 'tick' }));
    this.#boxes = options.map((_, place) => element('input', { type: one ? 'radio' : 'checkbox', name: 'entry', value: String(place) }));
    const rows = options.map((_, place) => element('li', {}, element('label', {}, this.#boxes[place], this.#texts[place]), this.#ticks[place]));
    return [element('div', { role: one ? 'radiogroup' : 'group', 'aria-labelledby': 'asks' }, element('ul', { class: 'entries' }, ...rows))];
  }

  /** @param {Put} put */
  retold({ options }) {
    options.forEach((option, place) => { this.#texts[place].textContent = option; });
  }

  answer() {
    return { places: this.#boxes.flatMap((box, place) => (box.checked ? [place] : [])) };
  }

  right() {
    return { places: this.asked.solved() };
  }

  told() {
    return this.answer().places.map(place => this.#from[place] + 1).join(' ');
  }

  solution() {
    /** @type {number[]} */
    const places = this.asked.solved();
    return places.map(place => `“${this.#texts[place].textContent}”`).join(', ') || this.words['faults.none'];
  }

  /** @param {Marked} marked */
  show({ each }) {
    const entries = this.template.statements ?? this.template.items;
    each.forEach((tick, place) => {
      const because = entries[this.#from[place]].because;
      const name = this.revealed ? (tick === 'hit' ? 'wanted' : '') : tick;
      this.#boxes[place].disabled = true;
      this.#ticks[place].dataset.tick = name;
      const told = name ? [element('b', {}, this.words[`tick.${this.template.kind}.${name}`] ?? this.words[`tick.${name}`])] : [];
      this.#ticks[place].replaceChildren(...told, ...(because && tick !== 'left_alone' ? [' ', written(because)] : []));
    });
  }
}

/**
 * Faults are found in what is described.
 *
 * @tag outlean-faults
 */
class FaultsElement extends ChooseElement {}

/**
 * Steps that are put in order: each moves by its keys, by the arrow keys, or by a drag.
 *
 * @tag outlean-order
 */
class OrderElement extends QuestionElement {
  /** @type {HTMLElement | undefined} */ #list;
  /** @type {HTMLElement[]} */ #rows = [];
  /** @type {number[]} */ #from = [];
  /** @type {HTMLElement | undefined} */ #said;

  /** @param {Put} put */
  form({ options, from }) {
    this.#from = from;
    this.#rows = options.map((option, place) => {
      const move = (/** @type {number} */ way, /** @type {string} */ name) => {
        const key = element('button', { type: 'button', 'aria-label': fill(this.words, `order.${name}`, { step: option }) }, way < 0 ? '↑' : '↓');
        key.addEventListener('click', () => { this.#move(row, way); key.focus(); });
        return key;
      };
      const row = element('li', { 'data-place': String(place) }, element('span', { class: 'step' }, option), element('span', { class: 'moves' }, move(-1, 'up'), move(1, 'down')), element('span', { class: 'tick' }));
      row.addEventListener('keydown', event => {
        const way = { ArrowUp: -1, ArrowDown: 1 }[event.key];
        if (!way || this.locked) return;
        event.preventDefault();
        this.#move(row, way);
        /** @type {HTMLElement} */ (event.target).focus();
      });
      this.#drag(row);
      return row;
    });
    this.#list = element('ol', { class: 'entries steps', 'aria-labelledby': 'asks' }, ...this.#rows);
    this.#said = element('p', { class: 'plain', role: 'status' });
    return [this.#list, this.#said];
  }

  /** The rows as they stand. */
  #order() {
    return /** @type {HTMLElement[]} */ ([...(this.#list?.children ?? [])]);
  }

  /** Moves a row by one. @param {HTMLElement} row @param {number} way */
  #move(row, way) {
    if (this.locked) return;
    const other = way < 0 ? row.previousElementSibling : row.nextElementSibling;
    if (!other) return;
    if (way < 0) other.before(row);
    else other.after(row);
    if (this.#said) this.#said.textContent = fill(this.words, 'order.moved', { place: String(this.#order().indexOf(row) + 1), count: String(this.#rows.length) });
  }

  /** Lets a row be dragged over its neighbours; a touch elsewhere on it scrolls the page. @param {HTMLElement} row */
  #drag(row) {
    const grip = element('span', { class: 'grip', 'aria-hidden': 'true' });
    row.prepend(grip);
    grip.addEventListener('pointerdown', event => {
      if (this.locked) return;
      grip.setPointerCapture(event.pointerId);
      row.classList.add('dragged');
      const over = (/** @type {PointerEvent} */ at) => {
        const [before, after] = [row.previousElementSibling, row.nextElementSibling].map(each => each?.getBoundingClientRect());
        if (before && at.clientY < before.top + before.height / 2) this.#move(row, -1);
        else if (after && at.clientY > after.top + after.height / 2) this.#move(row, 1);
      };
      const stop = new AbortController();
      const end = () => { stop.abort(); row.classList.remove('dragged'); };
      grip.addEventListener('pointermove', over, { signal: stop.signal });
      for (const way of /** @type {const} */ (['pointerup', 'pointercancel', 'lostpointercapture'])) grip.addEventListener(way, end, { signal: stop.signal });
    });
  }

  answer() {
    return { places: this.#order().map(row => Number(row.dataset.place)) };
  }

  right() {
    return { places: this.asked.solved() };
  }

  told() {
    return this.answer().places.map(place => this.template.steps[this.#from[place]].id).join(' ');
  }

  solution() {
    /** @type {number[]} */
    const places = this.asked.solved();
    return places.map((place, number) => `${number + 1}. ${this.#rows[place].querySelector('.step')?.textContent}`).join(' ');
  }

  /** @param {Marked} marked */
  show({ each, verdict }) {
    // In a right order, once it is known what was given.
    if (this.revealed) for (const place of this.asked.solved()) this.#list?.append(this.#rows[place]);
    this.#rows.forEach((row, place) => {
      const tick = /** @type {HTMLElement} */ (row.querySelector('.tick'));
      const early = !this.revealed && verdict !== 'right' && each.includes(place);
      const because = this.template.steps[this.#from[place]].because;
      tick.dataset.tick = early ? 'miss' : '';
      tick.replaceChildren(...(early ? [element('b', {}, this.words['tick.too_early']), ...(because ? [' ', written(because)] : [])] : []));
      row.classList.add('locked');
      for (const key of row.querySelectorAll('button')) key.disabled = true;
    });
  }
}

customElements.get('outlean-choose') ?? customElements.define('outlean-choose', ChooseElement);
customElements.get('outlean-faults') ?? customElements.define('outlean-faults', FaultsElement);
customElements.get('outlean-order') ?? customElements.define('outlean-order', OrderElement);
