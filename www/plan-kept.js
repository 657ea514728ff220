// The plan between visits: in this browser's storage, so that nothing typed is lost, and in a link, packed behind its number sign.

const PLACE = 'outlean.plan';

/** What was written last; nothing where nothing was, or storage is forbidden. */
export function kept() {
  try {
    return localStorage.getItem(PLACE) ?? '';
  } catch {
    return '';
  }
}

/** Whether it was kept. @param {string} text */
export function remember(text) {
  try {
    localStorage.setItem(PLACE, text);
    return true;
  } catch {
    return false;
  }
}

let told = false;

/** Says once that nothing is kept. @param {() => void} tell */
export function forgotten(tell) {
  if (!told) tell();
  told = true;
}

/** A plan is no longer than this, in bytes: more is no rig file. */
export const MOST = 200_000;

/** @param {Uint8Array} bytes @param {CompressionStream | DecompressionStream} through */
async function passed(bytes, through) {
  const reader = new Blob([/** @type {any} */ (bytes)]).stream().pipeThrough(/** @type {any} */ (through)).getReader();
  const parts = [];
  let size = 0;
  for (let { done, value } = await reader.read(); !done; { done, value } = await reader.read()) {
    parts.push(value);
    size += value.length;
    if (size > MOST) throw new RangeError('longer than a plan');
  }
  return new Uint8Array(await new Blob(parts).arrayBuffer());
}

/** The address of this page with a plan in it. @param {string} text */
export async function linkOf(text) {
  const bytes = new TextEncoder().encode(text);
  if (bytes.length > MOST) throw new RangeError('longer than a plan');
  const packed = await passed(bytes, new CompressionStream('deflate-raw'));
  const letters = btoa(Array.from(packed, byte => String.fromCharCode(byte)).join(''));
  return `${location.href.split('#')[0]}#plan=${letters.replaceAll('+', '-').replaceAll('/', '_').replaceAll('=', '')}`;
}

/** The plan in this page's address; undefined where there is none, why where it cannot be taken. @returns {Promise<{ text: string } | { wrong: 'link_bad' | 'link_long' } | undefined>} */
export async function linked() {
  const [, letters] = location.hash.match(/^#plan=(.*)$/) ?? [];
  if (letters === undefined) return undefined;
  history.replaceState(null, '', location.href.split('#')[0]);
  try {
    const packed = Uint8Array.from(atob(letters.replaceAll('-', '+').replaceAll('_', '/')), letter => letter.charCodeAt(0));
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(await passed(packed, new DecompressionStream('deflate-raw'))) };
  } catch (why) {
    return { wrong: why instanceof RangeError ? 'link_long' : 'link_bad' };
  }
}
