//! The build list: what is done in which order, and where everything stops until it was seen.

use crate::demand::is_redirect;
use crate::{Crew, Demand, Mark, Pace, Stretching, Test};
use outlean_rig::{Connection, HoldfastPull, Line, Materials, Pair, Part, Path, Rig, Side};
use serde::Serialize;

/// One thing to do.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Step {
    /// Everyone hears the briefing and has a place.
    Brief,
    /// Whoever works near the edge is tied on.
    TieOn,
    /// The feet and every place are marked, from the foot line; m: how near taped diagonals must come.
    MarkOut {
        /// How far a tape may be off, m.
        within: f64,
    },
    /// A holdfast is made ready.
    Holdfast {
        /// Of what.
        of: Mark,
        /// How many pickets or pins; 0 for one of another kind or not known.
        pickets: u32,
        /// How many lashings between them.
        lashings: u32,
    },
    /// A holdfast is pulled to what it will carry, N.
    TryHoldfast {
        /// Of what.
        of: Part,
        /// The most it carries in any case, N.
        force: f64,
        /// Whether what it may carry is assumed, or not known.
        unproven: bool,
    },
    /// The holdfast of a redirect midway between the feet is pulled to what it will carry, N; nothing says what it holds.
    TryRedirect {
        /// The redirect's pulley.
        of: Part,
        /// The most it carries in any case, N.
        force: f64,
        /// How much of that lifts it, N.
        uplift: f64,
    },
    /// Places for the feet are made ready.
    Feet {
        /// Whether something but friction keeps them.
        pinned: bool,
        /// Whether plates spread their load.
        plates: bool,
    },
    /// A foot that would lift is held down by something that has been pulled to what lifts it, N.
    HoldDown {
        /// Which.
        foot: Side,
        /// The most that lifts it in any case, N.
        force: f64,
    },
    /// The legs are laid side by side, the lashing marked on both, m below their tips.
    LayLegs {
        /// Of the left leg.
        left: f64,
        /// Of the right leg.
        right: f64,
    },
    /// The head is lashed.
    Lash {
        /// Wrapping turns.
        turns: f64,
        /// Frapping turns.
        frapping: f64,
        /// Gap between the legs, m.
        spacer: f64,
    },
    /// The head is dressed: sling, pulley, lines, every guy.
    Dress {
        /// How many guys are tied on.
        guys: usize,
        /// Whether the main line runs over it.
        main: bool,
        /// Whether that runs through a pulley there.
        pulley: bool,
        /// Whether a second line runs over it.
        second: bool,
        /// Whether there are tag lines.
        tag_lines: bool,
    },
    /// The feet are spread and joined.
    Spread {
        /// How far, m.
        spread: f64,
        /// What runs between them.
        connection: Connection,
    },
    /// The frame is raised.
    Raise {
        /// Lift at the lashing at the start, N; 0 where the legs' weight is not known.
        lift: f64,
        /// The guy that holds it once it is past the vertical, if one does.
        preventer: Option<u8>,
    },
    /// It is let out to its lean, rad, and the guys are made fast.
    SetLean {
        /// As it stands before loading, rad.
        lean: f64,
    },
    /// A guy is set to a pretension, N.
    Pretension {
        /// Which guy.
        guy: u8,
        /// To what, N.
        tension: f64,
    },
    /// The as-built sheet is filled in.
    Measure,
    /// The test load is hung.
    TestLoad {
        /// kg.
        mass: f64,
        /// The leans between which it must stay, rad.
        between: (f64, f64),
    },
    /// Everything is looked at again.
    InspectAgain,
    /// The job is done.
    Work,
    /// It comes down in the opposite order.
    TakeDown,
}

/// Where everything stops until whoever is in charge has seen it and signed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Hold {
    /// No guy is tied to a holdfast that was not tried.
    HoldfastsTried,
    /// Nothing goes up before the head is dressed.
    HeadDressed,
    /// Nothing is loaded before what was built was measured.
    Measured,
    /// Nobody is under it before the test load has hung.
    TestLoaded,
}

/// A step, and what holds after it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Numbered {
    /// What is done.
    pub step: Step,
    /// What everything stops for then.
    pub hold: Option<Hold>,
}

