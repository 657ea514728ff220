//! Labels of the side view, counted on what is drawn: 5,000 random rigs on four plates, each leaned a little with the
//! seats of its labels handed on.
//!
//! Nothing is asked of the layout: the boxes are those of the lettering in the scene, held against one another, the
//! plate, and every stroke that no letter may touch.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "so a test fails")]

use outlean_picture::{
    Anchor, Area, HandleState, Item, LabelKey, Path, Role, Scene, Seats, Shape, Show, SideView,
    SideViewInput, Step, Subject, Words, parts_past, side_view, width,
};
use outlean_rig::{Rig, Solution, WorkingRange, solve, working_range};
use outlean_rigfile::Units;
use outlean_tests::geared::geared_rig;
use outlean_tests::random::random_rig;
use std::collections::BTreeMap;

/// So many rigs that can be drawn.
const RIGS: usize = 5000;

/// Width, height and k of the plate on a phone, on a desktop, on a wide screen and through a projector, as the
/// page's style sheet gives them.
const PLATES: [(f64, f64, f64); 4] =
    [(288.0, 263.0, 0.85), (830.0, 560.0, 1.0), (1053.0, 711.0, 1.25), (1277.0, 862.0, 2.1)];

/// How far a rig is leaned on from its own lean, degrees.
const LEANS: [f64; 3] = [0.0, 2.0, 7.0];

