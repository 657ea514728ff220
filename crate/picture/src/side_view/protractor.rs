//! The arc at the foot: the scale of lean, with the working range clear and what ends it named.

use super::stage::Stage;
use super::{Draft, SideViewInput};
use crate::drawing::projection::Projection;
use crate::drawing::vec2::{add, along};
use crate::naming::limit_name;
use crate::{Edge, Lettering, PROJECTOR, Path, Role, Row, Seat, Tone};
use outlean_rig::{Dimension, Limit};
use outlean_rigfile::DEG;

/// Width of the band, px at k = 1.
const BAND: f64 = 10.0;

/// Draws the arc, its ticks, its stops, and puts up their labels.
pub(super) fn protractor(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let (from, to) = stage.span;
    let within = |lean: f64| lean.max(from).min(to);
    let mut done = from;
    for interval in &input.of.range.intervals {
        let (a, b) = (within(interval.from), within(interval.to));
        band(draft, done, a, Role::OutBand);
        done = b;
    }
    band(draft, done, to, Role::OutBand);
    for interval in &input.of.range.intervals {
        band(draft, within(interval.from), within(interval.to), Role::InBand);
    }
    ticks(draft, input);
    let mut named: Vec<f64> = Vec::new();
    for (i, interval) in (0_u8..).zip(&input.of.range.intervals) {
        for (end, lean, limit) in
            [(2 * i, interval.from, interval.from_limit), (2 * i + 1, interval.to, interval.to_limit)]
        {
            if limit != Limit::NotLookedFurther && within(lean).to_bits() == lean.to_bits() {
                stop(draft, input, end, lean, limit);
                named.push(lean);
            }
        }
    }
    if input.of.range.intervals.is_empty() && input.show.range_names {
        no_range(draft, input);
    }
    numbers(draft, input, &named);
    // The arc as an obstacle, in short chords.
    let middle = stage.arc + BAND * stage.k / 2.0;
    let chords = stage.along_arc(from, to, middle, 24);
    draft.sheet.keep_clear_along(&chords, BAND * stage.k / 2.0, false);
}

fn band(draft: &mut Draft, from: f64, to: f64, role: Role) {
    if to - from < 1e-6 {
        return;
    }
    let stage = draft.stage;
    let mut path = Path::new();
    path.arc(stage.view.origin, stage.arc, from, to, true);
    path.arc(stage.view.origin, stage.arc + BAND * stage.k, to, from, false);
    path.close();
    draft.sheet.scene.part_path(path, role, "arc");
}

fn ticks(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    // Degrees nearer to one another than 3.2 px at k = 1 are no scale.
    let each = if stage.arc * DEG < 3.2 * stage.k || stage.k >= PROJECTOR { 5 } else { 1 };
    let mut path = Path::new();
    let (first, last) = (libm::ceil(stage.span.0 / DEG - 1e-9), libm::floor(stage.span.1 / DEG + 1e-9));
    let mut degree = first as i32;
    while f64::from(degree) <= last {
        // Outside the working range single degrees would only muddle the hatch.
        let fine = each == 1 && input.of.range.around(f64::from(degree) * DEG).is_some();
        if degree % 5 == 0 || fine {
            let share = match degree {
                d if d % 10 == 0 => 1.0,
                d if d % 5 == 0 => 0.65,
                _ => 0.4,
            };
            let lean = f64::from(degree) * DEG;
            path.add_line(
                stage.on_arc(lean, stage.arc),
                stage.on_arc(lean, stage.arc + share * BAND * stage.k),
            );
        }
        degree += 1;
    }
    draft.sheet.scene.part_path(path, Role::Tick, "arc");
}

