// Servers of tests, and the policy that pages are served with.

import { readFileSync } from 'node:fs';
import { createServer } from 'node:http';
import { join } from 'node:path';
import { root } from './place.mjs';

/** As the native program serves it. */
export const POLICY = "default-src 'self'; script-src 'self' 'wasm-unsafe-eval'";
if (!readFileSync(join(root, 'crate/outlean/src/policy.rs'), 'utf8').includes(`"${POLICY}"`)) throw new Error('the policy of crate/outlean/src/policy.rs is another one');

/**
 * Listens at a free port of this machine.
 * @param {import('node:http').RequestListener} does
 * @returns {Promise<{ origin: string, stop: () => Promise<void> }>} `origin` without a slash at its end
 */
export async function listen(does) {
  const server = createServer(does);
  await new Promise(done => server.listen(0, '127.0.0.1', () => done(undefined)));
  const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
  return {
    origin: `http://127.0.0.1:${port}`,
    stop: () => new Promise(done => { server.closeAllConnections(); server.close(() => done()); }),
  };
}
