// Keys that letters, digits and signs are typed with, wherever the focus is: WCAG 2.2, 2.1.4.

/** What a page does by such a key, and with the focus on what: a line for each. Where letters are typed it may do anything.
 * @param {import('./harness.mjs').Stage['page']} page @param {string} [except] elements in which keys may do something while they have the focus @returns {Promise<string[]>} */
export const shortcuts = (page, except = '') => page.evaluate(except => {
  /** @type {Element[]} */
  const all = [document.body];
  /** @param {Document | ShadowRoot} root */
  const walk = root => {
    for (const each of root.querySelectorAll('*')) {
      if (except && each.closest(except)) continue;
      const typed = each.matches('textarea,select,input:not([type=checkbox],[type=radio],[type=file],[type=button])');
      if (/** @type {HTMLElement} */ (each).tabIndex >= 0 && !typed) all.push(each);
      if (each.shadowRoot) walk(each.shadowRoot);
    }
  };
  walk(document);
  const before = document.body.textContent;
  /** @type {string[]} */
  const found = [];
  for (const at of all) {
    // A key that is held with Control, Alt or Command is no character.
    for (const [key, code] of [...'abcdefghijklmnopqrstuvwxyz'].map(key => [key, `Key${key.toUpperCase()}`]).concat([...'0123456789'].map(key => [key, `Digit${key}`]), [...'+-.,/?!;'].map(key => [key, '']))) {
      for (const shiftKey of [false, true]) {
        const free = at.dispatchEvent(new KeyboardEvent('keydown', { key, code, shiftKey, bubbles: true, composed: true, cancelable: true }));
        if (!free) found.push(`${key} on ${at.localName} ${JSON.stringify((at.textContent ?? '').trim().slice(0, 30))}`);
      }
    }
  }
  if (document.body.textContent !== before) found.push('what the page says has changed');
  return found;
}, except);
