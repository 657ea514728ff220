// A rig in an address: after the number sign the figure's id, then every value of its rig, in SI, by its key.

/** The page's address with the rig in it. @param {string} figure @param {Record<string, number | string>} rig */
export function linkTo(figure, rig) {
  const said = new URLSearchParams({ figure });
  for (const [key, value] of Object.entries(rig)) said.set(key, String(value));
  const address = new URL(location.href);
  address.hash = String(said);
  return String(address);
}

/** The rig that the page's address holds for a figure; `undefined` where it holds none. @param {string} figure */
export function linkedRig(figure) {
  const said = new URLSearchParams(location.hash.slice(1));
  if (!figure || said.get('figure') !== figure) return undefined;
  said.delete('figure');
  /** @type {Record<string, number | string>} */
  const rig = {};
  for (const [key, value] of said) rig[key] = value.trim() !== '' && Number.isFinite(Number(value)) ? Number(value) : value;
  return rig;
}
