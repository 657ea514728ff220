// What pages apart from lessons (the record's, the class's, the refresher's, the planner's, the speaker's, the first), and lessons in a learning system, have in common.

import { element } from './element.js';
import { beside } from './origin.js';

/** Gives a file to the reader. @param {string} name @param {string} content @param {string} type */
export function give(name, content, type) {
  const link = element('a', { download: name, href: URL.createObjectURL(new Blob([content], { type })) });
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 10_000);
}

/** A style sheet of the page, by name. @param {string} name */
export const styled = name => document.head.append(element('link', { rel: 'stylesheet', href: beside(name) }));

/** The day of a time in seconds since 1970, UTC. @param {number} time */
export const dayOf = time => new Date(time * 1000).toISOString().slice(0, 10);
