// What only the class page loads.

import './class-element.js';
