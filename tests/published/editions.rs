//! The editions and places that are cited: those in which the values were read, or from which they are remembered. Where the
//! edition was not seen none is cited.

use outlean_rig::strength::Source;

#[test]
fn editions_and_places_as_they_were_read() {
    for (source, year, place) in [
        (Source::Nds, Some(2018), "3.7.1, 3.9-3, 15.4-1"),
        (Source::NdsTable4A, Some(2018), "Table 4A"),
        (Source::NdsTable4B, Some(2018), "Table 4B"),
        (Source::NdsTable4D, Some(2018), "Table 4D"),
        (Source::En1995, Some(2004), "6.3.2, Table 3.1"),
        (Source::En338, None, "Table 1"),
        (Source::KnotTable, Some(1946), "Jacobson, Knots for the Outdoors, p. 24"),
        (Source::DoeStd1090, Some(1996), "11.3.1.3"),
        (Source::SlingAngles, None, "29 CFR 1910.184, ASME B30.9"),
        (Source::Fm5125, Some(1995), "Table 4-1; ch. 5"),
        (Source::Fm39761, None, "ch. 7"),
        (Source::UsaceFog, Some(2006), "Approximate design load of pickets"),
        (Source::WarOffice, Some(1905), "paras 281-282"),
        (Source::Navedtra14251, None, "pp. 172-173, 182"),
        (Source::Navedtra14043, None, "shears"),
        (Source::DisasterRescue, None, "8.3, 10.8"),
        (Source::CommonPractice, None, ""),
        (Source::Stated, None, ""),
    ] {
        assert_eq!((source.year(), source.place()), (year, place), "{source:?}");
    }
}
