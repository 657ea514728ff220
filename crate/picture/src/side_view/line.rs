//! The main line: over the head, to the load, and away to where it is hauled.

use super::stage::{EDGE, Stage};
use super::{Draft, Frame, SideViewInput};
use crate::drawing::frame::{lashing_half, pulley, pulley_radius, ring};
use crate::drawing::hanging::{LITTER, WEIGHT, litter, weight};
use crate::drawing::rope::{cut, leads_away, working};
use crate::drawing::vec2::{P, add, length, sub, times, unit};
use crate::{Lettering, Role, Row, Seat, Tone};
use outlean_rig::Path as LinePath;

/// The line on the plate, px.
pub(super) struct Run {
    /// Where the pulley, or the ring of a load that is only hung, is.
    pub pulley: P,
    radius: f64,
    kind: Option<Kind>,
    /// The load line: from the pulley to the ring of the load, and its direction.
    pub load: (P, P),
    pub load_way: P,
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

#[derive(Clone, Copy, PartialEq)]
enum Hangs {
    Nothing,
    Weight,
    Litter,
}

/// The pulley at the foot, and where the line goes from there if that can be seen from the side.
struct Redirect {
    at: P,
    tied: P,
    away: Option<(P, bool)>,
}

impl Run {
    pub(super) fn new(stage: &Stage, input: &SideViewInput<'_>, frame: &Frame) -> Self {
        let (k, scale) = (stage.k, stage.scale);
        let line = &input.solution.line;
        let radius = pulley_radius(scale, k);
        let path = input.rig.line.path;
        let kind = match path {
            LinePath::NotOverHead => None,
            LinePath::Hung => Some(Kind::Ring),
            _ => Some(Kind::Pulley),
        };
        // The pulley hangs in its true place, or at least clear of the lashing.
        let (along_pull, _) = stage.way_of(line.on_head(), (0.0, 1.0));
        let true_place = sub(stage.p(stage.flat(line.pulley)), frame.head);
        let least = lashing_half(scale, k) + radius + 2.0 * k;
        let drop = unit(true_place, along_pull);
        let pulley = add(frame.head, times(drop, length(true_place).max(least)));

        let (load_way, _) = stage.way_of(line.load, (0.0, 1.0));
        let (target, redirect) = Self::target(stage, input, frame, radius);
        let haul_way = target.map_or((-1.0, 0.0), |to| unit(sub(to, pulley), (-1.0, 0.0)));
        // The line leaves the pulley on the load side and on the haul side; which is which follows from where the
        // haul line goes.
        let ahead = haul_way.0 * load_way.1 - haul_way.1 * load_way.0 > 0.0;
        let turn = if ahead { -1.0 } else { 1.0 };
        let over = |way: P, side: f64| add(pulley, times((way.1 * side, -way.0 * side), radius));
        let over_pulley = target.is_some() && kind == Some(Kind::Pulley);
        let load_from = if over_pulley { over(load_way, turn) } else { pulley };
        let haul_from = over(haul_way, -turn);

        let hangs = Self::hangs(stage, input);
        let load_to = Self::load_end(stage, load_from, load_way, hangs);
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
        Self {
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
        radius: f64,
    ) -> (Option<P>, Option<Redirect>) {
        let Some(to) = input.rig.line.path.haul_point() else { return (None, None) };
        let (x, z) = stage.flat(to);
        let straight = stage.p((x, z + 0.04));
        if !matches!(
            input.rig.line.path,
            LinePath::RedirectedAtFoot { .. }
                | LinePath::RedirectedMidBase { .. }
                | LinePath::RedirectedOnLedger { .. }
        ) {
            return (Some(straight), None);
        }
        // The pulley stands clear ahead of the foot, so that the rope down to it stands clear of the leg.
        let aside = (0.21 * stage.scale).max(frame.widths.0 / 2.0 + 8.0 * stage.k + radius);
        let at = (stage.foot.0 + aside, stage.foot.1 - (0.02 * stage.scale + 1.5 * radius));
        let tied = (stage.foot.0, at.1 + 0.3 * radius);
        // From there the line goes off to the side, toward us or away: only one that goes mostly fore or aft shows.
        let away = to - input.solution.layout.mid_base;
        let aft = away.dot(input.solution.layout.forward);
        let sideways = away.dot(input.solution.layout.foot_line);
        let shown = aft.abs() > 1.5 * sideways.abs() && aft < 0.0;
        let away = shown.then(|| {
            let from = (at.0, at.1 + radius);
            cut(from, (stage.p((x, z)).0, from.1), stage.inside())
        });
        // The near side of the pulley, where the rope comes down onto it.
        let top = (at.0 + 0.5 * radius, at.1 - 0.85 * radius);
        (Some(top), Some(Redirect { at, tied, away }))
    }

    /// A litter with people where there is room for one; a frame that tips carries a weight, never people.
    fn hangs(stage: &Stage, input: &SideViewInput<'_>) -> Hangs {
        let stands = input.solution.tips().is_none();
        if matches!(input.rig.line.path, LinePath::NotOverHead) {
            Hangs::Nothing
        } else if stands
            && input.show.people
            && input.solution.layout.slant_height > 3.2
            && stage.scale > 22.0
        {
            Hangs::Litter
        } else {
            Hangs::Weight
        }
    }

    /// The ring of the load: below the edge where there is room beside the face, else above the ground.
    fn load_end(stage: &Stage, from: P, way: P, hangs: Hangs) -> P {
        let (reach, below_edge) = match hangs {
            Hangs::Litter => (LITTER, 0.7),
            _ => (WEIGHT, 0.75),
        };
        let from_m = ((from.0 - stage.foot.0) / stage.scale, (stage.foot.1 - from.1) / stage.scale);
        let above = reach.bridle + reach.below + 0.12;
        // From touching the face to half a metre clear of it the load is let down past the edge.
        let clear = EDGE + 0.13 + reach.toward_face;
        let share = ((from_m.0 - clear - 0.03) / 0.5).clamp(0.0, 1.0);
        let share = share * share * (3.0 - 2.0 * share);
        let height = above + (-below_edge - above) * share;
        let height = height.min(from_m.1 - (14.0 * stage.k) / stage.scale);
        let down = way.1.max(0.3);
        let long = ((from_m.1 - height) * stage.scale / down).max(6.0 * stage.k);
        add(from, times(way, long))
    }

    /// The ropes of the line, behind the legs.
    pub(super) fn draw_ropes(&self, draft: &mut Draft, input: &SideViewInput<'_>) {
        if self.kind.is_none() {
            return;
        }
        let stage = draft.stage;
        let k = stage.k;
        if let Some((parts, block)) = self.tackle {
            self.draw_tackle(draft, parts, block);
        } else {
            working(&mut draft.sheet, self.load.0, self.load.1, "load line");
        }
        if let Some((from, to)) = self.haul {
            if self.redirect.is_none() && input.is_over(outlean_rig::Part::MainLine) {
                crate::drawing::rope::sleeve(&mut draft.sheet.scene, from, to, 7.5 * k, "haul line");
            }
            working(&mut draft.sheet, from, to, "haul line");
            if self.cut {
                self.to_haul_team(draft, input, to, self.haul_way);
            }
        }
        if let Some(Redirect { at, away: Some((end, cut)), .. }) = &self.redirect {
            let from = (at.0, at.1 + self.radius);
            working(&mut draft.sheet, from, *end, "haul line");
            if *cut {
                self.to_haul_team(draft, input, *end, unit(sub(*end, from), (-1.0, 0.0)));
            }
        }
    }

    /// The tip and the words where the haul line leaves the plate.
    fn to_haul_team(&self, draft: &mut Draft, input: &SideViewInput<'_>, end: P, way: P) {
        let k = draft.stage.k;
        leads_away(&mut draft.sheet.scene, end, way, "haul line");
        let rows = Row::alone(input.say("line.to_haul_team"), Lettering::Note, Tone::Quiet);
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
        draft.sheet.label(("to haul team", 0), 30, rows, seats);
        draft.sheet.timid();
    }

    fn draw_tackle(&self, draft: &mut Draft, parts: u8, block: P) {
        let k = draft.stage.k;
        let shown = f64::from(parts.clamp(1, 6));
        let aside = (-self.load_way.1, self.load_way.0);
        for i in 0..parts.clamp(1, 6) {
            let off = (f64::from(i) - (shown - 1.0) / 2.0) * 3.6 * k;
            let (from, to) = (add(self.pulley, times(aside, off)), add(block, times(aside, off)));
            working(&mut draft.sheet, from, to, "tackle");
        }
        working(&mut draft.sheet, block, self.load.1, "load line");
    }

    /// Pulleys, sling, and the load, before the legs.
    pub(super) fn draw_hardware(&self, draft: &mut Draft, frame: &Frame) {
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
        let ring = self.load.1;
        let reach = match self.hangs {
            Hangs::Nothing => return,
            Hangs::Weight => {
                weight(&mut draft.sheet.scene, ring, stage.scale);
                WEIGHT
            }
            Hangs::Litter => {
                litter(&mut draft.sheet.scene, ring, stage.scale);
                LITTER
            }
        };
        let bottom = ring.1 + (reach.bridle + reach.below) * stage.scale;
        let middle = ring.0 + (reach.outward - reach.toward_face) / 2.0 * stage.scale;
        let half = (reach.outward + reach.toward_face) / 2.0 * stage.scale;
        let top = ring.1 + 0.35 * reach.bridle * stage.scale + half.min(0.2 * stage.scale);
        draft.sheet.keep_clear((middle, top), (middle, (bottom - half).max(top)), half, false);
    }
}
