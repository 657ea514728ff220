//! What was done to a rig, so that it can be taken back.

use outlean_rig::Rig;

/// Steps kept; the oldest are forgotten.
const KEPT: usize = 50;

/// Rigs before and after the present one. Everything done in one go (a drag, a key held down, a sweep) is one step.
#[derive(Clone, Debug, Default)]
pub struct History {
    past: Vec<Rig>,
    future: Vec<Rig>,
    /// Whether the next change begins a step.
    fresh: bool,
}

impl History {
    /// What comes now is a step of its own.
    pub const fn begin(&mut self) {
        self.fresh = true;
    }

    /// To be told of `rig` before it changes.
    pub fn keep(&mut self, rig: &Rig) {
        if !core::mem::take(&mut self.fresh) {
            return;
        }
        self.future.clear();
        if self.past.len() == KEPT {
            self.past.remove(0);
        }
        self.past.push(rig.clone());
    }

    /// The rig before the last step; `now` can be come back to.
    pub fn undo(&mut self, now: &Rig) -> Option<Rig> {
        self.fresh = false;
        let rig = self.past.pop()?;
        self.future.push(now.clone());
        Some(rig)
    }

    /// The rig after the last step taken back.
    pub fn redo(&mut self, now: &Rig) -> Option<Rig> {
        self.fresh = false;
        let rig = self.future.pop()?;
        self.past.push(now.clone());
        Some(rig)
    }

    /// Whether there is a step to take back, and one to do again.
    pub fn has(&self) -> (bool, bool) {
        (!self.past.is_empty(), !self.future.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn leaning(lean: f64) -> Rig {
        Rig::new(4.0, 1.0, lean, 200.0)
    }

    #[test]
    fn a_step_is_taken_back_and_done_again() {
        let mut history = History::default();
        for lean in [0.1, 0.2] {
            history.begin();
            history.keep(&leaning(lean));
            // Still the same drag.
            history.keep(&leaning(lean + 0.05));
        }
        assert_eq!(history.undo(&leaning(0.3)), Some(leaning(0.2)));
        assert_eq!(history.undo(&leaning(0.2)), Some(leaning(0.1)));
        assert!(history.undo(&leaning(0.1)).is_none());
        assert_eq!(history.has(), (false, true));
        assert_eq!(history.redo(&leaning(0.1)), Some(leaning(0.2)));
        assert_eq!(history.redo(&leaning(0.2)), Some(leaning(0.3)));
        assert_eq!(history.has(), (true, false));
    }

    #[test]
    fn a_new_step_ends_what_could_be_done_again_and_old_ones_are_forgotten() {
        let mut history = History::default();
        for i in 0..KEPT + 7 {
            history.begin();
            history.keep(&leaning(i as f64 / 100.0));
        }
        assert!(history.undo(&leaning(1.0)).is_some());
        history.begin();
        history.keep(&leaning(0.5));
        assert_eq!(history.has(), (true, false));
        let mut steps = 0;
        let mut now = leaning(0.6);
        while let Some(rig) = history.undo(&now) {
            now = rig;
            steps += 1;
        }
        assert_eq!((steps, now), (KEPT, leaning(0.07)));
    }
}
