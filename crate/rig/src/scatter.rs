//! Scatter: how far off tape, angle, load and strength may be, and what then follows.

use crate::guy::MAX_GUYS;
use crate::limit::governing_of;
use crate::strength::Holdfast;
use crate::{Fault, Field, Generator, Governing, Ground, Pair, Point, Rig, Side, Vector, solve};
use arrayvec::ArrayVec;

/// How far each number may be from what was entered, either way.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Scatter {
    /// Of the lengths of legs and spread, and of where anchors and haul points are, m.
    pub length: f64,
    /// Of every angle, rad.
    pub angle: f64,
    /// Of the load's mass, as a share of it.
    pub load: f64,
    /// Of what holdfasts may carry and of the friction of the ground, as a share of it.
    pub soil: f64,
}

impl Scatter {
    /// What is taken where nobody says more: a tape over rough ground, an angle by eye along a plumb line, a load guessed, a
    /// holdfast tried. Our own choice.
    pub const USUAL: Self = Self { length: 0.05, angle: 0.034_906_585_039_886_59, load: 0.1, soil: 0.3 };

    pub(crate) fn check(&self) -> Result<(), Fault> {
        Field::LengthScatter.check(self.length)?;
        Field::AngleScatter.check(self.angle)?;
        Field::LoadScatter.check(self.load)?;
        Field::SoilScatter.check(self.soil)?;
        Ok(())
    }
}

/// One draw of `rig`: legs, spread, anchors and haul points, angles, the load's mass and what ground and holdfasts bear somewhere
/// within their scatter, each place as likely as any other; all else, the edge among it, as entered. The same seed and number
/// give the same rig on every machine, whatever other draws are made.
///
/// It may be impossible, where the scatter is wide: that shows when it is solved.
#[must_use]
pub fn scattered(rig: &Rig, scatter: &Scatter, seed: u64, number: u32) -> Rig {
    let generator = Generator::new(seed.rotate_left(32) ^ u64::from(number), "scatter");
    let mut draw = Draw { generator, scatter };
    let mut drawn = rig.clone();
    for side in Side::BOTH {
        drawn.legs.on_mut(side).length += draw.length();
    }
    let spread = (rig.feet.at.left - rig.feet.at.right).length();
    // Not past each other: what is ahead of the feet would be behind them.
    drawn.feet.at = Ground::feet_apart(&rig.feet, (spread + draw.length()).max(0.0));
    for guy in &mut drawn.guys {
        guy.anchor = draw.near(guy.anchor);
        guy.holdfast_allowable = draw.ground(guy.holdfast_allowable);
        guy.holdfast = draw.holdfast(guy.holdfast);
    }
    drawn.line.path = drawn.line.path.hauled_from(|to| draw.near(to));
    if let Some(second) = &mut drawn.second {
        second.line.path = second.line.path.hauled_from(|to| draw.near(to));
    }
    drawn.lean += draw.angle();
    drawn.load.side_angle += draw.angle();
    drawn.load.outward_angle += draw.angle();
    for swing in drawn.load.at_edge.iter_mut().chain(&mut drawn.load.on_tag_lines) {
        swing.side += draw.angle();
        swing.outward += draw.angle();
    }
    drawn.load.mass *= 1.0 + draw.within(scatter.load);
    drawn.feet.friction = draw.ground(drawn.feet.friction);
    drawn.feet.bearing_allowable = draw.ground(drawn.feet.bearing_allowable);
    drawn.gear.haul_allowable = draw.ground(drawn.gear.haul_allowable);
    drawn.gear.haul = draw.holdfast(drawn.gear.haul);
    drawn.gear.second_haul_allowable = draw.ground(drawn.gear.second_haul_allowable);
    drawn.gear.second_haul = draw.holdfast(drawn.gear.second_haul);
    drawn
}

/// What is drawn of one rig, in the order in which it is asked for.
struct Draw<'a> {
    generator: Generator,
    scatter: &'a Scatter,
}

impl Draw<'_> {
    fn within(&mut self, most: f64) -> f64 {
        most * (2.0 * self.generator.unit() - 1.0)
    }

    fn length(&mut self) -> f64 {
        self.within(self.scatter.length)
    }

    fn angle(&mut self) -> f64 {
        self.within(self.scatter.angle)
    }

    fn near(&mut self, point: Point) -> Point {
        point + Vector::new(self.length(), self.length(), self.length())
    }

    /// What the ground is said to bear, if it is; nothing is drawn where it is not.
    fn ground(&mut self, said: Option<f64>) -> Option<f64> {
        said.map(|said| said * (1.0 + self.within(self.scatter.soil)))
    }

    fn holdfast(&mut self, holdfast: Holdfast) -> Holdfast {
        if holdfast.capacity().is_none() {
            return holdfast;
        }
        holdfast.times(1.0 + self.within(self.scatter.soil))
    }
}

