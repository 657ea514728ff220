// What a field means: the frame beside the form, with what one enters or points at marked on it.

import { element } from './element.js';
import { drawing } from './plan-said.js';
import { fill } from './words.js';

/** @typedef {{ picture: string, said: string }} Meant */

/** How long a pointer rests on a row before that is marked, ms: on its way to the figure it passes others. */
const DWELL = 150;

export class PlanMeant {
  #picture = element('div', { class: 'picture' });
  #said = element('figcaption', { id: 'plan-meant' });
  element = element('figure', { class: 'meant', 'data-part': 'meant' }, this.#picture, this.#said);
  /** The key that is pointed at, and the one that is entered. */ #pointed = '';
  #entered = '';
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #resting;

  /**
   * @param {Record<string, string>} words @param {HTMLElement} form
   * @param {(key: string, width: number, height: number, k: number) => Meant} meant
   */
  constructor(words, form, meant) {
    this.words = words;
    this.meant = meant;
    const of = (/** @type {Event} */ event) => /** @type {HTMLElement} */ (event.target).closest?.('.row')?.querySelector('[data-key]')?.getAttribute('data-key') ?? '';
    form.addEventListener('focusin', event => this.#mark(this.#pointed, of(event)));
    form.addEventListener('focusout', () => this.#mark(this.#pointed, ''));
    // A finger that scrolls points at nothing.
    form.addEventListener('pointerover', event => event.pointerType === 'mouse' && this.#point(of(event)));
    form.addEventListener('pointerleave', () => this.#point(''));
    // What is marked stays so while one looks at it, and goes by a key (WCAG 2.2, 1.4.13).
    this.element.addEventListener('pointerenter', () => clearTimeout(this.#resting));
    this.element.addEventListener('pointerleave', () => this.#point(''));
    addEventListener('keydown', event => {
      if (event.key !== 'Escape') return;
      clearTimeout(this.#resting);
      this.#mark('', this.#pointed && this.#entered);
    });
    // As wide as the form, whose size does not hang on the figure's.
    new ResizeObserver(() => this.draw()).observe(form);
  }

  /** @param {string} key */
  #point(key) {
    clearTimeout(this.#resting);
    this.#resting = setTimeout(() => this.#mark(key, this.#entered), DWELL);
  }

  /** @param {string} pointed @param {string} entered */
  #mark(pointed, entered) {
    const before = this.#pointed || this.#entered;
    [this.#pointed, this.#entered] = [pointed, entered];
    if (before !== (pointed || entered)) this.draw();
  }

  /** Draws it as the file stands. */
  draw() {
    const width = this.#picture.clientWidth;
    if (width === 0) return;
    const k = Math.max(1, parseFloat(getComputedStyle(this.#said).fontSize) / 14);
    const height = Math.round(Math.min(Math.max(0.5 * width, 150), 230) * Math.min(k, 1.6));
    const { picture, said } = this.meant(this.#pointed || this.#entered, width, height, k);
    const [svg] = drawing(picture);
    this.#picture.replaceChildren(...(svg ? [svg] : []));
    this.#picture.style.height = `${height}px`;
    this.#said.textContent = said || fill(this.words, 'planner.meant.hint');
  }
}
