//! Meaning: what a field of a rig file measures on the frame, and the figure that shows it.

mod mark;
mod sketch;
#[cfg(test)]
mod tests;

use libm::{cos, sin};
use outlean_rig::{Ground, Layout, Point, Rig, Side, Solution, Vector};
use outlean_rigfile::field;
pub use sketch::{Plate, sketched};

/// From where the frame is seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum View {
    /// From the side, the edge to the right.
    Side,
    /// From behind, facing the edge.
    Behind,
    /// From above, the edge to the right.
    Above,
}

impl View {
    /// Its name in string files.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Side => "side",
            Self::Behind => "behind",
            Self::Above => "above",
        }
    }
}

/// What is measured.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// From one point to another, as a tape is held.
    Tape(Point, Point),
    /// At a point, from one direction to another.
    Angle(Point, Vector, Vector),
    /// Something at a place that is too small to draw.
    Spot(Point),
}

/// What a field means on the frame.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Meaning {
    /// From where that is seen.
    pub view: View,
    /// What is measured.
    pub measure: Measure,
    /// Whether it takes the whole site to show it, and not only the frame.
    pub wide: bool,
}

/// What the field of this key means on a rig; `None` for one that measures nothing on the frame. A field of which nothing is
/// said measures nothing yet: its place is shown.
pub fn meaning(key: &str, rig: &Rig, solution: &Solution) -> Option<Meaning> {
    let at = Frame { rig, solution, ground: Ground::of(&rig.feet) };
    let value = field(key).and_then(|field| field.get(rig));
    let (thing, name) = key.split_once('.').unwrap_or(("", key));
    match thing {
        "guy" => at.guy(name),
        "line" | "second" => at.line(thing == "second", name, value),
        "edge" => at.edge(name, value),
        _ => at.frame(key, value),
    }
}

/// The places on a frame that things are measured from.
struct Frame<'a> {
    rig: &'a Rig,
    solution: &'a Solution,
    ground: Ground,
}

