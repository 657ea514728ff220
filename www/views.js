// Which views a figure shows: one at a time where there is room for one, else those that are added to the side view.

import { element } from './element.js';

/** Every view, the first of them first. */
const VIEWS = /** @type {const} */ (['side', 'front', 'forces', 'curves', 'readings']);

/** Those that are added to the side view where there is room. @type {readonly View[]} */
const ADDED = ['front', 'forces'];

/** @typedef {typeof VIEWS[number]} View */

/** The keys that choose them. */
export class Views {
  /** @type {View} The one shown where there is room for one. */
  one = 'side';
  /** @type {Set<View>} Those added to the side view where there is room. */
  added = new Set();
  alone = false;

  /** @param {import('./engine.js').Words} words @param {() => void} changed */
  constructor(words, changed) {
    this.buttons = VIEWS.map(view => {
      const button = element('button', { type: 'button', 'data-view': view }, words[`view.${view}`]);
      button.addEventListener('click', () => {
        if (this.alone) this.one = view;
        else if (!this.added.delete(view)) this.added.add(view);
        this.#tell();
        changed();
      });
      return button;
    });
    this.element = element('div', { class: 'views', role: 'group', 'aria-label': words['view.group'] }, ...this.buttons);
    this.#tell();
  }

  /** Says whether there is room for one view alone. @param {boolean} alone */
  room(alone) {
    if (alone === this.alone) return;
    this.alone = alone;
    this.#tell();
  }

  /** Whether a view is shown. @param {View} view */
  shows(view) {
    if (this.alone) return this.one === view;
    return this.added.has(view) || !ADDED.includes(view);
  }

  #tell() {
    for (const button of this.buttons) button.setAttribute('aria-pressed', String(this.shows(/** @type {View} */ (button.dataset.view))));
  }
}
