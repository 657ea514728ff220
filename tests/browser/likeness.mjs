// How like two pictures are, told with a third that shows where they are not. Type is not drawn to the same dots by two versions of a browser;
// so dots are not compared but small squares of them, by their middle colour.

import { readFileSync, writeFileSync } from 'node:fs';
import { newPage } from './browsers.mjs';

/** Side of a square, dots. */
const SQUARE = 6;
/** How far a square's middle colour may be off, of 255. */
const OFF = 24;

/**
 * The share of squares that differ, 1 for pictures of unlike sizes. Writes a third picture: the two beside each other, and what
 * differs in red on what is the same.
 * @param {'chromium' | 'firefox'} browser @param {string} was @param {string} is @param {string} third files
 */
export async function apart(browser, was, is, third) {
  const { page, close } = await newPage(browser);
  try {
    const pictures = [was, is].map(file => `data:image/png;base64,${readFileSync(file).toString('base64')}`);
    const { share, drawn } = await page.evaluate(
      async (pictures, square, off) => {
        const [a, b] = await Promise.all(pictures.map(async picture => {
          const image = new Image();
          image.src = picture;
          await image.decode();
          const canvas = Object.assign(document.createElement('canvas'), { width: image.width, height: image.height });
          const context = /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d', { willReadFrequently: true }));
          context.drawImage(image, 0, 0);
          return { canvas, data: context.getImageData(0, 0, image.width, image.height) };
        }));
        const { width, height } = a.data;
        const out = Object.assign(document.createElement('canvas'), { width: 3 * width, height: Math.max(height, b.data.height) });
        const draw = /** @type {CanvasRenderingContext2D} */ (out.getContext('2d'));
        draw.drawImage(a.canvas, 0, 0);
        draw.drawImage(b.canvas, width, 0);
        draw.globalAlpha = 0.3;
        draw.drawImage(b.canvas, 2 * width, 0);
        draw.globalAlpha = 1;
        draw.fillStyle = '#e00000';
        if (b.data.width !== width || b.data.height !== height) return { share: 1, drawn: out.toDataURL() };
        let [unlike, all] = [0, 0];
        for (let y = 0; y + square <= height; y += square) {
          for (let x = 0; x + square <= width; x += square) {
            const sums = [0, 0, 0];
            for (let row = 0; row < square; row++) {
              for (let column = 0; column < square; column++) {
                const at = ((y + row) * width + x + column) * 4;
                for (const c of [0, 1, 2]) sums[c] += a.data.data[at + c] - b.data.data[at + c];
              }
            }
            all += 1;
            if (sums.some(sum => Math.abs(sum) > off * square * square)) {
              unlike += 1;
              draw.fillRect(2 * width + x, y, square, square);
            }
          }
        }
        return { share: unlike / all, drawn: out.toDataURL() };
      },
      pictures,
      SQUARE,
      OFF,
    );
    writeFileSync(third, Buffer.from(drawn.slice(drawn.indexOf(',') + 1), 'base64'));
    return share;
  } finally {
    await close();
  }
}
