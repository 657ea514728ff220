// The site with one thing broken.

import { cpSync } from 'node:fs';
import { programOf, site } from './place.mjs';
import { scratch } from './scratch.mjs';

/** A copy of the site, changed. @param {(program: string) => void} breakIt it is given the folder of what pages load */
export function broken(breakIt) {
  const { folder } = scratch();
  cpSync(site, folder, { recursive: true });
  breakIt(programOf(folder));
  return folder;
}