/// The share of draws beyond either bound of a band.
pub(crate) const END: f64 = 0.05;

/// The middle of some draws and the bounds between which nine in ten of them lie.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Band {
    /// One draw in twenty is below.
    pub low: f64,
    /// As many draws are below as above.
    pub middle: f64,
    /// One draw in twenty is above.
    pub high: f64,
}

impl Band {
    /// The band of some values, in any order, which are put in order; `None` of none.
    #[must_use]
    pub fn of(values: &mut [f64]) -> Option<Self> {
        values.sort_unstable_by(f64::total_cmp);
        let at =
            |share: f64| values.get(libm::round(share * (values.len().saturating_sub(1)) as f64) as usize);
        Some(Self { low: *at(END)?, middle: *at(0.5)?, high: *at(1.0 - END)? })
    }
}

/// What a number of draws come to. Shares are of the entered scatter: none is a probability of failure.
#[derive(Clone, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Uncertainty {
    /// How many draws were made.
    pub draws: u32,
    /// How many could not be solved.
    pub impossible: u32,
    /// How many tip in the present case.
    pub tipping: u32,
    /// How many are past a limit, in any case; those that tip among them.
    pub past: u32,
    /// Compression of each leg, N, in the draws that stand; `None` where none does.
    pub compression: Pair<Option<Band>>,
    /// Tension of each guy, N, in the draws that stand.
    pub guys: ArrayVec<Option<Band>, MAX_GUYS>,
    /// The governing ratio, infinite where a draw tips.
    pub ratio: Option<Band>,
}

/// What `draws` draws of `rig` within `scatter` come to, at its own lean and in its present case.
///
/// # Errors
///
/// As [`crate::solve`], and a scatter out of range.
pub fn uncertainty(rig: &Rig, scatter: &Scatter, seed: u64, draws: u32) -> Result<Uncertainty, Fault> {
    let mut all = Draws::new(rig, scatter, seed)?;
    all.draw(draws);
    Ok(all.uncertainty())
}

/// Draws of a rig within its scatter, made a few at a time: [`uncertainty`] for whoever cannot wait for all of them.
#[derive(Clone, Debug)]
pub struct Draws {
    rig: Rig,
    scatter: Scatter,
    seed: u64,
    drawn: u32,
    impossible: u32,
    tipping: u32,
    past: u32,
    legs: Pair<Vec<f64>>,
    guys: Vec<Vec<f64>>,
    ratios: Vec<f64>,
}

impl Draws {
    /// Of `rig` within `scatter`; none drawn yet.
    ///
    /// # Errors
    ///
    /// As [`uncertainty`].
    pub fn new(rig: &Rig, scatter: &Scatter, seed: u64) -> Result<Self, Fault> {
        scatter.check()?;
        solve(rig)?;
        Ok(Self {
            rig: rig.clone(),
            scatter: *scatter,
            seed,
            drawn: 0,
            impossible: 0,
            tipping: 0,
            past: 0,
            legs: Pair::new(Vec::new(), Vec::new()),
            guys: vec![Vec::new(); rig.guys.len()],
            ratios: Vec::new(),
        })
    }

    /// How many are drawn.
    #[must_use]
    pub const fn drawn(&self) -> u32 {
        self.drawn
    }

    /// Draws so many more.
    pub fn draw(&mut self, more: u32) {
        for _ in 0..more {
            let drawn = scattered(&self.rig, &self.scatter, self.seed, self.drawn);
            self.drawn = self.drawn.saturating_add(1);
            let Ok(solution) = solve(&drawn) else {
                self.impossible += 1;
                continue;
            };
            let worst = governing_of(&drawn, &solution);
            self.past += u32::from(!Governing::holds(&worst));
            self.ratios.push(worst.ratio);
            let Some(forces) = solution.forces() else {
                self.tipping += 1;
                continue;
            };
            self.legs.left.push(forces.compression.left);
            self.legs.right.push(forces.compression.right);
            for (all, guy) in self.guys.iter_mut().zip(&forces.guys) {
                all.push(guy.tension);
            }
        }
    }

    /// What those drawn so far come to.
    #[must_use]
    pub fn uncertainty(&self) -> Uncertainty {
        let band = |values: &Vec<f64>| Band::of(&mut values.clone());
        Uncertainty {
            draws: self.drawn,
            impossible: self.impossible,
            tipping: self.tipping,
            past: self.past,
            compression: Pair::new(band(&self.legs.left), band(&self.legs.right)),
            guys: self.guys.iter().map(band).collect(),
            ratio: band(&self.ratios),
        }
    }
}
