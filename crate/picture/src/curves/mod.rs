//! Curves over the lean or another lever: what the legs and the guys carry, above a rule of the lever's values.
//!
//! [`Curves`] are sampled once per rig; a [`Chart`] is laid out once per rig, size, units and words. Its still
//! layer (a scene, the lines through plotters, a scene of lettering) is kept by whoever paints it; the cursor, its values and
//! the pointer are a [`Scene`] made anew whenever the lever moves ([`Chart::cursor`]).

mod axis;
mod band;
mod chart;
mod cursor;
mod label;
mod over;
mod plan;
mod sample;
mod svg_backend;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod tests_over;

pub use axis::Axis;
pub use chart::{DrawResult, PIXEL};
pub use cursor::Grip;
pub use over::{SETBACKS, SPREADS};
pub use plan::{Options, Panels};
pub use sample::{Allowable, Curves, Fall, Panel, PanelKind, Sample, Series};
pub use svg_backend::SvgBackend;

use crate::{Inks, Scene, Words};
use label::{Clear, Label};
use outlean_rig::{Bands, Fault, Rig, Scatter, Solution};
use plan::Plan;

/// The curves of a rig, laid out.
#[derive(Clone, Debug, PartialEq)]
pub struct Chart {
    curves: Curves,
    options: Options,
    plan: Plan,
    labels: Vec<Label>,
    clears: Vec<Clear>,
    bands: Option<Bands>,
}

impl Chart {
    /// Lays the curves out. Sizes that are not finite or beyond sense are brought within it.
    #[must_use]
    pub fn new(curves: Curves, options: Options, words: &Words) -> Self {
        let plan = Plan::of(&curves, &options);
        let (labels, clears) = label::still(&curves, &plan, options.units, options.revealed, words);
        Self { curves, options, plan, labels, clears, bands: None }
    }

    /// Puts uncertainty bands under the lines, or takes them away. They are seen once they are drawn: [`Chart::draw_bands`].
    ///
    /// # Errors
    ///
    /// A scatter out of range.
    pub fn band(&mut self, rig: &Rig, scatter: Option<Scatter>) -> Result<(), Fault> {
        self.bands = scatter.map(|scatter| band::bands(&self.curves, rig, scatter)).transpose()?;
        Ok(())
    }

    /// Whether there are bands under the lines, drawn or being drawn.
    #[must_use]
    pub const fn banded(&self) -> bool {
        self.bands.is_some()
    }

    /// Draws so many more of the rigs that the bands are of; whether there were any left to draw.
    pub fn draw_bands(&mut self, draws: u32) -> bool {
        self.bands.as_mut().is_some_and(|bands| bands.draw(draws))
    }

    /// What is drawn.
    #[must_use]
    pub const fn curves(&self) -> &Curves {
        &self.curves
    }

    /// How it is drawn.
    #[must_use]
    pub const fn options(&self) -> &Options {
        &self.options
    }

    /// The lowest part of the still layer: hatch, balance leans, the strip, the rule.
    #[must_use]
    pub fn under(&self) -> Scene {
        self.still().under()
    }

    /// Draws what is over that: grid, axes, limits, lines. The backend is one of ours: [`SvgBackend`], or the
    /// page's. The paper itself is left as it is.
    ///
    /// # Errors
    ///
    /// What the backend reports.
    pub fn lines<DB: plotters_backend::DrawingBackend>(&self, inks: &Inks, backend: DB) -> DrawResult<DB> {
        self.still().lines(inks, backend)
    }

    /// The last part of the still layer: titles, numbers, names.
    #[must_use]
    pub fn over(&self) -> Scene {
        self.still().over()
    }

    fn still(&self) -> chart::Still<'_> {
        let Self { curves, options, plan, labels, bands, .. } = self;
        chart::Still { curves, plan, labels, bands: bands.as_ref(), revealed: options.revealed }
    }

    /// The moving layer over it, of the rig of the figure, solved.
    #[must_use]
    pub fn cursor(&self, rig: &Rig, solution: &Solution, grip: Grip) -> Scene {
        let Self { curves, options, plan, labels, clears, .. } = self;
        cursor::Moving { curves, plan, labels, clears, units: options.units, revealed: options.revealed }
            .scene(rig, solution, grip)
    }

    /// Where a value of the lever (SI) stands, CSS px from the left; one not shown stands at the nearer end.
    #[must_use]
    pub fn x_at(&self, value: f64) -> f64 {
        self.plan.x_at(value)
    }

    /// The value of the lever (SI) at `x` CSS px from the left; beyond the ends the end.
    #[must_use]
    pub fn value_at(&self, x: f64) -> f64 {
        self.plan.value_at(x)
    }

    /// Whether a pointer at `at` (CSS px) takes hold of the cursor that stands at `value` (SI): on the rule anywhere, in
    /// the panels near the cursor.
    #[must_use]
    pub fn takes_hold(&self, at: (f64, f64), value: f64) -> bool {
        cursor::takes_hold(&self.plan, self.plan.x_at(value), at)
    }

    /// Both layers as one `<svg>` element in the given inks, with a title and a description.
    #[must_use]
    pub fn svg(&self, rig: &Rig, solution: &Solution, inks: &Inks, title: &str, description: &str) -> String {
        let (under, mut over) = (self.under(), self.over());
        over.items.extend(self.cursor(rig, solution, Grip::Rest).items);
        let mut lines = String::new();
        // Writing into a text cannot fail.
        let _ = self.lines(inks, SvgBackend::new(&mut lines, under.width, under.height));
        let (under, over) = (crate::svg(&under, inks, title, description), crate::svg(&over, inks, "", ""));
        // The lines go between the two, and what is over them has no head of its own.
        let under = under.strip_suffix("</svg>\n").unwrap_or(&under);
        let over = over.split_once("</title>").map_or("", |(_, over)| over);
        format!("{under}<g transform=\"scale({})\">{lines}</g>{over}", 1.0 / PIXEL)
    }
}
