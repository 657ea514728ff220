// What the record's, the class's and the refresher's pages do with what is kept: lists it, sets aside what is damaged, writes and reads a record's file.
// The file's form and what its fields allow are those of crate/course/src/record.

import { isObject } from './object.js';
import { database, forget, inMemory, someKey, tellOthers, within } from './store.js';

/** @typedef {import('./store.js').Attempt} Attempt */
/** @typedef {import('./store.js').Row} Row */
/** @typedef {string | Record<string, number>} Allowed What a field allows. */
/** @typedef {{ field: string, value: string, allowed: Allowed }} Reason */
/** @typedef {{ learner: string, raw: string, why: Reason }} Aside */

const FORMAT = 'outlean-record';
const FILE_VERSION = 2;
/** Bytes of a file; entries of a list in it; lists and objects in one another, as the native program reads them. */
const MOST = { bytes: 16_000_000, items: 50_000, deep: 127 };
const WHOLE = 2 ** 53 - 1;

/** A file that is no record, and why. */
export class NoRecord extends Error {
  /** @param {string} field @param {unknown} value @param {Allowed} allowed */
  constructor(field, value, allowed) {
    super(field);
    this.why = because(field, value, allowed);
  }
}

/** @param {unknown} value */
const json = value => {
  try {
    return JSON.stringify(value) ?? '';
  } catch {
    return String(value); // no JSON can hold it
  }
};

/** Half a sign, which no file of text can hold. */
const HALF = /\p{Surrogate}/gu;
/** At most so much of a text is repeated. @param {string} text */
const short = text => [...text.replace(HALF, '\ufffd')].slice(0, 60).join('');

/** @param {string} field @param {unknown} value @param {Allowed} allowed @returns {Reason} */
const because = (field, value, allowed) => ({ field: short(field), value: short(value == null ? '' : json(value)), allowed });

const whole = (/** @type {number} */ most) => ({ allowed: { whole: most }, fits: (/** @type {any} */ value) => Number.isInteger(value) && value >= 0 && value <= most });
const perhaps = (/** @type {number} */ most) => ({ allowed: { whole: most }, fits: (/** @type {any} */ value) => value === null || whole(most).fits(value) });
const text = (/** @type {number} */ most) => ({ allowed: { text: most }, fits: (/** @type {any} */ value) => typeof value === 'string' && [...value].length <= most && value.search(HALF) < 0 });
const name = (/** @type {number} */ most) => ({ allowed: { name: most }, fits: (/** @type {any} */ value) => text(most).fits(value) && /\P{White_Space}/u.test(value) });

/** @typedef {{ allowed: Allowed, fits(value: any): boolean }} Rule */
/** @type {Record<string, Rule>} */
const MARK = {
  share: { allowed: 'share', fits: value => typeof value === 'number' && value >= 0 && value <= 1 },
  verdict: { allowed: { word: 24 }, fits: value => typeof value === 'string' && /^[a-z_]{1,24}$/.test(value) },
};
/** @type {Record<string, Rule>} In the order in which they are written. */
const FIELDS = {
  time: whole(253_402_300_799),
  lesson: name(80),
  question: name(80),
  lesson_version: text(64),
  seed: whole(WHOLE),
  response: text(2000),
  mark: { allowed: 'object', fits: isObject },
  seconds: perhaps(2 ** 32 - 1),
  hints: perhaps(2 ** 32 - 1),
  objective: text(300),
};

/** The first field of an object that is not as the rules ask. @param {any} object @param {Record<string, Rule>} rules @returns {Reason | undefined} */
function firstWrong(object, rules) {
  for (const [field, { allowed, fits }] of Object.entries(rules)) if (!fits(object[field])) return because(field, object[field], allowed);
  const more = Object.keys(object).find(field => !Object.hasOwn(rules, field));
  return more === undefined ? undefined : because(more, object[more], 'no_such_field');
}

/** What is wrong with an attempt. @param {any} attempt @returns {Reason | undefined} */
export function wrong(attempt) {
  if (!isObject(attempt)) return because('attempt', attempt, 'object');
  return firstWrong(attempt, FIELDS) ?? firstWrong(attempt.mark, MARK);
}

/** An attempt as it is written, its fields in order. @param {any} attempt @returns {Attempt} */
function plain(attempt) {
  const made = /** @type {any} */ (Object.fromEntries(Object.keys(FIELDS).map(field => [field, attempt[field]])));
  made.mark = { share: attempt.mark.share, verdict: attempt.mark.verdict };
  return made;
}

/** @param {Row} row */
const attemptOf = ({ key: _, learner: __, ...attempt }) => attempt;

