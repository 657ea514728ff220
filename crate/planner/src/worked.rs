//! Worked: a rig file that makes a plan, and that plan, worked out once for all that is asked of it.

use outlean_plan::{DRAWS, Given, Plan, SEED, Surely, Voice, guys};
use outlean_rigfile::{RigFile, Units, Words, read};

/// A rig file and its plan.
pub struct Worked {
    /// The file.
    pub file: RigFile,
    /// Its plan: how surely it holds stands in it once all is drawn.
    pub plan: Plan,
    /// What its guys are called.
    names: Vec<String>,
    surely: Surely,
}

impl Worked {
    /// Of a rig file's text; `None` for one with an error in it.
    pub fn of(text: &str, words: &Words) -> Option<Self> {
        let file = read(text).0?;
        let plan = Plan::of(&given(&file)).ok()?;
        let surely = Surely::new(&file.rig, &file.job.scatter, SEED, DRAWS).ok()?;
        let names = guys(words, &file.rig, &file.guy_names);
        Some(Self { file, plan, names, surely })
    }

    /// Draws so many more rigs a little off; how many are still to be drawn.
    pub fn draw(&mut self, more: u32) -> u32 {
        self.surely.draw(more);
        let left = self.surely.left();
        if left == 0 && self.plan.uncertainty.is_none() {
            self.plan.take(&self.surely);
        }
        left
    }

    /// How it is spoken of.
    pub fn voice<'a>(&'a self, words: &'a Words, units: Units) -> Voice<'a> {
        Voice { words, units, guys: &self.names }
    }
}

/// What a plan is made from, without how surely.
pub const fn given(file: &RigFile) -> Given<'_> {
    Given { rig: &file.rig, job: &file.job, draws: 0 }
}
