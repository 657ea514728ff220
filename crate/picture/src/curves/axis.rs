//! The value axis of a panel: round numbers in the units shown.

use crate::decade::decade;
use outlean_rigfile::{LBF, Units, fixed};

/// A value axis. It depends on the rig and the units, never on the lean.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Axis {
    /// Least value shown, N: 0, or below it for a leg that pulls.
    pub least: f64,
    /// Greatest value shown, N.
    pub most: f64,
    /// Distance of the ticks, N.
    pub step: f64,
    /// Newtons in one of the shown units.
    unit: f64,
}

impl Axis {
    /// The axis for values up to `most` N and down to `least` N (0 or negative): four to seven half steps, one more
    /// where values go below 0, and a tick at each round number. Values that are not finite, or no values at all, give an axis to 1 kN.
    #[must_use]
    pub fn for_values(least: f64, most: f64, units: Units) -> Self {
        let unit = match units {
            Units::Metric => 1000.0,
            Units::Us => LBF,
        };
        let sound = |value: f64| if value.is_finite() { value } else { 0.0 };
        let most = if sound(most) > 0.0 { most } else { 1000.0 };
        let (least, most) = (sound(least).min(0.0) / unit, sound(most).max(0.0) / unit);
        let span = (most - least).clamp(1e-3, 1e9);
        // Between two and four whole steps; the top may lie on a half step.
        let decade = decade(span / 2.0).0;
        let step = [1.0, 2.0, 4.0, 5.0, 10.0]
            .into_iter()
            .map(|mantissa| mantissa * decade)
            .find(|step| span / step <= 3.5)
            .unwrap_or(20.0 * decade);
        let half = 0.5 * step;
        Self {
            least: libm::floor(least / half + 1e-9) * half * unit,
            most: libm::ceil((most / half - 1e-9).max(1.0)) * half * unit,
            step: step * unit,
            unit,
        }
    }

    /// The ticks: place, N, and number as shown.
    pub fn ticks(&self) -> impl Iterator<Item = (f64, String)> + use<> {
        let Self { least, most, step, unit } = *self;
        let count = |value: f64| (value / step).clamp(-100.0, 100.0) as i32;
        let decimals = (-decade(step / unit).1).clamp(0, 4) as usize;
        (count(least)..=count(most)).map(move |i| {
            let value = f64::from(i) * step;
            let number = fixed((value / unit).abs(), decimals);
            (value, if i < 0 { format!("−{number}") } else { number })
        })
    }

    /// The name of the shown unit.
    #[must_use]
    pub fn unit_name(&self) -> &'static str {
        if self.unit > 100.0 { "kN" } else { "lbf" }
    }

    /// How many half steps it spans.
    #[must_use]
    pub fn half_steps(&self) -> f64 {
        libm::round((self.most - self.least) / (0.5 * self.step)).max(1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shown(least: f64, most: f64, units: Units) -> (Vec<String>, f64) {
        let axis = Axis::for_values(least, most, units);
        (axis.ticks().map(|(_, text)| text).collect(), axis.most / axis.unit)
    }

    #[test]
    fn round_numbers_in_the_units_shown() {
        assert_eq!(
            shown(0.0, 13_300.0, Units::Metric),
            (vec!["0".into(), "4".into(), "8".into(), "12".into()], 14.0)
        );
        assert_eq!(shown(0.0, 5_600.0, Units::Metric).0, ["0", "2", "4", "6"]);
        assert_eq!(shown(0.0, 480.0, Units::Metric).0, ["0.0", "0.2", "0.4"]);
        assert_eq!(shown(0.0, 2_000.0 * LBF, Units::Us).0, ["0", "1000", "2000"]);
        assert_eq!(shown(-900.0, 3_000.0, Units::Metric).0, ["0", "2"]);
    }

    #[test]
    fn holds_every_value_with_two_to_seven_half_steps() {
        let mut most = 1.0;
        while most < 1e7 {
            for units in [Units::Metric, Units::Us] {
                let axis = Axis::for_values(0.0, most, units);
                assert!(axis.most >= most * (1.0 - 1e-9) && axis.half_steps() <= 7.0, "{most} {axis:?}");
                assert!(axis.ticks().count() >= 2, "{most} {axis:?}");
            }
            most *= 1.07;
        }
    }

    #[test]
    fn nothing_to_show_and_nonsense_still_give_an_axis() {
        for (least, most) in
            [(0.0, 0.0), (f64::NAN, f64::NAN), (f64::NEG_INFINITY, f64::INFINITY), (-1e300, 1e300)]
        {
            let axis = Axis::for_values(least, most, Units::Us);
            assert!(axis.most > axis.least && axis.ticks().count() < 250);
        }
    }
}