/** @param {Attempt} a @param {Attempt} b */
const inOrder = (a, b) => a.time - b.time || (a.question < b.question ? -1 : Number(a.question > b.question)) || a.seed - b.seed;

/**
 * All that is kept, here and in memory. Damaged rows are set aside first, in the same transaction that finds them.
 * @returns {Promise<{ rows: Row[], aside: Aside[], found: number }>} `found`: how many were set aside just now
 */
export async function listed() {
  let found = 0;
  /** @type {{ rows: Row[], aside: Aside[] }} */
  const kept = { rows: [], aside: [] };
  // What cannot be opened holds nothing that can be shown, and the page says so; what cannot be read is thrown.
  if (await canKeep()) {
    await within('readwrite', change => {
      const store = change.objectStore('attempts');
      const put_aside = change.objectStore('aside');
      store.openCursor().onsuccess = ({ target }) => {
        const cursor = /** @type {IDBRequest<IDBCursorWithValue | null>} */ (target).result;
        if (!cursor) {
          put_aside.getAll().onsuccess = event => { kept.aside = /** @type {IDBRequest<Aside[]>} */ (event.target).result; };
          return;
        }
        const { key, learner, ...attempt } = cursor.value;
        const why = name(60).fits(learner) ? wrong(attempt) : because('learner', learner, { name: 60 });
        if (why) {
          put_aside.add({ learner: name(60).fits(learner) ? learner : '', raw: json(cursor.value), why });
          cursor.delete();
          found += 1;
        } else kept.rows.push({ key, learner, ...plain(attempt) });
        cursor.continue();
      };
    });
  }
  kept.rows.push(...inMemory());
  kept.rows.sort(inOrder);
  return { ...kept, found };
}

/** A learner's record as its file. @param {string} learner */
export async function exported(learner) {
  const { rows, aside } = await listed();
  const attempts = rows.filter(row => row.learner === learner).map(row => plain(attemptOf(row)));
  const stands = aside.filter(each => each.learner === learner || each.learner === '').map(({ raw, why }) => ({ raw, why }));
  return JSON.stringify({ format: FORMAT, version: FILE_VERSION, learner, attempts, aside: stands });
}

