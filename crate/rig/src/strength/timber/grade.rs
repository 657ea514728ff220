//! Species, grades and classes, with their tabulated values.

use super::super::{Citation, Source};

/// Pascals in a pound-force per square inch.
const PSI: f64 = 6_894.757_293_168_361;

/// By which code a grade is assessed.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Code {
    /// NDS: reference design values.
    Nds,
    /// EN 1995: characteristic strengths.
    En1995,
}

/// A species and grade, or a strength class.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Grade {
    /// Not graded: the lowest class of EN 338, taken for what is not known.
    Ungraded,
    /// Douglas fir-larch no 1, 2 to 4 in thick.
    DouglasFirLarch1,
    /// Douglas fir-larch no 2, 2 to 4 in thick.
    DouglasFirLarch2,
    /// Spruce-pine-fir no 1 or 2, 2 to 4 in thick.
    SprucePineFir,
    /// Hem-fir no 2, 2 to 4 in thick.
    HemFir2,
    /// Southern pine no 2, 2 to 4 in thick and wide.
    SouthernPine2,
    /// Douglas fir-larch no 1, posts and timbers of 5 in and more.
    DouglasFirLarchPosts1,
    /// Douglas fir-larch no 2, posts and timbers of 5 in and more.
    DouglasFirLarchPosts2,
    /// EN 338 class C14.
    C14,
    /// EN 338 class C16.
    C16,
    /// EN 338 class C24.
    C24,
    /// EN 338 class C27.
    C27,
    /// EN 338 class C30.
    C30,
    /// EN 338 class C35.
    C35,
    /// Values stated with the rig as reference design values of the NDS.
    StatedNds,
    /// Values stated with the rig as characteristic strengths of EN 1995.
    StatedEn,
}

/// The values of a grade.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GradeValues {
    /// Compression along the grain, Pa.
    pub compression: f64,
    /// Bending, Pa.
    pub bending: f64,
    /// Modulus for stability (NDS `E_min`, EN `E_0.05`), Pa.
    pub stiffness: f64,
    /// Where they come from.
    pub source: Citation,
}

impl Grade {
    /// All of them.
    pub const ALL: [Self; 16] = [
        Self::Ungraded,
        Self::DouglasFirLarch1,
        Self::DouglasFirLarch2,
        Self::SprucePineFir,
        Self::HemFir2,
        Self::SouthernPine2,
        Self::DouglasFirLarchPosts1,
        Self::DouglasFirLarchPosts2,
        Self::C14,
        Self::C16,
        Self::C24,
        Self::C27,
        Self::C30,
        Self::C35,
        Self::StatedNds,
        Self::StatedEn,
    ];

    /// By which code it is assessed.
    #[must_use]
    pub const fn code(self) -> Code {
        match self {
            Self::Ungraded
            | Self::C14
            | Self::C16
            | Self::C24
            | Self::C27
            | Self::C30
            | Self::C35
            | Self::StatedEn => Code::En1995,
            _ => Code::Nds,
        }
    }

    /// Whether a value is taken for one that is not known.
    #[must_use]
    pub const fn assumed(self) -> bool {
        matches!(self, Self::Ungraded | Self::StatedNds | Self::StatedEn)
    }

    /// Whether the size factor for dimension lumber of table 4A applies to it.
    #[must_use]
    pub const fn sized(self) -> bool {
        matches!(self, Self::DouglasFirLarch1 | Self::DouglasFirLarch2 | Self::SprucePineFir | Self::HemFir2)
    }

    /// Its tabulated values; `None` for one whose values are stated.
    #[must_use]
    pub fn values(self) -> Option<GradeValues> {
        let table_4a = Citation::second_hand(Source::NdsTable4A);
        // The bending values of posts are from memory.
        let table_4d = Citation::memory(Source::NdsTable4D);
        let en_338 = Citation::second_hand(Source::En338);
        let (compression, bending, stiffness, source): (u16, u16, u16, Citation) = match self {
            // psi, psi, 1000 psi.
            Self::DouglasFirLarch1 => (1_500, 1_000, 620, table_4a),
            Self::DouglasFirLarch2 => (1_350, 900, 580, table_4a),
            Self::SprucePineFir => (1_150, 875, 510, table_4a),
            Self::HemFir2 => (1_300, 850, 470, table_4a),
            Self::SouthernPine2 => (1_450, 1_100, 510, Citation::second_hand(Source::NdsTable4B)),
            Self::DouglasFirLarchPosts1 => (1_000, 1_200, 580, table_4d),
            Self::DouglasFirLarchPosts2 => (700, 750, 470, table_4d),
            // MPa, MPa, MPa.
            Self::Ungraded | Self::C14 => (16, 14, 4_700, Citation::memory(Source::En338)),
            Self::C16 => (17, 16, 5_400, en_338),
            Self::C24 => (21, 24, 7_400, en_338),
            Self::C27 => (22, 27, 7_700, en_338),
            Self::C30 => (23, 30, 8_000, en_338),
            Self::C35 => (25, 35, 8_700, en_338),
            Self::StatedNds | Self::StatedEn => return None,
        };
        let (unit, of_stiffness) = match self.code() {
            Code::Nds => (PSI, 1_000.0 * PSI),
            Code::En1995 => (1e6, 1e6),
        };
        Some(GradeValues {
            compression: f64::from(compression) * unit,
            bending: f64::from(bending) * unit,
            stiffness: f64::from(stiffness) * of_stiffness,
            source,
        })
    }
}
