// How much of a machine a figure with everything shown takes, in Chromium slowed down by known factors, as a table. Beside it
// stands what bare canvases of the same sizes take there, with one line drawn on each: without a graphics processor that
// is most of it. What the page itself decides (words that shift, memory that grows) fails the run; so does a frame past so
// many times that of the bare canvases. Times alone fail nothing: they are those of whatever machine this is.
//
//     node tests/browser/performance.mjs
//
// What grows in an hour is for soak.mjs to see.

import { closeBrowsers, newPage } from './browsers.mjs';
import { everything, failOn, play, quantile } from './everything.mjs';
import { site } from './place.mjs';
import { serve } from './server.mjs';

/** @typedef {import('puppeteer-core').Page} Page */
/** @typedef {{ name: string, ph: string, ts: number, dur?: number, tid: number, pid: number, args: any }} TraceEvent */

/** How long each is watched, ms. */
const WATCHED = 2500;
const GROWING = 8_000;
/** Most that a task of the figure may take, in times of one of the bare canvases. */
const TIMES_BARE = 6;

/** Canvases of the sizes of a figure's, with one line drawn on each in every frame, and nothing else. */
async function bare() {
  const { page, close } = await newPage('chromium');
  const body = '<style>canvas{position:absolute;top:0;left:0}</style>';
  await page.setContent(body);
  const start = () => page.evaluate(() => {
    const contexts = [[830, 560], [280, 350], [220, 220], [360, 390]].map(([width, height]) => {
      const canvas = Object.assign(document.createElement('canvas'), { width, height });
      document.body.append(canvas);
      return /** @type {CanvasRenderingContext2D} */ (canvas.getContext('2d'));
    });
    const draw = (/** @type {number} */ now) => {
      for (const context of contexts) {
        context.clearRect(0, 0, 900, 900);
        context.beginPath();
        context.moveTo(10, 10);
        context.lineTo(100 + (now % 50), 100);
        context.stroke();
      }
      requestAnimationFrame(draw);
    };
    draw(0);
  });
  return { page, close, start };
}

/** How many times the figure's pictures were painted so far. @param {Page} page @returns {Promise<number>} */
const painted = page => page.evaluate(() => /** @type {any} */ (window).painted ?? 0);

/** Main-thread tasks, frames and pictures painted a second while `act` goes on. @param {Page} page @param {() => Promise<unknown>} act */
async function traced(page, act) {
  await page.tracing.start({ categories: ['toplevel', 'devtools.timeline', 'disabled-by-default-devtools.timeline'] });
  const lengths = page.evaluate(async watched => {
    /** @type {number[]} */
    const times = [];
    do times.push(await new Promise(requestAnimationFrame));
    while (times[times.length - 1] - times[0] < watched);
    return times.slice(1).map((time, number) => time - times[number]);
  }, WATCHED);
  const [start, before] = [Date.now(), await painted(page)];
  await act();
  const frames = await lengths;
  const pictures = (1000 * ((await painted(page)) - before)) / (Date.now() - start);
  const buffer = await page.tracing.stop();
  /** @type {TraceEvent[]} */
  const events = JSON.parse(new TextDecoder().decode(buffer)).traceEvents;
  const painting = events.find(event => event.name === 'FireAnimationFrame');
  const mine = events.filter(event => event.pid === painting?.pid && event.tid === painting.tid && event.name === 'RunTask');
  const tasks = mine.map(event => Number(event.dur) / 1000);
  if (tasks.length === 0) throw new Error('the trace holds no task of the page');
  // Tasks that only look whether there is anything to do would hide the rest.
  return { task: quantile(tasks.filter(task => task >= 0.5), 0.95), pictures, rate: (1000 * frames.length) / frames.reduce((sum, frame) => sum + frame, 0) };
}

/** The middle time that the script of a frame and of its tasks takes while `act` goes on, ms. @param {Page} page @param {() => Promise<unknown>} act */
async function script(page, act) {
  await page.evaluate(() => { /** @type {any} */ (window).scripts.length = 0; });
  await act();
  await new Promise(done => setTimeout(done, WATCHED / 2));
  return quantile(await page.evaluate(() => /** @type {number[]} */ (/** @type {any} */ (window).scripts)), 0.5);
}

/** Drags the head out and in while it is watched. @param {Page} page */
async function drag(page) {
  const head = await page.waitForSelector('>>> .plate > .head');
  const box = await head?.boundingBox();
  if (!box) throw new Error('the head has no handle');
  const [x, y] = [box.x + box.width / 2, box.y + box.height / 2];
  await page.mouse.move(x, y);
  await page.mouse.down();
  const start = Date.now();
  for (let step = 0; Date.now() - start < WATCHED; step++) {
    await page.mouse.move(x + 60 * Math.sin(step / 12), y);
    await new Promise(done => setTimeout(done, 8));
  }
  await page.mouse.up();
}

