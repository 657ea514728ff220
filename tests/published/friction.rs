//! Coefficients of friction: the tables of an engineers' handbook (read; static); US Navy, NAVFAC DM 7.02, 1986, table
//! 1, tan δ of mass concrete on ground (read). There is no row of wood on soil in either.

use super::mass_of;
use outlean_rig::{Limit, Rig, Side, limits_at};

/// Whether an upright frame on 4 m legs, its feet `spread` apart and held by nothing but friction, stands.
fn stands(spread: f64, friction: f64) -> bool {
    let mut rig = Rig::new(4.0, spread, 0.0, mass_of(2000.0));
    rig.feet.pinned = false;
    rig.feet.friction = Some(friction);
    let all = limits_at(&rig, 0.0).unwrap();
    let holds = |side| all.iter().find(|here| here.limit == Limit::FootSlides(side)).unwrap().holds();
    assert_eq!(holds(Side::Left), holds(Side::Right));
    holds(Side::Left)
}

/// A leg as steep as the angle of friction is just held.
#[track_caller]
fn held_up_to(friction: f64) {
    let steep = |share: f64| 8.0 * libm::sin(libm::atan(friction) * share);
    assert!(stands(steep(0.999), friction), "{friction}");
    assert!(!stands(steep(1.001), friction), "{friction}");
}

/// Wood on wood 0.25 to 0.5 dry and 0.2 wet; on metal 0.2 to 0.6 dry and 0.2 wet; on concrete 0.62.
#[test]
fn wood_on_what_it_stands_on() {
    for friction in [0.2, 0.25, 0.5, 0.6, 0.62] {
        held_up_to(friction);
    }
    // Feet a third of the legs' length apart stand on wet wood; as far apart as the legs are long, on concrete alone.
    assert!(stands(4.0 / 3.0, 0.2));
    assert!(stands(4.0, 0.62) && !stands(4.0, 0.5));
}

/// Sound rock; clean gravel; clean sand; fine sand; silt; stiff clay; soft clay; masonry on wood.
#[test]
fn concrete_on_ground() {
    for (least, most) in [
        (0.70, 0.70),
        (0.55, 0.60),
        (0.45, 0.55),
        (0.35, 0.45),
        (0.30, 0.35),
        (0.40, 0.50),
        (0.30, 0.35),
        (0.50, 0.50),
    ] {
        held_up_to(least);
        held_up_to(most);
    }
}
