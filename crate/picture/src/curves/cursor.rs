//! The moving layer of the curves: the cursor where the figure is, the values it meets, the pointer on the rule.

use super::label::{Clear, Label};
use super::plan::{BAND, Plan, Plot};
use super::sample::Curves;
use crate::drawing::local::{Local, Place, table};
use crate::drawing::pointer;
use crate::sort_few::sort_few;
use crate::{Anchor, Area, HandleState, Kind, Lettering, Path, Role, Scene, Tone};
use outlean_rig::{Dimension, Quantity, Rig, Solution};
use outlean_rigfile::{Units, show};

/// How the pointer on the rule is held.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Grip {
    /// Not at all.
    #[default]
    Rest,
    /// It has the focus of the keyboard.
    Focused,
    /// It is dragged.
    Dragged,
}

/// Where a line is met.
struct Met {
    quantity: Quantity,
    value: f64,
    kind: Kind,
}

pub(crate) struct Moving<'a> {
    pub(crate) curves: &'a Curves,
    pub(crate) plan: &'a Plan,
    pub(crate) labels: &'a [Label],
    pub(crate) clears: &'a [Clear],
    pub(crate) units: Units,
    pub(crate) revealed: bool,
}

impl Moving<'_> {
    /// The scene of a rig, solved; the cursor at what its lever is set to.
    pub(crate) fn scene(&self, rig: &Rig, solution: &Solution, grip: Grip) -> Scene {
        let Plan { all, k, .. } = *self.plan;
        let mut scene = Scene::new(all.right, all.bottom, k);
        let x = self.plan.x_at(self.curves.lever.get(rig).unwrap_or(self.plan.span.0));
        self.line(&mut scene, x);
        if self.revealed {
            for (plot, clear) in self.plan.plots.iter().zip(self.clears) {
                self.values(&mut scene, plot, clear, solution, x);
            }
        }
        pointer(&mut scene, (x, self.plan.rule + 3.0 * k), k, grip);
        scene
    }

    /// The cursor from the first panel down to the pointer, broken where it would strike through lettering.
    fn line(&self, scene: &mut Scene, x: f64) {
        let k = self.plan.k;
        let Some(first) = self.plan.plots.first() else { return };
        let end = self.plan.rule - 15.0 * k;
        let mut struck: Vec<(f64, f64)> = self
            .labels
            .iter()
            .filter(|label| label.area.left - 2.0 < x && x < label.area.right + 2.0 && label.area.top < end)
            .map(|label| (label.area.top - 1.0, label.area.bottom + 1.0))
            .collect();
        sort_few(&mut struck, |(top, _)| *top);
        let mut path = Path::new();
        let mut y = first.area.top - 4.0 * k;
        for (top, bottom) in struck {
            if top > y {
                path.add_line((x, y), (x, top));
            }
            y = y.max(bottom);
        }
        if end > y {
            path.add_line((x, y), (x, end));
        }
        scene.path(path, Role::Cursor);
    }

    /// A dot where the cursor meets each line, and its value beside it.
    fn values(&self, scene: &mut Scene, plot: &Plot, clear: &Clear, solution: &Solution, x: f64) {
        let k = self.plan.k;
        let panel = self.curves.panel(plot.kind);
        let mut met: Vec<Met> = Vec::new();
        for series in &panel.series {
            let guy = matches!(series.quantity, Quantity::GuyTension(_));
            let kind = if guy { Kind::Pull } else { Kind::Push };
            // A slack guy has no line here to be met.
            if let Some(value) = series.quantity.of(solution).filter(|v| v.is_finite() && (!guy || *v > 0.0))
            {
                met.push(Met { quantity: series.quantity, value, kind });
            }
        }
        sort_few(&mut met, |one| -one.value);
        let mut clear = clear.clone();
        // Values may hang over the edge of the panel, but not into other lettering.
        clear.bounds =
            Area { top: plot.area.top - 8.0 * k, bottom: plot.area.bottom + 8.0 * k, ..clear.bounds };
        clear.taken = self.labels.iter().map(|label| label.area).collect();
        let radius = 4.5 * k;
        let dots: Vec<f64> =
            met.iter().map(|one| plot.y_at(one.value).max(plot.area.top).min(plot.area.bottom)).collect();
        for y in &dots {
            clear.taken.push(Area::new(x - radius, y - radius, x + radius, y + radius));
        }
        let mut over = f64::MIN;
        for (i, (one, y)) in met.iter().zip(&dots).enumerate() {
            let part = match one.quantity {
                Quantity::GuyTension(_) => "guy",
                _ => "leg",
            };
            let true_y = plot.y_at(one.value);
            let off = true_y < plot.area.top - 0.5 || true_y > plot.area.bottom + 0.5;
            if off {
                // The line has run out of the panel: a head points after it.
                let back = 8.0 * k * if true_y < *y { 1.0 } else { -1.0 };
                let corners = [(x, *y), (x - 4.0 * k, y + back), (x + 4.0 * k, y + back)];
                scene.part_path(Path::polygon(&corners), Role::Dot(one.kind), part);
            } else {
                scene.circle((x, *y), radius, Role::Dot(one.kind), part);
            }
            let number = show(one.value, Dimension::Force, self.units).number;
            let style = (Lettering::Value, Tone::Of(one.kind));
            let others: Vec<f64> =
                dots.iter().enumerate().filter(|(j, _)| *j != i).map(|(_, other)| *other).collect();
            let place = |down: f64, side: f64| {
                let anchor = if side > 0.0 { Anchor::Start } else { Anchor::End };
                Label::new(number.clone(), (x + side * 9.0 * k, y + down * self.plan.t), anchor, style, k)
            };
            let belongs = |label: &Label| {
                let middle = 0.5 * (label.area.top + label.area.bottom);
                middle > over && others.iter().all(|other| (middle - y).abs() <= (middle - other).abs())
            };
            if let Some(label) = seat(&clear, i > 0 && i + 1 == met.len(), place, belongs) {
                over = 0.5 * (label.area.top + label.area.bottom);
                clear.taken.push(label.area);
                scene.text((label.x, label.baseline), label.text, label.anchor, Role::Text(style.0, style.1));
            }
        }
    }
}

