//! How surely: rigs a little off, and which of tape, angles, load and ground their spread comes from, each drawn by itself
//! with all else as entered.

use outlean_rig::{Band, Draws, Fault, Rig, Scatter, Uncertainty};
use serde::Serialize;

/// What one source of scatter does by itself.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Source {
    /// Which: `length`, `angle`, `load`, `soil`.
    pub name: &'static str,
    /// How far it may be off, either way.
    pub off: f64,
    /// What governs, where nothing else is off; `None` where no draw could be solved.
    pub ratio: Option<Band>,
}

/// Draws of a rig with everything off at once, and a quarter as many with each source of the scatter off by itself. Made at
/// one go or a few at a time: they come to the same.
#[derive(Clone, Debug)]
pub struct Surely {
    draws: u32,
    all: Draws,
    /// Of each source that is not nothing: its name, how far it may be off, draws.
    alone: Vec<(&'static str, f64, Draws)>,
}

impl Surely {
    /// Of a rig within a scatter, `draws` to be made; none is made yet.
    ///
    /// # Errors
    ///
    /// As [`outlean_rig::uncertainty`].
    pub fn new(rig: &Rig, scatter: &Scatter, seed: u64, draws: u32) -> Result<Self, Fault> {
        let each = [
            ("length", scatter.length, Scatter { length: scatter.length, ..Scatter::default() }),
            ("angle", scatter.angle, Scatter { angle: scatter.angle, ..Scatter::default() }),
            ("load", scatter.load, Scatter { load: scatter.load, ..Scatter::default() }),
            ("soil", scatter.soil, Scatter { soil: scatter.soil, ..Scatter::default() }),
        ];
        let each = each.into_iter().filter(|(_, off, _)| *off > 0.0);
        let alone = each.map(|(name, off, scatter)| Ok((name, off, Draws::new(rig, &scatter, seed)?)));
        Ok(Self { draws, all: Draws::new(rig, scatter, seed)?, alone: alone.collect::<Result<_, Fault>>()? })
    }

    /// How many draws are still to be made.
    #[must_use]
    pub fn left(&self) -> u32 {
        let quarter = self.draws.div_ceil(4);
        let alone = self.alone.iter().map(|(_, _, draws)| quarter.saturating_sub(draws.drawn()));
        alone.fold(self.draws.saturating_sub(self.all.drawn()), u32::saturating_add)
    }

    /// Makes so many more, as far as there are any left.
    pub fn draw(&mut self, mut more: u32) {
        let quarter = self.draws.div_ceil(4);
        let alone = self.alone.iter_mut().map(|(_, _, draws)| (draws, quarter));
        for (draws, wanted) in core::iter::once((&mut self.all, self.draws)).chain(alone) {
            let now = more.min(wanted.saturating_sub(draws.drawn()));
            draws.draw(now);
            more -= now;
        }
    }

    /// What everything off at once comes to.
    #[must_use]
    pub fn uncertainty(&self) -> Uncertainty {
        self.all.uncertainty()
    }

    /// What each source comes to, the one that spreads what governs most before the others. Where draws fall there is no end
    /// to that.
    #[must_use]
    pub fn sources(&self) -> Vec<Source> {
        let source = |(name, off, draws): &(&'static str, f64, Draws)| Source {
            name,
            off: *off,
            ratio: draws.uncertainty().ratio,
        };
        let mut all: Vec<_> = self.alone.iter().map(source).collect();
        all.sort_by(|a, b| b.width().total_cmp(&a.width()));
        all
    }
}

impl Source {
    /// From bound to bound.
    fn width(&self) -> f64 {
        let width = self.ratio.map_or(0.0, |band| band.high - band.low);
        // Both without end: all of them fall.
        if width.is_nan() { f64::INFINITY } else { width }
    }
}
