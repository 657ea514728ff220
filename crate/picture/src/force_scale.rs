//! The one scale to which forces are drawn, chosen for a rig, not for a moment.

use crate::lean_span;
use outlean_rig::{FARTHEST_OUT, Force, Rig, Solution, WorkingRange, solve_at};

/// Metres drawn for a newton where nothing asks for another scale: 1 kN is 0.4 m.
const USUAL: f64 = 0.4e-3;

/// The length drawn for a force, m/N: 1 kN is 0.4 m, halved until the longest arrow in the working range takes no
/// more than three quarters of the leg, and the ground's no more than `room` m below the feet; doubled while the
/// longest would take under a fifth of the leg. It
/// follows from the rig and the range, not from the lean, so that no arrow changes its scale while the frame moves.
#[must_use]
pub fn force_scale(rig: &Rig, range: &WorkingRange, room: f64) -> f64 {
    let leg = rig.legs.left.working_length().min(rig.legs.right.working_length());
    let most = 0.75 * leg;
    let mut longest = 0.0_f64;
    // A range that nothing ends runs on to where every force grows without end.
    sampled(rig, range, FARTHEST_OUT * 0.7, &mut |solution| {
        let ground = from_ground(solution).map_or(0.0, |force| force.z().abs());
        longest = longest.max(greatest(solution)).max(ground * most / room.max(0.1));
    });
    scale_for(longest, leg, most)
}

/// Shows `look` the rig solved at some leans all over its working range as far out as `farthest`, rad, or where there
/// is none at leans that people try.
pub(crate) fn sampled(rig: &Rig, range: &WorkingRange, farthest: f64, look: &mut dyn FnMut(&Solution)) {
    const SAMPLES: u32 = 12;
    let mut take = |from: f64, to: f64| {
        for i in 0..=SAMPLES {
            let lean = from + (to - from) * f64::from(i) / f64::from(SAMPLES);
            if let Ok(solution) = solve_at(rig, lean) {
                look(&solution);
            }
        }
    };
    for interval in &range.intervals {
        take(interval.from, interval.to.min(farthest));
    }
    if range.intervals.is_empty() {
        take(lean_span(range).0.max(0.0), 0.8);
    }
}

fn scale_for(longest: f64, leg: f64, most: f64) -> f64 {
    let mut scale = USUAL;
    if !(longest > 0.0 && longest.is_finite() && most > 0.0) {
        return scale;
    }
    for _ in 0..60 {
        if longest * scale > most {
            scale /= 2.0;
        } else {
            break;
        }
    }
    for _ in 0..60 {
        if longest * scale < 0.2 * leg && 2.0 * longest * scale <= most {
            scale *= 2.0;
        } else {
            break;
        }
    }
    scale
}

/// The greatest force drawn in the side view, N.
fn greatest(solution: &Solution) -> f64 {
    let line = &solution.line;
    let lines = line.load.size().max(line.haul_tension).max(solution.resultant.force.size());
    let Some(forces) = solution.forces() else { return lines };
    let guys = forces.guys.iter().map(|guy| guy.tension).fold(0.0, f64::max);
    let legs = on_head(solution).map_or(0.0, Force::size);
    lines.max(guys).max(legs)
}

/// What both legs together push on the head, N; `None` where the frame tips.
pub(crate) fn on_head(solution: &Solution) -> Option<Force> {
    let forces = solution.forces()?;
    let down = solution.layout.down_leg;
    let push = |way, size: f64| Force::along(way, -size);
    Some(push(down.left, forces.compression.left) + push(down.right, forces.compression.right))
}

/// What the ground gives to both feet together, N; `None` where the frame tips.
pub(crate) fn from_ground(solution: &Solution) -> Option<Force> {
    let feet = &solution.forces()?.footing.feet;
    Some(feet.left.reaction + feet.right.reaction)
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::{Guy, Point, working_range};

    #[test]
    fn a_scale_is_the_usual_one_times_a_power_of_two_and_fits() {
        for mass in [1.0, 20.0, 150.0, 400.0, 5000.0] {
            let mut rig = Rig::new(4.2, 1.4, 0.3, mass);
            rig.guys.push(Guy { rope_allowable: Some(mass * 9.0), ..Guy::to(Point::new(-6.5, 0.0, 0.0)) });
            let range = working_range(&rig).unwrap();
            let scale = force_scale(&rig, &range, 3.0);
            let power = libm::log2(scale / USUAL);
            assert!((power - libm::round(power)).abs() < 1e-9, "{mass}");
            let longest = greatest(&solve_at(&rig, range.intervals[0].to).unwrap()) * scale;
            assert!((0.4..=3.0).contains(&longest), "{mass}: {longest}");
        }
    }

    #[test]
    fn no_force_keeps_the_usual_scale() {
        assert!((scale_for(0.0, 4.0, 3.0) - USUAL).abs() < 1e-18);
        assert!((scale_for(f64::INFINITY, 4.0, 3.0) - USUAL).abs() < 1e-18);
    }
}
