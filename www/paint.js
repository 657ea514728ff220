// Does on a canvas what the program wrote down for it; see crate/widget/src/canvas.rs.

/** What a canvas can be told, in the order of the program's own table: methods and properties. */
const TELLS = [
  'beginPath', 'moveTo', 'lineTo', 'bezierCurveTo', 'closePath', 'arc', 'fill', 'stroke', 'save', 'clip', 'restore', 'setTransform', 'clearRect', 'setLineDash',
  'globalAlpha', 'lineWidth', 'miterLimit',
  'fillStyle', 'strokeStyle', 'lineCap', 'lineJoin', 'font', 'textAlign', 'textBaseline', 'fillText', 'strokeText',
];
/** From here on a text goes with each. */
const TEXTUAL = TELLS.indexOf('fillStyle');

/**
 * @param {any} context Of a canvas.
 * @param {Float64Array} numbers For each thing: which, how many numbers, the numbers.
 * @param {string} texts Those that go with them, each ended by a line feed.
 */
export function paint(context, numbers, texts) {
  const words = texts.split('\n');
  let word = 0;
  for (let i = 0; i < numbers.length;) {
    const what = numbers[i];
    const tell = TELLS[what];
    const from = i + 2;
    i = from + numbers[i + 1];
    /** @type {(number | string)[]} */
    const values = [...numbers.subarray(from, i)];
    if (what >= TEXTUAL) values.unshift(words[word++]);
    if (tell === 'setLineDash') context[tell](values);
    else if (typeof context[tell] === 'function') context[tell](...values);
    else context[tell] = values[0];
  }
}
