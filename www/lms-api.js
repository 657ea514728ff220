// The two ways of SCORM to a learning system, under one set of names: 1.2 (API) and 2004 (API_1484_11).

import { interactionOf, whole } from './lms-interaction.js';
import { hundredths } from './share.js';

/** @typedef {import('./lms-state.js').State} State */
/** @typedef {import('./lms-interaction.js').Answer} Answer */

/** How many windows up a learning system is looked for. */
const FAR = 50;
/** Longest response that is told, characters; either standard takes as many. */
const LONG = 250;

/** Finds the learning system above this page or above the window that opened it. @param {string} name */
function find(name) {
  /** @param {any} from */
  const above = from => {
    try {
      for (let at = from, far = 0; at && far < FAR; at = at.parent === at ? null : at.parent, far++) if (at[name]) return at[name];
    } catch {
      // A page of another origin: nothing is to be found through it.
    }
    return undefined;
  };
  return above(window) ?? above(window.opener);
}

/** @param {number} value */
const two = value => String(value).padStart(2, '0');
/** A length of time for 1.2: HHHH:MM:SS. @param {number} seconds */
const clocked = seconds => `${String(Math.floor(seconds / 3600)).padStart(4, '0')}:${two(Math.floor(seconds / 60) % 60)}:${two(Math.floor(seconds) % 60)}`;

/** Names of calls and elements where the two differ. */
const WAYS = {
  API_1484_11: { begin: 'Initialize', get: 'GetValue', set: 'SetValue', commit: 'Commit', end: 'Terminate', error: 'GetLastError', text: 'GetErrorString', data: 64_000, exit: 'cmi.exit', location: 'cmi.location', session: 'cmi.session_time' },
  API: { begin: 'LMSInitialize', get: 'LMSGetValue', set: 'LMSSetValue', commit: 'LMSCommit', end: 'LMSFinish', error: 'LMSGetLastError', text: 'LMSGetErrorString', data: 4096, exit: 'cmi.core.exit', location: 'cmi.core.lesson_location', session: 'cmi.core.session_time' },
};

/** A learning system that is there. */
export class Lms {
  /** Answers that it has not taken yet. @type {Answer[]} */
  #waiting = [];
  /** Whether it lacks some of what stands of the lesson. */
  #lacks = false;
  #began = performance.now();
  #ended = false;

  /** @param {any} api @param {boolean} later Whether it is of SCORM 2004. */
  constructor(api, later) {
    this.api = api;
    this.later = later;
    this.way = later ? WAYS.API_1484_11 : WAYS.API;
  }

  /** The one above this page, begun; nothing where there is none. */
  static find() {
    const later = find('API_1484_11');
    const api = later ?? find('API');
    return api && new Lms(api, !!later);
  }

