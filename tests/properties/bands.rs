//! Bands along a lever: the bounds of many draws, found without keeping them all.

use outlean_rig::{
    BAND_DRAWS, BAND_PLACES, BAND_SEED, Band, Bands, Guy, Lever, Point, Quantity, Rig, Scatter, Side,
    scattered, solve,
};

const LEG: Quantity = Quantity::LegCompression(Side::Left);
const GUY: Quantity = Quantity::GuyTension(0);

fn leaning() -> Rig {
    let mut rig = Rig::new(4.2, 1.3, 25f64.to_radians(), 220.0);
    rig.guys.push(Guy::to(Point::new(-5.5, 0.4, 0.0)));
    rig
}

fn drawn(rig: &Rig, lever: Lever, shown: (f64, f64), lines: Vec<Quantity>) -> Bands {
    let mut bands = Bands::new(rig, Scatter::USUAL, lever, shown, lines).unwrap();
    while bands.draw(7) {}
    bands
}

#[test]
fn bounds_are_those_of_all_draws_in_order() {
    let rig = leaning();
    for lever in [Lever::Lean, Lever::Setback(0), Lever::Spread] {
        let is = lever.get(&rig).unwrap();
        let bands = drawn(&rig, lever, (0.8 * is, 1.2 * is), vec![GUY, LEG]);
        assert_eq!(bands.lines(), [GUY, LEG]);
        for (i, line) in [GUY, LEG].into_iter().enumerate() {
            // The middle place is the rig as it is.
            let mut values: Vec<f64> = (0..BAND_DRAWS)
                .filter_map(|number| {
                    line.of(&solve(&scattered(&rig, &Scatter::USUAL, BAND_SEED, number)).ok()?)
                })
                .collect();
            let band = Band::of(&mut values).unwrap();
            let (low, high) = bands.bounds(i, BAND_PLACES / 2).unwrap();
            assert!((low - band.low).abs() < 1e-6 * band.low, "{lever:?} {line:?}: {low} {band:?}");
            assert!((high - band.high).abs() < 1e-6 * band.high, "{lever:?} {line:?}: {high} {band:?}");
            assert!(low < band.middle && band.middle < high);
        }
    }
}

#[test]
fn nothing_off_is_no_band_and_nothing_is_said_before_all_are_drawn() {
    let rig = leaning();
    let shown = (rig.lean, rig.lean + 0.1);
    let mut bands = Bands::new(&rig, Scatter::default(), Lever::Lean, shown, vec![GUY, LEG]).unwrap();
    assert!(bands.draw(BAND_DRAWS - 1));
    assert_eq!(bands.bounds(0, 0), None);
    assert!(bands.draw(9));
    assert!(!bands.draw(1));
    let (low, high) = bands.bounds(0, 0).unwrap();
    let is = GUY.of(&solve(&rig).unwrap()).unwrap();
    assert!((low - is).abs() < 1e-9 * is && (high - is).abs() < 1e-9 * is, "{low} {is} {high}");
    assert_eq!((bands.bounds(2, 0), bands.bounds(0, BAND_PLACES)), (None, None));
}

#[test]
fn where_most_draws_tip_there_is_no_band() {
    let mut rig = leaning();
    rig.guys[0].rigged = false;
    let bands = drawn(&rig, Lever::Lean, (0.3, 0.6), vec![LEG]);
    assert_eq!(bands.bounds(0, 20), None);
}

/// Near upright, held from behind only: half of the draws fall back, more or fewer as it leans.
#[test]
fn a_band_is_there_where_more_than_half_stand() {
    let rig = Rig { lean: 0.0, ..leaning() };
    let shown = (-0.05, 0.05);
    let bands = drawn(&rig, Lever::Lean, shown, vec![LEG]);
    let (mut few, mut many) = (0, 0);
    for place in 0..BAND_PLACES {
        let stand = (0..BAND_DRAWS).filter(|number| {
            let mut drawn = scattered(&rig, &Scatter::USUAL, BAND_SEED, *number);
            drawn.lean += bands.at(place);
            solve(&drawn).is_ok_and(|solution| solution.forces().is_some())
        });
        let stand = stand.count() as u32;
        assert_eq!(bands.bounds(0, place).is_some(), stand > BAND_DRAWS / 2, "{place}: {stand}");
        few += u32::from((1..=BAND_DRAWS / 2).contains(&stand));
        many += u32::from(stand > BAND_DRAWS / 2);
    }
    assert!(few > 5 && many > 5, "{few} {many}");
}

#[test]
fn a_scatter_out_of_range_is_refused() {
    let scatter = Scatter { length: -1.0, ..Scatter::USUAL };
    assert!(Bands::new(&leaning(), scatter, Lever::Spread, (1.0, 2.0), Vec::new()).is_err());
}
