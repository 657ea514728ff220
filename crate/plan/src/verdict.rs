//! The verdict: within limits of what, what of it was assumed, what was not assessed, what is to be confirmed on site.

use crate::{Voice, lifts};
use outlean_rig::{
    Check, Fault, Governing, Limit, Pair, Part, Path, Rig, Side, Solution, State, Stretch, checks, governing,
    limits_at, solve,
};
use serde::Serialize;

/// What follows from a rig at its own lean, in all of its cases.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Verdict {
    /// Every limit passed, what governs first, each once. Empty exactly where what governs holds.
    pub past: Vec<Governing>,
    /// What it was held against.
    pub within: Vec<Held>,
    /// Parts whose allowable someone stated, or in which a value stands for one that is not known.
    pub assumed: Vec<Part>,
    /// What no number speaks of.
    pub not_assessed: Vec<LeftOut>,
    /// What only an inspection on site can say.
    pub confirm: Vec<Part>,
}

/// What a rig was held against.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Held {
    /// A part.
    Part(Part),
    /// Friction at the feet.
    Friction,
    /// The upright stop.
    UprightStop,
}

/// What was left out.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum LeftOut {
    /// A part of which too little is known.
    Part(Part),
    /// Every part, as the frame tips and none carries anything.
    EveryPart,
    /// Sliding of the feet, as their friction is not known.
    Friction,
    /// What holds down a foot that would lift, and its leg where that pulls.
    HeldDown,
    /// What the haul line ends at, of which nothing is said.
    HaulHoldfast,
    /// The holdfast of a redirect midway between the feet: no field says what it may carry.
    RedirectHoldfast,
    /// Stretch of the guys.
    Stretch,
    /// Friction of a line that bears on the edge.
    EdgeFriction,
    /// The loss of the main line, as no peak factor is stated.
    MainLost,
}

impl LeftOut {
    /// The name under which the model's own gaps stand in JSON and in the words; `None` for a part.
    #[must_use]
    pub const fn name(self) -> Option<&'static str> {
        match self {
            Self::Part(_) => None,
            Self::EveryPart => Some("every_part"),
            Self::Friction => Some("friction"),
            Self::HeldDown => Some("held_down"),
            Self::HaulHoldfast => Some("haul_holdfast"),
            Self::RedirectHoldfast => Some("redirect_holdfast"),
            Self::Stretch => Some("stretch"),
            Self::EdgeFriction => Some("edge_friction"),
            Self::MainLost => Some("main_lost"),
        }
    }

    /// In words.
    #[must_use]
    pub fn said(self, voice: &Voice<'_>) -> String {
        match self {
            Self::Part(part) => voice.part(part),
            gap => voice.say(&format!("not_assessed.{}", gap.name().unwrap_or_default())),
        }
    }

    /// Whether it is a gap of the model rather than something that a field could say.
    #[must_use]
    pub const fn of_the_model(self) -> bool {
        matches!(self, Self::Stretch | Self::EdgeFriction | Self::MainLost)
    }
}

/// Every limit that `rig` is past at its own lean, what governs there first, each once. Empty exactly if what
/// governs holds.
fn past(rig: &Rig) -> Result<Vec<Governing>, Fault> {
    let first = governing(rig, rig.lean)?;
    if first.holds() {
        return Ok(Vec::new());
    }
    let others = limits_at(rig, rig.lean)?;
    let others = others.into_iter().filter(|other| !other.holds() && other.limit != first.limit);
    Ok(core::iter::once(first).chain(others).collect())
}

impl Verdict {
    /// Of a rig.
    ///
    /// # Errors
    ///
    /// As [`solve`].
    pub fn of(rig: &Rig) -> Result<Self, Fault> {
        let solution = solve(rig)?;
        Self::on(rig, &solution, &checks(rig, &solution), &lifts(rig, None)?)
    }

    /// Of a rig that was solved in its present case, the checks of that solution, and what [`lifts`] its feet.
    ///
    /// # Errors
    ///
    /// As [`solve`].
    pub fn on(rig: &Rig, solution: &Solution, checks: &[Check], lifts: &Pair<f64>) -> Result<Self, Fault> {
        let with =
            |state: State| checks.iter().filter(move |check| check.state == state).map(|check| check.part);
        let held = checks.iter().filter(|check| matches!(check.state, State::Assessed | State::Assumed));
        let stands = solution.forces().is_some();
        let friction_known = rig.feet.pinned || rig.feet.friction.is_some();
        let friction = (stands && !rig.feet.pinned && friction_known).then_some(Held::Friction);
        let stop = rig.limits.upright_stop.map(|_| Held::UprightStop);
        let bears = solution.lines().any(|line| line.bears_on_edge);
        let redirected = rig.lines().any(|line| matches!(line.path, Path::RedirectedMidBase { .. }));
        let hauled = rig.line.path.haul_point().is_some();
        let known = checks.iter().any(|check| check.part == Part::HaulHoldfast);
        let gaps = [
            (LeftOut::EveryPart, !stands),
            (LeftOut::Friction, stands && !friction_known),
            (LeftOut::HeldDown, Side::BOTH.iter().any(|side| *lifts.on(*side) > 0.0)),
            (LeftOut::HaulHoldfast, stands && hauled && !known),
            (LeftOut::RedirectHoldfast, stands && redirected),
            (LeftOut::Stretch, Stretch::of(rig).is_none()),
            (LeftOut::EdgeFriction, bears),
            (LeftOut::MainLost, !rig.main_lost_is_assessed()),
        ];
        let mut confirm: Vec<_> = with(State::ConfirmOnSite).collect();
        if confirm.is_empty() {
            confirm.push(Part::Lashing);
        }
        Ok(Self {
            past: past(rig)?,
            within: held.map(|check| Held::Part(check.part)).chain(friction).chain(stop).collect(),
            assumed: with(State::Assumed).collect(),
            not_assessed: with(State::NotAssessed)
                .map(LeftOut::Part)
                .chain(gaps.into_iter().filter_map(|(gap, is)| is.then_some(gap)))
                .collect(),
            confirm,
        })
    }

    /// In its four lines: within limits of …; assumed …; not assessed …; confirm on site …
    #[must_use]
    pub fn said(&self, voice: &Voice<'_>) -> Vec<String> {
        let parts =
            |parts: &[Part]| parts.iter().map(|part| voice.part(*part)).collect::<Vec<_>>().join(", ");
        let held = |held: &Held| match held {
            Held::Part(part) => voice.part(*part),
            Held::Friction => voice.say("assessed.friction"),
            Held::UprightStop => voice.limit(Limit::UprightStop),
        };
        let list = |all: Vec<String>| all.join(", ");
        let (key, limits) = match (self.past.is_empty(), self.within.is_empty()) {
            (false, _) => ("verdict.past", self.past.iter().map(|past| voice.limit(past.limit)).collect()),
            (true, false) => ("verdict.within", self.within.iter().map(held).collect()),
            (true, true) => ("verdict.no_limits", Vec::new()),
        };
        let mut lines = vec![voice.fill(key, &[("limits", &list(limits))])];
        if !self.assumed.is_empty() {
            lines.push(voice.fill("verdict.assumed", &[("parts", &parts(&self.assumed))]));
        }
        let gaps = list(self.not_assessed.iter().map(|gap| gap.said(voice)).collect());
        if !gaps.is_empty() {
            lines.push(voice.fill("verdict.not_assessed", &[("parts", &gaps)]));
        }
        lines.push(voice.fill("verdict.confirm", &[("parts", &parts(&self.confirm))]));
        lines
    }
}
