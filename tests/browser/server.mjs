// The native program, serving a folder as it serves the course: the same headers, the same policy.

import { spawn } from 'node:child_process';
import { createInterface } from 'node:readline';
import { outlean } from './place.mjs';

/**
 * Serves `folder` on a free port of this machine, or on one that was its before.
 * @param {string} folder
 * @param {number} [port]
 * @returns {Promise<{ origin: string, stop: () => Promise<void> }>} `origin` without a slash at its end
 */
export function serve(folder, port = 0) {
  const child = spawn(outlean, ['serve', '--dir', folder, '--port', String(port), '--no-open'], {
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = new Promise(resolve => child.once('close', resolve));
  const stop = async () => {
    child.kill();
    await ended;
  };
  // A test that dies must not leave a server behind.
  process.once('exit', () => child.kill());
  return new Promise((resolve, reject) => {
    child.once('error', why => reject(new Error(`${outlean} cannot be started (cargo xtask build makes it): ${why.message}`)));
    child.once('close', code => reject(new Error(`outlean serve ended with ${code} before it said its address`)));
    createInterface({ input: child.stdout }).on('line', line => {
      const address = /http:\/\/127\.0\.0\.1:\d+/.exec(line);
      if (address) resolve({ origin: address[0], stop });
    });
  });
}
