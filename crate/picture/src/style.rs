//! Styles: the inks, strokes, dashes and faces of each role.

use crate::{Face, Ink, Kind, Lettering, Role, Tone, Weight};

/// How a shape looks.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Style {
    /// What fills it.
    pub fill: Option<Ink>,
    /// The hatch over the fill.
    pub hatch: Option<Hatch>,
    /// The line round it.
    pub stroke: Option<Stroke>,
    /// Share of the ink of the fill that is laid on, 1 for all of it.
    pub cover: f64,
}

/// A line.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stroke {
    /// Its ink.
    pub ink: Ink,
    /// Its width, px.
    pub width: f64,
    /// Its dashes.
    pub dash: Dash,
    /// Round ends and corners, else cut ends and sharp corners.
    pub round: bool,
}

/// Dashes and gaps in turn, px; the first `count` of `lengths`. None is a solid line.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
pub struct Dash {
    /// Dash, gap, dash, gap.
    pub lengths: [f64; 4],
    /// How many of them: 0, 2 or 4.
    pub count: usize,
}

impl Dash {
    /// A solid line.
    pub const SOLID: Self = Self { lengths: [0.0; 4], count: 0 };

    /// The lengths in use.
    #[must_use]
    pub fn lengths(&self) -> &[f64] {
        self.lengths.get(..self.count).unwrap_or(&[])
    }

    fn two(dash: f64, gap: f64, k: f64) -> Self {
        Self { lengths: [dash * k, gap * k, 0.0, 0.0], count: 2 }
    }
}

/// Lines at 45 degrees, rising to the right: outside, past.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Hatch {
    /// Their ink.
    pub ink: Ink,
    /// Their width, px.
    pub width: f64,
    /// Between one and the next, square to them, px.
    pub pitch: f64,
}

/// How a line of lettering looks.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct TextStyle {
    /// Its face.
    pub face: Face,
    /// Its size, px.
    pub size: f64,
    /// Its ink.
    pub ink: Ink,
    /// The width of paper round it, px.
    pub halo: f64,
}

/// How much larger type is drawn at `k`: a little smaller on a narrow plate, and on a projector large enough
/// for the back row.
#[must_use]
pub fn type_scale(k: f64) -> f64 {
    if k <= 1.0 {
        0.74 + 0.26 * k
    } else if k <= 1.25 {
        k
    } else {
        1.25 + (k - 1.25) * 2.4
    }
}

/// From this k on the plate is a projector's: fewer things, no lay marks.
pub const PROJECTOR: f64 = 1.75;

/// Widths of lines at k = 1, and the least a projector may show.
fn width(at_one: f64, k: f64) -> f64 {
    let least = if k >= PROJECTOR { 3.0 } else { at_one.min(0.75) };
    (at_one * k).max(least)
}

impl Lettering {
    /// Its style in a tone at k.
    #[must_use]
    pub fn style(self, tone: Tone, k: f64) -> TextStyle {
        let scale = type_scale(k);
        let (face, size) = match self {
            Self::Name => (Face::Label, 13.0),
            Self::Value => (Face::Value, 14.0),
            // The back row reads notes too.
            Self::Note => (Face::Label, if k >= PROJECTOR { 13.0 } else { 12.0 }),
            Self::Lead => (Face::Value, if k >= PROJECTOR { 15.0 } else { 19.0 }),
            Self::Title => (Face::TextItalic, 16.0),
        };
        let ink = match tone {
            Tone::Ink => Ink::Ink,
            Tone::Quiet => Ink::Quiet,
            Tone::Of(kind) => kind.ink(),
            Tone::Pencil => Ink::Pencil,
        };
        TextStyle { face, size: size * scale, ink, halo: 4.0 * scale }
    }
}

impl Kind {
    /// The ink of a force.
    #[must_use]
    pub const fn ink(self) -> Ink {
        match self {
            Self::Push => Ink::Push,
            Self::Pull => Ink::Pull,
            Self::Load => Ink::Load,
            Self::Ground => Ink::Ground,
        }
    }
}

