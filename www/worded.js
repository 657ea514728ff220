// What elements of pages apart from lessons have in common: words, parts by name, and a line in which they say what they did.

import { fill, wordsOf } from './words.js';

/** An element written into the page itself, so that it prints as the page does. */
export class WordedElement extends HTMLElement {
  /** @type {Record<string, string>} */ words = {};

  /** Learns the words of some parts. @param {...string} parts */
  async learn(...parts) {
    Object.assign(this.words, ...(await Promise.all(parts.map(wordsOf))));
  }

  /** @param {string} key @param {Record<string, string | number>} [places] */
  word(key, places) {
    return fill(this.words, key, places);
  }

  /** Says something, or nothing for no key. @param {string} key @param {Record<string, string | number>} [places] */
  say(key, places) {
    this.named('said').textContent = key && this.word(key, places);
  }

  /** A part by its name. @param {string} name @returns {any} */
  named(name) {
    return this.querySelector(`[data-part=${name}]`);
  }
}
