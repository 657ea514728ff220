// Seeds: what a question is drawn by.

/** A seed as it is typed. */
export const SEED = /^\d{1,9}$/;

/** The seed that is typed, one by chance where none is. @param {string} typed */
export const seedBy = typed => (SEED.test(typed) ? Number(typed) : crypto.getRandomValues(new Uint32Array(1))[0] % 1e6);
