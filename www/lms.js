// What only a lesson in a learning system loads: each answer is told to the system above the page, at once; the learner is told how
// that went.

import { QUESTIONS } from './channel.js';
import { Lms } from './lms-api.js';
import { PASS, State } from './lms-state.js';
import { made } from './made.js';
import { fill, wordsOf } from './words.js';

const main = /** @type {HTMLElement} */ (document.querySelector('[data-lesson]'));
const state = new State([...document.querySelectorAll(QUESTIONS)].map(question => question.id));
const place = made('p', { class: 'facts lms', role: 'status' });
main.querySelector('.facts')?.after(place);

/** Says how it stands, in the page's words. @param {string} key @param {Record<string, string>} [values] */
async function report(key, values = {}) {
  const words = await wordsOf('lms');
  const percent = (/** @type {number} */ share) => String(Math.round(share * 100));
  const counts = { all: String(state.questions.length), answered: String(state.answered), share: percent(state.share), pass: percent(PASS) };
  place.dataset.said = key;
  place.textContent = fill(words, `lms.${key}`, { ...counts, ...values });
  if (key === 'resumed' && state.last) place.append(' ', made('a', { href: `#${state.last}` }, words['lms.go_on']));
}

/** Does something with the system; what it refuses is said. @template T @param {() => T} act @returns {T | undefined} */
function tried(act) {
  try {
    return act();
  } catch (why) {
    report('failed', { why: why instanceof Error ? why.message : String(why) });
    return undefined;
  }
}

const lms = Lms.find();
if (!lms) report('none');
else if (tried(() => { lms.begin(state); return true; })) report(state.answered ? 'resumed' : 'begun');

addEventListener('outlean-marked', event => {
  const question = /** @type {HTMLElement & { template?: any }} */ (event.target);
  const { seed, typed, share, seconds, verdict } = /** @type {CustomEvent} */ (event).detail;
  if (!lms || verdict === 'revealed') return;
  state.take(question.id, share);
  /** @type {string[]} */
  const steps = (question.template?.steps ?? []).map((/** @type {{ id: string }} */ step) => step.id);
  const answer = { name: `${main.dataset.lesson}.${question.id}`, kind: question.localName.slice('outlean-'.length), seed, typed: String(typed), steps, share, seconds: seconds ?? 0, at: new Date() };
  const left_out = tried(() => lms.take(state, answer));
  if (left_out === undefined) return;
  if (left_out > 0) report('full', { left_out: String(left_out) });
  else report(state.done ? 'done' : 'sent');
});

// Answers were committed as they came: what is done here is time alone.
addEventListener('pagehide', () => {
  try {
    lms?.end();
  } catch {
    // Nobody is there to be told any more.
  }
});
