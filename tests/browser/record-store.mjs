// A record store (LRS) that others wrote, run on this machine: ralph, of PyPI, in a Python environment of its own below the target
// folder, made where there is none.

import { execFileSync, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { createServer } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { root, target } from './place.mjs';

const home = join(root, 'tests/record-store');
const USER = 'lesson';
const PASSWORD = 'of this run alone';
/** How long it may take to answer, ms. */
const PATIENCE = 30_000;

/** The environment's Python. */
function environment() {
  const place = join(target, 'record-store');
  const wanted = readFileSync(join(home, 'requirements.txt'), 'utf8');
  const made = join(place, 'made');
  const python = process.platform === 'win32' ? join(place, 'Scripts', 'python.exe') : join(place, 'bin', 'python');
  if (existsSync(made) && readFileSync(made, 'utf8') === wanted) return python;
  const run = (/** @type {string} */ program, /** @type {string[]} */ ...given) => {
    try {
      execFileSync(program, given, { stdio: ['ignore', 'ignore', 'pipe'] });
    } catch (why) {
      const said = /** @type {any} */ (why).stderr?.toString().trim().split('\n').slice(-3).join('\n') || String(why);
      throw new Error(`The record store that lessons are tested with cannot be installed: \`${program} ${given.join(' ')}\` failed:\n${said}\n` +
        'It needs Python 3.9 or newer with venv and pip (on Debian: apt-get install python3-venv) and, the first time, the network.');
    }
  };
  run('python3', '-m', 'venv', '--clear', place);
  run(python, '-m', 'pip', 'install', '--quiet', '--disable-pip-version-check', '-r', join(home, 'requirements.txt'));
  writeFileSync(made, wanted);
  return python;
}

/** A port that nothing listens at. @returns {Promise<number>} */
const free = () => new Promise((done, failed) => {
  const server = createServer().once('error', failed).listen(0, '127.0.0.1', () => {
    const { port } = /** @type {import('node:net').AddressInfo} */ (server.address());
    server.close(() => done(port));
  });
});

/** Starts it, empty; resolves once it answers. */
export async function recordStore() {
  const python = environment();
  const folder = mkdtempSync(join(tmpdir(), 'outlean-record-store-'));
  const port = await free();
  const child = spawn(python, [join(home, 'store.py'), folder, String(port), USER, PASSWORD], { stdio: ['ignore', 'ignore', 'inherit'] });
  process.once('exit', () => child.kill());
  const ended = new Promise(resolve => child.once('close', resolve));
  const origin = `http://127.0.0.1:${port}`;
  const token = Buffer.from(`${USER}:${PASSWORD}`).toString('base64');
  const answers = () => fetch(`${origin}/__lbheartbeat__`).then(answer => answer.ok, () => false);
  for (const began = Date.now(); !(await answers()); await wait(50)) {
    if (child.exitCode !== null || Date.now() - began > PATIENCE) throw new Error('the record store did not start; what it said stands above');
  }
  return {
    /** Where its resources are. */
    endpoint: `${origin}/xAPI/`,
    /** What opens it, as the header of basic authentication has it. */
    token,
    /** All statements of a registration, in the order in which they came. @param {string} registration @returns {Promise<any[]>} */
    async statements(registration) {
      const asked = `${origin}/xAPI/statements?${new URLSearchParams({ registration, limit: '10000' })}`;
      const answer = await fetch(asked, { headers: { Authorization: `Basic ${token}`, 'X-Experience-API-Version': '1.0.3' } });
      return (await answer.json()).statements;
    },
    async stop() {
      child.kill();
      await ended;
      rmSync(folder, { recursive: true });
    },
  };
}
