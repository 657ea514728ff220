// What comes from outside, made up by a seed: a short run in the test command, for as long as FUZZ_SECONDS says by `cargo xtask fuzz`. Each
// test prints how much it tried; what fails is printed as small as it can be made, with the seed that makes it again (FUZZ_SEED).

import assert from 'node:assert/strict';
import { test } from 'node:test';
import fc from 'fast-check';

const SECONDS = Number(process.env.FUZZ_SECONDS ?? 0);
const SEED = Number(process.env.FUZZ_SEED ?? (SECONDS ? Date.now() % 2 ** 31 : 1));
/** A run that found nothing after so long has hung. */
const HUNG = 20_000;

/** @type {(keyof typeof globalThis)[]} */
const SHARED = ['Object', 'Array', 'String', 'Function', 'Map', 'Promise'];
/** What everything in the page inherits. */
const inherited = () => SHARED.map(name => Reflect.ownKeys(globalThis[name].prototype).map(String).join());
const clean = inherited();

/**
 * A test of what is held of something from outside, whatever it is. `runs` is how many are tried in the test command; what once failed
 * stands in `kept` and is tried first.
 * @template T @param {string} name @param {fc.Arbitrary<T>} outside @param {(given: T) => unknown} holds @param {{ runs: number, kept?: T[] }} how
 */
export function fuzzed(name, outside, holds, { runs, kept = [] }) {
  test(name, { timeout: SECONDS ? (SECONDS + 120) * 1000 : 300_000 }, async context => {
    const began = Date.now();
    let tried = 0;
    const property = fc.asyncProperty(outside, async given => {
      tried += 1;
      await holds(given);
      assert.deepEqual(inherited(), clean, 'what everything inherits was changed');
    });
    const long = SECONDS ? { numRuns: 2 ** 30, interruptAfterTimeLimit: SECONDS * 1000, markInterruptAsFailure: false } : { numRuns: runs };
    await fc.assert(property, { seed: SEED, timeout: HUNG, includeErrorInReport: true, examples: kept.map(given => /** @type {[T]} */ ([given])), ...long });
    context.diagnostic(`seed ${SEED}: ${tried} tried in ${Math.round((Date.now() - began) / 1000)} s`);
  });
}

/** Names that mean something to the language. */
const odd = fc.constantFrom('__proto__', 'constructor', 'prototype', 'toString', 'valueOf', 'length', 'then', 'hasOwnProperty', '');
/** Texts that mean something to some reader. */
export const oddText = fc.oneof(fc.string(), fc.string({ unit: 'binary' }), odd, fc.constantFrom('<img src=x onerror=alert(1)>', '=1+1', '\ud800', '\u0000', '\ufeff', 'javascript:alert(1)', '1e999', '-0', '{most}', '{constructor}', 'x'.repeat(5000)));
/** Numbers as JSON may have them. */
const oddNumber = fc.oneof(fc.double({ noNaN: true }), fc.integer(), fc.constantFrom(-0, 1e308, 2 ** 53, -1, 0.5));

/** Anything that JSON can hold, made of what `known` gives as well. @param {...string} known @returns {fc.Arbitrary<any>} */
export const anyJson = (...known) => fc.letrec(tie => ({
  value: fc.oneof({ maxDepth: 4, withCrossShrink: true }, fc.constant(null), fc.boolean(), oddNumber, oddText, fc.array(tie('value'), { maxLength: 5 }), tie('object')),
  object: fc.dictionary(fc.oneof(odd, fc.string({ maxLength: 8 }), ...(known.length ? [fc.constantFrom(...known)] : [])), tie('value'), { maxKeys: 6, noNullPrototype: true }),
})).value;

/** Some JSON in which one thing, at any depth, is another: what is right but for that. @param {any} right @param {fc.Arbitrary<any>} [by] @returns {fc.Arbitrary<any>} */
export function damaged(right, by = anyJson()) {
  /** @param {any} at @param {(string | number)[]} path @returns {(string | number)[][]} */
  const places = (at, path) => [path, ...(typeof at === 'object' && at !== null ? Object.keys(at).flatMap(key => places(at[key], [...path, key])) : [])];
  const all = places(right, []);
  return fc.tuple(fc.constantFrom(...all), by, fc.constantFrom('set', 'drop', 'add'), odd).map(([path, value, how, name]) => {
    const whole = { whole: structuredClone(right) };
    const way = ['whole', ...path];
    const last = /** @type {string} */ (way.pop());
    const holder = way.reduce((/** @type {any} */ at, key) => at[key], whole);
    if (how === 'drop' && path.length) delete holder[last];
    else if (how === 'add' && typeof holder[last] === 'object' && holder[last] && !(Array.isArray(holder[last]) && name === 'length')) Object.defineProperty(holder[last], name, { value, enumerable: true, configurable: true, writable: true });
    else holder[last] = value;
    return whole.whole;
  });
}

/** A text in which some signs are others. @param {string} right */
export const damagedText = right => fc.tuple(fc.nat(right.length), fc.nat(40), fc.oneof(oddText, fc.constantFrom('[', '{"', '"', '\\', ',', '}', '1e999', '\\ud800'))).map(([at, length, by]) => right.slice(0, at) + by + right.slice(at + length));
