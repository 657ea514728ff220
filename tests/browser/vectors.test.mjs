// The wasm module gives the native program's numbers, bit for bit: in Node.

import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';
import { wasm } from './place.mjs';
import { RIGS, asJson, compare, differences, vectors } from './vectors.mjs';

test(`wasm equals native on ${RIGS} rigs in Node`, () => {
  /** @type {import('./vectors.mjs').Vector[]} */
  const all = JSON.parse(asJson(vectors(RIGS)));
  assert.equal(all.length, RIGS);
  const solved = all.filter(({ solution }) => !('fault' in solution)).length;
  assert(solved > RIGS / 2, `most rigs must have a solution to compare; ${solved} have`);
  const ranged = all.filter(({ range }) => range && !('fault' in range) && range.intervals.length > 0).length;
  assert(ranged > RIGS / 100, `some rigs must have a working range to compare; ${ranged} have`);
  const module = createRequire(import.meta.url)(join(wasm('node'), 'outlean.js'));
  const found = compare(module, all, differences);
  assert.deepEqual(found.slice(0, 20), [], `${found.length} values differ`);
});

test('a last bit that differs is found', () => {
  const native = { solution: { size: [0.1, -0, 3], name: 'aft', none: null } };
  const same = { solution: { size: [0.1, -0, 3], name: 'aft', none: undefined } };
  assert.deepEqual(differences(native, same, 'x'), []);
  for (const other of [
    { solution: { ...same.solution, size: [0.1 + 2 ** -56, -0, 3] } },
    { solution: { ...same.solution, size: [0.1, 0, 3] } },
    { solution: { ...same.solution, size: [0.1, -0] } },
    { solution: { ...same.solution, size: [NaN, -0, 3] } },
    { solution: { ...same.solution, name: 'fore' } },
    { solution: { ...same.solution, none: 1 } },
    { solution: { ...same.solution, more: 1 } },
    {},
  ]) {
    assert.equal(differences(native, other, 'x').length, 1, JSON.stringify(other));
  }
});