/// The numbers of the scale, inside the arc, each ten degrees. One near a named end or the pointer is left out.
fn numbers(draft: &mut Draft, input: &SideViewInput<'_>, named: &[f64]) {
    let stage = draft.stage;
    if stage.k >= PROJECTOR {
        return;
    }
    let near = 6.0 * DEG;
    let mut degree = libm::ceil(stage.span.0 / (10.0 * DEG) - 1e-9) as i32 * 10;
    while f64::from(degree) * DEG <= stage.span.1 {
        let lean = f64::from(degree) * DEG;
        let crowded =
            named.iter().any(|end| (end - lean).abs() < near) || (input.of.rig.lean - lean).abs() < near;
        if !crowded {
            let text = input.of.voice().shown(lean, Dimension::Angle);
            let key = ("number", (degree + 100).unsigned_abs().try_into().unwrap_or(u8::MAX));
            let rows = Row::alone(text, Lettering::Note, Tone::Quiet);
            draft.sheet.label(key, 200, rows, Vec::new());
            if let Some(label) = draft.sheet.labels.last_mut() {
                label.timid = true;
                let off = support(lean, label.size(stage.k)) + 8.5 * stage.k;
                let at = stage.on_arc(lean, stage.arc - off);
                label.seats.push(Seat::at(at, Edge::Middle, Edge::Middle));
            }
        }
        degree += 10;
    }
}

/// How far a box of this width and height reaches from its middle along the radius at a lean, px.
fn support(lean: f64, (wide, tall): (f64, f64)) -> f64 {
    (libm::sin(lean).abs() * wide + libm::cos(lean).abs() * tall) / 2.0
}

/// One end of a range: a bar across the band, the angle, what governs.
fn stop(draft: &mut Draft, input: &SideViewInput<'_>, number: u8, lean: f64, limit: Limit) {
    let stage = draft.stage;
    let k = stage.k;
    let (inner, outer) = (stage.arc - 5.0 * k, stage.arc + (BAND + 6.0) * k);
    let (low, at) = (stage.on_arc(lean, inner), stage.on_arc(lean, outer));
    draft.sheet.scene.line(low, at, Role::Stop, "stop");
    draft.sheet.keep_clear(low, at, 2.0 * k, false);
    if !input.show.range_names {
        return;
    }
    let mut rows = Row::alone(input.of.voice().shown(lean, Dimension::Angle), Lettering::Value, Tone::Ink);
    if let Some(name) = limit_name(input.of.words, input.of.rig, &input.of.solution.layout, limit) {
        rows.push(Row::new(name, Lettering::Name, Tone::Ink));
    }
    let seats = stop_seats(&stage, lean, number.is_multiple_of(2));
    draft.sheet.label(("stop", number), 2, rows, seats);
}

/// The first seats of the name of a stop on the left: to the right of the stop and below it, px at k = 1, and which
/// edges of the name stand there.
const AT_STOP: [(f64, f64, Edge, Edge); 5] = [
    (-2.0, -6.0, Edge::Far, Edge::Far),
    (-6.0, 6.0, Edge::Far, Edge::Middle),
    (0.0, -6.0, Edge::Middle, Edge::Far),
    (-8.0, 8.0, Edge::Far, Edge::Near),
    (2.0, -6.0, Edge::Near, Edge::Far),
];

/// The seats of the name of a stop, away from the range: left of the end farther back, right of the one farther out.
fn stop_seats(stage: &Stage, lean: f64, left: bool) -> Vec<Seat> {
    let k = stage.k;
    let (inner, outer) = (stage.arc - 5.0 * k, stage.arc + (BAND + 6.0) * k);
    let at = stage.on_arc(lean, outer);
    let out = (libm::sin(lean), -libm::cos(lean));
    let mut seats = Vec::new();
    let (way, first, second) = if left { (k, Edge::Far, Edge::Near) } else { (-k, Edge::Near, Edge::Far) };
    for (across, down, edge, upright) in AT_STOP {
        let edge = match edge {
            Edge::Far => first,
            Edge::Middle => edge,
            Edge::Near => second,
        };
        seats.push(Seat::at(add(at, (across * way, down * k)), edge, upright));
    }
    // Flush with the side of the plate, above the arc, when there is too little room beside it.
    let side = if left { 4.0 * k } else { stage.width - 4.0 * k };
    if (side - at.0).abs() < 90.0 * k {
        for up in [6.0, 0.0, 14.0, 24.0, 36.0, 48.0] {
            seats.push(Seat::at((side, at.1 - up * k), second, Edge::Far));
        }
    }
    // Farther along the arc, and inside it, with a leader.
    let outside = along(at, out, 2.0 * k);
    for aside in [-60.0, 60.0, -95.0, 95.0, -140.0, 140.0] {
        for far in [8.0, 26.0] {
            let place = stage.on_arc(lean + aside * k / stage.arc, outer + far * k);
            seats.push(Seat::beside(place, out, 5.0 * k).led_to(outside));
        }
    }
    let inside = stage.on_arc(lean, inner - 2.0 * k);
    for inward in [24.0, 50.0, 80.0] {
        let place = stage.on_arc(lean, inner - inward * k);
        for (across, upright) in [(first, Edge::Middle), (Edge::Middle, Edge::Near)] {
            seats.push(Seat::at(place, across, upright).led_to(inside));
        }
    }
    seats
}

