// What elements of pages apart from lessons have in common: words, parts by name, and a line in which they say what they did.

import { awaited } from './late.js';
import { fill, wordsOf } from './words.js';

/** An element written into the page itself, so that it prints as the page does. */
export class WordedElement extends HTMLElement {
  /** @type {Record<string, string>} */ words = {};
  #begun = false;
  /** What is said where something is late, or does not come: written into the page, since words may be what is late. @type {Record<string, HTMLElement> | undefined} */
  #amiss;

  connectedCallback() {
    if (!this.#begun) this.begin();
    this.#begun = true; // one that is moved goes on as it is
  }

  /** What it does once it stands in a page. */
  begin() {}

  /** Waits for something from elsewhere, and says so where that takes long or fails. @template T @param {Promise<T>} coming */
  async awaited(coming) {
    this.#amiss ??= Object.fromEntries([...this.querySelectorAll('p')].map(said => [said.className, said]));
    const { late, gone } = this.#amiss;
    const say = (/** @type {HTMLElement | undefined} */ said) => {
      if (!said) return;
      said.hidden = false;
      this.prepend(said);
    };
    try {
      return await awaited(coming, () => say(late));
    } catch (why) {
      say(gone);
      throw why;
    } finally {
      late?.remove();
    }
  }

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
