// The elements alone, for anyone's page; the build tool puts anywhere.js in the place of given.js. Nothing of the page is touched but
// what stands in its elements, and nothing is kept of what is answered: the page hears of it.

import './rig-element.js';
import './estimate-element.js';
import './list-elements.js';
import './set-element.js';
