// Where things are: the same places as crate/xtask/src/place.rs.

import { mkdirSync, readdirSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';

export const root = fileURLToPath(new URL('../..', import.meta.url));
export const target = resolve(root, process.env.CARGO_TARGET_DIR ?? 'target');
export const site = join(target, 'site');
export const outlean = join(target, 'release', process.platform === 'win32' ? 'outlean.exe' : 'outlean');

/** What the pages of a built course load. @param {string} folder */
export const programOf = folder => join(folder, readdirSync(folder).find(name => name.startsWith('program-')) ?? '');

/** The module with its JavaScript. @param {'web' | 'node'} form */
export const wasm = form => join(target, 'wasm', form);

/** A file for a picture. @param {string} name what it shows; anything but letters and digits becomes a dash */
export function shot(name) {
  const folder = join(target, 'shots');
  mkdirSync(folder, { recursive: true });
  return join(folder, `${name.replace(/[^\p{L}\p{N}]+/gu, '-').replace(/^-|-$/g, '')}.png`);
}
