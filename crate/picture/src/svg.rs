//! A scene as SVG text.

use crate::{Anchor, Ink, Inks, Painter, Path, Scene, Step, Style, TextStyle, paint};
use core::fmt::Write as _;

/// The scene as one `<svg>` element in the given inks, with a title and a description for those who do not see
/// it. Colours and faces stand in it as they are: it needs no style sheet.
#[must_use]
pub fn svg(scene: &Scene, inks: &Inks, title: &str, description: &str) -> String {
    let mut painter = SvgPainter { inks, body: String::new(), hatches: Vec::new() };
    paint(scene, &mut painter);
    let (w, h) = (number(scene.width), number(scene.height));
    let mut out = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{w}\" height=\"{h}\" viewBox=\"0 0 {w} {h}\" role=\"img\">"
    );
    let _ = write!(out, "<title>{}</title>", escaped(title));
    if !description.is_empty() {
        let _ = write!(out, "<desc>{}</desc>", escaped(description));
    }
    if !painter.hatches.is_empty() {
        out.push_str("<defs>");
        for (i, hatch) in painter.hatches.iter().enumerate() {
            // Lines at 45 degrees, rising to the right: upright ones, turned.
            let (pitch, width) = (number(hatch.pitch), number(hatch.width));
            let (x, colour) = (number(hatch.pitch / 2.0), escaped(inks.colour(hatch.ink)));
            let _ = write!(
                out,
                "<pattern id=\"hatch{i}\" width=\"{pitch}\" height=\"{pitch}\" patternUnits=\"userSpaceOnUse\" \
                 patternTransform=\"rotate(45)\"><path d=\"M{x} 0V{pitch}\" stroke=\"{colour}\" \
                 stroke-width=\"{width}\"/></pattern>"
            );
        }
        out.push_str("</defs>");
    }
    out.push_str(&painter.body);
    out.push_str("</svg>\n");
    out
}

/// The scene as an `<svg>` element inside a page, told in words to those who do not see it. It is as wide as its place; its
/// colours are the tokens of the page's style sheet, so that it follows the page's theme. For scenes without a hatch: a hatch
/// has a name, and many pictures stand in one page.
#[must_use]
pub fn svg_in_page(scene: &Scene, told: &str) -> String {
    let inks = Inks::read(|token| format!("var({token})"));
    let mut painter = SvgPainter { inks: &inks, body: String::new(), hatches: Vec::new() };
    paint(scene, &mut painter);
    let (w, h) = (number(scene.width), number(scene.height));
    format!(
        "<svg viewBox=\"0 0 {w} {h}\" role=\"img\" aria-label=\"{}\">{}</svg>",
        escaped(told),
        painter.body
    )
}

/// Paints into the text of an SVG element.
struct SvgPainter<'a> {
    inks: &'a Inks,
    body: String,
    hatches: Vec<crate::Hatch>,
}

impl SvgPainter<'_> {
    fn colour(&self, ink: Ink) -> String {
        escaped(self.inks.colour(ink))
    }

    /// Writes the element with its fill and stroke, and again with its hatch where it has one.
    fn shape(&mut self, start: &str, style: &Style) {
        if style.fill.is_none() && style.stroke.is_none() {
            return;
        }
        let fill = style.fill.map_or_else(|| "none".to_owned(), |ink| self.colour(ink));
        let cover =
            if style.cover < 1.0 { format!(" opacity=\"{}\"", number(style.cover)) } else { String::new() };
        let mut stroke = String::new();
        if let Some(line) = style.stroke {
            let _ = write!(
                stroke,
                " stroke=\"{}\" stroke-width=\"{}\"",
                self.colour(line.ink),
                number(line.width)
            );
            if line.round {
                stroke.push_str(" stroke-linecap=\"round\" stroke-linejoin=\"round\"");
            }
            if line.dash.count > 0 {
                let lengths: Vec<String> = line.dash.lengths().iter().map(|l| number(*l)).collect();
                let _ = write!(stroke, " stroke-dasharray=\"{}\"", lengths.join(" "));
            }
        }
        let Some(hatch) = style.hatch else {
            let _ = write!(self.body, "{start} fill=\"{fill}\"{stroke}{cover}/>");
            return;
        };
        let known = self.hatches.iter().position(|each| *each == hatch);
        let i = known.unwrap_or_else(|| {
            self.hatches.push(hatch);
            self.hatches.len() - 1
        });
        let _ = write!(
            self.body,
            "{start} fill=\"{fill}\"{cover}/>{start} fill=\"url(#hatch{i})\"{stroke}{cover}/>"
        );
    }
}

