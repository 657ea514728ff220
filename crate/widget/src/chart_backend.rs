//! The plotters backend of the page: a canvas, drawn on in sixteenths of a CSS pixel.
//!
//! plotters counts whole pixels; taken for pixels of the canvas they give curves in steps. Here the canvas is
//! scaled so that a pixel of plotters is a sixteenth of a CSS pixel. Lettering is set by the weights of our faces,
//! on a halo of paper, and measured by their advance widths, never by a styled element put into the page.
//!
//! plotters-canvas does less in more room: it writes colours with the standard library's printing of floats, which
//! nothing else in the page needs and which is 5 kB of it, gzip.

use crate::canvas::font;
use core::convert::Infallible;
use outlean_picture::curves::{BELOW_BASELINE, HALO, PIXEL, face_of};
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// A canvas that plotters draws on.
pub struct ChartCanvas {
    context: CanvasRenderingContext2d,
    size: (u32, u32),
    paper: String,
}

type Done = Result<(), DrawingErrorKind<Infallible>>;

impl ChartCanvas {
    /// Clears `canvas`, which has `ratio` device pixels to a CSS pixel, and draws on it from then on. Lettering
    /// gets a halo of `paper`, a CSS colour.
    ///
    /// # Errors
    ///
    /// What the canvas says; a text where it has no plane context.
    pub fn new(canvas: &HtmlCanvasElement, ratio: f64, paper: &str) -> Result<Self, JsValue> {
        let none = || JsValue::from_str("the canvas has no 2d context");
        let context: CanvasRenderingContext2d = canvas.get_context("2d")?.ok_or_else(none)?.dyn_into()?;
        let (across, down) = (f64::from(canvas.width()), f64::from(canvas.height()));
        context.set_transform(1.0, 0.0, 0.0, 1.0, 0.0, 0.0)?;
        context.clear_rect(0.0, 0.0, across, down);
        let scale = ratio / PIXEL;
        context.set_transform(scale, 0.0, 0.0, scale, 0.0, 0.0)?;
        context.set_line_join("round");
        context.set_text_baseline("alphabetic");
        let size = ((across / scale) as u32, (down / scale) as u32);
        Ok(Self { context, size, paper: paper.to_owned() })
    }

    /// Lays out a path, closed or not. Fails never, so what follows need not ask.
    fn trace(&self, path: impl IntoIterator<Item = BackendCoord>) {
        self.context.begin_path();
        for (x, y) in path {
            // On an empty path a line begins where it ends.
            self.context.line_to(f64::from(x), f64::from(y));
        }
    }

    fn stroke(&self, colour: BackendColor, width: u32) {
        let canvas = &self.context;
        canvas.set_global_alpha(colour.alpha);
        canvas.set_stroke_style_str(&css(colour));
        canvas.set_line_width(f64::from(width));
        canvas.stroke();
    }

    fn fill(&self, colour: BackendColor) {
        self.context.set_global_alpha(colour.alpha);
        self.context.set_fill_style_str(&css(colour));
        self.context.fill();
    }

    fn lay_on(&self, style: &impl BackendStyle, fill: bool) {
        if fill { self.fill(style.color()) } else { self.stroke(style.color(), style.stroke_width()) }
    }
}

/// A colour without what it lets through.
fn css(BackendColor { rgb: (r, g, b), .. }: BackendColor) -> String {
    format!("rgb({r},{g},{b})")
}

impl DrawingBackend for ChartCanvas {
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
        self.context.close_path();
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
        self.context.begin_path();
        // Fails only for a negative radius.
        let _ = self.context.arc(x, y, f64::from(radius), 0.0, core::f64::consts::TAU);
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
        let canvas = &self.context;
        canvas.set_font(&font(face_of(style.family().as_str(), &style.style()), size));
        canvas.set_text_align(match style.anchor().h_pos {
            HPos::Left => "left",
            HPos::Center => "center",
            HPos::Right => "right",
        });
        let down = match style.anchor().v_pos {
            VPos::Bottom => -BELOW_BASELINE,
            VPos::Center => 0.5 - BELOW_BASELINE,
            VPos::Top => 1.0 - BELOW_BASELINE,
        };
        let (x, y) = (f64::from(x), f64::from(y) + down * size);
        let colour = style.color();
        canvas.set_global_alpha(colour.alpha);
        canvas.set_stroke_style_str(&self.paper);
        canvas.set_line_width(HALO * size);
        canvas.set_fill_style_str(&css(colour));
        // Text fails to paint only where x or y is no number, and these are whole numbers.
        let _ = canvas.stroke_text(text, x, y);
        let _ = canvas.fill_text(text, x, y);
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
