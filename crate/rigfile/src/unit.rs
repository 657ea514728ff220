//! A unit as people write it.

use crate::units::{DEG, FT, INCH, LB, LBF};
use outlean_rig::{Dimension, G};

/// A unit that may stand behind a number.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Unit {
    /// How this program writes it: "kN".
    pub symbol: &'static str,
    /// What it measures.
    pub dimension: Dimension,
    /// One of it in the SI unit of its dimension.
    pub si: f64,
    /// How else it is written, in lower case; the symbol itself in lower case among them.
    spellings: &'static [&'static str],
}

const fn unit(
    symbol: &'static str,
    dimension: Dimension,
    si: f64,
    spellings: &'static [&'static str],
) -> Unit {
    Unit { symbol, dimension, si, spellings }
}

/// Every unit known, the usual one of a dimension first. A mass per length stands for its weight.
pub const UNITS: &[Unit] = &[
    unit("m", Dimension::Length, 1.0, &["m", "metre", "metres", "meter", "meters"]),
    unit("cm", Dimension::Length, 0.01, &["cm"]),
    unit("mm", Dimension::Length, 0.001, &["mm"]),
    unit("ft", Dimension::Length, FT, &["ft", "foot", "feet", "'"]),
    unit("in", Dimension::Length, INCH, &["in", "inch", "inches", "\"", "''"]),
    unit("yd", Dimension::Length, 3.0 * FT, &["yd", "yard", "yards"]),
    unit("cm²", Dimension::Area, 1e-4, &["cm²", "cm2", "cm^2", "sq cm"]),
    unit("m²", Dimension::Area, 1.0, &["m²", "m2", "m^2", "sq m"]),
    unit("mm²", Dimension::Area, 1e-6, &["mm²", "mm2", "mm^2", "sq mm"]),
    unit("in²", Dimension::Area, INCH * INCH, &["in²", "in2", "in^2", "sq in"]),
    unit("ft²", Dimension::Area, FT * FT, &["ft²", "ft2", "ft^2", "sq ft"]),
    unit("deg", Dimension::Angle, DEG, &["deg", "°", "degree", "degrees", "degs"]),
    unit("rad", Dimension::Angle, 1.0, &["rad", "radian", "radians"]),
    unit("kg", Dimension::Mass, 1.0, &["kg", "kgs", "kilogram", "kilograms"]),
    unit("g", Dimension::Mass, 0.001, &["g", "gram", "grams"]),
    unit("t", Dimension::Mass, 1000.0, &["t", "tonne", "tonnes"]),
    unit("lb", Dimension::Mass, LB, &["lb", "lbs", "pound", "pounds"]),
    unit("kN", Dimension::Force, 1000.0, &["kn", "kilonewton", "kilonewtons"]),
    unit("N", Dimension::Force, 1.0, &["n", "newton", "newtons"]),
    unit("daN", Dimension::Force, 10.0, &["dan", "decanewton", "decanewtons"]),
    unit("kgf", Dimension::Force, G, &["kgf"]),
    unit("lbf", Dimension::Force, LBF, &["lbf"]),
    unit("kip", Dimension::Force, 1000.0 * LBF, &["kip", "kips"]),
    unit("kg/m", Dimension::ForcePerLength, G, &["kg/m"]),
    unit("N/m", Dimension::ForcePerLength, 1.0, &["n/m"]),
    unit("kN/m", Dimension::ForcePerLength, 1000.0, &["kn/m"]),
    unit("lb/ft", Dimension::ForcePerLength, LBF / FT, &["lb/ft", "lbs/ft"]),
    unit("lbf/ft", Dimension::ForcePerLength, LBF / FT, &["lbf/ft"]),
    unit("MPa", Dimension::Pressure, 1e6, &["mpa", "n/mm2", "n/mm²"]),
    unit("kPa", Dimension::Pressure, 1e3, &["kpa", "kn/m2", "kn/m²"]),
    unit("Pa", Dimension::Pressure, 1.0, &["pa", "n/m2", "n/m²"]),
    unit("GPa", Dimension::Pressure, 1e9, &["gpa"]),
    unit("psi", Dimension::Pressure, LBF / (INCH * INCH), &["psi"]),
    unit("psf", Dimension::Pressure, LBF / (FT * FT), &["psf"]),
    unit("%", Dimension::Ratio, 0.01, &["%", "percent", "per cent"]),
];

