// What only a page that is led loads (paper: projector, or a speaker's page asks): in every question a key that reveals its
// answer, and at every option of a list how many hands went up for it. Counted by pointer, by number keys (with shift one
// less), or from the speaker's page. Hands are counted, not kept: another question begins at none.

import { QUESTIONS } from './channel.js';
import { element } from './element.js';
import { beside } from './origin.js';
import { fill, wordsOf } from './words.js';

/** @typedef {HTMLElement & { locked?: boolean, reveal(): void, hands?: { says: string, count: number }[], hand?(place: number, way: number): void }} Led */

const root = document.documentElement;
/** @type {Led[]} */
const questions = [...document.querySelectorAll(`main :is(${QUESTIONS})`)].map(each => /** @type {Led} */ (each));
/** More hands than any class has. */
const MOST = 999;

/** @param {Led} question @param {Record<string, string>} words */
function lead(question, words) {
  const tree = question.shadowRoot;
  if (!tree) return;
  const status = element('p', { class: 'plain', role: 'status' });
  const reveal = element('button', { type: 'button', class: 'reveal' }, words.reveal);
  reveal.addEventListener('click', () => {
    question.reveal();
    /** @type {HTMLElement | null} */ (tree.querySelector('.answer'))?.focus();
  });
  /** @type {{ row: Element, count: number, keys: HTMLElement[], told: HTMLElement, bar: HTMLElement }[]} */
  let options = [];
  /** What an option says, in the units that are shown now. @param {{ row: Element }} option */
  const said = ({ row }) => row.querySelector('label')?.textContent ?? '';

  const show = () => {
    const most = Math.max(1, ...options.map(option => option.count));
    for (const { count, told, bar } of options) {
      told.textContent = String(count);
      bar.style.inlineSize = `${(100 * count) / most}%`;
    }
    question.dispatchEvent(new CustomEvent('outlean-hands', { bubbles: true, composed: true }));
  };

  question.hand = (place, way) => {
    const option = Number.isInteger(place) ? options[place] : undefined;
    if (!option || (way !== 1 && way !== -1)) return;
    option.count = Math.min(Math.max(option.count + way, 0), MOST);
    show();
    status.textContent = fill(words, 'hands', { count: option.count, place: place + 1 });
  };
  Object.defineProperty(question, 'hands', { configurable: true, get: () => options.map(option => ({ says: said(option), count: option.count })) });

  /** Names each key by what its option says. */
  const name = () => options.forEach((option, place) => option.keys.forEach((key, at) => key.setAttribute('aria-label', fill(words, at ? 'more' : 'less', { place: place + 1, option: said(option) }))));

  /** Gives what was put since a row of hands each. */
  const dress = () => {
    const keys = tree.querySelector('.again');
    if (keys && !reveal.isConnected) keys.prepend(reveal, status);
    // Only where it differs: to set it is seen by who watches.
    if (reveal.hidden !== Boolean(question.locked)) reveal.hidden = Boolean(question.locked);
    const rows = [...tree.querySelectorAll('.entries:not(.steps)>li')].filter(row => row.querySelector('input'));
    if (rows.length === options.length && rows.every((row, place) => row === options[place].row)) return name();
    options = rows.map((row, place) => {
      const keys = [-1, 1].map(way => {
        const button = element('button', { type: 'button' }, way < 0 ? '−' : '+');
        button.addEventListener('click', () => question.hand?.(place, way));
        return button;
      });
      const told = element('output', {});
      const bar = element('span', { class: 'bar' });
      row.append(element('div', { class: 'hands' }, keys[0], told, keys[1], element('span', { class: 'bars', 'aria-hidden': 'true' }, bar)));
      return { row, count: 0, keys, told, bar };
    });
    name();
    show();
  };

  question.addEventListener('keydown', event => {
    const place = Number(/^(?:Digit|Numpad)([1-9])$/.exec(event.code)?.[1] ?? 0) - 1;
    const typing = event.composedPath()[0];
    if (place < 0 || place >= options.length || !question.hasAttribute('led') || event.ctrlKey || event.metaKey || event.altKey || (typing instanceof HTMLInputElement && typing.type === 'text')) return;
    event.preventDefault();
    question.hand?.(place, event.shiftKey ? -1 : 1);
  });
  question.addEventListener('outlean-marked', dress);
  new MutationObserver(dress).observe(tree, { childList: true, subtree: true, attributeFilter: ['hidden'] });
  dress();
}

/** Shows or takes away what is for who leads, as the page is led or not. */
const turn = () => questions.forEach(question => question.toggleAttribute('led', root.dataset.theme === 'projector' || 'led' in root.dataset));

async function begin() {
  const [words, style] = await Promise.all([wordsOf('hands'), fetch(beside('hands.css')).then(answer => answer.text()).then(text => new CSSStyleSheet().replace(text))]);
  for (const question of questions) {
    lead(question, words);
    // A question sets its own sheet as it begins, which may be later than this.
    const dressed = () => { if (question.shadowRoot && !question.shadowRoot.adoptedStyleSheets.includes(style)) question.shadowRoot.adoptedStyleSheets.push(style); };
    question.addEventListener('outlean-hands', dressed);
    dressed();
  }
  new MutationObserver(turn).observe(root, { attributeFilter: ['data-theme', 'data-led'] });
  turn();
}

begin().catch(() => {}); // without it the page is as any learner has it
