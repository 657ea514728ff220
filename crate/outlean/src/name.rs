//! How this program calls guys, parts, limits and numbers.

use crate::words::words;
use outlean_plan::Voice;
use outlean_rigfile::{RigFile, Units};

/// The names of a rig's guys: as the file has them, else by where they stand, numbered where several stand there.
pub(crate) fn guys(file: &RigFile) -> Vec<String> {
    outlean_plan::guys(words(), &file.rig, &file.guy_names)
}

/// The voice of this program.
pub(crate) fn voice(guys: &[String], units: Units) -> Voice<'_> {
    Voice { words: words(), units, guys }
}
