// On a speaker's page the lesson's text is put aside before its figures begin: they run on the projected page.
// What is put aside stays in a template, where nothing runs.

import { speaking } from './channel.js';
import { run } from './origin.js';

const main = document.querySelector('main');
if (speaking && main) {
  const aside = document.createElement('template');
  aside.content.append(...main.childNodes);
  main.append(aside);
  run('speaker.js');
}
