//! How manuals lash the head of shears. War Office 1905, FM 3-97.61 with the US Marine Corps' mountain course, an article after
//! the Admiralty's manual, Thurman's *Pioneering* (second hand); NAVEDTRA 14043 and the navy's construction electrician
//! course, Moss, *Manual of Military Training*, 1137, Ashley, *Book of Knots*, 2102, FM 5-125, chapter 5, and NAVEDTRA, gin poles,
//! Boy Scouts of America, square lashing (read); FM 5-125, shears, *from memory*.

use super::near;
use outlean_rig::strength::{Gap, LASHINGS_ASKED, Lashing, Seen, Source};

#[test]
fn what_manuals_ask() {
    let wedge = Some(Gap::Wide(2.0 * 0.0254));
    for (source, seen, turns, frapping, gap) in [
        (Source::WarOffice, Seen::SecondHand, (6, 6), Some((2, 2)), wedge),
        (Source::Fm39761, Seen::SecondHand, (6, 8), Some((4, 6)), None),
        (Source::Navedtra14043, Seen::Read, (8, 9), None, Some(Gap::OfThickness(1.0 / 3.0))),
        // From memory.
        (Source::Fm5125, Seen::Memory, (14, 14), Some((2, 2)), None),
    ] {
        let asked = LASHINGS_ASKED.iter().find(|asked| asked.source.source == source).unwrap();
        assert_eq!(
            (asked.source.seen, asked.turns, asked.frapping, asked.gap),
            (seen, turns, frapping, gap),
            "{source:?}"
        );
    }
    // Others lie within that: Moss 8 to 9 and two, Ashley 8 to 9, Thurman 8, the article 14.
    let least = LASHINGS_ASKED.iter().map(|asked| asked.turns.0).min().unwrap();
    let most = LASHINGS_ASKED.iter().map(|asked| asked.turns.1).max().unwrap();
    assert!([8, 9, 14].iter().all(|turns| (least..=most).contains(turns)));
    // So do the eight turns that hold a tackle to a gin pole. A square lashing, of three and two, is none for a head.
    assert!((least..=most).contains(&8) && least > 3);
}

/// What is taken where nothing is said is what is commonly done, and at the lower end of what manuals ask.
#[test]
fn as_it_is_laid_where_nothing_is_said() {
    let unsaid = Lashing { rope: Some(0.01), ..Lashing::default() };
    let girth = 0.1 * core::f64::consts::PI;
    let total = |lashing: Lashing| lashing.rope_on(girth).unwrap().total();
    let least = LASHINGS_ASKED.iter().map(|asked| asked.turns.0).min().unwrap();
    let frapped =
        LASHINGS_ASKED.iter().filter_map(|asked| asked.frapping).map(|frapping| frapping.0).min().unwrap();
    let said = Lashing { turns: Some(f64::from(least)), frapping: Some(f64::from(frapped)), ..unsaid };
    near(total(unsaid), total(said), 0.0);
    // A third of a pole apart, as the navy has it: four thirds of one from middle to middle.
    let third = Lashing { spacer: Some(0.1 / 3.0), ..unsaid };
    let wrapping = third.rope_on(girth).unwrap().wrapping;
    near(wrapping, 6.0 * (core::f64::consts::PI * 0.11 + 2.0 * 0.4 / 3.0), 1e-12);
}
