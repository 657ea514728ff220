// The readings: a real table, renewed without being rebuilt, so that a reader keeps their place in it.

import { element, say } from './element.js';

const SVG = 'http://www.w3.org/2000/svg';

/** @param {string} name @param {Record<string, string | number>} [attributes] @param {...(Node | string)} children */
export function svg(name, attributes = {}, ...children) {
  const made = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) made.setAttribute(key, String(value));
  made.append(...children);
  return made;
}

/** Sets a number in a box that is given a width (see figure.css), so that nothing around it is laid out anew. @param {HTMLElement} box @param {Element} place In it, or it. @param {string} text */
export function sayIn(box, place, text) {
  if (place.textContent?.length !== text.length) box.style.setProperty('--n', String(text.length));
  say(place, text);
}

/** The sign of a verdict. @param {'in'|'at'|'out'|'not_assessed'} sign */
export function signOf(sign) {
  const at = { in: 11, at: 18, out: 24, not_assessed: 0 }[sign];
  const mark = at ? svg('circle', { cx: at, cy: 7, r: 3.1 }) : svg('path', { d: 'M8.5 7h5' });
  return svg('svg', { viewBox: '0 0 28 14', class: 'sign', 'aria-hidden': 'true' }, svg('path', { d: 'M7 1.5H4v11h3M15 1.5h3v11h-3' }), mark);
}

const WIDTH = 72;
const FULL = 0.85 * WIDTH;

/** A bar of a ratio: to the mark is the allowable, hatched beyond it. */
class Bar {
  // Paths: a box that covers more or less of what is below it has the page laid in layers anew.
  #fill = svg('path', { class: 'fill' });
  #over = svg('path', { class: 'over' });
  #hatch = svg('path', { class: 'over-hatch' });
  #parts = [svg('line', { x1: 0, y1: 6, x2: WIDTH, y2: 6, class: 'base' }), this.#fill, this.#over, this.#hatch, svg('line', { x1: FULL, y1: 0, x2: FULL, y2: 12, class: 'mark' })];
  element = /** @type {SVGElement} */ (svg('svg', { viewBox: `0 0 ${WIDTH} 12`, preserveAspectRatio: 'none', 'aria-hidden': 'true' }));
  #said = '';

  /** @param {number | undefined} ratio Without one it is empty. */
  show(ratio) {
    const over = Math.min(Math.max(0, (ratio ?? 0) - 1) * FULL, WIDTH - FULL);
    const said = ratio === undefined ? '' : `${(Math.min(ratio, 1) * FULL).toFixed(1)} ${over.toFixed(1)}`;
    if (said === this.#said) return;
    if (!said || !this.#said) this.element.replaceChildren(...(said ? this.#parts : []));
    this.#said = said;
    const [fill, beyond] = said.split(' ');
    this.#fill.setAttribute('d', `M0 3h${fill || 0}v6H0z`);
    this.#over.setAttribute('d', `M${FULL} 3h${beyond || 0}v6H${FULL}z`);
    let hatch = '';
    for (let x = FULL + 2; x < FULL + over - 1; x += 4) hatch += `M${x} 9L${Math.min(x + 4, FULL + over).toFixed(1)} 3`;
    this.#hatch.setAttribute('d', hatch);
  }
}

/** The table of what each part carries. */
export class Readings {
  /** @param {import('./engine.js').Words} words @param {(key: string, opener: HTMLElement) => void} open Opens the working of a number. */
  constructor(words, open) {
    this.words = words;
    this.open = open;
    this.body = element('tbody');
    this.table = element('table', { part: 'readings' },
      element('caption', {}, words['readings.caption']),
      element('thead', {}, element('tr', {},
        element('th', { scope: 'col' }, words['column.part']),
        element('th', { scope: 'col' }, words['column.carries']),
        element('th', { scope: 'col' }, words['column.allowable']),
        element('td', { 'aria-hidden': 'true' }),
        element('th', { scope: 'col' }, words['column.used']))),
      this.body);
    this.more = element('dl');
    /** @type {Map<string, { row: HTMLTableRowElement, name: Element, carries: HTMLElement, allowable: HTMLElement, bar: Bar, used: HTMLElement }>} */
    this.rows = new Map();
  }

  /** The table, and what every other row of it says. @param {import('./engine.js').View} view @param {number} first The first of those. */
  show(view, first) {
    this.table.hidden = view.rows.length === 0;
    const order = view.rows.map((reading, i) => {
      const known = this.rows.get(reading.key) ?? this.#make(reading.key);
      if (i % 2 !== first) return known.row;
      say(known.name, reading.name);
      sayIn(known.carries, known.carries, reading.carries);
      say(known.allowable, reading.allowable);
      known.allowable.classList.toggle('note', reading.ratio === undefined);
      sayIn(known.used, known.used, reading.used);
      known.row.classList.toggle('governs', reading.governs);
      known.row.dataset.demand = String(reading.demand);
      return known.row;
    });
    const now = [...this.body.children];
    if (now.length !== order.length || now.some((row, i) => row !== order[i])) this.body.replaceChildren(...order);
  }

  /** The bars of every other row, once the table is shown. @param {import('./engine.js').View} view @param {number} first */
  showBars(view, first) {
    view.rows.forEach(({ key, ratio }, i) => { if (i % 2 === first) this.rows.get(key)?.bar.show(ratio); });
  }

  /** @param {string} key */
  #make(key) {
    const [carries, used] = [element('b'), element('b')];
    const name = this.#opener(key);
    const allowable = element('td');
    const bar = new Bar();
    const row = element('tr', { 'data-part': key }, element('th', { scope: 'row', 'data-governs': this.words['readings.governs'] }, name), element('td', {}, carries), allowable, element('td', { class: 'bar', 'aria-hidden': 'true' }, bar.element), element('td', {}, used));
    row.addEventListener('click', () => this.open(key, name));
    const made = { row, name, carries, allowable, bar, used };
    this.rows.set(key, made);
    return made;
  }

  /** A name that opens the working of its number. @param {string} key */
  #opener(key) {
    return element('button', { type: 'button', class: 'opener', 'data-opens': key });
  }

  /** The numbers below the table. @param {import('./engine.js').Named[]} more */
  showMore(more) {
    const keys = more.map(reading => reading.key).join();
    if (this.more.dataset.keys !== keys) {
      this.more.dataset.keys = keys;
      this.more.replaceChildren(...more.flatMap(({ key, name }) => {
        const opener = this.#opener(key);
        opener.textContent = name;
        const value = element('dd', { 'data-reading': key });
        for (const place of [opener, value]) place.addEventListener('click', () => this.open(key, opener));
        return [element('dt', {}, opener), value];
      }));
    }
    this.more.querySelectorAll('dd').forEach((place, i) => say(place, more[i].value));
  }
}
