// What a page waits for, which may be long on its way.

/** How long before the page says so, ms. */
const OVERDUE = 20_000;

/** Waits for something; says where it is long on its way, and still takes it then. @template T @param {Promise<T>} coming @param {() => void} say @returns {Promise<T>} */
export async function awaited(coming, say) {
  const overdue = setTimeout(say, OVERDUE);
  try {
    return await coming;
  } finally {
    clearTimeout(overdue);
  }
}
