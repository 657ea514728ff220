//! Forces: each arrow lies on its part, to one scale; the arrow is the projection, the number is the force.

use super::line::Run;
use super::seats::{Margin, On, of_arrow};
use super::{Draft, Frame, SideViewInput, guys};
use crate::drawing::arrow;
use crate::drawing::frame::lashing_half;
use crate::drawing::length::Length;
use crate::drawing::vec2::{add, length, sub, times, unit};
use crate::force_scale::{from_ground, on_head};
use crate::naming::part_name;
use crate::{Kind, Lettering, PROJECTOR, Path, Role, Row, Seat, Tone};
use outlean_rig::{LineForces, Part, Side, Station, Tip};

/// An arrow on a rope.
const ROPE: On = On { half: 0.0, goes_on: true };
/// An arrow on nothing.
const FREE: On = On { half: 2.0, goes_on: false };

/// Draws the forces of legs, guys and lines.
pub(super) fn forces(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame, runs: &[Run]) {
    let stage = draft.stage;
    let k = stage.k;
    let Some(main) = runs.first() else { return };
    let margin = margin(frame, main, k);
    if let Some(push) = on_head(input.of.solution) {
        let (way, size) = stage.view.way_of(push, frame.up);
        let below_head = (0.2 * stage.view.scale).max(lashing_half(stage.view.scale, k) + 4.0 * k);
        let at = frame.on(&stage, frame.slant - below_head);
        // Legs that pull, on feet held down, pull the head down: the tail is then at the head.
        let pushes = way.0 * frame.up.0 + way.1 * frame.up.1 > 0.0;
        let room = frame.slant - below_head - 4.0 * k;
        let tail = if pushes { sub(at, times(way, room.min(size * draft.px_per_newton))) } else { at };
        let full = size * draft.px_per_newton;
        let (tail, tip) =
            Length { kind: Kind::Push, tail, way, full, room, part: "legs" }.draw(&mut draft.sheet);
        let voice = input.of.voice();
        let mut rows = voice.force(voice.say("legs.both"), size, Kind::Push);
        for side in Side::BOTH {
            past(
                input,
                Part::Leg(side),
                &mut rows,
                part_name(input.of.words, input.of.rig, &input.of.solution.layout, Part::Leg(side)),
            );
        }
        let off = frame.widths.0 / 2.0;
        let mut seats = of_arrow((tail, tip), 1.0, 0.0, On { half: off, goes_on: true }, &margin, k);
        // Below the feet the legs go on no farther: there only a leader says whose the label is.
        let feet = stage.view.origin;
        for seat in seats.iter_mut().filter(|seat| seat.at.1 > feet.1) {
            seat.leader.get_or_insert(feet);
        }
        draft.sheet.label(("legs", 0), 6, rows, seats);
    }
    for (number, guy) in (0_u8..).zip(&input.of.rig.guys) {
        let Some(force) = input.of.guy_force(number) else { continue };
        if !guy.rigged || !input.of.is_taut(number, input.show.forces) {
            continue;
        }
        let end = guys::end(&stage, frame, guy.anchor);
        let way = unit(sub(end.at, frame.head), (-1.0, 0.0));
        // What the picture shows of it: shorter where the guy is splayed out of the plane.
        let rope = guy.anchor - input.of.solution.layout.head;
        let flat = stage.view.flat(guy.anchor);
        let head = stage.view.flat(input.of.solution.layout.head);
        let share = length(sub(flat, head)) / rope.length().max(1e-6);
        let from = (0.16 * stage.view.scale).max(9.0 * k);
        let arrow = Length {
            kind: Kind::Pull,
            tail: add(frame.head, times(way, from)),
            way,
            full: force.tension * share * draft.px_per_newton,
            room: length(sub(end.at, frame.head)) - from - 18.0 * k,
            part: "guy",
        };
        let (tail, tip) = arrow.draw(&mut draft.sheet);
        let (name, may) = input.of.guy_said(number);
        let mut rows = input.of.voice().force(name, force.tension, Kind::Pull);
        input.of.mark_past(may, &mut rows);
        let open = match Station::of(guy.anchor, &input.of.solution.layout) {
            Station::Fore => 1.0,
            _ => -1.0,
        };
        let seats = of_arrow((tail, tip), open, 1.0, ROPE, &margin, k);
        draft.sheet.label(("guy", number), 5, rows, seats);
    }
    for (rank, (line, forces)) in (7_u8..).step_by(2).zip(runs.iter().zip(input.of.solution.lines())) {
        lines(draft, input, line, forces, rank, &margin);
    }
}

