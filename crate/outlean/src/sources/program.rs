//! What the program itself cites: the strengths, factors, rules and ways of assessing of the core, with their sources.

use crate::words::words;
use outlean_rig::strength::timber::Grade;
use outlean_rig::strength::{
    CheckRule, Citation, HardwareClass, Holdfast, HoldfastKind, Knot, LASHINGS_ASKED, OFFERED_FACTORS,
    RopeClass, Soil,
};
use outlean_rig::{Rule, Side};
use outlean_rigfile::{choice, key_of_variant};

/// Something that the core takes from a source.
pub struct Taken {
    /// What sort of thing it is, as keys of the string files have it.
    pub sort: &'static str,
    /// Which one, in words.
    pub which: String,
    /// Where from.
    pub citation: Citation,
}

/// The words of a choice of rig files, in the order of what they stand for.
fn options(key: &str) -> &'static [&'static str] {
    choice(key).map_or(&[], |choice| choice.spec.options)
}

const HARDWARE: [HardwareClass; 4] = [
    HardwareClass::ConnectorTechnical,
    HardwareClass::ConnectorGeneral,
    HardwareClass::PulleyTechnical,
    HardwareClass::PulleyGeneral,
];

const CHECKS: [CheckRule; 15] = [
    CheckRule::Stated,
    CheckRule::NdsColumn,
    CheckRule::En1995Column,
    CheckRule::Cordage,
    CheckRule::Sling,
    CheckRule::Hardware,
    CheckRule::Pickets,
    CheckRule::Pins,
    CheckRule::StatedHoldfast,
    CheckRule::Bearing,
    CheckRule::LashingOnSite,
    CheckRule::EdgeOnSite,
    CheckRule::Friction,
    CheckRule::RunAway,
    CheckRule::ExtraLean,
];

const RULES: [Rule; 15] = [
    Rule::SetbackAtLeast(0),
    Rule::SetbackPreferred(0),
    Rule::SetbackOlder(0),
    Rule::ForeAhead(0),
    Rule::HoldfastSteep(0),
    Rule::PicketSpacing(0),
    Rule::AftGuy,
    Rule::ForeGuy,
    Rule::UprightStop,
    Rule::LeanLeast,
    Rule::LeanUnloadedMost,
    Rule::LeanLoadedMost,
    Rule::SpreadMost,
    Rule::Slenderness(Side::Left),
    Rule::StraightBackWantsForeGuy,
];

/// All of it.
pub fn taken() -> Vec<Taken> {
    let mut all = Vec::new();
    let mut take = |sort, which: &str, citation| all.push(Taken { sort, which: which.to_owned(), citation });
    for (grade, word) in Grade::ALL.into_iter().zip(options("timber.grade")) {
        if let Some(values) = grade.values() {
            take("timber", word, values.source);
        }
    }
    for (rope, word) in RopeClass::ALL.into_iter().zip(options("line.rope")) {
        take("rope", word, rope.breaking().1);
    }
    for (knot, word) in Knot::ALL.into_iter().zip(options("line.knot")) {
        take("knot", word, knot.source());
    }
    for class in HARDWARE {
        take("hardware", &key_of_variant(&class).replace('_', " "), class.breaking().1);
    }
    for (kind, word) in HoldfastKind::ALL.into_iter().zip(options("line.holdfast")) {
        let holds = |soil| Holdfast { kind: Some(kind), soil, ..Holdfast::default() }.capacity();
        if let Some(capacity) = holds(None) {
            // The same in whatever it is driven into.
            take("holdfast", word, capacity.source);
            continue;
        }
        for (soil, ground) in Soil::ALL.into_iter().zip(options("line.soil")) {
            if let Some(capacity) = holds(Some(soil)) {
                take("holdfast", &format!("{word} in {ground}"), capacity.source);
            }
        }
    }
    for asked in LASHINGS_ASKED {
        let (least, most) = asked.turns;
        let turns = if least == most { least.to_string() } else { format!("{least} to {most}") };
        take("lashing", &turns, asked.source);
    }
    for (factor, citation) in OFFERED_FACTORS {
        take("factor", &format!("{factor}"), citation);
    }
    for rule in RULES {
        let name = key_of_variant(&rule);
        let name = name.split('(').next().unwrap_or_default();
        take("rule", words().say(&format!("sources_rule.{name}")), rule.source());
    }
    for check in CHECKS {
        take("check", words().say(&format!("check_rule.{}", key_of_variant(&check))), check.source());
    }
    all
}

/// The key of a citation's source.
pub fn key(citation: Citation) -> String {
    key_of_variant(&citation.source)
}

/// The keys of all sources that it cites, each once.
pub fn keys() -> Vec<String> {
    let mut all: Vec<String> = taken().into_iter().map(|taken| key(taken.citation)).collect();
    all.sort();
    all.dedup();
    all
}
