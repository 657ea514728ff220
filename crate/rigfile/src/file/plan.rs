//! What a rig file says of the job, under `[plan]`.

use super::assemble::Assembly;
use super::walk::Scalar;
use crate::job::{JOB, JOB_TEXTS, LEAN_AGAIN};
use crate::problem::{Wanted, What};
use crate::{Job, parse_lean};

impl Assembly<'_> {
    /// The job, as far as the file says anything of it.
    pub(super) fn job(&mut self) -> Job {
        let mut job = Job::default();
        for field in &JOB {
            let Some(leaf) = self.leaves.values.get(field.key) else { continue };
            let Some(given) = self.quantity(field.key, leaf, field.dimension) else { continue };
            if let Err(allowed) = field.set(&mut job, given.value) {
                let what = What::OutOfRange {
                    key: field.key.to_owned(),
                    written: super::assemble::written(leaf),
                    allowed,
                    dimension: field.dimension,
                    unit: given.unit,
                };
                self.error(field.key, what);
            }
        }
        let mut texts = JOB_TEXTS.map(|key| self.free_text(key)).into_iter();
        let mut next = || texts.next().flatten();
        (job.place, job.date, job.in_charge) = (next(), next(), next());
        if let Some(leaf) = self.leaves.values.get(LEAN_AGAIN) {
            match &leaf.value {
                Scalar::Text(text) => match parse_lean(text) {
                    Ok(lean) => job.lean_again = Some(lean),
                    Err(error) => self.error(LEAN_AGAIN, What::BadLean { error }),
                },
                other => {
                    let (key, found) = (LEAN_AGAIN.to_owned(), super::assemble::kind(other));
                    self.error(LEAN_AGAIN, What::WrongType { key, found, wanted: Wanted::Lean });
                }
            }
        }
        job
    }
}
