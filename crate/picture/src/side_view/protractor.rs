//! The arc at the foot: the scale of lean, with the working range clear and what ends it named.

use super::stage::Stage;
use super::{Draft, SideViewInput};
use crate::drawing::vec2::{add, times};
use crate::naming::limit_name;
use crate::{Edge, Label, Lettering, Obstacle, PROJECTOR, Path, Role, Row, Seat, Tone};
use outlean_rig::{Dimension, Limit};
use outlean_rigfile::{DEG, show};

/// Width of the band, px at k = 1.
const BAND: f64 = 10.0;

/// Draws the arc, its ticks, its stops, and puts up their labels.
pub(super) fn protractor(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let (from, to) = stage.span;
    let within = |lean: f64| lean.max(from).min(to);
    let mut done = from;
    for interval in &input.range.intervals {
        let (a, b) = (within(interval.from), within(interval.to));
        band(draft, done, a, Role::OutBand);
        done = b;
    }
    band(draft, done, to, Role::OutBand);
    for interval in &input.range.intervals {
        band(draft, within(interval.from), within(interval.to), Role::InBand);
    }
    ticks(draft, input);
    let mut named: Vec<f64> = Vec::new();
    for (i, interval) in (0_u8..).zip(&input.range.intervals) {
        for (end, lean, limit) in
            [(2 * i, interval.from, interval.from_limit), (2 * i + 1, interval.to, interval.to_limit)]
        {
            if limit != Limit::NotLookedFurther && within(lean).to_bits() == lean.to_bits() {
                stop(draft, input, end, lean, limit);
                named.push(lean);
            }
        }
    }
    if input.range.intervals.is_empty() && input.show.range_names {
        no_range(draft, input);
    }
    numbers(draft, input, &named);
    // The arc as an obstacle, in short chords.
    let middle = stage.arc + BAND * stage.k / 2.0;
    let pieces = 24;
    let at = |i: i32| stage.on_arc(from + (to - from) * f64::from(i) / f64::from(pieces), middle);
    for i in 0..pieces {
        draft.obstacles.push(Obstacle {
            from: at(i),
            to: at(i + 1),
            half: BAND * stage.k / 2.0,
            soft: false,
        });
    }
}

fn band(draft: &mut Draft, from: f64, to: f64, role: Role) {
    if to - from < 1e-6 {
        return;
    }
    let stage = draft.stage;
    let mut path = Path::new();
    path.arc(stage.foot, stage.arc, from, to, true);
    path.arc(stage.foot, stage.arc + BAND * stage.k, to, from, false);
    path.close();
    draft.scene.part_path(path, role, "arc");
}

fn ticks(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    // One degree of arc narrower than 4 px is no scale.
    let each = if stage.arc * DEG < 3.2 * stage.k || stage.k >= PROJECTOR { 5 } else { 1 };
    let mut path = Path::new();
    let (first, last) = (libm::ceil(stage.span.0 / DEG - 1e-9), libm::floor(stage.span.1 / DEG + 1e-9));
    let mut degree = first as i32;
    while f64::from(degree) <= last {
        // Outside the working range single degrees would only muddle the hatch.
        let fine = each == 1 && input.range.around(f64::from(degree) * DEG).is_some();
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
    draft.scene.part_path(path, Role::Tick, "arc");
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
            named.iter().any(|end| (end - lean).abs() < near) || (input.rig.lean - lean).abs() < near;
        if !crowded {
            let text = show(lean, Dimension::Angle, input.units).to_string();
            let at = stage.on_arc(lean, stage.arc - 13.0 * stage.k);
            draft.labels.push(Label {
                key: ("number", (degree + 100).unsigned_abs().try_into().unwrap_or(u8::MAX)),
                rows: vec![Row::new(text, Lettering::Note, Tone::Quiet)],
                seats: vec![Seat { at, across: Edge::Middle, upright: Edge::Middle, leader: None }],
                rank: 200,
                timid: true,
                in_line: false,
            });
        }
        degree += 10;
    }
}

