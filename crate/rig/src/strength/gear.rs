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
        let Self { timber, sling, .. } = self;
        self.lashing.check()?;
        check_line(LineName::Main, &self.line, &self.haul, self.haul_allowable)?;
        check_line(LineName::Second, &self.second, &self.second_haul, self.second_haul_allowable)?;
        Field::TimberCompression.check_if(timber.compression)?;
        Field::TimberBending.check_if(timber.bending)?;
        Field::TimberStiffness.check_if(timber.stiffness)?;
        Field::SlingBreaking.check_if(sling.cordage.breaking)?;
        Field::SlingKnotEfficiency.check_if(sling.cordage.knot_efficiency)?;
        Field::SlingParts.check_if(sling.parts)?;
        Field::SlingAngle.check_if(sling.angle)?;
        Field::PulleyBreaking.check_if(self.pulley.breaking)?;
        Field::ConnectorBreaking.check_if(self.connector.breaking)?;
        Field::RedirectBreaking.check_if(self.redirect.breaking)?;
        Field::StrengthFactor.check_if(self.factor)
    }
}

/// The rope of a line and what its haul line ends at.
fn check_line(of: LineName, rope: &Cordage, haul: &Holdfast, allowable: Option<f64>) -> Result<(), Fault> {
    Field::LineBreaking(of).check_if(rope.breaking)?;
    Field::LineKnotEfficiency(of).check_if(rope.knot_efficiency)?;
    Field::HaulPickets(of).check_if(haul.pickets)?;
    Field::HaulPicketSpacing(of).check_if(haul.spacing)?;
    Field::HaulHoldfastStrength(of).check_if(haul.strength)?;
    Field::HaulHoldfastAllowable(of).check_if(allowable)
}
