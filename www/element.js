// What pages are built of.

/**
 * An element with attributes and what is in it.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} name @param {Record<string, string>} [attributes] @param {...(Node | string)} inside @returns {HTMLElementTagNameMap[T]}
 */
export function element(name, attributes = {}, ...inside) {
  const node = document.createElement(name);
  for (const [key, value] of Object.entries(attributes)) node.setAttribute(key, value);
  node.append(...inside);
  return node;
}

/** Sets text only where it differs, and in place: a text that is put anew has its box made anew. @param {Element} place @param {string} text */
export function say(place, text) {
  if (place.textContent === text) return;
  const now = place.firstChild;
  if (now instanceof Text && now === place.lastChild && text) now.data = text;
  else place.textContent = text;
}
