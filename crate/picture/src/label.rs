//! Labels: names and values, and the seats where they may sit.

use crate::{Lettering, Tone, type_scale, width};

/// How far letters reach over their baseline and under it, of their size.
pub(crate) const ABOVE: f64 = 0.75;
/// See [`ABOVE`].
pub(crate) const BELOW: f64 = 0.22;

/// A level rectangle, px, y down.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Area {
    /// Its sides.
    pub left: f64,
    /// Its sides.
    pub top: f64,
    /// Its sides.
    pub right: f64,
    /// Its sides.
    pub bottom: f64,
}

impl Area {
    pub(crate) const fn new(left: f64, top: f64, right: f64, bottom: f64) -> Self {
        Self { left, top, right, bottom }
    }

    /// Larger by `by` px on every side.
    #[must_use]
    pub fn grown(self, by: f64) -> Self {
        Self { left: self.left - by, top: self.top - by, right: self.right + by, bottom: self.bottom + by }
    }

    /// Whether two have any area in common.
    #[must_use]
    pub fn meets(self, other: Self) -> bool {
        self.left < other.right
            && other.left < self.right
            && self.top < other.bottom
            && other.top < self.bottom
    }

    /// Whether `other` lies wholly inside.
    #[must_use]
    pub fn holds(self, other: Self) -> bool {
        self.left <= other.left
            && self.top <= other.top
            && self.right >= other.right
            && self.bottom >= other.bottom
    }

    /// Whether the straight line between two points passes through it.
    #[must_use]
    pub fn meets_line(self, from: (f64, f64), to: (f64, f64)) -> bool {
        self.share_of_line(from, to) > 0.0
    }

    /// The share of the straight line between two points that lies inside, 0 to 1.
    #[must_use]
    pub fn share_of_line(self, from: (f64, f64), to: (f64, f64)) -> f64 {
        // What is left of the line after cutting it at each side in turn.
        let (mut first, mut last) = (0.0_f64, 1.0_f64);
        let way = (to.0 - from.0, to.1 - from.1);
        for (start, step, least, most) in
            [(from.0, way.0, self.left, self.right), (from.1, way.1, self.top, self.bottom)]
        {
            if step.abs() < 1e-12 {
                if start <= least || start >= most {
                    return 0.0;
                }
                continue;
            }
            let (a, b) = ((least - start) / step, (most - start) / step);
            first = first.max(a.min(b));
            last = last.min(a.max(b));
        }
        (last - first).max(0.0)
    }
}

/// One line of a label.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its words.
    pub text: String,
    /// Its lettering.
    pub lettering: Lettering,
    /// Its colour.
    pub tone: Tone,
    /// Whether the mark `[ ] •` of a part past its allowable follows it.
    pub past: bool,
}

impl Row {
    /// A row without a mark.
    #[must_use]
    pub const fn new(text: String, lettering: Lettering, tone: Tone) -> Self {
        Self { text, lettering, tone, past: false }
    }

    /// The rows of a label of one row.
    #[must_use]
    #[inline(never)]
    pub fn alone(text: String, lettering: Lettering, tone: Tone) -> Vec<Self> {
        vec![Self::new(text, lettering, tone)]
    }

    /// Width of the words alone, px.
    #[must_use]
    pub fn text_width(&self, k: f64) -> f64 {
        let style = self.lettering.style(self.tone, k);
        width(&self.text, style.face, style.size)
    }

    /// Width with its mark, px.
    #[must_use]
    pub fn width(&self, k: f64) -> f64 {
        self.text_width(k) + if self.past { MARK * type_scale(k) } else { 0.0 }
    }
}

/// Room that the mark of a part past its allowable takes after a name at k = 1, px.
pub(crate) const MARK: f64 = 27.0;

/// From one row to the next at k = 1, px.
pub(crate) const ROW: f64 = 16.0;

/// Which edge of the box, or its middle, stands at the seat.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Edge {
    /// Its left or top edge.
    Near,
    /// Its middle.
    Middle,
    /// Its right or bottom edge.
    Far,
}

/// A place where a label may sit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Seat {
    /// The point that the box is set against, px.
    pub at: (f64, f64),
    /// How the box stands to it across; rows are set flush to the same edge.
    pub across: Edge,
    /// How it stands to it upright.
    pub upright: Edge,
    /// Where a hairline from the box leads, if one does.
    pub leader: Option<(f64, f64)>,
}

