// What a pointer does to a picture: a handle that is dragged, a cursor that is drawn along.

/** Pixels along the curves after which a finger no longer scrolls the page but moves the cursor. */
const ALONG = 8;
const ENDS = /** @type {const} */ (['pointerup', 'pointercancel', 'lostpointercapture']);

/** Where a pointer is on a place. @param {PointerEvent} event @param {Element} place */
function on(event, place) {
  const box = place.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

/**
 * A handle that stands on a picture and is dragged over it.
 * @param {HTMLElement} handle
 * @param {Element} place
 * @param {{ free: () => boolean, take: () => { x: number, y: number }, move: (x: number, y: number) => void, leave: () => void }} doings
 * `take` says where the handle stands; `move` where it would stand.
 */
export function dragHandle(handle, place, { free, take, move, leave }) {
  /** @type {{ dx: number, dy: number } | undefined} */
  let held;
  handle.addEventListener('pointerdown', event => {
    if (event.button !== 0 || !free()) return;
    event.preventDefault(); // no text is selected by it: that costs as much as all else that a move does
    handle.setPointerCapture(event.pointerId);
    handle.focus({ preventScroll: true });
    const at = take();
    const { x, y } = on(event, place);
    held = { dx: x - at.x, dy: y - at.y };
  });
  handle.addEventListener('pointermove', event => {
    // One that was taken out of the page while it was held has not been told that it is let go.
    if (!handle.hasPointerCapture(event.pointerId)) held = undefined;
    if (!held) return;
    const { x, y } = on(event, place);
    move(x - held.dx, y - held.dy);
  });
  for (const end of ENDS) {
    handle.addEventListener(end, () => {
      if (!held) return;
      held = undefined;
      leave();
    });
  }
}

/**
 * A cursor that is drawn along a picture, from wherever it is taken. A finger that goes up or down scrolls the page.
 * @param {HTMLElement} place
 * @param {{ free: () => boolean, take: () => void, move: (x: number) => void, leave: () => void }} doings
 */
export function dragAlong(place, { free, take, move, leave }) {
  let held = false;
  /** @type {number | undefined} */
  let finger; // where it came down, while it may yet scroll the page
  const begin = (/** @type {PointerEvent} */ event) => {
    held = true;
    take();
    move(on(event, place).x);
  };
  place.addEventListener('pointerdown', event => {
    if (event.button !== 0 || !free()) return;
    event.preventDefault();
    place.setPointerCapture(event.pointerId);
    if (event.pointerType === 'touch') finger = event.clientX;
    else begin(event);
  });
  place.addEventListener('pointermove', event => {
    if (!place.hasPointerCapture(event.pointerId)) held = false;
    if (held) move(on(event, place).x);
    else if (finger !== undefined && Math.abs(event.clientX - finger) > ALONG) begin(event);
  });
  for (const end of ENDS) {
    place.addEventListener(end, event => {
      if (end === 'pointerup' && finger !== undefined && !held) begin(event);
      finger = undefined;
      held = false;
      leave();
    });
  }
}
