// A lesson page as a speaker's page finds it: what is done for one is loaded once one asks, what a page that is led has besides once it is led.

import { channel, speaking, STEPS } from './channel.js';
import { run } from './origin.js';

const settings = document.documentElement;

if (!speaking && document.querySelector(STEPS.replaceAll('h1[id],', ''))) {
  const line = channel();
  line.onmessage = ({ data }) => {
    if (!data.by) return;
    line.close();
    settings.dataset.led = '';
    run('led.js');
  };
  new MutationObserver(() => {
    if (settings.dataset.theme === 'projector' || 'led' in settings.dataset) run('hands.js');
  }).observe(settings, { attributeFilter: ['data-theme', 'data-led'] });
  // Opened as a window beside this one; where that is not allowed the link opens it.
  document.querySelector('[data-speaker]')?.addEventListener('click', event => {
    const { href, target } = /** @type {HTMLAnchorElement} */ (event.currentTarget);
    if (window.open(href, target, 'popup,width=980,height=1000')) event.preventDefault();
  });
}