/** Presses arrow keys on the head's slider; how long each took until it was painted, ms. @param {Page} page */
async function keys(page) {
  await page.$eval('>>> .plate > .head', head => /** @type {HTMLElement} */ (head).focus());
  await page.evaluate(() => { /** @type {any} */ (window).keys.length = 0; });
  const presses = 40;
  for (let press = 0; press < presses; press++) {
    await page.keyboard.press(press % 20 < 10 ? 'ArrowRight' : 'ArrowLeft');
    await new Promise(done => setTimeout(done, 60));
  }
  await new Promise(done => setTimeout(done, 400));
  const slow = await page.evaluate(() => /** @type {number[]} */ (/** @type {any} */ (window).keys));
  // What took less than 16 ms is not reported, and counts as that.
  return quantile([...slow, ...Array(Math.max(0, presses - slow.length)).fill(16)], 0.98);
}

/** What may grow. @param {Page} page */
async function sizes(page) {
  const client = await page.createCDPSession();
  await client.send('HeapProfiler.collectGarbage');
  await client.send('Performance.enable');
  const { metrics } = await client.send('Performance.getMetrics');
  const of = (/** @type {string} */ name) => metrics.find(metric => metric.name === name)?.value ?? NaN;
  const wasm = await page.evaluate(() => /** @type {any} */ (window).memory?.buffer.byteLength ?? NaN);
  await client.detach();
  return { wasm, nodes: of('Nodes'), listeners: of('JSEventListeners'), heap: of('JSHeapUsedSize') };
}

/** @type {string[]} */
const faults = [];
/** @param {string} what @param {number} seen @param {number} most */
const atMost = (what, seen, most) => { if (!(seen <= most)) faults.push(`${what}: ${seen}, at most ${most}`); };

const { origin, stop } = await serve(site);
try {
  const row = (/** @type {string} */ name, /** @type {{ task: number, rate: number, pictures: number }} */ { task, rate, pictures }, /** @type {number} */ times) =>
    console.log(`${name.padEnd(34)}${`${task.toFixed(1)} ms`.padStart(10)}${rate.toFixed(1).padStart(10)}${(pictures ? pictures.toFixed(1) : '').padStart(12)}${`${times.toFixed(1)} ×`.padStart(8)}`);
  console.log(`\n${'Chromium, everything shown'.padEnd(34)}${'task p95'.padStart(10)}${'frames/s'.padStart(10)}${'pictures/s'.padStart(12)}${'bare'.padStart(8)}`);
  for (const slower of [1, 6, 20]) {
    const { page, close, start } = await bare();
    await page.emulateCPUThrottling(slower);
    const canvases = await traced(page, start);
    await close();
    row(`${slower} × slower, bare canvases`, canvases, 1);
    for (const [doing, act] of /** @type {const} */ ([['playing', play], ['dragging', drag]])) {
      const { page, close } = await everything('chromium', origin);
      await page.emulateCPUThrottling(slower);
      const seen = await traced(page, () => act(page));
      await close();
      const times = seen.task / canvases.task;
      row(`${slower} × slower, ${doing}`, seen, times);
      atMost(`a task at ${slower} ×, ${doing}, in times of bare canvases`, times, TIMES_BARE);
    }
  }

  const { page, close, shifted } = await everything('chromium', origin);
  await page.emulateCPUThrottling(4);
  const key = await keys(page);
  await page.emulateCPUThrottling(1);
  console.log(`\nA key on a slider, 4 × slower: 98 of 100 are painted within ${key.toFixed(0)} ms`);
  console.log(`Layout shift until the first frame: ${shifted}`);
  atMost('layout shift', shifted, 0);

  console.log(`Script of a frame and of its tasks, playing: ${(await script(page, () => play(page))).toFixed(1)} ms`);
  await new Promise(done => setTimeout(done, 5000));
  const before = await sizes(page);
  await new Promise(done => setTimeout(done, GROWING));
  const after = await sizes(page);
  await close();
  const grown = (/** @type {keyof typeof before} */ what) => after[what] - before[what];
  console.log(`${GROWING / 1000} s of play: wasm memory ${before.wasm} bytes, ${grown('wasm')} more; DOM nodes ${before.nodes}, ${grown('nodes')} more; listeners ${grown('listeners')} more; JavaScript heap ${(before.heap / 1e6).toFixed(1)} MB, ${(grown('heap') / 1e6).toFixed(1)} more\n`);
  atMost('wasm memory, bytes more', grown('wasm'), 0);
  atMost('DOM nodes more', grown('nodes'), 50);
  atMost('listeners more', grown('listeners'), 0);
} finally {
  await closeBrowsers();
  await stop();
}
failOn(faults);
