// Why something of a record is set aside, as words fill it in.

import { fill } from './words.js';

/** @param {Record<string, string>} words those of records @param {import('./attempts.js').Reason} why @returns {{ field: string, value: string, allowed: string }} */
export function reason(words, { field, value, allowed }) {
  // What was kept by an earlier program may be damaged.
  const [name, most] = typeof allowed === 'string' ? [allowed, ''] : (Object.entries(allowed ?? {})[0] ?? ['object', '']);
  return { field, value: value || words.missing, allowed: fill(words, `allowed.${name}`, { most }) };
}
