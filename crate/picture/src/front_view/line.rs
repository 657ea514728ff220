//! The lines over the head: down to the load, and away to where they are hauled.

use super::frame::Frame;
use super::guys::margin;
use super::stage::Stage;
use super::toward::{Rope, Seen};
use super::{Draft, FrontViewInput};
use crate::drawing::frame::{lashing_half, pulley, pulley_radius, ring};
use crate::drawing::ground::picket;
use crate::drawing::length::Length;
use crate::drawing::rope::{leads_away, sleeve, working};
use crate::drawing::vec2::{P, add, along, length, sub, times, unit};
use crate::side_view::seats::{On, of_arrow};
use crate::{Edge, Kind, Lettering, PROJECTOR, Role, Row, Seat, Tone};
use outlean_rig::{Line, LineForces, Part, Path, Side};

/// A line on the plate, px.
pub(super) struct Run<'a> {
    forces: &'a LineForces,
    /// 0 the main line, 1 the second line.
    number: u8,
    pulley: P,
    radius: f64,
    /// Whether the line runs over a pulley; else it is hung by a ring.
    runs: bool,
    load: (P, P),
    load_way: P,
    haul: Option<Rope>,
    redirect: Option<Redirect>,
    parts: u8,
}

/// A pulley below, and the line from there on.
struct Redirect {
    at: P,
    tied: P,
    /// Whether it has a holdfast of its own.
    own_holdfast: bool,
    away: Rope,
}

/// The lines that run over the head, the main line first.
pub(super) fn runs<'a>(stage: &Stage, input: &FrontViewInput<'a>, frame: &Frame) -> Vec<Run<'a>> {
    let mut all = Vec::new();
    let second =
        input.of.rig.second.as_ref().map(|second| &second.line).zip(input.of.solution.second.as_ref());
    for (number, (line, forces)) in
        (0_u8..).zip(core::iter::once((&input.of.rig.line, &input.of.solution.line)).chain(second))
    {
        if !matches!(line.path, Path::NotOverHead) {
            let beside = all.first().map(|main: &Run<'_>| main.pulley);
            all.push(Run::new(stage, input, frame, (number, line, forces), beside));
        }
    }
    all
}

