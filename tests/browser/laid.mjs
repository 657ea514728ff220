// What is amiss in how a page is laid out, whatever its lettering: text that is cut off, that lies on other text or on something to be
// pressed, or beyond the window; and what has the focus below what stands fast.

/** @typedef {import('./harness.mjs').Stage['page']} Page */

/** WCAG 2.2, 1.4.12: the spacing under which nothing may be lost. */
export const SPACED = '*{line-height:1.5!important;letter-spacing:.12em!important;word-spacing:.16em!important}p{margin-bottom:2em!important}';

/** Adds rules to the page and to every shadow root in it, as a reader's own style would. @param {Page} page @param {string} rules */
export async function styledBy(page, rules) {
  await page.evaluate(rules => {
    const sheet = new CSSStyleSheet();
    sheet.replaceSync(rules);
    /** @param {Document | ShadowRoot} root */
    const into = root => {
      root.adoptedStyleSheets = [...root.adoptedStyleSheets, sheet];
      for (const each of root.querySelectorAll('*')) if (each.shadowRoot) into(each.shadowRoot);
    };
    into(document);
  }, rules);
}

/** What is cut off, covered or out of the window: a line for each. @param {Page} page @returns {Promise<string[]>} */
export const amiss = page => page.evaluate(() => {
  /** @typedef {{ text: string, of: Element, box: DOMRect }} Run */
  /** @type {Run[]} */
  const runs = [];
  /** @type {{ of: Element, box: DOMRect }[]} */
  const pressed = [];
  /** @type {string[]} */
  const found = [];
  const parentOf = (/** @type {Node} */ node) => /** @type {Element | null} */ (
    /** @type {any} */ (node).assignedSlot ?? (node.parentNode instanceof ShadowRoot ? node.parentNode.host : node.parentNode));
  /** Whether an element is, or stands in, another, shadow roots and slots included. @param {Node} at @param {Element} around */
  const within = (at, around) => {
    for (let each = /** @type {Node | null} */ (at); each; each = parentOf(each)) if (each === around) return true;
    return false;
  };
  const say = (/** @type {string} */ text) => JSON.stringify(text.trim().replace(/\s+/g, ' ').slice(0, 40));

  /** @param {Element | ShadowRoot | Document} root */
  const walk = root => {
    for (const node of root.childNodes) {
      if (node instanceof Text) {
        const of = /** @type {Element} */ (root instanceof ShadowRoot ? root.host : root);
        if (!node.data.trim()) continue;
        const range = document.createRange();
        range.selectNodeContents(node);
        // Of text in a drawing Firefox knows the box of the whole alone; of what is turned none is that of its letters.
        const drawn = of instanceof SVGElement;
        if (drawn && of.closest('[transform*=rotate]')) continue;
        // The box of a line of text is as high as its face; letters stand in the middle of it.
        for (const { x, y, width, height } of drawn ? [of.getBoundingClientRect()] : range.getClientRects()) {
          if (width > 1 && height > 1) runs.push({ text: node.data, of, box: new DOMRect(x, y + height * 0.22, width, height * 0.56) });
        }
      } else if (node instanceof Element) {
        if (['SCRIPT', 'STYLE', 'NOSCRIPT', 'TEMPLATE', 'OPTION', 'math'].includes(node.nodeName) || !node.checkVisibility({ visibilityProperty: true })) continue;
        const style = getComputedStyle(node);
        // What is for those who do not see it.
        if (style.clipPath !== 'none' && node.getBoundingClientRect().width <= 1) continue;
        // What stands fast lies over the page by its nature, which has room below it; the way past the head is there once it has the focus.
        if (style.position === 'fixed' || node.matches('.skip')) continue;
        if (node.matches('input:not([type=file]),select,button,textarea')) pressed.push({ of: node, box: node.getBoundingClientRect() });
        if (node.shadowRoot) walk(node.shadowRoot);
        // What is slotted is met where it stands in the light tree.
        if (node.nodeName !== 'SLOT') walk(node);
      }
    }
  };
  walk(document.body);

  /** What is scrolled out of sight lies on nothing. @type {Set<Run>} */
  const gone = new Set();
  for (const run of runs) {
    const { text, of, box } = run;
    // Cut off by something around it, or out of the window where nothing scrolls.
    let scrolls = false;
    for (let at = /** @type {Element | null} */ (of); at instanceof Element; at = parentOf(at)) {
      const { overflowX, overflowY } = getComputedStyle(at);
      const edge = at.getBoundingClientRect();
      const cut = (/** @type {string} */ way) => way === 'hidden' || way === 'clip';
      if (cut(overflowX) && (box.left < edge.left - 1 || box.right > edge.right + 1)) found.push(`cut off: ${say(text)} in ${at.localName}.${at.getAttribute('class')}`);
      if (cut(overflowY) && (box.top < edge.top - 1 || box.bottom > edge.bottom + 1)) found.push(`cut off: ${say(text)} in ${at.localName}.${at.getAttribute('class')}`);
      if (!/auto|scroll/.test(overflowX + overflowY)) continue;
      scrolls = true;
      if (box.left < edge.left || box.right > edge.right || box.top < edge.top || box.bottom > edge.bottom) gone.add(run);
    }
    if (!scrolls && (box.right > innerWidth + 1 || box.left < -1)) found.push(`out of the window: ${say(text)}`);
  }
  // Keys whose words do not fit into them.
  for (const { of } of pressed) {
    if (of.localName === 'button' && (of.scrollWidth > of.clientWidth + 1 || of.scrollHeight > of.clientHeight + 1)) found.push(`too long for its key: ${say(of.textContent ?? '')}`);
  }
  const meet = (/** @type {DOMRect} */ a, /** @type {DOMRect} */ b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1.5 && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 1.5;
  const seen = runs.filter(run => !gone.has(run)).sort((a, b) => a.box.top - b.box.top);
  seen.forEach((run, place) => {
    for (const other of seen.slice(place + 1)) {
      if (other.box.top > run.box.bottom) break;
      if (run.text !== other.text && meet(run.box, other.box)) found.push(`one over the other: ${say(run.text)} and ${say(other.text)}`);
    }
    for (const { of, box } of pressed) {
      if (meet(run.box, box) && !within(run.of, of)) found.push(`over what is pressed: ${say(run.text)} and ${of.localName} ${say(of.textContent ?? '')}`);
    }
  });
  return [...new Set(found)];
});

/** What is hidden, all of it, below what stands fast once it has the focus: WCAG 2.2, 2.4.11. @param {Page} page @returns {Promise<string[]>} */
export const obscured = page => page.evaluate(() => {
  /** @type {Element[]} */
  const all = [];
  /** @type {Element[]} */
  const fast = [];
  /** @param {Document | ShadowRoot} root */
  const walk = root => {
    for (const each of root.querySelectorAll('*')) {
      if (/** @type {HTMLElement} */ (each).tabIndex >= 0 && each.checkVisibility()) all.push(each);
      if (['fixed', 'sticky'].includes(getComputedStyle(each).position)) fast.push(each);
      if (each.shadowRoot) walk(each.shadowRoot);
    }
  };
  walk(document);
  /** @type {string[]} */
  const found = [];
  // Forward and back: what is scrolled into view comes to stand at the one edge or the other.
  for (const each of [...all, ...[...all].reverse()]) {
    /** @type {HTMLElement} */ (each).focus();
    const box = each.getBoundingClientRect();
    for (const over of fast) {
      if (over.contains(each)) continue;
      const { left, right, top, bottom } = over.getBoundingClientRect();
      if (box.width && left <= box.left && right >= box.right && top <= box.top && bottom >= box.bottom) {
        found.push(`${each.localName} ${JSON.stringify((each.getAttribute('aria-label') ?? each.textContent ?? '').trim().slice(0, 30))} is below ${over.localName}.${over.className}`);
      }
    }
  }
  if (all.length < 5) found.push(`only ${all.length} can have the focus`);
  return [...new Set(found)];
});
