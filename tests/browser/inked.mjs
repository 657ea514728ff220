// What is painted on a canvas of the page.

/** How many pixels of a canvas are not empty, and a sum that tells pictures apart. @param {import('./harness.mjs').Stage['page']} page @param {string} selector */
export const inked = (page, selector) =>
  page.$eval(`>>> ${selector}`, canvas => {
    const { width, height } = /** @type {HTMLCanvasElement} */ (canvas);
    if (!width || !height) return { count: 0, sum: 0 };
    // Read from a copy: reading the canvas itself again and again is complained of.
    const copy = Object.assign(document.createElement('canvas'), { width, height }).getContext('2d', { willReadFrequently: true });
    copy?.drawImage(/** @type {HTMLCanvasElement} */ (canvas), 0, 0);
    const data = copy?.getImageData(0, 0, width, height).data ?? new Uint8ClampedArray();
    let count = 0;
    let sum = 0;
    for (let i = 3; i < data.length; i += 4) if (data[i]) { count += 1; sum = (sum * 31 + i + data[i - 1]) % 1e9; }
    return { count, sum };
  });
