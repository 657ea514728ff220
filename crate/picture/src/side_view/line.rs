//! A line: over the head, to the load, and away to where it is hauled. The main line, and the second to the same load.

use super::hung::{self, Hangs, edge_protection, name_along, tag_line};
use super::stage::Stage;
use super::{Draft, Frame, SideViewInput};
use crate::drawing::frame::{lashing_half, pulley, pulley_radius, ring};
use crate::drawing::hanging::{LITTER, WEIGHT, litter, weight};
use crate::drawing::rope::{cut, leads_away, slack, sleeve, working};
use crate::drawing::vec2::{P, add, length, sub, times, unit};
use crate::{Lettering, Role, Row, Seat, Tone};
use outlean_rig::{Line, LineForces, Part, Path as LinePath, Stage as LoadStage};

/// What a line is called in the picture and in the string file.
pub(super) struct Names {
    pub part: Part,
    /// The line itself.
    pub line: &'static str,
    /// What it holds, and where it is hauled: the labels of its arrows.
    pub load: &'static str,
    pub haul: &'static str,
}

static MAIN: Names = Names { part: Part::MainLine, line: "line.main", load: "load", haul: "line.haul" };
static SECOND: Names =
    Names { part: Part::SecondLine, line: "line.second", load: "load.second", haul: "line.haul.second" };

/// A line on the plate, px.
pub(super) struct Run {
    pub names: &'static Names,
    /// Whether it holds anything.
    taut: bool,
    /// Where the pulley, or the ring of a load that is only hung, is.
    pub pulley: P,
    radius: f64,
    kind: Option<Kind>,
    /// The load line as far as it is straight, to the ring of the load or to the edge on which it bears, and its
    /// direction.
    pub load: (P, P),
    pub load_way: P,
    /// The ring of the load.
    pub ring: P,
    /// The haul line: from the pulley to its first end, and its direction.
    pub haul: Option<(P, P)>,
    pub haul_way: P,
    /// Whether the haul line goes on beyond the plate.
    cut: bool,
    redirect: Option<Redirect>,
    hangs: Hangs,
    /// Parts of rope of a tackle, and where its lower block is.
    tackle: Option<(u8, P)>,
}

#[derive(Clone, Copy, PartialEq)]
enum Kind {
    Ring,
    Pulley,
}

/// The pulley at the foot, and where the line goes from there if that can be seen from the side.
struct Redirect {
    at: P,
    tied: P,
    away: Option<(P, bool)>,
}

/// The lines of a rig, the main line first.
pub(super) fn runs(draft: &Draft, input: &SideViewInput<'_>, frame: &Frame) -> Vec<Run> {
    let main = Run::new(draft, input, frame, &MAIN, (&input.of.rig.line, &input.of.solution.line), None);
    let second = input.of.rig.second.as_ref().zip(input.of.solution.second.as_ref());
    let mut all = vec![main];
    if let Some((second, forces)) = second {
        let run = Run::new(draft, input, frame, &SECOND, (&second.line, forces), all.first());
        all.push(run);
    }
    all
}