impl<'a> Run<'a> {
    fn new(
        stage: &Stage,
        input: &FrontViewInput<'_>,
        frame: &Frame,
        (number, line, forces): (u8, &Line, &'a LineForces),
        beside: Option<P>,
    ) -> Self {
        let (k, view, layout) = (stage.k, stage.view, &input.of.solution.layout);
        let radius = pulley_radius(view.scale, k);
        // The pulley hangs in its true place, or at least clear of the lashing and of the other one.
        let (pull, _) = view.way_of(forces.on_head(), (0.0, 1.0));
        let true_place = sub(view.at(forces.pulley), frame.head);
        let least = lashing_half(view.scale, k) + radius + 2.0 * k;
        let drop = unit(true_place, pull);
        let mut at = add(frame.head, times(drop, length(true_place).max(least)));
        if let Some(other) = beside
            && length(sub(at, other)) < 3.2 * radius
        {
            at = (other.0 + 3.2 * radius, at.1);
        }

        let (load_way, _) = view.way_of(forces.load, (0.0, 1.0));
        let redirect = Self::redirect(stage, input, frame, line, radius);
        let target = redirect.as_ref().map(|redirect| redirect.at);
        let target = target.or_else(|| line.path.haul_point().map(|to| view.at(to)));
        // The haul line leaves the pulley on the side to which it goes, the load line on the other.
        let side = match target {
            Some(target) if target.0 > at.0 + 2.0 * k => 1.0,
            _ => -1.0,
        };
        let runs = target.is_some();
        let over = |side: f64| if runs { (at.0 + side * radius, at.1) } else { at };
        let load_from = over(-side);
        let haul = target.map(|target| match &redirect {
            Some(redirect) => {
                let from = over(side);
                let to = (target.0 - redirect.away.way.0.signum() * 0.9 * radius, target.1 - 0.3 * radius);
                let chord = length(sub(to, from));
                let flat = view.flat_force(forces.haul);
                let share = libm::hypot(flat.0, flat.1) / forces.haul.size().max(1e-9);
                let seen = Seen::Whole { cut: false, sunk: false };
                let way = if chord > 0.0 { unit(sub(to, from), (0.0, 1.0)) } else { (0.0, 1.0) };
                Rope { from, to, way, seen, share }
            }
            None => {
                let to = line.path.haul_point().unwrap_or(layout.mid_base);
                let aside = view.flat(to).0.abs() > stage.half + 0.25;
                let least = (0.5 * view.scale).max(30.0 * k);
                Rope::new(stage, layout, (over(side), forces.pulley), to, aside, least)
            }
        });
        let down = load_way.1.max(0.3);
        let floor = stage.ground_px(load_from.0 + load_way.0 * (stage.lowest() - load_from.1) / down);
        let long = ((floor - load_from.1) / down).max(6.0 * k);
        let parts = if let Path::TackleAtHead { parts, .. } = line.path { parts.clamp(1, 6) } else { 1 };
        Self {
            forces,
            number,
            pulley: at,
            radius,
            runs,
            load: (load_from, along(load_from, load_way, long)),
            load_way,
            haul,
            redirect,
            parts,
        }
    }

    fn redirect(
        stage: &Stage,
        input: &FrontViewInput<'_>,
        frame: &Frame,
        line: &Line,
        radius: f64,
    ) -> Option<Redirect> {
        let (k, view, layout) = (stage.k, stage.view, &input.of.solution.layout);
        let to = line.path.haul_point()?;
        let away = to - layout.mid_base;
        let sideways = view.flat(to).0;
        // What runs mostly fore or aft comes toward the reader or goes away; the side view shows it.
        let aside = away.dot(layout.forward).abs() <= 1.5 * sideways.abs();
        let ((at, tied), start, own_holdfast) = match line.path {
            Path::RedirectedAtFoot { foot, .. } => {
                let inward = if foot == Side::Left { 1.0 } else { -1.0 };
                let up = (0.12 * view.scale).max(2.2 * radius);
                let leg = frame.above_foot(stage, foot, up / view.scale);
                let off = frame.widths.0 / 2.0 + 8.0 * k + radius;
                (((leg.0 + inward * off, leg.1), leg), *input.of.rig.feet.at.on(foot), false)
            }
            Path::RedirectedOnLedger { .. } => {
                let middle = super::connection::middle(stage, input, frame);
                (((middle.0, middle.1 - 1.9 * radius), middle), layout.mid_base, false)
            }
            Path::RedirectedMidBase { .. } => {
                let ground = view.p((0.0, stage.ground_at(0.0)));
                (((ground.0, ground.1 - 2.6 * radius), ground), layout.mid_base, true)
            }
            _ => return None,
        };
        let least = (0.4 * view.scale).max(26.0 * k);
        let away = Rope::new(stage, layout, ((at.0, at.1 + radius), start), to, aside, least);
        Some(Redirect { at, tied, own_holdfast, away })
    }

    /// The load line, behind the frame: to where the ground hides it.
    pub(super) fn draw_load(&self, draft: &mut Draft) {
        if self.parts > 1 {
            let shown = f64::from(self.parts);
            let block = self.block();
            for i in 0..self.parts {
                let off = (f64::from(i) - (shown - 1.0) / 2.0) * 3.6 * draft.stage.k;
                working(
                    &mut draft.sheet,
                    (self.pulley.0 + off, self.pulley.1),
                    (block.0 + off, block.1),
                    "tackle",
                );
            }
            working(&mut draft.sheet, block, self.load.1, "load line");
        } else {
            working(&mut draft.sheet, self.load.0, self.load.1, "load line");
        }
    }

    /// The rope as a part of the rig.
    const fn part(&self) -> Part {
        if self.number == 0 { Part::MainLine } else { Part::SecondLine }
    }

    /// The lower block of a tackle.
    fn block(&self) -> P {
        along(self.load.0, self.load_way, 0.55 * length(sub(self.load.1, self.load.0)))
    }

    /// Sling, pulleys and the haul line, over the frame.
    pub(super) fn draw_haul(&self, draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
        let k = draft.stage.k;
        if let Some(haul) = &self.haul {
            if input.of.is_over(self.part()) {
                sleeve(&mut draft.sheet.scene, haul.from, haul.to, 7.5 * k, "haul line");
            }
            haul.draw_taut(draft, "haul line");
            if self.redirect.is_none() {
                self.to_haul_team(draft, input, haul);
            }
        }
        if let Some(redirect) = &self.redirect {
            if redirect.own_holdfast {
                let at = (redirect.tied.0, redirect.tied.1);
                picket(&mut draft.sheet.scene, at, 0.0, draft.stage.view.scale, "holdfast");
            }
            redirect.away.draw_taut(draft, "haul line");
            self.to_haul_team(draft, input, &redirect.away);
            draft.sheet.scene.line(redirect.tied, redirect.at, Role::Cord, "pulley");
            pulley(&mut draft.sheet.scene, redirect.at, self.radius, "redirect pulley");
            draft.sheet.keep_clear(redirect.at, redirect.at, self.radius, false);
        }
        draft.sheet.scene.line(frame.head, self.pulley, Role::Cord, "sling");
        if self.runs {
            pulley(&mut draft.sheet.scene, self.pulley, self.radius, "pulley");
        } else {
            ring(&mut draft.sheet.scene, self.pulley, 0.75 * self.radius, "ring");
        }
        if self.parts > 1 {
            pulley(&mut draft.sheet.scene, self.block(), self.radius, "pulley");
        }
        draft.sheet.keep_clear(frame.head, self.pulley, self.radius, false);
    }

    /// Where the line is hauled from: an open tip and the words.
    fn to_haul_team(&self, draft: &mut Draft, input: &FrontViewInput<'_>, rope: &Rope) {
        let stage = draft.stage;
        let (k, voice) = (stage.k, input.of.voice());
        let mut text = voice.say("line.to_haul_team");
        let seats = match rope.seen {
            Seen::Begins { toward } => {
                // A line straight from the head is named with its force.
                if self.redirect.is_none() && input.show.forces {
                    return;
                }
                text = input.of.words.fill(if toward { "toward" } else { "away" }, &[("part", &text)]);
                rope.seats(&stage, if rope.way.0 < -0.3 || self.redirect.is_none() { -1.0 } else { 1.0 })
            }
            Seen::Whole { sunk: true, .. } => return,
            Seen::Whole { .. } => {
                leads_away(&mut draft.sheet.scene, rope.to, rope.way, "haul line");
                let across = if rope.way.0 < 0.0 { Edge::Near } else { Edge::Far };
                let up = if rope.way.0 < 0.0 { (rope.way.1, -rope.way.0) } else { (-rope.way.1, rope.way.0) };
                let up = if up.1 < 0.0 { up } else { times(up, -1.0) };
                let mut seats = Vec::new();
                for back in [2.0, 20.0, 44.0, 70.0, 100.0] {
                    let at = sub(rope.to, times(rope.way, back * k));
                    for (toward, off) in [(up, 7.0), (times(up, -1.0), 9.0), (up, 22.0), (up, 38.0)] {
                        let seat = Seat::beside(at, toward, off * k);
                        seats.push(if toward.0.abs() < 0.3 { Seat { across, ..seat } } else { seat });
                    }
                }
                seats
            }
        };
        let rows = Row::alone(text, Lettering::Note, Tone::Quiet);
        draft.sheet.label(("to haul team", self.number), 12, rows, seats);
    }

    /// The forces on the load line and the haul line.
    pub(super) fn draw_forces(&self, draft: &mut Draft, input: &FrontViewInput<'_>, frame: &Frame) {
        let stage = draft.stage;
        let (k, voice) = (stage.k, input.of.voice());
        let margin = margin(&stage, frame);
        let on = On { half: 0.0, goes_on: true };
        let shared = input.of.solution.second.as_ref().is_some_and(|second| second.load.size() > 0.0);
        let tension = self.forces.load.size();
        if tension > 0.0 {
            let (from, to) = self.load;
            let flat = stage.view.flat_force(self.forces.load);
            let ends = Length {
                kind: Kind::Load,
                tail: from,
                way: self.load_way,
                full: libm::hypot(flat.0, flat.1) * draft.px_per_newton,
                room: length(sub(to, from)),
                part: "load",
            }
            .draw(&mut draft.sheet);
            let key = match (shared, self.number) {
                (false, _) => "load",
                (true, 0) => "load.main",
                (true, _) => "load.second",
            };
            let rows = voice.force(voice.say(key), tension, Kind::Load);
            let open = if from.0 < self.pulley.0 { -1.0 } else { 1.0 };
            let seats = of_arrow(ends, open, 1.0, on, &margin, k);
            draft.sheet.label(("load", self.number), 7, rows, seats);
        }
        let Some(haul) = self.haul.filter(|_| self.forces.haul_tension > 0.0 && k < PROJECTOR) else {
            return;
        };
        let name = if self.number == 0 { "line.haul" } else { "line.haul.second" };
        let mut name = voice.say(name);
        let open = if haul.from.0 < self.pulley.0 { 1.0 } else { -1.0 };
        let seats = match haul.seen {
            Seen::Begins { toward } => {
                name = input.of.words.fill(if toward { "toward" } else { "away" }, &[("part", &name)]);
                haul.seats(&stage, -open)
            }
            Seen::Whole { .. } => {
                let start = 0.06 * stage.view.scale;
                let ends = Length {
                    kind: Kind::Pull,
                    tail: along(haul.from, haul.way, start),
                    way: haul.way,
                    full: self.forces.haul_tension * haul.share * draft.px_per_newton,
                    room: length(sub(haul.to, haul.from)) - start - 8.0 * k,
                    part: "haul line",
                }
                .draw(&mut draft.sheet);
                of_arrow(ends, -open, 1.0, on, &margin, k)
            }
        };
        let mut rows = voice.force(name, self.forces.haul_tension, Kind::Pull);
        if let (true, Some(first)) = (input.of.is_over(self.part()), rows.first_mut()) {
            first.past = true;
        }
        draft.sheet.label(("haul line", self.number), 8, rows, seats);
        self.sideways(draft, input);
    }

    /// The pull of the line where it leaves its redirect pulley: what draws the foot to that side.
    fn sideways(&self, draft: &mut Draft, input: &FrontViewInput<'_>) {
        let Some(redirect) = self.redirect.as_ref().filter(|_| input.show.ground_forces) else { return };
        let Rope { from, to, way, seen: Seen::Whole { .. }, share } = redirect.away else { return };
        let k = draft.stage.k;
        let start = self.radius + 2.0 * k;
        Length {
            kind: Kind::Pull,
            tail: along(from, way, start),
            way,
            full: self.forces.after_redirect * share * draft.px_per_newton,
            room: length(sub(to, from)) - start - 18.0 * k,
            part: "haul line",
        }
        .draw(&mut draft.sheet);
    }
}
