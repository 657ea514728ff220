//! Faults of the core in words, in the reader's units.

use crate::words::words;
use outlean_rig::{Dimension, Fault, Field};
use outlean_rigfile::{Problem, Severity, UNITS, Unit, Units, What, key_of};

/// What is wrong with a rig that cannot be computed: which number, what it is, what is allowed. Without a full stop.
pub fn said(fault: &Fault, units: Units) -> String {
    let unit = unit(fault.field.dimension(), units);
    let what = What::Implied { fault: *fault, unit };
    let message = Problem { severity: Severity::Error, span: 0..0, what }.said(words()).message;
    // What nobody writes has no key to be called by.
    let name = match fault.field {
        Field::WorkingLength(_) | Field::GuyLength(_) | Field::HaulLength(_) => return message,
        Field::RopeStiffness(_) => "fault.rope_stiffness",
        field if key_of(field).is_some() => return message,
        _ => "fault.other",
    };
    message.replacen(&words().fill("problem.key", &[("key", "")]), words().say(name), 1)
}

/// The unit in which amounts are told; `None` for the usual one.
fn unit(dimension: Dimension, units: Units) -> Option<&'static Unit> {
    let symbol = match (units, dimension) {
        (Units::Us, Dimension::Length) => "ft",
        (Units::Us, Dimension::Area) => "in²",
        (Units::Us, Dimension::Mass) => "lb",
        (Units::Us, Dimension::Force) => "lbf",
        (Units::Us, Dimension::ForcePerLength) => "lb/ft",
        (Units::Us, Dimension::Pressure) => "psi",
        _ => return None,
    };
    UNITS.iter().find(|unit| unit.symbol == symbol)
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::Side;

    #[test]
    fn a_fault_is_told_in_the_readers_units_and_by_name() {
        let fault = |field: Field, value: f64| Fault { field, value, allowed: field.allowed() };
        for (fault, units, wanted) in [
            (fault(Field::Lean, 2.0), Units::Us, "`lean` comes to 114.6 deg; allowed is -89 deg to 89 deg"),
            (
                fault(Field::Spread, 100.0),
                Units::Metric,
                "feet 100 m apart do not fit these legs; allowed is 0.05 m to 80 m",
            ),
            (
                fault(Field::Spread, 100.0),
                Units::Us,
                "feet 328.1 ft apart do not fit these legs; allowed is 0.164 ft to 262.5 ft",
            ),
            (
                fault(Field::WorkingLength(Side::Left), 0.1),
                Units::Metric,
                "this leaves 0.1 m from foot to lashing; allowed is 0.3 m to 40 m",
            ),
        ] {
            assert_eq!(said(&fault, units), wanted);
        }
        for field in [Field::RopeStiffness(0), Field::LegStiffness, Field::GuyCount] {
            let said = said(&fault(field, -1.0), Units::Us);
            assert!(!said.contains('`') && !said.contains("SI") && said.contains("allowed is"), "{said}");
        }
    }
}