/// What a line holds and what it is hauled with.
fn lines(
    draft: &mut Draft,
    input: &SideViewInput<'_>,
    line: &Run,
    forces: &LineForces,
    rank: u8,
    margin: &Margin,
) {
    let k = draft.stage.k;
    let tension = forces.load.size();
    if tension > 0.0 {
        let (from, to) = line.load;
        let arrow = Length {
            kind: Kind::Load,
            tail: from,
            way: line.load_way,
            full: tension * flatness(&draft.stage, forces.load) * draft.px_per_newton,
            room: (draft.stage.height - from.1 - 6.0 * k).min(1.6 * length(sub(to, from))),
            part: "load",
        };
        let (tail, tip) = arrow.draw(&mut draft.sheet);
        let voice = input.of.voice();
        let rows = voice.force(voice.say(line.names.load), tension, Kind::Load);
        // The open side of the load line is the outer one.
        let mut seats = of_arrow((tail, tip), 1.0, 1.0, ROPE, margin, k);
        // Beside what hangs there, where there is no room along the line.
        for down in [0.0, 24.0, 48.0] {
            for side in [-1.0, 1.0] {
                seats.push(Seat::beside(add(to, (0.0, down * k)), (side, 0.0), 26.0 * k));
            }
        }
        draft.sheet.label((line.names.load, 0), rank, rows, seats);
    }
    if let Some((from, to)) = line.haul
        && forces.haul_tension > 0.0
        && draft.stage.k < PROJECTOR
    {
        let start = 0.06 * draft.stage.view.scale;
        let arrow = Length {
            kind: Kind::Pull,
            tail: add(from, times(line.haul_way, start)),
            way: line.haul_way,
            full: forces.haul_tension * flatness(&draft.stage, forces.haul) * draft.px_per_newton,
            room: length(sub(to, from)) - start - 8.0 * k,
            part: "haul line",
        };
        let (tail, tip) = arrow.draw(&mut draft.sheet);
        let name = input.of.voice().say(line.names.haul);
        let mut rows = input.of.voice().force(name.clone(), forces.haul_tension, Kind::Pull);
        past(input, line.names.part, &mut rows, name);
        // Ahead of a rope that goes down; over one that goes back, or under it where a guy is over it.
        let steep = line.haul_way.1 > 2.0 * line.haul_way.0.abs();
        let guyed = (0_u8..).zip(&input.of.rig.guys).any(|(number, guy)| {
            input.of.is_taut(number, input.show.forces)
                && Station::of(guy.anchor, &input.of.solution.layout) == Station::Aft
        });
        let open = if line.haul_way.0 < 0.0 && !steep && guyed { 1.0 } else { -1.0 };
        let seats = of_arrow((tail, tip), open, 1.0, ROPE, margin, k);
        draft.sheet.label((line.names.haul, 0), rank + 1, rows, seats);
    }
}

/// The share of a force that the side view shows.
fn flatness(stage: &super::Stage, force: outlean_rig::Force) -> f64 {
    stage.view.way_of(force, (0.0, 1.0)).1 / force.size().max(1e-9)
}

/// The resultant on the head, and where its line meets the ground.
pub(super) fn resultant(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
    let stage = draft.stage;
    let k = stage.k;
    let resultant = &input.of.solution.resultant;
    let (way, size) = stage.view.way_of(resultant.force, (0.0, 1.0));
    if size <= 0.0 {
        return;
    }
    if let Some(ahead) = resultant.ahead_of_feet {
        let meets = stage.view.p((ahead, 0.0));
        if meets.0 > 0.0 && meets.0 < stage.width {
            draft.sheet.scene.line(frame.head, meets, Role::Axis, "line of action");
            let mark = 5.0 * k;
            let mut cross = Path::line((meets.0 - mark, meets.1 - mark), (meets.0 + mark, meets.1 + mark));
            cross.add_line((meets.0 - mark, meets.1 + mark), (meets.0 + mark, meets.1 - mark));
            draft.sheet.scene.part_path(cross, Role::Bar, "meets ground");
        }
    }
    let long = (size * draft.px_per_newton).min((stage.height - frame.head.1) * 0.95);
    // Where it runs along the load line it stands beside it.
    let (load_way, _) = stage.view.way_of(input.of.solution.line.load, (0.0, 1.0));
    let along = way.0 * load_way.0 + way.1 * load_way.1 > 0.985;
    let tail = if along { add(frame.head, (13.0 * k, 0.0)) } else { frame.head };
    let tip = add(tail, times(way, long));
    arrow::sum(&mut draft.sheet, tail, tip, "resultant");
    let voice = input.of.voice();
    let rows = voice.force(voice.say("resultant"), size, Kind::Load);
    let margin =
        Margin { left: frame.head.0 + 40.0 * k, top: frame.head.1 + 40.0 * k, bottom: stage.view.origin.1 };
    let seats = of_arrow((tail, tip), 1.0, 1.0, FREE, &margin, k);
    draft.sheet.label(("resultant", 0), 12, rows, seats);
}