/** A cell of CSV that cannot run as a formula; see crate/course/src/record/csv.rs. @param {unknown} value */
function cell(value) {
  const said = String(value ?? '');
  const runs = typeof value === 'string' && (/^[\t\r\n]/.test(said) || /^[=+\-@＝＋－＠]/.test(said.trimStart()));
  return runs || /[",;\r\n\t]|^ | $/.test(said) ? `"${runs ? "'" : ''}${said.replaceAll('"', '""')}"` : said;
}

/** A learner's answers as a table for spreadsheets. @param {string} learner */
export async function table(learner) {
  const { rows } = await listed();
  const head = 'learner,time,lesson,question,objective,lesson_version,seed,response,share,verdict,seconds,hints';
  const lines = rows.filter(row => row.learner === learner).map(row =>
    [row.learner, new Date(row.time * 1000).toISOString().replace('.000Z', 'Z'), row.lesson, row.question, row.objective, row.lesson_version, row.seed, row.response, row.mark.share, row.mark.verdict, row.seconds, row.hints].map(cell).join(','),
  );
  return [head, ...lines, ''].join('\r\n');
}

/** The text of a file, if it is no longer than a record may be. @param {File} file */
export async function textOf(file) {
  if (file.size > MOST.bytes) throw new NoRecord('file', file.size, { bytes: MOST.bytes });
  return file.text();
}

/** How deep lists and objects stand in one another in some JSON. @param {string} text */
function depth(text) {
  let [now, most, quoted] = [0, 0, false];
  for (let at = 0; at < text.length; at++) {
    const sign = text[at];
    if (sign === '"') quoted = !quoted;
    else if (quoted) at += Number(sign === '\\');
    else if (sign === '[' || sign === '{') most = Math.max(most, ++now);
    else if (sign === ']' || sign === '}') now -= 1;
  }
  return most;
}

/** What a field may allow, by name: the word alone, or the word with a number. */
const ALONE = ['json', 'format', 'object', 'list', 'share', 'yes_no', 'no_such_field', 'once'];
const NUMBERED = ['bytes', 'items', 'whole', 'version', 'text', 'name', 'word'];

/** Why something stood aside before, if that is a reason. @param {any} why @returns {Reason | undefined} */
function reasonOf(why) {
  if (!isObject(why) || typeof why.field !== 'string' || typeof why.value !== 'string') return undefined;
  const { field, value, allowed } = why;
  if (ALONE.includes(allowed)) return { field: short(field), value: short(value), allowed };
  const which = isObject(allowed) && NUMBERED.find(name => whole(WHOLE).fits(allowed[name]));
  return which ? { field: short(field), value: short(value), allowed: { [which]: allowed[which] } } : undefined;
}

/**
 * What a file holds. @param {string} file
 * @returns {{ learner: string, attempts: Attempt[], aside: Aside[] }}
 */
export function readFile(file) {
  if (new Blob([file]).size > MOST.bytes) throw new NoRecord('file', file.length, { bytes: MOST.bytes });
  /** @type {any} */
  let read;
  try {
    if (depth(file) > MOST.deep) throw new RangeError(`> ${MOST.deep}`);
    read = JSON.parse(file.replace(/^\ufeff/, ''));
  } catch (why) {
    throw new NoRecord('file', why instanceof Error ? why.message : '', 'json');
  }
  if (!isObject(read)) throw new NoRecord('file', read, 'object');
  const { format, version, learner, attempts, aside = version === 1 ? [] : undefined, ...more } = read;
  if (format !== FORMAT) throw new NoRecord('format', format, 'format');
  if (version !== 1 && version !== FILE_VERSION) throw new NoRecord('version', version, { version: FILE_VERSION });
  if (!name(60).fits(learner)) throw new NoRecord('learner', learner, { name: 60 });
  for (const [field, list] of Object.entries({ attempts, aside })) {
    if (!Array.isArray(list)) throw new NoRecord(field, list, 'list');
    if (list.length > MOST.items) throw new NoRecord(field, list.length, { items: MOST.items });
  }
  for (const field of Object.keys(more)) throw new NoRecord(field, more[field], 'no_such_field');
  /** @type {Attempt[]} */
  const good = [];
  /** @type {Aside[]} */
  const bad = [];
  for (const each of attempts) {
    const attempt = version === 1 ? migrated(each) : each;
    const why = wrong(attempt);
    if (why) bad.push({ learner, raw: json(each), why });
    else good.push(plain(attempt));
  }
  for (const each of aside) {
    const why = isObject(each) && text(Infinity).fits(each.raw) && reasonOf(each.why);
    bad.push(why ? { learner, raw: each.raw, why } : { learner, raw: json(each), why: because('aside', each, 'object') });
  }
  return { learner, attempts: good, aside: bad };
}

/** An attempt of the file's first version as one of the present. @param {any} old */
function migrated(old) {
  if (!isObject(old) || typeof old.right !== 'boolean') return old;
  const { right, ...rest } = old;
  return { lesson_version: '', seconds: null, hints: null, objective: '', ...rest, mark: { share: Number(right), verdict: right ? 'right' : 'other' } };
}

/**
 * Puts a file to what is kept. What is there already is not added again; of two that contradict one another the one
 * that is there stays, and the other stands aside.
 * @param {string} file
 */
export async function imported(file) {
  const { learner, attempts, aside } = readFile(file);
  const added = { learner, attempts: 0, aside: 0 };
  await within('readwrite', change => {
    const store = change.objectStore('attempts');
    const stands = change.objectStore('aside');
    const rows = store.getAll();
    const asides = stands.getAll();
    asides.onsuccess = () => {
      const nameOf = (/** @type {Attempt} */ attempt) => json([attempt.time, attempt.question, attempt.seed]);
      const there = new Map(rows.result.filter(row => row.learner === learner && !wrong(attemptOf(row))).map(row => [nameOf(row), json(plain(row))]));
      const known = new Set(asides.result.map(each => json([each.raw, each.why])));
      for (const attempt of attempts) {
        const said = json(attempt);
        const other = there.get(nameOf(attempt));
        if (other === undefined) {
          store.add({ key: someKey(), learner, ...attempt });
          there.set(nameOf(attempt), said);
          added.attempts += 1;
        } else if (other !== said) aside.push({ learner, raw: said, why: because('time', attempt.time, 'once') });
      }
      for (const each of aside) {
        const said = json([each.raw, each.why]);
        if (known.has(said)) continue;
        known.add(said);
        stands.add(each);
        added.aside += 1;
      }
    };
  });
  tellOthers();
  return added;
}

/** Forgets a learner: all that is kept of them. @param {string} learner */
export async function cleared(learner) {
  forget(learner);
  await within('readwrite', change => {
    for (const place of ['attempts', 'aside']) {
      change.objectStore(place).openCursor().onsuccess = ({ target }) => {
        const cursor = /** @type {IDBRequest<IDBCursorWithValue | null>} */ (target).result;
        if (!cursor) return;
        if (cursor.value?.learner === learner) cursor.delete();
        cursor.continue();
      };
    }
  });
  tellOthers();
}

/** Whether the database can be opened. */
export const canKeep = () => database().then(() => true, () => false);
