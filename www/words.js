// Words of a page: fetched by parts, in its language, and their places filled in.

import { load } from './origin.js';

/** @typedef {Record<string, string>} Words Words by key. */

/** @type {string | Promise<string>} */
let language = document.documentElement.lang.split('-')[0] || 'en';

/** Has words in another language than the page's from now on. @param {string | Promise<string>} other */
export const speak = other => { language = other; };

/** The words of a part, in the page's language. @param {string} part @returns {Promise<Words>} */
export async function wordsOf(part) {
  const answer = await load(`strings/${await language}/${part}.json`);
  if (!answer.ok) throw new Error(String(answer.status));
  return answer.json();
}

/** Words with {places} filled. @param {Words} words @param {string} key @param {Record<string, string | number>} [places] */
export const fill = (words, key, places = {}) => (words[key] ?? key).replace(/\{(\w+)\}/g, (whole, name) => String(places[name] ?? whole));
