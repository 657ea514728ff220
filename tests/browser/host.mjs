// Servers of others, which know nothing of the course: one that sends files as they are, and one set up as the page on serving many
// says (crate/outlean/SERVING.md).

import { createReadStream, existsSync, readFileSync, statSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';
import { listen, POLICY } from './listen.mjs';

/** @type {Record<string, string>} */
const TYPES = { '.html': 'text/html', '.js': 'text/javascript', '.css': 'text/css', '.json': 'application/json', '.svg': 'image/svg+xml', '.wasm': 'application/wasm', '.woff2': 'font/woff2' };

/** @typedef {{ file: string, status: number }} Answer What was asked for, below the folder, and how it was answered. */

/**
 * Serves `folder` below `/under/` of a free port. A careful host says how long a file may be kept, knows one that is there already, sends
 * packed ones, and says the policy.
 * @param {string} folder
 * @param {{ careful?: boolean }} [how]
 * @returns {Promise<{ at: string, answers: Answer[], stop: () => Promise<void> }>} `at` ends with a slash; `answers` grows
 */
export async function host(folder, { careful = false } = {}) {
  const under = '/courses/rigging/';
  /** @type {Answer[]} */
  const answers = [];
  const { origin, stop } = await listen((request, response) => {
    const path = new URL(request.url ?? '', 'http://host').pathname;
    const file = normalize(path.slice(under.length) + (path.endsWith('/') ? 'index.html' : ''));
    const from = join(folder, file);
    /** @param {number} status @param {Record<string, string>} [headers] */
    const answer = (status, headers) => {
      answers.push({ file, status });
      response.writeHead(status, headers);
    };
    if (!path.startsWith(under) || file.startsWith('..') || !existsSync(from) || !statSync(from).isFile()) {
      answer(404);
      return response.end();
    }
    /** @type {Record<string, string>} */
    const headers = { 'content-type': TYPES[extname(file)] ?? 'application/octet-stream' };
    if (!careful) {
      answer(200, headers);
      return createReadStream(from).pipe(response);
    }
    const { mtimeMs, size } = statSync(from);
    Object.assign(headers, {
      'cache-control': /^program-[0-9a-f]{16}\//.test(file) ? 'public, max-age=31536000, immutable' : 'no-cache',
      'content-security-policy': POLICY,
      etag: `W/"${mtimeMs}-${size}"`,
      vary: 'Accept-Encoding',
      'x-content-type-options': 'nosniff',
    });
    if (request.headers['if-none-match'] === headers.etag) {
      answer(304, headers);
      return response.end();
    }
    const taken = String(request.headers['accept-encoding']).split(/, */);
    const coding = [['br', '.br'], ['gzip', '.gz']].find(([name, ending]) => taken.includes(name) && existsSync(from + ending));
    if (coding) headers['content-encoding'] = coding[0];
    answer(200, headers);
    return response.end(readFileSync(from + (coding?.[1] ?? '')));
  });
  return { at: origin + under, answers, stop };
}
