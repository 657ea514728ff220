//! US Navy, NAVEDTRA 14251, pp. 172-173: what wooden pickets hold in undisturbed loam. lbf.

use super::{LBF, near};
use outlean_rig::strength::{BRACKET_1_1_1, CheckRule, Holdfast, HoldfastKind, Seen, Soil, Source};

fn in_loam(kind: HoldfastKind) -> Holdfast {
    Holdfast { kind: Some(kind), soil: Some(Soil::Loam), ..Holdfast::default() }
}

#[test]
fn pickets_in_loam() {
    for (kind, pounds) in [
        (HoldfastKind::Picket, 700.0),
        (HoldfastKind::Pickets111, 1800.0),
        (HoldfastKind::Pickets321, 4000.0),
    ] {
        let capacity = in_loam(kind).capacity().unwrap();
        near(capacity.strength / LBF, pounds, 1e-9);
        assert_eq!((capacity.source.source, capacity.source.seen), (Source::Navedtra14251, Seen::Read));
        assert!(capacity.assumed && capacity.failure.is_none(), "what it stands on is not said");
        assert_eq!(capacity.rule, CheckRule::Pickets);
        let stated = Holdfast { strength: Some(5_000.0), ..in_loam(kind) }.capacity().unwrap();
        assert_eq!((stated.strength, stated.rule), (5_000.0, CheckRule::StatedHoldfast));
    }
    // Three to six feet from picket to picket.
    near(HoldfastKind::Pickets111.spacing().unwrap().0 / 0.3048, 3.0, 1e-9);
}

/// Soil of which nothing is published for wooden pickets, and no ground at all.
#[test]
fn nothing_is_guessed_for_other_ground() {
    for ground in [Some(Soil::SandLoose), Some(Soil::ClayGood), None] {
        assert_eq!(Holdfast { soil: ground, ..in_loam(HoldfastKind::Pickets111) }.capacity(), None);
    }
    assert_eq!(in_loam(HoldfastKind::Natural).capacity(), None);
    assert_eq!(Holdfast::default().capacity(), None);
}

/// The 2,000 lbf that is commonly taught lies among the values for firm soil; sand holds a tenth.
#[test]
fn what_brackets_two_thousand_pounds() {
    let least = BRACKET_1_1_1[0].0 / LBF;
    let most = BRACKET_1_1_1[BRACKET_1_1_1.len() - 1].0 / LBF;
    assert!(BRACKET_1_1_1.windows(2).all(|pair| pair[0].0 <= pair[1].0));
    near(least, 150.0, 1e-9);
    near(most, 3000.0, 1e-9);
    // 1,050 kg are 2,315 lb.
    for ((value, _), pounds) in
        BRACKET_1_1_1.iter().zip([150.0, 189.0, 900.0, 1500.0, 1620.0, 1800.0, 2315.0, 3000.0])
    {
        near(value / LBF, pounds, 0.2);
    }
    assert!(BRACKET_1_1_1.iter().any(|(value, _)| value / LBF > 2000.0 && value / LBF < 2400.0));
}
