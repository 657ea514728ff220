// The page's script of a lesson in one file; the build tool puts held.js in the place of origin.js.

import './page.js';
