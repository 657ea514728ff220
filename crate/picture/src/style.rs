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
pub(crate) fn type_scale(k: f64) -> f64 {
    if k <= 1.0 {
        0.74 + 0.26 * k
    } else if k <= 1.25 {
        k
    } else {
        1.25 + (k - 1.25) * 2.4
    }
}

/// From this k on the plate is a projector's: fewer things, no lay marks.
pub const PROJECTOR: f64 = 1.3;

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
            Self::Caution => (Face::TextItalic, 13.0),
        };
        let ink = match tone {
            Tone::Ink => Ink::Ink,
            Tone::Quiet => Ink::Quiet,
            Tone::Of(kind) => kind.ink(),
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

/// A style in one small number, so that the styles of all roles are a table and not code: inks, width and dashes.
#[derive(Clone, Copy)]
struct Look {
    fill: Option<Ink>,
    hatched: bool,
    line: Option<Ink>,
    /// Hundredths of a pixel at k = 1.
    width: u16,
    round: bool,
    dash: Dashes,
}

/// The dashes there are.
#[derive(Clone, Copy)]
enum Dashes {
    None,
    Lay,
    Hidden,
    Pencil,
    Axis,
    Outside,
    Limit,
}

impl Dashes {
    const fn lengths(self) -> ([f64; 4], usize) {
        match self {
            Self::None => ([0.0; 4], 0),
            Self::Lay => ([1.2, 3.4, 0.0, 0.0], 2),
            Self::Hidden => ([4.0, 3.0, 0.0, 0.0], 2),
            Self::Pencil => ([7.0, 4.0, 0.0, 0.0], 2),
            Self::Axis => ([9.0, 3.0, 2.0, 3.0], 4),
            Self::Outside => ([5.0, 4.0, 0.0, 0.0], 2),
            Self::Limit => ([10.0, 3.0, 0.0, 0.0], 2),
        }
    }
}

impl Look {
    const NONE: Self =
        Self { fill: None, hatched: false, line: None, width: 0, round: false, dash: Dashes::None };

    const fn sharp(ink: Ink, width: u16) -> Self {
        Self { line: Some(ink), width, ..Self::NONE }
    }

    const fn round(ink: Ink, width: u16) -> Self {
        Self { round: true, ..Self::sharp(ink, width) }
    }

    const fn filled(ink: Ink) -> Self {
        Self { fill: Some(ink), ..Self::NONE }
    }

    const fn dashed(self, dash: Dashes) -> Self {
        Self { dash, ..self }
    }

    const fn on(self, ink: Ink) -> Self {
        Self { fill: Some(ink), ..self }
    }

    const fn hatched(self) -> Self {
        Self { hatched: true, ..self.on(Ink::OutWash) }
    }
}

impl Role {
    const fn look(self) -> Look {
        const HAIR: u16 = 75;
        const THIN: u16 = 110;
        const LINE: u16 = 160;
        const ROPE: u16 = 220;
        const PULL: u16 = 260;
        const HEAVY: u16 = 260;
        const PUSH: u16 = 400;
        match self {
            Self::Timber => Look::round(Ink::Ink, THIN).on(Ink::Timber),
            Self::Rope => Look::sharp(Ink::Ink, ROPE),
            Self::Lay => Look::sharp(Ink::Paper, ROPE).dashed(Dashes::Lay),
            Self::SlackRope => Look::sharp(Ink::Quiet, ROPE),
            Self::Core => Look::sharp(Ink::Paper, ROPE),
            Self::Cord => Look::round(Ink::Ink, THIN),
            Self::Wrap | Self::Basket => Look::round(Ink::Ink, THIN).on(Ink::Paper),
            Self::Turn | Self::Rib | Self::Tick => Look::sharp(Ink::Ink, HAIR),
            Self::Sheave => Look::round(Ink::Ink, LINE).on(Ink::Paper),
            Self::Pin | Self::MarkDot => Look::filled(Ink::Ink),
            Self::Hidden => Look::sharp(Ink::Ink, THIN).dashed(Dashes::Hidden),
            Self::GroundLine => Look::round(Ink::Ink, LINE),
            Self::GroundStroke | Self::Dimension | Self::Leader | Self::AxisLine => {
                Look::sharp(Ink::Quiet, HAIR)
            }
            Self::Limb => Look::round(Ink::Figure, 0),
            Self::Skin => Look::filled(Ink::Figure),
            Self::Helmet => Look::round(Ink::Paper, 100).on(Ink::Figure),
            Self::Rail => Look::round(Ink::Ink, HEAVY),
            Self::Blanket => Look::round(Ink::Ink, THIN).on(Ink::Earth),
            Self::Break => Look::filled(Ink::Paper),
            Self::Shaft(kind @ (Kind::Push | Kind::Load)) => Look::sharp(kind.ink(), PUSH),
            Self::Shaft(kind) => Look::sharp(kind.ink(), PULL),
            Self::Head(Kind::Pull) => Look::sharp(Ink::Pull, PULL),
            Self::Head(kind) | Self::Band(kind) => Look::filled(kind.ink()),
            Self::GroundSign => Look::sharp(Ink::Ground, THIN),
            Self::Sum | Self::InBand => Look::sharp(Ink::Ink, THIN).on(Ink::Paper),
            Self::Pencil => Look::sharp(Ink::Pencil, PULL).dashed(Dashes::Pencil),
            Self::PencilSolid => Look::sharp(Ink::Pencil, PULL),
            Self::Strobe => Look::sharp(Ink::Pencil, 140).dashed(Dashes::Pencil),
            Self::PencilThin => Look::sharp(Ink::Pencil, 140),
            Self::Axis => Look::sharp(Ink::Quiet, HAIR).dashed(Dashes::Axis),
            Self::Stop => Look::sharp(Ink::Ink, HEAVY),
            Self::OutBand => Look::sharp(Ink::OutHatch, HAIR).hatched(),
            Self::Sleeve | Self::OutArea => Look::NONE.hatched(),
            Self::Bar => Look::sharp(Ink::Ink, LINE),
            Self::Grip => Look::round(Ink::Ink, 200).on(Ink::Paper),
            Self::GripDragged => Look::round(Ink::Ink, 200).on(Ink::Ink),
            Self::GripFocus => Look::round(Ink::Ink, 300),
            Self::MarkBracket => Look::sharp(Ink::Ink, 200),
            Self::Curve(Kind::Pull, Weight::Full) => Look::round(Ink::Pull, 240),
            Self::Curve(kind, Weight::Full) => Look::round(kind.ink(), 300),
            Self::Curve(kind, Weight::Thin) => Look::round(kind.ink(), 180),
            Self::CurveOutside(kind) => Look::sharp(kind.ink(), LINE).dashed(Dashes::Outside),
            Self::BandEdge(kind) => Look::sharp(kind.ink(), HAIR),
            Self::Grid => Look::sharp(Ink::Rule, HAIR),
            Self::Limit => Look::sharp(Ink::Ink, 140).dashed(Dashes::Limit),
            Self::Cursor => Look::sharp(Ink::Ink, 100),
            Self::Dot(kind) => Look::sharp(Ink::Paper, 150).on(kind.ink()),
            Self::Text(..) => Look::NONE,
        }
    }

    /// The style of a shape of this role at k; `Default` for lettering, which has [`Lettering::style`]. The line of
    /// a limb has no width: its path has.
    #[must_use]
    pub fn style(self, k: f64) -> Style {
        let look = self.look();
        if matches!(self, Self::Text(..)) || (matches!(self, Self::Lay) && k >= PROJECTOR) {
            return Style::default();
        }
        let at_one = f64::from(look.width) / 100.0;
        let width = match self {
            Self::Limb => 0.0,
            Self::Lay => at_one * k * 0.42,
            Self::SlackRope => width(at_one, k) * 1.25,
            Self::Core => width(at_one, k) * 0.62,
            _ => width(at_one, k),
        };
        let (lengths, count) = look.dash.lengths();
        let dash = Dash { lengths: lengths.map(|length| length * k), count };
        Style {
            fill: look.fill,
            hatch: look.hatched.then(|| Hatch {
                ink: Ink::OutHatch,
                width: self::width(1.3, k),
                pitch: 6.0 * k,
            }),
            stroke: look.line.map(|ink| Stroke { ink, width, dash, round: look.round }),
            cover: match self {
                Self::Band(_) => 0.18,
                Self::OutArea => 0.6,
                _ => 1.0,
            },
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
