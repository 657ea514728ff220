//! The templates that the tests draw from: an invented frame of larch poles, and what can be asked of it.

#![allow(dead_code, reason = "each test file uses its own share")]

pub mod kinds;

use outlean_course::{EstimateTemplate, SlipKind, Vary};
use outlean_rig::{Allowed, Line, Path, Point, Quantity, Side};

/// The compression of the leg that the haul line runs down.
pub fn leg_with_line() -> EstimateTemplate {
    serde_json::from_str(include_str!("larch.json")).expect("the template reads")
}

/// The compression of the other leg.
pub fn other_leg() -> EstimateTemplate {
    EstimateTemplate {
        id: "larch-other-leg".into(),
        ask: Quantity::LegCompression(Side::Right),
        slips: vec![
            SlipKind::JustTheLoad,
            SlipKind::ForgotLean,
            SlipKind::SharedMainLine,
            SlipKind::OtherFoot,
            SlipKind::LeanFromGround,
        ],
        answer: Allowed { least: 1000.0, most: 3500.0 },
        ..leg_with_line()
    }
}

/// The tension of the aft guy.
pub fn guy() -> EstimateTemplate {
    EstimateTemplate {
        id: "larch-guy".into(),
        ask: Quantity::GuyTension(0),
        slips: vec![SlipKind::JustTheLoad, SlipKind::LevelGuy, SlipKind::LeanFromGround],
        answer: Allowed { least: 600.0, most: 3500.0 },
        ..leg_with_line()
    }
}

/// A leg with the load hung and nothing else.
pub fn hung() -> EstimateTemplate {
    let mut template = EstimateTemplate {
        id: "larch-hung".into(),
        slips: vec![SlipKind::WholeLoadOnEachLeg, SlipKind::ForgotGuy, SlipKind::LeanFromGround],
        answer: Allowed { least: 1000.0, most: 3500.0 },
        ..leg_with_line()
    };
    template.rig.line = Line::hung();
    template
}

/// A leg, and a guy, with the line straight back while raising, its pulley on a sling, and poles that weigh
/// something. Above the balance lean, where the aft guy works.
pub fn straight_back(ask: Quantity) -> EstimateTemplate {
    let mut template = EstimateTemplate {
        id: format!("larch-straight-back-{ask:?}"),
        ask,
        slips: vec![SlipKind::ForgotMainLine],
        answer: Allowed { least: 100.0, most: 9000.0 },
        ..leg_with_line()
    };
    template.rig.line = Line {
        pulley_efficiency: 0.9,
        sling: 0.4,
        ..Line::along(Path::StraightBack { to: Point::new(-9.0, 0.0, 0.5) })
    };
    template.rig.case.operation = outlean_rig::Operation::Raising;
    for side in Side::BOTH {
        template.rig.legs.on_mut(side).weight_per_metre = 42.0;
    }
    for vary in &mut template.vary {
        if let Vary::Number(span) = vary
            && span.field == "lean"
        {
            (span.least, span.most) = (44f64.to_radians(), 52f64.to_radians());
        }
    }
    template
}

/// All of them.
pub fn all() -> Vec<EstimateTemplate> {
    vec![
        leg_with_line(),
        other_leg(),
        guy(),
        hung(),
        straight_back(Quantity::LegCompression(Side::Left)),
        straight_back(Quantity::GuyTension(0)),
    ]
}
