//! How wide lettering is, from the fonts' own advance widths.

use crate::advance_table::{BEYOND_ASCII, ITALIC, LABEL, NO, TEXT, VALUE};

/// A face of the shipped fonts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Face {
    /// Labels, numbers: Barlow Semi Condensed 500, tabular figures.
    Label,
    /// Values: Barlow Semi Condensed 600, tabular figures.
    Value,
    /// Text: Gentium Book Plus.
    Text,
    /// Titles, symbols: Gentium Book Plus italic.
    TextItalic,
}

impl Face {
    /// Its family and what stands in for it, as a CSS `font-family`.
    #[must_use]
    pub const fn families(self) -> &'static str {
        match self {
            Self::Label | Self::Value => {
                "\"Outlean Label\",\"Barlow Semi Condensed\",\"Roboto Condensed\",\"Arial Narrow\",sans-serif"
            }
            Self::Text | Self::TextItalic => {
                "\"Outlean Text\",\"Gentium Book Plus\",\"Charis SIL\",Charter,Georgia,serif"
            }
        }
    }

    /// Its CSS `font-weight`.
    #[must_use]
    pub const fn weight(self) -> u16 {
        match self {
            Self::Label => 500,
            Self::Value => 600,
            Self::Text | Self::TextItalic => 400,
        }
    }

    /// Whether it is an italic.
    #[must_use]
    pub const fn italic(self) -> bool {
        matches!(self, Self::TextItalic)
    }
}

/// The width of `text` in a face at `size` px, in px, kerning left out. A character that the font lacks counts
/// as six tenths of an em, a space of any kind as a word space.
#[must_use]
pub fn width(text: &str, face: Face, size: f64) -> f64 {
    let table = match face {
        Face::Label => &LABEL,
        Face::Value => &VALUE,
        Face::Text => &TEXT,
        Face::TextItalic => &ITALIC,
    };
    let advance = |c: char| match place(c).and_then(|at| table.get(at)) {
        Some(advance) if *advance != NO => *advance,
        _ if c.is_whitespace() => 200,
        _ => 600,
    };
    text.chars().map(|c| f64::from(advance(c))).sum::<f64>() * size / 1000.0
}

/// Where a character stands in the tables.
fn place(c: char) -> Option<usize> {
    const FIRST: usize = ' ' as usize;
    const COUNT: usize = '~' as usize + 1 - FIRST;
    match c {
        ' '..='~' => Some(c as usize - FIRST),
        '\0'..'\u{80}' => None,
        _ => Some(COUNT + BEYOND_ASCII.chars().position(|each| each == c)?),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_character_is_found_once_and_has_its_width() {
        let all: Vec<char> = (' '..='~').chain(BEYOND_ASCII.chars()).collect();
        assert!(all.windows(2).all(|pair| pair[0] < pair[1]));
        for table in [LABEL, VALUE, TEXT, ITALIC] {
            assert_eq!(table.len(), all.len());
        }
        assert!(all.iter().enumerate().all(|(i, c)| place(*c) == Some(i)));
        let widths = |face| [' ', 'W', '~', '°', '−'].map(|c| width(&c.to_string(), face, 1000.0));
        let wanted = [[200.0, 762.0, 492.0, 369.0, 468.0], [200.0, 771.0, 501.0, 368.0, 465.0]];
        for (face, wanted) in [Face::Label, Face::Value].into_iter().zip(wanted) {
            assert!(widths(face).iter().zip(wanted).all(|(found, wanted)| (found - wanted).abs() < 1e-9));
        }
    }

    #[test]
    fn figures_of_labels_are_of_one_width() {
        for face in [Face::Label, Face::Value] {
            let widths: Vec<f64> = "0123456789".chars().map(|c| width(&c.to_string(), face, 10.0)).collect();
            assert!(widths.iter().all(|w| (w - widths[0]).abs() < 1e-12));
        }
    }

    #[test]
    fn width_goes_with_size_and_length() {
        let one = width("aft guy", Face::Label, 13.0);
        assert!((width("aft guy", Face::Label, 26.0) - 2.0 * one).abs() < 1e-9);
        assert!((30.0..50.0).contains(&one));
        assert!(width("aft guyΩ", Face::Label, 13.0) > one);
    }
}
