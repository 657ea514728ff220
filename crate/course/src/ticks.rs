//! What a learner marked in a list against what there was to mark.

use crate::{Sentence, Sides, Unmarked};
use outlean_rig::Dimension;

/// What became of one entry of the list.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Tick {
    /// Marked, and rightly.
    Hit,
    /// Not marked, though it was to be.
    Miss,
    /// Marked, though it was not to be.
    FalseAlarm,
    /// Not marked, and rightly.
    LeftAlone,
}

impl Tick {
    /// Whether it is as it should be.
    #[must_use]
    pub const fn is_right(self) -> bool {
        matches!(self, Self::Hit | Self::LeftAlone)
    }

    /// Its name in the keys of sentences.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Hit => "hit",
            Self::Miss => "miss",
            Self::FalseAlarm => "false_alarm",
            Self::LeftAlone => "left_alone",
        }
    }
}

/// Marks `chosen`, places in a list of which `wanted` are to be chosen.
///
/// # Errors
///
/// A place that the list does not have, or one that is chosen twice.
pub(crate) fn ticks(wanted: &[bool], chosen: &[usize]) -> Result<Vec<Tick>, Unmarked> {
    for (number, place) in chosen.iter().enumerate() {
        if *place >= wanted.len() {
            return Err(Unmarked::NoSuchPlace { place: *place, places: wanted.len() });
        }
        if chosen.iter().take(number).any(|earlier| earlier == place) {
            return Err(Unmarked::Twice(*place));
        }
    }
    let tick = |(place, wanted): (usize, &bool)| match (wanted, chosen.contains(&place)) {
        (true, true) => Tick::Hit,
        (true, false) => Tick::Miss,
        (false, true) => Tick::FalseAlarm,
        (false, false) => Tick::LeftAlone,
    };
    Ok(wanted.iter().enumerate().map(tick).collect())
}

/// How many entries became `tick`.
pub(crate) fn count(ticks: &[Tick], tick: Tick) -> usize {
    ticks.iter().filter(|each| **each == tick).count()
}

/// The share of entries that are as they should be: 0 to 1, and 1 of none.
pub(crate) fn share(ticks: &[Tick]) -> f64 {
    let right = ticks.iter().filter(|tick| tick.is_right()).count();
    if ticks.is_empty() { 1.0 } else { right as f64 / ticks.len() as f64 }
}

/// What to say of each entry that was judged wrongly: its place, counted from 1, and the two numbers that it hangs on.
pub(crate) fn hangs_on(ticks: &[Tick], sides: impl Iterator<Item = Option<Sides>>) -> Vec<Sentence> {
    let said = |(place, (tick, sides)): (usize, (&Tick, Option<Sides>))| {
        let Sides { left, right, dimension, change } = sides.filter(|_| !tick.is_right())?;
        let said = Sentence::new(if change { "tick.changes" } else { "tick.compares" })
            .number("place", (place + 1) as f64, Dimension::Count)
            .number("left", left, dimension)
            .number("right", right, dimension);
        Some(said)
    };
    ticks.iter().zip(sides).enumerate().filter_map(said).collect()
}
