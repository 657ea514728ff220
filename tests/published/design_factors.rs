//! Factors between breaking strength and load: DOE-STD-1090-96, 11.3.1.3, slings, 5 (read); rescue practice, 10 for
//! the system, customary since the 1980s and contested (read, International Technical Rescue Symposium, 2014); Cordage
//! Institute, life lines, 12 to 15 (second hand). They are offered, none is taken unasked.

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
