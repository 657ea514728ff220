//! The names of values in a worked check.

use crate::Dimension;

/// What a value in a worked check is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Symbol {
    /// Compression of the leg.
    Compression,
    /// Bending moment of the leg's own weight midway up it.
    OwnWeightMoment,
    /// Effective length for buckling.
    EffectiveLength,
    /// Diameter of a round pole a third up from its tip.
    Diameter,
    /// Side for buckling: of a round pole that of the square of the same area.
    Side,
    /// Area of the section.
    Area,
    /// Effective length over side.
    Slenderness,
    /// How far from its axis the head loads the pole.
    Eccentricity,
    /// Gap between the pole and a string along it.
    Crook,
    /// Reference design value in compression.
    Fc,
    /// Reference design value in bending.
    Fb,
    /// Reference modulus for stability.
    EMin,
    /// Load duration factor.
    CD,
    /// Wet service factor on compression.
    CMc,
    /// Wet service factor on bending.
    CMb,
    /// Wet service factor on the modulus.
    CMe,
    /// Size factor on compression.
    CFc,
    /// Size factor on bending.
    CFb,
    /// Compression value adjusted but for stability.
    FcStar,
    /// Critical buckling value.
    FcE,
    /// Constant of the kind of member in C_P.
    C,
    /// Column stability factor.
    CP,
    /// Adjusted compression value.
    FcPrime,
    /// Adjusted bending value.
    FbPrime,
    /// Compression stress.
    StressC,
    /// Bending stress of the leg's own weight and of its crook.
    StressWeight,
    /// Bending stress of the load off the axis.
    StressEccentric,
    /// Sum of the combined stresses; at most 1.
    Interaction,
    /// Characteristic compression strength.
    Fc0k,
    /// Characteristic bending strength.
    Fmk,
    /// Characteristic modulus.
    E05,
    /// Factor for moisture and load duration.
    Kmod,
    /// Partial factor on the material.
    GammaM,
    /// Partial factor on the load.
    GammaQ,
    /// Partial factor on the leg's own weight.
    GammaG,
    /// Effective length over radius of gyration.
    Lambda,
    /// Relative slenderness.
    LambdaRel,
    /// Buckling factor.
    Kc,
    /// Design compression strength.
    Fc0d,
    /// Design bending strength.
    Fmd,
    /// Design compression stress.
    SigmaC,
    /// Design bending stress.
    SigmaM,
    /// Sum of the combined stresses; at most 1.
    Unity,
    /// Tension.
    Tension,
    /// Least breaking strength.
    Breaking,
    /// Share of it that the knot leaves.
    KnotEfficiency,
    /// Factor asked for.
    Factor,
    /// Parts, pickets or pins that carry together.
    Parts,
    /// Angle of a part from the level.
    SlingAngle,
    /// Tension in a part over its share.
    LegFactor,
    /// Pull on the holdfast, all ropes tied there together.
    Pull,
    /// Upward part of the pull.
    Lift,
    /// Angle of the pull above the level.
    PullAngle,
    /// Published or stated holding, of one or of the system.
    Holding,
    /// What wet ground leaves of it.
    WetFactor,
    /// Least published holding of such a system, in any ground.
    BracketLeast,
    /// Greatest published holding of such a system, in any ground.
    BracketMost,
    /// Vertical force on the ground.
    Bearing,
    /// Area of the foot.
    BearingArea,
    /// Pressure that the ground may take.
    BearingAllowable,
    /// Distance of the feet from the edge.
    EdgeDistance,
    /// Compression of the left leg.
    LegLeft,
    /// Compression of the right leg.
    LegRight,
    /// Level force of a foot on the ground square to the foot line, forward positive.
    Kick,
    /// Level force of a foot on the ground along the foot line, away from its fellow positive.
    Outward,
    /// Friction coefficient that a foot needs.
    FrictionNeeded,
    /// Friction coefficient between foot and ground.
    Friction,
    /// Load on the lines.
    WholeLoad,
    /// Axial stiffness of the rope of a guy.
    RopeStiffness,
    /// Length of a guy.
    RopeLength,
    /// Arm of a guy about the foot line.
    RopeArm,
    /// Share of its ropes' stiffness with which a frame would just not run away from its lean under load.
    LeastShare,
    /// Load at which a frame runs away.
    RunAwayLoad,
    /// Lean at which it does.
    RunAwayLean,
    /// That load over the load.
    Multiple,
    /// What is asked for of that.
    MarginWanted,
    /// Lean before loading.
    SetLean,
    /// Lean under load.
    LoadedLean,
    /// The difference of both.
    LeanChange,
    /// The greatest that is allowed of it.
    LeanAllowed,
}

