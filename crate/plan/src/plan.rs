//! The plan: everything that is to be known of a rig before it is built.

use crate::as_built::measures;
use crate::steps::{From, Numbered, steps};
use crate::{
    Advice, Crew, Demand, Inspected, Measure, Pace, Several, Source, Step, Stretching, Surely, Team, Test,
    Verdict, demands, holdfasts, inspection, lifts, pacing,
};
use outlean_rig::{
    Clearance, Fault, Finding, Governing, Materials, Proposal, Rig, Tip, Uncertainty, WorkingRange, checks,
    findings, governing, limits_at, materials, proposals, solve, working_range,
};
use outlean_rigfile::Job;
use serde::Serialize;

/// The seed of the draws: the same for everyone, so that a plan is the same wherever it is worked out.
pub const SEED: u64 = 1;
/// How many draws a plan is worked out with where nobody says.
pub const DRAWS: u32 = 512;
/// Efficiency of a pulley of the haul system where nobody says: our choice.
const EFFICIENCY: f64 = 0.8;

/// What a plan is made from.
#[derive(Clone, Copy, Debug)]
pub struct Given<'a> {
    /// The rig.
    pub rig: &'a Rig,
    /// What else is said of the job.
    pub job: &'a Job,
    /// How many rigs a little off are drawn; 0 for none, where only the rest is wanted.
    pub draws: u32,
}

/// A plan.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Plan {
    /// As given.
    pub job: Job,
    /// What to do with it.
    pub advice: Advice,
    /// Within limits of what.
    pub verdict: Verdict,
    /// How it tips in the case at hand, if it does.
    pub tips: Option<Tip>,
    /// What governs at the planned lean, in any case.
    pub governing: Governing,
    /// Every limit there, the nearest first.
    pub limits: Vec<Governing>,
    /// The working range, and what ends it.
    pub range: WorkingRange,
    /// Whether more than one guy holds it one way.
    pub several: Several,
    /// On guys that stretch; `None` where that is not known.
    pub stretching: Option<Stretching>,
    /// The least room at the edge in any case, as set and at rest, where that is known.
    pub clearance: Option<Clearance>,
    /// Rules of the trade held against it.
    pub findings: Vec<Finding>,
    /// What would bring it inside, the smallest change first; empty where it is inside.
    pub proposals: Vec<Proposal>,
    /// The most that each part carries.
    pub demands: Vec<Demand>,
    /// Where each thing stands.
    pub pacing: Vec<Pace>,
    /// What is cut and carried.
    pub materials: Materials,
    /// What is built in which order.
    pub steps: Vec<Numbered>,
    /// What is looked at before it is loaded.
    pub inspection: Vec<Inspected>,
    /// What hands must pull.
    pub crew: Crew,
    /// How many people it takes while the load is hauled, by our count; `None` where it is not said what each pulls.
    pub people: Option<u32>,
    /// What it comes to within the scatter of the job; `None` where nothing was drawn.
    pub uncertainty: Option<Uncertainty>,
    /// What each source of that scatter does by itself, by a quarter as many draws; the one that does most first.
    pub sources: Vec<Source>,
    /// What is measured once it stands.
    pub as_built: Vec<Measure>,
    /// The test load.
    pub test: Test,
}

impl Plan {
    /// Of what is given.
    ///
    /// # Errors
    ///
    /// As [`solve`], now, in every case of the rig, and as near to how it is to be set as it can be set: the field, its
    /// value, what is allowed.
    pub fn of(given: &Given<'_>) -> Result<Self, Fault> {
        let Given { rig, job, draws } = *given;
        let solution = solve(rig)?;
        let range = working_range(rig)?;
        let stretching = Stretching::of(rig)?;
        let (proposals, demands) = (proposals(rig), demands(rig)?);
        let mut limits = limits_at(rig, rig.lean)?.to_vec();
        limits.sort_by(|a, b| b.ratio.total_cmp(&a.ratio));
        let team = Team {
            each: job.pull,
            // A count within its own bounds.
            parts: job.parts.map_or(1, |parts| libm::round(parts) as u8),
            efficiency: job.efficiency.unwrap_or(EFFICIENCY),
            luff_to: None,
        };
        let crew = Crew::of(rig, &team)?;
        let (pacing, materials) = (pacing(rig)?, materials(rig)?);
        let (test, tested) = Test::of(rig, job, &range, stretching.as_ref())?;
        let (holdfasts, lifts) = (holdfasts(rig, &demands, &tested)?, lifts(rig, Some(&tested))?);
        let verdict = Verdict::on(rig, &solution, &checks(rig, &solution), &lifts)?;
        let steps = steps(&From {
            rig,
            pacing: &pacing,
            materials: &materials,
            demands: &demands,
            holdfasts: &holdfasts,
            lifts: &lifts,
            crew: &crew,
            stretching: stretching.as_ref(),
            test: &test,
            tape: job.scatter.length,
        });
        let set_lean = stretching.as_ref().and_then(|found| found.set_lean);
        let mut plan = Self {
            job: job.clone(),
            advice: Advice::of(rig, &verdict, &proposals, &demands, stretching.as_ref(), &test),
            verdict,
            tips: solution.tips(),
            governing: governing(rig, rig.lean)?,
            limits,
            range,
            several: Several::of(rig)?,
            clearance: Clearance::least(rig, rig.lean),
            findings: findings(rig)?.to_vec(),
            proposals,
            inspection: inspection(rig, &demands, &holdfasts, &lifts),
            people: people(rig, &crew),
            demands,
            pacing,
            materials,
            steps,
            crew,
            uncertainty: None,
            sources: Vec::new(),
            as_built: measures(rig, &job.scatter, set_lean)?,
            test,
            stretching,
        };
        if draws > 0 {
            let mut surely = Surely::new(rig, &job.scatter, SEED, draws)?;
            surely.draw(surely.left());
            plan.take(&surely);
        }
        Ok(plan)
    }

    /// Whether a test load is hung: not where no line runs over the head.
    #[must_use]
    pub fn is_tested(&self) -> bool {
        self.steps.iter().any(|numbered| matches!(numbered.step, Step::TestLoad { .. }))
    }

    /// Takes in how surely it holds.
    pub fn take(&mut self, surely: &Surely) {
        (self.uncertainty, self.sources) = (Some(surely.uncertainty()), surely.sources());
    }
}

/// Who is needed while the load is hauled: whoever is in charge, one at the edge, the haul team, those on the second line, one at
/// the least.
fn people(rig: &Rig, crew: &Crew) -> Option<u32> {
    crew.each?;
    let haul = crew.haul.map_or(0, |haul| haul.people);
    let second = rig.second.map_or(0, |_| crew.second.map_or(1, |haul| haul.people.max(1)));
    Some(haul.saturating_add(second).saturating_add(1 + u32::from(rig.edge.is_some())))
}
