//! Sketch: the frame to scale without any forces, for what is measured on it to be marked.

use super::mark::{below, marked};
use super::{Meaning, Measure, View, tip};
use outlean_picture::{Path, Role, Scene};
use outlean_rig::{Ground, LineForces, Path as LinePath, Point, Rig, Side, Solution, Vector};

/// What a sketch is drawn on.
#[derive(Clone, Copy, Debug)]
pub struct Plate {
    /// Width, CSS pixels.
    pub width: f64,
    /// Height, CSS pixels.
    pub height: f64,
    /// How much larger than on a page its lettering and lines are.
    pub k: f64,
}

/// A place on a plate, px.
pub type Spot = (f64, f64);

/// How far the load hangs below its pulley where nobody says, m.
const HANGS: f64 = 1.2;
/// Half the width of a leg of which nothing is known, m.
const HALF_LEG: f64 = 0.06;
/// A litter seen end on: half its width, its height, m.
const LITTER: (f64, f64) = (0.3, 0.2);
/// Room beside what is drawn, px at k = 1: for a mark and its number.
const BESIDE: f64 = 46.0;
/// Room above it.
const ABOVE: f64 = 26.0;

/// A rig from where a meaning is seen, with what is measured marked by its value; without a meaning the whole site from the side.
pub fn sketched(
    rig: &Rig,
    solution: &Solution,
    meaning: Option<&Meaning>,
    value: &str,
    plate: Plate,
) -> Scene {
    let (view, wide) = meaning.map_or((View::Side, true), |meaning| (meaning.view, meaning.wide));
    let of = Of { rig, solution, view, ground: Ground::of(&rig.feet) };
    let mut sketch = of.fitted(meaning, wide, plate);
    of.ground(&mut sketch);
    of.ropes(&mut sketch);
    of.legs(&mut sketch);
    of.load(&mut sketch, &solution.line);
    if let Some(meaning) = meaning {
        marked(&mut sketch, meaning.measure, value);
    }
    sketch.scene
}

/// A scene, and where the points of a frame are on it.
pub struct Sketch {
    pub scene: Scene,
    ground: Ground,
    view: View,
    /// Pixels to the metre.
    scale: f64,
    origin: Spot,
}

impl Sketch {
    /// Where a point is on the plate.
    pub fn at(&self, point: Point) -> Spot {
        let (across, up) = flat(self.view, &self.ground, point);
        (self.origin.0 + across * self.scale, self.origin.1 - up * self.scale)
    }
}

/// A point as it is seen, m: to the right and up.
fn flat(view: View, ground: &Ground, point: Point) -> (f64, f64) {
    let [ahead, left, up] = ground.paced(point);
    match view {
        View::Side => (ahead, up),
        View::Behind => (-left, up),
        View::Above => (ahead, left),
    }
}

/// What is sketched.
struct Of<'a> {
    rig: &'a Rig,
    solution: &'a Solution,
    view: View,
    ground: Ground,
}