impl Painter for SvgPainter<'_> {
    fn path(&mut self, path: &Path, style: &Style) {
        let mut d = String::new();
        for step in &path.steps {
            let n = number;
            let _ = match *step {
                Step::Move(x, y) => write!(d, "M{} {}", n(x), n(y)),
                Step::Line(x, y) => write!(d, "L{} {}", n(x), n(y)),
                Step::Cubic(a, b, c, e, x, y) => {
                    write!(d, "C{} {} {} {} {} {}", n(a), n(b), n(c), n(e), n(x), n(y))
                }
                Step::Close => write!(d, "Z"),
            };
        }
        self.shape(&format!("<path d=\"{d}\""), style);
    }

    fn circle(&mut self, x: f64, y: f64, radius: f64, style: &Style) {
        let start =
            format!("<circle cx=\"{}\" cy=\"{}\" r=\"{}\"", number(x), number(y), number(radius.max(0.0)));
        self.shape(&start, style);
    }

    fn text(&mut self, x: f64, y: f64, text: &str, anchor: Anchor, style: &TextStyle) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let _ = write!(
            self.body,
            "<text x=\"{}\" y=\"{}\" text-anchor=\"{anchor}\" font-family=\"{}\" font-size=\"{}\" font-weight=\"{}\"",
            number(x),
            number(y),
            escaped(style.face.families()),
            number(style.size),
            style.face.weight()
        );
        // Where a viewer lacks our faces, another one takes the room that ours would: labels were laid out for it.
        let long = crate::width(text, style.face, style.size);
        if long > 0.0 {
            let _ = write!(self.body, " textLength=\"{}\" lengthAdjust=\"spacingAndGlyphs\"", number(long));
        }
        if style.face.italic() {
            self.body.push_str(" font-style=\"italic\"");
        }
        let _ =
            write!(self.body, " font-variant-numeric=\"tabular-nums\" fill=\"{}\"", self.colour(style.ink));
        if style.halo > 0.0 {
            let _ = write!(
                self.body,
                " stroke=\"{}\" stroke-width=\"{}\" stroke-linejoin=\"round\" paint-order=\"stroke\"",
                self.colour(Ink::Paper),
                number(style.halo)
            );
        }
        let _ = write!(self.body, ">{}</text>", escaped(text));
    }
}

/// A coordinate to a hundredth of a pixel, without empty decimals; 0 for what is not finite.
fn number(value: f64) -> String {
    let rounded = libm::round(value * 100.0) / 100.0;
    if !rounded.is_finite() {
        return "0".to_owned();
    }
    // Not the standard library's, which is many times longer in a page that asks for a picture as text.
    let text = outlean_rigfile::fixed(rounded + 0.0, 2);
    text.trim_end_matches('0').trim_end_matches('.').to_owned()
}

/// Text for inside an element or an attribute. Characters that XML forbids are left out.
pub(crate) fn escaped(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\t' | '\n' | '\r' => out.push(' '),
            c if c < ' ' || c == '\u{fffe}' || c == '\u{ffff}' => {}
            c => out.push(c),
        }
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Lettering, Role, Tone};

    #[test]
    fn text_is_escaped_and_numbers_are_short() {
        assert_eq!(escaped("a<b & \"c\"\u{1}"), "a&lt;b &amp; &quot;c&quot;");
        assert_eq!(
            (number(-0.001), number(1.0 / 3.0), number(f64::NAN)),
            ("0".into(), "0.33".into(), "0".into())
        );
    }

    #[test]
    fn a_scene_becomes_one_element_with_a_title() {
        let mut scene = Scene::new(100.0, 50.0, 1.0);
        scene.path(Path::rectangle(0.0, 0.0, 10.0, 10.0), Role::OutBand);
        scene.text((5.0, 20.0), "a & b".to_owned(), Anchor::Middle, Role::Text(Lettering::Name, Tone::Ink));
        let text = svg(&scene, &Inks::LIGHT, "A <rig>", "");
        assert!(text.starts_with("<svg ") && text.ends_with("</svg>\n"));
        assert!(text.contains("<title>A &lt;rig&gt;</title>") && !text.contains("<desc>"));
        assert!(text.contains("url(#hatch0)") && text.contains(">a &amp; b</text>"));
        let style = Lettering::Name.style(Tone::Ink, 1.0);
        let long = number(crate::width("a & b", style.face, style.size));
        assert!(text.contains(&format!("textLength=\"{long}\"")) && text.contains("sans-serif\""));
    }
}
