// What only a lesson in a learning system loads: each answer is told to the system that started the page, at once; the learner is told
// how that went. Which system that is shows by how it started the page: by cmi5 it put a launch into the address, by SCORM it has an
// object in a window above.

import { give, styled } from './apart.js';
import { QUESTIONS } from './channel.js';
import { Cmi5 } from './cmi5.js';
import { launchOfPage, Unlaunched } from './cmi5-launch.js';
import { element } from './element.js';
import { Lms } from './lms-api.js';
import { State } from './lms-state.js';
import { hundredths } from './share.js';
import { fill, wordsOf } from './words.js';

/** @typedef {import('./cmi5.js').Told} Told */

const main = /** @type {HTMLElement} */ (document.querySelector('[data-lesson]'));
/** What the package says of the course. */
const packed = /** @type {HTMLElement} */ (document.querySelector('script[data-pass]')).dataset;
const pass = Number(packed.pass);
const state = new State([...document.querySelectorAll(QUESTIONS)].map(question => question.id), pass);
const place = element('p', { class: 'facts lms', role: 'status', tabindex: '-1' });
main.querySelector('.facts')?.after(place);

/** All that can be said where the words do not come. */
const UNTOLD = 'Whether the learning system has your answers cannot be said: the words of this page did not come.';

/** @type {Promise<Record<string, string>> | undefined} */
let vocabulary;
const lmsWords = () => (vocabulary ??= wordsOf('lms').catch(why => {
  vocabulary = undefined; // the next caller may try again
  throw why;
}));

/** How it stands beside a mark, 0 to 1. @param {number} mark */
const standing = mark => ({ share: String(hundredths(state.share, state.passes(mark) ? undefined : mark)), pass: String(hundredths(mark)) });

/** Says how it stands, in the page's words. @param {string} key @param {Record<string, string>} [values] @param {(words: Record<string, string>) => (Node | string)[]} [more] */
async function report(key, values = {}, more = () => []) {
  const words = await lmsWords().catch(() => undefined);
  const counts = { all: String(state.questions.length), answered: String(state.answered), ...standing(pass) };
  const text = words ? fill(words, `lms.${key}`, { ...counts, ...values }) : UNTOLD;
  place.dataset.said = key;
  // The same is not told twice to those who hear it.
  if (place.dataset.text === text) return;
  place.dataset.text = text;
  place.replaceChildren(text, ...(words ? more(words) : []).flatMap(part => [' ', part]));
  if (words && key === 'resumed' && state.last) place.append(' ', element('a', { href: `#${state.last}` }, words['lms.go_on']));
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

/** Says how it stands with the record store. @param {string} said @param {Told} told */
function reportStore(said, told) {
  const { count, why, aside, mode, placeless, inMemory, back } = told;
  report(said, { count: String(count), why, ...standing(told.pass) }, words => {
    const more = [];
    if (inMemory) more.push(words['lms.in_memory']);
    if (placeless) more.push(words['lms.placeless']);
    if (mode && mode !== 'Normal') more.push(words['lms.not_judged']);
    if (aside.length) {
      const save = element('button', { type: 'button' }, words['lms.save_aside']);
      save.addEventListener('click', () => give('statements.json', JSON.stringify(aside, null, 1), 'application/json'));
      more.push(save);
    }
    if (said === 'ended_aside' && back) more.push(element('a', { href: back }, words['lms.back']));
    return more;
  });
  end.hidden = !mode || said.startsWith('ended');
  if (said === 'ended' && back) location.assign(back);
}

/** Ends the visit, below the lesson. */
const end = element('div', { class: 'lms-end', hidden: '' });

/** @param {import('./cmi5-launch.js').Launch} launch */
function launched(launch) {
  const cmi5 = new Cmi5(launch, state, reportStore);
  styled('lms.css');
  lmsWords().catch(() => /** @type {import('./words.js').Words} */ ({})).then(words => {
    const key = element('button', { type: 'button' }, words['lms.end'] ?? 'End this visit');
    key.addEventListener('click', () => {
      key.disabled = true;
      end.before(place);
      place.focus();
      cmi5.end();
    });
    end.append(element('p', {}, words['lms.end_why'] ?? ''), key);
    main.append(end);
  });
  cmi5.begin();
  return cmi5;
}

/** What began the page by cmi5; `refused` where it cannot be gone by, which is said. */
function launch() {
  try {
    return launchOfPage();
  } catch (why) {
    if (!(why instanceof Unlaunched)) throw why;
    report(why.said, { field: why.field });
    return 'refused';
  }
}

const found = launch();
const cmi5 = found && found !== 'refused' ? launched(found) : undefined;
const lms = found ? undefined : Lms.find();
if (lms && tried(() => { lms.begin(state); return true; })) report(state.answered ? 'resumed' : 'begun');
else if (!lms && !found) report('none');

addEventListener('outlean-marked', event => {
  const question = /** @type {HTMLElement & { template?: any }} */ (event.target);
  const { seed, typed, share, seconds, verdict } = /** @type {CustomEvent} */ (event).detail;
  if (verdict === 'revealed') return;
  // What comes of it is said where the learner is: below what recording.js has to say.
  const below = question.nextElementSibling;
  (below?.matches('.record-said') ? below : question).after(place);
  /** @type {string[]} */
  const steps = (question.template?.steps ?? []).map((/** @type {{ id: string }} */ step) => step.id);
  const answer = { name: `${main.dataset.lesson}.${question.id}`, kind: question.localName.slice('outlean-'.length), seed, typed: String(typed), steps, share, seconds: seconds ?? 0, at: new Date() };
  if (cmi5) {
    const title = main.querySelector('h1')?.textContent ?? '';
    cmi5.take(question.id, { ...answer, course: packed.course ?? '', title, question: question.id, language: document.documentElement.lang || 'en' });
  }
  if (!lms) return;
  state.take(question.id, share);
  const left_out = tried(() => lms.take(state, answer));
  if (left_out === undefined) return;
  if (left_out > 0) report('full', { left_out: String(left_out) });
  else report(state.done ? 'done' : 'sent');
});

// Answers were committed as they came: what is done here is time, and what was refused before.
addEventListener('pagehide', () => lms?.end(state));
