//! Second line: what holds the load beside the main line, or when that is lost.

use crate::{Fault, Field, Line, LineName};

/// A second line to the same load.
///
/// A line that runs over the head and holds no share until it catches is one of share 0. A line that does not run
/// over the head ([`crate::Path::NotOverHead`]) takes its share off the frame, and when the main line is lost it
/// takes the whole load off it.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct SecondLine {
    /// Where it runs, and its pulleys. It moves as the main line moves.
    pub line: Line,
    /// The share of the load that it holds while both hold, 0 to 1; the main line holds the rest.
    pub share: f64,
    /// The greatest tension in it when the main line is lost, over the weight of the load; `None` is not known,
    /// and then the loss of the main line is not assessed.
    pub peak_factor: Option<f64>,
}

impl SecondLine {
    pub(crate) fn check(&self) -> Result<(), Fault> {
        self.line.check(LineName::Second)?;
        Field::SecondShare.check(self.share)?;
        Field::PeakFactor.check_if(self.peak_factor)
    }
}