/// What the ground gives to both feet in this plane.
pub(super) fn ground(draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
    let Some(reaction) = from_ground(input.of.solution) else { return };
    let stage = draft.stage;
    let k = stage.k;
    let (way, size) = stage.view.way_of(reaction, (0.0, -1.0));
    if size <= 0.0 {
        return;
    }
    let foot = frame.on(&stage, -(0.1 * stage.view.scale + 4.0 * k));
    let room = (stage.height - foot.1 - 8.0 * k).max(0.0);
    let full = size * draft.px_per_newton;
    let tail = sub(foot, times(way, full.min(room)));
    let arrow = Length { kind: Kind::Ground, tail, way, full, room, part: "ground" };
    let (tail, tip) = arrow.draw(&mut draft.sheet);
    let voice = input.of.voice();
    let rows = voice.force(voice.say("ground.both"), size, Kind::Ground);
    let margin =
        Margin { left: foot.0 + 60.0 * k, top: stage.view.origin.1 + 20.0 * k, bottom: stage.height };
    let seats = of_arrow((tail, tip), 1.0, 0.0, FREE, &margin, k);
    draft.sheet.label(("ground", 0), 11, rows, seats);
}

/// Marks the name of a part past what it may carry; one that is not the name itself gets a row.
fn past(input: &SideViewInput<'_>, part: Part, rows: &mut Vec<Row>, name: String) {
    if !input.of.is_over(part) {
        return;
    }
    match rows.first_mut() {
        Some(first) if first.text == name => first.past = true,
        _ => {
            let row = Row { past: true, ..Row::new(name, Lettering::Note, Tone::Ink) };
            rows.push(row);
        }
    }
}

/// A foot that lifts: where it would go, in pencil.
pub(super) fn lifts(draft: &mut Draft, input: &SideViewInput<'_>) {
    let stage = draft.stage;
    let k = stage.k;
    for (number, side) in (0_u8..).zip(Side::BOTH) {
        let held = input.of.solution.forces().is_some_and(|forces| forces.footing.feet.on(side).lifts);
        let tips = matches!(
            (input.of.solution.tips(), side),
            (Some(Tip::Right), Side::Left) | (Some(Tip::Left), Side::Right)
        );
        if !held && !tips {
            continue;
        }
        let foot = stage.view.p(stage.view.flat(*input.of.rig.feet.at.on(side)));
        let tail = add(foot, (-16.0 * k, -4.0 * k));
        let tip = add(tail, (0.0, -(0.45 * stage.view.scale).max(20.0 * k)));
        arrow::pencil(&mut draft.sheet, tail, tip, (0.0, -1.0), "lifts");
        let name = if side == Side::Left { "lifts.left" } else { "lifts.right" };
        let rows = Row::alone(input.of.voice().say(name), Lettering::Value, Tone::Ink);
        let margin =
            Margin { left: foot.0 + 20.0 * k, top: stage.view.origin.1 + 20.0 * k, bottom: stage.height };
        let seats = of_arrow((tail, tip), 1.0, 1.0, FREE, &margin, k);
        draft.sheet.label(("lifts", number), 3, rows, seats);
    }
}

fn margin(frame: &Frame, line: &Run, k: f64) -> Margin {
    let (top, ring) = line.load;
    Margin {
        left: top.0.max(frame.head.0) + 18.0 * k,
        top: top.1 + 10.0 * k,
        bottom: ring.1.max(top.1 + 60.0 * k),
    }
}
