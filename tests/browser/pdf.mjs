// A PDF as it lies on a table: its words with their boxes, the size of its type, and pictures of its pages. By poppler's programs.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** @typedef {{ text: string, left: number, top: number, right: number, bottom: number }} Word in points from the upper left corner */
/** @typedef {{ width: number, height: number, words: Word[], ink: (left: number, top: number, right: number, bottom: number) => number }} Sheet `ink` is the darkest there, 0 for paper to 1 */

/** Dots to the inch of the pictures. */
const DOTS = 144;

const plain = (/** @type {string} */ text) => text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&#39;', "'").replaceAll('&amp;', '&');

/**
 * What is on the sheets of a PDF, the text of all in the order in which it is set, and the sizes of its type in points, to a third of one.
 * @param {Uint8Array} bytes
 * @returns {{ sheets: Sheet[], text: string, sizes: number[] }}
 */
export function printed(bytes) {
  const folder = mkdtempSync(join(tmpdir(), 'outlean-paper-'));
  try {
    const file = join(folder, 'paper.pdf');
    writeFileSync(file, bytes);
    const run = (/** @type {string} */ program, /** @type {string[]} */ ...options) => execFileSync(program, options, { encoding: 'utf8', maxBuffer: 1 << 26, stdio: ['ignore', 'pipe', 'ignore'] });
    const boxes = run('pdftotext', '-bbox', file, '-');
    run('pdftoppm', '-gray', '-r', String(DOTS), file, join(folder, 'sheet'));
    const pictures = readdirSync(folder).filter(name => name.endsWith('.pgm')).sort().map(name => picture(readFileSync(join(folder, name))));
    const sheets = boxes.split('<page ').slice(1).map((page, at) => {
      const [, width, height] = page.match(/^width="([\d.]+)" height="([\d.]+)"/)?.map(Number) ?? [0, 0, 0];
      const words = [...page.matchAll(/<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">(.*?)<\/word>/g)].map(([, left, top, right, bottom, text]) => ({ text: plain(text), left: Number(left), top: Number(top), right: Number(right), bottom: Number(bottom) }));
      return { width, height, words, ink: pictures[at] };
    });
    // Three times as large, which is the most there is: sizes are told in whole points.
    const sizes = [...run('pdftohtml', '-xml', '-i', '-zoom', '3', '-stdout', file).matchAll(/<fontspec [^>]*size="(\d+)"/g)].map(([, size]) => Number(size) / 3);
    return { sheets, text: run('pdftotext', '-raw', file, '-'), sizes };
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** How dark a picture is at the darkest of a place in points. @param {Buffer} bytes of a PGM */
function picture(bytes) {
  const [head, wide, high] = bytes.subarray(0, 40).toString('latin1').match(/^P5\s+(\d+)\s+(\d+)\s+255\s/) ?? [];
  if (!head) throw new Error('no picture of a sheet');
  const [width, height] = [Number(wide), Number(high)];
  const at = (/** @type {number} */ points, /** @type {number} */ most) => Math.min(Math.max(Math.round(points * DOTS / 72), 0), most);
  return (/** @type {number} */ left, /** @type {number} */ top, /** @type {number} */ right, /** @type {number} */ bottom) => {
    let darkest = 255;
    for (let y = at(top, height); y < at(bottom, height); y++) for (let x = at(left, width); x < at(right, width); x++) darkest = Math.min(darkest, bytes[head.length + y * width + x]);
    return 1 - darkest / 255;
  };
}
