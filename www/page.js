// The script of every page: its elements, and the page's own settings, units and paper, remembered where that is allowed.

import './aside.js';
import { speaking } from './channel.js';
import './key.js';
import './rig-element.js';
import './estimate-element.js';
import './list-elements.js';
import './set-element.js';
import './projected.js';
import './recording.js';

const root = document.documentElement;

/** A speaker's page has its own paper: the other one may lie on a projector. @param {string} key */
const stored = key => `outlean.${speaking ? 'speaker.' : ''}${key}`;

/** @param {string} key */
function remembered(key) {
  try {
    return localStorage.getItem(stored(key));
  } catch {
    return null; // storage is forbidden here: the setting lasts as long as the page
  }
}

/** @param {string} key @param {string} value */
function remember(key, value) {
  try {
    localStorage.setItem(stored(key), value);
  } catch {
    // As above.
  }
}

/** @param {string} name Setting and attribute. @param {string[]} allowed The first is the usual one. */
function setting(name, allowed) {
  const select = /** @type {HTMLSelectElement | null} */ (document.querySelector(`select[data-setting="${name}"]`));
  const asked = new URLSearchParams(location.search).get(name) ?? remembered(name);
  const apply = (/** @type {string} */ value) => {
    if (value === allowed[0]) delete root.dataset[name];
    else root.dataset[name] = value;
    if (select) select.value = value;
  };
  apply(asked !== null && allowed.includes(asked) ? asked : allowed[0]);
  select?.addEventListener('change', () => {
    apply(select.value);
    remember(name, select.value);
  });
}

setting('units', ['metric', 'us']);
setting('theme', ['system', 'light', 'dark', 'projector', 'sunlight']);
