//! Rope: how a guy stretches.

use crate::{Fault, Field};

/// What the data sheet of a guy's rope and the one who sets it say of how it stretches. What is `None` is not known.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct DataSheet {
    /// The share by which it gets longer …
    pub elongation: Option<f64>,
    /// … under this tension, N.
    pub at: Option<f64>,
    /// Length by which knots setting and the anchor giving loosen it after it was set, m; not said is none.
    pub give: Option<f64>,
}

impl DataSheet {
    /// The rope that it describes; `None` where elongation or tension is not known.
    #[must_use]
    pub fn rope(&self) -> Option<Rope> {
        let rope = Rope::of_elongation(self.elongation?, self.at?);
        Some(Rope { give: self.give.unwrap_or(0.0), ..rope })
    }

    pub(crate) fn check(&self, number: u8) -> Result<(), Fault> {
        Field::Elongation(number).check_if(self.elongation)?;
        Field::ElongationAt(number).check_if(self.at)?;
        Field::RopeGive(number).check_if(self.give)
    }
}

/// How the rope of a guy stretches. It is taken as linear, which is an assumption: a rope that stiffens as it is
/// loaded gives way less.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Rope {
    /// Axial stiffness EA, N: tension for a strain of 1.
    pub stiffness: f64,
    /// Length by which knots setting and the anchor giving loosen it after it was set, m.
    pub give: f64,
}

impl Rope {
    /// A rope that gets longer by the share `elongation` under `tension` (N), as its data sheet says, with no
    /// give. An elongation of nothing is a rope that does not stretch: infinite stiffness, which is refused.
    ///
    /// ```
    /// // 3 % at 1.335 kN.
    /// assert!((outlean_rig::Rope::of_elongation(0.03, 1335.0).stiffness - 44_500.0).abs() < 1e-6);
    /// ```
    #[must_use]
    pub fn of_elongation(elongation: f64, tension: f64) -> Self {
        Self { stiffness: tension / elongation, give: 0.0 }
    }

    pub(super) fn check(&self, number: u8) -> Result<(), Fault> {
        Field::RopeStiffness(number).check(self.stiffness)?;
        Field::RopeGive(number).check(self.give)?;
        Ok(())
    }
}
