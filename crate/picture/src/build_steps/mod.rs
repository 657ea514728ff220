//! The build itself, step by step: still plates of poles, cordage, lashing, head, feet, holdfasts, raising and striking.
//!
//! Each plate is a scene like every other, true to the rig where its measures matter. Plates stand in pages as they are made
//! by the native program: the page's own program draws none of them.

mod bench;
mod board;
mod crew;
mod feet;
mod head;
mod holdfast;
mod poles;
mod raising;
mod site;
mod strand;
#[cfg(test)]
mod tests;

use crate::drawing::sheet::Finished;
use crate::{Area, LabelKey, Scene, Words};
use bench::{Bench, Done};
use board::{Board, LOW, SIZE};
use head::On;
use holdfast::End;
use outlean_rig::{Fault, Rig};
use outlean_rigfile::fixed;
use poles::Laid;
use raising::Raising;

/// What a plate draws.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub struct BuildStep(What);

#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
enum What {
    Laid(Laid),
    Bench(Done),
    Head(On),
    Feet,
    Holdfast(End),
    Raising(Raising),
}

/// The steps by the names that lessons call them by.
const STEPS: [(&str, What); 32] = [
    ("choose poles", What::Laid(Laid::Choose)),
    ("cordage", What::Laid(Laid::Cordage)),
    ("mark poles", What::Laid(Laid::Mark)),
    ("foot tie", What::Laid(Laid::FootTie)),
    ("spacer", What::Bench(Done::Spacer)),
    ("first hitch", What::Bench(Done::FirstHitch)),
    ("wrapping turns", What::Bench(Done::Wraps)),
    ("frapping turns", What::Bench(Done::Fraps)),
    ("last hitch", What::Bench(Done::LastHitch)),
    ("spacer out", What::Bench(Done::SpacerOut)),
    ("spread feet", What::Laid(Laid::Spread)),
    ("sling", What::Head(On::Sling)),
    ("pulley", What::Head(On::Pulley)),
    ("guys on", What::Head(On::Guys)),
    ("pickets", What::Holdfast(End::Pickets)),
    ("test the holdfast", What::Holdfast(End::PulledOn)),
    ("feet", What::Feet),
    ("hands lift", What::Raising(Raising::HandsLift)),
    ("fore guy lifts", What::Raising(Raising::ForeGuyLifts)),
    ("upright", What::Raising(Raising::Upright)),
    ("let out", What::Raising(Raising::LetOut)),
    ("upright stop", What::Raising(Raising::UprightStop)),
    ("fixed guy", What::Holdfast(End::Fixed)),
    ("system beside the tie", What::Holdfast(End::SystemBeside)),
    ("system holds", What::Holdfast(End::SystemHolds)),
    ("adjustable guy", What::Holdfast(End::Adjustable)),
    ("haul path", What::Raising(Raising::HaulPath)),
    ("test load", What::Raising(Raising::TestLoad)),
    ("unload", What::Raising(Raising::Unload)),
    ("haul in", What::Raising(Raising::HaulIn)),
    ("lower back", What::Raising(Raising::LowerBack)),
    ("undress", What::Raising(Raising::Undress)),
];

impl BuildStep {
    /// Every step with its name, in the order of a build.
    pub fn all() -> impl Iterator<Item = (&'static str, Self)> {
        STEPS.iter().map(|(name, what)| (*name, Self(*what)))
    }

    /// The step of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::all().find(|(each, _)| *each == name).map(|(_, step)| step)
    }

    /// Its name.
    #[must_use]
    pub fn name(self) -> &'static str {
        Self::all().find(|(_, step)| *step == self).map_or("", |(name, _)| name)
    }
}

/// A plate, and what tests want to know of it.
pub struct BuildPlate {
    /// What is painted.
    pub scene: Scene,
    /// What each label covers, px.
    pub labels: Vec<(LabelKey, Area)>,
    /// What there was no room for.
    pub dropped: Vec<LabelKey>,
}

/// Draws a step of the build of a rig; `hold` marks it as a hold point.
///
/// # Errors
///
/// The field, its value and what is allowed, where the rig has no geometry.
pub fn build_plate(step: BuildStep, rig: &Rig, words: &Words, hold: bool) -> Result<BuildPlate, Fault> {
    let height = if matches!(step.0, What::Raising(_)) { LOW } else { SIZE.1 };
    let mut board = Board::new(words, height);
    if hold {
        board.hold();
    }
    match step.0 {
        What::Laid(laid) => poles::draw(&mut board, rig, laid)?,
        What::Head(On::Guys) => head::from_the_side(&mut board, rig)?,
        What::Head(on) => head::from_behind(&mut board, rig, on)?,
        What::Feet => feet::draw(&mut board, rig)?,
        What::Holdfast(end) => holdfast::draw(&mut board, rig, end)?,
        What::Bench(done) => Bench::new(rig).draw(&mut board, done),
        What::Raising(raising) => raising.draw(&mut board, rig)?,
    }
    let Finished { scene, labels, dropped, .. } = board.finish();
    Ok(BuildPlate { scene, labels, dropped })
}

/// What a plate shows, in words, for those who do not see it; numbers of the rig in them.
#[must_use]
pub fn build_told(step: BuildStep, rig: &Rig, words: &Words) -> String {
    let key = format!("steps.told.{}", step.name());
    let laid = rig.gear.lashing.as_laid();
    let stop = rig.limits.upright_stop.unwrap_or(0.0);
    words.fill(
        &key,
        &[
            ("turns", &fixed(laid.turns, 0)),
            ("frapping", &fixed(laid.frapping, 0)),
            ("spacer", &Board::millimetres(laid.spacer)),
            ("lean", &Board::angle(rig.lean)),
            ("stop", &Board::angle(stop)),
        ],
    )
}
