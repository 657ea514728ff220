// What a learning system is told of a lesson: how far it is, how it went, and what the lesson needs to go on from there.

/** @typedef {{ share: number, tries: number }} Answered How the last answer went, 0 to 1, and how many there were. */

/** What the text that is kept begins with; goes up when it changes. */
const VERSION = '1';

/** Longest text that is taken up: what the roomier of the standards keeps. */
const LONGEST = 64_000;

/** The answers to the questions of one lesson: of each question the last counts. */
export class State {
  /** @type {Map<string, Answered>} */
  #answers = new Map();
  /** The question answered last. */
  last = '';

  /** @param {string[]} questions Names of all questions of the lesson, in their order. @param {number} pass The share of right answers that passes. */
  constructor(questions, pass) {
    this.questions = questions;
    this.pass = pass;
  }

  /** Takes an answer. @param {string} question @param {number} share 0 to 1 */
  take(question, share) {
    if (!this.questions.includes(question)) return;
    this.#answers.set(question, { share, tries: (this.#answers.get(question)?.tries ?? 0) + 1 });
    this.last = question;
  }

  get answered() {
    return this.#answers.size;
  }

  get done() {
    return this.answered === this.questions.length;
  }

  /** The mean share of all questions, 0 to 1; what is not answered counts as wrong. */
  get share() {
    const sum = [...this.#answers.values()].reduce((sum, { share }) => sum + share, 0);
    return this.questions.length ? sum / this.questions.length : 0;
  }

  /** The same as it is told: to four places. */
  get scaled() {
    return Math.round(this.share * 1e4) / 1e4;
  }

  get passed() {
    return this.passes(this.pass);
  }

  /** Whether it passes this mark, 0 to 1; the rule of `passes` in crate/course. @param {number} mark */
  passes(mark) {
    return this.scaled >= mark;
  }

  /**
   * The answers as text of at most so many characters, and how many of them found no room; the earliest are left out.
   * @param {number} most
   */
  kept(most) {
    const entries = [...this.#answers].map(([question, { share, tries }]) => `${question}:${Math.round(share * 100)}:${tries}`);
    const text = () => [VERSION, this.last, ...entries].join(';');
    let left_out = 0;
    for (; entries.length && text().length > most; left_out++) entries.shift();
    const whole = text();
    return { text: whole.length > most ? '' : whole, left_out };
  }

  /** Takes up what was kept and is not older than what is known; nothing of a text that is not one of these. @param {string} text */
  resume(text) {
    if (text.length > LONGEST) return;
    const [version, last, ...entries] = text.split(';');
    if (version !== VERSION) return;
    for (const entry of entries) {
      const [question, share, tries] = entry.split(':');
      const [of100, times] = [Number(share), Number(tries)];
      const sound = this.questions.includes(question) && of100 >= 0 && of100 <= 100 && Number.isSafeInteger(times) && times > 0;
      if (sound && times > (this.#answers.get(question)?.tries ?? 0)) this.#answers.set(question, { share: of100 / 100, tries: times });
    }
    if (!this.last && this.#answers.has(last)) this.last = last;
  }
}