impl Of<'_> {
    /// A plate on which all that is to be seen has room.
    fn fitted(&self, meaning: Option<&Meaning>, wide: bool, Plate { width, height, k }: Plate) -> Sketch {
        let mut seen: Vec<Point> = Side::BOTH.map(|side| tip(self.rig, &self.solution.layout, side)).to_vec();
        seen.extend(Side::BOTH.map(|side| *self.rig.feet.at.on(side)));
        seen.extend([self.solution.layout.head, self.below(self.solution.line.pulley)]);
        seen.extend(self.rig.edge.map(|edge| self.ground.point(edge.ahead, 0.0, edge.level)));
        if wide {
            seen.extend(self.rig.guys.iter().filter(|guy| guy.rigged).map(|guy| guy.anchor));
            seen.extend(self.rig.line.path.haul_point());
        }
        match meaning.map(|meaning| meaning.measure) {
            Some(Measure::Tape(from, to)) => seen.extend([from, to]),
            Some(Measure::Angle(at, ..) | Measure::Spot(at)) => seen.push(at),
            None => {}
        }
        let seen = || seen.iter().map(|point| flat(self.view, &self.ground, *point));
        let least = seen().fold((0.0_f64, 0.0_f64), |least, at| (least.0.min(at.0), least.1.min(at.1)));
        let most = seen().fold((0.0_f64, 0.0_f64), |most, at| (most.0.max(at.0), most.1.max(at.1)));
        let below = below(k);
        let fits = |size: f64, across: f64| if across > 1e-6 { size.max(20.0) / across } else { f64::MAX };
        let across = fits(width - 2.0 * BESIDE * k, most.0 - least.0);
        let scale = across.min(fits(height - ABOVE * k - below, most.1 - least.1)).min(400.0);
        let middle = ((least.0 + most.0) / 2.0, (least.1 + most.1) / 2.0);
        Sketch {
            scene: Scene::new(width, height, k),
            ground: self.ground,
            view: self.view,
            scale,
            origin: (width / 2.0 - middle.0 * scale, (ABOVE * k + height - below) / 2.0 + middle.1 * scale),
        }
    }

    /// The ground, and the edge where it is known.
    fn ground(&self, sketch: &mut Sketch) {
        let (width, height) = (sketch.scene.width, sketch.scene.height);
        let foot = sketch.at(self.ground.point(0.0, 0.0, 0.0));
        let lip = self.rig.edge.map(|edge| sketch.at(self.ground.point(edge.ahead, 0.0, edge.level)));
        match (self.view, lip) {
            (View::Side, Some(lip)) => {
                let path = Path::through(&[(0.0, foot.1), foot, lip, (lip.0, height)]);
                sketch.scene.part_path(path, Role::GroundLine, "ground");
            }
            (View::Side | View::Behind, _) => {
                sketch.scene.line((0.0, foot.1), (width, foot.1), Role::GroundLine, "ground");
            }
            (View::Above, lip) => {
                sketch.scene.line((0.0, foot.1), (width, foot.1), Role::Axis, "middle line");
                sketch.scene.line((foot.0, 0.0), (foot.0, height), Role::Axis, "foot line");
                if let Some((x, _)) = lip {
                    sketch.scene.line((x, 0.0), (x, height), Role::GroundLine, "edge");
                }
            }
        }
    }

    /// Guys, and lines on the way to where they are hauled.
    fn ropes(&self, sketch: &mut Sketch) {
        let head = self.solution.layout.head;
        let mut rope = |from: Point, to: Point, part: &'static str| {
            let (from, to) = (sketch.at(from), sketch.at(to));
            sketch.scene.line(from, to, Role::Cord, part);
        };
        let guys = || self.rig.guys.iter().filter(|guy| guy.rigged);
        guys().for_each(|guy| rope(head, guy.anchor, "guy"));
        for (line, forces) in self.rig.lines().zip(self.solution.lines()) {
            let next = line.path.next_point(&self.rig.feet, &self.solution.layout);
            let Some((to, next)) = line.path.haul_point().zip(next) else { continue };
            rope(forces.pulley, next, "haul line");
            if line.path.is_redirected() {
                rope(next, to, "haul line");
            }
        }
        for anchor in guys().map(|guy| guy.anchor).chain(self.rig.line.path.haul_point()) {
            let at = sketch.at(anchor);
            sketch.scene.circle(at, 2.5 * sketch.scene.k, Role::Pin, "anchor");
        }
    }

    fn legs(&self, sketch: &mut Sketch) {
        for side in Side::BOTH {
            let (foot, tip) = (*self.rig.feet.at.on(side), tip(self.rig, &self.solution.layout, side));
            let (from, to) = (sketch.at(foot), sketch.at(tip));
            let (x, y) = (to.0 - from.0, to.1 - from.1);
            let length = libm::hypot(x, y);
            let thick = self.rig.legs.on(side).pole.least_thickness();
            let half = (thick.map_or(HALF_LEG, |thick| thick / 2.0) * sketch.scale).max(1.5 * sketch.scene.k);
            let aside = if length > 0.0 { (-y / length * half, x / length * half) } else { (half, 0.0) };
            let corner = |at: Spot, way: f64| (at.0 + way * aside.0, at.1 + way * aside.1);
            let corners = [corner(from, 1.0), corner(to, 1.0), corner(to, -1.0), corner(from, -1.0)];
            sketch.scene.part_path(Path::polygon(&corners), Role::Timber, "leg");
        }
        let at = sketch.at(self.solution.layout.head);
        sketch.scene.circle(at, 4.0 * sketch.scene.k, Role::Sheave, "head");
    }

    /// The load line, its pulley on its sling, and what hangs on it.
    fn load(&self, sketch: &mut Sketch, line: &LineForces) {
        if matches!(self.rig.line.path, LinePath::NotOverHead) || self.view == View::Above {
            return;
        }
        let (head, pulley) = (sketch.at(self.solution.layout.head), sketch.at(line.pulley));
        let lowest = self.below(line.pulley);
        let bottom = sketch.at(lowest);
        let top = sketch.at(lowest + Vector::Z * LITTER.1);
        sketch.scene.line(head, pulley, Role::Cord, "sling");
        sketch.scene.line(pulley, top, Role::Cord, "load line");
        sketch.scene.circle(pulley, 3.0 * sketch.scene.k, Role::Sheave, "pulley");
        let half = LITTER.0 * sketch.scale;
        let litter = Path::rectangle(bottom.0 - half, top.1, bottom.0 + half, bottom.1);
        sketch.scene.part_path(litter, Role::Basket, "load");
    }

    /// The lowest of what hangs below a pulley.
    fn below(&self, pulley: Point) -> Point {
        let drop = self.rig.edge.map_or(0.0, |edge| edge.litter_drop);
        pulley + Vector::Z * -(if drop > 0.0 { drop } else { HANGS })
    }
}
