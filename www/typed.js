// What may be typed into attributes of elements and into the address of a frame.

import { SEED } from './seed.js';

/** @type {Record<string, [RegExp, string]>} Each with how it is told. */
const ALLOWED = {
  theme: [/^(light|dark|projector|sunlight)$/, 'light, dark, projector, sunlight'],
  units: [/^(metric|us)$/, 'metric, us'],
  seed: [SEED, '0 … 999999999'],
};

/** Their names. */
export const TYPED = Object.keys(ALLOWED);

/** What is allowed where a value is not; nothing where it is. @param {string} name @param {string} value */
export function amiss(name, value) {
  const [may, listed] = ALLOWED[name];
  return may.test(value) ? undefined : listed;
}
