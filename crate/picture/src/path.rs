//! A path: the outline of a shape, in CSS pixels.

use libm::{cos, sin, tan};

/// One step of a path. Coordinates are CSS pixels, x to the right, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Step {
    /// Starts a new piece at a point.
    Move(f64, f64),
    /// A straight line to a point.
    Line(f64, f64),
    /// A cubic curve: two control points, end point.
    Cubic(f64, f64, f64, f64, f64, f64),
    /// Back to where the piece began.
    Close,
}

/// Moves, lines, curves. Arcs are held as cubic curves, so a painter needs nothing else.
#[derive(Clone, Debug, PartialEq, Default)]
pub struct Path {
    /// The steps, in order.
    pub steps: Vec<Step>,
    /// Width of the stroke, px, of a path whose role leaves it to the path: a limb.
    pub pen: f64,
}

// Points come as slices and as two numbers, and little here is generic or inlined: a path is made at a hundred
// places, and each would bring its own copy into the page.
impl Path {
    /// An empty path.
    #[must_use]
    pub const fn new() -> Self {
        Self { steps: Vec::new(), pen: 0.0 }
    }

    /// The straight line between two points.
    #[must_use]
    pub fn line(from: (f64, f64), to: (f64, f64)) -> Self {
        Self::through(&[from, to])
    }

    /// Straight lines from point to point.
    #[must_use]
    pub fn through(points: &[(f64, f64)]) -> Self {
        let mut path = Self::new();
        path.add_through(points);
        path
    }

    /// The closed polygon with these corners.
    #[must_use]
    pub fn polygon(corners: &[(f64, f64)]) -> Self {
        let mut path = Self::through(corners);
        path.close();
        path
    }

    /// The level rectangle between two opposite corners.
    #[must_use]
    pub fn rectangle(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self::polygon(&[(left, top), (right, top), (right, bottom), (left, bottom)])
    }

    /// Adds straight lines from point to point, as a new piece.
    pub fn add_through(&mut self, points: &[(f64, f64)]) {
        let mut step: fn(f64, f64) -> Step = Step::Move;
        for (x, y) in points {
            self.steps.push(step(*x, *y));
            step = Step::Line;
        }
    }

    /// Adds one straight stroke, as a new piece.
    #[inline(never)]
    pub fn add_line(&mut self, from: (f64, f64), to: (f64, f64)) {
        self.move_to(from);
        self.line_to(to);
    }

    /// Moves to a point.
    #[inline(never)]
    pub fn move_to(&mut self, (x, y): (f64, f64)) {
        self.steps.push(Step::Move(x, y));
    }

    /// Draws to a point.
    #[inline(never)]
    pub fn line_to(&mut self, (x, y): (f64, f64)) {
        self.steps.push(Step::Line(x, y));
    }

    /// Draws a cubic curve to `end`.
    #[inline(never)]
    pub fn cubic_to(&mut self, first: (f64, f64), second: (f64, f64), end: (f64, f64)) {
        self.steps.push(Step::Cubic(first.0, first.1, second.0, second.1, end.0, end.1));
    }

    /// Closes the piece.
    pub fn close(&mut self) {
        self.steps.push(Step::Close);
    }

    /// Draws on along the arc of a circle, from the angle `from` to the angle `to` (rad, from straight up,
    /// clockwise as seen). The first point is joined by a line, or begins a piece where `start` is true.
    pub fn arc(&mut self, centre: (f64, f64), radius: f64, from: f64, to: f64, start: bool) {
        let at = |angle: f64| (centre.0 + radius * sin(angle), centre.1 - radius * cos(angle));
        let pieces = libm::ceil(((to - from).abs() / 0.8).clamp(1.0, 16.0));
        let each = (to - from) / pieces;
        // How far the control points stand off along the tangents for an arc of this angle.
        let reach = 4.0 / 3.0 * tan(each / 4.0) * radius;
        let first = at(from);
        if start {
            self.move_to(first)
        } else {
            self.line_to(first)
        }
        let mut angle = from;
        let mut here = first;
        for _ in 0..(pieces as usize) {
            let next = angle + each;
            let there = at(next);
            self.cubic_to(
                (here.0 + reach * cos(angle), here.1 + reach * sin(angle)),
                (there.0 - reach * cos(next), there.1 - reach * sin(next)),
                there,
            );
            (angle, here) = (next, there);
        }
    }

    /// Left, top, right, bottom of all points, control points too; `None` for an empty path.
    #[must_use]
    pub fn bounds(&self) -> Option<(f64, f64, f64, f64)> {
        let mut bounds: Option<(f64, f64, f64, f64)> = None;
        let mut take = |x: f64, y: f64| {
            let (l, t, r, b) = bounds.unwrap_or((x, y, x, y));
            bounds = Some((l.min(x), t.min(y), r.max(x), b.max(y)));
        };
        for step in &self.steps {
            match *step {
                Step::Move(x, y) | Step::Line(x, y) => take(x, y),
                Step::Cubic(a, b, c, d, x, y) => {
                    take(a, b);
                    take(c, d);
                    take(x, y);
                }
                Step::Close => {}
            }
        }
        bounds
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_arc_keeps_to_its_circle() {
        let mut path = Path::new();
        path.arc((10.0, 20.0), 100.0, -0.4, 2.5, true);
        let mut here = (0.0, 0.0);
        for step in &path.steps {
            match *step {
                Step::Move(x, y) => here = (x, y),
                Step::Cubic(a, b, c, d, x, y) => {
                    for i in 0..=8 {
                        let t = f64::from(i) / 8.0;
                        let u = 1.0 - t;
                        let mix = |p: f64, q: f64, r: f64, s: f64| {
                            u * u * u * p + 3.0 * u * u * t * q + 3.0 * u * t * t * r + t * t * t * s
                        };
                        let (px, py) = (mix(here.0, a, c, x), mix(here.1, b, d, y));
                        assert!((libm::hypot(px - 10.0, py - 20.0) - 100.0).abs() < 0.01);
                    }
                    here = (x, y);
                }
                _ => panic!("an arc is a move and curves"),
            }
        }
        assert!((here.0 - (10.0 + 100.0 * sin(2.5))).abs() < 1e-9);
    }
}
