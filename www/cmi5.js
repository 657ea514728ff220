// A lesson started by cmi5: its statements are made, kept until the record store has them, and sent in their order.
//
// One page at a time sends what is kept of a lesson (Web Locks), whichever page it came from; of a visit whose page is gone, the
// next visit sends it. A statement keeps its id, so that one whose answer was lost on the way is stored once. What the store refuses stands
// aside and holds nothing up; it is offered again at the next visit.
//
// "Failed" is said as the visit ends, since a question may be answered anew until then and a visit may say only one of passed and failed.
// "Terminated" too is said when the learner ends the visit: a page cannot tell being left from being loaded again, and nothing may follow it. A
// visit that is not ended is closed by the learning system as it starts the next (cmi5, 9.3.6).

import { dropLaunch, keepLaunch, webAddress } from './cmi5-launch.js';
import { answered, completed, dressed, initialized, judged, terminated } from './cmi5-statement.js';
import { isObject } from './object.js';
import { Kept } from './xapi-kept.js';
import { asked, RecordStore, Refused, said } from './xapi-store.js';

/**
 * @typedef {import('./cmi5-launch.js').Launch} Launch
 * @typedef {import('./xapi-kept.js').Entry} Entry
 * @typedef {import('./xapi-kept.js').Row} Row
 * @typedef {import('./lms-state.js').State} State
 * @typedef {{ count: number, why: string, aside: any[], mode: string, pass: number, placeless: boolean, inMemory: boolean, back?: string }} Told
 *   Statements on their way, or refused; what was wrong; those refused; the mode of the launch once it is known; what passes; whether the store
 *   keeps no document; whether this page alone has what waits; where the system wants the learner back.
 */

/** Waits between tries, ms: doubled each time from the first to the last, and drawn up to a fifth longer, since a whole class may wait. */
const FIRST = 1000;
const LAST = 300_000;
/** Where the lesson's own document stands in the store. */
const PROGRESS = 'outlean';
/** How many visits of a lesson are remembered. */
const REMEMBERED = 20;

/** The lock that a page of a visit holds for as long as it is there. @param {string} visit */
const life = visit => `outlean visit ${visit}`;

/** Does something while no other page does the like; at once where a browser has no locks for this page. @param {string} name @param {() => Promise<void>} act */
async function alone(name, act) {
  let began = false;
  try {
    await navigator.locks.request(name, () => {
      began = true;
      return act();
    });
  } catch (why) {
    if (began) throw why;
    await act();
  }
}

/** Names of the locks that pages hold. @returns {Promise<(string | undefined)[]>} */
async function heldLocks() {
  try {
    return ((await navigator.locks.query()).held ?? []).map(lock => lock.name);
  } catch {
    return [];
  }
}

export class Cmi5 {
  #pause = FIRST;
  /** @type {ReturnType<typeof setTimeout> | undefined} */ #timer;
  #sending = false;
  #more = false;
  /** Why the key can never be had any more. @type {unknown} */
  #keyless;
  #over = false;
  /** Whether an answer was taken since the page was loaded. */
  #took = false;
  /** How many statements the store does not have. */
  #pending = 0;
  /** Whether the store refuses to keep how far the lesson is. */
  #placeless = false;

