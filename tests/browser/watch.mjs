// What a page must never do, noted as it happens: say anything on the console, throw, break its policy, ask anything
// of another machine, ask for what is not there.

/**
 * @param {import('puppeteer-core').Page} page
 * @param {string} origin where the page comes from
 */
export async function watch(page, origin) {
  /** @type {string[]} */
  const noise = [];
  /** @type {string[]} */
  const requests = [];
  page.on('console', message => noise.push(`console ${message.type()}: ${message.text()}`));
  page.on('pageerror', error => noise.push(`error: ${error instanceof Error ? error.message : String(error)}`));
  page.on('request', request => {
    const url = request.url();
    requests.push(url);
    if (!url.startsWith(`${origin}/`) && !/^(data|blob):/.test(url)) noise.push(`request elsewhere: ${url}`);
  });
  page.on('requestfailed', request => {
    const url = request.url();
    const why = request.failure()?.errorText;
    // What a page no longer wants, or is left while it asks for, is broken off: no fault of what is asked for. So is, to firefox's
    // driver, the page of a frame that goes with its page.
    const left = /ABORTED|^Browsing context already closed/.test(why ?? '') && url.startsWith(`${origin}/`);
    if (!left) noise.push(`request failed: ${url} ${why}`);
  });
  page.on('response', response => {
    if (response.status() >= 400) noise.push(`answer ${response.status()}: ${response.url()}`);
  });
  // Firefox tells a broken policy in different ways for different things; the event is alike in both browsers.
  await page.evaluateOnNewDocument(() => {
    addEventListener('securitypolicyviolation', event =>
      console.error(`policy: ${event.effectiveDirective} blocked ${event.blockedURI} in ${event.sourceFile}`),
    );
  });

  return {
    /** Every address asked for so far. */
    requests,
    /** What was noted so far, once the page has had time to say it. */
    async noise() {
      await page.evaluate(() => new Promise(done => requestAnimationFrame(() => setTimeout(done, 50))));
      return noise;
    },
  };
}
