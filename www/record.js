// What only the record page loads.

import './record-element.js';
