// The wasm module draws and marks the native program's questions, bit for bit: in Node, beside vectors.test.mjs.

import assert from 'node:assert/strict';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { test } from 'node:test';
import { SEEDS, digest, native, seedsEach, templates } from './drawn.mjs';
import { wasm } from './place.mjs';

test(`wasm draws and marks ${SEEDS} questions of every kind as native does, in Node`, () => {
  const module = createRequire(import.meta.url)(join(wasm('node'), 'outlean.js'));
  const seeds = seedsEach(SEEDS);
  const wanted = native(seeds);
  const found = Object.fromEntries(templates().map(template => [template.id, digest(module, template, seeds)]));
  assert.equal(new Set(templates().map(({ kind }) => kind)).size, 5, 'every kind is there');
  assert.deepEqual(found, wanted);
});
