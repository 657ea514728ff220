// Questions drawn and marked by the native program, to be drawn and marked again by the wasm module: one number a question stands
// for all of it.

import { execFileSync } from 'node:child_process';
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { outlean, root, site } from './place.mjs';

/** How many drawings of each kind of question are compared in Node, and in each browser, whose engines are not all the same but slower to ask. */
export const SEEDS = 10_000;
export const SEEDS_IN_PAGES = 2_000;

/** How many seeds of each question make so many of its kind, at least. @param {number} all */
export function seedsEach(all) {
  const kinds = templates().map(({ kind }) => kind);
  const fewest = Math.min(...[...new Set(kinds)].map(kind => kinds.filter(each => each === kind).length));
  return Math.ceil(all / fewest);
}

/** What the native program says of each question of the course, by its name. @param {number} seeds @returns {Record<string, string>} */
export function native(seeds) {
  const said = execFileSync(outlean, ['check', '--digests', String(seeds), join(root, 'lessons')], { encoding: 'utf8' });
  return Object.fromEntries([...said.matchAll(/^(\S+) ([0-9a-f]{16})$/gm)].map(([, id, digest]) => [id, digest]));
}

/** The templates of all questions as the built pages hold them. @returns {any[]} */
export function templates() {
  const pages = readdirSync(site, { withFileTypes: true }).filter(entry => entry.isDirectory() && /^\d/.test(entry.name));
  const data = /<outlean-(?:estimate|choose|order|faults|set)[^>]*><script type="application\/json">(.*?)<\/script>/gs;
  return pages.flatMap(({ name }) => [...readFileSync(join(site, name, 'index.html'), 'utf8').matchAll(data)].map(([, json]) => JSON.parse(json)));
}

/**
 * The number of one question, from the module. Also sent into pages as text, so it uses nothing from outside itself.
 * @param {any} module @param {any} template @param {number} seeds
 * @returns {string}
 */
export function digest(module, template, seeds) {
  const question = template.kind === 'estimate' ? new module.Estimate(template, {}, 0) : new module.Asked(template, {}, 0);
  return BigInt.asUintN(64, question.digest(0, seeds)).toString(16).padStart(16, '0');
}
