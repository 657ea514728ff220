// What modules of pages ask of a page, for those that are tested without one: to be imported before them.

/** @type {Map<string, string>} */
const shelf = new Map();

/** What stands in for the page's globals. */
export const here = /** @type {any} */ (globalThis);
here.window = { get parent() { return here.window; } };
here.document = { documentElement: { lang: 'en' } };
here.location = { hash: '', href: 'https://course.example/lesson/', pathname: '/lesson/' };
here.history = { state: null, replaceState: (/** @type {any} */ _state, /** @type {string} */ _title, /** @type {any} */ address) => { here.location.href = String(address); } };
here.addEventListener = () => {};
// One of Node.js would keep a test from ending.
here.BroadcastChannel = class { postMessage() {} };
if (!('navigator' in globalThis)) here.navigator = {};
here.sessionStorage = {
  getItem: (/** @type {string} */ name) => shelf.get(name) ?? null,
  setItem: (/** @type {string} */ name, /** @type {string} */ value) => void shelf.set(name, value),
  removeItem: (/** @type {string} */ name) => void shelf.delete(name),
  clear: () => shelf.clear(),
};
