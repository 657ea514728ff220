// The files of the program as a lesson in one file holds them, in the place of www/origin.js: no address leads out of it.

/** @type {Record<string, [string, string]>} Type and content, in base64, by name. */
const files = JSON.parse(document.getElementById('held')?.textContent ?? '{}');

/** A file. @param {string} name @returns {Promise<Response>} */
export async function load(name) {
  const file = files[name];
  if (!file) return new Response('', { status: 404 });
  const [type, content] = file;
  return new Response(Uint8Array.from(atob(content), letter => letter.charCodeAt(0)), { headers: { 'content-type': type } });
}

/** Scripts that pages have only now and then are left out. @param {string} _name */
export const run = async _name => {};

/** There is no worker. @param {string} name @returns {Worker} */
export const workerOf = name => {
  throw new Error(name);
};
