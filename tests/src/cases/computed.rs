//! What the core says of a case, under the names of the case file, held against what the file says.

use super::input::SetUp;
use super::{Report, SHORT_ARM, TOLERANCE, Trouble};
use outlean_rig::{Balance, Force, Layout, Solution, Tip};
use serde_json::{Map, Value};

/// A reading of the core.
pub(super) enum Reading {
    /// A number, or none: `null`.
    Number(Option<f64>),
    /// Several numbers, or none at all.
    List(Option<Vec<f64>>),
}

/// Below these a value is compared absolutely: 1e-3 of the load for forces (and, times a metre, for
/// moments), a millimetre for lengths, 1e-3 for bare numbers.
#[derive(Clone, Copy)]
pub(super) enum Floor {
    Load,
    Small,
}

/// Everything that the core says of a case.
pub(super) struct Computed {
    pub(super) status: &'static str,
    flags: Vec<&'static str>,
    pub(super) readings: Vec<(&'static str, Floor, Reading)>,
    load: f64,
    /// Arm of the working guy over the slant height.
    arm_share: Option<f64>,
}

impl Computed {
    pub(super) fn of(set_up: &SetUp, solution: &Solution) -> Self {
        use Floor::{Load, Small};
        let Solution { layout, line, resultant, guy_arm, .. } = solution;
        let forces = solution.forces();
        let aft_arms: Vec<f64> = guy_arm.iter().take(set_up.aft_guys).copied().collect();
        let fore_arm = guy_arm.get(set_up.aft_guys).copied();
        let moment = resultant.tipping_moment;
        let working = forces.and_then(|forces| forces.working_guy).map(usize::from);

        let status = match (&solution.balance, working) {
            (Balance::Tips(Tip::Forward), _) => "topples_forward",
            (Balance::Tips(Tip::Back), _) => "topples_back",
            (Balance::Tips(Tip::Left), _) => "topples_left",
            (Balance::Tips(Tip::Right), _) => "topples_right",
            (Balance::Stands(_), None) => "neutral",
            (Balance::Stands(_), Some(guy)) if guy >= set_up.aft_guys => "ok_fore_guy_carries",
            (Balance::Stands(_), Some(_)) if fore_arm.is_some_and(|arm| moment * arm > 0.0) => {
                "ok_both_guys_could_carry"
            }
            (Balance::Stands(_), Some(_)) => "ok",
        };

        let mut flags = Vec::new();
        if let Some(forces) = forces {
            let none = 1e-9 * set_up.load;
            let feet = &forces.footing.feet;
            for (there, flag) in [
                (forces.compression.left < -none, "left_leg_in_tension"),
                (forces.compression.right < -none, "right_leg_in_tension"),
                (feet.left.lifts, "left_foot_lifts"),
                (feet.right.lifts, "right_foot_lifts"),
            ] {
                if there {
                    flags.push(flag);
                }
            }
        }

        let guys = forces.map(|forces| forces.guys.iter().map(|guy| guy.tension).collect::<Vec<_>>());
        let aft = guys.as_ref().map(|all| all.iter().take(set_up.aft_guys).copied().collect());
        let fore = guys.as_ref().map(|all| all.get(set_up.aft_guys).copied().unwrap_or(0.0));
        let footing = forces.map(|forces| &forces.footing);
        let left = footing.map(|footing| footing.feet.left);
        let right = footing.map(|footing| footing.feet.right);
        let greater = |a: Option<f64>, b: Option<f64>| Some(a?.max(b?));
        let (alone_left, alone_right) =
            (left.and_then(|foot| foot.friction_alone), right.and_then(|foot| foot.friction_alone));
        let (tied_left, tied_right) =
            (left.and_then(|foot| foot.friction_evened), right.and_then(|foot| foot.friction_evened));
        let conservative =
            left.zip(right).map(|(left, right)| (-left.reaction.y()).max(right.reaction.y()).max(0.0));
        let signed = match aft_arms.as_slice() {
            [arm] => Some(moment / arm).filter(|tension| tension.is_finite()),
            _ => None,
        };
        let list = |force: Force| Some(force.components().to_vec());

        let readings = vec![
            ("head_m", Small, Reading::List(Some(layout.head.coordinates().to_vec()))),
            ("haul_tension_at_head_N", Load, Reading::Number(Some(line.haul_tension))),
            ("haul_tension_after_redirect_N", Load, Reading::Number(Some(line.after_redirect))),
            ("head_force_excl_guys_N", Load, Reading::List(list(resultant.force))),
            ("tipping_moment_excl_guys_Nm", Load, Reading::Number(Some(moment))),
            ("aft_guy_arm_about_foot_line_m", Small, Reading::List(Some(aft_arms))),
            ("aft_guy_signed_solution_N", Load, Reading::Number(signed)),
            ("leg_left_compression_N", Load, Reading::Number(forces.map(|f| f.compression.left))),
            ("leg_right_compression_N", Load, Reading::Number(forces.map(|f| f.compression.right))),
            ("aft_guy_tension_N", Load, Reading::List(aft)),
            ("fore_guy_tension_N", Load, Reading::Number(fore)),
            ("foot_left_reaction_N", Load, Reading::List(left.and_then(|foot| list(foot.reaction)))),
            ("foot_right_reaction_N", Load, Reading::List(right.and_then(|foot| list(foot.reaction)))),
            ("friction_required_left", Small, Reading::Number(alone_left)),
            ("friction_required_right", Small, Reading::Number(alone_right)),
            ("friction_required", Small, Reading::Number(greater(alone_left, alone_right))),
            ("tie_tension_equal_split_N", Load, Reading::Number(footing.map(|f| f.spread_thrust))),
            ("tie_tension_conservative_N", Load, Reading::Number(conservative)),
            ("net_sideways_ground_reaction_N", Load, Reading::Number(footing.map(|f| f.net_sideways))),
            ("friction_required_with_tie_left", Small, Reading::Number(tied_left)),
            ("friction_required_with_tie_right", Small, Reading::Number(tied_right)),
            ("friction_required_with_tie", Small, Reading::Number(greater(tied_left, tied_right))),
            ("redirect_anchor_force_N", Load, Reading::List(forces.and(line.redirect).and_then(list))),
            ("leg_left_midspan_moment_Nm", Load, Reading::Number(forces.map(|f| f.leg_moment.left))),
            ("leg_right_midspan_moment_Nm", Load, Reading::Number(forces.map(|f| f.leg_moment.right))),
        ];
        let arm_share = working.and_then(|guy| guy_arm.get(guy)).map(|arm| arm.abs() / slant(layout));
        Self { status, flags, readings, load: set_up.load, arm_share }
    }

