//! EN 1891, low-stretch kernmantle ropes (a maker's catalogue and a rope-access manual, read): ropes of type A hold 15 kN
//! and of type B 12 kN for three minutes on figure-eight loops; from 50 to 150 kg they get at most 5 % longer.

use super::near;
use outlean_rig::DataSheet;
use outlean_rig::strength::{Cordage, Knot, RopeClass};

/// What is taken of a figure-eight loop is less than what the standard asks of it, by less than a tenth.
#[test]
fn figure_eight_loops() {
    for (class, held) in [(RopeClass::En1891A, 15_000.0), (RopeClass::En1891B, 12_000.0)] {
        let rope = Cordage { class: Some(class), knot: Some(Knot::FigureEightLoop), ..Cordage::default() };
        let taken = rope.capacity(None).unwrap().strength;
        assert!(taken < held && taken > 0.9 * held, "{class:?}: {taken}");
    }
}

/// *Derived*: 100 kg for 5 % is a stiffness of 19.6 kN at the least.
#[test]
fn stiffness_at_the_least() {
    let sheet = DataSheet { elongation: Some(0.05), at: Some(100.0 * outlean_rig::G), give: None };
    near(sheet.rope().unwrap().stiffness, 19_600.0, 20.0);
}
