//! Paints on a canvas of the page that is elsewhere: what is to be done there is written down and sent at once.

use outlean_picture::{Anchor, Dash, Face, Hatch, Ink, Inks, Painter, Path, Step, Stroke, Style, TextStyle};

/// What a canvas can be told, in the order of the table in `www/paint.js`: methods and properties by its own names.
/// From `FillStyle` on a text goes with it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Tell {
    /// Method, no numbers.
    BeginPath,
    /// Method: x, y.
    MoveTo,
    /// Method: x, y.
    LineTo,
    /// Method: both control points, end.
    BezierCurveTo,
    /// Method, no numbers.
    ClosePath,
    /// Method: x, y, radius, from and to, rad.
    Arc,
    /// Method, no numbers.
    Fill,
    /// Method, no numbers.
    Stroke,
    /// Method, no numbers.
    Save,
    /// Method, no numbers.
    Clip,
    /// Method, no numbers.
    Restore,
    /// Method: six numbers.
    SetTransform,
    /// Method: left, top, width, height.
    ClearRect,
    /// Method: any lengths.
    SetLineDash,
    /// Property: 0 to 1.
    GlobalAlpha,
    /// Property: a width.
    LineWidth,
    /// Property: a ratio.
    MiterLimit,
    /// Property: a colour.
    FillStyle,
    /// Property: a colour.
    StrokeStyle,
    /// Property.
    LineCap,
    /// Property.
    LineJoin,
    /// Property.
    Font,
    /// Property.
    TextAlign,
    /// Property.
    TextBaseline,
    /// Method: the text, then x, y, at most how wide.
    FillText,
    /// Method: the text, then x, y, at most how wide.
    StrokeText,
}

/// What a canvas is told, in order.
#[derive(Debug, Default, PartialEq)]
pub struct Told {
    /// For each thing: which, how many numbers, the numbers.
    pub numbers: Vec<f64>,
    /// The texts that go with them, each ended by a line feed.
    pub texts: String,
}

impl Told {
    /// Told to clear a plate of this size, CSS pixels, and what of a last pixel goes beyond it, on a canvas that has
    /// `ratio` device pixels to a CSS pixel.
    #[must_use]
    pub fn cleared(width: f64, height: f64, ratio: f64) -> Self {
        let mut told = Self::default();
        told.begin(ratio);
        told.tell(Tell::ClearRect, &[0.0, 0.0, width + 1.0, height + 1.0]);
        told
    }

    /// Tells what holds for a whole layer: so many device pixels to a unit, nothing seen through.
    pub fn begin(&mut self, scale: f64) {
        self.tell(Tell::SetTransform, &[scale, 0.0, 0.0, scale, 0.0, 0.0]);
        self.tell(Tell::GlobalAlpha, &[1.0]);
        self.tell(Tell::MiterLimit, &[10.0]);
        self.say(Tell::TextBaseline, "alphabetic", &[]);
    }

    /// Tells a thing without a text.
    #[inline(never)]
    pub fn tell(&mut self, what: Tell, numbers: &[f64]) {
        self.numbers.push(f64::from(what as u8));
        self.numbers.push(numbers.len() as f64);
        self.numbers.extend_from_slice(numbers);
    }

    /// Tells a thing with a text. A canvas sets a line feed as a space.
    #[inline(never)]
    pub fn say(&mut self, what: Tell, text: &str, numbers: &[f64]) {
        self.tell(what, numbers);
        for letter in text.chars() {
            self.texts.push(if letter == '\n' { ' ' } else { letter });
        }
        self.texts.push('\n');
    }
}

/// A painter on a canvas. It remembers what it last set there, so that the canvas is told only what changes.
pub struct CanvasPainter<'a> {
    told: &'a mut Told,
    inks: &'a Inks,
    fill: Option<Ink>,
    line_ink: Option<Ink>,
    width: f64,
    round: Option<bool>,
    dash: Option<Dash>,
    font: Option<(Face, f64)>,
    anchor: Option<Anchor>,
    cover: f64,
}

