//! What would keep a frame on stretching guys far enough off run-away, in words.

use crate::Voice;
use outlean_rig::{Cure, Remedy};

/// A data sheet's pull that ropes are spoken of at, N.
const SHEET: f64 = 1000.0;

/// A remedy and its effect.
#[must_use]
pub fn remedy_said(remedy: &Remedy, voice: &Voice<'_>) -> String {
    let cure = match remedy.cure {
        Cure::Pretension { guy, against, tension } => voice.fill(
            "cure.pretension",
            &[("guy", voice.guy(guy)), ("against", voice.guy(against)), ("tension", &voice.force(tension))],
        ),
        Cure::Ropes(count) => voice.fill("cure.ropes", &[("count", &count.to_string())]),
        Cure::Stiffness(stiffness) => {
            let longer =
                voice.fill("stretch.percent", &[("number", &voice.ratio(100.0 * SHEET / stiffness))]);
            voice.fill("cure.stiffness", &[("longer", &longer), ("at", &voice.force(SHEET))])
        }
        Cure::Lean(lean) => voice.fill("cure.lean", &[("lean", &voice.angle(lean))]),
        Cure::Setback(by) => {
            let key = if by >= 0.0 { "cure.farther" } else { "cure.nearer" };
            voice.fill(key, &[("by", &voice.length(by.abs()))])
        }
        other => format!("{other:?}"),
    };
    let margin = match remedy.margin.is_finite() {
        true => voice.ratio(remedy.margin),
        false => voice.say("stretch.no_such_load"),
    };
    let (lean, tension) = (voice.angle(remedy.lean), voice.force(remedy.tension));
    let places = [("cure", cure.as_str()), ("margin", &margin), ("lean", &lean), ("tension", &tension)];
    voice.fill("stretch.remedy", &places)
}