impl Role {
    /// The style of a shape of this role at k; `Default` for lettering, which has [`Lettering::style`].
    #[must_use]
    pub fn style(self, k: f64) -> Style {
        const HAIR: f64 = 0.75;
        const THIN: f64 = 1.1;
        const LINE: f64 = 1.6;
        const ROPE: f64 = 2.2;
        const PULL: f64 = 2.6;
        const HEAVY: f64 = 2.6;
        const PUSH: f64 = 4.0;
        let w = |at_one: f64| width(at_one, k);
        let sharp = |ink, at_one| Stroke { ink, width: w(at_one), dash: Dash::SOLID, round: false };
        let round = |ink, at_one| Stroke { round: true, ..sharp(ink, at_one) };
        let dashed = |stroke: Stroke, dash: f64, gap: f64| Stroke { dash: Dash::two(dash, gap, k), ..stroke };
        let line = |stroke| Style { fill: None, hatch: None, stroke: Some(stroke), cover: 1.0 };
        let filled = |ink| Style { fill: Some(ink), hatch: None, stroke: None, cover: 1.0 };
        let both = |ink, stroke| Style { stroke: Some(stroke), ..filled(ink) };
        let hatch = Hatch { ink: Ink::OutHatch, width: w(1.3), pitch: 6.0 * k };
        let hatched = |stroke| Style { hatch: Some(hatch), stroke, ..filled(Ink::OutWash) };
        let shaft = |kind: Kind| match kind {
            Kind::Push | Kind::Load => PUSH,
            Kind::Pull | Kind::Ground => PULL,
        };
        match self {
            Self::Timber => both(Ink::Timber, round(Ink::Ink, THIN)),
            Self::Rope => line(sharp(Ink::Ink, ROPE)),
            Self::Lay if k >= PROJECTOR => Style::default(),
            Self::Lay => line(Stroke {
                ink: Ink::Paper,
                width: ROPE * k * 0.42,
                dash: Dash::two(1.2, 3.4, k),
                round: false,
            }),
            Self::SlackRope => {
                line(Stroke { ink: Ink::Quiet, width: w(ROPE) * 1.25, ..sharp(Ink::Quiet, ROPE) })
            }
            Self::Core => line(Stroke { width: w(ROPE) * 0.62, ..sharp(Ink::Paper, ROPE) }),
            Self::Cord => line(round(Ink::Ink, THIN)),
            Self::Wrap => both(Ink::Paper, round(Ink::Ink, THIN)),
            Self::Turn => line(sharp(Ink::Ink, HAIR)),
            Self::Sheave => both(Ink::Paper, round(Ink::Ink, LINE)),
            Self::Pin | Self::MarkDot => filled(Ink::Ink),
            Self::Hidden => line(dashed(sharp(Ink::Ink, THIN), 4.0, 3.0)),
            Self::GroundLine => line(round(Ink::Ink, LINE)),
            Self::GroundStroke => line(sharp(Ink::Quiet, HAIR)),
            Self::Limb(width) => line(Stroke { ink: Ink::Figure, width, dash: Dash::SOLID, round: true }),
            Self::Skin => filled(Ink::Figure),
            Self::Helmet => both(Ink::Figure, round(Ink::Paper, 1.0)),
            Self::Basket => both(Ink::Paper, round(Ink::Ink, THIN)),
            Self::Rail => line(round(Ink::Ink, HEAVY)),
            Self::Rib => line(sharp(Ink::Ink, HAIR)),
            Self::Blanket => both(Ink::Earth, round(Ink::Ink, THIN)),
            Self::Break => filled(Ink::Paper),
            Self::Shaft(kind) => line(sharp(kind.ink(), shaft(kind))),
            Self::Head(Kind::Pull) => line(sharp(Ink::Pull, PULL)),
            Self::Head(kind) => filled(kind.ink()),
            Self::GroundSign => line(sharp(Ink::Ground, THIN)),
            Self::Sum => both(Ink::Paper, sharp(Ink::Ink, THIN)),
            Self::Pencil => line(dashed(sharp(Ink::Pencil, PULL), 7.0, 4.0)),
            Self::PencilSolid => line(sharp(Ink::Pencil, PULL)),
            Self::Strobe => line(dashed(sharp(Ink::Pencil, 1.4), 7.0, 4.0)),
            Self::PencilThin => line(sharp(Ink::Pencil, 1.4)),
            Self::PencilGrip => both(Ink::Paper, round(Ink::Pencil, 2.0)),
            Self::Dimension | Self::Leader => line(sharp(Ink::Quiet, HAIR)),
            Self::Axis => {
                let dash = Dash { lengths: [9.0 * k, 3.0 * k, 2.0 * k, 3.0 * k], count: 4 };
                line(Stroke { dash, ..sharp(Ink::Quiet, HAIR) })
            }
            Self::Tick => line(sharp(Ink::Ink, HAIR)),
            Self::Stop => line(sharp(Ink::Ink, HEAVY)),
            Self::OutBand => hatched(Some(sharp(Ink::OutHatch, HAIR))),
            Self::InBand => both(Ink::Paper, sharp(Ink::Ink, THIN)),
            Self::Sleeve => hatched(None),
            Self::Bar => line(sharp(Ink::Ink, LINE)),
            Self::Grip => both(Ink::Paper, round(Ink::Ink, 2.0)),
            Self::GripDragged => both(Ink::Ink, round(Ink::Ink, 2.0)),
            Self::GripFocus => line(round(Ink::Ink, 3.0)),
            Self::MarkBracket => line(sharp(Ink::Ink, 2.0)),
            Self::Curve(Kind::Pull, Weight::Full) => line(round(Ink::Pull, 2.4)),
            Self::Curve(kind, Weight::Full) => line(round(kind.ink(), 3.0)),
            Self::Curve(kind, Weight::Thin) => line(round(kind.ink(), 1.8)),
            Self::CurveOutside(kind) => line(dashed(sharp(kind.ink(), 1.6), 5.0, 4.0)),
            Self::Band(kind) => Style { cover: 0.18, ..filled(kind.ink()) },
            Self::AxisLine => line(sharp(Ink::Quiet, HAIR)),
            Self::Grid => line(sharp(Ink::Rule, HAIR)),
            Self::Limit => line(dashed(sharp(Ink::Ink, 1.4), 10.0, 3.0)),
            Self::Cursor => line(sharp(Ink::Ink, 1.0)),
            Self::Dot(kind) => both(kind.ink(), sharp(Ink::Paper, 1.5)),
            Self::OutArea => Style { cover: 0.6, ..hatched(None) },
            Self::Text(..) => Style::default(),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_projector_shows_no_stroke_under_three_pixels() {
        for role in [Role::Timber, Role::Tick, Role::Leader, Role::Rope, Role::OutBand, Role::Cord] {
            assert!(role.style(2.1).stroke.is_some_and(|stroke| stroke.width >= 3.0), "{role:?}");
        }
    }

    #[test]
    fn type_is_a_little_smaller_when_narrow_and_large_for_the_back_row() {
        let size = |k| Lettering::Value.style(Tone::Ink, k).size;
        assert!((size(1.0) - 14.0).abs() < 1e-9);
        assert!((13.3..13.7).contains(&size(0.85)));
        assert!(size(2.1) >= 1080.0 / 25.0);
    }

    #[test]
    fn forces_differ_without_colour() {
        let push = Role::Head(Kind::Push).style(1.0);
        let pull = Role::Head(Kind::Pull).style(1.0);
        assert!(push.fill.is_some() && pull.fill.is_none());
    }
}
