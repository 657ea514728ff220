// How far the core is from what sources print, source by source: a table, put into tests/README.md between its marks.
//
//     node tests/evidence.mjs         runs the published checks and renews the table
//     node tests/evidence.mjs FILE    makes it of what they said before:
//                                     cargo test -p outlean-tests --test published -- --nocapture --test-threads=1 > FILE

import { execFileSync } from 'node:child_process';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

const root = fileURLToPath(new URL('..', import.meta.url));
const PAGE = join(root, 'tests/README.md');
const [BEGIN, END] = ['<!-- deviations -->', '<!-- end of deviations -->'];
const RUN = ['test', '--package', 'outlean-tests', '--test', 'published', '--', '--nocapture', '--test-threads=1'];

const [file] = process.argv.slice(2);
const said = file ? readFileSync(file, 'utf8') : execFileSync('cargo', RUN, { cwd: root, encoding: 'utf8', maxBuffer: 2 ** 26 });

/** @typedef {{ count: number, apart: number, share: number }} Held How many values, the largest relative deviation, the largest share of what is allowed. */
/** @type {Map<string, Held>} */
const sources = new Map();
let place = '';
for (const line of said.split('\n')) {
  place = line.match(/^test (\w+)::/)?.[1] ?? place;
  const numbers = line.match(/\bheld (\S+) (\S+) (\S+)$/)?.slice(1).map(Number);
  if (!numbers) continue;
  const [found, printed, tolerance] = numbers;
  const held = sources.get(place) ?? { count: 0, apart: 0, share: 0 };
  const off = Math.abs(found - printed);
  held.count += 1;
  if (printed !== 0) held.apart = Math.max(held.apart, off / Math.abs(printed));
  if (tolerance > 0) held.share = Math.max(held.share, off / tolerance);
  sources.set(place, held);
}
if (sources.size === 0) throw new Error('no check said what it held: is it `cargo test … -- --nocapture`?');

/** What a file's head says that it is of: its first sentence, or as much of it as a table takes. @param {string} name */
function title(name) {
  const head = readFileSync(join(root, 'tests/published', `${name}.rs`), 'utf8').split('\n').filter(line => line.startsWith('//!'));
  const text = head.slice(0, head.findIndex(line => line === '//!') >>> 0).map(line => line.slice(3).trim()).join(' ');
  return text.replace(/\|/g, '/').replace(/^(.{20,150}?[^.\s]{4,}[.])\s.*$/, '$1').replace(/^(.{150}\S*).*$/, '$1 …');
}

const percent = (/** @type {number} */ share) => (share === 0 ? '0' : share < 1e-6 ? '< 0.0001 %' : `${(100 * share).toPrecision(2)} %`);
const rows = [...sources].sort(([a], [b]) => (a < b ? -1 : 1)).map(([place, { count, apart, share }]) =>
  `| \`${place}.rs\` | ${title(place)} | ${count} | ${percent(apart)} | ${percent(share)} |`);
const total = [...sources.values()].reduce((sum, { count }) => sum + count, 0);
const table = [
  `${total} values in ${sources.size} files.`, '',
  '| file | source | values | largest deviation | of what is allowed |', '|---|---|---|---|---|', ...rows,
].join('\n');
const page = readFileSync(PAGE, 'utf8');
const [begin, end] = [page.indexOf(BEGIN), page.indexOf(END)];
if (begin < 0 || end < begin) throw new Error(`tests/README.md has no ${BEGIN} before ${END}`);
writeFileSync(PAGE, `${page.slice(0, begin)}${BEGIN}\n${table}\n${page.slice(end)}`);
console.log(table);
