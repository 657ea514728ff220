// An hour of play in each browser, both at once: nothing grows and no frame gets longer. What is counted stands in a line every so
// often; what the last quarter of the time has more than the quarter after the first fails the run.
//
//     node tests/browser/soak.mjs [--minutes N]
//
// Memory of a browser is that of its processes as Linux shows it, once they have given up what nobody needs any more; elsewhere only what a page
// can count is looked at.

import { readdirSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { BROWSERS, closeBrowsers } from './browsers.mjs';
import { everything, failOn, play, quantile } from './everything.mjs';
import { site } from './place.mjs';
import { serve } from './server.mjs';

/** @typedef {{ minute: number, nodes: number, wasm: number, memory: number, script: number, rate: number, pictures: number, sweeps: number }} Sample */

const asked = process.argv.indexOf('--minutes');
const MINUTES = asked < 0 ? 60 : Number(process.argv[asked + 1]);
if (!(MINUTES >= 1)) throw new RangeError(`--minutes is ${process.argv[asked + 1]}: a number of minutes, 1 or more, belongs there`);
/** Looked at so many times. */
const SAMPLES = 60;
/** Memory is counted each time that so many were. */
const COUNTED = 5;
/** How long a browser may take to give up memory, ms. */
const WHILE = 8000;
const KIB = 1024;

/** Memory of all processes that one started, bytes: what they do not share with files; NaN where it is not told. Not of that one: a browser's own keeps room
 * that it has once needed. @param {number | undefined} root */
function memoryOf(root) {
  try {
    const parents = new Map(readdirSync('/proc').filter(name => /^\d+$/.test(name)).flatMap(name => {
      try {
        return [[Number(name), Number(/\) \S (\d+)/.exec(readFileSync(`/proc/${name}/stat`, 'utf8'))?.[1])]];
      } catch {
        return []; // it has ended since
      }
    }));
    const below = (/** @type {number | undefined} */ process) => {
      for (let at = process; at; at = parents.get(at)) if (at === root) return true;
      return false;
    };
    return [...parents.keys()].filter(process => process !== root && below(process)).reduce((sum, process) => {
      try {
        return sum + KIB * Number(/^Pss_Anon:\s+(\d+)/m.exec(readFileSync(`/proc/${process}/smaps_rollup`, 'utf8'))?.[1] ?? 0);
      } catch {
        return sum;
      }
    }, 0);
  } catch {
    return NaN;
  }
}

/** Has a browser give up what nobody needs any more: where it plays on it does so only once there is much. @param {'chromium' | 'firefox'} browser @param {import('puppeteer-core').Page} page @param {number | undefined} root */
async function collected(browser, page, root) {
  if (browser === 'chromium') {
    const session = await page.createCDPSession();
    await session.send('HeapProfiler.collectGarbage');
    await session.detach();
  } else if (root && process.platform === 'linux') {
    process.kill(root, 35); // SIGRTMIN + 1; it writes down what is left as well
    await new Promise(done => setTimeout(done, WHILE));
    for (const file of readdirSync(tmpdir())) if (file.startsWith('unified-memory-report-') && file.includes(`-${root}.`)) rmSync(join(tmpdir(), file));
  }
}

/** What the page takes now, and what frames took since it was asked last. @param {import('puppeteer-core').Page} page @returns {Promise<Omit<Sample, 'minute' | 'memory' | 'script'> & { scripts: number[] }>} */
const asks = page => page.evaluate(() => {
  const seen = /** @type {any} */ (window);
  const { scripts, painted, memory, swept, asked = { at: 0, painted: 0 } } = seen;
  const seconds = (performance.now() - asked.at) / 1000;
  /** @type {(root: ParentNode) => number} */
  const nodes = root => [...root.querySelectorAll('*')].reduce((sum, { shadowRoot }) => sum + 1 + (shadowRoot ? nodes(shadowRoot) : 0), 0);
  const told = { nodes: nodes(document), wasm: memory?.buffer.byteLength ?? NaN, scripts: [...scripts], rate: scripts.length / seconds, pictures: (painted - asked.painted) / seconds, sweeps: swept };
  scripts.length = 0;
  seen.asked = { at: performance.now(), painted };
  return told;
});

/** Plays and looks. @param {'chromium' | 'firefox'} browser @param {string} origin @returns {Promise<Sample[]>} */
async function soak(browser, origin) {
  const { page, close } = await everything(browser, origin);
  const root = page.browser().process()?.pid;
  await play(page);
  await asks(page);
  const start = Date.now();
  /** @type {Sample[]} */
  const samples = [];
  for (let number = 1; number <= SAMPLES; number++) {
    await new Promise(done => setTimeout(done, start + (number * MINUTES * 60_000) / SAMPLES - Date.now()));
    const { scripts, ...told } = await asks(page);
    const counts = number % COUNTED === 0;
    if (counts) await collected(browser, page, root);
    const sample = { ...told, minute: (number * MINUTES) / SAMPLES, script: scripts.reduce((sum, each) => sum + each, 0) / scripts.length, memory: counts ? memoryOf(root) : NaN };
    samples.push(sample);
    if (counts) {
      console.log(`${browser.padEnd(9)} ${sample.minute.toFixed(0).padStart(3)} min ${(sample.memory / 1e6).toFixed(0).padStart(5)} MB ${sample.wasm} bytes of wasm ${sample.nodes} nodes; a frame's script ${sample.script.toFixed(2)} ms, ${sample.rate.toFixed(1)} frames/s, ${sample.pictures.toFixed(1)} painted/s, ${sample.sweeps} sweeps`);
    }
  }
  await close();
  return samples;
}

const { origin, stop } = await serve(site);
/** @type {string[]} */
const faults = [];
try {
  const all = await Promise.all(BROWSERS.map(browser => soak(browser, origin)));
  all.forEach((samples, which) => {
    const quarter = SAMPLES / 4;
    // The middle of a quarter: one late look, or another program on the machine, is not growth.
    const middle = (/** @type {keyof Sample} */ what, /** @type {number} */ from) => quantile(samples.slice(from, from + quarter).map(sample => sample[what]).filter(value => !Number.isNaN(value)), 0.5);
    const grown = (/** @type {keyof Sample} */ what) => [middle(what, quarter), middle(what, 3 * quarter)];
    for (const [what, most] of /** @type {const} */ ([['nodes', 1], ['wasm', 1], ['memory', 1.1], ['script', 1.5]])) {
      const [early, late] = grown(what);
      if (late > most * early) faults.push(`${BROWSERS[which]}: ${what} grew from ${early} to ${late}, at most ${most} times as much`);
      console.log(`${BROWSERS[which].padEnd(9)} ${what}: ${(late / early).toFixed(3)} times as in the second quarter`);
    }
    const [early, late] = grown('rate');
    if (late < early / 1.2) faults.push(`${BROWSERS[which]}: frames a second fell from ${early} to ${late}`);
    const [first, last] = grown('pictures');
    if (last < first / 1.2) faults.push(`${BROWSERS[which]}: pictures painted a second fell from ${first} to ${last}`);
    console.log(`${BROWSERS[which].padEnd(9)} pictures: ${(last / first).toFixed(3)} times as many`);
    if (samples[SAMPLES - 1].sweeps <= samples[SAMPLES / 2].sweeps) faults.push(`${BROWSERS[which]}: it plays no more`);
    console.log(`${BROWSERS[which].padEnd(9)} frames: ${(late / early).toFixed(3)} times as many`);
  });
} finally {
  await closeBrowsers();
  await stop();
}
failOn(faults);
