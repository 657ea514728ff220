// Hooks of Node's: modules of www come from an address of the course, as a browser has them from its server.

import { readFile } from 'node:fs/promises';
import { join } from 'node:path';

/** Where they are served, and the folders that they stand in. @type {{ program: string, www: string, wasm: string }} */
let places;

/** @param {typeof places} given */
export function initialize(given) {
  places = given;
}

/** @type {import('node:module').ResolveHook} */
export function resolve(name, context, next) {
  const address = URL.canParse(name, context.parentURL) ? new URL(name, context.parentURL).href : name;
  return address.startsWith(places.program) ? { url: address, format: 'module', shortCircuit: true } : next(name, context);
}

/** @type {import('node:module').LoadHook} */
export async function load(address, context, next) {
  if (!address.startsWith(places.program)) return next(address, context);
  const name = new URL(address).href.slice(places.program.length);
  const file = name.startsWith('wasm/') ? join(places.wasm, name.slice(5)) : join(places.www, name);
  return { format: 'module', source: await readFile(file), shortCircuit: true };
}
