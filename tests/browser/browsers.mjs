// Both browsers, found on this machine and driven by one library.

import { existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import puppeteer from 'puppeteer-core';

/**
 * What a page is looked at with. Sizes in CSS pixels; `scale` is device pixels to one of them, `least` the size below which its reader
 * has no lettering shown.
 * @typedef {{ width?: number, height?: number, scale?: number, dark?: boolean, reducedMotion?: boolean, least?: number }} Look
 */

/** Their names, in the order in which tests run. */
export const BROWSERS = /** @type {const} */ (['chromium', 'firefox']);

/** The programs: a variable that names one, then names looked for in PATH, as `cargo xtask test` does. */
const PROGRAMS = {
  chromium: { variable: 'CHROMIUM', names: ['chromium', 'chromium-browser', 'google-chrome'] },
  firefox: { variable: 'FIREFOX', names: ['firefox-esr', 'firefox'] },
};

/** @param {'chromium' | 'firefox'} browser */
function program(browser) {
  const { variable, names } = PROGRAMS[browser];
  if (process.env[variable]) return process.env[variable];
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = names.flatMap(name => folders.map(folder => join(folder, name))).find(existsSync);
  if (!found) throw new Error(`${browser} is not in PATH; name its program with ${variable}=…`);
  return found;
}

const CHROMIUM_FLAGS = [
  '--no-sandbox', // root has no sandbox
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

/** Firefox takes these when it starts only, so that each pair of them is a browser of its own. */
const firefoxLook = (/** @type {Look} */ look) => ({
  'layout.css.prefers-color-scheme.content-override': look.dark ? 0 : 1,
  'ui.prefersReducedMotion': look.reducedMotion ? 1 : 0,
  ...(look.least && { 'font.minimum-size.x-western': look.least }),
});

/** The same of Chromium. @param {Look} look */
const chromiumLook = look => (look.least ? [`--blink-settings=minimumFontSize=${look.least}`] : []);

const FIREFOX_PREFS = {
  'security.fileuri.strict_origin_policy': true, // else pages from file:// pass falsely
  'dom.ipc.processPrelaunch.enabled': false, // a process in store for every page is more work than most tests
  'network.captive-portal-service.enabled': false,
  'network.connectivity-service.enabled': false,
};

/** @type {Map<string, Promise<import('puppeteer-core').Browser>>} */
const running = new Map();

/** A running browser that can show `look`: another where the one before has ended. @param {'chromium' | 'firefox'} name @param {Look} look */
async function start(name, look) {
  const own = name === 'firefox' ? firefoxLook(look) : chromiumLook(look);
  const key = name + JSON.stringify(own);
  const before = running.get(key);
  if (before && (await before).connected) return before;
  const browser = puppeteer.launch(
    name === 'chromium'
      ? { browser: 'chrome', executablePath: program(name), args: [...CHROMIUM_FLAGS, .../** @type {string[]} */ (own)] }
      : { browser: 'firefox', executablePath: program(name), extraPrefsFirefox: { ...FIREFOX_PREFS, ...own } },
  );
  running.set(key, browser);
  return browser;
}

/**
 * A page of a profile of its own, empty, as `look` says: 1280 × 900, light, moving, one device pixel to a CSS pixel
 * where it says nothing.
 * @param {'chromium' | 'firefox'} name
 * @param {Look} look
 */
export async function newPage(name, look = {}) {
  const browser = await start(name, look);
  const context = await browser.createBrowserContext();
  const page = await context.newPage();
  await page.setViewport({
    width: look.width ?? 1280,
    height: look.height ?? 900,
    deviceScaleFactor: look.scale ?? 1,
  });
  if (name === 'chromium') {
    await page.emulateMediaFeatures([
      { name: 'prefers-color-scheme', value: look.dark ? 'dark' : 'light' },
      { name: 'prefers-reduced-motion', value: look.reducedMotion ? 'reduce' : 'no-preference' },
    ]);
  }
  return { page, close: () => context.close() };
}

/** Ends every browser started here. */
export async function closeBrowsers() {
  const all = [...running.values()];
  running.clear();
  await Promise.all(all.map(async browser => (await browser).close()));
}