impl Seat {
    /// The seat with these edges of the box at `at`.
    #[must_use]
    pub const fn at(at: (f64, f64), across: Edge, upright: Edge) -> Self {
        Self { at, across, upright, leader: None }
    }

    /// The seat on the side of `at` that `toward` points to, `gap` px off: the box is wholly on that side of a
    /// line through `at` square to `toward`.
    #[must_use]
    pub fn beside(at: (f64, f64), toward: (f64, f64), gap: f64) -> Self {
        let edge = |component: f64| {
            if component < -0.3 {
                Edge::Far
            } else if component > 0.3 {
                Edge::Near
            } else {
                Edge::Middle
            }
        };
        Self {
            at: (at.0 + toward.0 * gap, at.1 + toward.1 * gap),
            across: edge(toward.0),
            upright: edge(toward.1),
            leader: None,
        }
    }

    /// The box of a label of this width and height that sits here.
    #[must_use]
    pub fn bounds(&self, (w, h): (f64, f64)) -> Area {
        let start = |at: f64, size: f64, edge: Edge| match edge {
            Edge::Near => at,
            Edge::Middle => at - size / 2.0,
            Edge::Far => at - size,
        };
        let (left, top) = (start(self.at.0, w, self.across), start(self.at.1, h, self.upright));
        Area { left, top, right: left + w, bottom: top + h }
    }

    /// The same seat with a leader.
    #[must_use]
    pub const fn led_to(mut self, point: (f64, f64)) -> Self {
        self.leader = Some(point);
        self
    }
}

/// Names a label, so that it keeps its seat from frame to frame: a kind, and a number within it.
pub type LabelKey = (&'static str, u8);

/// A label: its rows, and its seats from the best to the last.
#[derive(Clone, Debug, PartialEq)]
pub struct Label {
    /// What it labels.
    pub key: LabelKey,
    /// Its lines, from the top.
    pub rows: Vec<Row>,
    /// Where it may sit.
    pub seats: Vec<Seat>,
    /// Labels of a lower rank are seated first; where there is no room, those of the highest are left out.
    pub rank: u8,
    /// Left out rather than laid over a rope, a leg or a scale.
    pub timid: bool,
    /// Whether it stands in a line that it interrupts, as the text of a dimension does.
    pub in_line: bool,
}

impl Label {
    /// Width and height of its box, px.
    #[must_use]
    pub fn size(&self, k: f64) -> (f64, f64) {
        let across = self.rows.iter().map(|row| row.width(k)).fold(0.0, f64::max);
        let (above, below) = self.ends(k);
        let between = ROW * type_scale(k) * (self.rows.len().saturating_sub(1)) as f64;
        (across, above + between + below)
    }

    /// From the top of the box to the first baseline, and from the last baseline to its bottom, px.
    pub(crate) fn ends(&self, k: f64) -> (f64, f64) {
        let size = |row: Option<&Row>| row.map_or(0.0, |row| row.lettering.style(row.tone, k).size);
        (ABOVE * size(self.rows.first()), BELOW * size(self.rows.last()))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_meets_a_box_only_where_it_passes_through() {
        let b = Area { left: 0.0, top: 0.0, right: 10.0, bottom: 10.0 };
        assert!(b.meets_line((-5.0, 5.0), (15.0, 5.0)));
        assert!(b.meets_line((5.0, 5.0), (6.0, 6.0)));
        assert!(!b.meets_line((-5.0, 5.0), (-1.0, 5.0)));
        assert!(!b.meets_line((-5.0, 0.0), (5.0, -9.0)));
        assert!(!b.meets_line((0.0, -5.0), (0.0, 15.0)));
    }

    #[test]
    fn a_seat_beside_a_line_leaves_it_free() {
        let label = Label {
            key: ("test", 0),
            rows: vec![Row::new("aft guy".to_owned(), Lettering::Name, Tone::Ink)],
            seats: Vec::new(),
            rank: 0,
            timid: false,
            in_line: false,
        };
        // A rope that rises to the right, the label above it and below it.
        let (from, to) = ((0.0, 100.0), (200.0, 0.0));
        for toward in [(-0.447, -0.894), (0.447, 0.894)] {
            let seat = Seat::beside((100.0, 50.0), toward, 6.0);
            assert!(!seat.bounds(label.size(1.0)).meets_line(from, to), "{toward:?}");
        }
    }
}
