//! The state of one figure and how actions change it. No page, no pictures: everything here runs natively.

use crate::action::{Action, Change};
use crate::history::History;
use crate::motion::{Fall, Sweep, Swept};
use crate::slider::Slider;
use outlean_rig::{
    Fault, Governing, Limit, Rig, Solution, WorkingRange, balance_leans, governing, solve, working_range,
};
use outlean_rigfile::{SetError, Units, choice, field};

/// What moves by itself at the moment.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Motion {
    /// Nothing.
    Still,
    /// The lean sweeps.
    Sweeping(Sweep),
    /// The frame tips.
    Falling(Fall),
}

/// One figure: its rig, what was computed of it, and how it is shown.
#[derive(Clone, Debug)]
pub struct State {
    rig: Rig,
    first: Rig,
    history: History,
    solution: Solution,
    range: WorkingRange,
    governing: Governing,
    balance: Option<f64>,
    units: Units,
    veiled: bool,
    reduced: bool,
    slow: bool,
    halted: bool,
    motion: Motion,
    paused: Option<Sweep>,
    /// Milliseconds since the forces were revealed.
    revealed: f64,
}

/// How long forces take to grow once they are revealed, ms.
const REVEAL: f64 = 420.0;

impl State {
    /// The state of a figure that shows `rig`.
    ///
    /// # Errors
    ///
    /// The rig's fault, if it cannot be computed.
    pub fn new(rig: Rig) -> Result<Self, Fault> {
        let (solution, range, governing, balance) = compute(&rig)?;
        let mut state = Self {
            first: rig.clone(),
            history: History::default(),
            rig,
            solution,
            range,
            governing,
            balance,
            units: Units::Metric,
            veiled: false,
            reduced: false,
            slow: false,
            halted: false,
            motion: Motion::Still,
            paused: None,
            revealed: REVEAL,
        };
        state.lie_down_if_tipping();
        Ok(state)
    }

    /// The rig as it is.
    pub const fn rig(&self) -> &Rig {
        &self.rig
    }
    /// It solved.
    pub const fn solution(&self) -> &Solution {
        &self.solution
    }
    /// Its working range.
    pub const fn range(&self) -> &WorkingRange {
        &self.range
    }
    /// What governs at its lean.
    pub const fn governing(&self) -> &Governing {
        &self.governing
    }
    /// Its balance lean, rad, the first from the back.
    pub const fn balance(&self) -> Option<f64> {
        self.balance
    }
    /// The units shown.
    pub const fn units(&self) -> Units {
        self.units
    }
    /// Whether forces are hidden.
    pub const fn veiled(&self) -> bool {
        self.veiled
    }
    /// Whether motion is reduced.
    pub const fn reduced(&self) -> bool {
        self.reduced
    }
    /// Whether the sweep is slow.
    pub const fn slow(&self) -> bool {
        self.slow
    }
    /// Whether the lean is halted at an end of the range until it is taken again.
    pub const fn halted(&self) -> bool {
        self.halted
    }
    /// Whether a step can be taken back, and one be done again: not while forces are hidden.
    pub fn steps(&self) -> (bool, bool) {
        if self.veiled { (false, false) } else { self.history.has() }
    }
    /// What moves by itself.
    pub const fn motion(&self) -> &Motion {
        &self.motion
    }
    /// The share of their length that forces have grown to since they were revealed, 0 to 1.
    pub fn grown(&self) -> f64 {
        let left = 1.0 - (self.revealed / REVEAL).min(1.0);
        1.0 - left * left * left
    }
    /// Whether ticks are wanted.
    pub fn moving(&self) -> bool {
        match &self.motion {
            Motion::Still => self.revealed < REVEAL,
            Motion::Sweeping(_) => true,
            Motion::Falling(fall) => !fall.at_rest() && !self.reduced,
        }
    }

    /// Does an action and says what it changed. An action that would make a rig that cannot be computed
    /// changes nothing and comes back with its fault.
    pub fn act(&mut self, action: Action) -> Change {
        match action {
            Action::Grab => self.grab(),
            Action::Set { key, value } => self.set(&key, value),
            Action::SetStepped { key, value } => {
                let step = Slider::of(&key).map(|slider| slider.nearest(value, self.units));
                self.set(&key, step.unwrap_or(value))
            }
            Action::Step { key, steps } => self.step(&key, steps),
            Action::Choose { key, word } => self.choose(&key, &word),
            Action::Units { units } => {
                let units_changed = self.units != units;
                self.units = units;
                Change { units: units_changed, ..Change::default() }
            }
            Action::Play => self.play(),
            Action::Pause => self.pause(),
            Action::Pace { slow } => {
                self.slow = slow;
                Change { motion: true, ..Change::default() }
            }
            Action::Motion { reduced } => {
                self.reduced = reduced;
                let mut change = if reduced { self.pause() } else { Change::default() };
                if let (true, Motion::Falling(fall)) = (reduced, &mut self.motion) {
                    fall.lie_down();
                }
                change.motion = true;
                change
            }
            Action::Veil => self.veil(true),
            Action::Reveal => self.veil(false),
            Action::Load { rig } => match Self::new(*rig) {
                Ok(new) => {
                    *self = Self {
                        units: self.units,
                        veiled: self.veiled,
                        revealed: self.revealed,
                        reduced: self.reduced,
                        slow: self.slow,
                        ..new
                    };
                    Change { lean: true, rig: true, motion: true, ..Change::default() }
                }
                Err(fault) => Change { fault: Some(fault), ..Change::default() },
            },
            Action::Show { rig } => self.put_up(*rig),
            Action::Reset => self.put_up(self.first.clone()),
            Action::Undo => self.retrace(History::undo),
            Action::Redo => self.retrace(History::redo),
            Action::Tick { ms } => self.tick(ms),
        }
    }

