//! The force polygon: what acts on the head, tail to head. Each arrow is parallel to its arrow in the side view, in
//! its colour and shape. It closes where the frame stands; where it tips only what acts is drawn, and it stays open.

mod acting;
mod fit;
mod rule;
#[cfg(test)]
mod tests;

use crate::drawing::arrow;
use crate::drawing::sheet::{Finished, Sheet};
use crate::drawing::vec2::{P, add, between, left_of, length, sub, times, unit};
use crate::naming::guy_name;
use crate::side_view::seats::{Margin, On, of_arrow};
use crate::{
    Area, Edge, Kind, LabelKey, Lettering, Role, Row, Scene, Seat, Seats, Subject, Tone, tip_key, type_scale,
};
pub use acting::Acting;
use outlean_rig::{Part, Side};

/// What to draw, and how.
#[derive(Clone, Copy, Debug)]
pub struct PolygonInput<'a> {
    /// What it shows, and on which plate.
    pub of: Subject<'a>,
    /// Pixels drawn for a newton in the side view beside it: the polygon takes the same scale if it fits, else one that
    /// is a power of two times it. `None` begins from a scale of its own.
    pub px_per_newton: Option<f64>,
    /// The seats that labels had in the last frame.
    pub seats: Option<&'a Seats>,
}

/// The force polygon.
#[derive(Clone, Debug, PartialEq)]
pub struct Polygon {
    /// The picture. Nothing of it is still.
    pub scene: Scene,
    /// What acts, in the order in which it is laid.
    pub acting: Vec<Acting>,
    /// Whether it closes: the frame stands.
    pub closed: bool,
    /// Pixels drawn for a newton.
    pub px_per_newton: f64,
    /// What each label covers, px, so that a number can be pointed at.
    pub labels: Vec<(LabelKey, Area)>,
    /// Names of what there was no room for.
    pub dropped: Vec<LabelKey>,
    /// The seats of the labels, for the next frame.
    pub seats: Seats,
}

/// Draws the force polygon.
#[must_use]
pub fn polygon(input: &PolygonInput<'_>) -> Polygon {
    let (width, height, k) = input.of.plate();
    let grown = input.of.grown();
    let lettering = type_scale(k);
    // Room for the title over it, the rule under it, labels on both sides.
    let beside = (44.0 * lettering).min(0.3 * width);
    let room = Area {
        left: beside,
        top: (48.0 * lettering).min(0.25 * height),
        right: width - beside,
        bottom: height - (44.0 * lettering).min(0.25 * height),
    };
    let (px_per_newton, start) =
        fit::fit(input.of.rig, input.of.range, input.of.solution, room, input.px_per_newton);
    let acting = acting::acting(input.of.rig, input.of.solution);
    let mut sheet = Sheet::new(Scene::new(width, height, k));
    title(&mut sheet, input, acting.is_empty());
    if !acting.is_empty() {
        rule::rule(&mut sheet, input.of.units, px_per_newton);
    }
    let closed = input.of.solution.tips().is_none();
    let sides = sides(&acting, px_per_newton, start, closed, k);
    let outside = outside(&sides);
    for (force, (tail, tip)) in acting.iter().zip(&sides) {
        let ends = (*tail, between(*tail, *tip, grown));
        let way = unit(sub(*tip, *tail), (0.0, 1.0));
        if length(sub(ends.1, ends.0)) < arrow::LEAST * k {
            arrow::short(&mut sheet, force.kind, ends.0, ends.1, way, force.key.0);
        } else {
            arrow::force(&mut sheet, force.kind, ends.0, ends.1, way, force.key.0);
        }
        name(&mut sheet, input, force, (*tail, *tip), outside, width);
    }
    // Where it starts, and where it ends again if it closes.
    if !acting.is_empty() {
        sheet.scene.circle(start, 3.6 * k, Role::Pin, "start");
    }
    let plate = Area { left: 0.0, top: 0.0, right: width, bottom: height };
    let Finished { scene, labels, dropped, seats } = sheet.finish(plate.grown(-3.0 * k), input.seats);
    Polygon { scene, acting, closed, px_per_newton, labels, dropped, seats }
}

