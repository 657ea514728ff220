//! The answers: what to do with it, what governs, how far it stretches, what would help, how surely.

use super::{Line, Saying, Section};
use crate::{Advice, Several, Source, governing_said, proposal_said, range_said, remedy_said, rule_said};
use outlean_rig::{Band, Governing, LeanIs, StretchCheck};
use outlean_rigfile::percent;

/// How many limits are named.
const NAMED: usize = 6;
/// The share of draws past a limit from which on the verdict speaks of it: our choice.
const MANY: f64 = 0.05;
/// How many proposals are named.
const PROPOSED: usize = 8;

impl Saying<'_> {
    pub(super) fn occasion(&self) -> Section {
        let job = &self.plan.job;
        let said = [("plan.place", &job.place), ("plan.date", &job.date), ("plan.in_charge", &job.in_charge)];
        let mut lines: Vec<_> = said
            .into_iter()
            .map(|(key, there)| {
                let blank = self.voice.say("plan.blank");
                self.text(key, &[("text", there.as_deref().unwrap_or(&blank))])
            })
            .collect();
        let rig = self.rig;
        let (mass, weight) = (self.voice.mass(rig.load.mass), self.voice.force(rig.load.weight()));
        lines.push(self.text("plan.load", &[("mass", &mass), ("weight", &weight)]));
        lines.push(self.text("plan.line", &[("path", &self.voice.path(&rig.line.path))]));
        if let Some(second) = &rig.second {
            let (path, share) = (self.voice.path(&second.line.path), percent(second.share));
            lines.push(self.text("plan.second", &[("path", &path), ("share", &share)]));
        }
        let lean = self.voice.angle(rig.lean);
        let key = match rig.lean_is {
            LeanIs::UnderLoad => "plan.lean.under_load",
            LeanIs::SetBefore | LeanIs::Cut => "plan.lean.set",
        };
        lines.push(self.text(key, &[("lean", &lean)]));
        self.section("occasion", lines)
    }

    pub(super) fn verdict(&self) -> Section {
        let mut lines = vec![Line::Lead(match &self.plan.advice {
            Advice::Build => self.voice.say("plan.advice.build"),
            Advice::FindOut(unknown) => {
                let unknown: Vec<_> = unknown.iter().map(|gap| gap.said(&self.voice)).collect();
                self.voice.fill("plan.advice.find_out", &[("parts", &unknown.join(", "))])
            }
            Advice::TestLess => {
                self.voice.fill("plan.advice.test_less", &[("mass", &self.voice.mass(self.plan.test.mass))])
            }
            Advice::Stiffen => self.voice.say("plan.advice.stiffen"),
            Advice::Change => self.voice.say("plan.advice.change"),
            Advice::DoNotBuild => self.voice.say("plan.advice.do_not_build"),
        })];
        lines.extend(self.plan.verdict.past.iter().map(|past| Line::Point(self.past(past))));
        if let Some(found) = self.plan.uncertainty.as_ref().filter(|_| self.plan.advice.may_be_built()) {
            let share = f64::from(found.past) / f64::from((found.draws - found.impossible).max(1));
            if share > MANY {
                lines.push(self.text("plan.not_so_surely", &[("past", &percent(share))]));
            }
        }
        if self.plan.advice == Advice::DoNotBuild {
            lines.push(Line::Text(self.voice.say(if self.plan.range.intervals.is_empty() {
                "plan.no_lean_helps"
            } else {
                "plan.other_lean"
            })));
            lines.push(Line::Text(self.voice.say("plan.nothing_small_helps")));
        }
        lines.extend(self.plan.verdict.said(&self.voice).into_iter().map(Line::Text));
        if self.plan.several == Several::StandBy {
            lines.push(Line::Text(self.voice.say("plan.alone")));
        }
        self.section("verdict", lines)
    }

    /// Why it is past a limit.
    fn past(&self, past: &Governing) -> String {
        let limit = self.voice.limit_in_case(past.limit, past.case, self.rig);
        let key = if past.ratio.is_finite() { "plan.past" } else { "plan.past.not_at_all" };
        self.voice.fill(key, &[("limit", &limit), ("ratio", &percent(past.ratio))])
    }

    pub(super) fn range(&self) -> Section {
        let mut lines: Vec<_> =
            range_said(&self.plan.range, self.rig, &self.voice).into_iter().map(Line::Text).collect();
        if let Some(clearance) = self.plan.clearance {
            for (key, room) in
                [("edge.clear_reach", clearance.clear_reach), ("edge.headroom", clearance.headroom)]
            {
                let key = if room >= 0.0 { key.to_owned() } else { format!("{key}.less") };
                lines.push(self.text(&key, &[("room", &self.voice.length(room.abs()))]));
            }
        }
        self.section("range", lines)
    }

    pub(super) fn limits(&self) -> Section {
        let mut lines = Vec::new();
        let governing = &self.plan.governing;
        if governing.ratio > 0.0 {
            let said = governing_said(governing, self.rig, &self.voice);
            let key = if governing.ratio.is_finite() { "plan.governs" } else { "plan.governs_rule" };
            lines.push(self.text(key, &[("governs", &said)]));
        }
        if governing.holds() && governing.ratio > 0.0 {
            let times = self.voice.ratio(1.0 / governing.ratio);
            lines.push(self.text("plan.margin", &[("times", &times)]));
        }
        let others =
            self.plan.limits.iter().filter(|other| other.limit != governing.limit && other.ratio > 0.0);
        lines.extend(
            others.take(NAMED - 1).map(|other| Line::Point(governing_said(other, self.rig, &self.voice))),
        );
        self.section("limits", lines)
    }

    pub(super) fn stretching(&self) -> Option<Section> {
        let voice = &self.voice;
        let Some(found) = &self.plan.stretching else {
            return Some(self.section("stretch", vec![Line::Text(voice.say("plan.stretch.unknown"))]));
        };
        let mut lines = Vec::new();
        let angle =
            |lean: Option<f64>| lean.map_or_else(|| voice.say("stretch.unknown"), |lean| voice.angle(lean));
        let (set, loaded) = (angle(found.set_lean), angle(found.loaded_lean));
        let key = match (found.loaded_lean, self.rig.lean_is) {
            (None, _) => "plan.stretch.does_not_stand",
            (_, LeanIs::UnderLoad) => "stretch.stands_under_load",
            _ => "stretch.stands_from_set",
        };
        lines.push(self.text(key, &[("lean", &loaded), ("set", &set)]));
        if let (Some(_), Some(least), Some(most)) = (found.set_lean, found.least_lean, found.most_lean) {
            let (least, most) = (voice.angle(least), voice.angle(most));
            if least != most {
                lines.push(self.text("plan.stretch.between", &[("least", &least), ("most", &most)]));
            }
        }
        for check in &found.checks {
            let met = voice.say(if check.ratio <= 1.0 { "rule.met" } else { "rule.not_met" });
            let (key, there, wanted) = match check.check {
                StretchCheck::Stability => {
                    let there = if check.allowable.is_finite() {
                        voice.ratio(check.allowable)
                    } else {
                        voice.say("stretch.no_such_load")
                    };
                    ("stretch.margin", there, voice.ratio(check.demand))
                }
                StretchCheck::ExtraLean => {
                    ("stretch.extra_lean", voice.angle(check.demand), voice.angle(check.allowable))
                }
            };
            lines.push(self.text(key, &[("there", &there), ("wanted", &wanted), ("met", &met)]));
        }
        if self.plan.several != Several::No {
            lines.push(Line::Text(voice.say("plan.stretch.together")));
        }
        lines.extend(found.remedies.iter().map(|remedy| Line::Point(remedy_said(remedy, voice))));
        lines.push(Line::Text(voice.say("stretch.model")));
        Some(self.section("stretch", lines))
    }

    pub(super) fn proposals(&self) -> Option<Section> {
        let all = &self.plan.proposals;
        if all.is_empty() {
            return None;
        }
        let shown = all.iter().take(PROPOSED);
        let mut lines = vec![Line::Text(self.voice.say("plan.proposals"))];
        lines.extend(shown.map(|proposal| Line::Point(proposal_said(proposal, self.rig, &self.voice))));
        if all.len() > PROPOSED {
            let more = (all.len() - PROPOSED).to_string();
            lines.push(self.text("plan.more_proposals", &[("count", &more)]));
        }
        Some(self.section("proposals", lines))
    }

    pub(super) fn rules(&self) -> Option<Section> {
        let unmet = self.plan.findings.iter().filter(|finding| !finding.met);
        let lines: Vec<_> =
            unmet.filter_map(|finding| rule_said(finding, &self.voice)).map(Line::Point).collect();
        Some(self.section("rules", lines))
    }

    pub(super) fn uncertainty(&self) -> Option<Section> {
        let found = self.plan.uncertainty.as_ref()?;
        let (voice, scatter) = (&self.voice, &self.plan.job.scatter);
        let solved = found.draws - found.impossible;
        let impossible = || self.text("scatter.impossible", &[("count", &found.impossible.to_string())]);
        if solved == 0 {
            return Some(self.section("uncertainty", vec![impossible()]));
        }
        let share = |count: u32| percent(f64::from(count) / f64::from(solved));
        let mut lines = vec![self.text(
            "plan.scatter",
            &[
                ("draws", &solved.to_string()),
                ("length", &voice.small(scatter.length)),
                ("angle", &voice.angle(scatter.angle)),
                ("load", &percent(scatter.load)),
                ("soil", &percent(scatter.soil)),
            ],
        )];
        if let Some(Band { low, middle, high }) = found.ratio {
            let places = [("low", percent(low)), ("middle", percent(middle)), ("high", percent(high))];
            let places = places.each_ref().map(|(name, value)| (*name, value.as_str()));
            let key = match (low.is_finite(), middle.is_finite(), high.is_finite()) {
                (_, _, true) => "plan.scatter.ratio",
                (_, true, _) => "plan.scatter.some_beyond",
                (true, ..) => "plan.scatter.most_beyond",
                _ => "plan.scatter.all_beyond",
            };
            lines.push(self.text(key, &places));
        }
        lines.push(
            self.text(
                "plan.scatter.past",
                &[("past", &share(found.past)), ("tipping", &share(found.tipping))],
            ),
        );
        // Where it is past a rule as entered, being off is not what brings it there.
        let sources = self.plan.sources.as_slice();
        if let ([most, others @ ..], true) = (sources, self.plan.governing.ratio.is_finite()) {
            let said = |source: &Source| {
                let off = match source.name {
                    "length" => voice.small(source.off),
                    "angle" => voice.angle(source.off),
                    _ => percent(source.off),
                };
                let key = format!("plan.source.{}", source.name);
                match source.ratio {
                    Some(Band { low, high, .. }) if high.is_finite() => {
                        let places = [("off", off), ("low", percent(low)), ("high", percent(high))];
                        voice.fill(&key, &places.each_ref().map(|(name, value)| (*name, value.as_str())))
                    }
                    _ => voice.fill(&format!("{key}.beyond"), &[("off", &off)]),
                }
            };
            lines.push(self.text("plan.source.most", &[("source", &said(most))]));
            lines.extend(others.iter().map(|source| Line::Point(said(source))));
        }
        if found.impossible > 0 {
            lines.push(impossible());
        }
        Some(self.section("uncertainty", lines))
    }
}
