// Random courses and answers with what a refresher of each asks natively, to be asked of the wasm module again, field by field.

import { execFileSync } from 'node:child_process';
import { root } from './place.mjs';

/** How many are compared: in Node, and in each browser. */
export const PICKS = 5_000;
export const PICKS_IN_PAGES = 1_000;

/**
 * An answer: question, time, seed, share right.
 * @typedef {[string, number, number, number]} Answer
 * @typedef {{ questions: [string, number][], ahead: number, due: number, next: number, share: number, passed: boolean, back_to: string[], after: number }} Picked
 * @typedef {{ cards: [string, string][], kept: Answer[], answered: Answer[], today: number, seed: number, picked: Picked }} Case
 */

/** @param {number} count @returns {Case[]} */
export function cases(count) {
  const command = 'run --quiet --release --package outlean-tests --example picks --';
  return JSON.parse(execFileSync('cargo', [...command.split(' '), String(count)], { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 30 }));
}

/**
 * What the module says of each. Also sent into pages as text, so it uses nothing from outside itself.
 * @param {any} module @param {Case[]} some @returns {Picked[]}
 */
export function asked(module, some) {
  return some.map(({ cards, kept, answered, today, seed }) => {
    const made = new module.Refresher();
    for (const [question, objective] of cards) made.card(question, objective);
    for (const answer of answered) made.answered(...answer);
    for (const answer of kept) made.kept(...answer);
    const places = [...made.pick(today, seed)];
    const end = made.end(today);
    const picked = {
      questions: places.flatMap((place, at) => (at % 2 ? [] : [/** @type {[string, number]} */ ([cards[place][0], places[at + 1]])])),
      ahead: made.ahead(today),
      due: made.due(today),
      next: made.next(today),
      share: end.share,
      passed: end.passed,
      back_to: [...end.back_to()].map(place => cards[place][1]),
      after: end.next,
    };
    end.free();
    made.free();
    return picked;
  });
}