/// What was found: the faults with where each was first seen.
#[derive(Default, Debug)]
struct Found {
    views: usize,
    labels: usize,
    dropped: BTreeMap<(usize, &'static str), usize>,
    put_up: BTreeMap<(usize, &'static str), usize>,
    over_matter: usize,
    faults: BTreeMap<&'static str, (usize, String)>,
}

impl Found {
    fn fault(&mut self, what: &'static str, where_: impl FnOnce() -> String) {
        let entry = self.faults.entry(what).or_insert_with(|| (0, where_()));
        entry.0 += 1;
    }

    fn join(&mut self, other: Self) {
        self.views += other.views;
        self.labels += other.labels;
        for (mine, its) in [(&mut self.dropped, other.dropped), (&mut self.put_up, other.put_up)] {
            for (key, count) in its {
                *mine.entry(key).or_default() += count;
            }
        }
        self.over_matter += other.over_matter;
        for (what, (count, first)) in other.faults {
            let entry = self.faults.entry(what).or_insert((0, first));
            entry.0 += count;
        }
    }
}

#[test]
fn no_letter_meets_another_or_an_arrow_or_the_end_of_the_plate() {
    let words = words();
    let threads = std::thread::available_parallelism().map_or(2, usize::from);
    let mut found = Found::default();
    std::thread::scope(|scope| {
        let share = RIGS.div_ceil(threads);
        let workers: Vec<_> = (0..threads)
            .map(|worker| {
                let words = &words;
                scope.spawn(move || {
                    let mut found = Found::default();
                    let mut seeds = (0_u64..).map(|seed| seed * threads as u64 + worker as u64);
                    let mut drawn = 0;
                    while drawn < share {
                        let seed = seeds.next().unwrap();
                        drawn += usize::from(draw(seed, words, &mut found));
                    }
                    found
                })
            })
            .collect();
        for worker in workers {
            found.join(worker.join().unwrap());
        }
    });
    for ((plate, kind), count) in &found.put_up {
        let dropped = found.dropped.get(&(*plate, kind)).copied().unwrap_or_default();
        println!("plate {plate} {kind}: {dropped} of {count} left out");
    }
    println!("{} views, {} labels, {} lines over matter", found.views, found.labels, found.over_matter);
    assert!(found.faults.is_empty(), "{:#?}", found.faults);
    // An empty plate has no faults either: of what a plate is for little is left out, even of rigs drawn by chance.
    for (kind, most) in MOST_LEFT_OUT {
        for (plate, most) in most.into_iter().enumerate() {
            let of = |counts: &BTreeMap<(usize, &'static str), usize>| {
                counts.get(&(plate, kind)).map_or(0.0, |count| *count as f64)
            };
            let share = of(&found.dropped) / of(&found.put_up).max(1.0);
            assert!(share <= most, "plate {plate}: {share} of {kind} left out");
        }
    }
    let over = found.over_matter as f64 / found.labels as f64;
    assert!(over < 0.06, "{over} of the labels lie over a rope or a leg");
}

/// The share of each kind of label that may find no room, by plate. These rigs are drawn by chance, with up to six
/// guys and two lines, a third of them tip.
const MOST_LEFT_OUT: [(&str, [f64; 4]); 6] = [
    ("lean", [0.04, 0.002, 0.002, 0.02]),
    ("stop", [0.11, 0.04, 0.04, 0.13]),
    ("tips", [0.75, 0.01, 0.01, 0.43]),
    ("guy", [0.38, 0.12, 0.12, 0.42]),
    ("legs", [0.48, 0.04, 0.04, 0.24]),
    ("load", [0.36, 0.08, 0.08, 0.25]),
];

/// Draws the rig of a seed on every plate; whether it can be drawn.
fn draw(seed: u64, words: &Words, found: &mut Found) -> bool {
    let mut rig = if seed.is_multiple_of(2) { random_rig(seed) } else { geared_rig(seed) };
    let (Ok(_), Ok(range)) = (solve(&rig), working_range(&rig)) else { return false };
    let lean = rig.lean;
    for (plate, size) in PLATES.into_iter().enumerate() {
        let mut seats = Seats::default();
        for more in LEANS {
            rig.lean = lean + f64::to_radians(more);
            let Ok(solution) = solve(&rig) else { continue };
            let view = view(seed, &rig, &solution, &range, size, words, &seats);
            found.views += 1;
            count(seed, plate, &view, found);
            seats = view.seats;
        }
        rig.lean = lean;
    }
    true
}

/// The view as the page shows it; of every fourth rig with all that can be shown.
fn view(
    seed: u64,
    rig: &Rig,
    solution: &Solution,
    range: &WorkingRange,
    (width, height, k): (f64, f64, f64),
    words: &Words,
    seats: &Seats,
) -> SideView {
    let over = parts_past(rig, solution);
    let few = k > 2.0;
    let all = seed % 4 == 3;
    side_view(&SideViewInput {
        of: Subject {
            rig,
            solution,
            range,
            over: &over,
            units: if seed.is_multiple_of(3) { Units::Us } else { Units::Metric },
            words,
            width,
            height,
            k,
            grown: 1.0,
        },
        show: Show {
            dimensions: !few,
            ground_forces: all || (!few && k >= 1.0),
            resultant: all,
            ..Show::USUAL
        },
        anchor: Some(if seed.is_multiple_of(7) { HandleState::Focus } else { HandleState::Rest }),
        handle: if seed.is_multiple_of(5) { HandleState::Focus } else { HandleState::Rest },
        tipping: solution.tips().map(|_| (seed % 11) as f64 / 10.0),
        seats: Some(seats),
    })
}

/// A line of lettering: what it says and the box it takes.
struct Letters<'a> {
    text: &'a str,
    bounds: Area,
}

/// All lettering of a scene.
fn lettering(scene: &Scene) -> Vec<Letters<'_>> {
    let mut all = Vec::new();
    for item in &scene.items {
        let (Shape::Text { x, y, text, anchor }, Role::Text(lettering, tone)) = (&item.shape, item.role)
        else {
            continue;
        };
        let style = lettering.style(tone, scene.k);
        let wide = width(text, style.face, style.size);
        let left = match anchor {
            Anchor::Start => *x,
            Anchor::Middle => x - wide / 2.0,
            Anchor::End => x - wide,
        };
        // From the top of its capitals to the foot of its g.
        let (top, bottom) = (y - 0.74 * style.size, y + 0.21 * style.size);
        all.push(Letters { text, bounds: Area { left, top, right: left + wide, bottom } });
    }
    all
}

