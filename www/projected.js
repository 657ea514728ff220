// A lesson page as a speaker's page finds it: what is done for one is loaded once one asks, what a page that is led has besides once it is led.

import { channel, speaking } from './channel.js';
import { run } from './origin.js';

const settings = document.documentElement;

/** The key that opens the speaker's page: lessons have one. @type {HTMLAnchorElement | null} */
const opener = document.querySelector('a[data-speaker]');

if (!speaking && opener) {
  const line = channel();
  line.onmessage = ({ data }) => {
    if (typeof data?.by !== 'string') return;
    line.close();
    settings.dataset.led = '';
    run('led.js');
  };
  new MutationObserver(() => {
    if (settings.dataset.theme === 'projector' || 'led' in settings.dataset) run('hands.js');
  }).observe(settings, { attributeFilter: ['data-theme', 'data-led'] });
  // Opened as a window beside this one; where that is not allowed the link opens it.
  opener.addEventListener('click', event => {
    if (window.open(opener.href, opener.target, 'popup,width=980,height=1000')) event.preventDefault();
  });
}
