//! The rig file: a rig as an author writes it, in TOML.
//!
//! Every quantity stands in quotes with its unit: lengths in m, cm, mm, ft, in, yd; areas in cm², m², mm²,
//! in², ft²; angles in deg, rad; masses in kg, g, t, lb; forces in kN, N, daN, kgf, lbf, kip; weights per
//! length in kg/m, N/m, kN/m, lb/ft, lbf/ft; pressures in MPa, kPa, Pa, GPa, psi, psf; shares in %, or bare.
//! Left and right are as seen from behind the frame, facing the edge. This is all that may stand in a file;
//! what has no default must stand there.
//!
//! ```toml
//! title = "Two poles over the quarry lip"   # may be left out
//! lean = "19 deg"              # or "71 deg from ground", "1.3 m" (reach), "1 in 3" (reach over height)
//! lean_is = "under load"       # under load (default), set before loading: what stretches goes on from there
//!
//! [legs]                       # both legs; [legs.left] and [legs.right] take the same keys and go before
//! length = "4.6 m"             # foot to tip
//! lashing_below_tip = "0.5 m"  # centre of the lashing, along the leg
//! weight = "4.1 kg/m"          # or "40 N/m"; left out: no weight is counted, with a warning
//! butt_diameter = "130 mm"     # of a round pole, at the foot; default: as at the tip
//! tip_diameter = "100 mm"      # default: as at the foot
//!                              # or of a sawn leg breadth and depth; default: not known
//! crook = "15 mm"              # gap between the pole and a string along it; default 0
//! eccentricity = "50 mm"       # of the load from the pole's axis at the head; default half its thickness
//!
//! [timber]                     # of both legs
//! grade = "ungraded"           # ungraded (the lowest class, C14), douglas fir-larch no 1 or no 2, spruce-pine-fir
//!                              # no 1/2, hem-fir no 2, southern pine no 2, douglas fir-larch post no 1 or no 2, C14,
//!                              # C16, C24, C27, C30, C35, stated NDS, stated EN 1995; default: not known
//! moisture = "wet"             # wet (default), dry
//! duration = "ten years"       # of the load over the timber's life: permanent, ten years (default), two months,
//!                              # seven days
//!                              # of a stated grade compression, bending and stiffness: "17 MPa", "1150 psi"
//!
//! [feet]
//! spread = "1.4 m"             # or at.left and at.right, each { ahead, left, up }
//! connection = "none"          # none (default), hobble, ledger
//! connection_height = "0.2 m"  # above the feet; default 0 m
//! pinned = false               # something but friction keeps them from sliding; default false
//! held_down = false            # something keeps them from lifting; default false
//! friction = 0.5               # default: not known
//! bearing_area = "300 cm2"     # of each foot; default: not known
//! bearing_allowable = "100 kPa" # what the ground may take; default: not known
//!
//! [load]
//! mass = "260 kg"              # or its weight: "2.5 kN", "570 lbf"
//! dynamic_factor = 1.0         # on the weight, for motion; default 1
//! side_angle = "0 deg"         # load line out of the vertical, to the left; default 0
//! outward_angle = "0 deg"      # and outward, over the edge; default 0
//! at_edge = { outward_angle = "10 deg" }
//!                              # how its line stands while it is lifted at the edge, and
//! on_tag_lines = { side_angle = "-15 deg", outward_angle = "15 deg" }
//!                              # while tag lines draw it; left out: that stage is not looked at
//! stage = "hanging clear"      # hanging clear (default), at edge, on tag lines
//!
//! [line]
//! path = "straight back"       # hung, straight back, redirected at left foot, redirected at right foot,
//!                              # redirected mid-base, redirected on ledger, over the front,
//!                              # tackle at head, not over head
//! to = { back = "9 m", left = "0 m", up = "0 m" }
//!                              # where it is hauled from; `ahead` for `back`; left and up default 0 m.
//!                              # Needed unless hung or not over head
//! operation = "holding"        # lowering, holding (default), raising
//! pulley_efficiency = "88 %"   # of the head pulley; needed wherever the line runs over one
//! redirect_efficiency = "88 %" # of the redirect pulley; needed where there is one
//! sling = "0.4 m"              # head to pulley; default 0 m
//! parts = 3                    # of a tackle at the head, and only there
//! rope = "EN 1891 A"           # EN 1891 A or B, NFPA general or technical, manila 1/2, 5/8, 3/4 or 1 in, nylon 1/2,
//!                              # 5/8 or 3/4 in, webbing 1 or 2 in; default: not known
//! breaking = "32 kN"           # least breaking strength, before that of the class
//! knot = "figure eight loop"   # the weakest: bowline, clove hitch, two half hitches, anchor bend, timber hitch,
//!                              # square, overhand, figure eight stopper, figure eight loop, eye splice, short splice
//! knot_efficiency = "70 %"     # what it leaves, before that of the knot; 1 for none
//! holdfast = "1-1-1"           # what the haul line ends at, with the keys of a guy's holdfast
//! soil = "loam"  
//!
//! [sling]                      # at the head; rope, breaking, knot, knot_efficiency as above
//! rope = "webbing 1 in"
//! knot = "overhand"
//! parts = 2                    # that carry together; default 1
//! angle = "70 deg"             # of each from the level; default 90 deg
//!
//! [lashing]                    # of the head
//! rope = "11 mm"               # its thickness; default: not known, and its length is then not worked out
//! turns = 6                    # wrapping turns; default 6
//! frapping = 2                 # frapping turns; default 2
//! spacer = "45 mm"             # gap between the legs; default 45 mm
//! tail = "50 cm"               # each of its two; default 50 cm
//! girth = "38 cm"              # of a leg there; default: from its section, if that is known
//!
//! [pulley]                     # at the head, of both lines; [connector] and [redirect] take the same keys
//! class = "general"            # technical, general; default: not known
//! breaking = "36 kN"           # before that of the class
//!
//! [second]                     # a second line, if there is one
//! path = "hung"                # as of the main line, with `to`, `parts`, efficiencies, sling, rope and holdfast
//!                              # as there
//! share = "50 %"               # of the load while both hold; 0 % for one that only catches
//! peak_factor = 2.5            # its greatest tension over the load's weight when the main line is lost;
//!                              # default: not known, and that is then not assessed
//! holds = "its share"          # its share (default), the whole load: the main line is lost
//!
//! [edge]                       # if it is known where it is
//! ahead = "0.6 m"              # ahead of the foot line
//! level = "0 m"                # above the foot line; default 0 m
//! litter_drop = "1.4 m"        # from the pulley to the lowest of what must clear the edge; default 0 m
//! clear_reach = "0.5 m"        # asked for; default: none
//! headroom = "0.3 m"           # asked for; default: none
//!
//! [[guy]]                      # up to six; where several could hold the frame, the first of them works, and with it
//!                              # one splayed to the other side; parts are also held against each of the others alone
//! name = "aft guy"             # may be left out
//! setback = "6.2 m"            # behind the foot line, or "1.5 x" the upright head height
//!                              # or ahead = "…" in its stead
//! offset = "0 m"               # to the left of the middle of the foot line; default 0 m
//! rise = "0 m"                 # above it; default 0 m
//! rigged = true                # default true
//! pretension = "0 kN"          # the tension it was set to; default 0
//! rope_allowable = "2.4 kN"    # what the rope may carry; default: not known
//! elongation = "3 %"           # of its rope by the data sheet; default: not known, and stretch not assessed
//! elongation_at = "1.33 kN"    # the tension at which that is so
//! give = "0 mm"                # by which knots setting and the anchor giving loosen it; default 0
//! holdfast_allowable = "3 kN"  # what the holdfast may carry; default: not known
//! rope = "EN 1891 A"           # rope, breaking, knot, knot_efficiency as of the line
//! knot = "bowline"
//! holdfast = "1-1-1"           # picket, 1-1, 1-1-1, 2-1, 3-2-1 (wooden pickets), steel pickets, 1 in pins, 3 in
//!                              # pins, natural, deadman; default: not known
//! soil = "loam"                # of wooden pickets loam, wet clay and gravel, wet clay and sand; of pins poor, average
//!                              # or good clay, loose, medium or dense sand
//! pickets = 3                  # how many steel pickets or pins; default 1
//! picket_spacing = "1 m"       # default: not said
//! holdfast_strength = "9 kN"   # what any other is taken to hold, before the tables
//!
//! [limits]
//! stretch_margin = 3           # load at run-away over load, where stretch is assessed; default 3
//! upright_stop = "10 deg"      # least lean ever allowed; default 10 deg, "none" for none
//! strength_factor = 10         # between breaking strength and load, of ropes and hardware; default: none asked for
//!
//! [plan]                       # of the job, for a plan; a lesson does not look at it
//! place = "Upper bench"        # texts: nothing is made of them
//! date = "12 May 2027"
//! in_charge = "R. Osei"
//! people = 9                   # how many there are; default: not said
//! pull = "200 N"               # of each; default: not said, and people are then not counted
//! parts = 3                    # of the simple system of pulleys that they haul through; default 1
//! efficiency = "80 %"          # of each of its pulleys; default 80 %
//! lowered = "14 m"             # how far the load goes below the pulley; default: not said
//! test_load = "260 kg"         # default: the load itself, with its factor for motion
//! lean_again = "1.3 m"         # of a rig that was measured: its lean by a second method
//! scatter = { length = "5 cm", angle = "2 deg", load = "10 %", soil = "30 %" }
//!                              # how far off each may be; defaults as shown
//! ```
//!
//! No strength is ever guessed: what is not stated is not assessed. Defaults are those that claim nothing
//! for the rig: feet neither pinned nor held down, no connection. Ten degrees for the upright stop is
//! common practice.