impl<'a> CanvasPainter<'a> {
    /// A painter of another layer on a canvas that has `ratio` device pixels to a CSS pixel; nothing is cleared.
    #[must_use]
    pub fn new(told: &'a mut Told, ratio: f64, inks: &'a Inks) -> Self {
        told.begin(ratio);
        Self {
            told,
            inks,
            fill: None,
            line_ink: None,
            width: f64::NAN,
            round: None,
            dash: None,
            font: None,
            anchor: None,
            cover: 1.0,
        }
    }

    fn set_fill(&mut self, ink: Ink) {
        if self.fill != Some(ink) {
            self.told.say(Tell::FillStyle, self.inks.colour(ink), &[]);
            self.fill = Some(ink);
        }
    }

    fn set_line(&mut self, ink: Ink, width: f64, round: bool, dash: Dash) {
        if self.line_ink != Some(ink) {
            self.told.say(Tell::StrokeStyle, self.inks.colour(ink), &[]);
            self.line_ink = Some(ink);
        }
        if self.width.to_bits() != width.to_bits() {
            self.told.tell(Tell::LineWidth, &[width]);
            self.width = width;
        }
        if self.round != Some(round) {
            self.told.say(Tell::LineCap, if round { "round" } else { "butt" }, &[]);
            self.told.say(Tell::LineJoin, if round { "round" } else { "miter" }, &[]);
            self.round = Some(round);
        }
        if self.dash != Some(dash) {
            self.told.tell(Tell::SetLineDash, dash.lengths());
            self.dash = Some(dash);
        }
    }

    fn set_cover(&mut self, cover: f64) {
        if self.cover.to_bits() != cover.to_bits() {
            self.told.tell(Tell::GlobalAlpha, &[cover]);
            self.cover = cover;
        }
    }

    /// Lays out a shape, then fills, hatches and strokes it; `bounds` are its own.
    fn lay(&mut self, shape: Outline<'_>, style: &Style) {
        if style.fill.is_none() && style.stroke.is_none() {
            return;
        }
        self.trace(shape);
        self.set_cover(style.cover);
        if let Some(ink) = style.fill {
            self.set_fill(ink);
            self.told.tell(Tell::Fill, &[]);
        }
        if let Some(hatch) = style.hatch {
            self.hatch(hatch, shape.bounds());
            self.trace(shape);
        }
        if let Some(Stroke { ink, width, dash, round }) = style.stroke {
            self.set_line(ink, width, round, dash);
            self.told.tell(Tell::Stroke, &[]);
        }
    }

    /// Lines at 45 degrees across the path that the canvas now holds, at places fixed to the plate, so that they
    /// do not swim when the path moves.
    fn hatch(&mut self, hatch: Hatch, (left, top, right, bottom): (f64, f64, f64, f64)) {
        // Set before the save, so that the restore keeps it.
        self.set_line(hatch.ink, hatch.width, false, Dash::SOLID);
        let step = hatch.pitch * core::f64::consts::SQRT_2;
        let (first, last) = ((left + top) / step - 0.5, (right + bottom) / step - 0.5);
        // More lines than a wall of screens has pixels: not a picture.
        if !(step > 0.0 && last - first < 20_000.0) {
            return;
        }
        let told = &mut *self.told;
        told.tell(Tell::Save, &[]);
        told.tell(Tell::Clip, &[]);
        told.tell(Tell::BeginPath, &[]);
        let mut n = libm::ceil(first);
        while n <= last {
            let sum = (n + 0.5) * step;
            told.tell(Tell::MoveTo, &[left, sum - left]);
            told.tell(Tell::LineTo, &[right, sum - right]);
            n += 1.0;
        }
        told.tell(Tell::Stroke, &[]);
        told.tell(Tell::Restore, &[]);
    }

