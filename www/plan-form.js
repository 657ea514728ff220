// The form of a plan: what is asked for, row by row, with what stands there and what is wrong with it.

import { element } from './element.js';
import { inLines, inWords } from './plan-said.js';
import { fill } from './words.js';

/** @typedef {import('./plan-element.js').Problem} Problem */
/** @typedef {{ key: string, means: string, kind: string, value: string, options?: string[], allowed?: string, example?: string, first: boolean, problem?: Problem }} Row */
/** @typedef {{ sections: { key: string, heading: string, rows: Row[] }[], problems: Problem[], room: boolean }} Form */
/** @typedef {HTMLInputElement | HTMLSelectElement} Entry */

export class PlanForm {
  element = element('form', { autocomplete: 'off', novalidate: '' });
  /** @type {Map<string, { entry: Entry, note: HTMLElement, row: HTMLElement }>} */ #rows = new Map();
  #made = '';
  #general = element('ul', { class: 'wrong', role: 'alert' });

  /**
   * @param {Record<string, string>} words @param {(key: string, value: string, done: boolean) => void} set
   * @param {(number?: number) => void} guy takes out the guy of a number, or adds one
   */
  constructor(words, set, guy) {
    this.words = words;
    this.set = set;
    this.guy = guy;
    this.element.addEventListener('submit', event => event.preventDefault());
  }

  /** Shows a form. Rows are made anew only when others are asked for. @param {Form} form */
  show(form) {
    const asked = form.sections.map(section => section.key + section.rows.map(row => row.key + row.kind).join()).join() + form.room;
    if (asked !== this.#made) this.#make(form);
    this.#made = asked;
    for (const { rows } of form.sections) for (const row of rows) this.#put(row);
    this.#general.replaceChildren(...inLines(form.problems));
  }

  /** What the rows with errors mean. @param {Form} form */
  wrong(form) {
    return form.sections.flatMap(section => section.rows).filter(row => row.problem?.error).map(row => row.means);
  }

  /** What a row means. @param {string} key */
  means(key) {
    return this.#rows.get(key)?.row.querySelector('label')?.textContent ?? key;
  }

  /** What stands in a row. @param {string} key */
  value(key) {
    return this.#rows.get(key)?.entry.value;
  }

  /** @param {Form} form */
  #make(form) {
    const focused = /** @type {HTMLElement | null} */ (document.activeElement)?.dataset?.key;
    const open = new Set([...this.element.querySelectorAll('details[open]')].map(each => /** @type {HTMLElement} */ (each).dataset.of));
    this.#rows.clear();
    /** @type {HTMLElement[]} */
    const sections = form.sections.map(({ key, heading, rows }) => {
      const [first, more] = [rows.filter(row => row.first), rows.filter(row => !row.first)].map(part => part.map(row => this.#row(row)));
      // Of a second line that is not there, all is folded away.
      const absent = key === 'second' && rows.every(row => !row.value);
      const folded = absent ? [...first, ...more] : more;
      /** @type {HTMLElement[]} */
      const inside = absent ? [] : first;
      if (folded.length > 0) {
        const details = element('details', { 'data-of': key }, element('summary', {}, fill(this.words, 'planner.more')), ...folded);
        details.open = open.has(key);
        inside.push(details);
      }
      const [, guy] = key.match(/^guy\.(\d+)$/) ?? [];
      if (guy) inside.push(this.#key('guy_out', Number(guy)));
      return element('fieldset', { 'data-section': key }, element('legend', {}, heading), ...inside);
    });
    // Another guy goes after all there are: before whoever hauls.
    const people = form.sections.findIndex(section => section.key === 'people');
    if (form.room) sections.splice(people, 0, this.#key('guy_add'));
    this.element.replaceChildren(this.#general, ...sections);
    if (focused) this.#rows.get(focused)?.entry.focus();
  }

  /** A key that takes a guy out, or adds one. @param {string} name @param {number} [number] */
  #key(name, number) {
    const key = element('button', { type: 'button', 'data-part': name }, fill(this.words, `planner.${name}`, { number: (number ?? 0) + 1 }));
    key.addEventListener('click', () => this.guy(number));
    return key;
  }

  /** Puts the focus into a row. @param {string} key */
  focus(key) {
    this.#rows.get(key)?.entry.focus();
  }

  /** @param {Row} row */
  #row({ key, means, kind, options = [] }) {
    const id = `plan-${key.replaceAll('.', '-')}`;
    const entry = kind === 'word'
      ? element('select', { id, 'data-key': key }, element('option', { value: '' }, fill(this.words, 'planner.unknown')), ...options.map(option => element('option', { value: option }, option)))
      : element('input', { id, 'data-key': key, type: 'text', autocapitalize: 'off', spellcheck: 'false', ...(kind === 'text' ? {} : { inputmode: 'text' }) });
    const note = element('small', { id: `${id}-note` });
    entry.setAttribute('aria-describedby', note.id);
    entry.setAttribute('aria-details', 'plan-meant');
    entry.addEventListener('input', () => this.set(key, entry.value, false));
    entry.addEventListener('change', () => this.set(key, entry.value, true));
    const row = element('div', { class: 'row' }, element('label', { for: id }, means), entry, note);
    this.#rows.set(key, { entry, note, row });
    return row;
  }

  /** Words about a row, in which every field is called as it is in the form and not by its key. @param {string} text @param {string} key */
  #plain(text, key) {
    if (!text.includes('`')) return text;
    for (const [other, { row }] of this.#rows) {
      const [, guy, name] = other.match(/^guy\.(\d+)\.(.+)$/) ?? [];
      const called = name ? fill(this.words, 'problem.key_of_guy', { key: name, number: Number(guy) + 1 }) : fill(this.words, 'problem.key', { key: other });
      text = text.replaceAll(called, other === key ? fill(this.words, 'planner.this') : `“${row.querySelector('label')?.textContent}”`);
    }
    return text;
  }

  /** @param {Row} row */
  #put({ key, kind, value, options = [], allowed, example, problem }) {
    const known = this.#rows.get(key);
    if (!known) return;
    const { entry, note, row } = known;
    // A word that is none of those offered is kept, and told.
    if (kind === 'word' && value && !options.includes(value) && ![.../** @type {HTMLSelectElement} */ (entry).options].some(option => option.value === value)) entry.append(element('option', { value }, value));
    // What is being typed stays as it is typed: spaces at its end too.
    if (entry !== document.activeElement || entry.value.trim() !== value) entry.value = value;
    if (problem?.error) entry.setAttribute('aria-invalid', 'true');
    else entry.removeAttribute('aria-invalid');
    row.classList.toggle('wrong', Boolean(problem?.error));
    row.classList.toggle('doubtful', problem !== undefined && !problem.error);
    const usual = example && allowed ? fill(this.words, 'planner.allowed', { example, allowed }) : example ?? allowed ?? '';
    const said = problem ? this.#plain(inWords(problem), key) : usual;
    if (note.textContent !== said) note.textContent = said;
  }
}
