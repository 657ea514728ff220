//! The plotters backend of the page: a canvas, drawn on in sixteenths of a CSS pixel.
//!
//! plotters counts whole pixels; taken for pixels of the canvas they give curves in steps. Here the canvas is
//! scaled so that a pixel of plotters is a sixteenth of a CSS pixel. There are paths only: nothing else is asked for.
//!
//! plotters-canvas does less in more room: it writes colours with the standard library's printing of floats, which
//! nothing else in the page needs and which is 5 kB of it, gzip.

use crate::canvas::{Tell, Told};
use core::convert::Infallible;
use outlean_picture::curves::PIXEL;
use plotters_backend::{BackendColor, BackendCoord, BackendStyle, DrawingBackend, DrawingErrorKind};

/// A canvas that plotters draws on.
pub struct ChartCanvas<'a> {
    told: &'a mut Told,
    size: (u32, u32),
}

type Done = Result<(), DrawingErrorKind<Infallible>>;

impl<'a> ChartCanvas<'a> {
    /// Draws on a plate of this size, CSS pixels, on a canvas that has `ratio` device pixels to a CSS pixel; what is
    /// drawn goes to `told`.
    pub fn new(told: &'a mut Told, (width, height): (f64, f64), ratio: f64) -> Self {
        told.begin(ratio / PIXEL);
        told.say(Tell::LineCap, "butt", &[]);
        told.say(Tell::LineJoin, "round", &[]);
        told.tell(Tell::SetLineDash, &[]);
        Self { told, size: ((width * PIXEL) as u32, (height * PIXEL) as u32) }
    }
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
        self.draw_path([(x, y), (x + 1, y)], &colour)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        let told = &mut *self.told;
        told.tell(Tell::BeginPath, &[]);
        for (x, y) in path {
            // On an empty path a line begins where it ends.
            told.tell(Tell::LineTo, &[f64::from(x), f64::from(y)]);
        }
        let BackendColor { rgb: (r, g, b), .. } = style.color();
        told.say(Tell::StrokeStyle, &format!("rgb({r},{g},{b})"), &[]);
        told.tell(Tell::LineWidth, &[f64::from(style.stroke_width())]);
        told.tell(Tell::Stroke, &[]);
        Ok(())
    }
}
