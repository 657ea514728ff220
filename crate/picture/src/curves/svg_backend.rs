//! A plotters backend that writes SVG text in sixteenths of a CSS pixel.
//!
//! The one that comes with plotters works in whole pixels. Here there are paths only: nothing else is asked for.

use super::chart::PIXEL;
use core::fmt::Write as _;
use plotters_backend::{BackendColor, BackendCoord, BackendStyle, DrawingBackend, DrawingErrorKind};

/// Writes paths into a text, to be put inside an `<svg>` whose user unit is a sixteenth of a CSS pixel.
pub struct SvgBackend<'a> {
    out: &'a mut String,
    size: (u32, u32),
}

impl<'a> SvgBackend<'a> {
    /// A backend for a picture of `width` by `height` CSS pixels.
    pub const fn new(out: &'a mut String, width: f64, height: f64) -> Self {
        // A cast of a float saturates.
        Self { out, size: ((width * PIXEL) as u32, (height * PIXEL) as u32) }
    }
}

type Done = Result<(), DrawingErrorKind<core::convert::Infallible>>;

impl DrawingBackend for SvgBackend<'_> {
    type ErrorType = core::convert::Infallible;

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
        let mut d = String::new();
        for (i, (x, y)) in path.into_iter().enumerate() {
            let _ = write!(d, "{}{x} {y}", if i == 0 { 'M' } else { 'L' });
        }
        let BackendColor { rgb: (r, g, b), .. } = style.color();
        let width = style.stroke_width();
        let _ = write!(
            self.out,
            "<path d=\"{d}\" fill=\"none\" stroke=\"#{r:02x}{g:02x}{b:02x}\" stroke-width=\"{width}\" \
             stroke-linejoin=\"round\"/>"
        );
        Ok(())
    }
}