impl Unit {
    /// The unit of that spelling, whatever its case.
    #[must_use]
    pub fn named(spelling: &str) -> Option<&'static Self> {
        let same = |known: &&str| known.eq_ignore_ascii_case(spelling);
        UNITS.iter().find(|unit| unit.spellings.iter().any(same))
    }

    /// The units that measure `dimension`, the usual one first.
    pub fn of(dimension: Dimension) -> impl Iterator<Item = &'static Self> {
        UNITS.iter().filter(move |unit| unit.dimension == dimension)
    }

    /// The longest unit that `text` begins with, and how many bytes of it that is. A unit ends where its
    /// letters end.
    pub(crate) fn at_start_of(text: &str) -> Option<(&'static Self, usize)> {
        let mut best: Option<(&'static Self, usize)> = None;
        for unit in UNITS {
            for spelling in unit.spellings {
                let Some(length) = starts_with(text, spelling) else { continue };
                let next = text.get(length..).and_then(|rest| rest.chars().next());
                let ends = match (spelling.chars().next_back(), next) {
                    (_, None) => true,
                    (Some(last), Some(next)) => {
                        !(next == '/'
                            || next == '^'
                            || (is_letter(last) || last.is_ascii_digit()) && is_letter(next))
                    }
                    (None, _) => false,
                };
                if ends && best.is_none_or(|(_, longest)| length > longest) {
                    best = Some((unit, length));
                }
            }
        }
        best
    }

    /// The unit whose spelling is nearest to `written`, one of `wanted` first; `None` where nothing is near.
    #[must_use]
    pub fn nearest(written: &str, wanted: Dimension) -> Option<&'static Self> {
        let spelled = |keep: &dyn Fn(&Self) -> bool| {
            let all = UNITS.iter().filter(|unit| keep(unit)).flat_map(|unit| unit.spellings.iter().copied());
            crate::nearest(written, all).and_then(Self::named)
        };
        spelled(&|unit| unit.dimension == wanted).or_else(|| spelled(&|_| true))
    }
}

/// Whether a character goes on with a word. Beyond ASCII everything does but signs: °, ², ″, spaces, dashes.
fn is_letter(c: char) -> bool {
    c.is_ascii_alphabetic() || (c >= '\u{c0}' && !('\u{2000}'..'\u{2070}').contains(&c))
}

/// How many bytes of `text` the lower-case `prefix` takes, compared without case.
fn starts_with(text: &str, prefix: &str) -> Option<usize> {
    let mut chars = text.char_indices();
    for wanted in prefix.chars() {
        let (_, found) = chars.next()?;
        if found.to_ascii_lowercase() != wanted {
            return None;
        }
    }
    Some(chars.next().map_or(text.len(), |(at, _)| at))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_spelling_means_two_units() {
        let mut all: Vec<_> = UNITS.iter().flat_map(|unit| unit.spellings).collect();
        let count = all.len();
        all.sort_unstable();
        all.dedup();
        assert_eq!(all.len(), count);
        for unit in UNITS {
            assert_eq!(Unit::named(unit.symbol), Some(unit));
        }
    }

    #[test]
    fn the_longest_unit_wins_where_it_ends() {
        let at = |text| Unit::at_start_of(text).map(|(unit, length)| (unit.symbol, length));
        assert_eq!(at("kN/m"), Some(("kN/m", 4)));
        assert_eq!(at("ft6in"), Some(("ft", 2)));
        assert_eq!(at("ft2in"), Some(("ft", 2)));
        assert_eq!(at("cm2"), Some(("cm²", 3)));
        assert_eq!(at("metro"), None);
        assert_eq!(at("N/s"), None);
    }
}