/// Where no lean holds, says so, and what was nearest to holding.
fn no_range(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let mut rows = Row::alone(input.of.voice().say("range.none"), Lettering::Value, Tone::Ink);
    if input.of.range.best_ratio.is_finite()
        && let Some(name) =
            limit_name(input.of.words, input.of.rig, &input.of.solution.layout, input.of.range.best_limit)
    {
        let lean = input.of.voice().shown(input.of.range.best_lean, Dimension::Angle);
        let nearest = input.of.words.fill("range.nearest", &[("part", &name), ("lean", &lean)]);
        rows.push(Row::new(nearest, Lettering::Name, Tone::Ink));
    }
    let outer = stage.arc + (BAND + 8.0) * stage.k;
    let mut seats = Vec::new();
    for (i, degrees) in [0.0, 10.0, -4.0, 20.0, 30.0, 42.0, 54.0, 25.0, 35.0, 45.0].into_iter().enumerate() {
        // Left of a place on the arc, and right of the last three.
        let across = if i < 7 { Edge::Far } else { Edge::Near };
        seats.push(Seat::at(stage.on_arc(degrees * DEG, outer), across, Edge::Far));
    }
    draft.sheet.label(("range", 0), 3, rows, seats);
}

/// The pointer on the arc and the lean beside it. Gives the middle of the pointer.
pub(super) fn lean_pointer(draft: &mut Draft, input: &SideViewInput<'_>, lean: f64) -> (f64, f64) {
    let stage = draft.stage;
    let k = stage.k;
    let out = (libm::sin(lean), -libm::cos(lean));
    let tip = stage.on_arc(lean, stage.arc - k);
    let middle = crate::drawing::pointer::pointer(&mut draft.sheet.scene, tip, out, input.handle, "pointer");
    let base = stage.on_arc(lean, stage.arc - stage.pointer());
    // As wide as the frame round it when it has the focus.
    draft.sheet.keep_clear(tip, base, 13.0 * k, false);

    let text = input.of.voice().shown(lean, Dimension::Angle);
    let rows = Row::alone(text, Lettering::Lead, Tone::Ink);
    draft.sheet.label(("lean", 0), 4, rows, Vec::new());
    let Some(label) = draft.sheet.labels.last_mut() else { return middle };
    let size = label.size(k);
    // The box just clear of the band: its own half size in the direction of the radius.
    for degrees in [0.0, 1.5, -1.5, 3.0, -3.0, 4.5, -4.5, 6.0, -6.0, 8.0, -8.0, 10.5, -10.5, 13.0, -13.0] {
        let lean = lean + degrees * DEG;
        let at = stage.on_arc(lean, stage.arc + (BAND + 8.0) * k + support(lean, size));
        label.seats.push(Seat::at(at, Edge::Middle, Edge::Middle));
    }
    // Inside the band, beside the pointer, as near as its width allows.
    for aside in 2_i32..14 {
        for way in [1.0, -1.0] {
            let lean = lean + way * f64::from(aside) * 4.0 * DEG;
            let at = stage.on_arc(lean, stage.arc - 9.0 * k - support(lean, size));
            label.seats.push(Seat::at(at, Edge::Middle, Edge::Middle));
        }
    }
    middle
}

/// The plumb line through the foot.
pub(super) fn plumb(draft: &mut Draft) {
    let Stage { view: Projection { origin: foot, scale, .. }, arc, k, .. } = draft.stage;
    let top = (foot.0, foot.1 - arc - BAND * k - 2.0 * k);
    draft.sheet.scene.line(top, (foot.0, foot.1 + 0.2 * scale), Role::Axis, "plumb");
}
