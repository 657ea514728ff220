// Pages of the course in Node: documents that a library makes, and of the rest of a browser what scripts that listen to messages ask for. What
// one page says on its channel is taken down; what it hears is the test's to say.

import { readFileSync } from 'node:fs';
import { register } from 'node:module';
import { join } from 'node:path';
import { parseHTML } from 'linkedom';
import { root, wasm } from './place.mjs';

export const COURSE = 'https://course.example';
const PROGRAM = `${COURSE}/program/`;
const www = join(root, 'www');
register('./served.mjs', import.meta.url, { data: { program: PROGRAM, www, wasm: wasm('web') } });

const here = /** @type {any} */ (globalThis);
/** @typedef {{ heard: Record<string, ((event: any) => void)[]>, said: any[], onmessage: (event: { data: any }) => void }} Ear */

/** The page whose scripts are at work. @type {Ear} */
let at;
/** What was to be done later, in the order in which it was asked for. @type {(() => void)[]} */
const later = [];

/** Does what was to be done later. */
export const soon = () => { for (const act of later.splice(0)) act(); };

/** Locks that pages hold, as long as they are there. */
const held = new Set();
const locks = {
  /** @param {string} name @param {() => unknown} act */
  async request(name, act) {
    if (held.has(name)) return;
    held.add(name);
    await Promise.resolve();
    await act();
    held.delete(name);
  },
};

class Observer {
  observe() {}
  disconnect() {}
}
const { window } = parseHTML('<html></html>');
for (const name of ['HTMLElement', 'HTMLInputElement', 'HTMLDetailsElement', 'Node', 'Text', 'customElements', 'Event', 'CustomEvent']) here[name] = /** @type {any} */ (window)[name];
Object.assign(here, {
  window: here,
  self: here,
  parent: { postMessage: (/** @type {any} */ what, /** @type {string} */ to) => at.said.push({ what: structuredClone(what), to }) },
  location: { search: '', hash: '', pathname: '/05-lean/', origin: COURSE, href: `${COURSE}/05-lean/` },
  scrollY: 0,
  innerHeight: 800,
  devicePixelRatio: 1,
  matchMedia: () => ({ matches: false, addEventListener() {} }),
  getComputedStyle: () => ({ boxSizing: 'border-box', colorScheme: 'normal' }),
  addEventListener: (/** @type {string} */ name, /** @type {any} */ act) => (at.heard[name] ??= []).push(act),
  fetch: async (/** @type {string} */ address) => new Response(readFileSync(join(www, address.slice(PROGRAM.length)))),
  BroadcastChannel: class {
    constructor() {
      this.page = at;
    }
    /** @param {any} act */
    set onmessage(act) {
      this.page.onmessage = act;
    }
    /** @param {any} what */
    postMessage(what) {
      this.page.said.push(structuredClone(what));
    }
    close() {}
  },
  CSSStyleSheet: class { replace() { return this; } },
  MutationObserver: Observer,
  ResizeObserver: Observer,
  setInterval: () => 0,
});

Object.defineProperty(here, 'navigator', { value: { locks }, configurable: true });

// Pages wait in their own time; what the library for tests waits for is another's.
const waits = here.setTimeout;
here.setTimeout = (/** @type {any} */ act, /** @type {number} */ time, /** @type {any[]} */ ...given) => (new Error().stack?.includes(PROGRAM) ? later.push(act) : waits(act, time, ...given));

/**
 * A page, its scripts run until `there` finds what they make of it; one page is made after the other, since what scripts ask of the
 * document is of the page at work.
 * @param {string} html @param {string[]} scripts @param {(document: any) => unknown} there @param {(document: any) => void} [dress] What no library makes of it.
 */
export async function page(html, scripts, there, dress = () => {}) {
  const { document } = parseHTML(html);
  const own = /** @type {Ear} */ ({ heard: {}, said: [], onmessage: () => {} });
  /** @template T @param {() => T} act @returns {T} */
  const as = act => {
    at = own;
    here.document = document;
    return act();
  };
  // As browsers do it: by the text of whatever is given, and nothing by none.
  const by = document.getElementById.bind(document);
  document.getElementById = (/** @type {any} */ id) => (`${id}` ? by(`${id}`) : null);
  dress(document);
  for (const script of scripts) await as(() => import(PROGRAM + script));
  while (!there(document)) await new Promise(done => waits(done, 1));
  return {
    document,
    /** What it said since it was last asked. */
    said: () => own.said.splice(0),
    /** Another page of the course says something to it. @param {any} data */
    hear: data => as(() => own.onmessage({ data: structuredClone(data) })),
    /** A page around it, or in it, says something to it. @param {{ data: any, origin: string, source: any }} message */
    message: ({ data, ...from }) => as(() => own.heard.message.forEach(act => act({ data: structuredClone(data), ...from }))),
  };
}
