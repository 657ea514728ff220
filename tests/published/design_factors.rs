//! Factors between breaking strength and load: DOE-STD-1090-96, 11.3.1.3, slings, 5 (read); rescue practice, 10 for
//! the system, customary since the 1980s and contested (read, International Technical Rescue Symposium, 2014); Cordage
//! Institute, CI 1401, 2015, working load as breaking strength over the factor, 5 to 6 where no life hangs on it, life lines
//! 12 to 15 (second hand). They are offered, none is taken unasked.

use super::near;
use outlean_rig::strength::{Cordage, Knot, OFFERED_FACTORS, Seen, Source};

#[test]
fn factors_are_offered_with_their_source() {
    for (factor, source, seen) in [
        (5.0, Source::DoeStd1090, Seen::Read),
        (10.0, Source::TenToOne, Seen::Read),
        (12.0, Source::CordageInstitute, Seen::SecondHand),
        (15.0, Source::CordageInstitute, Seen::SecondHand),
    ] {
        let offered = OFFERED_FACTORS.iter().find(|(offered, _)| (offered - factor).abs() < 1e-9).unwrap();
        assert_eq!((offered.1.source, offered.1.seen), (source, seen));
        let rope = Cordage { breaking: Some(24_000.0), knot: Some(Knot::CloveHitch), ..Cordage::default() };
        near(rope.capacity(Some(factor)).unwrap().allowable.unwrap(), 18_000.0 / factor, 1e-9);
        assert_eq!(rope.capacity(None).unwrap().allowable, None);
    }
}

/// The least that is offered is what the Cordage Institute asks where no life hangs on it, the greatest what it asks of life
/// lines; ten lies between.
#[test]
fn ten_lies_between_what_is_asked_with_and_without_a_life_on_it() {
    let factors = OFFERED_FACTORS.map(|(factor, _)| factor);
    let least = factors.into_iter().fold(f64::INFINITY, f64::min);
    let most = factors.into_iter().fold(0.0, f64::max);
    assert!((5.0..=6.0).contains(&least));
    near(most, 15.0, 0.0);
    assert!(factors.iter().filter(|factor| (12.0..=15.0).contains(*factor)).count() == 2);
    assert!(factors.into_iter().any(|factor| factor > 6.0 && factor < 12.0));
}
