//! How long the core takes. `cargo xtask bench` runs it and prints the ratios that are promised.
#![allow(
    missing_docs,
    clippy::unwrap_used,
    clippy::indexing_slicing,
    clippy::panic,
    reason = "a bench that cannot solve its rig has nothing to measure"
)]

use criterion::{Criterion, criterion_group, criterion_main};
use outlean_rig::{
    Edge, Guy, LeanIs, Leg, Lever, Line, Outcome, Path, Point, Rig, Rope, Scatter, Stretch, governing,
    margin, proposals, solve, stretched, sweep, uncertainty, working_range,
};
use std::hint::black_box;

/// A frame with weight, two guys, a line hauled straight back, feet on friction: what a course mostly solves.
fn frame() -> Rig {
    let mut rig = Rig::new(4.4, 1.4, 0.42, 230.0);
    for leg in [&mut rig.legs.left, &mut rig.legs.right] {
        *leg = Leg { length: 4.9, lashing_below_tip: 0.5, weight_per_metre: 44.0, ..*leg };
    }
    (rig.feet.pinned, rig.feet.held_down, rig.feet.friction) = (false, false, Some(0.6));
    rig.line =
        Line { pulley_efficiency: 0.9, ..Line::along(Path::StraightBack { to: Point::new(-9.0, 0.0, 0.0) }) };
    for x in [-6.5, 5.5] {
        let strong = Guy {
            rope_allowable: Some(4000.0),
            holdfast_allowable: Some(3500.0),
            ..Guy::to(Point::new(x, 0.0, 0.0))
        };
        rig.guys.push(strong);
    }
    rig
}

/// Its guys of a rope that gets longer by 3 % at 1335 N, its legs of a pole 11 cm thick.
fn ropes(rig: &Rig, lean_is: LeanIs) -> Stretch {
    let ropes = rig.guys.iter().map(|_| Rope::of_elongation(0.03, 1335.0)).collect();
    Stretch { leg_stiffness: 9e7, ropes, lean_is }
}

/// The numbers of the same frame, loose.
#[derive(Clone, Copy)]
struct Flat {
    feet: [[f64; 3]; 2],
    legs: [[f64; 3]; 2],
    lean: f64,
    load: f64,
    side: f64,
    outward: f64,
    haul: [f64; 3],
    factor: f64,
    guys: [[f64; 3]; 2],
}