    /// Holds it against the outputs of a case, the names of its quantities begun with `prefix` in the report.
    pub(super) fn compare(
        &self,
        id: &str,
        prefix: &str,
        outputs: &Map<String, Value>,
        report: &mut Report,
    ) -> Result<(), Trouble> {
        let share = self.arm_share.unwrap_or(1.0);
        let short = share < SHORT_ARM;
        let tolerance = if short { TOLERANCE * SHORT_ARM / share } else { TOLERANCE };
        if short {
            report.note(
                id,
                &format!(
                    "arm of the working guy is {:.2} % of the slant height: held to {tolerance:.1e}",
                    share * 100.0
                ),
            );
        }
        self.compare_status(id, prefix, outputs, report)?;
        self.compare_flags(id, prefix, outputs, report)?;
        for (key, expected) in outputs {
            if matches!(key.as_str(), "status" | "flags") {
                continue;
            }
            let Some((name, floor, reading)) = self.readings.iter().find(|(name, ..)| name == key) else {
                report.note(
                    id,
                    &format!("outputs.{key} is not a reading that this program knows: not compared"),
                );
                continue;
            };
            let name = &format!("{prefix}{name}");
            let floor = match floor {
                Floor::Load => (1e-3 * self.load).max(1e-3),
                Floor::Small => 1e-3,
            };
            let (wanted, found) = match reading {
                Reading::Number(found) => (numbers(key, expected, false)?, found.map(|found| vec![found])),
                Reading::List(found) => (numbers(key, expected, true)?, found.clone()),
            };
            match (wanted, found) {
                (None, None) => report.agree(name),
                (Some(wanted), Some(found)) if wanted.len() == found.len() => {
                    for (wanted, found) in wanted.into_iter().zip(found) {
                        let difference = (found - wanted).abs() / wanted.abs().max(floor);
                        report.difference(id, name, wanted, found, difference, tolerance);
                    }
                }
                (wanted, found) => report.mismatch(id, name, &show(wanted), &show(found)),
            }
        }
        Ok(())
    }

