// Where a learner's answers are kept: this browser's database. Answers are only ever added; what cannot be written is
// held in memory and written with the next that can. Event outlean-store on the document, detail { say }, when there is
// something to be said: refused (the database cannot be opened), full, unwritten, clock (an answer before one that is
// there already), kept (what was held in memory is written).
// When more than one page is open each adds under keys of its own, and tells the others on a channel.

/**
 * An answer as it is kept; the fields of crate/course/src/attempt.rs.
 * @typedef {object} Attempt
 * @property {number} time
 * @property {string} lesson
 * @property {string} question
 * @property {string} lesson_version
 * @property {number} seed
 * @property {string} response
 * @property {{ share: number, verdict: string }} mark
 * @property {number | null} seconds
 * @property {number | null} hints
 * @property {string} objective
 *
 * @typedef {Attempt & { key: string, learner: string }} Row
 */

const NAME = 'outlean';
const VERSION = 2;
/** Who answers until somebody says who. */
const SOMEONE = '1';

/** What could not be written. Whose an answer is says the database, once it is asked: until then it may have no learner. @type {(Attempt & { key: string, learner?: string })[]} */
const held = [];
/** @type {Promise<IDBDatabase> | undefined} */
let opened;
/** The learner while none can be kept. */
let learner = SOMEONE;

const others = new BroadcastChannel('outlean records');

/** Calls back when another page changed what is kept. @param {() => void} renew */
export const onOthers = renew => { others.onmessage = renew; };

/** Tells other pages that something changed. */
export const tellOthers = () => others.postMessage('changed');

/** @param {string} what */
const announce = what => document.dispatchEvent(new CustomEvent('outlean-store', { detail: { say: what } }));

/** A key that no other page makes. */
export const someKey = () => [...crypto.getRandomValues(new Uint32Array(4))].map(part => part.toString(16).padStart(8, '0')).join('');

/** What could not be written, newest last. @returns {Row[]} */
export const inMemory = () => held.map(row => ({ ...row, learner: row.learner ?? learner }));

/** Keeps the page from closing unasked. @param {Event} event */
const stay = event => event.preventDefault();

/** Keys of what a file has been given out with. */
const given = new Set();

/** While the page alone holds an answer, closing it is asked about. */
const guard = () => (held.some(({ key }) => !given.has(key)) ? addEventListener : removeEventListener)('beforeunload', stay);

/** Notes that a file with these was given out. @param {Row[]} rows */
export function gaveOut(rows) {
  rows.forEach(({ key }) => given.add(key));
  guard();
}

/** Forgets what is held in memory of a learner. @param {string} who */
export function forget(who) {
  held.splice(0, held.length, ...held.filter(row => (row.learner ?? learner) !== who));
  guard();
}

/** The database. */
export function database() {
  opened ??= new Promise((done, failed) => {
    const asked = indexedDB.open(NAME, VERSION);
    asked.onupgradeneeded = ({ oldVersion }) => upgrade(asked.result, /** @type {IDBTransaction} */ (asked.transaction), oldVersion);
    asked.onsuccess = () => {
      const found = asked.result;
      // A page with a newer program waits for this one; the next answer opens it again.
      found.onversionchange = found.onclose = () => {
        found.close();
        opened = undefined;
      };
      done(found);
    };
    asked.onerror = asked.onblocked = () => failed(asked.error ?? new Error('blocked'));
  });
  return opened.catch(why => {
    opened = undefined; // the next caller may try again
    throw why;
  });
}

/** From any older version. @param {IDBDatabase} found @param {IDBTransaction} change @param {number} from */
function upgrade(found, change, from) {
  const old = from === 1 ? change.objectStore('attempts').getAll() : undefined;
  const make = (/** @type {any[]} */ rows) => {
    if (from === 1) found.deleteObjectStore('attempts');
    else found.createObjectStore('settings');
    const aside = found.createObjectStore('aside', { autoIncrement: true });
    const store = found.createObjectStore('attempts', { keyPath: 'key' });
    store.createIndex('time', 'time');
    for (const each of rows) {
      if (typeof each !== 'object' || !each) {
        aside.add({ learner: '', raw: JSON.stringify(each) ?? '', why: { field: 'attempt', value: String(each).slice(0, 60), allowed: 'object' } });
        continue;
      }
      const { right, ...row } = each;
      // The first version knew no more than right or not. What is damaged is found where records are shown.
      const mark = typeof right === 'boolean' ? { mark: { share: Number(right), verdict: right ? 'right' : 'other' } } : { right };
      store.put({ lesson_version: '', seconds: null, hints: null, objective: '', ...row, ...mark, key: someKey() });
    }
  };
  if (old) old.onsuccess = () => make(old.result);
  else make([]);
}

/**
 * Does something in one transaction; resolves once it is on the disk.
 * @template T @param {'readonly' | 'readwrite'} mode @param {(change: IDBTransaction) => T} act @returns {Promise<T>}
 */
export async function within(mode, act) {
  const change = (await database()).transaction(['attempts', 'settings', 'aside'], mode, { durability: 'strict' });
  return new Promise((done, failed) => {
    change.onabort = () => failed(change.error);
    const made = act(change);
    change.oncomplete = () => done(made);
  });
}

/**
 * Keeps an answer of the present learner. Resolves once it is on the disk, or held in memory because it cannot be.
 * @param {Attempt} attempt @returns {Promise<'disk' | 'memory'>}
 */
export async function add(attempt) {
  /** @type {typeof held[0]} */
  const row = { ...attempt, key: someKey() };
  const before = held.length;
  held.push(row);
  try {
    const writing = [...held];
    const seen = await within('readwrite', change => {
      const found = { last: 0 };
      const store = change.objectStore('attempts');
      const who = change.objectStore('settings').get('learner');
      const last = store.index('time').openKeyCursor(null, 'prev');
      last.onsuccess = () => {
        found.last = Number(last.result?.key ?? 0);
        for (const each of writing) {
          each.learner ??= who.result ?? learner;
          store.put(each);
        }
      };
      return found;
    });
    held.splice(0, held.length, ...held.filter(each => !writing.includes(each)));
    guard();
    if (before) announce('kept');
    if (seen.last > row.time) announce('clock');
    tellOthers();
    return 'disk';
  } catch (why) {
    const name = why instanceof DOMException ? why.name : '';
    guard();
    announce(name === 'QuotaExceededError' ? 'full' : opened ? 'unwritten' : 'refused');
    return 'memory';
  }
}

/** Who answers now. @returns {Promise<string>} */
export async function whoAnswers() {
  try {
    const asked = await within('readonly', change => change.objectStore('settings').get('learner'));
    return (learner = asked.result ?? learner);
  } catch {
    return learner;
  }
}

/** Another answers from now on. @param {string} who */
export async function turnTo(who) {
  learner = who;
  try {
    await within('readwrite', change => change.objectStore('settings').put(who, 'learner'));
    tellOthers();
  } catch {
    announce('refused');
  }
}
