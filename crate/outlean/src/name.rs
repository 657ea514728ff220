//! What guys, parts, limits and rules are called in the readings.

use crate::words::words;
use outlean_plan::Voice;
use outlean_rig::{Case, Limit, Part, Path, Rig, Tip};
use outlean_rigfile::{RigFile, Units};

/// The names of a rig's guys: as the file has them, else by where they stand, numbered where several stand there.
pub(crate) fn guys(file: &RigFile) -> Vec<String> {
    outlean_plan::guys(words(), &file.rig, &file.guy_names)
}

/// The voice of this program.
pub(crate) fn voice(guys: &[String], units: Units) -> Voice<'_> {
    Voice { words: words(), units, guys }
}

/// Names have no units.
fn of(guys: &[String]) -> Voice<'_> {
    voice(guys, Units::Metric)
}

pub(crate) fn guy(number: u8, guys: &[String]) -> &str {
    of(guys).guy(number)
}

pub(crate) fn part(part: Part, guys: &[String]) -> String {
    of(guys).part(part)
}

pub(crate) fn limit(limit: Limit, guys: &[String]) -> String {
    of(guys).limit(limit)
}

pub(crate) fn tip(tip: Tip) -> String {
    of(&[]).tip(tip)
}

/// What is going on in a case, as far as it differs between the cases of the rig: "raising, at the edge".
/// Empty where nothing does.
pub(crate) fn case(case: Case, rig: &Rig) -> String {
    of(&[]).case(case, rig)
}

/// A limit, and in which case it is met where that makes a difference.
pub(crate) fn limit_in_case(limit: Limit, case: Case, rig: &Rig, guys: &[String]) -> String {
    of(guys).limit_in_case(limit, case, rig)
}

pub(crate) fn path(path: &Path) -> String {
    of(&[]).path(path)
}