/// Tail and tip of each force, px. A closing side that would lie on the others stands beside them.
fn sides(acting: &[Acting], px_per_newton: f64, start: P, closed: bool, k: f64) -> Vec<(P, P)> {
    let mut sides = Vec::new();
    let mut at = start;
    for force in acting {
        let next = add(at, (force.forward * px_per_newton, -force.up * px_per_newton));
        sides.push((at, next));
        at = next;
    }
    if let [others @ .., (tail, tip)] = sides.as_mut_slice() {
        let aside = left_of(unit(sub(*tip, *tail), (0.0, -1.0)));
        // How far the other corners are off the last side, to the right of its way positive.
        let mut farthest = 0.0_f64;
        for (corner, _) in others.iter() {
            let from = sub(*corner, *tail);
            let off = -(from.0 * aside.0 + from.1 * aside.1);
            if off.abs() > farthest.abs() {
                farthest = off;
            }
        }
        let apart = 7.0 * k;
        if closed && !others.is_empty() && farthest.abs() < apart {
            let side = if farthest < 0.0 { -1.0 } else { 1.0 };
            let step = times(aside, side * (apart - farthest.abs()));
            (*tail, *tip) = (add(*tail, step), add(*tip, step));
        }
    }
    sides
}

/// On which side of the way of its sides the outside of the polygon lies: 1 left, −1 right.
fn outside(sides: &[(P, P)]) -> f64 {
    // Twice the area, positive if it is gone round clockwise as seen.
    let mut area = 0.0;
    for ((ax, ay), (bx, by)) in sides {
        area += ax * by - bx * ay;
    }
    if let ([((sx, sy), _), ..], [.., (_, (ex, ey))]) = (sides, sides) {
        area += ex * sy - sx * ey;
    }
    if area < 0.0 { -1.0 } else { 1.0 }
}

/// What it is, and whether it closes.
fn title(sheet: &mut Sheet, input: &PolygonInput<'_>, empty: bool) {
    let (k, voice) = (sheet.scene.k, input.of.voice());
    let note = |text: String| Row::new(text, Lettering::Note, Tone::Quiet);
    let mut rows = Row::alone(voice.say("polygon.title"), Lettering::Title, Tone::Ink);
    match input.of.solution.tips() {
        Some(tip) => {
            rows.push(note(voice.say("polygon.open")));
            let tips = input.of.words.fill("polygon.tips", &[("tips", input.of.words.say(tip_key(tip)))]);
            rows.push(note(tips));
        }
        None if empty => rows.push(note(voice.say("polygon.none"))),
        None => rows.push(note(voice.say("polygon.closed"))),
    }
    let (left, right, top) = (8.0 * k, sheet.scene.width - 8.0 * k, 8.0 * k);
    let seats =
        vec![Seat::at((left, top), Edge::Near, Edge::Near), Seat::at((right, top), Edge::Far, Edge::Near)];
    sheet.label(("title", 0), 0, rows, seats);
}

/// The name and the size of a force, beside its arrow.
fn name(sheet: &mut Sheet, input: &PolygonInput<'_>, force: &Acting, ends: (P, P), outside: f64, width: f64) {
    let (k, voice) = (sheet.scene.k, input.of.voice());
    let over = |part: Part| input.of.is_over(part);
    let shared = input.of.solution.second.as_ref().is_some_and(|second| second.load.size() > 0.0);
    let (name, rank, past) = match force.key {
        ("load", 0) => (voice.say(if shared { "load.main" } else { "load" }), 7, false),
        ("load", _) => (voice.say("load.second"), 8, false),
        ("haul line", 0) => (voice.say("line.haul"), 8, over(Part::MainLine)),
        ("haul line", _) => (voice.say("line.haul.second"), 9, over(Part::SecondLine)),
        ("guy", number) => {
            let name = guy_name(input.of.words, input.of.rig, &input.of.solution.layout, number);
            (name, 5, over(Part::GuyRope(number)) || over(Part::GuyHoldfast(number)))
        }
        ("weight", _) => (voice.say("weight.legs"), 10, false),
        _ => {
            let past = over(Part::Leg(Side::Left)) || over(Part::Leg(Side::Right));
            (voice.say("legs.both"), 6, past)
        }
    };
    let mut rows = voice.force(name, force.size, force.kind);
    if let (true, Some(first)) = (past, rows.first_mut()) {
        first.past = true;
    }
    let on = On { half: if force.kind == Kind::Pull { 2.0 } else { 3.0 } * k, goes_on: false };
    let margin = Margin {
        left: 0.62 * width,
        top: ends.0.1.min(ends.1.1) - 20.0 * k,
        bottom: sheet.scene.height - 40.0 * k,
    };
    // Beside its middle first: its ends are those of others too.
    let mut seats = vec![Seat::beside(
        between(ends.0, ends.1, 0.5),
        times(left_of(unit(sub(ends.1, ends.0), (0.0, 1.0))), outside),
        on.half + 8.0 * k,
    )];
    seats.extend(of_arrow(ends, outside, 1.0, on, &margin, k));
    sheet.label(force.key, rank, rows, seats);
}
