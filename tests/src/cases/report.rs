//! What came of a file of cases.

use super::{SHORT_ARM, TOLERANCE, Trouble};
use core::fmt;
use std::collections::BTreeMap;

/// A reading that does not agree.
#[derive(Clone, Debug, PartialEq)]
pub struct Failure {
    /// The case.
    pub case: String,
    /// The reading, under the name of the file.
    pub quantity: String,
    /// What the file says.
    pub wanted: String,
    /// What the core says.
    pub found: String,
    /// Relative difference, for numbers.
    pub difference: Option<f64>,
}

/// How often a quantity was compared and how far it was off at most.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Tally {
    /// Numbers and nulls compared.
    pub compared: usize,
    /// Largest relative difference.
    pub largest: f64,
    /// The case it is of.
    pub case: String,
}

/// The outcome of a file.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Report {
    /// Cases in the file.
    pub cases: usize,
    /// Determinate ones, compared.
    pub determinate: usize,
    /// Elastic ones, compared.
    pub elastic: usize,
    /// By quantity.
    pub tallies: BTreeMap<String, Tally>,
    /// What does not agree.
    pub failures: Vec<Failure>,
    /// Cases that cannot be run, and why.
    pub troubles: Vec<(String, Trouble)>,
    /// What people should know: by note, the cases.
    pub notes: BTreeMap<String, Vec<String>>,
}

impl Report {
    /// Whether every case, at least one, was run and agrees.
    #[must_use]
    pub fn passes(&self) -> bool {
        self.determinate + self.elastic > 0 && self.failures.is_empty() && self.troubles.is_empty()
    }

    /// The largest relative difference.
    #[must_use]
    pub fn largest(&self) -> f64 {
        self.tallies.values().fold(0.0, |largest, tally| tally.largest.max(largest))
    }

    pub(super) fn note(&mut self, case: &str, note: &str) {
        self.notes.entry(note.into()).or_default().push(case.into());
    }

    pub(super) fn trouble(&mut self, case: &str, trouble: Trouble) {
        self.troubles.push((case.into(), trouble));
    }

    pub(super) fn agree(&mut self, quantity: &str) {
        self.tallies.entry(quantity.into()).or_default().compared += 1;
    }

    pub(super) fn mismatch(&mut self, case: &str, quantity: &str, wanted: &str, found: &str) {
        self.agree(quantity);
        self.failures.push(Failure {
            case: case.into(),
            quantity: quantity.into(),
            wanted: wanted.into(),
            found: found.into(),
            difference: None,
        });
    }

    pub(super) fn difference(
        &mut self,
        case: &str,
        quantity: &str,
        wanted: f64,
        found: f64,
        difference: f64,
        tolerance: f64,
    ) {
        let tally = self.tallies.entry(quantity.into()).or_default();
        tally.compared += 1;
        if difference > tally.largest {
            (tally.largest, tally.case) = (difference, case.into());
        }
        // Written so that a difference that is not a number fails.
        if !matches!(
            difference.partial_cmp(&tolerance),
            Some(core::cmp::Ordering::Less | core::cmp::Ordering::Equal)
        ) {
            self.failures.push(Failure {
                case: case.into(),
                quantity: quantity.into(),
                wanted: wanted.to_string(),
                found: found.to_string(),
                difference: Some(difference),
            });
        }
    }
}

impl fmt::Display for Report {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        writeln!(
            f,
            "Largest relative difference, over max(|value|, 1e-3 of the load; lengths 1 mm; bare numbers 1e-3):"
        )?;
        for (quantity, tally) in &self.tallies {
            let at = if tally.case.is_empty() { "" } else { &tally.case };
            writeln!(f, "  {quantity:34} {:10.3e}  {:>5} compared  {at}", tally.largest, tally.compared)?;
        }
        for (note, cases) in &self.notes {
            writeln!(f, "note: {note} ({})", cases.join(", "))?;
        }
        for failure in &self.failures {
            let Failure { case, quantity, wanted, found, difference } = failure;
            write!(f, "FAIL {case} {quantity}: file {wanted}, core {found}")?;
            match difference {
                Some(difference) => writeln!(f, " (relative difference {difference:.3e})")?,
                None => writeln!(f)?,
            }
        }
        for (case, trouble) in &self.troubles {
            writeln!(f, "ERROR {case}: {trouble}")?;
        }
        writeln!(
            f,
            "{} cases: {} determinate, {} elastic (their large displacements, and what guys share on rigid legs), \
             compared to {TOLERANCE:e} (looser only where the working guy's arm is under {} % of the slant height, \
             noted above), {} in error.",
            self.cases,
            self.determinate,
            self.elastic,
            SHORT_ARM * 100.0,
            self.troubles.len()
        )?;
        let verdict = if self.passes() { "All cases agree." } else { "NOT all cases agree." };
        writeln!(f, "{verdict} Largest difference {:.3e}.", self.largest())
    }
}
