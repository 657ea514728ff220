//! The uncertainty bands under the lines: nine in ten of many rigs that are a little off what was entered.

use super::plan::{Plan, Plot};
use super::sample::Curves;
use crate::{Kind, Path, Role, Scene};
use outlean_rig::{BAND_PLACES, Bands, Fault, Quantity, Rig, Scatter};

/// The bands of all lines of the curves of `rig`, none drawn yet.
///
/// # Errors
///
/// A scatter out of range.
pub(super) fn bands(curves: &Curves, rig: &Rig, scatter: Scatter) -> Result<Bands, Fault> {
    let lines = curves.legs.series.iter().chain(&curves.guys.series).map(|series| series.quantity).collect();
    Bands::new(rig, scatter, curves.lever, (curves.from, curves.to), lines)
}

/// Draws the bands of a panel, cut off at its axis: the colour of the line, thin, between two hairlines.
pub(super) fn draw(scene: &mut Scene, plan: &Plan, plot: &Plot, curves: &Curves, bands: &Bands) {
    let ours = &curves.panel(plot.kind).series;
    for (line, quantity) in bands.lines().iter().enumerate() {
        if !ours.iter().any(|series| series.quantity == *quantity) {
            continue;
        }
        let kind = if matches!(quantity, Quantity::GuyTension(_)) { Kind::Pull } else { Kind::Push };
        let mut run: Vec<(f64, f64, f64)> = Vec::new();
        // One past the last, which has no bounds, ends the last run.
        for place in 0..=BAND_PLACES {
            // A guy that is slack in all but one draw of twenty has no band there.
            match bands.bounds(line, place).filter(|(_, high)| high.abs() > 1e-9) {
                Some((low, high)) => run.push((plan.x_at(bands.at(place)), plot.y_at(low), plot.y_at(high))),
                None => stretch(scene, plot, kind, &core::mem::take(&mut run)),
            }
        }
    }
}

/// One stretch of a band: its places with the heights of both bounds, px.
fn stretch(scene: &mut Scene, plot: &Plot, kind: Kind, run: &[(f64, f64, f64)]) {
    if run.len() < 2 {
        return;
    }
    let (top, bottom) = (plot.area.top, plot.area.bottom);
    let on = |y: f64| {
        if y < top {
            top
        } else if y > bottom {
            bottom
        } else {
            y
        }
    };
    let mut area: Vec<(f64, f64)> = run.iter().map(|(x, _, high)| (*x, on(*high))).collect();
    area.extend(run.iter().rev().map(|(x, low, _)| (*x, on(*low))));
    scene.path(Path::polygon(&area), Role::Band(kind));
    let mut edges = Path::new();
    for pair in run.windows(2) {
        let &[(x, low, high), (then, then_low, then_high)] = pair else { continue };
        for (from, to) in [(low, then_low), (high, then_high)] {
            if top <= from.min(to) && from.max(to) <= bottom {
                edges.add_line((x, from), (then, to));
            }
        }
    }
    scene.path(edges, Role::BandEdge(kind));
}