    /// Shows another rig, as a step that can be taken back.
    fn put_up(&mut self, rig: Rig) -> Change {
        self.history.begin();
        self.stand();
        Change { motion: true, ..self.adopt(rig) }
    }

    /// Goes a step back or forth.
    fn retrace(&mut self, step: fn(&mut History, &Rig) -> Option<Rig>) -> Change {
        self.stand();
        let rig = if self.veiled { None } else { step(&mut self.history, &self.rig) };
        let change = rig.map_or_else(Change::default, |rig| self.adopt(rig));
        Change { motion: true, ..change }
    }

    /// Nothing moves any more.
    fn stand(&mut self) {
        if let Motion::Falling(Fall { back_to: Some(lean), .. }) = self.motion {
            self.put_lean(lean);
        }
        self.motion = Motion::Still;
        self.paused = None;
        self.halted = false;
    }

    fn veil(&mut self, veiled: bool) -> Change {
        let veil = self.veiled != veiled;
        self.veiled = veiled;
        if veil && !veiled && !self.reduced {
            self.revealed = 0.0;
        }
        let mut change = if veiled { self.pause() } else { Change::default() };
        change.veil = veil;
        change
    }

    /// Someone takes hold: halts are over, the sweep pauses, a fallen frame is set back.
    fn grab(&mut self) -> Change {
        self.history.begin();
        self.halted = false;
        match self.motion {
            Motion::Falling(Fall { back_to: Some(lean), .. }) => {
                self.motion = Motion::Still;
                self.put_lean(lean);
                Change { lean: true, motion: true, ..Change::default() }
            }
            Motion::Sweeping(_) => self.pause(),
            Motion::Falling(_) | Motion::Still => Change::default(),
        }
    }

    fn set(&mut self, key: &str, value: f64) -> Change {
        if key == "lean" {
            return self.lean_toward(value);
        }
        let mut rig = self.rig.clone();
        match field(key).map(|field| field.set(&mut rig, value)) {
            Some(Ok(())) => self.adopt(rig),
            Some(Err(SetError::Fault(fault))) => Change { fault: Some(fault), ..Change::default() },
            Some(Err(SetError::Absent)) | None => Change::default(),
        }
    }

    fn step(&mut self, key: &str, steps: f64) -> Change {
        let (Some(slider), Some(now)) = (Slider::of(key), self.value(key)) else { return Change::default() };
        self.set(key, slider.stepped(now, steps, self.units))
    }

    /// The value of a field of the rig, SI.
    pub fn value(&self, key: &str) -> Option<f64> {
        field(key)?.get(&self.rig)
    }

    fn choose(&mut self, key: &str, word: &str) -> Change {
        let mut rig = self.rig.clone();
        match choice(key).map(|choice| choice.set(&mut rig, word)) {
            Some(Ok(())) => self.adopt(rig),
            Some(Err(_)) | None => Change::default(),
        }
    }

    /// Moves the lean toward `target`, halting once at an end of the working range.
    fn lean_toward(&mut self, target: f64) -> Change {
        if !target.is_finite() || matches!(self.motion, Motion::Falling(Fall { back_to: Some(_), .. })) {
            return Change::default();
        }
        let target = Slider::of("lean").map_or(target, |slider| slider.within(target));
        let lean = self.rig.lean;
        let mut to = target;
        let mut halted = false;
        if let Some(interval) = self.range.around(lean) {
            let (end, limit) = if target > lean {
                (interval.to, interval.to_limit)
            } else {
                (interval.from, interval.from_limit)
            };
            let leaves = target > interval.to || target < interval.from;
            if leaves && limit != Limit::NotLookedFurther && !self.veiled {
                if (lean - end).abs() > 1e-9 {
                    to = end;
                    halted = true;
                } else if self.halted {
                    return Change::default();
                }
            }
        }
        self.halted = halted;
        let mut change = self.move_lean(to);
        change.halted = halted;
        change
    }