  /** @param {Launch} launch @param {State} state @param {(said: string, told: Told) => void} report What is to be said, by its word. */
  constructor(launch, state, report) {
    this.launch = launch;
    this.state = state;
    this.report = report;
    const { endpoint, registration, activityId, actor } = launch;
    this.kept = new Kept(JSON.stringify([endpoint, registration, activityId, actor]));
    addEventListener('online', () => this.send());
    addEventListener('beforeunload', event => { if (this.kept.inMemory && this.#pending) event.preventDefault(); });
    // Says to other pages that this visit still has one.
    if ('locks' in navigator) navigator.locks.request(life(launch.visit), { mode: 'shared' }, () => new Promise(() => {})).catch(() => {});
  }

  /** Begins, or goes on after the page was loaded again. */
  async begin() {
    const { launch } = this;
    await this.kept.change(entry => {
      this.state.resume(entry.state);
      if (entry.begun.includes(launch.visit)) return;
      entry.begun = [...entry.begun, launch.visit].slice(-REMEMBERED);
      // What was refused at an earlier visit may be taken now.
      for (const row of entry.rows) delete row.aside;
      this.#add(entry, initialized(launch));
    });
    await this.send();
  }

  /** @param {Entry} entry @param {any} made */
  #add(entry, made) {
    entry.rows.push({ visit: this.launch.visit, statement: made });
  }

  /** Takes an answer. @param {string} question @param {Parameters<typeof answered>[1]} answer */
  async take(question, answer) {
    const made = answered(this.launch, answer);
    await this.kept.change(entry => {
      if (entry.ended.includes(this.launch.visit)) return;
      this.state.resume(entry.state); // what another page of this visit took
      this.state.take(question, answer.share);
      entry.state = this.state.kept(Infinity).text;
      entry.changed = true;
      this.#add(entry, made);
      this.#judge(entry);
      this.#took = true;
    });
    await this.send();
  }

  /** What counts as passed: what the system says, or what the course does. */
  get #pass() {
    return this.launch.data?.masteryScore ?? this.state.pass;
  }

  /** Says what has become true of the lesson and was not said before in this registration. @param {Entry} entry */
  #judge(entry) {
    const { launch, state } = this;
    if (launch.data?.launchMode !== 'Normal' || !state.done) return;
    if (!entry.completed) this.#add(entry, completed(launch));
    if (!entry.passed && state.passes(this.#pass)) {
      this.#add(entry, judged(launch, true, state.scaled, this.#pass));
      entry.passed = true;
    }
    entry.completed = true;
  }

  /** Ends the visit, as the learner asks for it once the system knows of it. */
  async end() {
    const { launch, state } = this;
    await this.kept.change(entry => {
      if (entry.ended.includes(launch.visit)) return;
      entry.ended = [...entry.ended, launch.visit].slice(-REMEMBERED);
      if (launch.data?.launchMode === 'Normal' && state.done && state.questions.length && !entry.passed) this.#add(entry, judged(launch, false, state.scaled, this.#pass));
      this.#add(entry, terminated(launch));
    });
    await this.send();
  }

  /** Sends what waits, one page at a time; what is not taken now is tried again later. */
  async send() {
    this.#more = true;
    if (this.#sending || this.#over) return;
    this.#sending = true;
    clearTimeout(this.#timer);
    /** @type {unknown} */
    let why;
    try {
      while (this.#more && !why) {
        this.#more = false;
        await alone(`outlean statements ${this.kept.name}`, () => this.#work().catch(failed => { why = failed; }));
      }
    } finally {
      this.#sending = false;
    }
    // What another page seems to be sending is looked for again: that page may just have been closed.
    if (await this.#tell(why) || why) this.#later(why);
    else this.#pause = FIRST;
  }

  /** @param {unknown} why */
  #later(why) {
    if (this.#keyless) return;
    const wait = Math.max(this.#pause * (1 + Math.random() / 5), why instanceof Refused ? why.after * 1000 : 0);
    this.#timer = setTimeout(() => this.send(), Math.min(wait, LAST));
    this.#pause = Math.min(this.#pause * 2, LAST);
  }

  /** Says how it stands; how many statements are still to be sent. @param {unknown} why what went wrong last */
  async #tell(why) {
    const { launch, state } = this;
    const { rows, ended } = await this.kept.look(entry => ({ rows: [...entry.rows], ended: entry.ended.includes(launch.visit) }));
    const aside = rows.filter(row => row.aside);
    this.#pending = rows.length;
    const { data } = launch;
    /** @type {Told} */
    const told = { count: rows.length - aside.length, why: why instanceof Error ? why.message : '', aside: aside.map(row => row.statement), mode: data?.launchMode ?? '', pass: this.#pass, placeless: this.#placeless, inMemory: this.kept.inMemory && rows.length > 0, back: data?.returnURL };
    const status = why instanceof Refused ? why.status : undefined;
    if (this.#keyless) this.report('keyless', told);
    else if (why) this.report(status === 401 ? 'expired' : status === 0 ? 'no_answer' : 'waiting', told);
    else {
      if (ended) {
        this.#over = true;
        dropLaunch();
      }
      if (aside.length) this.report(ended ? 'ended_aside' : 'aside', { ...told, count: aside.length, why: aside[0].aside ?? '' });
      else if (ended) this.report('ended', told);
      else if (!state.answered) this.report('begun', told);
      else this.report(state.done ? 'done' : this.#took ? 'sent' : 'resumed', told);
    }
    return told.count;
  }

  /** Everything that is to be done with the store, in its order; what goes wrong is thrown. */
  async #work() {
    const { launch } = this;
    const store = await this.#connected();
    const held = await heldLocks();
    const others = (/** @type {Row} */ row) => row.visit !== launch.visit && held.includes(life(row.visit));
    await this.#dress(others);
    const next = () => this.kept.look(entry => entry.rows.find(row => row.dressed && !row.aside && !others(row)));
    for (let row = await next(); row; row = await next()) await this.#sent(store, row);
    await this.#place(store);
  }

  /** Keeps how far the lesson is, once the statements that say so are there. @param {RecordStore} store */
  async #place(store) {
    const document = await this.kept.look(({ changed, state, completed, passed }) => (changed ? { state, completed, passed } : undefined));
    if (!document) return;
    try {
      await store.keep('activities/state', this.#at(PROGRESS), document);
    } catch (why) {
      if (!(why instanceof Refused) || why.passing) throw why;
      this.#placeless = true;
    }
    await this.kept.change(entry => { if (entry.state === document.state) entry.changed = false; });
  }

  /** @param {string} stateId */
  #at(stateId) {
    const { activityId, actor, registration } = this.launch;
    return { activityId, agent: JSON.stringify(actor), registration, stateId };
  }

  /** The store, its key fetched and what it says of this launch read, once. */
  async #connected() {
    const { launch } = this;
    if (this.#keyless) throw this.#keyless;
    launch.token ??= await this.#key();
    const store = new RecordStore(launch.endpoint, launch.token);
    if (launch.data) return store;
    const data = await store.document('activities/state', this.#at('LMS.LaunchData'));
    if (!isObject(data?.contextTemplate)) throw new Refused(404, '404 LMS.LaunchData');
    // cmi5 has it read (11.0). Nothing here goes by it: there is no sound, and a lesson's languages are ways at its head.
    await store.document('agents/profile', { agent: JSON.stringify(launch.actor), profileId: 'cmi5LearnerPreferences' }).catch(why => { if (why.passing) throw why; });
    const known = await store.document('activities/state', this.#at(PROGRESS));
    const { contextTemplate, launchMode = 'Normal', masteryScore, returnURL } = data;
    const share = typeof masteryScore === 'number' && masteryScore >= 0 && masteryScore <= 1;
    launch.data = { contextTemplate, launchMode: typeof launchMode === 'string' ? launchMode : '', returnURL: webAddress(returnURL), masteryScore: share ? masteryScore : undefined };
    keepLaunch(launch);
    await this.kept.change(entry => {
      entry.completed ||= known?.completed === true;
      entry.passed ||= known?.passed === true;
      this.state.resume(entry.state);
      if (typeof known?.state === 'string') this.state.resume(known.state);
      if (this.state.answered) entry.state = this.state.kept(Infinity).text;
      if (!entry.ended.includes(launch.visit)) this.#judge(entry);
    });
    return store;
  }

  /** The key, fetched: this can be done once. */
  async #key() {
    const { launch } = this;
    try {
      const { 'auth-token': token, 'error-text': why } = Object(await said(await asked(launch.fetch, { method: 'POST' })));
      if (typeof token !== 'string' || !/^[\x21-\x7e]+$/.test(token)) throw new Refused(403, typeof why === 'string' ? why.slice(0, 200) : '');
      keepLaunch({ ...launch, token });
      return token;
    } catch (why) {
      if (!(why instanceof Refused && why.passing)) this.#keyless = why;
      throw why;
    }
  }

  /**
   * Puts what the system adds into what does not have it. What a visit that is gone never got as far as that becomes this one's.
   * @param {(row: Row) => boolean} others Whether it is of a visit that goes on elsewhere.
   */
  async #dress(others) {
    const { visit } = this.launch;
    await this.kept.change(entry => {
      // A visit that the system never knew of neither began nor ended.
      entry.rows = entry.rows.filter(row => row.dressed || row.visit === visit || others(row) || isAnswer(row));
      for (const row of entry.rows) {
        if (row.dressed || others(row)) continue;
        row.visit = visit;
        this.#dressed(row);
      }
      // It begins the visit, whatever was taken over.
      entry.rows.sort((a, b) => Number(isFirst(b, visit)) - Number(isFirst(a, visit)));
    });
  }

  /** @param {Row} row */
  #dressed(row) {
    row.statement = dressed(row.statement, this.launch.data?.contextTemplate ?? {});
    row.dressed = true;
  }

  /** Sends one, and takes it out once the store has it. @param {RecordStore} store @param {Row} row */
  async #sent(store, row) {
    const { id } = row.statement;
    /** @type {Refused | undefined} */
    let refused;
    try {
      await store.store(row.statement);
    } catch (why) {
      if (!(why instanceof Refused) || why.passing) throw why;
      refused = why;
    }
    await this.kept.change(entry => {
      const at = entry.rows.findIndex(each => each.statement.id === id);
      const found = entry.rows[at];
      if (!found) return;
      // An earlier visit may be closed by now: its answers are told in this one, and that it began and ended is not told any more.
      const late = refused && found.visit !== this.launch.visit;
      if (!refused || (late && !isAnswer(found))) entry.rows.splice(at, 1);
      else if (late) {
        found.visit = this.launch.visit;
        this.#dressed(found);
      } else found.aside = refused.message;
    });
  }
}

/** @param {Row} row */
const isAnswer = ({ statement }) => !/\/(initialized|terminated|failed)$/.test(statement.verb.id);
/** @param {Row} row @param {string} visit */
const isFirst = ({ statement, visit: of }, visit) => of === visit && statement.verb.id.endsWith('/initialized');