/// One end of a range: a bar across the band, the angle, what governs.
fn stop(draft: &mut Draft, input: &SideViewInput<'_>, number: u8, lean: f64, limit: Limit) {
    let stage = draft.stage;
    let k = stage.k;
    let (inner, outer) = (stage.arc - 5.0 * k, stage.arc + (BAND + 6.0) * k);
    let bar = Path::line(stage.on_arc(lean, inner), stage.on_arc(lean, outer));
    draft.scene.part_path(bar, Role::Stop, "stop");
    let at = stage.on_arc(lean, outer);
    draft.obstacles.push(Obstacle { from: stage.on_arc(lean, inner), to: at, half: 2.0 * k, soft: false });
    if !input.show.range_names {
        return;
    }
    let angle = Row::new(show(lean, Dimension::Angle, input.units).to_string(), Lettering::Value, Tone::Ink);
    let rows = match limit_name(input.words, input.rig, &input.solution.layout, limit) {
        Some(name) => vec![angle, Row::new(name, Lettering::Name, Tone::Ink)],
        None => vec![angle],
    };
    let seats = stop_seats(draft, lean, number.is_multiple_of(2));
    draft.labels.push(Label { key: ("stop", number), rows, seats, rank: 2, timid: false, in_line: false });
}

/// The seats of the name of a stop, away from the range: left of the end farther back, right of the one farther out.
fn stop_seats(draft: &Draft, lean: f64, left: bool) -> Vec<Seat> {
    let stage = draft.stage;
    let k = stage.k;
    let (inner, outer) = (stage.arc - 5.0 * k, stage.arc + (BAND + 6.0) * k);
    let at = stage.on_arc(lean, outer);
    let out = (libm::sin(lean), -libm::cos(lean));
    let seat = |at: (f64, f64), across, upright| Seat { at, across, upright, leader: None };
    let (first, second) = if left { (Edge::Far, Edge::Near) } else { (Edge::Near, Edge::Far) };
    let shift = |edge: Edge, by: f64| if edge == Edge::Far { -by * k } else { by * k };
    let mut seats = vec![
        seat(add(at, (shift(first, 2.0), -6.0 * k)), first, Edge::Far),
        seat(add(at, (shift(first, 6.0), 6.0 * k)), first, Edge::Middle),
        seat(add(at, (0.0, -6.0 * k)), Edge::Middle, Edge::Far),
        seat(add(at, (shift(first, 8.0), 8.0 * k)), first, Edge::Near),
        seat(add(at, (shift(second, 2.0), -6.0 * k)), second, Edge::Far),
    ];
    // Flush with the side of the plate, above the arc, when there is too little room beside it.
    let side = if left { 4.0 * k } else { stage.width - 4.0 * k };
    for up in [6.0, 0.0, 14.0, 24.0, 36.0, 48.0] {
        let place = seat((side, at.1 - up * k), second, Edge::Far);
        if (side - at.0).abs() < 90.0 * k {
            seats.push(place);
        }
    }
    // Farther along the arc, and inside it, with a leader.
    for aside in [-60.0, 60.0, -95.0, 95.0, -140.0, 140.0] {
        for far in [8.0, 26.0] {
            let place = stage.on_arc(lean + aside * k / stage.arc, outer + far * k);
            seats.push(Seat::beside(place, out, 5.0 * k).led_to(add(at, times(out, 2.0 * k))));
        }
    }
    for inward in [24.0, 50.0, 80.0] {
        let place = seat(stage.on_arc(lean, inner - inward * k), first, Edge::Middle);
        seats.push(place.led_to(stage.on_arc(lean, inner - 2.0 * k)));
        let place = seat(stage.on_arc(lean, inner - inward * k), Edge::Middle, Edge::Near);
        seats.push(place.led_to(stage.on_arc(lean, inner - 2.0 * k)));
    }
    seats
}