/// What the list is made from.
pub(crate) struct From<'a> {
    pub rig: &'a Rig,
    pub pacing: &'a [Pace],
    pub materials: &'a Materials,
    pub demands: &'a [Demand],
    pub holdfasts: &'a [(Part, HoldfastPull)],
    pub lifts: &'a Pair<f64>,
    pub crew: &'a Crew,
    pub stretching: Option<&'a Stretching>,
    pub test: &'a Test,
    pub tape: f64,
}

/// The whole list, from the briefing to the last rope.
pub(crate) fn steps(from: &From<'_>) -> Vec<Numbered> {
    let rig = from.rig;
    let mut all = Vec::new();
    let mut step = |step: Step, hold: Option<Hold>| all.push(Numbered { step, hold });
    step(Step::Brief, None);
    if rig.edge.is_some() {
        step(Step::TieOn, None);
    }
    step(Step::MarkOut { within: from.tape }, None);
    for pace in from.pacing {
        if let Some((pickets, lashings)) = holdfast(from.materials, pace.mark) {
            step(Step::Holdfast { of: pace.mark, pickets, lashings }, None);
        }
    }
    let tried = from.holdfasts.iter().map(|(of, pull)| {
        if is_redirect(*of) {
            return Step::TryRedirect { of: *of, force: pull.size, uplift: pull.uplift };
        }
        let known = from.demands.iter().find(|demand| demand.part == *of);
        let unproven = known.is_none_or(|demand| demand.assumed || !demand.known);
        Step::TryHoldfast { of: *of, force: pull.size, unproven }
    });
    let mut tried = tried.peekable();
    while let Some(each) = tried.next() {
        let hold = tried.peek().is_none().then_some(Hold::HoldfastsTried);
        step(each, hold);
    }
    step(Step::Feet { pinned: rig.feet.pinned, plates: rig.feet.bearing_area.is_some() }, None);
    for foot in Side::BOTH {
        let force = *from.lifts.on(foot);
        if force > 0.0 {
            step(Step::HoldDown { foot, force }, None);
        }
    }
    let (left, right) = (rig.legs.left.lashing_below_tip, rig.legs.right.lashing_below_tip);
    step(Step::LayLegs { left, right }, None);
    let lashing = rig.gear.lashing.as_laid();
    step(Step::Lash { turns: lashing.turns, frapping: lashing.frapping, spacer: lashing.spacer }, None);
    let dress = Step::Dress {
        guys: rig.guys.iter().filter(|guy| guy.rigged).count(),
        main: over_head(&rig.line),
        pulley: rig.line.path.haul_point().is_some(),
        second: rig.second.is_some_and(|second| over_head(&second.line)),
        tag_lines: rig.load.on_tag_lines.is_some(),
    };
    step(dress, Some(Hold::HeadDressed));
    let spread = (rig.feet.at.left - rig.feet.at.right).length();
    step(Step::Spread { spread, connection: rig.feet.connection }, None);
    let raising = &from.crew.raising;
    step(Step::Raise { lift: raising.lift, preventer: raising.preventer }, None);
    step(Step::SetLean { lean: from.stretching.and_then(|found| found.set_lean).unwrap_or(rig.lean) }, None);
    for (number, guy) in (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged && guy.pretension > 0.0) {
        step(Step::Pretension { guy: number, tension: guy.pretension }, None);
    }
    step(Step::Measure, Some(Hold::Measured));
    // What hangs on no line over the head does not try the frame.
    if rig.lines().any(over_head) {
        step(Step::TestLoad { mass: from.test.mass, between: from.test.between }, None);
        step(Step::InspectAgain, Some(Hold::TestLoaded));
    }
    step(Step::Work, None);
    step(Step::TakeDown, None);
    all
}

/// What the holdfast at a mark takes; `None` where none stands there.
fn holdfast(materials: &Materials, mark: Mark) -> Option<(u32, u32)> {
    let there = match mark {
        Mark::Anchor(number) => materials.guys.iter().find(|guy| guy.guy == number)?.holdfast,
        Mark::HaulPoint(outlean_rig::LineName::Main) => materials.haul,
        Mark::HaulPoint(outlean_rig::LineName::Second) => materials.second_haul,
        Mark::Redirect(_) => return Some((0, 0)),
        Mark::Foot(_) | Mark::Edge => return None,
    };
    Some(there.map_or((0, 0), |there| (there.pickets, there.lashings)))
}

/// Whether a line runs over the head, and so loads the frame.
pub(crate) const fn over_head(line: &Line) -> bool {
    !matches!(line.path, Path::NotOverHead)
}
