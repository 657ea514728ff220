//! Random rigs: the same rig from the same seed on every machine.
//!
//! The generator is PCG-XSH-RR 64/32 (M. E. O'Neill, 2014; `rand_pcg::Pcg32`) with the seed as its state and
//! a stream of our own. How its words become numbers is ours, so that no library's change moves a rig:
//!
//! * a number in [0, 1): the upper 27 bits of one word and the upper 26 of the next, over 2⁵³;
//! * a number in a range: least + (most − least) × that;
//! * one of n: the upper 32 bits of word × n;
//! * yes with probability p: a number in [0, 1) below p.
//!
//! Every rig draws in the order of the code below. One rig in thirty-two has one number out of its range, so that
//! faults are met too; the others may still be impossible in themselves (a guy of no length: hardly ever).

use outlean_rig::{
    Connection, Edge, Guy, Leg, Limits, Line, Load, MAX_GUYS, Operation, Pair, Path, Point, Rig, Scenario,
    SecondLine, Side, Stage, Swing,
};
use rand_pcg::Pcg32;
use rand_pcg::rand_core::Rng;

/// Stream of the generator: any odd-looking constant, fixed for good.
const STREAM: u64 = 0x0a02_bdbf_7bb3_c0a7;

/// A source of numbers.
#[derive(Clone, Debug)]
pub struct Draw(Pcg32);

impl Draw {
    /// The source of a seed.
    #[must_use]
    pub fn new(seed: u64) -> Self {
        Self(Pcg32::new(seed, STREAM))
    }

    /// A number in [0, 1).
    pub fn unit(&mut self) -> f64 {
        let high = f64::from(self.0.next_u32() >> 5);
        let low = f64::from(self.0.next_u32() >> 6);
        (high * 67_108_864.0 + low) / 9_007_199_254_740_992.0
    }

    /// A number from `least` up to, not including, `most` (but for rounding).
    pub fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.unit()
    }

    /// A whole number from 0 up to, not including, `n`.
    pub fn one_of(&mut self, n: u32) -> u32 {
        let wide = u64::from(self.0.next_u32()) * u64::from(n);
        // Below n, which is a u32.
        u32::try_from(wide >> 32).unwrap_or(0)
    }

    /// Yes with probability `p`.
    pub fn chance(&mut self, p: f64) -> bool {
        self.unit() < p
    }

    /// Something with probability `p`.
    fn perhaps<T>(&mut self, p: f64, something: impl FnOnce(&mut Self) -> T) -> Option<T> {
        self.chance(p).then(|| something(self))
    }
}

/// The rig of a seed.
///
/// Legs of 2 to 8 m to the lashing, in half of the rigs unequal and with tips beyond it, in half weightless; feet apart
/// 0.1 to 0.9 of what the legs span, in half of the rigs level and square about the origin, else moved and turned by up
/// to 20° and as much as 0.8 m out of level; lean 30° back to 75° out; loads of 20 to 600 kg, in half of the rigs plumb;
/// every path, case and connection, in three of ten a second line, in four an edge; up to six guys, one always aft and
/// one always fore in three quarters of the rigs, the others anywhere; slings, pretensions, allowables, friction and
/// stops in some.
///
/// ```
/// use outlean_tests::random::random_rig;
/// assert_eq!(random_rig(7), random_rig(7));
/// assert_ne!(random_rig(7), random_rig(8));
/// ```
#[must_use]
pub fn random_rig(seed: u64) -> Rig {
    let draw = &mut Draw::new(seed);
    let mut rig = frame(draw);
    rig.load = Load {
        mass: draw.between(20.0, 600.0),
        dynamic_factor: if draw.chance(0.3) { draw.between(1.0, 2.5) } else { 1.0 },
        side_angle: if draw.chance(0.5) { draw.between(-0.25, 0.25) } else { 0.0 },
        outward_angle: if draw.chance(0.5) { draw.between(-0.3, 0.4) } else { 0.0 },
        at_edge: draw.perhaps(0.2, swing),
        on_tag_lines: draw.perhaps(0.2, swing),
    };
    rig.line = line(draw);
    rig.case.operation = match draw.one_of(3) {
        0 => Operation::Lowering,
        1 => Operation::Holding,
        _ => Operation::Raising,
    };
    rig.second = draw.perhaps(0.3, |draw| SecondLine {
        line: line(draw),
        share: draw.unit(),
        peak_factor: draw.perhaps(0.6, |draw| draw.between(1.0, 4.0)),
    });
    rig.edge = draw.perhaps(0.4, edge);
    rig.case.stage = match draw.one_of(4) {
        0 => Stage::AtEdge,
        1 => Stage::OnTagLines,
        _ => Stage::HangingClear,
    };
    if rig.second.is_some_and(|second| second.peak_factor.is_some()) && draw.chance(0.3) {
        rig.case.scenario = Scenario::MainLost;
    }
    guys(draw, &mut rig);
    rig.limits =
        Limits { upright_stop: draw.perhaps(0.4, |draw| draw.between(0.0, 0.3)), stretch_margin: None };
    if draw.one_of(32) == 0 {
        spoil(draw, &mut rig);
    }
    rig
}

