// Rigs solved by the native program, to be solved again by the wasm module and compared bit for bit.

import { execFileSync } from 'node:child_process';
import { root } from './place.mjs';

/** How many rigs are compared: at least ten thousand; RIGS=… asks for another number. */
export const RIGS = Number(process.env.RIGS ?? 10_000);

/**
 * A rig and what it comes to: a solution or `{ fault }`, and with some of the rigs a working range or `{ fault }`.
 * @typedef {{ seed: number, rig: any, solution: any, range?: any }} Vector
 */

/** One rig in so many has its working range compared too: it is over a thousand solutions. */
const RANGE_EVERY = 10;

/**
 * `count` random rigs with what they come to natively, each as the JSON of one vector. They are handed on as this text
 * and no other: to write a vector again would lose the sign of −0.
 * @param {number} count
 * @returns {string[]}
 */
export function vectors(count) {
  const command = 'run --quiet --release --package outlean-tests --example vectors --';
  const numbers = [count, 0, RANGE_EVERY].map(String);
  const text = execFileSync('cargo', [...command.split(' '), ...numbers], { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 30 });
  return text.trim().replace(/^\[|\]$/g, '').split(/,\n/);
}

/** Some vectors as one JSON text. @param {string[]} some */
export const asJson = some => `[${some.join(',')}]`;

/**
 * What differs between a native result (from JSON) and one from wasm, each as a path and the two values. It is also
 * sent into pages as text, so it uses nothing from outside itself.
 *
 * Two things are written differently and mean the same: what is absent is `null` in JSON and `undefined` from wasm;
 * and JSON has no numbers that are not finite, so that it writes `null` for them too.
 * @param {any} native
 * @param {any} wasm
 * @param {string} path
 * @returns {string[]}
 */
export function differences(native, wasm, path) {
  const said = (/** @type {any} */ value) => (Object.is(value, -0) ? '-0' : (JSON.stringify(value) ?? 'none'));
  if (native === null || native === undefined) {
    const absent = wasm === null || wasm === undefined || (typeof wasm === 'number' && !Number.isFinite(wasm));
    return absent ? [] : [`${path}: native none, wasm ${said(wasm)}`];
  }
  if (typeof native !== 'object') {
    return Object.is(native, wasm) ? [] : [`${path}: native ${said(native)}, wasm ${said(wasm)}`];
  }
  if (typeof wasm !== 'object' || wasm === null || Array.isArray(native) !== Array.isArray(wasm)) {
    return [`${path}: native ${said(native)}, wasm ${said(wasm)}`];
  }
  const keys = new Set([...Object.keys(native), ...Object.keys(wasm)]);
  return [...keys].flatMap(key => differences(native[key], wasm[key], `${path}.${key}`));
}

/**
 * What differs over some vectors, solved by `module`, whose `solve` gives `{ solution }` or `{ fault }` and whose
 * `workingRange` gives `{ range }` or `{ fault }`. Also sent into pages as text.
 * @param {{ solve: (rig: any) => any, workingRange: (rig: any) => any }} module
 * @param {Vector[]} some
 * @param {typeof differences} differ
 */
export function compare(module, some, differ) {
  return some.flatMap(({ seed, rig, solution, range }) => {
    const solved = module.solve(rig);
    const all = differ(solution, solved.solution ?? solved, `seed ${seed} solution`);
    if (range !== undefined) {
      const ranged = module.workingRange(rig);
      all.push(...differ(range, ranged.range ?? ranged, `seed ${seed} range`));
    }
    return all;
  });
}
