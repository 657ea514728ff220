// Pages that elements are taken out of.

/** @type {Map<string, Promise<Document>>} By address. */
const pages = new Map();

/** A page, fetched once; nothing in it runs. @param {URL} address */
export function pageAt({ origin, pathname, search }) {
  const way = origin + pathname + search;
  const known = pages.get(way);
  if (known) return known;
  const page = fetch(way).then(async answer => {
    if (!answer.ok) throw new Error(`${pathname}: ${answer.status}`);
    return new DOMParser().parseFromString(await answer.text(), 'text/html');
  });
  page.catch(() => pages.delete(way)); // the next caller may try again
  pages.set(way, page);
  return page;
}
