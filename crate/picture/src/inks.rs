//! Inks: the colours of one theme.

use std::borrow::Cow;

/// The names of the inks; each is a token `--name` of the style sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Ink {
    /// `--paper`
    Paper,
    /// `--ink`
    Ink,
    /// `--ink-2`
    Quiet,
    /// `--rule`
    Rule,
    /// `--timber`
    Timber,
    /// `--earth`
    Earth,
    /// `--figure`
    Figure,
    /// `--push`
    Push,
    /// `--pull`
    Pull,
    /// `--load`
    Load,
    /// `--ground`
    Ground,
    /// `--out-wash`
    OutWash,
    /// `--out-hatch`
    OutHatch,
    /// `--pencil`
    Pencil,
}

impl Ink {
    /// All of them, in the order of the fields of [`Inks`].
    pub const ALL: [Self; 14] = [
        Self::Paper,
        Self::Ink,
        Self::Quiet,
        Self::Rule,
        Self::Timber,
        Self::Earth,
        Self::Figure,
        Self::Push,
        Self::Pull,
        Self::Load,
        Self::Ground,
        Self::OutWash,
        Self::OutHatch,
        Self::Pencil,
    ];

    /// The name of its token in the style sheet.
    #[must_use]
    pub const fn token(self) -> &'static str {
        match self {
            Self::Paper => "--paper",
            Self::Ink => "--ink",
            Self::Quiet => "--ink-2",
            Self::Rule => "--rule",
            Self::Timber => "--timber",
            Self::Earth => "--earth",
            Self::Figure => "--figure",
            Self::Push => "--push",
            Self::Pull => "--pull",
            Self::Load => "--load",
            Self::Ground => "--ground",
            Self::OutWash => "--out-wash",
            Self::OutHatch => "--out-hatch",
            Self::Pencil => "--pencil",
        }
    }
}

/// One colour for each ink, as any CSS colour.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Inks([Cow<'static, str>; 14]);

impl Inks {
    /// The light theme of the style sheet.
    pub const LIGHT: Self = Self::fixed([
        "#F5F7F2", "#15222B", "#46545C", "#BFC8C3", "#E6DCC5", "#DDE1D6", "#6B777D", "#A9381A", "#19429C",
        "#15222B", "#2B795A", "#F2E5BE", "#94701C", "#5C686E",
    ]);

    /// The dark theme of the style sheet.
    pub const DARK: Self = Self::fixed([
        "#11191E", "#E6EBE6", "#B1BDBD", "#3A4850", "#4B4535", "#223038", "#8C999E", "#FFA070", "#A8CFF6",
        "#E6EBE6", "#23A796", "#302A18", "#B08B35", "#A0ABAE",
    ]);

    /// The projector theme of the style sheet.
    pub const PROJECTOR: Self = Self::fixed([
        "#FFFFFF", "#000000", "#2E3538", "#8A9296", "#EADFC6", "#D9DED4", "#565F63", "#9A2A08", "#06297F",
        "#000000", "#10604F", "#F5E4AE", "#7A5A0C", "#4A5357",
    ]);

    /// The sunlight theme of the style sheet.
    pub const SUNLIGHT: Self = Self::fixed([
        "#FFFFFF", "#000000", "#22282B", "#5B6469", "#FFFFFF", "#FFFFFF", "#404A4F", "#880002", "#121885",
        "#000000", "#006456", "#FFFFFF", "#4A3A00", "#3B4347",
    ]);

    /// What is printed: the light theme on white paper.
    pub const PRINT: Self = Self::fixed([
        "#FFFFFF", "#15222B", "#46545C", "#BFC8C3", "#E6DCC5", "#DDE1D6", "#6B777D", "#A9381A", "#19429C",
        "#15222B", "#2B795A", "#FFFFFF", "#94701C", "#5C686E",
    ]);

    const fn fixed(c: [&'static str; 14]) -> Self {
        use Cow::Borrowed as B;
        let [a, b, d, e, f, g, h, i, j, k, l, m, n, o] = c;
        Self([B(a), B(b), B(d), B(e), B(f), B(g), B(h), B(i), B(j), B(k), B(l), B(m), B(n), B(o)])
    }

    /// The inks that `colour` gives for each token name, such as `--push`: the page asks its computed style.
    /// An empty answer keeps the light theme's ink.
    #[must_use]
    pub fn read(mut colour: impl FnMut(&'static str) -> String) -> Self {
        let mut inks = Self::LIGHT;
        for (ink, place) in Ink::ALL.iter().zip(&mut inks.0) {
            let found = colour(ink.token());
            let found = found.trim();
            if !found.is_empty() {
                *place = Cow::Owned(found.to_owned());
            }
        }
        inks
    }

    /// The colour of an ink.
    #[must_use]
    pub fn colour(&self, ink: Ink) -> &str {
        Ink::ALL.iter().zip(&self.0).find(|(each, _)| **each == ink).map_or("", |(_, colour)| colour)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The value of a token inside the block that begins with `selector`.
    fn token(sheet: &str, selector: &str, name: &str) -> String {
        let block = sheet.split(selector).nth(1).and_then(|rest| rest.split('}').next()).unwrap();
        let at = block.find(&format!("{name}:")).unwrap_or_else(|| panic!("{selector} has {name}"));
        block[at + name.len() + 1..].split(';').next().unwrap().trim().to_owned()
    }

    #[test]
    fn the_themes_are_those_of_the_style_sheet() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/tokens.css");
        let sheet = std::fs::read_to_string(path).expect("www/tokens.css");
        for (selector, inks) in [
            (":root,:host{", Inks::LIGHT),
            ("[data-theme=dark],:host([data-theme=dark]){", Inks::DARK),
            ("[data-theme=projector],:host([data-theme=projector]){", Inks::PROJECTOR),
            ("[data-theme=sunlight],:host([data-theme=sunlight]){", Inks::SUNLIGHT),
        ] {
            let read = Inks::read(|name| token(&sheet, selector, name));
            assert_eq!(read, inks, "{selector}");
        }
    }

    #[test]
    fn what_is_printed_is_the_light_theme_with_what_the_style_sheet_says_of_print() {
        let path = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/tokens.css");
        let sheet = std::fs::read_to_string(path).expect("www/tokens.css");
        let print = sheet.split("@media print{").nth(1).expect("it says what is printed");
        let print = print.split("}}").next().expect("it ends");
        let read = Inks::read(|name| {
            let set =
                print.split_once(&format!("{name}:")).and_then(|(_, rest)| rest.split([';', '}']).next());
            set.map_or_else(|| token(&sheet, ":root,:host{", name), str::to_owned)
        });
        assert_eq!(read, Inks::PRINT);
    }

    #[test]
    fn a_missing_token_keeps_the_light_ink() {
        let inks = Inks::read(|name| if name == "--push" { " red ".into() } else { String::new() });
        assert_eq!((inks.colour(Ink::Push), inks.colour(Ink::Pull)), ("red", "#19429C"));
    }
}
