//! The crew: what hands must pull, and who does what.

use crate::Voice;
use outlean_rig::{Case, Fault, Haul, Luffing, Operation, Raising, Rig, simple_advantage, solve};
use serde::Serialize;

/// How a crew hauls.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Team {
    /// What each person is taken to pull, N; `None` is not said, and people are then not counted.
    pub each: Option<f64>,
    /// Parts of rope of the simple system of pulleys that they haul through; 1 for none.
    pub parts: u8,
    /// Efficiency of each of its pulleys.
    pub efficiency: f64,
    /// A lean, rad, to which the loaded frame is to be luffed by its guys.
    pub luff_to: Option<f64>,
}

/// What a crew must pull.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Crew {
    /// As given.
    pub each: Option<f64>,
    /// As given.
    pub parts: u8,
    /// As given.
    pub efficiency: f64,
    /// Real advantage of the team's system.
    pub advantage: f64,
    /// Raising the load; `None` where nothing is hauled.
    pub haul: Option<Haul>,
    /// The same of the second line where it carries a share of the load, hauled through a like system; `None` where not.
    pub second: Option<Haul>,
    /// Raising the frame.
    pub raising: Raising,
    /// As given.
    pub luff_to: Option<f64>,
    /// Luffing, for each guy by which it can be luffed.
    pub luffing: Vec<Luffed>,
}

/// What luffing asks of those who tend a guy.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Luffed {
    /// The guy, counted from 0.
    pub guy: u8,
    /// How it is luffed.
    #[serde(flatten)]
    pub luffing: Luffing,
    /// To haul it in, or to hold it back where it is paid out, N in the team's hands.
    pub hands: f64,
    /// How many people that takes; 0 where they are not counted.
    pub people: u32,
}

impl Crew {
    /// Of a rig.
    ///
    /// # Errors
    ///
    /// As [`solve`].
    pub fn of(rig: &Rig, team: &Team) -> Result<Self, Fault> {
        let &Team { each, parts, efficiency, luff_to } = team;
        // A person without bound stands for people that are not counted.
        let pull = each.unwrap_or(f64::INFINITY);
        let raising_load = Rig { case: Case { operation: Operation::Raising, ..rig.case }, ..rig.clone() };
        let raised = solve(&raising_load)?;
        let haul = rig.line.moves().then(|| Haul::of(&raised.line, parts, efficiency, pull)).flatten();
        let second = rig.second.filter(|second| second.share > 0.0 && second.line.moves());
        let second = second.zip(raised.second);
        let second = second.and_then(|(_, line)| Haul::of(&line, parts, efficiency, pull));
        let mut luffing = Vec::new();
        if let Some(to) = luff_to {
            for (guy, _) in (0_u8..).zip(&rig.guys) {
                let Some(found) = Luffing::of(rig, guy, to)? else { continue };
                let hands = match found.comes_in > 0.0 {
                    true => {
                        Haul::against(found.tension, parts, efficiency, pull).map_or(0.0, |haul| haul.hands)
                    }
                    false => found.holds_back(parts, efficiency),
                };
                let people = Haul::against(hands, 1, 1.0, pull).map_or(0, |haul| haul.people);
                luffing.push(Luffed { guy, luffing: found, hands, people });
            }
        }
        let (advantage, raising) = (simple_advantage(parts, efficiency), Raising::of(rig)?);
        Ok(Self { each, parts, efficiency, advantage, haul, second, raising, luff_to, luffing })
    }

    /// In lines.
    #[must_use]
    pub fn said(&self, voice: &Voice<'_>) -> Vec<String> {
        let people = |count: u32| match self.each {
            Some(_) => {
                let key = if count == 1 { "crew.person" } else { "crew.people" };
                voice.fill(key, &[("count", &count.to_string())])
            }
            None => voice.say("crew.not_counted"),
        };
        let parts = self.parts.to_string();
        let advantage = outlean_rigfile::fixed(self.advantage, 2);
        let each = self.each.map(|each| voice.force(each));
        let key = if each.is_some() { "crew.system" } else { "crew.system_only" };
        let each = each.unwrap_or_default();
        let mut lines =
            vec![voice.fill(key, &[("parts", &parts), ("advantage", &advantage), ("each", &each)])];
        lines.push(match &self.haul {
            Some(Haul { line, hands, people: count }) => voice.fill(
                "crew.haul",
                &[
                    ("line", &voice.force(*line)),
                    ("hands", &voice.force(*hands)),
                    ("people", &people(*count)),
                ],
            ),
            None => voice.say("crew.no_haul"),
        });
        lines.extend(self.raised(voice));
        if let Some(to) = self.luff_to {
            let key = if self.luffing.is_empty() { "crew.no_luffing" } else { "crew.luffing" };
            lines.push(voice.fill(key, &[("to", &voice.angle(to))]));
        }
        for Luffed { guy, luffing, hands, people: count } in &self.luffing {
            let key = if luffing.comes_in > 0.0 { "crew.comes_in" } else { "crew.paid_out" };
            let places = [
                ("guy", voice.guy(*guy)),
                ("length", &voice.length(luffing.comes_in.abs())),
                ("tension", &voice.force(luffing.tension)),
                ("at", &voice.angle(luffing.at)),
                ("hands", &voice.force(*hands)),
                ("people", &people(*count)),
            ];
            let slack = luffing.tension == 0.0;
            lines.push("  ".to_owned() + &voice.fill(if slack { "crew.slack" } else { key }, &places));
        }
        if self.luffing.iter().any(|luffed| luffed.luffing.changes_sides) {
            lines.push("  ".to_owned() + &voice.say("crew.changes_sides"));
        }
        lines
    }

    fn raised(&self, voice: &Voice<'_>) -> Vec<String> {
        let Raising { lift, preventer, preventer_tension } = self.raising;
        if lift == 0.0 {
            return vec![voice.say("crew.weightless")];
        }
        let held = match preventer {
            Some(guy) => {
                let tension = voice.force(preventer_tension);
                voice.fill("crew.preventer", &[("guy", voice.guy(guy)), ("tension", &tension)])
            }
            None => voice.say("crew.no_preventer"),
        };
        vec![voice.fill("crew.lift", &[("lift", &voice.force(lift))]), held]
    }
}
