// Answers as the page's database holds them.

/** What is kept, in the order in which it was answered; with `rows`, after these are put. @param {import('./harness.mjs').Stage['page']} page @param {any[]} rows @returns {Promise<any[]>} */
export const kept = (page, rows = []) =>
  page.evaluate(rows => new Promise((done, failed) => {
    const asked = indexedDB.open('outlean');
    asked.onerror = () => failed(asked.error);
    asked.onsuccess = () => {
      const change = asked.result.transaction('attempts', 'readwrite');
      for (const row of rows) change.objectStore('attempts').put(row);
      const all = change.objectStore('attempts').getAll();
      change.oncomplete = () => (asked.result.close(), done(all.result));
    };
  }), rows);