impl Run {
    fn new(
        draft: &Draft,
        input: &SideViewInput<'_>,
        frame: &Frame,
        names: &'static Names,
        (rigged, line): (&Line, &LineForces),
        beside: Option<&Self>,
    ) -> Self {
        let stage = &draft.stage;
        let (k, scale) = (stage.k, stage.view.scale);
        let radius = pulley_radius(scale, k);
        let path = rigged.path;
        let kind = match path {
            LinePath::NotOverHead => None,
            LinePath::Hung => Some(Kind::Ring),
            _ => Some(Kind::Pulley),
        };
        // The pulley hangs in its true place, or at least clear of the lashing.
        let (along_pull, _) = stage.view.way_of(line.on_head(), (0.0, 1.0));
        let true_place = sub(stage.view.p(stage.view.flat(line.pulley)), frame.head);
        let least = lashing_half(scale, k) + radius + 2.0 * k;
        let drop = unit(true_place, along_pull);
        let mut pulley = add(frame.head, times(drop, length(true_place).max(least)));
        let main = beside.filter(|main| main.kind.is_some());
        if let Some(main) = main
            && length(sub(main.pulley, pulley)) < 2.2 * radius
        {
            pulley = add(main.pulley, (2.2 * radius, 0.3 * radius));
        }

        let (load_way, _) = stage.view.way_of(line.load, (0.0, 1.0));
        let (target, redirect) = Self::target(stage, input, frame, path, radius);
        let haul_way = target.map_or((-1.0, 0.0), |to| unit(sub(to, pulley), (-1.0, 0.0)));
        // The line leaves the pulley on the load side and on the haul side; which is which follows from where the
        // haul line goes.
        let ahead = haul_way.0 * load_way.1 - haul_way.1 * load_way.0 > 0.0;
        let turn = if ahead { -1.0 } else { 1.0 };
        let over = |way: P, side: f64| add(pulley, times((way.1 * side, -way.0 * side), radius));
        let over_pulley = target.is_some() && kind == Some(Kind::Pulley);
        let load_from = if over_pulley { over(load_way, turn) } else { pulley };
        let haul_from = over(haul_way, -turn);

        let corner = stage.view.p(stage.edge);
        let load_to = line.bears_on_edge.then_some(corner);
        // Two lines hold one load.
        let (ring, hangs) = match (main, kind) {
            (Some(main), _) => (main.ring, Hangs::Nothing),
            (None, None) => (pulley, Hangs::Nothing),
            (None, Some(_)) => hung::hang(draft, input, frame, load_from, load_way, line.bears_on_edge),
        };
        let load_to = load_to.unwrap_or(ring);
        let (haul, cut) = match (target, redirect.is_some()) {
            (None, _) => (None, false),
            (Some(to), true) => (Some((haul_from, to)), false),
            (Some(to), false) => {
                let (end, cut) = cut(haul_from, to, stage.inside());
                (Some((haul_from, end)), cut)
            }
        };
        let haul_way = haul.map_or(haul_way, |(from, to)| unit(sub(to, from), haul_way));
        let tackle = match path {
            LinePath::TackleAtHead { parts, .. } => {
                let long = length(sub(load_to, load_from));
                Some((parts, add(load_from, times(load_way, 0.55 * long))))
            }
            _ => None,
        };
        // Off the frame it holds its share all the same.
        let share = match (names.part, &input.of.rig.second) {
            (Part::SecondLine, Some(second)) if kind.is_none() => second.share,
            _ => line.load.size(),
        };
        Self {
            names,
            taut: share > 0.0,
            ring,
            pulley,
            radius,
            kind,
            load: (load_from, load_to),
            load_way,
            haul,
            haul_way,
            cut,
            redirect,
            hangs,
            tackle,
        }
    }

    /// Where the haul line goes from the head, px.
    fn target(
        stage: &Stage,
        input: &SideViewInput<'_>,
        frame: &Frame,
        path: LinePath,
        radius: f64,
    ) -> (Option<P>, Option<Redirect>) {
        let Some(to) = path.haul_point() else { return (None, None) };
        let (x, z) = stage.view.flat(to);
        let straight = stage.view.p((x, z + 0.04));
        if !path.is_redirected() {
            return (Some(straight), None);
        }
        // The pulley stands clear ahead of the foot, so that the rope down to it stands clear of the leg.
        let aside = (0.21 * stage.view.scale).max(frame.widths.0 / 2.0 + 8.0 * stage.k + radius);
        let at =
            (stage.view.origin.0 + aside, stage.view.origin.1 - (0.02 * stage.view.scale + 1.5 * radius));
        let tied = (stage.view.origin.0, at.1 + 0.3 * radius);
        // From there the line goes off to the side, toward us or away: only one that goes mostly fore or aft shows.
        let away = to - input.of.solution.layout.mid_base;
        let aft = away.dot(input.of.solution.layout.forward);
        let sideways = away.dot(input.of.solution.layout.foot_line);
        let shown = aft.abs() > 1.5 * sideways.abs() && aft < 0.0;
        let away = shown.then(|| {
            let from = (at.0, at.1 + radius);
            cut(from, (stage.view.p((x, z)).0, from.1), stage.inside())
        });
        // The near side of the pulley, where the rope comes down onto it.
        let top = (at.0 + 0.5 * radius, at.1 - 0.85 * radius);
        (Some(top), Some(Redirect { at, tied, away }))
    }

