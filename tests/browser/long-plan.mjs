// Plans as long as they come: everything that may be said is said, of as many guys and lines as there may be.

import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './place.mjs';

/** A guy with pins, or to a ring. @param {string} name @param {string} place @param {boolean} pins */
const guy = (name, place, pins) => `[[guy]]
name = "${name}"
${place}
rope = "NFPA general"
knot = "figure eight loop"
elongation = "1.5 %"
elongation_at = "300 lbf"
${pins ? 'holdfast = "1 in pins"\npickets = 4\npicket_spacing = "3 ft"\nsoil = "good clay"' : 'holdfast = "natural"\nholdfast_strength = "1500 lbf"'}
`;

/** The mill race with six guys, each called by `name`, every stage of its load, and texts written out `times` over. @param {number} times @param {(name: string) => string} name */
export function longPlan(times, name) {
  const site = readFileSync(join(root, 'crate/outlean/sites/mill-race.toml'), 'utf8');
  const guys = [
    guy(name('middle aft guy'), 'setback = "22 ft"', true),
    guy(name('middle fore guy'), 'ahead = "20 ft"', false),
    guy(name('left willow'), 'setback = "24 ft"\noffset = "14 ft"', true),
    guy(name('right willow'), 'setback = "24 ft"\noffset = "-14 ft"', true),
    guy(name('left far ring'), 'ahead = "21 ft"\noffset = "12 ft"', false),
    guy(name('right far ring'), 'ahead = "21 ft"\noffset = "-12 ft"', false),
  ];
  const again = (/** @type {string} */ text) => Array(times).fill(text).join(' ');
  const said = {
    'title = ': again('A pump with its skid lifted over the old wall of the tailrace while the mill race runs'),
    'place = ': again('Tailrace wall of the old mill on the north side, behind the wheelhouse and left of the sluice gate,'),
    'date = ': again('Saturday 5 June 2027, or the Saturday after it if the race is in flood'),
    'in_charge = ': again('Dorothea Whitlock-Featherstonehaugh of the county rescue service'),
  };
  const lines = site.split('\n').map(line => {
    const [key, text] = Object.entries(said).find(([key]) => line.startsWith(key)) ?? [];
    return key ? `${key}"${text}"` : line.replace('mass = "290 lb"', 'mass = "220 lb"\nat_edge = { outward_angle = "1 deg" }\non_tag_lines = { side_angle = "-4 deg", outward_angle = "2 deg" }');
  });
  const [before, ...rest] = lines.join('\n').split(/^(?=\[\[guy\]\])/m);
  const [, limits = ''] = rest.join('').split(/^(?=\[limits\])/m);
  return `${before}${guys.join('\n')}\n${limits}`;
}
