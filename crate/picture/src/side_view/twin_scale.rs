//! The twin scale: metres above, kilonewtons below, one rule. It is the one scale to which all forces are drawn.

use super::Draft;
use crate::decade::decade;
use crate::{Anchor, Area, Lettering, Path, Role, Tone, type_scale};
use outlean_rigfile::{FT, LBF, Units};

/// Draws it in the first corner where it meets nothing, the lower left before others; not at all where there is none.
pub(super) fn twin_scale(draft: &mut Draft, units: Units, metres_per_newton: f64) {
    let stage = draft.stage;
    let (k, lettering) = (stage.k, type_scale(stage.k));
    let (metre, newton, names) = match units {
        Units::Metric => (1.0, 1000.0, ("m", "kN")),
        Units::Us => (FT, LBF, ("ft", "lbf")),
    };
    // At most 150 px of it, in a round length.
    let long =
        round_below((150.0 * k / stage.view.scale / metre).min(0.3 * stage.width / stage.view.scale / metre));
    let length = long * metre * stage.view.scale;
    if !(length.is_finite() && length > 20.0) {
        return;
    }
    let note = |text: &str| {
        let style = Lettering::Note.style(Tone::Quiet, k);
        crate::width(text, style.face, style.size)
    };
    // Above: lengths. Below: forces.
    let last = format!("{}\u{2009}{}", plain(long), names.0);
    let most = long * metre / metres_per_newton / newton;
    let (each, count) = steps(most);
    let step = length * each / most;
    let end = format!("{}\u{2009}{}", plain(each * f64::from(count)), names.1);
    let (tall, left) = (24.0 * lettering, note("0") / 2.0);
    let right = (length + note(&last) / 2.0).max(step * f64::from(count) + note(&end) / 2.0);
    let over = stage.width - right - 9.0 * k;
    let (low, high) = (stage.height - tall - 3.0 * k, tall + 4.0 * k);
    let corners = [(12.0 * k, low), (over, low), (12.0 * k, low - tall), (12.0 * k, high), (over, high)];
    let box_at =
        |(x, y): (f64, f64)| Area { left: x - left, top: y - tall, right: x + right, bottom: y + tall };
    let free = |at: &(f64, f64)| draft.sheet.cover(box_at(*at), stage.plate()) == Some(0.0);
    let Some((x, y)) = corners.into_iter().find(free) else { return };
    let mut path = Path::new();
    let tone = Role::Text(Lettering::Note, Tone::Quiet);
    let rule = |path: &mut Path, at: f64, up: f64| path.add_line((x + at, y), (x + at, y - up * k));

    // Four parts, or five.
    let parts = if (long - 2.0).abs() < 1e-9 || (long - 1.0).abs() < 1e-9 { 4 } else { 5 };
    for i in 0..=parts {
        let whole = i == 0 || i == parts || (parts == 4 && i == 2);
        rule(&mut path, length * f64::from(i) / f64::from(parts), if whole { 8.0 } else { 4.0 });
    }
    let above = y - 12.0 * lettering;
    draft.sheet.scene.text((x, above), "0".to_owned(), Anchor::Middle, tone);
    draft.sheet.scene.text((x + length, above), last, Anchor::Middle, tone);

    let below = y + 20.0 * lettering;
    let mut free_from = x + note("0") / 2.0 + 5.0 * k;
    let last_left = x + step * f64::from(count) - note(&end) / 2.0 - 5.0 * k;
    for i in 0..=count {
        let at = step * f64::from(i);
        rule(&mut path, at, -8.0);
        let text = plain(each * f64::from(i));
        let half = note(&text) / 2.0;
        if i == 0 {
            draft.sheet.scene.text((x, below), text, Anchor::Middle, tone);
        } else if i == count {
            draft.sheet.scene.text((x + at, below), end.clone(), Anchor::Middle, tone);
        } else if x + at - half > free_from && x + at + half < last_left {
            free_from = x + at + half + 5.0 * k;
            draft.sheet.scene.text((x + at, below), text, Anchor::Middle, tone);
        }
    }
    draft.sheet.scene.part_path(path, Role::Tick, "twin scale");
    draft.sheet.scene.line((x, y), (x + length, y), Role::Bar, "twin scale");
    // To its corners, where the last numbers stand: its upper and its lower half, their round ends a little beyond it.
    let (half, end) = (tall / 2.0, tall / 4.0);
    let (from, to) = (x - left + end, x + right - end);
    for y in [y - half, y + half] {
        draft.sheet.keep_clear((from, y), (to.max(from), y), half, false);
    }
}

/// The greatest of 1, 2, 5 times a power of ten not above `value`.
fn round_below(value: f64) -> f64 {
    if !(value > 0.0 && value.is_finite()) {
        return 0.0;
    }
    let decade = decade(value).0;
    [5.0, 2.0, 1.0].into_iter().map(|m| m * decade).find(|round| *round <= value * 1.0001).unwrap_or(decade)
}

/// A round step for a rule up to `most`, and how many of them fit: at most six.
pub(crate) fn steps(most: f64) -> (f64, u32) {
    let decade = decade(most.max(1e-12)).0;
    let each = [0.1, 0.2, 0.5, 1.0, 2.0, 5.0]
        .into_iter()
        .map(|m| m * decade)
        .find(|each| most / each <= 6.0)
        .unwrap_or(10.0 * decade);
    (each, (libm::floor(most / each + 1e-6) as u32).max(1))
}

/// A round number as plain as it is.
pub(crate) fn plain(value: f64) -> String {
    let text = outlean_rigfile::fixed(value, 3);
    let text = text.trim_end_matches('0').trim_end_matches('.');
    if text.is_empty() { "0".to_owned() } else { text.to_owned() }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rules_have_round_numbers() {
        assert!((round_below(2.4) - 2.0).abs() < 1e-12);
        assert!((round_below(0.99) - 0.5).abs() < 1e-12);
        assert_eq!(steps(5.0), (1.0, 5));
        assert_eq!(steps(10.0).1, 5);
        assert_eq!((plain(0.0), plain(2.0), plain(0.5)), ("0".into(), "2".into(), "0.5".into()));
    }
}