    /// Moves the lean to `to`; a frame that stood and now tips begins to fall.
    fn move_lean(&mut self, to: f64) -> Change {
        let from = self.rig.lean;
        let stood = self.solution.tips().is_none();
        self.history.keep(&self.rig);
        let mut change = Change { lean: true, ..Change::default() };
        self.put_lean(to);
        if self.solution.tips().is_some() {
            let broke = if let Motion::Sweeping(sweep) = self.motion { Some(sweep) } else { None };
            let back_to = stood.then_some(from);
            let mut fall = Fall { ms: 0.0, back_to, broke };
            if self.reduced || back_to.is_none() {
                fall.lie_down();
            }
            self.motion = Motion::Falling(fall);
            (change.tips, change.motion) = (true, true);
        } else if matches!(self.motion, Motion::Falling(_)) {
            self.motion = Motion::Still;
            change.motion = true;
        }
        change
    }

    /// Sets the lean and what follows from it. A lean at which a rope has no length is left where it was.
    fn put_lean(&mut self, lean: f64) {
        let was = self.rig.lean;
        self.rig.lean = lean;
        match (solve(&self.rig), governing(&self.rig, lean)) {
            (Ok(solution), Ok(governing)) => {
                self.solution = solution;
                self.governing = governing;
            }
            _ => self.rig.lean = was,
        }
    }

    /// Takes `rig` in place of the present one, if it can be computed.
    fn adopt(&mut self, rig: Rig) -> Change {
        match compute(&rig) {
            Ok((solution, range, governing, balance)) => {
                self.history.keep(&self.rig);
                self.rig = rig;
                (self.solution, self.range, self.governing, self.balance) =
                    (solution, range, governing, balance);
                let fell = matches!(self.motion, Motion::Falling(_));
                if fell {
                    self.motion = Motion::Still;
                }
                self.paused = None;
                self.halted = false;
                let tips = self.lie_down_if_tipping();
                Change { lean: true, rig: true, motion: fell || tips, tips, ..Change::default() }
            }
            Err(fault) => Change { fault: Some(fault), ..Change::default() },
        }
    }

    /// A rig that tips as it is set up falls and stays down.
    fn lie_down_if_tipping(&mut self) -> bool {
        let tips = self.solution.tips().is_some();
        if tips {
            let mut fall = Fall { ms: 0.0, back_to: None, broke: None };
            if self.reduced {
                fall.lie_down();
            }
            self.motion = Motion::Falling(fall);
        }
        tips
    }

    fn play(&mut self) -> Change {
        if self.reduced || self.veiled {
            return Change::default();
        }
        if let Motion::Falling(_) = self.motion {
            return Change::default();
        }
        self.history.begin();
        let most = Slider::of("lean").map_or(self.rig.lean, |slider| slider.span.1);
        let sweep = self.paused.take().unwrap_or_else(|| Sweep::from(self.rig.lean, &self.range, most));
        self.halted = false;
        self.motion = Motion::Sweeping(sweep);
        Change { motion: true, ..Change::default() }
    }

    fn pause(&mut self) -> Change {
        if let Motion::Sweeping(sweep) = self.motion {
            self.paused = Some(sweep);
            self.motion = Motion::Still;
            return Change { motion: true, ..Change::default() };
        }
        Change::default()
    }

    fn tick(&mut self, ms: f64) -> Change {
        // A page that slept does not leap.
        let ms = if ms.is_finite() { ms.clamp(0.0, 100.0) } else { 0.0 };
        let growing = self.revealed < REVEAL;
        self.revealed = (self.revealed + ms).min(REVEAL);
        match self.motion {
            Motion::Still => Change { lean: growing, ..Change::default() },
            Motion::Sweeping(mut sweep) => {
                let swept = sweep.tick(ms, self.rig.lean, self.slow, &self.range);
                self.motion = Motion::Sweeping(sweep);
                match swept {
                    Swept::Waits => Change::default(),
                    Swept::Moves(lean) => self.move_lean(lean),
                    Swept::Ends(lean) => {
                        let change = self.move_lean(lean);
                        if matches!(self.motion, Motion::Sweeping(_)) {
                            self.motion = Motion::Still;
                        }
                        Change { motion: true, ..change }
                    }
                }
            }
            Motion::Falling(mut fall) => {
                fall.ms += ms;
                self.motion = Motion::Falling(fall);
                let mut change = Change { lean: true, ..Change::default() };
                if let (true, Some(lean)) = (fall.over(), fall.back_to) {
                    self.put_lean(lean);
                    self.motion = fall.broke.map_or(Motion::Still, |mut sweep| {
                        sweep.turn_back();
                        Motion::Sweeping(sweep)
                    });
                    change.motion = true;
                } else if fall.at_rest() {
                    change.motion = true;
                }
                change
            }
        }
    }
}

fn compute(rig: &Rig) -> Result<(Solution, WorkingRange, Governing, Option<f64>), Fault> {
    let solution = solve(rig)?;
    let range = working_range(rig)?;
    let governing = governing(rig, rig.lean)?;
    let balance = balance_leans(rig)?.first().copied();
    Ok((solution, range, governing, balance))
}
