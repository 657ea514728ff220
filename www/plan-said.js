// What the planner says, set: sections of lines, and pictures.

import { element } from './element.js';
import { fill } from './words.js';

/** @typedef {import('./plan-element.js').Problem} Problem */
/** @typedef {import('./plan-element.js').Section} Section */

/** A problem, and what to do about it. @param {Problem} problem */
export const inWords = ({ message, hint }) => hint ? `${message}${/[?.]$/.test(message) ? '' : ':'} ${hint}` : message;

/** Problems as lines of a list. @param {Problem[]} problems */
export const inLines = problems => problems.map(problem => element('li', {}, inWords(problem)));

/**
 * Sections as elements, each with what `after` gives it at its end in place of its points.
 * @param {Record<string, string>} words @param {Section[]} all @param {(section: Section) => Node[]} [after]
 */
export const sections = (words, all, after = () => []) => all.map(section => {
  const more = after(section);
  const lines = more.length > 0 ? section.lines.filter(line => !('point' in line)) : section.lines;
  return element('section', { 'data-section': section.key }, element('h3', {}, section.heading), ...set(words, lines), ...more);
});

/** @param {Record<string, string>} words @param {Record<string, any>[]} lines */
function set(words, lines) {
  /** @type {HTMLElement[]} */
  const out = [];
  /** The last of these, if it is one. @param {'ul' | 'table'} name @param {string} kind @returns {HTMLElement} */
  const last = (name, kind) => {
    const at = out.at(-1);
    if (at?.localName === name && at.className === kind) return at;
    const begun = element(name, { class: kind });
    out.push(begun);
    return begun;
  };
  for (const line of lines) {
    const [[kind, said]] = Object.entries(line);
    if (kind === 'lead') out.push(element('p', { class: 'lead' }, said));
    else if (kind === 'text') out.push(element('p', {}, said));
    else if (kind === 'point') last('ul', 'points').append(element('li', {}, said));
    else if (kind === 'box') last('ul', 'boxes').append(element('li', {}, said));
    else if (kind === 'hold') last('ul', 'boxes').append(element('li', { class: 'hold' }, element('b', {}, fill(words, 'plan.hold')), ` ${said} `, element('span', {}, fill(words, 'plan.hold.sign'))));
    else if (kind === 'head') out.push(element('table', { class: 'said' }, element('thead', {}, element('tr', {}, ...said.map((/** @type {string} */ cell) => element('th', { scope: 'col' }, cell)))), element('tbody')));
    else if (kind === 'row') {
      const [head, ...cells] = said;
      const row = element('tr', {}, element('th', { scope: 'row' }, head), ...cells.map((/** @type {string} */ cell) => element('td', {}, cell)));
      const table = last('table', 'said');
      (table.querySelector('tbody') ?? table).append(row);
    }
  }
  return out;
}

/** A picture out of its text, by another name than its own where one is given; nothing for none. @param {string} text @param {string} [name] */
export function drawing(text, name) {
  const svg = new DOMParser().parseFromString(text, 'text/html').querySelector('svg');
  if (!svg) return [];
  svg.setAttribute('role', 'img');
  if (name) svg.setAttribute('aria-label', name);
  return [document.importNode(svg, true)];
}
