//! What kind of number a step of a worked solution shows, and how people read it.

use outlean_rig::Dimension;
use outlean_rigfile::{FT, Shown, Units, show};

/// The kind of a number in a worked solution.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Measure {
    /// A length, force, angle and so on, in its SI unit.
    Of(Dimension),
    /// A moment, N m.
    Moment,
    /// Weight of a unit of mass, N/kg.
    Gravity,
}

impl Measure {
    /// The number and its unit as people read it in `units`, of a value in SI. In feet, lengths are decimal:
    /// nobody multiplies feet and inches.
    ///
    /// ```
    /// use outlean_course::Measure;
    /// use outlean_rigfile::Units;
    /// assert_eq!(Measure::Moment.show(4300.0, Units::Metric).to_string(), "4.30\u{2009}kN·m");
    /// let length = Measure::Of(outlean_rig::Dimension::Length);
    /// assert_eq!(length.show(1.5 * outlean_rigfile::FT, Units::Us).to_string(), "1.5\u{2009}ft");
    /// ```
    #[must_use]
    pub fn show(self, value: f64, units: Units) -> Shown {
        // Moments read like forces, a metre or a foot away.
        match (self, units) {
            (Self::Of(Dimension::Length), Units::Us) => {
                Shown { unit: "ft", ..show(value / FT, Dimension::Ratio, units) }
            }
            (Self::Of(dimension), _) => show(value, dimension, units),
            (Self::Moment, Units::Metric) => Shown { unit: "kN·m", ..show(value, Dimension::Force, units) },
            (Self::Moment, Units::Us) => {
                Shown { unit: "lbf·ft", ..show(value / FT, Dimension::Force, units) }
            }
            (Self::Gravity, Units::Metric) => Shown { unit: "N/kg", ..show(value, Dimension::Ratio, units) },
            (Self::Gravity, Units::Us) => {
                Shown { unit: "lbf/lb", ..show(value / outlean_rig::G, Dimension::Ratio, units) }
            }
        }
    }
}
