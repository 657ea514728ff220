//! Lean as people write it, in the four ways they measure it.

use crate::number::number;
use crate::quantity::{QuantityError, parse, plain};
use outlean_rig::{Dimension, Lean};

/// The lean that `text` states: "18 deg" or "18° from vertical", "72 deg from ground", "1.2 m" (the reach:
/// plumb line from the head to the foot line), "1 in 3" or "1:3" (reach over height).
///
/// # Errors
///
/// As [`parse`]; a unit that is neither of an angle nor of a length is a `WrongUnit`.
///
/// ```
/// use outlean_rig::Lean;
/// use outlean_rigfile::parse_lean;
/// assert_eq!(parse_lean("1 in 4"), Ok(Lean::Slope(0.25)));
/// assert_eq!(parse_lean("1.2 m"), Ok(Lean::Reach(1.2)));
/// assert!(matches!(parse_lean("72 deg from ground"), Ok(Lean::Ground(_))));
/// assert!(parse_lean("18").is_err());
/// ```
pub fn parse_lean(text: &str) -> Result<Lean, QuantityError> {
    let plain = plain(text).to_ascii_lowercase();
    let plain = plain.trim();
    if let Some(slope) = slope(plain) {
        return Ok(Lean::Slope(slope));
    }
    let without = |endings: &[&str]| endings.iter().find_map(|ending| plain.strip_suffix(ending));
    if let Some(angle) = without(&["from ground", "from the ground", "from level"]) {
        return parse(angle, Dimension::Angle).map(Lean::Ground);
    }
    if let Some(angle) = without(&["from vertical", "from the vertical", "from upright"]) {
        return parse(angle, Dimension::Angle).map(Lean::Vertical);
    }
    let rest = plain.strip_suffix("reach").unwrap_or(plain);
    match parse(rest, Dimension::Angle) {
        Err(QuantityError::WrongUnit { unit, .. }) if unit.dimension == Dimension::Length => {
            parse(rest, Dimension::Length).map(Lean::Reach)
        }
        angle => angle.map(Lean::Vertical),
    }
}

/// "1 in 3", "1:3", "-1 in 10".
fn slope(plain: &str) -> Option<f64> {
    let (out, up) = plain.split_once(':').or_else(|| plain.split_once(" in "))?;
    let all = |text: &str| {
        let text = text.trim();
        let (sign, text) = text.strip_prefix('-').map_or((1.0, text), |text| (-1.0, text));
        number(text).ok().filter(|(_, taken)| *taken == text.len()).map(|(value, _)| sign * value)
    };
    let (out, up) = (all(out)?, all(up)?);
    (up > 0.0).then_some(out / up).filter(|slope| slope.is_finite())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::DEG;

    #[test]
    fn four_ways_to_say_it() {
        let vertical = |text| match parse_lean(text) {
            Ok(Lean::Vertical(angle)) => angle / DEG,
            other => panic!("{text}: {other:?}"),
        };
        assert!((vertical("18°") - 18.0).abs() < 1e-12);
        assert!((vertical("−4 deg from the vertical") + 4.0).abs() < 1e-12);
        assert!(matches!(parse_lean("4 ft 2 in"), Ok(Lean::Reach(r)) if (r - 1.27).abs() < 1e-9));
        assert!(matches!(parse_lean("1.2 m reach"), Ok(Lean::Reach(_))));
        assert_eq!(parse_lean("-1:4"), Ok(Lean::Slope(-0.25)));
        // Six inches of reach, not a slope.
        assert!(matches!(parse_lean("6 in"), Ok(Lean::Reach(_))));
        assert!(matches!(parse_lean("18 kg"), Err(QuantityError::WrongUnit { .. })));
        assert!(parse_lean("1 in 0").is_err() && parse_lean("").is_err());
    }
}
