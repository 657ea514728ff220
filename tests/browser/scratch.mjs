// A folder of small pages made for one file of tests, gone when it ends.

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after } from 'node:test';

/** A new folder, holding nothing but the icon that browsers ask for. */
export function scratch() {
  const folder = mkdtempSync(join(tmpdir(), 'outlean-pages-'));
  after(() => rmSync(folder, { recursive: true }));
  writeFileSync(join(folder, 'icon.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  return {
    folder,
    /** Writes NAME.html with its NAME.js. @param {string} name @param {string} body @param {string} [script] */
    write(name, body, script = '') {
      const head = `<meta charset="utf-8"><title>A page</title><link rel="icon" href="/icon.svg"><script src="/${name}.js" defer></script>`;
      writeFileSync(join(folder, `${name}.js`), script);
      writeFileSync(join(folder, `${name}.html`), `<!doctype html><html lang="en"><head>${head}</head><body>${body}</body></html>`);
    },
  };
}
