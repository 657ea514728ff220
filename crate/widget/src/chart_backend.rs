//! The plotters backend of the page: plotters-canvas, made to draw in sixteenths of a CSS pixel.
//!
//! plotters counts whole pixels, and plotters-canvas takes those for pixels of the canvas: curves in steps, and
//! lettering at half size on a fine screen. Here the canvas is scaled so that a pixel of plotters is a sixteenth
//! of a CSS pixel. Shapes are left to plotters-canvas. Lettering is set here: by the weights of our faces, on a
//! halo of paper, and measured by their advance widths, never by a styled element put into the page.

use outlean_picture::curves::{BELOW_BASELINE, HALO, PIXEL, face_of};
use plotters_backend::text_anchor::{HPos, VPos};
use plotters_backend::{
    BackendColor, BackendCoord, BackendStyle, BackendTextStyle, DrawingBackend, DrawingErrorKind,
};
use plotters_canvas::CanvasBackend;
use wasm_bindgen::{JsCast, JsValue};
use web_sys::{CanvasRenderingContext2d, HtmlCanvasElement};

/// A canvas that plotters draws on.
pub struct ChartCanvas {
    shapes: CanvasBackend,
    context: CanvasRenderingContext2d,
    size: (u32, u32),
    paper: String,
}

type Error = <CanvasBackend as DrawingBackend>::ErrorType;
type Done = Result<(), DrawingErrorKind<Error>>;

impl ChartCanvas {
    /// Clears `canvas`, which has `ratio` device pixels to a CSS pixel, and draws on it from then on. Lettering
    /// gets a halo of `paper`, a CSS colour.
    ///
    /// # Errors
    ///
    /// What the canvas says; a text where it has no plane context.
    pub fn new(canvas: HtmlCanvasElement, ratio: f64, paper: &str) -> Result<Self, JsValue> {
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
        let shapes = CanvasBackend::with_canvas_object(canvas).ok_or_else(none)?;
        Ok(Self { shapes, context, size, paper: paper.to_owned() })
    }
}

impl DrawingBackend for ChartCanvas {
    type ErrorType = Error;

    fn get_size(&self) -> (u32, u32) {
        self.size
    }

    fn ensure_prepared(&mut self) -> Done {
        self.shapes.ensure_prepared()
    }

    fn present(&mut self) -> Done {
        self.shapes.present()
    }

    fn draw_pixel(&mut self, at: BackendCoord, colour: BackendColor) -> Done {
        self.shapes.draw_pixel(at, colour)
    }

    fn draw_line<S: BackendStyle>(&mut self, from: BackendCoord, to: BackendCoord, style: &S) -> Done {
        self.shapes.draw_line(from, to, style)
    }

    fn draw_rect<S: BackendStyle>(
        &mut self,
        a: BackendCoord,
        b: BackendCoord,
        style: &S,
        fill: bool,
    ) -> Done {
        self.shapes.draw_rect(a, b, style, fill)
    }

    fn draw_path<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.shapes.draw_path(path, style)
    }

    fn draw_circle<S: BackendStyle>(&mut self, at: BackendCoord, radius: u32, style: &S, fill: bool) -> Done {
        self.shapes.draw_circle(at, radius, style, fill)
    }

    fn fill_polygon<S: BackendStyle, I: IntoIterator<Item = BackendCoord>>(
        &mut self,
        path: I,
        style: &S,
    ) -> Done {
        self.shapes.fill_polygon(path, style)
    }

    fn draw_text<S: BackendTextStyle>(&mut self, text: &str, style: &S, (x, y): BackendCoord) -> Done {
        let size = style.size();
        let families = style.family();
        let face = face_of(families.as_str(), &style.style());
        let slant = if face.italic() { "italic " } else { "" };
        let canvas = &self.context;
        canvas.set_font(&format!("{slant}{} {size}px {}", face.weight(), face.families()));
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
        canvas.set_stroke_style_str(&self.paper);
        canvas.set_line_width(HALO * size);
        let BackendColor { rgb: (r, g, b), alpha } = style.color();
        canvas.set_fill_style_str(&format!("rgba({r},{g},{b},{alpha})"));
        // Text fails to paint only where x or y is no number, and these are whole numbers.
        let _ = canvas.stroke_text(text, x, y);
        let _ = canvas.fill_text(text, x, y);
        Ok(())
    }

    fn estimate_text_size<S: BackendTextStyle>(
        &self,
        text: &str,
        style: &S,
    ) -> Result<(u32, u32), DrawingErrorKind<Error>> {
        let families = style.family();
        let face = face_of(families.as_str(), &style.style());
        let size = style.size();
        Ok((libm::ceil(outlean_picture::width(text, face, size)) as u32, libm::ceil(size) as u32))
    }
}