/// The same answers by closed form, written out flat by hand, with no types, checks or faults: any feet, any two legs
/// with their weight, a load line at any angle, one line hauled straight to a point, two guys, the feet and
/// what friction and hobble they need. 37 numbers.
fn flat(f: Flat) -> [f64; 37] {
    let sub = |a: [f64; 3], b: [f64; 3]| [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
    let add = |a: [f64; 3], b: [f64; 3]| [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
    let by = |a: [f64; 3], k: f64| [a[0] * k, a[1] * k, a[2] * k];
    let dot = |a: [f64; 3], b: [f64; 3]| a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
    let cross = |a: [f64; 3], b: [f64; 3]| {
        [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
    };
    let size = |a: [f64; 3]| libm::sqrt(dot(a, a));
    let [lf, rf] = f.feet;
    let (ll, rl) = (f.legs[0][0] - f.legs[0][1], f.legs[1][0] - f.legs[1][1]);
    let across = sub(lf, rf);
    let s = size(across);
    let e = by(across, 1.0 / s);
    let from_right = (rl * rl - ll * ll + s * s) / (2.0 * s);
    let q = add(rf, by(e, from_right));
    let a = libm::sqrt(rl * rl - from_right * from_right);
    let level = libm::sqrt(e[0] * e[0] + e[1] * e[1]);
    let forward = [e[1] / level, -e[0] / level, 0.0];
    let plumb = by(sub([0.0, 0.0, 1.0], by(e, e[2])), 1.0 / level);
    let up = add(by(forward, libm::sin(f.lean)), by(plumb, libm::cos(f.lean)));
    let n = cross(e, up);
    let head = add(q, by(up, a));
    let mid = by(add(lf, rf), 0.5);
    let (ld, rd) = (by(sub(lf, head), 1.0 / ll), by(sub(rf, head), 1.0 / rl));
    let (ss, cs) = (libm::sin(f.side), libm::cos(f.side));
    let (so, co) = (libm::sin(f.outward), libm::cos(f.outward));
    let pull = [so * cs, ss * co, -cs * co];
    let pull = by(pull, f.load / size(pull));
    let way = sub(f.haul, head);
    let haul = by(way, f.load * f.factor / size(way));
    let [at_l, at_r] = [0, 1].map(|i| {
        let [l, t, w] = f.legs[i];
        w * l * (l / 2.0) / (l - t)
    });
    let loads = add(add(pull, haul), [0.0, 0.0, -at_l - at_r]);
    let arm_of = |force: [f64; 3]| dot(e, cross(sub(head, mid), force));
    let moment = arm_of(loads);
    let drop = head[2] - mid[2];
    let ground = add(head, by(loads, drop / -loads[2]));
    let ahead = dot(sub(ground, mid), forward);
    let [g0, g1] = f.guys.map(|anchor| sub(anchor, head));
    let (l0, l1) = (size(g0), size(g1));
    let (u0, u1) = (by(g0, 1.0 / l0), by(g1, 1.0 / l1));
    let (arm0, arm1) = (-arm_of(u0), -arm_of(u1));
    let t0 = if moment * arm0 > 0.0 { moment / arm0 } else { 0.0 };
    let t1 = if moment * arm1 > 0.0 && t0 == 0.0 { moment / arm1 } else { 0.0 };
    let on = add(loads, add(by(u0, t0), by(u1, t1)));
    let det = dot(n, cross(ld, rd));
    let cl = dot(n, cross(on, rd)) / det;
    let cr = dot(n, cross(ld, on)) / det;
    let [rest_l, rest_r] = [f.legs[0][0] * f.legs[0][2] - at_l, f.legs[1][0] * f.legs[1][2] - at_r];
    let reaction_l = add(by(ld, -cl), [0.0, 0.0, rest_l]);
    let reaction_r = add(by(rd, -cr), [0.0, 0.0, rest_r]);
    let left = [-forward[1], forward[0], 0.0];
    let (sl, sr) = (dot(reaction_l, left), dot(reaction_r, left));
    let (kl, kr) = (dot(reaction_l, forward), dot(reaction_r, forward));
    let thrust = (sr - sl) / 2.0;
    let evened = (sl + sr) / 2.0;
    let hobble = if thrust > 0.0 { thrust / level } else { 0.0 };
    let raise = thrust * e[2] / level;
    let (bl, br) = (reaction_l[2], reaction_r[2]);
    let needed = |k: f64, s: f64, b: f64| libm::sqrt(k * k + s * s) / b;
    let bend = |i: usize, d: [f64; 3], span: f64| {
        let [_, t, w] = f.legs[i];
        w * libm::sqrt(d[0] * d[0] + d[1] * d[1]) * (span * span / 8.0 - t * t / 4.0)
    };
    [
        head[0],
        head[1],
        head[2],
        a,
        s,
        moment,
        ahead,
        ground[0],
        ground[1],
        l0,
        l1,
        arm0,
        arm1,
        t0,
        t1,
        cl,
        cr,
        reaction_l[0],
        reaction_l[1],
        bl,
        reaction_r[0],
        reaction_r[1],
        br,
        -kl,
        -kr,
        -sl,
        sr,
        thrust,
        hobble,
        needed(kl, sl, bl),
        needed(kr, sr, br),
        needed(kl, evened, bl + raise),
        needed(kr, evened, br - raise),
        bend(0, ld, ll),
        bend(1, rd, rl),
        size(loads),
        size(add(pull, haul)),
    ]
}

fn core(criterion: &mut Criterion) {
    let rig = frame();
    let by_hand = Flat {
        feet: [rig.feet.at.left, rig.feet.at.right].map(Point::coordinates),
        legs: [rig.legs.left, rig.legs.right]
            .map(|leg| [leg.length, leg.lashing_below_tip, leg.weight_per_metre]),
        lean: rig.lean,
        load: rig.load.tension(),
        side: rig.load.side_angle,
        outward: rig.load.outward_angle,
        haul: rig.line.path.haul_point().unwrap().coordinates(),
        factor: 1.0,
        guys: [rig.guys[0].anchor, rig.guys[1].anchor].map(Point::coordinates),
    };
    let solution = solve(&rig).unwrap();
    let forces = solution.forces().unwrap();
    let found = flat(by_hand);
    for (flat, core) in [
        (found[5], solution.resultant.tipping_moment),
        (found[13], forces.guys[0].tension),
        (found[14], forces.guys[1].tension),
        (found[15], forces.compression.left),
        (found[16], forces.compression.right),
        (found[29], forces.footing.feet.left.friction_alone.unwrap()),
        (found[32], forces.footing.feet.right.friction_evened.unwrap()),
        (found[33], forces.leg_moment.left),
    ] {
        assert!((flat - core).abs() < 1e-9 * core.abs().max(1.0), "{flat} is not {core}");
    }

    // Both answers are looked at where they lie: handing them on would be timed as well.
    criterion.bench_function("flat closed form", |b| {
        b.iter(|| {
            black_box(&flat(black_box(by_hand)));
        });
    });
    criterion.bench_function("rigid solve with feet", |b| {
        b.iter(|| {
            black_box(&solve(black_box(&rig)));
        });
    });
    for (name, lean_is) in
        [("stretched solve", LeanIs::SetBefore), ("stretched under load", LeanIs::UnderLoad)]
    {
        let stretch = ropes(&rig, lean_is);
        assert!(matches!(stretched(&rig, &stretch), Ok(Outcome::Stands(_))), "{name}");
        criterion.bench_function(name, |b| b.iter(|| stretched(black_box(&rig), black_box(&stretch))));
    }
    // 4 m ahead: the load line bears on it from set to loaded.
    let at_edge = Rig { edge: Some(Edge { level: -0.3, ..Edge::at(4.0) }), ..rig.clone() };
    let on_sling = Rig { line: Line { sling: 0.4, ..rig.line }, ..at_edge.clone() };
    for (name, rig, lean_is) in [
        ("stretched solve at the edge", &at_edge, LeanIs::SetBefore),
        ("stretched at the edge on a sling", &on_sling, LeanIs::SetBefore),
        ("sling under load at the edge", &on_sling, LeanIs::UnderLoad),
    ] {
        let stretch = ropes(rig, lean_is);
        let found = stretched(rig, &stretch);
        assert!(
            matches!(found, Ok(Outcome::Stands(found)) if found.line.bears_on_edge),
            "{name}: clear of it"
        );
        criterion.bench_function(name, |b| b.iter(|| stretched(black_box(rig), black_box(&stretch))));
    }
    let stretch = ropes(&rig, LeanIs::SetBefore);
    criterion.bench_function("load at run-away", |b| b.iter(|| margin(black_box(&rig), black_box(&stretch))));
    criterion.bench_function("governing limit", |b| b.iter(|| governing(black_box(&rig), rig.lean)));
    criterion.bench_function("working range", |b| b.iter(|| working_range(black_box(&rig))));
    criterion.bench_function("sweep of 1000 points", |b| {
        b.iter(|| {
            let leans = (0..1000).map(|i| 0.2 + 0.0005 * f64::from(i));
            sweep(black_box(&rig), Lever::Lean, leans).filter(|swept| swept.outcome.is_ok()).count()
        });
    });
    let scatter = Scatter { length: 0.05, angle: 0.035, load: 0.1, soil: 0.3 };
    criterion.bench_function("uncertainty of 10000 draws", |b| {
        b.iter(|| uncertainty(black_box(&rig), &scatter, 1, 10_000));
    });
    let mut past = rig;
    past.lean = 0.9;
    criterion.bench_function("proposals", |b| b.iter(|| proposals(black_box(&past))));
}

criterion_group! {
    name = benches;
    config = Criterion::default().sample_size(30).measurement_time(std::time::Duration::from_secs(2));
    targets = core
}
criterion_main!(benches);
