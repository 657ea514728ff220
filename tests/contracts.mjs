// What page authors and their tools are told of the elements, made of the JSDoc that stands with them: a custom-elements manifest and types.
//
//     node tests/contracts.mjs        writes www/types/custom-elements.json and www/types/elements.d.ts
//
// A test holds both against what this makes, against the manifest's schema, and against what the elements do.

import { execFileSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';

// Its own types leave these two out.
const { create, ts } = /** @type {any} */ (await import('@custom-elements-manifest/analyzer/index.js'));
const root = fileURLToPath(new URL('..', import.meta.url));
const MODULES = ['starting', 'question', 'rig-element', 'estimate-element', 'list-elements', 'set-element'].map(name => `www/${name}.js`);
/** The module that a page loads. */
const MODULE = 'elements.js';
const MADE = 'Made by tests/contracts.mjs out of what stands with the elements in www.';

/** @typedef {{ name: string, kind?: string, description?: string, privacy?: string, type?: { text: string }, return?: { type?: { text: string } }, parameters?: { name: string, type?: { text: string } }[], readonly?: boolean, inheritedFrom?: unknown }} Member */
/** @typedef {{ kind: string, name: string, tagName: string, description: string, members: Member[], attributes: Member[], events: Member[], cssParts: Member[], cssProperties: Member[], slots: Member[] }} Declaration */

/** A thing without where it comes from. @param {Member} of */
function told({ inheritedFrom: _, ...rest }) {
  if (rest.description) rest.description = rest.description.replaceAll(/\s*\n\s*/g, ' ');
  if (rest.type) rest.type = { text: rest.type.text.replaceAll("import('./engine.js').", '') };
  return rest;
}

/** All of a kind, by their names. @param {Member[] | undefined} all */
const all = all => (all ?? []).map(told).sort((a, b) => (a.name < b.name ? -1 : 1));

/** The manifest: each element whole, as of the one module that a page loads. @returns {{ schemaVersion: string, readme: string, modules: { kind: string, path: string, declarations: Declaration[], exports: unknown[] }[] }} */
export function manifest() {
  const sources = MODULES.map(name => ts.createSourceFile(name, readFileSync(join(root, name), 'utf8'), ts.ScriptTarget.ES2015, true));
  const found = create({ modules: sources, plugins: [], context: { dev: false } });
  /** @type {Declaration[]} */
  const elements = found.modules.flatMap((/** @type {any} */ module) => module.declarations).filter((/** @type {any} */ each) => each.tagName);
  const declarations = elements.map(each => ({
    kind: each.kind,
    name: each.name,
    tagName: each.tagName,
    customElement: true,
    description: each.description.replaceAll(/\s*\n\s*/g, ' '),
    // What has no words of its own is no promise.
    members: all(each.members).filter(member => member.description && member.privacy !== 'private'),
    attributes: all(each.attributes),
    events: all(each.events),
    slots: all(each.slots),
    cssParts: all(each.cssParts),
    cssProperties: all(each.cssProperties),
  }));
  const exports = declarations.map(({ name, tagName }) => ({ kind: 'custom-element-definition', name: tagName, declaration: { name, module: MODULE } }));
  return { schemaVersion: '2.1.0', readme: MADE, modules: [{ kind: 'javascript-module', path: MODULE, declarations, exports }] };
}

/** Text as a comment. @param {string} text @param {string} [indent] */
const comment = (text, indent = '') => `${indent}/** ${text.replaceAll('*/', '* /')} */\n`;

/** The types, by a manifest. @param {ReturnType<typeof manifest>} manifest */
export function types({ modules }) {
  const { declarations } = modules[0];
  const field = (/** @type {Member} */ { name, kind, description = '', type, readonly, parameters, return: returns }) => {
    const said = comment(description, '  ');
    if (kind !== 'method') return `${said}  ${readonly ? 'readonly ' : ''}${name}: ${type?.text ?? 'unknown'};\n`;
    return `${said}  ${name}(${(parameters ?? []).map(each => `${each.name}: ${(each.type?.text ?? 'unknown').replaceAll("import('./engine.js').", '')}`).join(', ')}): ${returns?.type?.text ?? 'void'};\n`;
  };
  const interfaces = declarations.map(({ name, description, members }) => `${comment(description)}export interface ${name} extends HTMLElement {\n${members.map(field).join('')}}\n`);
  const events = new Map(declarations.flatMap(each => each.events).map(event => [event.name, event]));
  const listed = [...events.values()].map(({ name, type, description = '' }) => `${comment(description, '    ')}    '${name}': ${type?.text};\n`);
  return `// ${MADE}\n\n${ofFigures()}\n${interfaces.join('\n')}
declare global {
  interface HTMLElementTagNameMap {
${declarations.map(({ tagName, name }) => `    '${tagName}': ${name};\n`).join('')}  }
  interface HTMLElementEventMap {
${listed.join('')}  }
}
`;
}

/** The types of what a figure is told and says, as the compiler has them. */
function ofFigures() {
  const folder = mkdtempSync(join(tmpdir(), 'outlean-types-'));
  try {
    const compiler = join(root, 'tests/node_modules/typescript/bin/tsc');
    const how = ['--allowJs', '--declaration', '--emitDeclarationOnly', '--skipLibCheck', '--target', 'ES2022', '--module', 'ESNext', '--moduleResolution', 'bundler', '--lib', 'ES2022,DOM,DOM.Iterable', '--types', '', '--outDir', folder];
    execFileSync(process.execPath, [compiler, ...how, 'www/engine.js', 'tests/program.d.ts'], { cwd: root });
    const text = readFileSync(join(folder, 'engine.d.ts'), 'utf8');
    return [...text.matchAll(/^export type (\w+) = \{\n[^]*?^\};\n/gm)].map(([type]) => type).join('');
  } finally {
    rmSync(folder, { recursive: true });
  }
}

/** The files, by name. */
export function files() {
  const made = manifest();
  return { 'custom-elements.json': `${JSON.stringify(made, null, 1)}\n`, 'elements.d.ts': types(made) };
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  for (const [name, text] of Object.entries(files())) writeFileSync(join(root, 'www/types', name), text);
}