impl Frame<'_> {
    fn frame(&self, key: &str, value: Option<f64>) -> Option<Meaning> {
        let layout = &self.solution.layout;
        let foot = self.rig.feet.at.right;
        let tip = tip(self.rig, layout, Side::Right);
        let behind = |measure| Some(Meaning { view: View::Behind, measure, wide: false });
        let side = |measure| Some(Meaning { view: View::Side, measure, wide: false });
        match key {
            "legs.length" => behind(Measure::Tape(foot, tip)),
            "legs.lashing_below_tip" => behind(Measure::Tape(layout.head, tip)),
            "legs.butt_diameter" | "feet.bearing_area" => behind(Measure::Spot(foot)),
            "legs.tip_diameter" => behind(Measure::Spot(tip)),
            "legs.breadth" | "legs.depth" | "legs.crook" => behind(Measure::Spot(foot.midpoint(tip))),
            "legs.eccentricity" | "lashing.spacer" | "lashing.girth" => behind(Measure::Spot(layout.head)),
            "feet.spread" => behind(Measure::Tape(self.rig.feet.at.left, foot)),
            "feet.connection_height" => {
                behind(Self::tape(foot, foot + Vector::Z * value.unwrap_or_default()))
            }
            "lean" | "plan.lean_again" => {
                side(Measure::Angle(layout.mid_base, Vector::Z, self.leaning(self.rig.lean)))
            }
            "limits.upright_stop" => {
                side(Measure::Angle(layout.mid_base, Vector::Z, self.leaning(value.unwrap_or_default())))
            }
            _ => self.load(key, value.unwrap_or_default()),
        }
    }

    fn load(&self, key: &str, angle: f64) -> Option<Meaning> {
        let pulley = self.solution.line.pulley;
        let out = Vector::Z * -cos(angle);
        let across = |way: Vector| Measure::Angle(pulley, -Vector::Z, out + way * sin(angle));
        let left = self.ground.point(0.0, 1.0, 0.0) - self.ground.point(0.0, 0.0, 0.0);
        let (view, way) = match key.strip_prefix("load.")?.rsplit('.').next()? {
            "side_angle" => (View::Behind, left),
            "outward_angle" => (View::Side, self.solution.layout.forward),
            _ => return None,
        };
        Some(Meaning { view, measure: across(way), wide: false })
    }

    fn edge(&self, name: &str, value: Option<f64>) -> Option<Meaning> {
        let edge = self.rig.edge.as_ref()?;
        let lip = |ahead: f64, up: f64| self.ground.point(edge.ahead + ahead, 0.0, edge.level + up);
        let pulley = self.solution.line.pulley;
        let value = value.unwrap_or_default();
        let measure = match name {
            "ahead" => Self::tape(self.ground.point(0.0, 0.0, 0.0), self.ground.point(edge.ahead, 0.0, 0.0)),
            "level" => Self::tape(self.ground.point(edge.ahead, 0.0, 0.0), lip(0.0, 0.0)),
            "litter_drop" => Self::tape(pulley, pulley + Vector::Z * -value),
            "clear_reach" => Self::tape(lip(0.0, 0.0), lip(value, 0.0)),
            "headroom" => Self::tape(lip(0.0, 0.0), lip(0.0, value)),
            _ => return None,
        };
        Some(Meaning { view: View::Side, measure, wide: false })
    }

    fn line(&self, second: bool, name: &str, value: Option<f64>) -> Option<Meaning> {
        let (line, forces) = if second {
            (&self.rig.second.as_ref()?.line, self.solution.second.as_ref()?)
        } else {
            (&self.rig.line, &self.solution.line)
        };
        if name == "sling" {
            let measure = Self::tape(self.solution.layout.head, forces.pulley);
            return Some(Meaning { view: View::Side, measure, wide: false });
        }
        self.paced(line.path.haul_point()?, name.strip_prefix("to.").unwrap_or(name))
            .filter(|_| value.is_some())
    }

    fn guy(&self, name: &str) -> Option<Meaning> {
        let (number, name) = name.split_once('.')?;
        let guy = self.rig.guys.get(number.parse::<usize>().ok()?)?;
        let name = match name {
            "setback" => "back",
            "offset" => "left",
            "rise" => "up",
            other => other,
        };
        self.paced(guy.anchor, name)
    }

    /// How far a point is from the foot line in one of the ways in which a crew paces it out.
    fn paced(&self, point: Point, name: &str) -> Option<Meaning> {
        let [ahead, left, up] = self.ground.paced(point);
        let at = |left: f64, up: f64| self.ground.point(ahead, left, up);
        let (view, measure) = match name {
            "back" | "ahead" => (View::Side, Self::tape(self.ground.point(0.0, 0.0, 0.0), at(0.0, 0.0))),
            "left" => (View::Above, Self::tape(at(0.0, 0.0), at(left, 0.0))),
            "up" => (View::Side, Self::tape(at(0.0, 0.0), at(0.0, up))),
            "picket_spacing" => (View::Above, Measure::Spot(point)),
            _ => return None,
        };
        Some(Meaning { view, measure, wide: true })
    }

    /// A tape between two points, or the spot where both are one.
    fn tape(from: Point, to: Point) -> Measure {
        if (to - from).length() < 1e-9 { Measure::Spot(from) } else { Measure::Tape(from, to) }
    }

    /// The direction of a frame's plane at a lean, as seen from the side.
    fn leaning(&self, lean: f64) -> Vector {
        self.solution.layout.forward * sin(lean) + Vector::Z * cos(lean)
    }
}

/// Where a leg ends.
fn tip(rig: &Rig, layout: &Layout, side: Side) -> Point {
    let foot = *rig.feet.at.on(side);
    foot + (layout.head - foot).normalize_or(Vector::Z) * rig.legs.on(side).length
}
