//! The plotters backend of the page: a canvas, drawn on in sixteenths of a CSS pixel.
//!
//! plotters counts whole pixels; taken for pixels of the canvas they give curves in steps. Here the canvas is
//! scaled so that a pixel of plotters is a sixteenth of a CSS pixel. Lettering is set by the weights of our faces,
//! on a halo of paper, and measured by their advance widths, never by a styled element put into the page.
//!
//! plotters-canvas does less in more room: it writes colours with the standard library's printing of floats, which
//! nothing else in the page needs and which is 5 kB of it, gzip.

use crate::canvas::{Tell, Told, align, font};
use core::convert::Infallible;
use outlean_picture::Anchor;
use outlean_picture::curves::{BELOW_BASELINE, HALO, PIXEL, face_of};
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};

/// A canvas that plotters draws on.
pub struct ChartCanvas<'a> {
    told: &'a mut Told,
    size: (u32, u32),
    paper: &'a str,
}

type Done = Result<(), DrawingErrorKind<Infallible>>;

impl<'a> ChartCanvas<'a> {
    /// Clears a plate of this size, CSS pixels, on a canvas that has `ratio` device pixels to a CSS pixel, and draws
    /// on it from then on; what is drawn goes to `told`. Lettering gets a halo of `paper`, a CSS colour.
    pub fn new(told: &'a mut Told, (width, height): (f64, f64), ratio: f64, paper: &'a str) -> Self {
        *told = Told::cleared(width, height, ratio, PIXEL);
        told.say(Tell::LineJoin, "round", &[]);
        Self { told, size: ((width * PIXEL) as u32, (height * PIXEL) as u32), paper }
    }

    /// Lays out a path, closed or not.
    fn trace(&mut self, path: impl IntoIterator<Item = BackendCoord>) {
        self.told.tell(Tell::BeginPath, &[]);
        for (x, y) in path {
            // On an empty path a line begins where it ends.
            self.told.tell(Tell::LineTo, &[f64::from(x), f64::from(y)]);
        }
    }

    fn stroke(&mut self, colour: BackendColor, width: u32) {
        self.told.tell(Tell::GlobalAlpha, &[colour.alpha]);
        self.told.say(Tell::StrokeStyle, &css(colour), &[]);
        self.told.tell(Tell::LineWidth, &[f64::from(width)]);
        self.told.tell(Tell::Stroke, &[]);
    }

    fn fill(&mut self, colour: BackendColor) {
        self.told.tell(Tell::GlobalAlpha, &[colour.alpha]);
        self.told.say(Tell::FillStyle, &css(colour), &[]);
        self.told.tell(Tell::Fill, &[]);
    }

    fn lay_on(&mut self, style: &impl BackendStyle, fill: bool) {
        if fill { self.fill(style.color()) } else { self.stroke(style.color(), style.stroke_width()) }
    }
}

/// A colour without what it lets through.
fn css(BackendColor { rgb: (r, g, b), .. }: BackendColor) -> String {
    format!("rgb({r},{g},{b})")
}

impl DrawingBackend for ChartCanvas<'_> {
    type ErrorType = Infallible;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Done {
        Ok(())
    }

    fn present(&mut self) -> Done {
        Ok(())
    }

    fn draw_pixel(&mut self, (x, y): BackendCoord, colour: BackendColor) -> Done {
        self.draw_rect((x, y), (x + 1, y + 1), &colour, true)
    }

    fn draw_line<S: BackendStyle>(&mut self, from: BackendCoord, to: BackendCoord, style: &S) -> Done {
        self.draw_path([from, to], style)
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        a: BackendCoord,
        b: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Done {
        self.trace([a, (b.0, a.1), b, (a.0, b.1)]);
        self.told.tell(Tell::ClosePath, &[]);
        self.lay_on(style, fill);
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.trace(path);
        self.lay_on(style, false);
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(&mut self, at: BackendCoord, radius: u32, style: &S, fill: bool) -> Done {
        let (x, y) = (f64::from(at.0), f64::from(at.1));
        self.told.tell(Tell::BeginPath, &[]);
        self.told.tell(Tell::Arc, &[x, y, f64::from(radius), 0.0, core::f64::consts::TAU]);
        self.lay_on(style, fill);
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.trace(path);
        self.lay_on(style, true);
        Ok(())
    }

    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, (x, y): BackendCoord) -> Done {
        let size = style.size();
        let told = &mut *self.told;
        told.say(Tell::Font, &font(face_of(style.family().as_str(), &style.style()), size), &[]);
        let anchor = match style.anchor().h_pos {
            HPos::Left => Anchor::Start,
            HPos::Center => Anchor::Middle,
            HPos::Right => Anchor::End,
        };
        told.say(Tell::TextAlign, align(anchor), &[]);
        let down = match style.anchor().v_pos {
            VPos::Bottom => -BELOW_BASELINE,
            VPos::Center => 0.5 - BELOW_BASELINE,
            VPos::Top => 1.0 - BELOW_BASELINE,
        };
        let colour = style.color();
        told.tell(Tell::GlobalAlpha, &[colour.alpha]);
        told.say(Tell::StrokeStyle, self.paper, &[]);
        told.tell(Tell::LineWidth, &[HALO * size]);
        told.say(Tell::FillStyle, &css(colour), &[]);
        told.letter(text, f64::from(x), f64::from(y) + down * size, true);
        Ok(())
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Infallible>> {
        let face = face_of(style.family().as_str(), &style.style());
        let size = style.size();
        Ok((libm::ceil(outlean_picture::width(text, face, size)) as u32, libm::ceil(size) as u32))
    }
}