/// The cheapest free seat of a value beside the cursor: right of it before left, near the dot before far, off
/// every line, never nearer to another dot than to its own; `None` where all are taken. `place` sets it so
/// far below its dot (px at size 1), to the right (1) or left (−1).
fn seat(
    clear: &Clear,
    below: bool,
    place: impl Fn(f64, f64) -> Label,
    belongs: impl Fn(&Label) -> bool,
) -> Option<Label> {
    // Baselines from the dot: above, below, beside, and farther off.
    let near = if below {
        [17.0, 5.0, -7.0, 11.0, -1.0, 23.0, 30.0, -14.0]
    } else {
        [-7.0, 17.0, 5.0, -1.0, 11.0, -13.0, -20.0, 24.0]
    };
    let mut best: Option<(f64, Label)> = None;
    for (rank, down) in near.into_iter().enumerate() {
        for (side, more) in [(1.0, 0.0), (-1.0, 2.0)] {
            let here = place(down, side);
            if !belongs(&here) || !clear.free(here.area, 2.0) {
                continue;
            }
            // Better a seat farther down the list, or on the other side, than one with a line through it.
            let cost = 1.5 * rank as f64 + more + 8.0 * clear.struck(here.area, 0.5) as f64;
            if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                best = Some((cost, here));
            }
        }
    }
    best.map(|(_, label)| label)
}

/// The frame round the pentagon: back from its point, aside; px at k = 1.
const FRAME: [Place; 5] = table([(-5.625, 0.0), (7.75, -12.0), (23.0, -12.0), (23.0, 12.0), (7.75, 12.0)]);

/// The pentagon, its tip downward at `tip`.
fn pointer(scene: &mut Scene, tip: (f64, f64), k: f64, grip: Grip) {
    let down = (0.0, 1.0);
    if grip == Grip::Focused {
        Local::back_from(tip, down, k).closed(scene, &FRAME, Role::GripFocus, "lean");
    }
    let state = if grip == Grip::Dragged { HandleState::Dragged } else { HandleState::Rest };
    pointer::pointer(scene, tip, down, state, "lean");
}

/// Whether a point takes hold of the cursor or the pointer at `x`: on the rule anywhere within reach of a
/// finger, in the panels near the cursor.
pub(crate) fn takes_hold(plan: &Plan, x: f64, (px, py): (f64, f64)) -> bool {
    let reach = 15.0 * plan.k.max(1.0);
    let on_rule = (plan.rule - 18.0 * plan.k..=plan.rule + (BAND + 18.0) * plan.k).contains(&py)
        && (plan.sides.0 - reach..=plan.sides.1 + reach).contains(&px);
    let top = plan.plots.first().map_or(plan.rule, |plot| plot.area.top);
    on_rule || ((px - x).abs() <= reach && (top..=plan.rule).contains(&py))
}
