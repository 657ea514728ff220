//! Every row of the table, read and set.

use super::*;
use outlean_rig::SecondLine;

fn rig() -> Rig {
    let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
    rig.line.path = Path::TackleAtHead { parts: 3, to: Point::new(-7.0, 0.5, 0.25) };
    let line = Line::along(Path::TackleAtHead { parts: 2, to: Point::new(-9.0, -0.5, 0.0) });
    rig.second = Some(SecondLine { line, share: 0.5, peak_factor: None });
    rig.edge = Some(Edge::at(0.75));
    rig.guys.push(Guy::to(Point::new(4.0, 0.0, 0.0)));
    rig.guys.push(Guy::to(Point::new(-6.0, 1.0, 0.5)));
    rig
}

#[test]
fn every_field_holds_what_it_is_set_to_and_refuses_what_is_not_allowed() {
    for spec in fields() {
        let key = spec.key.replace('N', "1");
        let field = field(&key).unwrap_or_else(|| panic!("{key}"));
        let Allowed { least, most } = field.allowed();
        let mut rig = rig();
        let wanted = if field.dimension() == Dimension::Count { 7.0 } else { least + 0.31 * (most - least) };
        field.set(&mut rig, wanted).unwrap_or_else(|e| panic!("{key} {e:?}"));
        let got = field.get(&rig).unwrap_or_else(|| panic!("{key}"));
        assert!((got - wanted).abs() < 1e-9 * wanted.abs().max(1.0), "{key}: {got}, not {wanted}");
        let before = rig.clone();
        for wrong in [most * 1.01 + 1.0, least - 1.0, f64::NAN, f64::INFINITY] {
            let refused = field.set(&mut rig, wrong);
            assert!(matches!(refused, Err(SetError::Fault(_))), "{key} took {wrong}");
        }
        assert_eq!(rig, before, "{key}");
    }
}

#[test]
fn keys_are_unique_and_name_what_the_core_names() {
    let mut keys: Vec<_> = fields().map(|spec| spec.key).collect();
    keys.sort_unstable();
    keys.dedup();
    assert_eq!(keys.len(), fields().count());
    assert_eq!(key_of(Field::LegLength(Side::Right)).as_deref(), Some("legs.right.length"));
    assert_eq!(key_of(Field::GuyAnchor(2)).as_deref(), Some("guy.2.setback"));
    assert_eq!(key_of(Field::WorkingLength(Side::Left)), None);
}

#[test]
fn guys_are_found_by_number_and_by_station() {
    let mut rig = rig();
    let get = |rig: &Rig, key| field(key).and_then(|field| field.get(rig));
    assert_eq!(get(&rig, "aft.setback"), Some(6.0));
    assert_eq!(get(&rig, "fore.ahead"), Some(4.0));
    assert_eq!(get(&rig, "guy.1.offset"), Some(1.0));
    assert_eq!(get(&rig, "guy.4.offset"), None);
    assert!(field("guy.6.offset").is_none() && field("guy.x.offset").is_none());
    let absent = field("guy.4.rise").unwrap().set(&mut rig, 1.0);
    assert_eq!(absent, Err(SetError::Absent));
    rig.line.path = Path::Hung;
    assert_eq!(field("line.to.back").unwrap().set(&mut rig, 1.0), Err(SetError::Absent));
}

#[test]
fn setback_is_square_to_the_foot_line_wherever_that_is() {
    let mut rig = rig();
    // Facing +y, a metre off: ahead is +y, left is −x.
    rig.feet.at.left = Point::new(0.4, 1.0, 0.0);
    rig.feet.at.right = Point::new(1.6, 1.0, 0.0);
    field("guy.0.setback").unwrap().set(&mut rig, 5.0).unwrap();
    field("guy.0.offset").unwrap().set(&mut rig, 2.0).unwrap();
    let [x, y, _] = rig.guys[0].anchor.coordinates();
    assert!((x + 1.0).abs() < 1e-12 && (y + 4.0).abs() < 1e-12, "{x} {y}");
    field("feet.spread").unwrap().set(&mut rig, 2.0).unwrap();
    assert!((rig.feet.at.right.x() - 2.0).abs() < 1e-12);
}
