// A slider as the ARIA pattern has it, for any element: keys, and a drag along it. It holds no value of its own:
// it says what was done and is told what to show.

/**
 * @typedef {object} Doings
 * @property {() => void} grab The handle or a key was taken.
 * @property {(steps: number) => void} step So many steps, signed.
 * @property {(where: 'least'|'most') => void} end To an end.
 * @property {(share: number) => void} [slide] To a share of the way, 0 to 1.
 * @property {(dx: number) => void} [drag] Moved so many pixels since it was taken.
 * @property {(x: number) => void} [tap] Taken and let go without a move, there: for whoever cannot drag.
 * @property {() => number} page Steps in a page.
 */

/** Pixels that a hand may tremble before it drags. */
const TREMBLE = 3;

/** Makes `element` a slider. @param {HTMLElement} element @param {Doings} doings */
export function slider(element, doings) {
  element.setAttribute('role', 'slider');
  element.tabIndex = 0;
  element.addEventListener('keydown', event => {
    if (event.altKey || event.ctrlKey || event.metaKey) return;
    /** @type {Record<string, () => void>} */
    const keys = {
      ArrowRight: () => doings.step(1),
      ArrowUp: () => doings.step(1),
      ArrowLeft: () => doings.step(-1),
      ArrowDown: () => doings.step(-1),
      PageUp: () => doings.step(doings.page()),
      PageDown: () => doings.step(-doings.page()),
      Home: () => doings.end('least'),
      End: () => doings.end('most'),
    };
    const key = keys[event.key];
    if (!key) return;
    event.preventDefault();
    if (!event.repeat) doings.grab();
    key();
  });
  const drag = doings.drag;
  if (!drag) return;
  /** @type {number | undefined} */
  let from;
  let moved = false;
  element.addEventListener('pointerdown', event => {
    if (event.button !== 0) return;
    element.setPointerCapture(event.pointerId);
    element.focus({ preventScroll: true });
    from = event.clientX;
    moved = false;
    doings.grab();
  });
  element.addEventListener('pointermove', event => {
    if (from === undefined) return;
    moved ||= Math.abs(event.clientX - from) > TREMBLE;
    if (moved) drag(event.clientX - from);
  });
  for (const end of ['pointerup', 'pointercancel', 'lostpointercapture']) {
    element.addEventListener(end, event => {
      if (from !== undefined && !moved && event.type === 'pointerup') doings.tap?.(/** @type {PointerEvent} */ (event).clientX);
      from = undefined;
    });
  }
}

/** Says to assistive technology where a slider is. @param {HTMLElement} element @param {import('./engine.js').SliderView} at */
export function show(element, at) {
  element.setAttribute('aria-label', at.name);
  element.setAttribute('aria-valuemin', String(at.least));
  element.setAttribute('aria-valuemax', String(at.most));
  element.setAttribute('aria-valuenow', String(at.now));
  element.setAttribute('aria-valuetext', at.spoken);
}