/// Where no lean holds, says so, and what was nearest to holding.
fn no_range(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let mut rows = vec![Row::new(input.words.say("range.none"), Lettering::Value, Tone::Ink)];
    if input.range.best_ratio.is_finite()
        && let Some(name) = limit_name(input.words, input.rig, &input.solution.layout, input.range.best_limit)
    {
        let lean = show(input.range.best_lean, Dimension::Angle, input.units).to_string();
        let nearest = input.words.fill("range.nearest", &[("part", &name), ("lean", &lean)]);
        rows.push(Row::new(nearest, Lettering::Name, Tone::Ink));
    }
    let outer = stage.arc + (BAND + 8.0) * stage.k;
    let seats = [0.0, 10.0, -4.0, 20.0, 30.0, 42.0, 54.0]
        .map(|degrees| {
            let at = stage.on_arc(degrees * DEG, outer);
            Seat { at, across: Edge::Far, upright: Edge::Far, leader: None }
        })
        .into_iter()
        .chain([25.0, 35.0, 45.0].map(|degrees| {
            let at = stage.on_arc(degrees * DEG, outer);
            Seat { at, across: Edge::Near, upright: Edge::Far, leader: None }
        }))
        .collect();
    draft.labels.push(Label { key: ("range", 0), rows, seats, rank: 3, timid: false, in_line: false });
}

/// The pointer on the arc and the lean beside it. Gives the middle of the pointer.
pub(super) fn lean_pointer(draft: &mut Draft, input: &SideViewInput<'_>, lean: f64) -> (f64, f64) {
    let stage = draft.stage;
    let k = stage.k;
    let out = (libm::sin(lean), -libm::cos(lean));
    let tip = stage.on_arc(lean, stage.arc - k);
    let middle = crate::drawing::pointer::pointer(&mut draft.scene, tip, out, input.handle, "pointer");
    let base = stage.on_arc(lean, stage.arc - stage.pointer());
    draft.obstacles.push(Obstacle { from: tip, to: base, half: 8.0 * k, soft: false });

    let text = show(lean, Dimension::Angle, input.units).to_string();
    let row = Row::new(text, Lettering::Lead, Tone::Ink);
    let label =
        Label { key: ("lean", 0), rows: vec![row], seats: Vec::new(), rank: 4, timid: false, in_line: false };
    let (w, h) = label.size(k);
    // The box just clear of the band: its own half size in the direction of the radius.
    let clear = |degrees: f64, gap: f64| {
        let lean = lean + degrees * DEG;
        let support = (libm::sin(lean).abs() * w + libm::cos(lean).abs() * h) / 2.0;
        let at = stage.on_arc(lean, stage.arc + BAND * k + gap * k + support);
        Seat { at, across: Edge::Middle, upright: Edge::Middle, leader: None }
    };
    let inside = |degrees: f64| {
        let at = stage.on_arc(lean + degrees * DEG, stage.arc - stage.pointer() * 0.75);
        Seat { at, across: Edge::Middle, upright: Edge::Middle, leader: None }
    };
    let mut seats = vec![clear(0.0, 8.0)];
    for degrees in [1.5, -1.5, 3.0, -3.0, 4.5, -4.5, 6.0, -6.0, 8.0, -8.0, 10.5, -10.5, 13.0, -13.0] {
        seats.push(clear(degrees, 8.0));
    }
    for degrees in [4.0, -4.0, 6.0, -6.0, 8.0, -8.0, 11.0, -11.0, 15.0, -15.0] {
        seats.push(inside(degrees));
    }
    draft.labels.push(Label { seats, ..label });
    middle
}

/// The plumb line through the foot.
pub(super) fn plumb(draft: &mut Draft) {
    let Stage { foot, arc, scale, k, .. } = draft.stage;
    let line = Path::line((foot.0, foot.1 - arc - BAND * k - 2.0 * k), (foot.0, foot.1 + 0.2 * scale));
    draft.scene.part_path(line, Role::Axis, "plumb");
}
