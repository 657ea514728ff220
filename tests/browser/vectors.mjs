// Rigs solved by the native program, to be solved again by the wasm module and compared bit for bit.

import { execFileSync } from 'node:child_process';
import { root } from './place.mjs';

/** How many rigs are compared: at least ten thousand; RIGS=… asks for another number. */
export const RIGS = Number(process.env.RIGS ?? 10_000);

/**
 * A rig by the keys of the field table, and every number it comes to; `null` for a rig that is refused.
 * @typedef {{ seed: number, rig: Record<string, number | string>, ranged: boolean, numbers: (number | null)[] | null }} Vector
 */

/** One rig in so many has its working range compared too: it is thousands of solutions. */
const RANGE_EVERY = 50;

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
 * What differs between native numbers (from JSON) and those from wasm, each as a place and the two values. It is also
 * sent into pages as text, so it uses nothing from outside itself. JSON has no infinities: it writes `null` for them.
 * @param {Vector['numbers']} native
 * @param {ArrayLike<number> | null} wasm
 * @param {string} name
 * @returns {string[]}
 */
export function differences(native, wasm, name) {
  if (native === null || wasm === null) return native === wasm ? [] : [`${name}: only one refuses the rig`];
  if (native.length !== wasm.length) return [`${name}: ${native.length} numbers natively, ${wasm.length} from wasm`];
  const said = (/** @type {number | null} */ value) => (Object.is(value, -0) ? '-0' : String(value));
  return native.flatMap((value, i) => {
    const same = value === null ? !Number.isFinite(wasm[i]) : Object.is(value, wasm[i]);
    return same ? [] : [`${name}, number ${i}: native ${said(value)}, wasm ${said(wasm[i])}`];
  });
}

/**
 * What differs over some vectors, solved by `module`, whose `numbers` gives the numbers of a rig or throws. Also sent
 * into pages as text.
 * @param {{ numbers: (rig: any, ranged: boolean) => Float64Array }} module
 * @param {Vector[]} some
 * @param {typeof differences} differ
 */
export function compare(module, some, differ) {
  return some.flatMap(({ seed, rig, ranged, numbers }) => {
    let found = null;
    try {
      found = module.numbers(rig, ranged);
    } catch {
      // refused: compared as such
    }
    return differ(numbers, found, `seed ${seed}`);
  });
}
