// Anyone's pages: those of tests/browser/pages, each in a folder with what it needs, the built course beside each of them, as if its files
// had been put there. `/NAME/…` is a file of the page NAME, else one of the course; what is broken of the course for a page stands in FAULTS.

import { readFileSync } from 'node:fs';
import { extname, join, normalize } from 'node:path';
import { listen, POLICY } from './listen.mjs';
import { root, site } from './place.mjs';

const KINDS = /** @type {Record<string, string>} */ ({
  '.html': 'text/html; charset=utf-8', '.js': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8',
  '.json': 'application/json', '.wasm': 'application/wasm', '.svg': 'image/svg+xml', '.woff2': 'font/woff2',
});

/**
 * What is sent.
 * @typedef {{ status: number, kind: string, bytes: Buffer, policy: string }} Answer
 */

/** The name under which a module asks for a thing of the page's is another one: as in a program of another version. @param {Buffer} wasm */
function renamed(wasm) {
  const copy = Buffer.from(wasm);
  const at = copy.indexOf('__wbg_');
  copy.write('__wbx_', at);
  return copy;
}

/** What is broken of the course, by the page that it stands beside. @type {Record<string, (file: string, answer: Answer) => void>} */
const FAULTS = {
  'fault-fetch': (file, answer) => { if (file.endsWith('.wasm')) answer.status = 404; },
  'fault-compile': (file, answer) => { if (file.endsWith('.wasm')) answer.bytes = answer.bytes.subarray(0, 5000); },
  'fault-type': (file, answer) => { if (file.endsWith('.wasm')) answer.kind = 'text/plain'; },
  'fault-version': (file, answer) => { if (file.endsWith('.wasm')) answer.bytes = renamed(answer.bytes); },
  'fault-words': (file, answer) => { if (file.endsWith('page.json')) answer.status = 404; },
  'fault-style': (file, answer) => { if (file.endsWith('figure.css')) answer.status = 404; },
  'fault-absent': () => {},
  'fault-canvas': () => {},
  'fault-forbidden': (file, answer) => { answer.policy = "default-src 'self'"; },
};

/**
 * Serves them on a free port of this machine. With `course` the pages find the course at that origin instead: `{{course}}` in them stands for it.
 * @param {{ course?: string }} [how]
 * @returns {Promise<{ origin: string, stop: () => Promise<void> }>}
 */
export function anyone({ course = '' } = {}) {
  return listen((request, response) => {
    const path = normalize(new URL(request.url ?? '/', 'http://x').pathname).replace(/\/$/, '/index.html');
    const [, name = '', ...rest] = path.split('/');
    const file = rest.join('/');
    // The pages of all faults are one.
    const page = FAULTS[name] ? 'fault' : name;
    const answer = read(join(root, 'tests/browser/pages', page, file)) ?? read(join(site, file)) ?? (/favicon/.test(path) ? read(join(root, 'www/favicon.svg')) : undefined) ?? { status: 404, kind: 'text/plain', bytes: Buffer.from('there is no such page'), policy: POLICY };
    if (answer.kind.startsWith('text/html')) answer.bytes = Buffer.from(String(answer.bytes).replaceAll('{{course}}', course));
    if (course) answer.policy = `default-src 'self' ${course}; script-src 'self' ${course} 'wasm-unsafe-eval'; frame-src 'self' ${course}`;
    FAULTS[name]?.(file, answer);
    response.writeHead(answer.status, {
      'content-type': answer.kind, 'content-security-policy': answer.policy, 'x-content-type-options': 'nosniff', 'cache-control': 'no-store',
      // Modules, words, styles and lettering of another origin are only taken where that one says so.
      'access-control-allow-origin': '*',
    });
    response.end(answer.bytes);
  });
}

/** @param {string} file @returns {Answer | undefined} */
function read(file) {
  try {
    return { status: 200, kind: KINDS[extname(file)] ?? 'application/octet-stream', bytes: readFileSync(file), policy: POLICY };
  } catch {
    return undefined;
  }
}
