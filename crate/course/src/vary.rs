//! What changes from one drawing of a question to the next.

use crate::Generator;
use crate::mirror::mirrored;
use outlean_rig::{Dimension, Quantity, Rig};
use outlean_rigfile::{DEG, FT, INCH, LB, LBF, SetError, Units, field};

/// How many rigs are drawn for a question before its template is given up.
pub(crate) const MOST_DRAWN: u32 = 400;

/// One thing that varies.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Vary {
    /// A number of the rig.
    Number(Span),
    /// Left and right: half of the questions show the rig and the part asked for as in a mirror.
    Sides,
}

/// The values that a number may take.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Span {
    /// Its key in the field table.
    pub field: String,
    /// Least value, SI.
    pub least: f64,
    /// Greatest value, SI.
    pub most: f64,
    /// From one value to the next, SI: what a tape or a scale shows.
    pub step: f64,
    /// Values are rounded to what is shown in these units: 1 cm or 1 in, 1 kg or 1 lb, 10 N or 1 lbf, 0.1°.
    #[serde(default)]
    pub units: Units,
}

/// Why nothing can be drawn from a template: a mistake of its author.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum VaryError {
    /// There is no field of that key.
    UnknownField(String),
    /// The rig has no such thing.
    Absent(String),
    /// Least, most and step make no list of values: least above most, a step that is not above nothing, more
    /// than a million values, or a number that is not finite.
    NotASpan(Span),
    /// A value of the span is out of the field's own range.
    OutOfRange(Span, outlean_rig::Fault),
}

impl Vary {
    /// Draws it, changing the rig or the part asked for.
    pub(crate) fn draw(
        &self,
        generator: &mut Generator,
        rig: &mut Rig,
        ask: &mut Quantity,
    ) -> Result<(), VaryError> {
        match self {
            Self::Number(span) => span.draw(generator, rig),
            Self::Sides => {
                if generator.below(2) == 1 {
                    (*rig, *ask) = mirrored(rig, *ask);
                }
                Ok(())
            }
        }
    }
}

/// A rig with every span drawn anew, in their order.
pub(crate) fn vary(spans: &[Span], rig: &Rig, generator: &mut Generator) -> Result<Rig, VaryError> {
    let mut rig = rig.clone();
    for span in spans {
        span.draw(generator, &mut rig)?;
    }
    Ok(rig)
}

impl Span {
    /// Every value that it can take, SI, as shown.
    pub(crate) fn values(&self) -> Result<Vec<f64>, VaryError> {
        let place = field(&self.field).ok_or_else(|| VaryError::UnknownField(self.field.clone()))?;
        let steps = self.steps().ok_or_else(|| VaryError::NotASpan(self.clone()))?;
        let value = |step: u32| self.least + f64::from(step) * self.step;
        Ok((0..=steps).map(|step| rounded(value(step), place.dimension(), self.units)).collect())
    }

    fn draw(&self, generator: &mut Generator, rig: &mut Rig) -> Result<(), VaryError> {
        let place = field(&self.field).ok_or_else(|| VaryError::UnknownField(self.field.clone()))?;
        let steps = self.steps().ok_or_else(|| VaryError::NotASpan(self.clone()))?;
        let value = self.least + f64::from(generator.below(steps + 1)) * self.step;
        place.set(rig, rounded(value, place.dimension(), self.units)).map_err(|why| match why {
            SetError::Fault(fault) => VaryError::OutOfRange(self.clone(), fault),
            SetError::Absent => VaryError::Absent(self.field.clone()),
        })
    }

    /// How many steps lie between least and most.
    fn steps(&self) -> Option<u32> {
        let steps = libm::floor((self.most - self.least) / self.step + 1e-6);
        (self.step > 0.0 && (0.0..=1e6).contains(&steps)).then_some(steps as u32)
    }
}

/// `value` (SI) to the nearest that is shown.
fn rounded(value: f64, dimension: Dimension, units: Units) -> f64 {
    // A unit, and how many of the least shown parts make one.
    let (unit, parts) = match (dimension, units) {
        (Dimension::Length, Units::Metric) => (1.0, 100.0),
        (Dimension::Length, Units::Us) => (INCH, 1.0),
        (Dimension::Area, Units::Metric) => (1e-4, 1.0),
        (Dimension::Area, Units::Us) => (INCH * INCH, 1.0),
        (Dimension::Angle, _) => (DEG, 10.0),
        (Dimension::Mass, Units::Metric) => (1.0, 1.0),
        (Dimension::Mass, Units::Us) => (LB, 1.0),
        (Dimension::Force, Units::Metric) => (10.0, 1.0),
        (Dimension::Force, Units::Us) => (LBF, 1.0),
        (Dimension::ForcePerLength, Units::Metric) => (1.0, 1.0),
        (Dimension::ForcePerLength, Units::Us) => (LBF / FT, 100.0),
        (Dimension::Ratio, _) => (1.0, 100.0),
        (Dimension::Pressure, Units::Metric) => (1e6, 100.0),
        (Dimension::Pressure, Units::Us) => (LBF / (INCH * INCH), 1.0),
        (Dimension::Count | Dimension::Moment, _) => (1.0, 1.0),
    };
    libm::round(value / unit * parts) / parts * unit
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rigfile::{parse, show};

    #[test]
    fn what_is_drawn_is_what_is_shown() {
        for units in [Units::Metric, Units::Us] {
            let span = |field: &str, least: f64, most: f64, step: f64| Span {
                field: field.into(),
                least,
                most,
                step,
                units,
            };
            for span in [
                span("load.mass", 150.0, 400.0, 7.0),
                span("lean", 10.0 * DEG, 30.0 * DEG, 0.5 * DEG),
                span("feet.spread", 1.0, 2.0, 0.05),
            ] {
                for seed in 0..50 {
                    let mut rig = Rig::new(4.65, 1.5, 0.3, 250.0);
                    span.draw(&mut Generator::new(seed, ""), &mut rig).unwrap();
                    let place = field(&span.field).unwrap();
                    let value = place.get(&rig).unwrap();
                    let shown = show(value, place.dimension(), units).to_string();
                    let read = parse(&shown, place.dimension()).unwrap();
                    assert!((read - value).abs() < 1e-9, "{shown} is {value}");
                    assert!(value > span.least - span.step && value < span.most + span.step);
                }
            }
        }
    }

    #[test]
    fn spans_that_are_none_are_refused() {
        let span = Span { field: "lean".into(), least: 0.1, most: 0.4, step: 0.1, units: Units::Metric };
        let refused = |span: Span| {
            span.draw(&mut Generator::new(1, ""), &mut Rig::new(4.0, 1.2, 0.3, 250.0)).unwrap_err()
        };
        for (least, most, step) in [
            (0.4, 0.1, 0.1),
            (0.1, 0.4, 0.0),
            (0.1, 0.4, -1.0),
            (f64::NAN, 0.4, 0.1),
            (0.1, f64::INFINITY, 0.1),
        ] {
            let none = Span { least, most, step, ..span.clone() };
            assert!(matches!(refused(none), VaryError::NotASpan(_)));
        }
        assert!(matches!(refused(Span { field: "tilt".into(), ..span.clone() }), VaryError::UnknownField(_)));
        assert!(matches!(
            refused(Span { field: "aft.setback".into(), ..span.clone() }),
            VaryError::Absent(_)
        ));
        assert!(matches!(refused(Span { least: 3.0, most: 3.0, ..span }), VaryError::OutOfRange(..)));
    }
}
