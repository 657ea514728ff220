//! What the rig is made of, beside its geometry.

use super::timber::Timber;
use super::{Citation, Cordage, Hardware, Holdfast, Lashing, Sling, Source};
use crate::{Fault, Field, LineName};

/// What the rig is made of: what its strengths are worked out from. What is not said is not assessed.
#[derive(Clone, Copy, Debug, PartialEq, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(default))]
pub struct Gear {
    /// What both legs are of.
    pub timber: Timber,
    /// The rope of the main line.
    pub line: Cordage,
    /// The rope of the second line.
    pub second: Cordage,
    /// The sling at the head; that of the second line is taken to be like it.
    pub sling: Sling,
    /// The pulley at the head: it takes the resultant of the line. Those of the second line are taken to be like this, the
    /// connector and the redirect.
    pub pulley: Hardware,
    /// The connector between the head pulley and its sling: it takes the same.
    pub connector: Hardware,
    /// The pulley of a redirect: it takes the resultant there.
    pub redirect: Hardware,
    /// What the haul line ends at.
    pub haul: Holdfast,
    /// What that may carry, N, as the person who builds it says.
    pub haul_allowable: Option<f64>,
    /// What the second line's haul line ends at.
    pub second_haul: Holdfast,
    /// What that may carry, N, as the person who builds it says.
    pub second_haul_allowable: Option<f64>,
    /// How the head is lashed.
    pub lashing: Lashing,
    /// The factor that is asked for between breaking strength and load, of cordage and hardware.
    pub factor: Option<f64>,
}

/// Factors between breaking strength and load that are asked for in one place or another, and where.
pub const OFFERED_FACTORS: [(f64, Citation); 4] = [
    // Slings.
    (5.0, Citation::read(Source::DoeStd1090)),
    // Customary in rescue since the 1980s, and contested.
    (10.0, Citation::read(Source::TenToOne)),
    // Life lines, 12 to 15.
    (12.0, Citation::second_hand(Source::CordageInstitute)),
    (15.0, Citation::second_hand(Source::CordageInstitute)),
];

impl Gear {
    pub(crate) fn check(&self) -> Result<(), Fault> {
        self.lashing.check()?;
        let Self { timber, sling, .. } = self;
        let main = (LineName::Main, &self.line, &self.haul, self.haul_allowable);
        let second = (LineName::Second, &self.second, &self.second_haul, self.second_haul_allowable);
        for (of, rope, haul, allowable) in [main, second] {
            Field::LineBreaking(of).check_if(rope.breaking)?;
            Field::LineKnotEfficiency(of).check_if(rope.knot_efficiency)?;
            Field::HaulPickets(of).check_if(haul.pickets)?;
            Field::HaulPicketSpacing(of).check_if(haul.spacing)?;
            Field::HaulHoldfastStrength(of).check_if(haul.strength)?;
            Field::HaulHoldfastAllowable(of).check_if(allowable)?;
        }
        for (field, value) in [
            (Field::TimberCompression, timber.compression),
            (Field::TimberBending, timber.bending),
            (Field::TimberStiffness, timber.stiffness),
            (Field::SlingBreaking, sling.cordage.breaking),
            (Field::SlingKnotEfficiency, sling.cordage.knot_efficiency),
            (Field::SlingParts, sling.parts),
            (Field::SlingAngle, sling.angle),
            (Field::PulleyBreaking, self.pulley.breaking),
            (Field::ConnectorBreaking, self.connector.breaking),
            (Field::RedirectBreaking, self.redirect.breaking),
            (Field::StrengthFactor, self.factor),
        ] {
            field.check_if(value)?;
        }
        Ok(())
    }
}
