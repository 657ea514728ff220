// For a page that shows the course in frames (embed.html): each is made as high as it says. It is told by nobody but them: a message from
// another origin than this script's, or from no such frame, is not heard. See embed.js for the messages.

const course = new URL(import.meta.url).origin;

/** A frame is no higher than this, CSS pixels, whatever it says. */
const MOST = 100_000;

/** Frames of the course in this page. */
const frames = () => [...document.querySelectorAll('iframe')].filter(({ src }) => src.startsWith(`${course}/`) && new URL(src).pathname.endsWith('/embed.html'));

/** @param {HTMLIFrameElement} frame */
const ask = frame => frame.contentWindow?.postMessage({ outlean: 'measure' }, course);

addEventListener('message', ({ source, origin, data }) => {
  if (origin !== course || data?.outlean !== 'height' || !Number.isFinite(data.height)) return;
  const frame = frames().find(each => each.contentWindow === source);
  if (!frame) return;
  const borders = getComputedStyle(frame).boxSizing === 'border-box' ? frame.offsetHeight - frame.clientHeight : 0;
  frame.style.height = `${Math.min(Math.max(0, data.height), MOST) + borders}px`;
});

// A frame can be asked once its page is there.
document.addEventListener('load', ({ target }) => {
  const frame = frames().find(each => each === target);
  if (frame) ask(frame);
}, true);
if (document.readyState === 'complete') frames().forEach(ask);
else addEventListener('load', () => frames().forEach(ask));
