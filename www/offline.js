// What only the course's first page loads.

import './offline-element.js';
