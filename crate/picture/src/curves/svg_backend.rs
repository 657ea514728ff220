//! A plotters backend that writes SVG text in sixteenths of a CSS pixel.
//!
//! The one that comes with plotters works in whole pixels and measures text with system fonts.

use super::chart::{BELOW_BASELINE, HALO, PIXEL, face_of};
use core::fmt::Write as _;
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind, FontStyle,
};

/// Writes shapes into a text, to be put inside an `<svg>` whose user unit is a sixteenth of a CSS pixel.
pub struct SvgBackend<'a> {
    out: &'a mut String,
    size: (u32, u32),
    paper: &'a str,
}

impl<'a> SvgBackend<'a> {
    /// A backend for a picture of `width` by `height` CSS pixels. Lettering gets a halo of `paper`, a CSS
    /// colour.
    pub fn new(out: &'a mut String, width: f64, height: f64, paper: &'a str) -> Self {
        // A cast of a float saturates.
        Self { out, size: ((width * PIXEL) as u32, (height * PIXEL) as u32), paper }
    }

    fn polyline<S: BackendStyle>(
        &mut self,
        points: impl IntoIterator<Item = BackendCoord>,
        style: &S,
        filled: bool,
    ) {
        let mut d = String::new();
        for (i, (x, y)) in points.into_iter().enumerate() {
            let _ = write!(d, "{}{x} {y}", if i == 0 { 'M' } else { 'L' });
        }
        let (colour, opacity) = paint(style.color());
        let _ = if filled {
            write!(self.out, "<path d=\"{d}Z\" fill=\"{colour}\"{opacity}/>")
        } else {
            let width = style.stroke_width();
            write!(
                self.out,
                "<path d=\"{d}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{width}\" \
                 stroke-linejoin=\"round\"{opacity}/>"
            )
        };
    }
}

/// A colour and an attribute for what it lets through.
fn paint(colour: BackendColor) -> (String, String) {
    let (r, g, b) = colour.rgb;
    let opacity = if colour.alpha < 1.0 { format!(" opacity=\"{}\"", colour.alpha) } else { String::new() };
    (format!("#{r:02x}{g:02x}{b:02x}"), opacity)
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
        let corners = [a, (b.0, a.1), b, (a.0, b.1), a];
        self.polyline(corners, style, fill);
        Ok(())
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.polyline(path, style, false);
        Ok(())
    }

    fn draw_circle<S: BackendStyle>(&mut self, at: BackendCoord, radius: u32, style: &S, fill: bool) -> Done {
        let (colour, opacity) = paint(style.color());
        let look = if fill {
            format!("fill=\"{colour}\"")
        } else {
            format!("fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\"", style.stroke_width())
        };
        let _ = write!(self.out, "<circle cx=\"{}\" cy=\"{}\" r=\"{radius}\" {look}{opacity}/>", at.0, at.1);
        Ok(())
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.polyline(path, style, true);
        Ok(())
    }

    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, (x, y): BackendCoord) -> Done {
        let size = style.size();
        let anchor = match style.anchor().h_pos {
            HPos::Left => "start",
            HPos::Center => "middle",
            HPos::Right => "end",
        };
        let down = match style.anchor().v_pos {
            VPos::Bottom => -BELOW_BASELINE,
            VPos::Center => 0.5 - BELOW_BASELINE,
            VPos::Top => 1.0 - BELOW_BASELINE,
        };
        let face = face_of(style.family().as_str(), &style.style());
        let italic = if matches!(style.style(), FontStyle::Italic) { " font-style=\"italic\"" } else { "" };
        let (colour, opacity) = paint(style.color());
        let _ = write!(
            self.out,
            "<text x=\"{x}\" y=\"{}\" text-anchor=\"{anchor}\" font-family=\"{}\" font-weight=\"{}\"{italic} \
             font-size=\"{size}\" font-variant-numeric=\"tabular-nums\" fill=\"{colour}\"{opacity} \
             stroke=\"{}\" stroke-width=\"{:.0}\" stroke-linejoin=\"round\" paint-order=\"stroke\">{}</text>",
            f64::from(y) + down * size,
            crate::svg::escaped(face.families()),
            face.weight(),
            crate::svg::escaped(self.paper),
            HALO * size,
            crate::svg::escaped(text),
        );
        Ok(())
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Self::ErrorType>> {
        let face = face_of(style.family().as_str(), &style.style());
        let size = style.size();
        Ok((libm::ceil(crate::width(text, face, size)) as u32, libm::ceil(size) as u32))
    }
}
