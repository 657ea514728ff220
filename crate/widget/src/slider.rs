//! The fields that sliders move: how far and in which steps.

use outlean_picture::curves::{SETBACKS, SPREADS};
use outlean_rigfile::{DEG, FT, LB, Units};

/// How a slider moves a field of the field table. SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Slider {
    /// Key of the field table.
    pub key: &'static str,
    /// Least and greatest value that the slider reaches. The field itself may allow more.
    pub span: (f64, f64),
    /// One step in metric and in US units.
    pub step: (f64, f64),
    /// Steps in a page.
    pub page: f64,
}

/// The sliders of the figure, in the order of the rig's sentence.
pub const SLIDERS: [Slider; 4] = [
    Slider { key: "lean", span: (-10.0 * DEG, 60.0 * DEG), step: (DEG, DEG), page: 5.0 },
    Slider { key: "load.mass", span: (0.0, 600.0), step: (10.0, 20.0 * LB), page: 5.0 },
    Slider { key: "aft.setback", span: SETBACKS, step: (0.1, 0.5 * FT), page: 5.0 },
    Slider { key: "feet.spread", span: SPREADS, step: (0.05, 0.25 * FT), page: 5.0 },
];

impl Slider {
    /// The slider of a key.
    pub fn of(key: &str) -> Option<&'static Self> {
        SLIDERS.iter().find(|slider| slider.key == key)
    }

    /// One step in the units shown.
    #[must_use]
    pub const fn step_in(&self, units: Units) -> f64 {
        match units {
            Units::Metric => self.step.0,
            Units::Us => self.step.1,
        }
    }

    /// `value` moved by `steps`, onto the next whole step, within the span.
    #[must_use]
    pub fn stepped(&self, value: f64, steps: f64, units: Units) -> f64 {
        let step = self.step_in(units);
        let at = value / step;
        // From between two steps, one step leads to the next whole one.
        let whole = if steps > 0.0 { libm::floor(at + 1e-6) } else { libm::ceil(at - 1e-6) };
        self.within((whole + steps) * step)
    }

    /// The whole step nearest to `value`, within the span.
    #[must_use]
    pub fn nearest(&self, value: f64, units: Units) -> f64 {
        let step = self.step_in(units);
        self.within(libm::round(value / step) * step)
    }

    /// `value` within the span.
    #[must_use]
    pub const fn within(&self, value: f64) -> f64 {
        value.max(self.span.0).min(self.span.1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lessons_may_have_moved_what_has_a_slider() {
        assert_eq!(SLIDERS.len(), outlean_course::CONTROLS.len());
        assert!(SLIDERS.iter().all(|slider| outlean_course::CONTROLS.contains(&slider.key)));
    }

    #[test]
    fn a_step_leads_to_the_next_whole_one() {
        let lean = Slider::of("lean").unwrap();
        for (from, steps, to) in [
            (20.0, 1.0, 21.0),
            (43.88, 1.0, 44.0),
            (43.88, -1.0, 43.0),
            (58.0, 5.0, 60.0),
            (-9.0, -5.0, -10.0),
        ] {
            let stepped = lean.stepped(from * DEG, steps, Units::Metric) / DEG;
            assert!((stepped - to).abs() < 1e-9, "{from} by {steps} is {stepped}");
        }
    }
}
