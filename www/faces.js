// The lettering, for what cannot have it from a style sheet: pictures painted by a worker, elements on anyone's page. See tokens.css.

/** Family, file, which of the family. @type {[string, string, FontFaceDescriptors][]} */
export const FACES = [
  ['Outlean Text', 'gentium-book-plus-400', {}],
  ['Outlean Label', 'barlow-semi-condensed-500', { weight: '400 500' }],
  ['Outlean Label', 'barlow-semi-condensed-600', { weight: '600 700' }],
  ['Outlean Text', 'gentium-book-plus-400-italic', { style: 'italic' }],
  ['Outlean Text', 'outlean-symbols-italic', { style: 'italic', unicodeRange: 'U+391-3C9' }],
];

/** Those of pictures: all but the upright one of the text. */
export const OF_PICTURES = FACES.slice(1);
