// The native program's answer to the rig that a page shows.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { outlean } from './place.mjs';

/** Units in which a page's SI numbers are written in a rig file, by the end of their key. @type {[RegExp, string][]} */
const UNITS = [
  [/(efficiency|factor|friction)$/, ''],
  [/(^lean|angle|upright_stop)$/, 'rad'],
  [/mass$/, 'kg'],
  [/weight$/, 'N/m'],
  [/(bearing_allowable|compression|bending|stiffness)$/, 'Pa'],
  [/(pretension|allowable|breaking|_strength)$/, 'N'],
  [/bearing_area$/, 'm2'],
  [/(parts|pickets)$/, ''],
];

/** @param {string} key @param {string | number} value */
function written(key, value) {
  if (value === 'yes' || value === 'no') return String(value === 'yes');
  if (typeof value === 'string') return JSON.stringify(value);
  const unit = UNITS.find(([end]) => end.test(key))?.[1] ?? 'm';
  return unit === '' ? String(value) : JSON.stringify(`${value} ${unit}`);
}

/** A rig as a page gives it, as a rig file. @param {Record<string, string | number>} rig */
export function rigFile(rig) {
  const guys = Object.keys(rig).filter(key => key.startsWith('guy.'));
  const plain = Object.keys(rig).filter(key => !key.startsWith('guy.') && !(rig['line.path'] === 'hung' && key.startsWith('line.to')));
  const lines = plain.map(key => `${key} = ${written(key, rig[key])}`);
  const numbers = [...new Set(guys.map(key => key.split('.')[1]))].sort();
  for (const number of numbers) {
    lines.push('[[guy]]');
    for (const key of guys.filter(key => key.split('.')[1] === number)) lines.push(`${key.split('.')[2]} = ${written(key, rig[key])}`);
  }
  return lines.join('\n');
}

/**
 * What the native program finds of a rig that a page shows: its `solve --json`.
 * @param {Record<string, string | number>} rig
 * @returns {any}
 */
export function solved(rig) {
  const folder = mkdtempSync(join(tmpdir(), 'rig-'));
  try {
    const file = join(folder, 'rig.toml');
    writeFileSync(file, rigFile(rig));
    return JSON.parse(execFileSync(outlean, ['solve', file, '--json'], { encoding: 'utf8' }));
  } finally {
    rmSync(folder, { recursive: true });
  }
}
