// Answers for the course where it is kept on a machine: every file of one version, and the network only for what is none of it.
//
// `outlean build` puts `self.course = { version, files }` before this. A newer worker waits until it is told to take over, so
// that no page gets files of two versions.

/** @type {{ course: { version: string, files: string[] } } & Record<string, any>} */
const here = /** @type {any} */ (self);
const { version, files } = here.course;
const NAME = `outlean-${version}`;
/** Where the course begins. */
const scope = new URL('./', location.href);

here.oninstall = (/** @type {any} */ event) => event.waitUntil(keep());

/** Tells every page of the course. @param {Record<string, unknown>} what */
const tell = async what => {
  for (const client of await here.clients.matchAll({ includeUncontrolled: true })) client.postMessage(what);
};

async function keep() {
  try {
    const cache = await caches.open(NAME);
    // One after another: a server on a small machine is not asked for a hundred files at once.
    for (const [number, file] of files.entries()) {
      const answer = await fetch(new URL(file, scope), { cache: 'no-cache' });
      if (!answer.ok) throw new Error(`${file}: ${answer.status}`);
      await cache.put(new URL(file, scope), answer);
      await tell({ done: number + 1, all: files.length });
    }
  } catch (why) {
    await caches.delete(NAME);
    await tell({ failed: String(why) });
    throw why;
  }
}

here.onactivate = (/** @type {any} */ event) => event.waitUntil((async () => {
  for (const name of await caches.keys()) if (name.startsWith('outlean-') && name !== NAME) await caches.delete(name);
  await here.clients.claim();
})());

here.onmessage = (/** @type {any} */ event) => {
  if (event.data === 'take over') here.skipWaiting();
  if (event.data === 'version') event.source?.postMessage({ version });
};

here.onfetch = (/** @type {any} */ event) => {
  const { request } = event;
  const at = new URL(request.url);
  if (request.method !== 'GET' || at.origin !== scope.origin || !at.pathname.startsWith(scope.pathname)) return;
  const file = at.pathname.slice(scope.pathname.length);
  const known = [file, `${file}index.html`].find(name => files.includes(name));
  if (known !== undefined) event.respondWith(kept(known, request));
  else if (files.includes(`${file}/index.html`)) event.respondWith(Response.redirect(`${at.pathname}/${at.search}`));
};

/** A file as it was kept; from the network where the browser has thrown it away. @param {string} file @param {Request} request */
const kept = async (file, request) => (await (await caches.open(NAME)).match(new URL(file, scope))) ?? fetch(request);
