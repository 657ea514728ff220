//! What moves by itself: the sweep of the lean, and a frame that tips.

use outlean_rig::WorkingRange;
use outlean_rigfile::DEG;

/// Pace of the sweep, rad/ms: 4° a second, and 1.5° when slow.
const PACE: f64 = 4.0 * DEG / 1000.0;
const SLOW_PACE: f64 = 1.5 * DEG / 1000.0;
/// How long it holds at each end of the range, ms.
const HOLD: f64 = 1200.0;
/// How far past the range it goes, rad.
const PAST: f64 = 6.0 * DEG;
/// Falling, resting, being set back, ms.
const FALL: f64 = 1200.0;
const REST: f64 = 800.0;
const SET_BACK: f64 = 420.0;

/// A sweep of the lean: out past the end of the working range, and back to where it began.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sweep {
    start: f64,
    far: f64,
    outward: bool,
    wait: f64,
}

/// What a moment of sweeping came to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Swept {
    /// It waits.
    Waits,
    /// The lean is now this.
    Moves(f64),
    /// The lean is this, and the sweep is over.
    Ends(f64),
}

impl Sweep {
    /// A sweep from `lean`, never beyond `most`.
    pub fn from(lean: f64, range: &WorkingRange, most: f64) -> Self {
        let end = range.intervals.iter().map(|interval| interval.to).find(|to| *to >= lean);
        let far = (end.unwrap_or(lean) + PAST).min(most);
        Self { start: lean, far, outward: far > lean, wait: 0.0 }
    }

    /// Turns back: the frame cannot go further.
    pub const fn turn_back(&mut self) {
        self.outward = false;
    }

    /// Where the sweep is after `ms` more milliseconds, from `lean`.
    pub fn tick(&mut self, ms: f64, lean: f64, slow: bool, range: &WorkingRange) -> Swept {
        if self.wait > 0.0 {
            self.wait -= ms;
            return Swept::Waits;
        }
        let step = ms * if slow { SLOW_PACE } else { PACE };
        let next = if self.outward { lean + step } else { lean - step };
        let crosses =
            |stop: f64| if self.outward { lean < stop && stop <= next } else { next <= stop && stop < lean };
        let stops = range.intervals.iter().flat_map(|interval| [interval.from, interval.to]);
        if let Some(stop) = stops
            .filter(|stop| crosses(*stop))
            .reduce(|a, b| if (a - lean).abs() < (b - lean).abs() { a } else { b })
        {
            self.wait = HOLD;
            return Swept::Moves(stop);
        }
        if self.outward && next >= self.far {
            self.outward = false;
            self.wait = HOLD / 2.0;
            return Swept::Moves(self.far);
        }
        if !self.outward && next <= self.start {
            return Swept::Ends(self.start);
        }
        Swept::Moves(next)
    }
}

/// A frame that tips: it falls, rests, and is set back.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fall {
    /// Milliseconds since it began.
    pub ms: f64,
    /// The lean to which it is set back; `None` where it stood at none before, and stays down.
    pub back_to: Option<f64>,
    /// The sweep that it broke into, if any, to be taken up again on its way back.
    pub broke: Option<Sweep>,
}

impl Fall {
    /// How far it has fallen, 0 to 1: falling, at rest, being set back.
    #[must_use]
    pub fn progress(&self) -> f64 {
        let eased = |t: f64| t * t;
        if self.ms < FALL {
            eased(self.ms / FALL)
        } else if self.back_to.is_none() || self.ms < FALL + REST {
            1.0
        } else {
            eased((1.0 - (self.ms - FALL - REST) / SET_BACK).max(0.0))
        }
    }

    /// Whether it lies still: nothing moves until someone takes it again.
    #[must_use]
    pub fn at_rest(&self) -> bool {
        self.back_to.is_none() && self.ms >= FALL
    }

    /// Whether it has been set back.
    #[must_use]
    pub fn over(&self) -> bool {
        self.back_to.is_some() && self.ms >= FALL + REST + SET_BACK
    }

    /// The still picture of it, for reduced motion.
    pub const fn lie_down(&mut self) {
        self.ms = FALL;
    }
}