  /** Calls it; what went wrong is thrown. @param {'begin'|'get'|'set'|'commit'|'end'} what @param {...string} given */
  #call(what, ...given) {
    const answer = String(this.api[this.way[what]](...given));
    const number = String(this.api[this.way.error]());
    if (what === 'get' ? number !== '0' && answer === '' : answer !== 'true') {
      throw new Error(`${number} ${this.api[this.way.text](number)}`.trim());
    }
    return answer;
  }

  /** Begins, and takes up what is kept there. @param {State} state */
  begin(state) {
    this.#call('begin', '');
    state.resume(this.#kept());
    // Said of every visit, or what was kept ends with one in which nothing is answered.
    this.#call('set', this.way.exit, 'suspend');
    if (state.answered === 0) this.#tell(this.#score(state));
  }

  /** What was kept at the last visit; nothing where the system holds nothing. */
  #kept() {
    try {
      return this.#call('get', 'cmi.suspend_data');
    } catch {
      return ''; // nothing was ever set, says 2004 with an error
    }
  }

  /** Tells of an answer, and of those that were not taken before; how many found no room. @param {State} state @param {Answer} answer */
  take(state, answer) {
    this.#waiting.push(answer);
    this.#lacks = true;
    const { left_out, all } = this.#standing(state);
    this.#tell(all);
    this.#lacks = false;
    try {
      while (this.#waiting.length) {
        this.#interaction(this.#waiting[0]);
        this.#waiting.shift();
      }
    } finally {
      this.#call('commit', ''); // how far the lesson is, whatever becomes of the rest
    }
    return left_out;
  }

  /** @param {[string, string][]} all Elements and their values. */
  #tell(all) {
    for (const [element, value] of all) this.#call('set', element, value);
  }

  /** All that stands of the lesson, and how many answers find no room in it. @param {State} state */
  #standing(state) {
    const { text, left_out } = state.kept(this.way.data);
    /** @type {[string, string][]} */
    const all = [['cmi.suspend_data', text], [this.way.location, state.last], ...this.#score(state)];
    return { left_out, all };
  }

  /** Score and status. @param {State} state */
  #score(state) {
    const score = String(hundredths(state.share, state.passed ? undefined : state.pass));
    const prefix = this.later ? 'cmi.score' : 'cmi.core.score';
    /** @type {[string, string][]} */
    const all = [[`${prefix}.raw`, score], [`${prefix}.min`, '0'], [`${prefix}.max`, '100']];
    if (this.later) {
      const progress = state.questions.length ? state.answered / state.questions.length : 1;
      all.push([`${prefix}.scaled`, state.scaled.toFixed(4)], ['cmi.progress_measure', progress.toFixed(4)], ['cmi.completion_status', state.done ? 'completed' : 'incomplete']);
      if (state.done) all.push(['cmi.success_status', state.passed ? 'passed' : 'failed']);
    } else all.push(['cmi.core.lesson_status', !state.done ? 'incomplete' : state.passed ? 'passed' : 'failed']);
    return all;
  }

  /** How many interactions the system has. */
  #count() {
    const count = this.#call('get', 'cmi.interactions._count') || '0';
    if (!/^\d{1,9}$/.test(count)) throw new Error(`cmi.interactions._count: ${count.slice(0, 60)}`);
    return count;
  }

  /** @param {Answer} answer */
  #interaction(answer) {
    const { name, seed, share, seconds, at } = answer;
    // Told again, it is told in the same place.
    answer.place ??= `cmi.interactions.${this.#count()}`;
    const { type, parts } = interactionOf(answer);
    const response = parts.join(this.later ? '[,]' : ',');
    const right = whole(share);
    const result = share > 0 && !right ? share.toFixed(2) : right ? 'correct' : this.later ? 'incorrect' : 'wrong';
    // A time without a zone is the learner's own: 1.2 has no other, 2004 takes hundredths of a second and a zone.
    /** @type {[string, string][]} */
    const all = this.later
      ? [['timestamp', `${at.toISOString().slice(0, 22)}Z`], ['learner_response', response], ['latency', `PT${seconds}S`]]
      : [['time', at.toTimeString().slice(0, 8)], ['student_response', response], ['latency', clocked(seconds)]];
    for (const [element, value] of [['id', `${name}.${seed}`], ['type', type], ['result', result], ['weighting', '1'], ...all]) {
      if (value) this.#call('set', `${answer.place}.${element}`, value.slice(0, LONG));
    }
  }

  /** Ends: what was not taken is told once more, and the time spent. Only once, and to the end whatever is refused on the way. @param {State} state */
  end(state) {
    if (this.#ended) return;
    this.#ended = true;
    const seconds = Math.round((performance.now() - this.#began) / 1000);
    /** @type {[string, string][]} */
    const all = [...(this.#lacks ? this.#standing(state).all : []), [this.way.session, this.later ? `PT${seconds}S` : clocked(seconds)]];
    for (const act of [
      ...all.map(each => () => this.#tell([each])),
      ...this.#waiting.map(answer => () => this.#interaction(answer)),
      () => this.#call('commit', ''),
      () => this.#call('end', ''),
    ]) {
      try {
        act();
      } catch {
        // Nobody is there to be told any more.
      }
    }
  }
}