    fn compare_status(
        &self,
        id: &str,
        prefix: &str,
        outputs: &Map<String, Value>,
        report: &mut Report,
    ) -> Result<(), Trouble> {
        const KNOWN: [&str; 9] = [
            "ok",
            "ok_fore_guy_carries",
            "ok_both_guys_could_carry",
            "neutral",
            "topples_back",
            "topples_forward",
            "topples_left",
            "topples_right",
            "unstable_no_equilibrium",
        ];
        let name = format!("{prefix}status");
        let value = outputs.get("status");
        match value.and_then(Value::as_str).filter(|status| KNOWN.contains(status)) {
            Some(status) if status == self.status => report.agree(&name),
            Some(status) => report.mismatch(id, &name, status, self.status),
            None => {
                return Err(Trouble::at("outputs.status", value, &format!("one of {}", KNOWN.join(", "))));
            }
        }
        Ok(())
    }

    fn compare_flags(
        &self,
        id: &str,
        prefix: &str,
        outputs: &Map<String, Value>,
        report: &mut Report,
    ) -> Result<(), Trouble> {
        const KNOWN: [&str; 4] =
            ["left_leg_in_tension", "right_leg_in_tension", "left_foot_lifts", "right_foot_lifts"];
        let Some(value) = outputs.get("flags").filter(|value| !value.is_null()) else { return Ok(()) };
        let list =
            value.as_array().ok_or_else(|| Trouble::at("outputs.flags", Some(value), "a list of words"))?;
        let mut wanted = Vec::new();
        for flag in list {
            match flag.as_str() {
                Some(flag) if KNOWN.contains(&flag) => wanted.push(flag),
                Some(flag) => {
                    report.note(id, &format!("flag {flag} is not one that this program knows: not compared"))
                }
                None => return Err(Trouble::at("outputs.flags", Some(flag), "words")),
            }
        }
        wanted.sort_unstable();
        let mut found = self.flags.clone();
        found.sort_unstable();
        let name = format!("{prefix}flags");
        if wanted == found {
            report.agree(&name);
        } else {
            report.mismatch(id, &name, &format!("{wanted:?}"), &format!("{found:?}"));
        }
        Ok(())
    }
}

fn slant(layout: &Layout) -> f64 {
    layout.slant_height
}

/// A value of the file as numbers; `None` for null.
fn numbers(key: &str, value: &Value, many: bool) -> Result<Option<Vec<f64>>, Trouble> {
    let wanted = if many { "a list of numbers, or null" } else { "a number, or null" };
    let wrong = || Trouble::at(&format!("outputs.{key}"), Some(value), wanted);
    match value {
        Value::Null => Ok(None),
        Value::Array(list) if many => {
            list.iter().map(|item| item.as_f64().ok_or_else(wrong)).collect::<Result<_, _>>().map(Some)
        }
        _ if !many => Ok(Some(vec![value.as_f64().ok_or_else(wrong)?])),
        _ => Err(wrong()),
    }
}

fn show(numbers: Option<Vec<f64>>) -> String {
    numbers.map_or_else(|| "null".into(), |numbers| format!("{numbers:?}"))
}