    /// A part of the rope: hollow where the line holds nothing.
    fn rope(&self, draft: &mut Draft, from: P, to: P, part: &'static str) {
        if self.taut {
            working(&mut draft.sheet, from, to, part);
        } else {
            slack(&mut draft.sheet, &[from, to], part);
        }
    }

    /// The ring of the load, where it hangs on this line.
    pub(super) fn carries(&self) -> Option<P> {
        self.kind.map(|_| self.ring)
    }

    /// The ropes of the line, behind the legs. `ring` is where the load hangs on the main line.
    pub(super) fn draw_ropes(&self, draft: &mut Draft, input: &SideViewInput<'_>, ring: Option<P>) {
        let stage = draft.stage;
        let k = stage.k;
        if self.kind.is_none() {
            if let (Part::SecondLine, Some(ring)) = (self.names.part, ring) {
                self.draw_off_the_frame(draft, input, ring);
            }
            return;
        }
        if let Some((parts, block)) = self.tackle {
            self.draw_tackle(draft, parts, block);
        } else {
            self.rope(draft, self.load.0, self.load.1, "load line");
        }
        if self.load.1 != self.ring {
            self.rope(draft, self.load.1, self.ring, "load line");
            edge_protection(draft, input);
        }
        if let Some((from, to)) = self.haul {
            if self.redirect.is_none() && input.of.is_over(self.names.part) {
                sleeve(&mut draft.sheet.scene, from, to, 7.5 * k, "haul line");
            }
            self.rope(draft, from, to, "haul line");
            if self.cut {
                self.to_haul_team(draft, input, to, self.haul_way);
            }
        }
        if let Some(Redirect { at, away: Some((end, cut)), .. }) = &self.redirect {
            let from = (at.0, at.1 + self.radius);
            self.rope(draft, from, *end, "haul line");
            if *cut {
                self.to_haul_team(draft, input, *end, unit(sub(*end, from), (-1.0, 0.0)));
            }
        }
        if !self.taut {
            self.name(draft, input, &[self.load.0, self.load.1], true);
        }
    }

    /// The line from the load over the edge and back along the ground.
    fn draw_off_the_frame(&self, draft: &mut Draft, input: &SideViewInput<'_>, ring: P) {
        let stage = draft.stage;
        let (ahead, level) = stage.edge;
        let lift = 0.05;
        let corner = stage.view.p((ahead, level + lift));
        let mut line = vec![ring, corner];
        if stage.bends() < ahead {
            line.push(stage.view.p((stage.bends(), lift)));
        }
        line.push((stage.inside().left, stage.view.p((0.0, lift)).1));
        for piece in line.windows(2) {
            if let [from, to] = piece {
                self.rope(draft, *from, *to, "second line");
            }
        }
        edge_protection(draft, input);
        self.name(draft, input, &line, !self.taut);
    }

    /// The name of a line along which no force is drawn.
    fn name(&self, draft: &mut Draft, input: &SideViewInput<'_>, line: &[P], slack: bool) {
        let mut text = input.of.voice().say(self.names.line);
        if slack {
            text = input.of.words.fill("slack", &[("part", &text)]);
        }
        let key = if self.names.part == Part::MainLine { 0 } else { 1 };
        name_along(draft, ("line", key), text, line);
    }