impl Symbol {
    /// As its source writes it.
    #[must_use]
    pub const fn written(self) -> &'static str {
        match self {
            Self::Compression => "P",
            Self::OwnWeightMoment => "M",
            Self::EffectiveLength => "l_e",
            Self::Diameter => "D",
            Self::Side => "d",
            Self::Area => "A",
            Self::Slenderness => "l_e/d",
            Self::Eccentricity => "e",
            Self::Crook => "w",
            Self::Fc => "F_c",
            Self::Fb => "F_b",
            Self::EMin => "E_min",
            Self::CD => "C_D",
            Self::CMc => "C_M (F_c)",
            Self::CMb => "C_M (F_b)",
            Self::CMe => "C_M (E_min)",
            Self::CFc => "C_F (F_c)",
            Self::CFb => "C_F (F_b)",
            Self::FcStar => "F_c*",
            Self::FcE => "F_cE",
            Self::C => "c",
            Self::CP => "C_P",
            Self::FcPrime => "F_c'",
            Self::FbPrime => "F_b'",
            Self::StressC => "f_c",
            Self::StressWeight => "f_b1",
            Self::StressEccentric => "f_c 6e/d",
            Self::Interaction => "(15.4-1)",
            Self::Fc0k => "f_c,0,k",
            Self::Fmk => "f_m,k",
            Self::E05 => "E_0.05",
            Self::Kmod => "k_mod",
            Self::GammaM => "γ_M",
            Self::GammaQ => "γ_Q",
            Self::GammaG => "γ_G",
            Self::Lambda => "λ",
            Self::LambdaRel => "λ_rel",
            Self::Kc => "k_c",
            Self::Fc0d => "f_c,0,d",
            Self::Fmd => "f_m,d",
            Self::SigmaC => "σ_c,0,d",
            Self::SigmaM => "σ_m,d",
            Self::Unity => "(6.23)",
            Self::Tension => "T",
            Self::Breaking => "MBS",
            Self::KnotEfficiency => "η",
            Self::Factor => "SF",
            Self::Parts => "n",
            Self::SlingAngle => "h",
            Self::LegFactor => "1/sin h",
            Self::Pull => "F",
            Self::Lift => "F_z",
            Self::PullAngle => "β",
            Self::Holding => "H",
            Self::WetFactor => "k_wet",
            Self::BracketLeast => "H_min",
            Self::BracketMost => "H_max",
            Self::Bearing => "N",
            Self::BearingArea => "A_f",
            Self::BearingAllowable => "q",
            Self::EdgeDistance => "a",
            Self::LegLeft => "P_L",
            Self::LegRight => "P_R",
            Self::Kick => "H_x",
            Self::Outward => "H_y",
            Self::FrictionNeeded => "√(H_x²+H_y²)/N",
            Self::Friction => "μ",
            Self::WholeLoad => "W",
            Self::RopeStiffness => "EA",
            Self::RopeLength => "L",
            Self::RopeArm => "r",
            Self::LeastShare => "EA_crit/EA",
            Self::RunAwayLoad => "W_max",
            Self::RunAwayLean => "λ_max",
            Self::Multiple => "W_max/W",
            Self::MarginWanted => "m",
            Self::SetLean => "λ_0",
            Self::LoadedLean => "λ_1",
            Self::LeanChange => "|λ_1 − λ_0|",
            Self::LeanAllowed => "Δλ",
        }
    }

    /// Its dimension.
    #[must_use]
    pub const fn dimension(self) -> Dimension {
        match self {
            Self::Compression
            | Self::Tension
            | Self::Breaking
            | Self::Pull
            | Self::Lift
            | Self::Holding
            | Self::BracketLeast
            | Self::BracketMost
            | Self::Bearing
            | Self::LegLeft
            | Self::LegRight
            | Self::Kick
            | Self::Outward
            | Self::WholeLoad
            | Self::RopeStiffness
            | Self::RunAwayLoad => Dimension::Force,
            Self::OwnWeightMoment => Dimension::Moment,
            Self::EffectiveLength
            | Self::Diameter
            | Self::Side
            | Self::Eccentricity
            | Self::Crook
            | Self::EdgeDistance
            | Self::RopeLength
            | Self::RopeArm => Dimension::Length,
            Self::Area | Self::BearingArea => Dimension::Area,
            Self::Fc
            | Self::Fb
            | Self::EMin
            | Self::FcStar
            | Self::FcE
            | Self::FcPrime
            | Self::FbPrime
            | Self::StressC
            | Self::StressWeight
            | Self::StressEccentric
            | Self::Fc0k
            | Self::Fmk
            | Self::E05
            | Self::Fc0d
            | Self::Fmd
            | Self::SigmaC
            | Self::SigmaM
            | Self::BearingAllowable => Dimension::Pressure,
            Self::Parts => Dimension::Count,
            Self::SlingAngle
            | Self::PullAngle
            | Self::RunAwayLean
            | Self::SetLean
            | Self::LoadedLean
            | Self::LeanChange
            | Self::LeanAllowed => Dimension::Angle,
            _ => Dimension::Ratio,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// One of each dimension, as its unit is read: what is put down must not be shown in another.
    #[test]
    fn dimensions() {
        for (symbol, dimension) in [
            (Symbol::Breaking, Dimension::Force),
            (Symbol::OwnWeightMoment, Dimension::Moment),
            (Symbol::Crook, Dimension::Length),
            (Symbol::BearingArea, Dimension::Area),
            (Symbol::FcPrime, Dimension::Pressure),
            (Symbol::Parts, Dimension::Count),
            (Symbol::PullAngle, Dimension::Angle),
            (Symbol::CP, Dimension::Ratio),
        ] {
            assert_eq!(symbol.dimension(), dimension, "{}", symbol.written());
        }
    }

    /// As the codes write them, not as they are called here.
    #[test]
    fn letters() {
        for (symbol, written) in [
            (Symbol::FcPrime, "F_c'"),
            (Symbol::CP, "C_P"),
            (Symbol::Slenderness, "l_e/d"),
            (Symbol::EMin, "E_min"),
        ] {
            assert_eq!(symbol.written(), written);
        }
    }
}
