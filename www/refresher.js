// What only the refresher's page loads.

import './refresher-element.js';
