//! The choices of what a rig is made of: grades, ropes, knots, hardware, holdfasts, ground.

use crate::choices::{ChoiceSpec, meant, one_of, word};
use outlean_rig::strength::timber::{Duration, Grade, Moisture};
use outlean_rig::strength::{HardwareClass, HoldfastKind, Knot, RopeClass, Soil};

/// Words for the things of a list, in its order.
const GRADES: &[&str] = &[
    "ungraded",
    "douglas fir-larch no 1",
    "douglas fir-larch no 2",
    "spruce-pine-fir no 1/2",
    "hem-fir no 2",
    "southern pine no 2",
    "douglas fir-larch post no 1",
    "douglas fir-larch post no 2",
    "c14",
    "c16",
    "c24",
    "c27",
    "c30",
    "c35",
    "stated nds",
    "stated en 1995",
];
const MOISTURES: &[&str] = &["wet", "dry"];
const DURATIONS: &[&str] = &["permanent", "ten years", "two months", "seven days"];
const ROPES: &[&str] = &[
    "en 1891 a",
    "en 1891 b",
    "nfpa general",
    "nfpa technical",
    "manila 1/2 in",
    "manila 5/8 in",
    "manila 3/4 in",
    "manila 1 in",
    "nylon 1/2 in",
    "nylon 5/8 in",
    "nylon 3/4 in",
    "webbing 1 in",
    "webbing 2 in",
];
const KNOTS: &[&str] = &[
    "bowline",
    "clove hitch",
    "two half hitches",
    "anchor bend",
    "timber hitch",
    "square",
    "overhand",
    "figure eight stopper",
    "figure eight loop",
    "eye splice",
    "short splice",
];
const HARDWARE: &[&str] = &["technical", "general"];
const HOLDFASTS: &[&str] = &[
    "picket",
    "1-1",
    "1-1-1",
    "2-1",
    "3-2-1",
    "steel pickets",
    "1 in pins",
    "3 in pins",
    "natural",
    "deadman",
];
const SOILS: &[&str] = &[
    "loam",
    "wet clay and gravel",
    "wet clay and sand",
    "poor clay",
    "average clay",
    "good clay",
    "loose sand",
    "medium sand",
    "dense sand",
];
const ALL_MOISTURES: [Moisture; 2] = [Moisture::Wet, Moisture::Dry];
const ALL_DURATIONS: [Duration; 4] = [Duration::Permanent, Duration::Long, Duration::Medium, Duration::Short];
const CONNECTORS: [HardwareClass; 2] = [HardwareClass::ConnectorTechnical, HardwareClass::ConnectorGeneral];
const PULLEYS: [HardwareClass; 2] = [HardwareClass::PulleyTechnical, HardwareClass::PulleyGeneral];

macro_rules! chosen {
    ($key:literal, $words:ident, $all:expr, $($place:tt)+) => {
        ChoiceSpec {
            key: $key,
            options: $words,
            get: |rig, _| word($words, &$all, rig.$($place)+?),
            set: |rig, _, said| {
                rig.$($place)+ = Some(meant($words, &$all, said)?);
                Some(())
            },
        }
    };
}

macro_rules! of_guy {
    ($key:literal, $words:ident, $all:expr, $($place:tt)+) => {
        ChoiceSpec {
            key: $key,
            options: $words,
            get: |rig, number| word($words, &$all, rig.guys.get(usize::from(number))?.$($place)+?),
            set: |rig, number, said| {
                rig.guys.get_mut(usize::from(number))?.$($place)+ = Some(meant($words, &$all, said)?);
                Some(())
            },
        }
    };
}

/// Every choice of what a rig is made of.
pub(crate) const GEAR_CHOICES: &[ChoiceSpec] = &[
    chosen!("timber.grade", GRADES, Grade::ALL, gear.timber.grade),
    one_of!("timber.moisture", MOISTURES, ALL_MOISTURES, gear.timber.moisture),
    one_of!("timber.duration", DURATIONS, ALL_DURATIONS, gear.timber.duration),
    chosen!("line.rope", ROPES, RopeClass::ALL, gear.line.class),
    chosen!("line.knot", KNOTS, Knot::ALL, gear.line.knot),
    chosen!("second.rope", ROPES, RopeClass::ALL, gear.second.class),
    chosen!("second.knot", KNOTS, Knot::ALL, gear.second.knot),
    chosen!("line.holdfast", HOLDFASTS, HoldfastKind::ALL, gear.haul.kind),
    chosen!("line.soil", SOILS, Soil::ALL, gear.haul.soil),
    chosen!("second.holdfast", HOLDFASTS, HoldfastKind::ALL, gear.second_haul.kind),
    chosen!("second.soil", SOILS, Soil::ALL, gear.second_haul.soil),
    chosen!("sling.rope", ROPES, RopeClass::ALL, gear.sling.cordage.class),
    chosen!("sling.knot", KNOTS, Knot::ALL, gear.sling.cordage.knot),
    chosen!("pulley.class", HARDWARE, PULLEYS, gear.pulley.class),
    chosen!("connector.class", HARDWARE, CONNECTORS, gear.connector.class),
    chosen!("redirect.class", HARDWARE, PULLEYS, gear.redirect.class),
    of_guy!("guy.N.rope", ROPES, RopeClass::ALL, cordage.class),
    of_guy!("guy.N.knot", KNOTS, Knot::ALL, cordage.knot),
    of_guy!("guy.N.holdfast", HOLDFASTS, HoldfastKind::ALL, holdfast.kind),
    of_guy!("guy.N.soil", SOILS, Soil::ALL, holdfast.soil),
];
