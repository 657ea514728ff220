//! The rule of forces: the one scale of the polygon, stated.

use crate::drawing::sheet::Sheet;
use crate::side_view::twin_scale::{plain, steps};
use crate::{Anchor, Lettering, Path, Role, Tone, type_scale};
use outlean_rigfile::{LBF, Units};

/// Draws it in the lower left corner.
pub(super) fn rule(sheet: &mut Sheet, units: Units, px_per_newton: f64) {
    let (k, lettering) = (sheet.scene.k, type_scale(sheet.scene.k));
    let (newton, name) = match units {
        Units::Metric => (1000.0, "kN"),
        Units::Us => (LBF, "lbf"),
    };
    let long = (110.0 * k).min(0.4 * sheet.scene.width);
    let most = long / px_per_newton / newton;
    if !(most.is_finite() && most > 0.0) {
        return;
    }
    let (each, count) = steps(most);
    let step = each * newton * px_per_newton;
    let length = step * f64::from(count);
    let (x, y) = (12.0 * k, sheet.scene.height - 24.0 * lettering);
    let mut path = Path::new();
    for i in 0..=count {
        let at = x + step * f64::from(i);
        path.add_line((at, y), (at, y + if i == 0 || i == count { 8.0 } else { 5.0 } * k));
    }
    sheet.scene.part_path(path, Role::Tick, "rule");
    sheet.scene.line((x, y), (x + length, y), Role::Bar, "rule");
    let tone = Role::Text(Lettering::Note, Tone::Quiet);
    let below = y + 20.0 * lettering;
    sheet.scene.text((x, below), "0".to_owned(), Anchor::Middle, tone);
    let end = format!("{}\u{2009}{name}", plain(each * f64::from(count)));
    let style = Lettering::Note.style(Tone::Quiet, k);
    let wide = crate::width(&end, style.face, style.size);
    sheet.scene.text((x + length, below), end, Anchor::Middle, tone);
    let half = 13.0 * lettering;
    sheet.keep_clear(
        (x, y + 8.0 * lettering),
        (x + length + wide / 2.0 - half, y + 8.0 * lettering),
        half,
        false,
    );
}