mod assemble;
mod edit;
mod gear;
mod guys;
mod plan;
mod walk;

pub use edit::{EditError, edit, written};
pub use guys::{guys_in, with_guy, without_guy};

use crate::Job;
use crate::problem::{Problem, Severity};
use outlean_rig::Rig;

/// Most bytes of a rig file.
pub const MOST_BYTES: usize = 200_000;

/// A rig file that was read.
#[derive(Clone, Debug, PartialEq)]
pub struct RigFile {
    /// Its title, if it has one.
    pub title: Option<String>,
    /// The rig. It has been solved once: its numbers go together.
    pub rig: Rig,
    /// What each guy is called, in the order of the rig, where the file says so.
    pub guy_names: Vec<Option<String>>,
    /// What it says of the job.
    pub job: Job,
}

/// Reads a rig file, with every problem in it, in the order in which they stand.
///
/// There is a rig exactly if no problem is a [`Severity::Error`].
///
/// ```
/// use outlean_rigfile::read;
/// let (file, problems) = read("
///     lean = '1 in 3'
///     legs = { length = '4.6 m', lashing_below_tip = '0.5 m', weight = '4.1 kg/m' }
///     feet = { spread = '1.4 m' }
///     load = { mass = '260 kg' }
///     line = { path = 'hung' }
///     [[guy]]
///     setback = '1.5 x'
/// ");
/// assert!(problems.is_empty(), "{problems:?}");
/// assert!((file.unwrap().rig.lean.to_degrees() - 18.43).abs() < 0.01);
/// ```
#[must_use]
pub fn read(text: &str) -> (Option<RigFile>, Vec<Problem>) {
    let (leaves, mut problems) = walk::walk(text);
    let file = assemble::assemble(&leaves, &mut problems);
    problems.sort_by_key(|problem| (problem.span.start, problem.span.end));
    let usable = problems.iter().all(|problem| problem.severity != Severity::Error);
    (file.filter(|_| usable), problems)
}

#[cfg(test)]
mod tests {
    use crate::UNITS;

    /// What is said at the top of this file goes to those who write rig files.
    #[test]
    fn every_unit_is_told_of_and_no_other() {
        let source = include_str!("mod.rs");
        let told = source.split("with its unit: ").nth(1).and_then(|rest| rest.split(", or bare").next());
        let told = told.unwrap_or_default().replace("\n//!", "");
        let kinds = told.split("; ").map(|kind| kind.split_once(" in ").map_or("", |(_, units)| units));
        let told: Vec<&str> = kinds.flat_map(|units| units.split(", ")).collect();
        let known: Vec<&str> = UNITS.iter().map(|unit| unit.symbol).collect();
        assert_eq!(told, known);
    }
}
