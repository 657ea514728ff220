//! Readings as text that an instructor can read aloud.

use super::steps::by_rule;
use super::{Solved, standing};
use crate::name;
use crate::words::words;
use outlean_plan::{Voice, range_said, rule_said};
use outlean_rig::{
    Case, Check, Clearance, Connection, Dimension, Foothold, Footing, Forces, G, Lean, Limit, Part, Role,
    Side, slide, stands_by, worked,
};
use outlean_rigfile::{Units, percent};

/// Everything that is to be said of a solved rig, in the order in which it is asked: does it stand, how far may
/// it lean, what governs, then part by part.
pub(super) fn text(solved: &Solved<'_>, heading: &str, units: Units) -> String {
    let guys = name::guys(solved.file);
    let mut text = Text { solved, voice: name::voice(&guys, units), lines: String::new() };
    text.head(heading);
    text.lean();
    text.range();
    text.resultant();
    text.edge();
    match (solved.solution.forces(), solved.solution.tips()) {
        (Some(forces), _) => {
            text.parts();
            text.guys(forces);
            text.holdfasts();
            text.feet(&forces.footing);
        }
        (None, Some(tip)) => text.line("tips.result", &[("tip", &text.voice.tip(tip))]),
        (None, None) => {}
    }
    text.stretch();
    text.rules();
    text.verdict();
    text.lines
}

struct Text<'a> {
    solved: &'a Solved<'a>,
    voice: Voice<'a>,
    lines: String,
}

