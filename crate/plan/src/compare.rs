//! Variants of a plan side by side: in what they differ, and what each comes to.

use crate::{Advice, Plan};
use outlean_rig::{Dimension, Governing, Rig};
use outlean_rigfile::{Value, entries_of, field};
use serde::Serialize;

/// How many variants are laid side by side.
pub const MOST_VARIANTS: usize = 3;

/// One field or choice in which variants differ.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Difference {
    /// Its key in a rig file.
    pub key: String,
    /// What stands there in each variant; `None` where nothing does.
    pub values: Vec<Option<Stated>>,
}

/// What stands at a key.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
#[serde(untagged)]
pub enum Stated {
    /// A number, in its SI unit.
    Number(f64),
    /// A word.
    Word(&'static str),
}

/// Every field and choice in which some rigs differ, in the order of a rig file's table. Numbers that differ by rounding
/// alone do not. What both legs have alike is said once, as is the spread of feet set square.
///
/// ```
/// use outlean_rig::Rig;
/// let (a, mut b) = (Rig::new(4.0, 1.2, 0.3, 250.0), Rig::new(4.0, 1.2, 0.3, 250.0));
/// b.load.mass = 200.0;
/// let found = outlean_plan::differences(&[&a, &b]);
/// assert_eq!(found.iter().map(|found| found.key.as_str()).collect::<Vec<_>>(), ["load.mass"]);
/// ```
#[must_use]
pub fn differences(rigs: &[&Rig]) -> Vec<Difference> {
    let entries: Vec<_> = rigs.iter().map(|rig| said_once(rig)).collect();
    let mut keys: Vec<&String> = Vec::new();
    for (key, _) in entries.iter().flatten() {
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    let stated = |value: &Value<'static>| match value {
        Value::Number(number) => Stated::Number(*number),
        Value::Word(word) => Stated::Word(word),
    };
    let alike = |a: &Option<Stated>, b: &Option<Stated>| match (a, b) {
        (Some(Stated::Number(a)), Some(Stated::Number(b))) => (a - b).abs() <= 1e-9 * a.abs().max(1.0),
        (a, b) => a == b,
    };
    let of = |key: &String| -> Vec<Option<Stated>> {
        let at = |all: &Vec<(String, Value<'static>)>| {
            all.iter().find(|(other, _)| other == key).map(|(_, value)| stated(value))
        };
        entries.iter().map(at).collect()
    };
    let differ = |values: &Vec<Option<Stated>>| {
        let first = values.first().copied().flatten();
        values.iter().any(|value| !alike(value, &first))
    };
    let all = keys.into_iter().map(|key| Difference { key: key.clone(), values: of(key) });
    all.filter(|difference| differ(&difference.values)).collect()
}

/// The entries of a rig, with what both legs and both feet have alike under one key.
fn said_once(rig: &Rig) -> Vec<(String, Value<'static>)> {
    let all = entries_of(rig);
    let at = |key: &str| all.iter().find(|(other, _)| other == key).map(|(_, value)| *value);
    let [(lx, ly, lz), (rx, ry, rz)] =
        [rig.feet.at.left, rig.feet.at.right].map(|at| (at.x(), at.y(), at.z()));
    let square = [lx, lz, rx, rz, ly + ry].into_iter().all(|off| off.abs() < 1e-9);
    let spread = || field("feet.spread").and_then(|field| field.get(rig)).map(Value::Number);
    let mut once = Vec::new();
    for (key, value) in &all {
        let leg = key.strip_prefix("legs.").and_then(|rest| rest.split_once('.'));
        match leg {
            Some((side, name)) if at(&format!("legs.left.{name}")) == at(&format!("legs.right.{name}")) => {
                if side == "left" {
                    once.push((format!("legs.{name}"), *value));
                }
            }
            _ if square && key.starts_with("feet.at.") => {
                if key == "feet.at.left.left" {
                    once.extend(spread().map(|spread| ("feet.spread".to_owned(), spread)));
                }
            }
            _ => once.push((key.clone(), *value)),
        }
    }
    once
}

/// What a variant comes to.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Variant {
    /// What to do with it.
    pub advice: Advice,
    /// What governs at its planned lean.
    pub governing: Governing,
    /// The numbers.
    pub readings: Vec<Reading>,
}

/// A number of a variant.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Reading {
    /// Which.
    pub name: &'static str,
    /// What kind of quantity it is.
    pub dimension: Dimension,
    /// In SI units; `None` where it is not known or there is none.
    pub value: Option<f64>,
}

/// Of a plan and its rig: the same numbers for every variant, in the same order.
#[must_use]
pub fn variant(plan: &Plan, rig: &Rig) -> Variant {
    let interval = plan.range.around(rig.lean).or_else(|| plan.range.intervals.first());
    let most = |is: fn(outlean_rig::Part) -> bool| {
        plan.demands.iter().filter(|demand| is(demand.part)).map(|demand| demand.force).reduce(f64::max)
    };
    let rope = plan.materials.lashing.map(|rope| rope.total());
    let rope = plan.materials.guys.iter().fold(rope.unwrap_or(0.0), |sum, guy| sum + guy.rope);
    let stretching = plan.stretching.as_ref();
    let margin = stretching.and_then(|found| found.margin).map(|(margin, _)| margin.multiple);
    let readings = [
        ("lean", Dimension::Angle, Some(rig.lean)),
        ("range_from", Dimension::Angle, interval.map(|interval| interval.from)),
        ("range_to", Dimension::Angle, interval.map(|interval| interval.to)),
        ("loaded_lean", Dimension::Angle, stretching.and_then(|found| found.loaded_lean)),
        ("run_away", Dimension::Ratio, margin.filter(|margin| margin.is_finite())),
        ("clear_reach", Dimension::Length, plan.clearance.map(|room| room.clear_reach)),
        ("headroom", Dimension::Length, plan.clearance.map(|room| room.headroom)),
        ("guy", Dimension::Force, most(|part| matches!(part, outlean_rig::Part::GuyRope(_)))),
        ("leg", Dimension::Force, most(|part| matches!(part, outlean_rig::Part::Leg(_)))),
        ("hands", Dimension::Force, plan.crew.haul.map(|haul| haul.hands)),
        ("people", Dimension::Count, plan.people.map(f64::from)),
        ("rope", Dimension::Length, Some(rope)),
    ];
    let readings = readings.map(|(name, dimension, value)| Reading { name, dimension, value }).to_vec();
    Variant { advice: plan.advice.clone(), governing: plan.governing, readings }
}
