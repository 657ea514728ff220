//! Numbers with units as people read them.

use crate::fixed;
use core::fmt;
use outlean_rig::Dimension;

/// The system of units in which people are shown numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Units {
    /// kN, m, kg, degrees.
    #[default]
    Metric,
    /// lbf, feet and inches, lb, degrees.
    Us,
}

/// Newtons in a pound-force (exact: 0.45359237 kg × 9.80665 m/s²).
pub const LBF: f64 = 4.448_221_615_260_5;
/// Kilograms in a pound (exact).
pub const LB: f64 = 0.453_592_37;
/// Metres in a foot (exact).
pub const FT: f64 = 0.304_8;
/// Metres in an inch (exact).
pub const INCH: f64 = 0.025_4;
/// Radians in a degree.
pub const DEG: f64 = core::f64::consts::PI / 180.0;

/// Stands between a number and its unit.
const THIN_SPACE: char = '\u{2009}';

/// A number and its unit, rounded to what a tape and a load bear: three figures.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Shown {
    /// The number.
    pub number: String,
    /// The unit, empty for a bare number.
    pub unit: &'static str,
}

impl fmt::Display for Shown {
    /// With a thin space before the unit, none before a degree sign.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.unit {
            "" | "°" => write!(f, "{}{}", self.number, self.unit),
            unit => write!(f, "{}{THIN_SPACE}{unit}", self.number),
        }
    }
}

/// `value`, in the SI unit of its dimension, as people read it in `units`. What is not finite is shown as a
/// dash.
///
/// ```
/// use outlean_rig::Dimension::{Angle, Force, Length};
/// use outlean_rigfile::{Units, show};
/// assert_eq!(show(1696.4, Force, Units::Metric).to_string(), "1.70\u{2009}kN");
/// assert_eq!(show(1696.4, Force, Units::Us).to_string(), "381\u{2009}lbf");
/// assert_eq!(show(1.6002, Length, Units::Us).to_string(), "5 ft 3\u{2009}in");
/// assert_eq!(show(24f64.to_radians(), Angle, Units::Metric).to_string(), "24°");
/// ```
#[must_use]
pub fn show(value: f64, dimension: Dimension, units: Units) -> Shown {
    let (number, unit) = match (dimension, units) {
        (Dimension::Angle, _) => (trimmed(value / DEG, 1), "°"),
        (Dimension::Ratio, _) => (trimmed(value, 2), ""),
        (Dimension::Count, _) => (rounded(value, 0), ""),
        (Dimension::Force, Units::Metric) => (three(value / 1000.0), "kN"),
        (Dimension::Force, Units::Us) => (whole(value / LBF), "lbf"),
        (Dimension::Length, Units::Metric) => (three(value), "m"),
        (Dimension::Length, Units::Us) => (feet_and_inches(value), "in"),
        (Dimension::Mass, Units::Metric) => (whole(value), "kg"),
        (Dimension::Mass, Units::Us) => (whole(value / LB), "lb"),
        (Dimension::Area, Units::Metric) => (whole(value * 1e4), "cm²"),
        (Dimension::Area, Units::Us) => (whole(value / (INCH * INCH)), "in²"),
        (Dimension::ForcePerLength, Units::Metric) => (whole(value), "N/m"),
        (Dimension::ForcePerLength, Units::Us) => (three(value * FT / LBF), "lbf/ft"),
        (Dimension::Pressure, Units::Metric) => (three(value / 1e6), "MPa"),
        (Dimension::Pressure, Units::Us) => (whole(value * INCH * INCH / LBF), "psi"),
        (Dimension::Moment, Units::Metric) => (whole(value), "N m"),
        (Dimension::Moment, Units::Us) => (whole(value / (FT * LBF)), "lbf ft"),
    };
    Shown { number, unit }
}

/// As [`show`], but a short length as a tape shows it: one below 20 cm, and one below 1 m that was given to the millimetre, in
/// millimetres, or in inches and tenths.
///
/// ```
/// use outlean_rig::Dimension::Length;
/// use outlean_rigfile::{Units, measured};
/// assert_eq!(measured(0.045, Length, Units::Metric).to_string(), "45\u{2009}mm");
/// assert_eq!(measured(0.115, Length, Units::Metric).to_string(), "115\u{2009}mm");
/// assert_eq!(measured(0.045, Length, Units::Us).to_string(), "1.8\u{2009}in");
/// assert_eq!(measured(0.35, Length, Units::Metric).to_string(), "0.35\u{2009}m");
/// ```
#[must_use]
pub fn measured(value: f64, dimension: Dimension, units: Units) -> Shown {
    measured_so(value, dimension, units, is_fine(value))
}

/// As [`measured`], a length finely or not as is said: of several that are read beside one another all in one unit.
///
/// ```
/// use outlean_rig::Dimension::Length;
/// use outlean_rigfile::{Units, are_fine, measured_so};
/// let [clear, tip] = [0.11, 0.076].map(|value| measured_so(value, Length, Units::Metric, are_fine([0.11, 0.076])));
/// assert_eq!((clear.to_string(), tip.to_string()), ("110\u{2009}mm".into(), "76\u{2009}mm".into()));
/// assert!(!are_fine([1.46, 0.04]), "beside a metre a hand's breadth is 0.04 m");
/// ```
#[must_use]
pub fn measured_so(value: f64, dimension: Dimension, units: Units, fine: bool) -> Shown {
    match (dimension, units) {
        (Dimension::Length, Units::Metric) if fine => {
            Shown { number: rounded(value * 1000.0, 0), unit: "mm" }
        }
        (Dimension::Length, Units::Us) if fine => Shown { number: trimmed(value / INCH, 1), unit: "in" },
        _ => show(value, dimension, units),
    }
}