impl Text<'_> {
    /// A line of its own.
    fn line(&mut self, key: &str, places: &[(&str, &str)]) {
        self.lines.push_str(&words().fill(key, places));
        self.lines.push('\n');
    }

    /// A line under a heading.
    fn under(&mut self, key: &str, places: &[(&str, &str)]) {
        self.lines.push_str("  ");
        self.line(key, places);
    }

    fn heading(&mut self, key: &str) {
        self.lines.push('\n');
        self.line(key, &[]);
    }

    fn head(&mut self, title: &str) {
        let rig = &self.solved.file.rig;
        let mass = self.voice.mass(rig.load.mass);
        let weight = self.voice.force(rig.load.mass * G);
        let tension = self.voice.force(rig.load.tension());
        self.line("solve.title", &[("title", title)]);
        let key = if tension == weight { "solve.load" } else { "solve.load_moving" };
        self.line(key, &[("mass", &mass), ("weight", &weight), ("tension", &tension)]);
        let case = self.voice.case(rig.case, rig);
        let doing = if case.is_empty() { "solve.line" } else { "solve.line_case" };
        self.line(doing, &[("path", &self.voice.path(&rig.line.path)), ("case", &case)]);
        if let Some(second) = &rig.second {
            let path = self.voice.path(&second.line.path);
            self.line("solve.second", &[("path", &path), ("share", &percent(second.share))]);
        }
    }

    fn lean(&mut self) {
        let layout = &self.solved.solution.layout;
        let slope = Lean::to_slope(layout.lean);
        let run = self.voice.ratio(1.0 / slope.abs());
        let slope = match slope {
            s if s.abs() < 1e-3 => words().say("slope.upright").to_owned(),
            s if s > 0.0 => words().fill("slope.forward", &[("run", &run)]),
            _ => words().fill("slope.back", &[("run", &run)]),
        };
        let places = [
            ("vertical", self.voice.angle(layout.lean)),
            ("ground", self.voice.angle(Lean::to_ground(layout.lean))),
            ("reach", self.voice.length(layout.reach())),
            ("slope", slope),
            ("height", self.voice.length(layout.head_height())),
        ];
        let places: Vec<_> = places.iter().map(|(name, value)| (*name, value.as_str())).collect();
        self.heading("heading.lean");
        self.under("lean.angles", &places);
        self.under("lean.reach", &places);
    }

    /// Lines under a heading.
    fn all(&mut self, lines: Vec<String>) {
        for line in lines {
            self.lines.push_str("  ");
            self.lines.push_str(&line);
            self.lines.push('\n');
        }
    }

    fn range(&mut self) {
        let rig = &self.solved.file.rig;
        self.heading(if rig.cases().len() > 1 { "heading.range_cases" } else { "heading.range" });
        let said = range_said(&self.solved.range, rig, &self.voice);
        self.all(said);
    }

    /// A limit, and in which case it governs, where that makes a difference.
    fn limit(&self, limit: Limit, case: Case) -> String {
        self.voice.limit_in_case(limit, case, &self.solved.file.rig)
    }

    fn resultant(&mut self) {
        let resultant = &self.solved.solution.resultant;
        let force = self.voice.force(resultant.force.size());
        self.heading("heading.resultant");
        match resultant.ahead_of_feet {
            Some(ahead) => {
                let distance = self.voice.length(ahead.abs());
                let key = if ahead >= 0.0 { "resultant.ahead" } else { "resultant.behind" };
                self.under(key, &[("force", &force), ("distance", &distance)]);
            }
            None => self.under("resultant.nowhere", &[("force", &force)]),
        }
        let leans: Vec<_> = self.solved.balance_leans.iter().map(|lean| self.voice.angle(*lean)).collect();
        let leans = leans.join(", ");
        let key = if leans.is_empty() { "balance.none" } else { "balance.lean" };
        self.under(key, &[("leans", &leans)]);
    }

    /// The room at the edge, where the edge is known.
    fn edge(&mut self) {
        let Some(Clearance { clear_reach, headroom }) = self.solved.clearance else { return };
        self.heading("heading.edge");
        let bears = self.solved.solution.lines().any(|line| line.bears_on_edge);
        for (key, room) in [("edge.clear_reach", clear_reach), ("edge.headroom", headroom)] {
            let key = if room >= 0.0 { key.to_owned() } else { format!("{key}.less") };
            let room = self.voice.length(room.abs());
            self.under(&key, &[("room", &room)]);
        }
        if bears {
            self.under("edge.bears", &[]);
        }
    }

    /// Every part against what it may carry, the governing one first.
    fn parts(&mut self) {
        self.heading("heading.parts");
        let mut checks: Vec<&Check> = self.solved.checks.iter().collect();
        checks.sort_by(|a, b| b.ratio.unwrap_or(-1.0).total_cmp(&a.ratio.unwrap_or(-1.0)));
        let governing = self.solved.governing;
        if governing.ratio > 0.0 {
            let limit = self.limit(governing.limit, governing.case);
            // A limit that is no matter of how much has no ratio.
            let key = if governing.ratio.is_finite() { "parts.governing" } else { "parts.governing_alone" };
            self.under(key, &[("limit", &limit), ("ratio", &percent(governing.ratio))]);
        }
        let rig = &self.solved.file.rig;
        if rig.comes_to_rest() {
            self.under("parts.at_rest", &[]);
        }
        if stands_by(rig, &self.solved.solution) {
            self.under("parts.alone", &[]);
        }
        for check in checks {
            let steps = worked(rig, &self.solved.solution, check.part);
            for line in standing::lines(check, &steps, &self.voice) {
                self.lines.push_str("  ");
                self.lines.push_str(&line);
                self.lines.push('\n');
            }
        }
    }

    fn guys(&mut self, forces: &Forces) {
        if forces.guys.is_empty() {
            return;
        }
        self.heading("heading.guys");
        for (number, force) in (0_u8..).zip(&forces.guys) {
            let key = match force.role {
                Role::Working => "guys.working",
                Role::Pretensioned => "guys.pretensioned",
                Role::Slack => "guys.slack",
                Role::NotRigged => "guys.not_rigged",
            };
            let guy = self.voice.guy(number);
            let tension = self.voice.force(force.tension);
            let length = self.solved.solution.guy_length.get(usize::from(number)).copied();
            let length = self.voice.length(length.unwrap_or(f64::NAN));
            self.under(key, &[("guy", guy), ("tension", &tension), ("length", &length)]);
        }
    }

    fn holdfasts(&mut self) {
        let solved = self.solved;
        for (part, pull) in &solved.holdfasts {
            let Some(angle) = pull.angle else { continue };
            let part = match part {
                Part::RedirectPulley | Part::SecondRedirect => {
                    words().fill("holdfast.of", &[("part", &self.voice.part(*part))])
                }
                part => self.voice.part(*part),
            };
            let (size, uplift) = (self.voice.force(pull.size), self.voice.force(pull.uplift.abs()));
            let key = if pull.uplift >= 0.0 { "holdfast.lifted" } else { "holdfast.pressed" };
            let angle = self.voice.angle(angle.abs());
            self.under(key, &[("part", &part), ("size", &size), ("angle", &angle), ("uplift", &uplift)]);
        }
    }

    fn feet(&mut self, footing: &Footing) {
        self.heading("heading.feet");
        for side in Side::BOTH {
            self.foot(side, footing.feet.on(side));
        }
        let feet = &self.solved.file.rig.feet;
        let thrust = self.voice.force(footing.spread_thrust.abs());
        let key = if footing.spread_thrust >= 0.0 { "feet.part" } else { "feet.close" };
        self.under(key, &[("thrust", &thrust)]);
        let pulls = footing.connection > 0.0;
        let pushes = footing.connection < 0.0;
        let key = match feet.connection {
            Connection::None => "feet.no_connection",
            Connection::Hobble if pulls => "feet.hobble",
            Connection::Hobble => "feet.hobble_slack",
            Connection::Ledger if pushes => "feet.ledger_pushes",
            Connection::Ledger => "feet.ledger_pulls",
        };
        self.under(key, &[("force", &self.voice.force(footing.connection.abs()))]);
        let friction = self.voice.ratio(feet.friction.unwrap_or(f64::NAN));
        let key = match (feet.pinned, feet.friction) {
            (true, _) => "feet.pinned",
            (false, Some(_)) => "feet.friction",
            (false, None) => "feet.friction_unknown",
        };
        self.under(key, &[("friction", &friction)]);
        let slides = Side::BOTH.map(|side| slide(&self.solved.file.rig, &self.solved.solution, side));
        for slide in slides.iter().flatten() {
            let foot = foot_name(slide.side);
            let (needed, ratio) = (self.voice.shown(slide.needed, Dimension::Ratio), percent(slide.ratio));
            let key = match slide.ratio {
                ratio if ratio <= 1.0 => "feet.holds",
                ratio if ratio.is_finite() => "feet.slides",
                _ => "feet.not_held",
            };
            self.under(key, &[("foot", &foot), ("needed", &needed), ("ratio", &ratio)]);
        }
        if let Some(slide) = slides.iter().flatten().next() {
            self.under("feet.rule", &[("rule", &by_rule(slide.rule))]);
        }
    }

    fn foot(&mut self, side: Side, foot: &Foothold) {
        let name = foot_name(side);
        let (bearing, kick) = (self.voice.force(foot.bearing.abs()), self.voice.force(foot.kick.abs()));
        let outward = self.voice.force(foot.outward.abs());
        let way = words().say(if foot.kick <= 0.0 { "foot.back" } else { "foot.forward" }).to_owned();
        let across = words().say(if foot.outward >= 0.0 { "foot.outward" } else { "foot.inward" }).to_owned();
        let friction = self.voice.ratio(foot.friction_needed.unwrap_or(f64::NAN));
        let key = match (foot.lifts, foot.friction_needed) {
            (true, _) => "foot.lifts",
            (false, Some(_)) => "foot.stands",
            (false, None) => "foot.unloaded",
        };
        self.under(
            key,
            &[
                ("foot", &name),
                ("bearing", &bearing),
                ("kick", &kick),
                ("way", &way),
                ("outward", &outward),
                ("across", &across),
                ("friction", &friction),
            ],
        );
    }

    /// What becomes of it on guys that stretch.
    fn stretch(&mut self) {
        let Some(giving) = &self.solved.giving else { return };
        self.heading("heading.stretch");
        let said = giving.said(&self.voice);
        self.all(said);
    }

    fn rules(&mut self) {
        self.heading("heading.rules");
        let voice = self.voice;
        let said = self.solved.findings.iter().filter_map(|finding| rule_said(finding, &voice)).collect();
        self.all(said);
    }

    fn verdict(&mut self) {
        let said = self.solved.verdict.said(&self.voice);
        self.heading("heading.verdict");
        self.all(said);
        self.lines.push('\n');
        self.line("caution", &[]);
    }
}

fn foot_name(side: Side) -> String {
    words().say(if side == Side::Left { "foot.left" } else { "foot.right" }).to_owned()
}
