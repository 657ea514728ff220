// What a page of the course gives the elements on it: one theme and units for all, its own styles and lettering, and what stands between
// their tags. On anyone's page www/anywhere.js is in its place.

import { element } from './element.js';
import { onMedia, sheet } from './engine.js';
import { painter } from './surface.js';

const whole = document.documentElement;

/** Attributes that every element follows. @type {string[]} */
export const FOLLOWED = [];

/** What paints pictures beside the page, where there can be such. */
export const painterOf = () => painter();

/** The theme of an element. @param {Element} _element */
export const themeOf = _element => whole.dataset.theme;

/** The units of an element. @param {Element} _element */
export const unitsOf = _element => whole.dataset.units ?? 'metric';

/** The seed that a question is to be drawn by, as it is written. @param {Element} question */
export const seedOf = question => question.getAttribute('seed') ?? new URLSearchParams(location.search).get('seed');

/** The caution by a result: the page itself has it always in sight. @param {Element} _at @param {import('./words.js').Words} _words @returns {HTMLElement[]} */
export const cautionOf = (_at, _words) => [];

/** What an element is made of. @param {HTMLElement} at @returns {Promise<HTMLElement>} */
export const contentOf = async at => at;

/** How that is shown as long as the element itself is not. @param {HTMLElement} _content @returns {HTMLElement} */
export const stillOf = _content => element('slot');

/** The style sheets of an element. @param {string} name that of its own */
export const styles = async name => [await sheet(name)];

/** Calls `then` whenever theme, units or pixel density of an element change. Returns how to stop. @param {Element} _element @param {() => void} then */
export function onSettings(_element, then) {
  const observer = new MutationObserver(then);
  observer.observe(whole, { attributeFilter: ['data-theme', 'data-units'] });
  const stop = onMedia(then);
  return () => { observer.disconnect(); stop(); };
}