/// Whether lengths (m) that are read beside one another are measured finely: one of them asks for it and all are below 1 m.
pub fn are_fine(lengths: impl IntoIterator<Item = f64>) -> bool {
    let mut fine = false;
    for length in lengths {
        if length.abs() >= 1.0 {
            return false;
        }
        fine |= is_fine(length);
    }
    fine
}

/// Whether a length (m) is below 20 cm, or below 1 m and given to the millimetre. Nothing is no length to be measured finely.
fn is_fine(metres: f64) -> bool {
    let size = metres.abs() * 1000.0;
    let whole = libm::round(size);
    (1.0..200.0).contains(&whole)
        || size < 1000.0
            && (size - whole).abs() < 1e-6
            && (libm::round(whole / 10.0) * 10.0 - whole).abs() > 0.5
}

/// A share of 1 in per cent, whole, with a thin space: "42 %".
#[must_use]
pub fn percent(share: f64) -> String {
    format!("{}{THIN_SPACE}%", rounded(share * 100.0, 0))
}

fn rounded(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return String::from("–");
    }
    let text = fixed(value, decimals);
    match text.strip_prefix('-') {
        Some(digits) if digits.bytes().all(|b| matches!(b, b'0' | b'.')) => digits.to_owned(),
        Some(digits) => format!("−{digits}"),
        None => text,
    }
}

fn trimmed(value: f64, decimals: usize) -> String {
    let text = rounded(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}

/// Three figures, never more than two decimals.
fn three(value: f64) -> String {
    let size = value.abs();
    rounded(value, if size < 9.995 { 2 } else { usize::from(size < 99.95) })
}

/// Whole numbers up to 1,000, then to the nearest ten.
fn whole(value: f64) -> String {
    if value.abs() < 1000.0 { rounded(value, 0) } else { rounded(libm::round(value / 10.0) * 10.0, 0) }
}

fn feet_and_inches(metres: f64) -> String {
    if !metres.is_finite() {
        return rounded(metres, 0);
    }
    let inches = libm::round(metres.abs() / INCH);
    let feet = libm::floor(inches / 12.0);
    let sign = if metres < 0.0 && inches > 0.0 { "−" } else { "" };
    if feet > 0.0 {
        format!("{sign}{} ft {}", fixed(feet, 0), fixed(inches - 12.0 * feet, 0))
    } else {
        format!("{sign}{}", fixed(inches, 0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Dimension::{Angle, Force, Length, Mass};

    #[test]
    fn three_figures_whatever_the_size() {
        let shown = |v| show(v, Force, Units::Metric).number;
        assert_eq!(
            [shown(4.0), shown(994.0), shown(9_994.0), shown(9_996.0), shown(99_949.0), shown(123_456.0)]
                .map(|s| s),
            ["0.00", "0.99", "9.99", "10.0", "99.9", "123"]
        );
        assert_eq!(show(5000.0 * LBF, Force, Units::Us).number, "5000");
        assert_eq!(show(1234.0, Mass, Units::Metric).number, "1230");
    }

    #[test]
    fn signs_and_what_is_no_number() {
        assert_eq!(show(-0.001, Force, Units::Metric).number, "0.00");
        assert_eq!(show(-1500.0, Force, Units::Metric).number, "−1.50");
        assert_eq!(show(f64::NAN, Force, Units::Metric).number, "–");
        assert_eq!(show(f64::INFINITY, Length, Units::Us).number, "–");
        assert_eq!(show(-0.2, Length, Units::Us).to_string(), "−8\u{2009}in");
    }

    #[test]
    fn a_short_length_is_read_off_a_tape() {
        let read = |value, units| measured(value, Length, units).to_string();
        let metric: Vec<String> = [
            0.0,
            0.0004,
            0.0006,
            -0.05,
            0.0996,
            0.1,
            0.12,
            0.1274,
            0.1996,
            0.227,
            0.98,
            0.985,
            1.205,
            f64::NAN,
        ]
        .map(|value| read(value, Units::Metric))
        .into();
        assert_eq!(
            metric.join("; ").replace('\u{2009}', " "),
            "0.00 m; 0.00 m; 1 mm; −50 mm; 100 mm; 100 mm; 120 mm; 127 mm; 0.20 m; 227 mm; 0.98 m; 985 mm; 1.21 m; – m"
        );
        let us =
            [3.0 * INCH, 5.0 * INCH, 1.27 * INCH, 8.0 * INCH, 0.115, 0.3].map(|value| read(value, Units::Us));
        assert_eq!(us.join("; ").replace('\u{2009}', " "), "3 in; 5 in; 1.3 in; 8 in; 4.5 in; 1 ft 0 in");
        assert_eq!(measured(0.045, Mass, Units::Metric), show(0.045, Mass, Units::Metric));
    }

    #[test]
    fn angles_lose_an_empty_decimal() {
        assert_eq!(show(43.88 * DEG, Angle, Units::Metric).to_string(), "43.9°");
        assert_eq!(show(-10.0 * DEG, Angle, Units::Metric).to_string(), "−10°");
        assert_eq!(percent(0.424), "42\u{2009}%");
    }
}
