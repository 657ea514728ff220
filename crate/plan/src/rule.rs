//! Rules of the trade in words.

use crate::Voice;
use outlean_rig::{Dimension, Finding, Rule, Side};
use outlean_rigfile::cited;

/// A rule held against the rig, and where it comes from; `None` for one without words.
#[must_use]
pub fn rule_said(finding: &Finding, voice: &Voice<'_>) -> Option<String> {
    let Finding { rule, source, value, wanted, met } = finding;
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
        _ => return None,
    };
    // There is no angle where there is no stop.
    let value = if value.is_finite() { voice.shown(*value, dimension) } else { voice.say("rule.no_stop") };
    let wanted = voice.shown(*wanted, dimension);
    let met = voice.say(if *met { "rule.met" } else { "rule.not_met" });
    let places = [("guy", voice.guy(number)), ("value", &value), ("wanted", &wanted), ("met", &met)];
    let said = voice.fill(key, &places);
    Some(voice.fill("rule.cited", &[("rule", &said), ("source", &cited(*source, voice.words))]))
}
