// What the curves run over: a choice above them.

import { element, say } from './element.js';
import { fill } from './words.js';

/** Names of what curves can run over, each with the field that a drag along them sets. A haul direction is no field. */
const AXES = { lean: 'lean', setback: 'aft.setback', spread: 'feet.spread', haul: '' };

/** The choice. */
export class CurvesAxis {
  /** @param {import('./engine.js').Words} words @param {() => void} changed */
  constructor(words, changed) {
    this.words = words;
    this.select = element('select', { 'data-key': 'curves.over' }, ...Object.keys(AXES).map(over => element('option', { value: over }, words[`curves.over.${over}`])));
    this.select.addEventListener('change', () => {
      this.wanted = this.over;
      changed();
    });
    this.unsure = element('input', { type: 'checkbox', 'data-key': 'curves.bands' });
    this.unsure.addEventListener('change', changed);
    this.note = element('span', { class: 'fixed' });
    this.element = element('p', { class: 'over' }, element('label', {}, words['curves.over'], ' ', this.select), element('label', {}, this.unsure, ' ', words['curves.bands']), this.note);
    /** What was chosen: it comes back with a rig that has it. */
    this.wanted = 'lean';
  }

  /** What the curves run over. */
  get over() {
    return this.select.value;
  }

  /** The field that a drag along them sets; empty where none is. */
  get key() {
    return AXES[/** @type {keyof typeof AXES} */ (this.over)] ?? '';
  }

  /** Whether uncertainty bands are wanted. */
  get bands() {
    return this.unsure.checked;
  }

  /** Shows what the rig has. @param {(over: string) => boolean} has @param {boolean} veiled */
  show(has, veiled) {
    for (const option of this.select.options) option.hidden = option.disabled = !has(option.value);
    const over = has(this.wanted) ? this.wanted : 'lean';
    if (this.select.value !== over) this.select.value = over;
    this.select.disabled = veiled;
    this.unsure.disabled = veiled;
    const notes = [this.bands && 'curves.bands_note', !this.key && 'curves.over.haul_fixed'].filter(Boolean);
    say(this.note, notes.map(note => this.words[String(note)]).join(' '));
  }

  /** What the curves show, for those who do not see them. */
  get told() {
    return fill(this.words, 'curves.alt', { over: this.words[`curves.over.${this.over}`] });
  }
}
