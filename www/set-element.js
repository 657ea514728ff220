// <outlean-set>: the controls of a figure are moved until something holds.

import { element } from './element.js';
import { QuestionElement } from './question.js';

/** @typedef {import('./question.js').Put} Put */
/** @typedef {import('./question.js').Marked} Marked */

/**
 * The controls of a figure are moved until something holds.
 *
 * @tag outlean-set
 */
class SetElement extends QuestionElement {
  /** @type {HTMLElement[]} */ #ticks = [];
  /** @type {HTMLElement | undefined} */ #may;

  /** @param {Put} put */
  form({ options, may }) {
    this.#ticks = options.map(() => element('span', { class: 'tick' }));
    const begin = element('button', { type: 'button' }, this.words['set.begin']);
    begin.addEventListener('click', () => this.#begin());
    this.#may = element('ul', {});
    this.#tell(may);
    return [
      element('ul', { class: 'entries' }, ...options.map((option, place) => element('li', {}, element('span', {}, option), this.#ticks[place]))),
      element('p', {}, this.words['set.may']),
      this.#may,
      element('div', { class: 'keys' }, begin),
    ];
  }

  /** @param {string[] | undefined} may */
  #tell(may) {
    this.#may?.replaceChildren(...(may ?? []).map(each => element('li', {}, each)));
  }

  /** @param {Put} put */
  retold({ may }) {
    this.#tell(may);
  }

  /** Puts the question's rig into the figure, its forces shown: with them it is worked. */
  #begin() {
    const { figure } = this;
    if (!figure || this.locked) return;
    figure.reveal();
    figure.rig = this.asked.rig();
    figure.scrollIntoView({ block: 'nearest' });
  }

  answer() {
    return this.figure?.rig ?? this.asked.rig();
  }

  right() {
    return this.asked.solved();
  }

  told() {
    const [rig, begun] = [this.answer(), this.asked.rig()];
    return Object.keys(rig).filter(key => rig[key] !== begun[key]).map(key => `${key}=${rig[key]}`).join(' ');
  }

  solution() {
    const { example } = /** @type {Put} */ (this.asked.view(this.units));
    return `${this.words['set.shown']}: ${example?.join('; ')}`;
  }

  /** @param {Marked} marked */
  show({ each }) {
    if (this.revealed && this.figure) {
      this.figure.reveal();
      this.figure.rig = this.asked.solved();
    }
    each.forEach((holds, place) => {
      this.#ticks[place].dataset.tick = holds ? 'hit' : 'miss';
      this.#ticks[place].replaceChildren(element('b', {}, this.words[holds ? 'question.holds' : 'question.does_not_hold']));
    });
  }
}

customElements.get('outlean-set') ?? customElements.define('outlean-set', SetElement);
