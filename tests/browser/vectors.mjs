// Rigs solved by the native program, to be solved again by the wasm module and compared bit for bit.

import { execFileSync } from 'node:child_process';
import { root } from './place.mjs';

/** How many rigs are compared: at least ten thousand; RIGS=… asks for another number. */
export const RIGS = Number(process.env.RIGS ?? 10_000);

/**
 * `count` random rigs with what they come to natively.
 * @param {number} count
 * @returns {{ rig: unknown, solution?: unknown, fault?: unknown, range?: unknown }[]}
 */
export function vectors(count) {
  const command = ['run', '--quiet', '--release', '--package', 'outlean-tests', '--example', 'vectors', '--', String(count)];
  return JSON.parse(execFileSync('cargo', command, { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 30 }));
}

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
  if (native === null || native === undefined) {
    const absent = wasm === null || wasm === undefined || (typeof wasm === 'number' && !Number.isFinite(wasm));
    return absent ? [] : [`${path}: native has none, wasm ${JSON.stringify(wasm)}`];
  }
  if (typeof native !== 'object') {
    return Object.is(native, wasm) ? [] : [`${path}: native ${native}, wasm ${String(wasm)}`];
  }
  if (typeof wasm !== 'object' || wasm === null || Array.isArray(native) !== Array.isArray(wasm)) {
    return [`${path}: native ${JSON.stringify(native)}, wasm ${String(wasm)}`];
  }
  const keys = new Set([...Object.keys(native), ...Object.keys(wasm)]);
  return [...keys].flatMap(key => differences(native[key], wasm[key], `${path}.${key}`));
}

/**
 * What differs over some vectors, solved by `module`. Also sent into pages as text.
 * @param {{ solve: (rig: any) => any, workingRange: (rig: any) => any }} module
 * @param {ReturnType<typeof vectors>} some
 * @param {typeof differences} differ
 */
export function compare(module, some, differ) {
  return some.flatMap(({ rig, solution, fault, range }, number) => {
    const found = module.solve(rig);
    const all = differ({ solution, fault }, { solution: found.solution, fault: found.fault }, `${number}`);
    if (range !== undefined) all.push(...differ(range, module.workingRange(rig), `${number}.range`));
    return all;
  });
}