/// Counts what is wrong with a view.
fn count(seed: u64, plate: usize, view: &SideView, found: &mut Found) {
    let scene = &view.scene;
    let letters = lettering(scene);
    found.labels += view.labels.len();
    for (kind, _) in view.labels.iter().map(|(key, _)| *key).chain(view.dropped.iter().copied()) {
        *found.put_up.entry((plate, kind)).or_default() += 1;
    }
    for (kind, _) in &view.dropped {
        *found.dropped.entry((plate, kind)).or_default() += 1;
    }
    let named: Vec<LabelKey> = view.labels.iter().map(|(key, _)| *key).collect();
    if named.iter().any(|key| view.dropped.contains(key)) {
        found.fault("both seated and left out", || format!("{seed} {plate}"));
    }
    let whole = Area { left: 0.0, top: 0.0, right: scene.width, bottom: scene.height };
    for (i, each) in letters.iter().enumerate() {
        let at = || format!("seed {seed} plate {plate} \"{}\"", each.text);
        if !whole.holds(each.bounds) {
            found.fault("cut off", at);
        }
        for other in letters.iter().skip(i + 1) {
            if each.bounds.meets(other.bounds) {
                found.fault("over lettering", || format!("{} \"{}\"", at(), other.text));
            }
        }
    }
    let mut matter = vec![false; letters.len()];
    for item in &scene.items {
        let bar = match item.role {
            Role::Shaft(_) | Role::Head(_) | Role::GroundSign | Role::Sum => Some("over an arrow"),
            Role::Pencil | Role::PencilSolid | Role::PencilThin => Some("over a pencil"),
            Role::Grip | Role::GripDragged | Role::GripFocus => Some("over a pointer"),
            Role::Dimension => Some("over a dimension"),
            Role::Leader => Some("over a leader"),
            Role::InBand | Role::OutBand | Role::Stop => Some("over the arc"),
            Role::Timber | Role::Rope | Role::SlackRope | Role::GroundLine | Role::Limb | Role::Basket => {
                None
            }
            _ => continue,
        };
        let half = item.role.style(scene.k).stroke.map_or(0.0, |stroke| stroke.width / 2.0);
        for (each, matter) in letters.iter().zip(&mut matter) {
            if meets(item, each.bounds.grown(half)) {
                match bar {
                    Some(what) => found.fault(what, || {
                        format!(
                            "seed {seed} plate {plate} \"{}\" {:?} {:?} {}",
                            each.text, each.bounds, item.shape, item.part
                        )
                    }),
                    None => *matter = true,
                }
            }
        }
    }
    found.over_matter += matter.iter().filter(|over| **over).count();
}

/// Whether the outline of a shape passes through a box.
fn meets(item: &Item, bounds: Area) -> bool {
    match &item.shape {
        Shape::Text { .. } => false,
        Shape::Circle { x, y, radius } => {
            bounds.meets(Area { left: x - radius, top: y - radius, right: x + radius, bottom: y + radius })
        }
        Shape::Path(path) => strokes(path).iter().any(|(from, to)| bounds.meets_line(*from, *to)),
    }
}

type Spot = (f64, f64);

/// A path as straight strokes.
fn strokes(path: &Path) -> Vec<(Spot, Spot)> {
    let (mut all, mut start, mut here) = (Vec::new(), (0.0, 0.0), (0.0, 0.0));
    for step in &path.steps {
        match *step {
            Step::Move(x, y) => (start, here) = ((x, y), (x, y)),
            Step::Line(x, y) => {
                all.push((here, (x, y)));
                here = (x, y);
            }
            Step::Cubic(a, b, c, d, x, y) => {
                let from = here;
                for i in 1..=8 {
                    let (t, u) = (f64::from(i) / 8.0, 1.0 - f64::from(i) / 8.0);
                    let mix = |p: f64, q: f64, r: f64, s: f64| {
                        u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s
                    };
                    let to = (mix(from.0, a, c, x), mix(from.1, b, d, y));
                    all.push((here, to));
                    here = to;
                }
            }
            Step::Close => {
                all.push((here, start));
                here = start;
            }
        }
    }
    all
}

fn words() -> Words {
    let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../www/strings/en/picture.json");
    serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap()
}
