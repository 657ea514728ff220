//! Painting: the one small trait through which every picture goes.

use crate::{Anchor, Path, Role, Scene, Shape, Style, TextStyle};

/// Something to paint on. It holds the inks of its theme.
pub trait Painter {
    /// Fills, hatches and strokes a path.
    fn path(&mut self, path: &Path, style: &Style);
    /// Fills and strokes a circle; px.
    fn circle(&mut self, x: f64, y: f64, radius: f64, style: &Style);
    /// Sets a line of lettering with a halo of paper, its anchor at x, its baseline at y; px.
    fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, style: &TextStyle);
}

/// Paints a whole scene.
pub fn paint(scene: &Scene, painter: &mut impl Painter) {
    for item in &scene.items {
        match (&item.shape, item.role) {
            (Shape::Text { x, y, text, anchor }, Role::Text(lettering, tone)) => {
                painter.text(*x, *y, text, *anchor, &lettering.style(tone, scene.k));
            }
            (Shape::Text { .. }, _) => {}
            (Shape::Path(path), role) => {
                let mut style = role.style(scene.k);
                if let (Role::Limb, Some(stroke)) = (role, &mut style.stroke) {
                    stroke.width = path.pen;
                }
                painter.path(path, &style);
            }
            (Shape::Circle { x, y, radius }, role) => painter.circle(*x, *y, *radius, &role.style(scene.k)),
        }
    }
}
