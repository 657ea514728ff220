// What is due again: the course that the page holds against a learner's answers, by the program of crate/refresher.

import { beside } from './origin.js';
import begin, { Refresher } from './wasm/refresher.js';

/** Seconds of a day. */
export const DAY = 86_400;

/** Today, in whole days since 1970, UTC. */
export const today = () => Math.floor(Date.now() / 1000 / DAY);

/** @type {Promise<unknown> | undefined} */
let begun;

/** A scheduler that knows the course and these answers of one learner. @param {import('./course.js').Card[]} cards @param {import('./store.js').Attempt[]} answers */
export async function scheduler(cards, answers) {
  begun ??= begin({ module_or_path: fetch(beside('wasm/refresher_bg.wasm')) });
  await begun.catch(why => {
    begun = undefined; // the next caller may try again
    throw why;
  });
  const made = new Refresher();
  for (const { question, href } of cards) made.card(question, href);
  for (const { question, time, seed, mark } of answers) made.kept(question, time, seed, mark.share);
  return made;
}

export const [length, pass] = [() => Refresher.length(), () => Refresher.pass()];
