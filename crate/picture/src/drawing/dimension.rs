//! A dimension line: hairline, open heads, its text in the line where it fits.

use super::sheet::Sheet;
use crate::{Edge, LabelKey, Lettering, Path, Role, Row, Seat, Tone};

/// Draws a level dimension line at `y` between two places, px, and puts its text up: in the line where there is room
/// for it, else under it, over it or past its ends.
pub(crate) fn dimension(sheet: &mut Sheet, (from, to): (f64, f64), y: f64, text: String, key: LabelKey) {
    let k = sheet.scene.k;
    if to.is_nan() || to - from < 1.0 {
        return;
    }
    let row = Row::new(text, Lettering::Name, Tone::Ink);
    let wide = row.width(k);
    let fits = to - from > wide + 36.0 * k;
    let head = (8.0 * k).min(0.4 * (to - from));
    let mut path = Path::new();
    path.add_line((from, y), (to, y));
    for (at, head) in [(from, head), (to, -head)] {
        path.add_line((at, y - 6.0 * k), (at, y + 6.0 * k));
        path.add_through(&[(at + head, y - 2.6 * k), (at, y), (at + head, y + 2.6 * k)]);
    }
    sheet.scene.part_path(path, Role::Dimension, key.0);
    let middle = (from + to) / 2.0;
    let mut seats = Vec::new();
    if fits {
        let gap = wide / 2.0 + 9.0 * k;
        sheet.keep_clear((from, y), (middle - gap, y), 2.0 * k, true);
        sheet.keep_clear((middle + gap, y), (to, y), 2.0 * k, true);
        seats.push(Seat::at((middle, y), Edge::Middle, Edge::Middle));
    } else {
        sheet.keep_clear((from, y), (to, y), 2.0 * k, true);
    }
    for (x, down, across, upright) in [
        (middle, 7.0, Edge::Middle, Edge::Near),
        (from - 9.0 * k, 0.0, Edge::Far, Edge::Middle),
        (to + 16.0 * k, 0.0, Edge::Near, Edge::Middle),
        (to + 16.0 * k, 8.0, Edge::Near, Edge::Near),
    ] {
        seats.push(Seat::at((x, y + down * k), across, upright));
    }
    sheet.label(key, 15, vec![row], seats);
    if let Some(label) = sheet.labels.last_mut() {
        label.in_line = fits;
    }
}
