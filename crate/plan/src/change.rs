//! Changes and limits in words: what is proposed, and what governs then.

use crate::Voice;
use outlean_rig::{Change, Governing, Lever, Part, Proposal, Rig};
use outlean_rigfile::{key_of_variant, percent};

/// A change, as one does it.
#[must_use]
pub fn change_said(change: Change, voice: &Voice<'_>) -> String {
    match change {
        Change::Set { lever, from, to } => {
            let shown = |value: f64| voice.shown(value, lever.dimension());
            let (key, guy) = match lever {
                Lever::Lean => ("change.lean", ""),
                Lever::Setback(number) => ("change.setback", voice.guy(number)),
                Lever::Spread => ("change.spread", ""),
                Lever::HaulDirection => ("change.haul_direction", ""),
                Lever::Mass => ("change.mass", ""),
                other => return format!("{other:?}"),
            };
            voice.fill(key, &[("guy", guy), ("from", &shown(from)), ("to", &shown(to))])
        }
        Change::DoubleGuy(number) => voice.fill("change.double_guy", &[("guy", voice.guy(number))]),
        Change::RedirectMidBase => voice.say("change.redirect_mid_base"),
        Change::PinFeet => voice.say("change.pin_feet"),
        Change::HoldFeetDown => voice.say("change.hold_feet_down"),
        Change::Pickets { of, kind } => {
            let kind = voice.say(&format!("change.system.{}", key_of_variant(&kind)));
            voice.fill("change.pickets", &[("of", &holdfast_of(of, voice)), ("kind", &kind)])
        }
        Change::Pins { of, count } => {
            voice.fill("change.pins", &[("of", &holdfast_of(of, voice)), ("count", &count.to_string())])
        }
        Change::LegLength { from, to } => {
            voice.fill("change.leg_length", &[("from", &voice.length(from)), ("to", &voice.length(to))])
        }
        Change::LegThickness { from, to } => {
            voice.fill("change.leg_thickness", &[("from", &voice.small(from)), ("to", &voice.small(to))])
        }
        other => format!("{other:?}"),
    }
}

/// The holdfast of a guy, or of the haul line.
fn holdfast_of(guy: Option<u8>, voice: &Voice<'_>) -> String {
    voice.part(guy.map_or(Part::HaulHoldfast, Part::GuyHoldfast))
}

/// What governs, and how near it is.
#[must_use]
pub fn governing_said(governing: &Governing, rig: &Rig, voice: &Voice<'_>) -> String {
    let limit = voice.limit_in_case(governing.limit, governing.case, rig);
    let key = if governing.ratio.is_finite() { "propose.at" } else { "propose.limit" };
    voice.fill(key, &[("limit", &limit), ("ratio", &percent(governing.ratio))])
}

/// A proposal and its effect.
#[must_use]
pub fn proposal_said(proposal: &Proposal, rig: &Rig, voice: &Voice<'_>) -> String {
    let changes: Vec<_> = proposal.changes.iter().map(|change| change_said(*change, voice)).collect();
    let changes = changes.join(&voice.say("propose.and"));
    let governs = governing_said(&proposal.governing, rig, voice);
    voice.fill("propose.then", &[("changes", &changes), ("governs", &governs)])
}