    /// The tip and the words where the haul line leaves the plate.
    fn to_haul_team(&self, draft: &mut Draft, input: &SideViewInput<'_>, end: P, way: P) {
        let k = draft.stage.k;
        leads_away(&mut draft.sheet.scene, end, way, "haul line");
        let rows = Row::alone(input.of.voice().say("line.to_haul_team"), Lettering::Note, Tone::Quiet);
        let mut seats = Vec::new();
        for back in [6.0, 30.0, 60.0, 100.0] {
            let at = sub(end, times(way, back * k));
            let up = if way.0 < 0.0 { (way.1, -way.0) } else { (-way.1, way.0) };
            let up = if up.1 < 0.0 { up } else { times(up, -1.0) };
            for toward in [up, times(up, -1.0)] {
                let across = if way.0 < 0.0 { crate::Edge::Near } else { crate::Edge::Far };
                for far in [7.0, 17.0] {
                    let seat = Seat::beside(at, toward, far * k);
                    seats.push(if toward.0.abs() < 0.3 { Seat { across, ..seat } } else { seat });
                }
            }
        }
        let key = if self.names.part == Part::MainLine { 0 } else { 1 };
        draft.sheet.label(("to haul team", key), 30, rows, seats);
        draft.sheet.timid();
    }

    fn draw_tackle(&self, draft: &mut Draft, parts: u8, block: P) {
        let k = draft.stage.k;
        let shown = f64::from(parts.clamp(1, 6));
        let aside = (-self.load_way.1, self.load_way.0);
        for i in 0..parts.clamp(1, 6) {
            let off = (f64::from(i) - (shown - 1.0) / 2.0) * 3.6 * k;
            let (from, to) = (add(self.pulley, times(aside, off)), add(block, times(aside, off)));
            self.rope(draft, from, to, "tackle");
        }
        self.rope(draft, block, self.load.1, "load line");
    }

    /// Pulleys, sling, and the load, before the legs.
    pub(super) fn draw_hardware(&self, draft: &mut Draft, input: &SideViewInput<'_>, frame: &Frame) {
        let stage = draft.stage;
        let Some(kind) = self.kind else { return };
        draft.sheet.scene.line(frame.head, self.pulley, Role::Cord, "sling");
        match kind {
            Kind::Pulley => pulley(&mut draft.sheet.scene, self.pulley, self.radius, "pulley"),
            Kind::Ring => ring(&mut draft.sheet.scene, self.pulley, 0.75 * self.radius, "ring"),
        }
        if let Some((_, block)) = self.tackle {
            pulley(&mut draft.sheet.scene, block, self.radius, "pulley");
        }
        draft.sheet.keep_clear(frame.head, self.pulley, self.radius, false);
        if let Some(redirect) = &self.redirect {
            draft.sheet.scene.line(redirect.tied, redirect.at, Role::Cord, "pulley");
            pulley(&mut draft.sheet.scene, redirect.at, self.radius, "redirect pulley");
            let at = redirect.at;
            draft.sheet.keep_clear(at, at, self.radius, false);
        }
        let ring = self.ring;
        let reach = match self.hangs {
            Hangs::Nothing => return,
            Hangs::Weight => {
                weight(&mut draft.sheet.scene, ring, stage.view.scale);
                WEIGHT
            }
            Hangs::Litter => {
                litter(&mut draft.sheet.scene, ring, stage.view.scale);
                LITTER
            }
        };
        let bottom = ring.1 + (reach.bridle + reach.below) * stage.view.scale;
        let middle = ring.0 + (reach.outward - reach.toward_face) / 2.0 * stage.view.scale;
        let half = (reach.outward + reach.toward_face) / 2.0 * stage.view.scale;
        let top = ring.1 + 0.35 * reach.bridle * stage.view.scale + half.min(0.2 * stage.view.scale);
        draft.sheet.keep_clear((middle, top), (middle, (bottom - half).max(top)), half, false);
        if input.of.solution.case.stage == LoadStage::OnTagLines {
            tag_line(draft, input, ring, reach, self.load_way.0 >= -0.02);
        }
    }
}
