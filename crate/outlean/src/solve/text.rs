//! Readings as text that an instructor can read aloud.

use super::{Solved, standing, verdict};
use crate::cited::Cited;
use crate::name;
use crate::words::words;
use outlean_rig::{
    Case, Check, Clearance, Connection, Dimension, Finding, Foothold, Footing, Forces, G, Interval, Lean,
    Limit, Part, Role, Rule, Side, State, worked,
};
use outlean_rigfile::{Units, percent, show};

/// Everything that is to be said of a solved rig, in the order in which it is asked: does it stand, how far may
/// it lean, what governs, then part by part.
pub(super) fn text(solved: &Solved<'_>, heading: &str, units: Units) -> String {
    let guys = name::guys(solved.file);
    let mut text = Text { solved, units, guys, lines: String::new() };
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
        (None, Some(tip)) => text.line("tips.result", &[("tip", &name::tip(tip))]),
        (None, None) => {}
    }
    text.stretch();
    text.rules();
    text.verdict();
    text.lines
}

struct Text<'a> {
    solved: &'a Solved<'a>,
    units: Units,
    guys: Vec<String>,
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

    fn shown(&self, value: f64, dimension: Dimension) -> String {
        show(value, dimension, self.units).to_string()
    }

    fn force(&self, value: f64) -> String {
        self.shown(value, Dimension::Force)
    }

    fn angle(&self, value: f64) -> String {
        self.shown(value, Dimension::Angle)
    }

    fn head(&mut self, title: &str) {
        let rig = &self.solved.file.rig;
        let mass = self.shown(rig.load.mass, Dimension::Mass);
        let weight = self.force(rig.load.mass * G);
        let tension = self.force(rig.load.tension());
        self.line("solve.title", &[("title", title)]);
        let key = if tension == weight { "solve.load" } else { "solve.load_moving" };
        self.line(key, &[("mass", &mass), ("weight", &weight), ("tension", &tension)]);
        let case = name::case(rig.case, rig);
        let doing = if case.is_empty() { "solve.line" } else { "solve.line_case" };
        self.line(doing, &[("path", &name::path(&rig.line.path)), ("case", &case)]);
        if let Some(second) = &rig.second {
            let path = name::path(&second.line.path);
            self.line("solve.second", &[("path", &path), ("share", &percent(second.share))]);
        }
    }

    fn lean(&mut self) {
        let layout = &self.solved.solution.layout;
        let slope = Lean::to_slope(layout.lean);
        let run = show(1.0 / slope.abs(), Dimension::Ratio, self.units).to_string();
        let slope = match slope {
            s if s.abs() < 1e-3 => words().say("slope.upright").to_owned(),
            s if s > 0.0 => words().fill("slope.forward", &[("run", &run)]),
            _ => words().fill("slope.back", &[("run", &run)]),
        };
        let places = [
            ("vertical", self.angle(layout.lean)),
            ("ground", self.angle(Lean::to_ground(layout.lean))),
            ("reach", self.shown(layout.reach(), Dimension::Length)),
            ("slope", slope),
            ("height", self.shown(layout.head_height(), Dimension::Length)),
        ];
        let places: Vec<_> = places.iter().map(|(name, value)| (*name, value.as_str())).collect();
        self.heading("heading.lean");
        self.under("lean.angles", &places);
        self.under("lean.reach", &places);
    }

    fn range(&mut self) {
        let range = &self.solved.range;
        let cases = self.solved.file.rig.cases().len() > 1;
        self.heading(if cases { "heading.range_cases" } else { "heading.range" });
        for interval in &range.intervals {
            let (from, to) = (self.angle(interval.from), self.angle(interval.to));
            self.under("range.interval", &[("from", &from), ("to", &to)]);
            let Interval { from_limit, to_limit, from_case, to_case, .. } = *interval;
            self.end("range.nearer", &from, from_limit, from_case);
            self.end("range.farther", &to, to_limit, to_case);
        }
        if range.intervals.is_empty() {
            let lean = self.angle(range.best_lean);
            let limit = name::limit(range.best_limit, &self.guys);
            let key = if range.best_ratio.is_finite() { "range.none" } else { "range.none_at_all" };
            self.under(key, &[("lean", &lean), ("limit", &limit)]);
        } else {
            let inside = range.around(self.solved.file.rig.lean).is_some();
            let lean = self.angle(self.solved.file.rig.lean);
            // An end rounds to the same figures as a lean just beyond it.
            let ends = range.intervals.iter().flat_map(|interval| [interval.from, interval.to]);
            let beside = ends.map(|end| self.angle(end)).any(|end| end == lean);
            let key = match (inside, beside) {
                (true, _) => "range.inside",
                (false, true) => "range.just_outside",
                (false, false) => "range.outside",
            };
            self.under(key, &[("lean", &lean)]);
        }
    }

    fn end(&mut self, key: &str, lean: &str, limit: Limit, case: Case) {
        let what = self.limit(limit, case);
        self.under(key, &[("lean", lean), ("limit", &what)]);
    }

    /// A limit, and in which case it governs, where that makes a difference.
    fn limit(&self, limit: Limit, case: Case) -> String {
        name::limit_in_case(limit, case, &self.solved.file.rig, &self.guys)
    }

    fn resultant(&mut self) {
        let resultant = &self.solved.solution.resultant;
        let force = self.force(resultant.force.size());
        self.heading("heading.resultant");
        match resultant.ahead_of_feet {
            Some(ahead) => {
                let distance = self.shown(ahead.abs(), Dimension::Length);
                let key = if ahead >= 0.0 { "resultant.ahead" } else { "resultant.behind" };
                self.under(key, &[("force", &force), ("distance", &distance)]);
            }
            None => self.under("resultant.nowhere", &[("force", &force)]),
        }
        let leans: Vec<_> = self.solved.balance_leans.iter().map(|lean| self.angle(*lean)).collect();
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
            let room = self.shown(room.abs(), Dimension::Length);
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
        if governing.ratio > 0.0 && governing.ratio.is_finite() {
            let limit = self.limit(governing.limit, governing.case);
            self.under("parts.governing", &[("limit", &limit), ("ratio", &percent(governing.ratio))]);
        }
        let rig = &self.solved.file.rig;
        for check in checks {
            let steps = worked(rig, &self.solved.solution, check.part);
            for line in standing::lines(check, &steps, &self.guys, self.units) {
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
            let guy = name::guy(number, &self.guys).to_owned();
            let tension = self.force(force.tension);
            let length = self.solved.solution.guy_length.get(usize::from(number)).copied();
            let length = self.shown(length.unwrap_or(f64::NAN), Dimension::Length);
            self.under(key, &[("guy", &guy), ("tension", &tension), ("length", &length)]);
        }
    }

    fn holdfasts(&mut self) {
        let solved = self.solved;
        for (part, pull) in &solved.holdfasts {
            let Some(angle) = pull.angle else { continue };
            let part = match part {
                Part::RedirectPulley | Part::SecondRedirect => {
                    words().fill("holdfast.of", &[("part", &name::part(*part, &self.guys))])
                }
                part => name::part(*part, &self.guys),
            };
            let (size, uplift) = (self.force(pull.size), self.force(pull.uplift.abs()));
            let key = if pull.uplift >= 0.0 { "holdfast.lifted" } else { "holdfast.pressed" };
            let angle = self.angle(angle.abs());
            self.under(key, &[("part", &part), ("size", &size), ("angle", &angle), ("uplift", &uplift)]);
        }
    }

    fn feet(&mut self, footing: &Footing) {
        self.heading("heading.feet");
        for side in Side::BOTH {
            self.foot(side, footing.feet.on(side));
        }
        let feet = &self.solved.file.rig.feet;
        let thrust = self.force(footing.spread_thrust.abs());
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
        self.under(key, &[("force", &self.force(footing.connection.abs()))]);
        let friction = show(feet.friction.unwrap_or(f64::NAN), Dimension::Ratio, self.units).to_string();
        let key = match (feet.pinned, feet.friction) {
            (true, _) => "feet.pinned",
            (false, Some(_)) => "feet.friction",
            (false, None) => "feet.friction_unknown",
        };
        self.under(key, &[("friction", &friction)]);
    }

    fn foot(&mut self, side: Side, foot: &Foothold) {
        let name = words().say(if side == Side::Left { "foot.left" } else { "foot.right" }).to_owned();
        let (bearing, kick) = (self.force(foot.bearing.abs()), self.force(foot.kick.abs()));
        let outward = self.force(foot.outward.abs());
        let way = words().say(if foot.kick <= 0.0 { "foot.back" } else { "foot.forward" }).to_owned();
        let across = words().say(if foot.outward >= 0.0 { "foot.outward" } else { "foot.inward" }).to_owned();
        let friction =
            show(foot.friction_needed.unwrap_or(f64::NAN), Dimension::Ratio, self.units).to_string();
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
        for said in giving.said(&self.guys, self.units) {
            self.lines.push_str("  ");
            self.lines.push_str(&said);
            self.lines.push('\n');
        }
    }

    fn rules(&mut self) {
        self.heading("heading.rules");
        let solved = self.solved;
        for Finding { rule, source, value, wanted, met } in &solved.findings {
            let (key, number, dimension) = match rule {
                Rule::SetbackAtLeast(number) => ("rule.setback_at_least", *number, Dimension::Ratio),
                Rule::SetbackPreferred(number) => ("rule.setback_preferred", *number, Dimension::Ratio),
                Rule::AftGuy => ("rule.aft_guy", 0, Dimension::Count),
                Rule::ForeGuy => ("rule.fore_guy", 0, Dimension::Count),
                Rule::UprightStop => ("rule.upright_stop", 0, Dimension::Angle),
                Rule::StraightBackWantsForeGuy => ("rule.straight_back", 0, Dimension::Count),
                Rule::SetbackOlder(number) => ("rule.setback_older", *number, Dimension::Ratio),
                Rule::ForeAhead(number) => ("rule.fore_ahead", *number, Dimension::Length),
                Rule::HoldfastSteep(number) => ("rule.holdfast_steep", *number, Dimension::Angle),
                Rule::PicketSpacing(number) => ("rule.picket_spacing", *number, Dimension::Length),
                Rule::LeanLeast => ("rule.lean_least", 0, Dimension::Angle),
                Rule::LeanUnloadedMost => ("rule.lean_unloaded_most", 0, Dimension::Angle),
                Rule::LeanLoadedMost => ("rule.lean_loaded_most", 0, Dimension::Angle),
                Rule::SpreadMost => ("rule.spread_most", 0, Dimension::Ratio),
                Rule::Slenderness(Side::Left) => ("rule.slenderness.left", 0, Dimension::Count),
                Rule::Slenderness(Side::Right) => ("rule.slenderness.right", 0, Dimension::Count),
                _ => continue,
            };
            let guy = name::guy(number, &self.guys).to_owned();
            let (value, wanted) = (self.shown(*value, dimension), self.shown(*wanted, dimension));
            let met = words().say(if *met { "rule.met" } else { "rule.not_met" }).to_owned();
            let places = [("guy", guy.as_str()), ("value", &value), ("wanted", &wanted), ("met", &met)];
            let said = words().fill(key, &places);
            let cited = Cited::said(*source);
            self.under("rule.cited", &[("rule", &said), ("source", &cited)]);
        }
    }

    fn verdict(&mut self) {
        let of = |states: &[State]| -> Vec<String> {
            let checks = self.solved.checks.iter().filter(|check| states.contains(&check.state));
            checks.map(|check| name::part(check.part, &self.guys)).collect()
        };
        let with = |state: State| of(&[state]);
        let rig = &self.solved.file.rig;
        let past: Vec<_> = self.solved.past.iter().map(|past| name::limit(past.limit, &self.guys)).collect();
        let mut held = of(&[State::Assessed, State::Assumed]);
        let stands = self.solved.solution.forces().is_some();
        let friction_known = rig.feet.pinned || rig.feet.friction.is_some();
        if stands && !rig.feet.pinned && friction_known {
            held.push(words().say("assessed.friction").to_owned());
        }
        if rig.limits.upright_stop.is_some() {
            held.push(words().say("limit.upright_stop").to_owned());
        }
        let assumed = with(State::Assumed);
        let (key, limits) = match (past.is_empty(), held.is_empty()) {
            (false, _) => ("verdict.past", past),
            (true, false) => ("verdict.within", held),
            (true, true) => ("verdict.no_limits", Vec::new()),
        };
        let mut not_assessed = with(State::NotAssessed);
        if !stands {
            not_assessed.push(words().say("not_assessed.every_part").to_owned());
        } else if !friction_known {
            not_assessed.push(words().say("not_assessed.friction").to_owned());
        }
        for left_out in verdict::left_out(self.solved) {
            not_assessed.push(words().say(&format!("not_assessed.{left_out}")).to_owned());
        }
        let mut confirm = with(State::ConfirmOnSite);
        if confirm.is_empty() {
            confirm.push(words().say("part.lashing").to_owned());
        }
        self.heading("heading.verdict");
        self.under(key, &[("limits", &limits.join(", "))]);
        if !assumed.is_empty() {
            self.under("verdict.assumed", &[("parts", &assumed.join(", "))]);
        }
        self.under("verdict.not_assessed", &[("parts", &not_assessed.join(", "))]);
        self.under("verdict.confirm", &[("parts", &confirm.join(", "))]);
        self.lines.push('\n');
        self.line("caution", &[]);
    }
}
