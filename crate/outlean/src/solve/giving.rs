//! What becomes of a rig whose guys stretch, where its file says how they do.

use super::steps::{Explained, by_rule};
use crate::words::words;
use outlean_plan::{Voice, remedy_said};
use outlean_rig::{
    Fault, LeanIs, Margin, Outcome, Remedy, Rig, Stretch, StretchCheck, StretchChecked, margin, remedies,
    stretch_checks, stretched,
};
use outlean_rigfile::percent;
use serde::Serialize;

/// Where it stands under load, how far off run-away, and what would help.
#[derive(Serialize)]
pub(super) struct Giving {
    lean_is: LeanIs,
    outcome: Outcome,
    margin: Option<Margin>,
    wanted: f64,
    checks: Vec<Explained<StretchChecked>>,
    remedies: Vec<Remedy>,
}

impl Giving {
    /// Of a rig; `None` where it is not known how its guys stretch.
    pub(super) fn of(rig: &Rig) -> Result<Option<Self>, Fault> {
        let Some(stretch) = Stretch::of(rig) else { return Ok(None) };
        let wanted = rig.limits.wanted_margin();
        Ok(Some(Self {
            lean_is: stretch.lean_is,
            outcome: stretched(rig, &stretch)?,
            margin: margin(rig, &stretch)?,
            wanted,
            checks: stretch_checks(rig, &stretch, wanted)?.into_iter().map(Explained::stretch).collect(),
            remedies: remedies(rig, &stretch, wanted)?.to_vec(),
        }))
    }

    /// In lines.
    pub(super) fn said(&self, voice: &Voice<'_>) -> Vec<String> {
        let angle = |value: f64| voice.angle(value);
        let times = |value: f64| voice.ratio(value);
        let mut lines = Vec::new();
        let mut line = |key: &str, places: &[(&str, &str)]| lines.push(words().fill(key, places));
        match &self.outcome {
            Outcome::Stands(found) => {
                let key = match self.lean_is {
                    LeanIs::UnderLoad => "stretch.stands_under_load",
                    LeanIs::SetBefore | LeanIs::Cut => "stretch.stands_from_set",
                };
                let set = found.set_lean.map_or_else(|| words().say("stretch.unknown").to_owned(), angle);
                line(key, &[("lean", &angle(found.lean)), ("set", &set)]);
                for (guy, tension) in
                    voice.guys.iter().zip(&found.tension).filter(|(_, tension)| **tension > 0.0)
                {
                    line("stretch.guy", &[("guy", guy), ("tension", &voice.force(*tension))]);
                }
            }
            Outcome::RunsAway(multiple) => line("stretch.runs_away", &[("share", &percent(*multiple))]),
            Outcome::NothingHolds => line("stretch.nothing_holds", &[]),
            Outcome::Tips(tip) => line("stretch.tips", &[("tip", &voice.tip(*tip))]),
        }
        for Explained { check, .. } in &self.checks {
            let (key, there, wanted) = match check.check {
                StretchCheck::Stability => ("stretch.margin", check.allowable, check.demand),
                StretchCheck::ExtraLean => ("stretch.extra_lean", check.demand, check.allowable),
            };
            let met = words().say(if check.ratio <= 1.0 { "rule.met" } else { "rule.not_met" }).to_owned();
            let (there, wanted) = match check.check {
                StretchCheck::ExtraLean => (angle(there), angle(wanted)),
                StretchCheck::Stability if there.is_infinite() => {
                    (words().say("stretch.no_such_load").to_owned(), times(wanted))
                }
                StretchCheck::Stability => (times(there), times(wanted)),
            };
            line(key, &[("there", &there), ("wanted", &wanted), ("met", &met)]);
            line("stretch.rule", &[("rule", &by_rule(check.rule))]);
        }
        if let Some(jump) = self.margin.map(|margin| margin.jump).filter(|jump| *jump > 0.0) {
            line("stretch.jump", &[("jump", &angle(jump))]);
        }
        lines.extend(self.remedies.iter().map(|remedy| remedy_said(remedy, voice)));
        lines.push(words().say("stretch.model").to_owned());
        lines
    }
}
