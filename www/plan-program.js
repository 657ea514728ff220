// The planner, loaded once it is wanted.

import { beside } from './origin.js';
import begin, { Planner } from './wasm/planner.js';

/** A planner that speaks these words, and those of pictures. @param {Record<string, string>} words @param {Record<string, string>} picture */
export async function planner(words, picture) {
  await begin({ module_or_path: fetch(beside('wasm/planner_bg.wasm')) });
  return new Planner(Object.entries(words).flat(), Object.entries(picture).flat());
}
