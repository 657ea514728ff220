// Where statements wait until the record store has them: this browser's database, one entry for each lesson of each learner. Where
// the browser keeps nothing they wait in this page.

/**
 * @typedef {{ visit: string, statement: any, dressed?: boolean, aside?: string }} Row
 *   `dressed` once it has what the learning system adds; `aside` why the store refused it.
 * @typedef {object} Entry
 * @property {string} state how far the lesson is, as lms-state.js writes it
 * @property {boolean} completed was ever said, in this registration
 * @property {boolean} passed
 * @property {boolean} changed the store does not have the above yet
 * @property {string[]} begun visits, newest last
 * @property {string[]} ended
 * @property {Row[]} rows in their order
 */

/** @returns {Entry} */
const fresh = () => ({ state: '', completed: false, passed: false, changed: false, begun: [], ended: [], rows: [] });

/** @returns {Promise<IDBDatabase>} */
const opening = () => new Promise((done, failed) => {
  const asked = indexedDB.open('outlean statements', 1);
  asked.onupgradeneeded = () => asked.result.createObjectStore('lessons');
  asked.onsuccess = () => done(asked.result);
  asked.onerror = asked.onblocked = () => failed(asked.error ?? new Error('blocked'));
});

export class Kept {
  /** @type {Promise<IDBDatabase> | undefined} */ #opened;
  /** As it was last seen. */ #last = fresh();
  /** Whether this page alone has it. */
  inMemory = false;

  /** @param {string} name of the lesson and the learner */
  constructor(name) {
    this.name = name;
  }

  /**
   * Reads the entry, has it changed, and resolves once that is on the disk. Changes of all pages come one after another.
   * @template T @param {(entry: Entry) => T} act @param {'readonly' | 'readwrite'} [mode] @returns {Promise<T>}
   */
  async change(act, mode = 'readwrite') {
    if (!this.inMemory) {
      try {
        this.#opened ??= opening();
        return await this.#onDisk(await this.#opened, act, mode);
      } catch {
        this.inMemory = true;
      }
    }
    return act(this.#last);
  }

  /** Reads the entry. @template T @param {(entry: Entry) => T} act @returns {Promise<T>} */
  look(act) {
    return this.change(act, 'readonly');
  }

  /** @template T @param {IDBDatabase} base @param {(entry: Entry) => T} act @param {'readonly' | 'readwrite'} mode @returns {Promise<T>} */
  #onDisk(base, act, mode) {
    return new Promise((done, failed) => {
      const change = base.transaction('lessons', mode, { durability: 'strict' });
      const store = change.objectStore('lessons');
      const asked = store.get(this.name);
      /** @type {T} */
      let made;
      /** @type {Entry} */
      let entry;
      asked.onsuccess = () => {
        entry = asked.result ?? fresh();
        made = act(entry);
        if (mode === 'readwrite') store.put(entry, this.name);
      };
      change.onabort = () => failed(change.error);
      change.oncomplete = () => {
        this.#last = entry;
        done(made);
      };
    });
  }
}
