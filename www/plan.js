// What only the planning page loads.

import './plan-element.js';
