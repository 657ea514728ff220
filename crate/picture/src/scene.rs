//! A scene: plain shapes with roles, in the order in which they are painted.

use crate::{Path, Role};

/// Shapes on a plate of `width` by `height` CSS pixels, first painted first.
#[derive(Clone, Debug, PartialEq)]
pub struct Scene {
    /// CSS pixels.
    pub width: f64,
    /// CSS pixels.
    pub height: f64,
    /// Size of strokes, heads and type: 1 on a page, 0.85 narrow, 2.1 on a projector.
    pub k: f64,
    /// The shapes.
    pub items: Vec<Item>,
    /// The first so many shapes stay as they are while the frame leans: a painter may keep them.
    pub still: usize,
}

/// One shape.
#[derive(Clone, Debug, PartialEq)]
pub struct Item {
    /// Its outline, its place.
    pub shape: Shape,
    /// What it is, and so how it looks.
    pub role: Role,
    /// The part of the rig that it draws, where it draws one.
    pub part: &'static str,
}

/// The plain shapes.
#[derive(Clone, Debug, PartialEq)]
pub enum Shape {
    /// A path.
    Path(Path),
    /// A circle: centre and radius, CSS pixels.
    Circle {
        /// To the right.
        x: f64,
        /// Down.
        y: f64,
        /// Radius.
        radius: f64,
    },
    /// One line of lettering, its baseline at y.
    Text {
        /// Where its anchor stands, to the right.
        x: f64,
        /// The baseline, down.
        y: f64,
        /// The words.
        text: String,
        /// Which end of it stands at x.
        anchor: Anchor,
    },
}

/// Which end of a line of lettering stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Anchor {
    /// It begins there.
    Start,
    /// Its middle is there.
    Middle,
    /// It ends there.
    End,
}

impl Scene {
    /// An empty plate.
    #[must_use]
    pub const fn new(width: f64, height: f64, k: f64) -> Self {
        Self { width, height, k, items: Vec::new(), still: 0 }
    }

    /// Adds a path of no named part.
    pub fn path(&mut self, path: Path, role: Role) {
        self.part_path(path, role, "");
    }

    /// Adds a path that draws a part.
    pub fn part_path(&mut self, path: Path, role: Role, part: &'static str) {
        if !path.steps.is_empty() {
            self.add(Shape::Path(path), role, part);
        }
    }

    /// Adds the straight line between two points.
    #[inline(never)]
    pub fn line(&mut self, from: (f64, f64), to: (f64, f64), role: Role, part: &'static str) {
        self.part_path(Path::line(from, to), role, part);
    }

    /// Adds a circle.
    #[inline(never)]
    pub fn circle(&mut self, (x, y): (f64, f64), radius: f64, role: Role, part: &'static str) {
        self.add(Shape::Circle { x, y, radius }, role, part);
    }

    /// Adds a line of lettering.
    #[inline(never)]
    pub fn text(&mut self, (x, y): (f64, f64), text: String, anchor: Anchor, role: Role) {
        self.add(Shape::Text { x, y, text, anchor }, role, "");
    }

    // The one place where a shape is added: a hundred would each bring their copy into the page.
    #[inline(never)]
    fn add(&mut self, shape: Shape, role: Role, part: &'static str) {
        self.items.push(Item { shape, role, part });
    }

    /// The scene as lines of text, one a shape, coordinates to a tenth of a pixel: what tests compare.
    #[must_use]
    pub fn to_text(&self) -> String {
        use crate::Step;
        use core::fmt::Write as _;
        let mut out = format!("plate {:.0} by {:.0}, k {}\n", self.width, self.height, self.k);
        for (i, item) in self.items.iter().enumerate() {
            if i == self.still {
                out.push_str("-- moves --\n");
            }
            let _ = write!(out, "{:?}", item.role);
            if let (Role::Limb, Shape::Path(path)) = (item.role, &item.shape) {
                let _ = write!(out, "({:.1})", path.pen);
            }
            if !item.part.is_empty() {
                let _ = write!(out, " [{}]", item.part);
            }
            out.push(':');
            match &item.shape {
                Shape::Circle { x, y, radius } => {
                    let _ = write!(out, " circle {x:.1} {y:.1} r {radius:.1}");
                }
                Shape::Text { x, y, text, anchor } => {
                    let _ = write!(out, " {anchor:?} {x:.1} {y:.1} \"{text}\"");
                }
                Shape::Path(path) if path.steps.len() > 12 => {
                    let (l, t, r, b) = path.bounds().unwrap_or_default();
                    let _ = write!(out, " {} steps in {l:.1} {t:.1} to {r:.1} {b:.1}", path.steps.len());
                }
                Shape::Path(path) => {
                    for step in &path.steps {
                        let _ = match *step {
                            Step::Move(x, y) => write!(out, " M {x:.1} {y:.1}"),
                            Step::Line(x, y) => write!(out, " L {x:.1} {y:.1}"),
                            Step::Cubic(a, b, c, d, x, y) => {
                                write!(out, " C {a:.1} {b:.1} {c:.1} {d:.1} {x:.1} {y:.1}")
                            }
                            Step::Close => write!(out, " Z"),
                        };
                    }
                }
            }
            out.push('\n');
        }
        out
    }
}
