//! The crew: what hands must pull, to haul and to raise.

use crate::{Case, Fault, Line, LineForces, Rig, solve};

/// Real mechanical advantage of a simple `parts`:1 system, each pulley of which passes on `efficiency` of its
/// tension: Σ η^k, k = 0 … parts − 1. 0 for no parts.
///
/// ```
/// assert_eq!(outlean_rig::simple_advantage(3, 0.8), 1.0 + 0.8 + 0.8 * 0.8); // 2.44, not 3
/// ```
#[must_use]
pub fn simple_advantage(parts: u8, efficiency: f64) -> f64 {
    let (mut part, mut carried) = (1.0, 0.0);
    for _ in 0..parts {
        carried += part;
        part *= efficiency;
    }
    carried
}

/// What a haul team must pull, and how many of them.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Haul {
    /// Pull on the rope where the team's system takes hold of it, N.
    pub line: f64,
    /// Pull in the team's hands, N.
    pub hands: f64,
    /// How many people that takes.
    pub people: u32,
}

impl Haul {
    /// The haul of a line through a simple `parts`:1 system of pulleys of `efficiency`, each person pulling `each` N;
    /// `None` for no parts, a pull of nothing or less, or numbers that are none.
    #[must_use]
    pub fn of(line: &LineForces, parts: u8, efficiency: f64, each: f64) -> Option<Self> {
        Self::against(line.after_redirect, parts, efficiency, each)
    }

    /// The same of any rope, against its tension (N).
    #[must_use]
    pub fn against(tension: f64, parts: u8, efficiency: f64, each: f64) -> Option<Self> {
        let hands = tension / simple_advantage(parts, efficiency);
        (hands.is_finite() && each > 0.0).then(|| Self {
            line: tension,
            hands,
            // A cast saturates: a crew of four thousand million is never asked for.
            people: libm::ceil(hands / each) as u32,
        })
    }
}

/// What it takes to raise a frame by hand from the ground, its feet held.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Raising {
    /// Lift at the lashing as it leaves the ground, N: what both legs weigh there, 2·w·L²/(2ℓ) for equal legs. The
    /// weight of what hangs at the head (sling, pulleys, guys) is not counted.
    pub lift: f64,
    /// The guy, counted from 0, that holds the bare frame at its lean once it has passed the vertical; `None` where
    /// none does, and the frame falls unless another rope, a preventer, is rigged for it.
    pub preventer: Option<u8>,
    /// What that guy carries then, N: at its least, for a frame that is let go it is more.
    pub preventer_tension: f64,
}

impl Raising {
    /// Of a rig, at its own lean.
    ///
    /// # Errors
    ///
    /// As [`crate::solve`].
    pub fn of(rig: &Rig) -> Result<Self, Fault> {
        let mut bare = rig.clone();
        (bare.load.mass, bare.line, bare.second) = (0.0, Line::hung(), None);
        (bare.edge, bare.case) = (None, Case::default());
        let solution = solve(&bare)?;
        let forces = solution.forces();
        let preventer = forces.and_then(|forces| forces.working_guy);
        let carried = forces.zip(preventer).and_then(|(forces, guy)| forces.guys.get(usize::from(guy)));
        let lift = rig.legs.left.weight_at_head() + rig.legs.right.weight_at_head();
        Ok(Self { lift, preventer, preventer_tension: carried.map_or(0.0, |guy| guy.tension) })
    }
}