    fn trace(&mut self, shape: Outline<'_>) {
        let told = &mut *self.told;
        told.tell(Tell::BeginPath, &[]);
        match shape {
            Outline::Path(path) => {
                for step in &path.steps {
                    match *step {
                        Step::Move(x, y) => told.tell(Tell::MoveTo, &[x, y]),
                        Step::Line(x, y) => told.tell(Tell::LineTo, &[x, y]),
                        Step::Cubic(a, b, d, e, x, y) => told.tell(Tell::BezierCurveTo, &[a, b, d, e, x, y]),
                        Step::Close => told.tell(Tell::ClosePath, &[]),
                    }
                }
            }
            Outline::Circle(x, y, radius) => {
                // A canvas refuses a negative radius.
                told.tell(Tell::Arc, &[x, y, radius.max(0.0), 0.0, core::f64::consts::TAU]);
            }
        }
    }
}

/// A shape that can be laid out more than once.
#[derive(Clone, Copy)]
enum Outline<'a> {
    Path(&'a Path),
    Circle(f64, f64, f64),
}

impl Outline<'_> {
    /// Left, top, right, bottom.
    fn bounds(self) -> (f64, f64, f64, f64) {
        match self {
            Self::Path(path) => path.bounds().unwrap_or_default(),
            Self::Circle(x, y, radius) => (x - radius, y - radius, x + radius, y + radius),
        }
    }
}

/// The font of a face at a size, px, as a canvas takes it.
fn font(face: Face, size: f64) -> String {
    let slant = if face.italic() { "italic " } else { "" };
    // The standard library's printing of floats would be 5 kB of the page, gzip.
    let (weight, size, families) = (face.weight(), outlean_rigfile::fixed(size, 4), face.families());
    format!("{slant}{weight} {size}px {families}")
}

impl Painter for CanvasPainter<'_> {
    fn path(&mut self, path: &Path, style: &Style) {
        self.lay(Outline::Path(path), style);
    }

    fn circle(&mut self, x: f64, y: f64, radius: f64, style: &Style) {
        self.lay(Outline::Circle(x, y, radius), style);
    }

    fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, style: &TextStyle) {
        self.set_cover(1.0);
        let font = (style.face, style.size);
        if self.font != Some(font) {
            self.told.say(Tell::Font, &self::font(style.face, style.size), &[]);
            self.font = Some(font);
        }
        if self.anchor != Some(anchor) {
            let align = match anchor {
                Anchor::Start => "left",
                Anchor::Middle => "center",
                Anchor::End => "right",
            };
            self.told.say(Tell::TextAlign, align, &[]);
            self.anchor = Some(anchor);
        }
        // Where our faces do not come, another one takes the room that ours would: labels were laid out for it.
        let place = [x, y, outlean_picture::width(text, style.face, style.size)];
        if style.halo > 0.0 {
            self.set_line(Ink::Paper, style.halo, true, Dash::SOLID);
            self.told.say(Tell::StrokeText, text, &place);
        }
        self.set_fill(style.ink);
        self.told.say(Tell::FillText, text, &place);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn painted(paint: impl FnOnce(&mut CanvasPainter<'_>)) -> Told {
        let (mut told, inks) = (Told::default(), Inks::LIGHT);
        let mut painter = CanvasPainter::new(&mut told, 2.0, &inks);
        *painter.told = Told::default();
        paint(&mut painter);
        told
    }

    #[test]
    fn each_thing_says_how_many_numbers_follow() {
        let told = painted(|painter| painter.told.tell(Tell::LineTo, &[3.0, 4.0]));
        assert_eq!(told.numbers, [2.0, 2.0, 3.0, 4.0]);
    }

    #[test]
    fn a_line_feed_in_a_text_does_not_shift_those_after_it() {
        let told = painted(|painter| painter.told.say(Tell::FillText, "two\nlines", &[1.0, 2.0]));
        assert_eq!(told.texts, "two lines\n");
    }

    #[test]
    fn a_canvas_is_told_only_what_changes() {
        let style = outlean_picture::Role::AxisLine.style(1.0);
        let path = Path::line((0.0, 0.0), (1.0, 1.0));
        let once = painted(|painter| painter.path(&path, &style));
        let twice = painted(|painter| {
            painter.path(&path, &style);
            painter.path(&path, &style);
        });
        assert_eq!(once.texts, twice.texts);
        assert!(!once.texts.is_empty() && twice.numbers.len() < 2 * once.numbers.len());
    }
}
