//! The job: what a plan needs beside the rig. Where, when, who is in charge, who hauls, what is test-loaded, how far off
//! tape and load may be.

use outlean_rig::{Allowed, Dimension, Field, Lean, LineName, Scatter};

/// What a plan needs beside its rig. What is `None` is not said.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Job {
    /// Where it is built.
    pub place: Option<String>,
    /// When, as someone wrote it: no clock is read.
    pub date: Option<String>,
    /// Who is in charge on site.
    pub in_charge: Option<String>,
    /// How many people there are.
    pub people: Option<f64>,
    /// What each of them is taken to pull, N.
    pub pull: Option<f64>,
    /// Parts of rope of the simple system of pulleys that they haul through; 1 for none.
    pub parts: Option<f64>,
    /// Efficiency of each of its pulleys.
    pub efficiency: Option<f64>,
    /// How far the load goes below the pulley, m.
    pub lowered: Option<f64>,
    /// Mass that is hung for the test load, kg.
    pub test_load: Option<f64>,
    /// The lean once more, measured by a second method.
    #[serde(skip)]
    pub lean_again: Option<Lean>,
    /// How far tape, angles, load and ground may be off: [`Scatter::USUAL`] where nobody says.
    pub scatter: Scatter,
}

impl Default for Job {
    fn default() -> Self {
        Self {
            place: None,
            date: None,
            in_charge: None,
            people: None,
            pull: None,
            parts: None,
            efficiency: None,
            lowered: None,
            test_load: None,
            lean_again: None,
            scatter: Scatter::USUAL,
        }
    }
}

/// One number of a [`Job`].
#[derive(Debug)]
pub struct JobField {
    /// Its name in a rig file.
    pub key: &'static str,
    /// What kind of quantity it holds.
    pub dimension: Dimension,
    least: f64,
    most: f64,
    get: fn(&Job) -> Option<f64>,
    set: fn(&mut Job, f64),
}

impl JobField {
    /// The range it may take, in its SI unit.
    #[must_use]
    pub const fn allowed(&self) -> Allowed {
        Allowed { least: self.least, most: self.most }
    }

    /// Its value, in its SI unit; `None` where nothing is said.
    #[must_use]
    pub fn get(&self, job: &Job) -> Option<f64> {
        (self.get)(job)
    }

    /// Sets it, in its SI unit; a count is rounded.
    ///
    /// # Errors
    ///
    /// What is allowed, for a value out of range; the job is then as it was.
    pub fn set(&self, job: &mut Job, value: f64) -> Result<(), Allowed> {
        let allowed = self.allowed();
        if !(value >= allowed.least && value <= allowed.most) {
            return Err(allowed);
        }
        let whole = matches!(self.dimension, Dimension::Count);
        (self.set)(job, if whole { libm::round(value) } else { value });
        Ok(())
    }
}

/// Every text of a job, by its key in a rig file. `plan.lean_again` is a lean, written as `lean` is.
pub const JOB_TEXTS: [&str; 3] = ["plan.place", "plan.date", "plan.in_charge"];
/// The key of the lean by a second method.
pub const LEAN_AGAIN: &str = "plan.lean_again";

macro_rules! said {
    ($key:literal, $dimension:ident, $least:expr, $most:expr, $place:ident) => {
        JobField {
            key: $key,
            dimension: Dimension::$dimension,
            least: $least,
            most: $most,
            get: |job| job.$place,
            set: |job, value| job.$place = Some(value),
        }
    };
}

macro_rules! scatter {
    ($key:literal, $core:ident, $place:ident) => {
        JobField {
            key: $key,
            dimension: Field::$core.dimension(),
            least: Field::$core.allowed().least,
            most: Field::$core.allowed().most,
            get: |job| Some(job.scatter.$place),
            set: |job, value| job.scatter.$place = value,
        }
    };
}

const EFFICIENCY: Allowed = Field::PulleyEfficiency(LineName::Main).allowed();

/// Every number of a job.
pub const JOB: [JobField; 10] = [
    said!("plan.people", Count, 1.0, 200.0, people),
    said!("plan.pull", Force, 1.0, 2000.0, pull),
    said!("plan.parts", Count, 1.0, 12.0, parts),
    said!("plan.efficiency", Ratio, EFFICIENCY.least, EFFICIENCY.most, efficiency),
    said!("plan.lowered", Length, 0.0, 500.0, lowered),
    said!("plan.test_load", Mass, 0.0, 20_000.0, test_load),
    scatter!("plan.scatter.length", LengthScatter, length),
    scatter!("plan.scatter.angle", AngleScatter, angle),
    scatter!("plan.scatter.load", LoadScatter, load),
    scatter!("plan.scatter.soil", SoilScatter, soil),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_number_holds_what_it_is_set_to_and_refuses_what_is_not_allowed() {
        for (place, field) in JOB.iter().enumerate() {
            let mut job = Job::default();
            let Allowed { least, most } = field.allowed();
            let wanted = match field.dimension {
                Dimension::Count => least + 3.0,
                _ => least + 0.31 * (most - least),
            };
            assert_eq!(field.set(&mut job, wanted), Ok(()), "{}", field.key);
            for (other, each) in JOB.iter().enumerate() {
                let expected = if other == place { Some(wanted) } else { each.get(&Job::default()) };
                assert_eq!(each.get(&job), expected, "{} beside {}", each.key, field.key);
            }
            let before = job.clone();
            for wrong in [least - 1.0, most * 1.01, f64::NAN] {
                assert_eq!(field.set(&mut job, wrong), Err(field.allowed()), "{} took {wrong}", field.key);
            }
            assert_eq!(job, before);
        }
    }
}
