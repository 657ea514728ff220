//! Where a number or a rule comes from. Titles stand in the string files, under `source.` and the name here.

/// A publication, by the table or chapter that is used of it; or that there is none.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Source {
    /// Said with the rig.
    Stated,
    /// Taught widely, with no single published source.
    CommonPractice,
    /// A choice of this program's makers.
    OurChoice,
    /// National Design Specification for Wood Construction.
    Nds,
    /// Its supplement: dimension lumber.
    NdsTable4A,
    /// Its supplement: southern pine.
    NdsTable4B,
    /// Its supplement: posts and timbers.
    NdsTable4D,
    /// Eurocode 5, design of timber structures.
    En1995,
    /// Strength classes of structural timber.
    En338,
    /// Low-stretch kernmantle ropes.
    En1891,
    /// Life safety rope and equipment.
    Nfpa1983,
    /// A table of manila rope in an engineering handbook.
    ManilaTable,
    /// A table of three-strand nylon rope.
    NylonTable,
    /// Tubular webbing as its makers rate it.
    Webbing,
    /// Knot strengths after tests of a cordage maker.
    KnotTable,
    /// Losses in rescue knots.
    RescueKnots,
    /// Use of wire and fibre rope slings.
    SlingAngles,
    /// Design factors of cordage.
    CordageInstitute,
    /// Hoisting and rigging standard.
    DoeStd1090,
    /// Rescue practice: ten to one on a system's weakest part.
    TenToOne,
    /// Rigging course of the navy: pickets and shears.
    Navedtra14251,
    /// Rigging and seamanship course of the navy.
    Navedtra14043,
    /// Rigging: gin poles, shears, pickets.
    Fm5125,
    /// Military mountaineering.
    Fm39761,
    /// Disaster rescue manual.
    DisasterRescue,
    /// Design loads of steel pins in soil.
    UsaceFog,
    /// Military engineering, 1905.
    WarOffice,
}

impl Source {
    /// The year of the edition; `None` where it is not known or there is none.
    #[must_use]
    pub const fn year(self) -> Option<u16> {
        Some(match self {
            Self::Nds | Self::NdsTable4A | Self::NdsTable4B | Self::NdsTable4D => 2018,
            Self::En1995 => 2004,
            Self::KnotTable => 1946,
            Self::DoeStd1090 => 1996,
            Self::Fm5125 => 1995,
            Self::UsaceFog => 2006,
            Self::WarOffice => 1905,
            _ => return None,
        })
    }

    /// The clause, table or page.
    #[must_use]
    pub const fn place(self) -> &'static str {
        match self {
            Self::Nds => "3.7.1, 3.9-3, 15.4-1",
            Self::NdsTable4A => "Table 4A",
            Self::NdsTable4B => "Table 4B",
            Self::NdsTable4D => "Table 4D",
            Self::En1995 => "6.3.2, Table 3.1",
            Self::En338 => "Table 1",
            Self::Navedtra14251 => "pp. 172-173, 182",
            Self::Navedtra14043 => "shears",
            Self::Fm5125 => "Table 4-1; ch. 5",
            Self::Fm39761 => "ch. 7",
            Self::DisasterRescue => "8.3, 10.8",
            Self::UsaceFog => "Approximate design load of pickets",
            Self::WarOffice => "paras 281-282",
            Self::DoeStd1090 => "11.3.1.3",
            Self::SlingAngles => "29 CFR 1910.184, ASME B30.9",
            Self::KnotTable => "Jacobson, Knots for the Outdoors, p. 24",
            _ => "",
        }
    }
}

/// How a published number came here.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
pub enum Seen {
    /// Read in the source.
    Read,
    /// Read in a transcription or quotation of it.
    SecondHand,
    /// From memory: a person should open the page before relying on it.
    Memory,
    /// There is nothing to read.
    NotPublished,
}

/// A source and how it was seen.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Citation {
    /// The source.
    pub source: Source,
    /// How it was seen.
    pub seen: Seen,
}

impl Citation {
    /// Read in the source itself.
    #[must_use]
    pub const fn read(source: Source) -> Self {
        Self { source, seen: Seen::Read }
    }

    /// Read in a transcription or quotation.
    #[must_use]
    pub const fn second_hand(source: Source) -> Self {
        Self { source, seen: Seen::SecondHand }
    }

    /// From memory.
    #[must_use]
    pub const fn memory(source: Source) -> Self {
        Self { source, seen: Seen::Memory }
    }

    /// Of what is not published: stated with the rig, common practice, a choice of ours.
    #[must_use]
    pub const fn none(source: Source) -> Self {
        Self { source, seen: Seen::NotPublished }
    }
}
