// Servers on which some file of the course does not come until it is let go, and then in pieces: one server a kind of file, since a browser
// opens few connections to each. What is held back is known, so that a test looks while it is, and not after some time.

import { readFileSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';
import { listen, POLICY } from './listen.mjs';
import { site } from './place.mjs';

/** Of a lesson one file of each kind, which is held back. @type {Record<string, RegExp>} */
export const KINDS = {
  program: /outlean_bg\.wasm$/,
  script: /\/page\.js$/,
  words: /en\/page\.json$/,
  style: /figure\.css$/,
  page: /05-lean\/index\.html$/,
  lettering: /barlow-semi-condensed-500\.woff2$/,
  painter: /painter\.js$/,
  picture: /slate\.svg$/,
};

/** @type {Record<string, string>} */
const TYPES = { '.html': 'text/html; charset=utf-8', '.js': 'text/javascript', '.css': 'text/css', '.json': 'application/json', '.svg': 'image/svg+xml', '.wasm': 'application/wasm', '.woff2': 'font/woff2' };
/** In how many pieces a file comes that was held back, and how long each waits for the next, ms. */
const PIECES = 6;
const BETWEEN = 40;

/** What one file of a server waits for. */
function gate() {
  /** @type {() => void} */
  let open = () => {};
  const opened = /** @type {Promise<void>} */ (new Promise(done => { open = done; }));
  return { open, opened };
}

/**
 * The course, some of its files held back.
 * @param {RegExp} held
 * @returns {Promise<{ origin: string, stop: () => Promise<void>, asked: Promise<void>, letGo: () => void }>} `asked` once it was asked for
 */
export async function slow(held) {
  const [asked, gone] = [gate(), gate()];
  const { origin, stop } = await listen(async (request, response) => {
    const file = normalize(new URL(request.url ?? '/', 'http://x').pathname).replace(/\/$/, '/index.html');
    /** @type {Buffer} */
    let bytes;
    try {
      bytes = readFileSync(join(site, file));
    } catch {
      response.writeHead(404);
      return response.end();
    }
    response.writeHead(200, { 'content-type': TYPES[extname(file)] ?? 'text/plain', 'content-security-policy': POLICY, 'cache-control': 'no-store' });
    if (!held.test(file)) return response.end(bytes);
    const size = Math.ceil(bytes.length / PIECES);
    // The first piece comes at once: what has begun may stand still as well.
    response.write(bytes.subarray(0, size));
    asked.open();
    await gone.opened;
    for (let at = size; at < bytes.length; at += size) {
      response.write(bytes.subarray(at, at + size));
      await new Promise(done => setTimeout(done, BETWEEN));
    }
    response.end();
  });
  return { origin, stop, asked: asked.opened, letGo: gone.open };
}

/** A server of a page without anything in it. */
export const empty = () => listen((_, response) => {
  response.writeHead(200, { 'content-type': 'text/html' });
  response.end('<!doctype html><title>Frames</title><link rel="icon" href="data:,">');
});
