//! What hangs on a rescue frame: a training note, litter and attendant 400 to 600 lb (second hand). *From memory*: a rescue load of
//! 200 kg in British Columbia.

use super::{LBF, mass_of, near};
use outlean_rig::Load;

#[test]
fn litter_and_attendant() {
    let pounds = |mass: f64| Load::hanging(mass).weight() / LBF;
    near(pounds(181.4), 400.0, 0.1);
    near(pounds(272.2), 600.0, 0.1);
    near(mass_of(600.0 * LBF), 272.2, 0.05);
    // 200 kg are at the light end of the note.
    near(pounds(200.0), 440.9, 0.05);
}
