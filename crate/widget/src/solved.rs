//! The core as it is, in numbers: what native and page are compared by, bit for bit.

use outlean_rig::{
    Balance, Case, Force, Interval, Limit, Part, Point, Rig, Side, Solution, Tip, Vector, WorkingRange,
};

/// Every number of a solution, in the order of its fields; what is not there is left out and counted by a number
/// before it. Kinds are whole numbers.
pub fn numbers(solution: &Solution) -> Vec<f64> {
    let mut all = Numbers(Vec::new());
    let layout = &solution.layout;
    all.of([
        layout.lean,
        layout.spread,
        layout.working_length.left,
        layout.working_length.right,
        layout.slant_height,
    ]);
    all.point(layout.head).point(layout.mid_base);
    all.vector(layout.foot_line).vector(layout.forward).vector(layout.up_the_frame).vector(layout.normal);
    all.vector(layout.down_leg.left).vector(layout.down_leg.right);
    all.case(solution.case);
    for line in solution.lines() {
        all.force(line.load).force(line.haul).of([
            line.haul_tension,
            line.greatest_tension,
            line.after_redirect,
        ]);
        if let Some(pull) = all.there(line.redirect) {
            all.force(pull);
        }
        all.point(line.pulley).of([f64::from(u8::from(line.bears_on_edge))]);
    }
    let resultant = &solution.resultant;
    all.force(resultant.force).of([resultant.tipping_moment]);
    if let Some(point) = all.there(resultant.meets_ground) {
        all.point(point);
    }
    if let Some(ahead) = all.there(resultant.ahead_of_feet) {
        all.of([ahead]);
    }
    all.of(solution.guy_length.iter().copied()).of(solution.guy_arm.iter().copied());
    match &solution.balance {
        Balance::Tips(tip) => all.of([-1.0, tip_number(*tip)]),
        Balance::Stands(forces) => {
            all.of([forces.compression.left, forces.compression.right]);
            for guy in &forces.guys {
                all.of([guy.tension, f64::from(guy.role as u8)]);
            }
            all.of([forces.working_guy.map_or(-1.0, f64::from)]);
            let footing = &forces.footing;
            for side in Side::BOTH {
                let foot = footing.feet.on(side);
                all.force(foot.reaction).of([
                    foot.kick,
                    foot.outward,
                    foot.bearing,
                    f64::from(u8::from(foot.lifts)),
                ]);
                for maybe in [foot.pressure, foot.friction_alone, foot.friction_evened, foot.friction_needed]
                {
                    if let Some(number) = all.there(maybe) {
                        all.of([number]);
                    }
                }
            }
            all.of([footing.spread_thrust, footing.connection, footing.ledger_moment, footing.net_sideways]);
            all.of([forces.leg_moment.left, forces.leg_moment.right])
        }
    };
    all.0
}

/// Every number of a working range, as [`numbers`].
pub fn range_numbers(range: &WorkingRange) -> Vec<f64> {
    let mut all = Numbers(Vec::new());
    for Interval { from, to, from_limit, to_limit, from_case, to_case } in &range.intervals {
        all.of([*from, *to, limit_number(*from_limit), limit_number(*to_limit)]);
        all.case(*from_case).case(*to_case);
    }
    all.of([range.best_lean, limit_number(range.best_limit), range.best_ratio]);
    all.0
}

/// The numbers of a rig's solution and, where asked for, of its working range; of a rig that cannot be computed, none.
pub fn all_numbers(rig: &Rig, with_range: bool) -> Vec<f64> {
    let mut all = outlean_rig::solve(rig).map(|solution| numbers(&solution)).unwrap_or_default();
    if with_range {
        all.extend(outlean_rig::working_range(rig).map(|range| range_numbers(&range)).unwrap_or_default());
    }
    all
}

struct Numbers(Vec<f64>);

impl Numbers {
    fn of(&mut self, numbers: impl IntoIterator<Item = f64>) -> &mut Self {
        self.0.extend(numbers);
        self
    }

    fn point(&mut self, point: Point) -> &mut Self {
        self.of(point.coordinates())
    }

    fn vector(&mut self, vector: Vector) -> &mut Self {
        self.of(vector.to_array())
    }

    fn force(&mut self, force: Force) -> &mut Self {
        self.of(force.components())
    }

    fn case(&mut self, case: Case) -> &mut Self {
        let kinds = [case.operation as u8, case.stage as u8, case.scenario as u8];
        self.of(kinds.map(f64::from))
    }

    fn there<T>(&mut self, maybe: Option<T>) -> Option<T> {
        self.of([f64::from(u8::from(maybe.is_some()))]);
        maybe
    }
}

const fn tip_number(tip: Tip) -> f64 {
    match tip {
        Tip::Forward => 0.0,
        Tip::Back => 1.0,
        Tip::Left => 2.0,
        Tip::Right => 3.0,
    }
}

fn limit_number(limit: Limit) -> f64 {
    match limit {
        Limit::Part(Part::GuyRope(guy)) => 10.0 + f64::from(guy),
        Limit::Part(Part::GuyHoldfast(guy)) => 20.0 + f64::from(guy),
        Limit::Part(_) => 30.0,
        Limit::UprightStop => 40.0,
        Limit::Tips(tip) => 50.0 + tip_number(tip),
        Limit::FootSlides(Side::Left) => 60.0,
        Limit::FootSlides(Side::Right) => 61.0,
        Limit::NoGeometry => 70.0,
        Limit::ClearReach => 71.0,
        Limit::Headroom => 72.0,
        Limit::Stretch => 73.0,
        Limit::ExtraLean => 74.0,
        Limit::NotLookedFurther => 80.0,
        _ => 90.0,
    }
}
