//! How a part was assessed, in lines: what it carries of what, by which rule, on what strength, from which source.

use super::steps::by_rule;
use crate::cited::Cited;
use crate::words::words;
use outlean_plan::Voice;
use outlean_rig::strength::{CheckRule, Gap, LASHINGS_ASKED, Symbol, Worked};
use outlean_rig::{Basis, Check, Part, State};
use outlean_rigfile::percent;

/// The lines on a check; `worked` are its steps.
pub(super) fn lines(check: &Check, worked: &Worked, voice: &Voice<'_>) -> Vec<String> {
    let force = |value: f64| voice.force(value);
    let part = voice.part(check.part);
    let mut demand = force(check.demand);
    if matches!(check.part, Part::Leg(_)) {
        demand = words().fill("parts.compression", &[("force", &demand)]);
    }
    let strength = force(check.strength.unwrap_or(f64::NAN));
    let key_of_line = match (check.state, check.rule) {
        (State::Assessed, _) => "parts.assessed",
        (State::Assumed, Some(CheckRule::Stated)) => "parts.stated",
        (State::Assumed, _) => "parts.assumed",
        (State::ConfirmOnSite, Some(CheckRule::EdgeOnSite)) => "parts.edge",
        (State::ConfirmOnSite, _) => "parts.confirm_on_site",
        (_, Some(_)) => "parts.no_factor",
        _ => "parts.not_assessed",
    };
    let allowable = force(check.allowable.unwrap_or(f64::NAN));
    let ratio = percent(check.ratio.unwrap_or(f64::NAN));
    let distance = worked.iter().find(|value| value.symbol == Symbol::EdgeDistance);
    let distance = voice.length(distance.map_or(f64::NAN, |value| value.value));
    let mut all = vec![words().fill(
        key_of_line,
        &[
            ("part", &part),
            ("demand", &demand),
            ("allowable", &allowable),
            ("ratio", &ratio),
            ("strength", &strength),
            ("distance", &distance),
        ],
    )];
    let Some(rule) = check.rule.filter(|rule| *rule != CheckRule::Stated) else { return all };
    all.push(format!("  {}", by_rule(rule)));
    let mut under = |key: &str, places: &[(&str, &str)]| {
        all.push(format!("  {}", words().fill(key, places)));
    };
    if rule == CheckRule::LashingOnSite {
        for asked in LASHINGS_ASKED {
            let mut of = words().fill("lashing.turns", &[("turns", &from_to(asked.turns))]);
            if let Some(frapping) = asked.frapping.map(from_to) {
                of = words().fill("lashing.frapping", &[("before", &of), ("frapping", &frapping)]);
            }
            if let Some(gap) = asked.gap {
                let (key, gap) = match gap {
                    Gap::Wide(wide) => ("lashing.gap", voice.length(wide)),
                    Gap::OfThickness(share) => ("lashing.gap_of_leg", percent(share)),
                };
                of = words().fill(key, &[("before", &of), ("gap", &gap)]);
            }
            under("lashing.asked", &[("asked", &of), ("source", &Cited::said(asked.source))]);
        }
    }
    if let Some(source) = check.source {
        let basis = words().say(basis_key(check.basis)).to_owned();
        let source = Cited::said(source);
        under("parts.strength", &[("strength", &strength), ("basis", &basis), ("source", &source)]);
    }
    if let Some(multiple) = check.multiple {
        let multiple = voice.ratio(multiple);
        under("parts.multiple", &[("multiple", &multiple)]);
    }
    let noted = |symbol: Symbol| worked.iter().find(|value| value.symbol == symbol).map(|value| value.value);
    if let Some((least, most)) = noted(Symbol::BracketLeast).zip(noted(Symbol::BracketMost)) {
        under("parts.bracket", &[("least", &force(least)), ("most", &force(most))]);
    }
    all
}

/// "6", or "6 to 8".
fn from_to((least, most): (u8, u8)) -> String {
    if least == most {
        return least.to_string();
    }
    words().fill("parts.from_to", &[("least", &least.to_string()), ("most", &most.to_string())])
}

const fn basis_key(basis: Basis) -> &'static str {
    match basis {
        Basis::Breaking => "basis.breaking",
        Basis::Characteristic => "basis.characteristic",
        Basis::Design => "basis.design",
        _ => "basis.unknown",
    }
}
