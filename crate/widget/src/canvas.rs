//! Paints scenes on a canvas of the page.

use js_sys::Array;
use outlean_picture::{Anchor, Dash, Face, Hatch, Ink, Inks, Painter, Path, Step, Stroke, Style, TextStyle};
use wasm_bindgen::JsValue;
use web_sys::CanvasRenderingContext2d;

/// A painter on a canvas. It remembers what it last set there, so that the canvas is told only what changes;
/// so nothing else may draw on that canvas while it lives.
pub struct CanvasPainter<'a> {
    context: &'a CanvasRenderingContext2d,
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
    /// A painter on `context`, whose canvas has `ratio` device pixels to a CSS pixel. Nothing is cleared.
    #[must_use]
    pub fn new(context: &'a CanvasRenderingContext2d, ratio: f64, inks: &'a Inks) -> Self {
        // Fails only for arguments that are no numbers.
        let _ = context.set_transform(ratio, 0.0, 0.0, ratio, 0.0, 0.0);
        context.set_global_alpha(1.0);
        context.set_miter_limit(10.0);
        context.set_text_baseline("alphabetic");
        Self {
            context,
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

    /// Clears a plate of this size, CSS pixels.
    pub fn clear(&mut self, width: f64, height: f64) {
        self.context.clear_rect(0.0, 0.0, width, height);
    }

    fn set_fill(&mut self, ink: Ink) {
        if self.fill != Some(ink) {
            self.context.set_fill_style_str(self.inks.colour(ink));
            self.fill = Some(ink);
        }
    }

    fn set_line(&mut self, ink: Ink, width: f64, round: bool, dash: Dash) {
        if self.line_ink != Some(ink) {
            self.context.set_stroke_style_str(self.inks.colour(ink));
            self.line_ink = Some(ink);
        }
        if self.width.to_bits() != width.to_bits() {
            self.context.set_line_width(width);
            self.width = width;
        }
        if self.round != Some(round) {
            self.context.set_line_cap(if round { "round" } else { "butt" });
            self.context.set_line_join(if round { "round" } else { "miter" });
            self.round = Some(round);
        }
        if self.dash != Some(dash) {
            let lengths: Array = dash.lengths().iter().map(|length| JsValue::from_f64(*length)).collect();
            // Fails only for lengths that are no numbers.
            let _ = self.context.set_line_dash(&lengths);
            self.dash = Some(dash);
        }
    }

    fn set_cover(&mut self, cover: f64) {
        if self.cover.to_bits() != cover.to_bits() {
            self.context.set_global_alpha(cover);
            self.cover = cover;
        }
    }

    /// Fills, hatches and strokes the path that the canvas now holds; `bounds` are its own.
    fn lay_on(&mut self, style: &Style, bounds: (f64, f64, f64, f64), again: impl Fn(&Self)) {
        self.set_cover(style.cover);
        if let Some(ink) = style.fill {
            self.set_fill(ink);
            self.context.fill();
        }
        if let Some(hatch) = style.hatch {
            self.hatch(hatch, bounds);
            again(self);
        }
        if let Some(Stroke { ink, width, dash, round }) = style.stroke {
            self.set_line(ink, width, round, dash);
            self.context.stroke();
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
        self.context.save();
        self.context.clip();
        self.context.begin_path();
        let mut n = libm::ceil(first);
        while n <= last {
            let sum = (n + 0.5) * step;
            self.context.move_to(left, sum - left);
            self.context.line_to(right, sum - right);
            n += 1.0;
        }
        self.context.stroke();
        self.context.restore();
    }

    fn trace(&self, path: &Path) {
        let c = self.context;
        c.begin_path();
        for step in &path.steps {
            match *step {
                Step::Move(x, y) => c.move_to(x, y),
                Step::Line(x, y) => c.line_to(x, y),
                Step::Cubic(a, b, d, e, x, y) => c.bezier_curve_to(a, b, d, e, x, y),
                Step::Close => c.close_path(),
            }
        }
    }

    fn trace_circle(&self, x: f64, y: f64, radius: f64) {
        self.context.begin_path();
        // Fails only for a negative radius.
        let _ = self.context.arc(x, y, radius.max(0.0), 0.0, core::f64::consts::TAU);
    }
}

/// The font of a face at a size, px, as a canvas takes it.
pub fn font(face: Face, size: f64) -> String {
    let slant = if face.italic() { "italic " } else { "" };
    // The standard library's printing of floats would be 5 kB of the page, gzip.
    let (weight, size, families) = (face.weight(), outlean_rigfile::fixed(size, 4), face.families());
    format!("{slant}{weight} {size}px {families}")
}

impl Painter for CanvasPainter<'_> {
    fn path(&mut self, path: &Path, style: &Style) {
        if style.fill.is_none() && style.stroke.is_none() {
            return;
        }
        self.trace(path);
        let bounds =
            if style.hatch.is_some() { path.bounds().unwrap_or_default() } else { Default::default() };
        self.lay_on(style, bounds, |painter| painter.trace(path));
    }

    fn circle(&mut self, x: f64, y: f64, radius: f64, style: &Style) {
        if style.fill.is_none() && style.stroke.is_none() {
            return;
        }
        self.trace_circle(x, y, radius);
        let bounds = (x - radius, y - radius, x + radius, y + radius);
        self.lay_on(style, bounds, |painter| painter.trace_circle(x, y, radius));
    }

    fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, style: &TextStyle) {
        self.set_cover(1.0);
        let font = (style.face, style.size);
        if self.font != Some(font) {
            self.context.set_font(&self::font(style.face, style.size));
            self.font = Some(font);
        }
        if self.anchor != Some(anchor) {
            self.context.set_text_align(match anchor {
                Anchor::Start => "left",
                Anchor::Middle => "center",
                Anchor::End => "right",
            });
            self.anchor = Some(anchor);
        }
        // Text fails to paint only where x or y is no number.
        if style.halo > 0.0 {
            self.set_line(Ink::Paper, style.halo, true, Dash::SOLID);
            let _ = self.context.stroke_text(text, x, y);
        }
        self.set_fill(style.ink);
        let _ = self.context.fill_text(text, x, y);
    }
}
