// Where the files of the program are, as pages of a site load them. A lesson in one file has www/held.js in its place.

/** The address of a file of the program. @param {string} name */
export const beside = name => new URL(name, import.meta.url).href;

/** A file. @param {string} name @returns {Promise<Response>} */
export const load = name => fetch(beside(name));

/** Runs a script that pages have only now and then. @param {string} name @returns {Promise<unknown>} */
export const run = name => import(beside(name));

/** A worker; throws where there can be none. @param {string} name @returns {Worker} */
export const workerOf = name => new Worker(beside(name), { type: 'module' });