/// Legs, feet, lean.
fn frame(draw: &mut Draw) -> Rig {
    let length = draw.between(2.0, 8.0);
    let mut rig = Rig::new(length, 1.0, draw.between(-0.52, 1.31), 0.0);
    if draw.chance(0.5) {
        rig.legs = Pair::from_fn(|_| {
            Leg::of(length * draw.between(1.05, 1.35), draw.between(0.0, 0.2) * length, 0.0)
        });
    }
    if draw.chance(0.5) {
        let weight = draw.between(10.0, 250.0);
        rig.legs.left.weight_per_metre = weight;
        rig.legs.right.weight_per_metre = if draw.chance(0.5) { weight } else { draw.between(10.0, 250.0) };
    }
    let (left, right) = (rig.legs.left.working_length(), rig.legs.right.working_length());
    let least = (left - right).abs();
    let spread = least + (left + right - least) * draw.between(0.1, 0.9);
    let feet = &mut rig.feet;
    if draw.chance(0.5) {
        feet.at = Pair::new(Point::new(0.0, spread / 2.0, 0.0), Point::new(0.0, -spread / 2.0, 0.0));
    } else {
        let turn = draw.between(-0.35, 0.35);
        let rise = draw.between(-0.8, 0.8).clamp(-0.5 * spread, 0.5 * spread);
        let level = libm::sqrt(spread * spread - rise * rise);
        let (x, y) = (-level * libm::sin(turn), level * libm::cos(turn));
        let (from_x, from_y, from_z) =
            (draw.between(-0.5, 0.5), draw.between(-0.5, 0.5), draw.between(-0.3, 0.3));
        let right = Point::new(from_x - x / 2.0, from_y - y / 2.0, from_z - rise / 2.0);
        feet.at = Pair::new(Point::new(right.x() + x, right.y() + y, right.z() + rise), right);
    }
    feet.connection = match draw.one_of(3) {
        0 => Connection::None,
        1 => Connection::Hobble,
        _ => Connection::Ledger,
    };
    feet.connection_height = if draw.chance(0.5) { draw.between(0.0, 0.6) } else { 0.0 };
    feet.pinned = draw.chance(0.7);
    feet.held_down = draw.chance(0.7);
    feet.friction = draw.perhaps(0.5, |draw| draw.between(0.2, 0.9));
    feet.bearing_area = draw.perhaps(0.5, |draw| draw.between(0.005, 0.2));
    rig
}

fn swing(draw: &mut Draw) -> Swing {
    Swing { side: draw.between(-0.25, 0.25), outward: draw.between(-0.3, 0.4) }
}

fn edge(draw: &mut Draw) -> Edge {
    Edge {
        ahead: draw.between(-0.5, 3.0),
        level: draw.between(-0.5, 1.0),
        litter_drop: draw.between(0.0, 2.0),
        clear_reach_wanted: draw.perhaps(0.3, |draw| draw.between(-0.5, 0.8)),
        headroom_wanted: draw.perhaps(0.3, |draw| draw.between(0.0, 1.0)),
    }
}

fn line(draw: &mut Draw) -> Line {
    let back = Point::new(draw.between(-18.0, -2.0), draw.between(-3.0, 3.0), draw.between(-1.5, 1.5));
    let aside = Point::new(draw.between(-3.0, 2.0), draw.between(-9.0, 9.0), draw.between(-0.5, 0.5));
    let ahead = Point::new(draw.between(3.0, 15.0), draw.between(-2.0, 2.0), draw.between(-12.0, 3.0));
    let path = match draw.one_of(9) {
        0 => Path::Hung,
        1 => Path::StraightBack { to: back },
        2 => Path::RedirectedAtFoot { foot: Side::Left, to: aside },
        3 => Path::RedirectedAtFoot { foot: Side::Right, to: aside },
        4 => Path::RedirectedMidBase { to: back },
        5 => Path::OverTheFront { to: ahead },
        6 => Path::RedirectedOnLedger { to: back },
        7 => Path::TackleAtHead { parts: if draw.chance(0.5) { 2 } else { 5 }, to: back },
        _ => Path::NotOverHead,
    };
    Line {
        path,
        pulley_efficiency: draw.between(0.5, 1.0),
        redirect_efficiency: draw.between(0.5, 1.0),
        sling: if draw.chance(0.5) { draw.between(0.0, 0.5) } else { 0.0 },
    }
}

