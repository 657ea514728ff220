// The wasm module gives the native program's numbers, bit for bit: in Node.

import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';
import { PICKS, asked, cases } from './picks.mjs';
import { wasm } from './place.mjs';
import { RIGS, asJson, compare, differences, vectors } from './vectors.mjs';

test(`wasm equals native on ${RIGS} rigs in Node`, () => {
  /** @type {import('./vectors.mjs').Vector[]} */
  const all = JSON.parse(asJson(vectors(RIGS)));
  assert.equal(all.length, RIGS);
  const solved = all.filter(({ numbers }) => numbers !== null && numbers.length > 50).length;
  assert(solved > RIGS / 2, `most rigs must have a solution to compare; ${solved} have`);
  assert(all.some(({ ranged }) => ranged), 'some rigs must have a working range to compare');
  const module = createRequire(import.meta.url)(join(wasm('node'), 'outlean.js'));
  const found = compare(module, all, differences);
  assert.deepEqual(found.slice(0, 20), [], `${found.length} values differ`);
});

test(`wasm asks in ${PICKS} refreshers what native asks, in Node`, () => {
  const all = cases(PICKS);
  const module = createRequire(import.meta.url)(join(wasm('node'), 'refresher.js'));
  const found = asked(module, all);
  assert.equal(all.length, PICKS);
  all.forEach(({ picked }, place) => assert.deepEqual(found[place], picked, `of seed ${place}`));
  const some = (/** @type {(picked: import('./picks.mjs').Picked) => boolean} */ like) => all.filter(({ picked }) => like(picked)).length;
  const seen = [some(({ ahead }) => ahead > 0), some(({ due }) => due === 0), some(({ due }) => due > 12), some(({ passed }) => passed), some(({ back_to }) => back_to.length > 0), some(({ questions }) => questions.length < 12)];
  assert(seen.every(count => count > PICKS / 100), `what refreshers meet must be there to compare: ${seen}`);
});

test('a last bit that differs is found', () => {
  const native = [0.1, -0, null, 3];
  assert.deepEqual(differences(native, [0.1, -0, Infinity, 3], 'x'), []);
  for (const other of [[0.1 + 2 ** -56, -0, Infinity, 3], [0.1, 0, Infinity, 3], [0.1, -0, 7, 3], [0.1, -0, Infinity], [NaN, -0, Infinity, 3], null]) {
    assert.equal(differences(native, other, 'x').length, 1, JSON.stringify(other));
  }
  assert.equal(differences(null, [1], 'x').length, 1);
  assert.deepEqual(differences(null, null, 'x'), []);
});