fn guys(draw: &mut Draw, rig: &mut Rig) {
    let sure = draw.chance(0.75);
    let more = draw.one_of(MAX_GUYS as u32 - 1);
    let z = |draw: &mut Draw| draw.between(-1.5, 2.0);
    let count = if sure { 2 + more } else { more };
    for number in 0..count {
        let anchor = match (sure, number) {
            (true, 0) => Point::new(draw.between(-15.0, -2.0), draw.between(-3.0, 3.0), z(draw)),
            (true, 1) => Point::new(draw.between(3.0, 15.0), draw.between(-3.0, 3.0), z(draw)),
            _ => Point::new(draw.between(-15.0, 15.0), draw.between(-12.0, 12.0), z(draw)),
        };
        let guy = Guy {
            rigged: draw.chance(0.9),
            pretension: if draw.chance(0.3) { draw.between(20.0, 800.0) } else { 0.0 },
            rope_allowable: draw.perhaps(0.5, |draw| draw.between(800.0, 15_000.0)),
            holdfast_allowable: draw.perhaps(0.5, |draw| draw.between(500.0, 12_000.0)),
            ..Guy::to(anchor)
        };
        // At most six are asked for.
        let _ = rig.guys.try_push(guy);
    }
}

/// Puts one number out of its range.
fn spoil(draw: &mut Draw, rig: &mut Rig) {
    match draw.one_of(8) {
        0 => rig.legs.left.length = 41.0,
        1 => rig.legs.right.lashing_below_tip = -0.1,
        2 => rig.feet.at.left = Point::new(0.0, 50.0, 0.0),
        3 => rig.feet.at.right = rig.feet.at.left,
        4 => rig.load.mass = -1.0,
        5 => rig.line.pulley_efficiency = 0.0,
        6 => rig.line.sling = 9.0,
        _ => rig.lean = 1.6,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::{Balance, solve};

    #[test]
    fn draws_keep_to_their_ranges_and_fill_them() {
        let mut draw = Draw::new(1);
        let units: Vec<f64> = (0..10_000).map(|_| draw.unit()).collect();
        assert!(units.iter().all(|u| (0.0..1.0).contains(u)));
        assert!((units.iter().sum::<f64>() / 10_000.0 - 0.5).abs() < 0.01);
        let mut counts = [0; 5];
        for _ in 0..10_000 {
            counts[draw.one_of(5) as usize] += 1;
        }
        assert!(counts.iter().all(|count| (1800..2200).contains(count)), "{counts:?}");
    }

    #[test]
    fn a_seed_means_the_same_rig_for_good() {
        // Pinned: vectors made on one day must be those of another.
        let mut draw = Draw::new(42);
        let first = [draw.unit(), draw.unit(), draw.unit()];
        assert_eq!(first.map(f64::to_bits), PINNED);
    }

    /// By an implementation of the generator written apart, in another language.
    const PINNED: [u64; 3] =
        [4_605_034_726_739_943_186, 4_601_744_151_109_765_788, 4_606_819_493_352_766_168];

    #[test]
    fn every_kind_of_rig_and_outcome_is_met() {
        let (mut faults, mut stands, mut tips) = (0, 0, std::collections::BTreeMap::new());
        let mut met = std::collections::BTreeSet::new();
        for seed in 0..4000 {
            let rig = random_rig(seed);
            met.insert(format!("path {:?}", std::mem::discriminant(&rig.line.path)));
            met.insert(format!("{:?}", rig.case));
            met.insert(format!("{} lines, edge {}", 1 + u8::from(rig.second.is_some()), rig.edge.is_some()));
            met.insert(format!("{:?}", rig.feet.connection));
            met.insert(format!("{} guys", rig.guys.len()));
            match solve(&rig).map(|solution| solution.balance) {
                Err(_) => faults += 1,
                Ok(Balance::Stands(_)) => stands += 1,
                Ok(Balance::Tips(tip)) => *tips.entry(format!("{tip:?}")).or_insert(0) += 1,
            }
        }
        // Paths, cases, lines and edges, connections, guys.
        assert_eq!(met.len(), 8 + 18 + 4 + 3 + 7, "{met:?}");
        assert!((60..250).contains(&faults), "{faults} faults");
        assert!(stands > 1500, "{stands} stand");
        assert!(tips.len() == 4 && tips.values().all(|&count| count > 20), "{tips:?}");
    }
}
