//! A rig as a flat list of keys and values of the field and choice tables: how a rig reaches a page.

use crate::choices::{choice, choices};
use crate::fields::{SetError, field, fields};
use outlean_rig::{Guy, MAX_GUYS, Point, Rig};

/// What stands at a key.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Value<'a> {
    /// Of a field: a number in its SI unit.
    Number(f64),
    /// Of a choice: its word.
    Word(&'a str),
}

/// Why a list is no rig. Holds the key.
#[derive(Clone, Debug, PartialEq)]
pub enum FlatError<'a> {
    /// Neither a field nor a choice has that key, or what stands there is of the other kind.
    Key(&'a str),
    /// A field's value is out of range, or the rig has no such thing.
    Field(&'a str, SetError),
    /// A choice has no such word.
    Word(&'a str),
}

/// Fields that only say again, of both legs or the other way round, what others say.
const AGAIN: [&str; 4] = ["feet.spread", "line.to.ahead", "second.to.ahead", "guy.N.ahead"];

/// Every field and choice of a rig that has a value, in the order in which [`rig_of`] must set them.
#[must_use]
pub fn entries_of(rig: &Rig) -> Vec<(String, Value<'static>)> {
    let mut all = Vec::new();
    for key in keys(rig.guys.len()) {
        let word = choice(&key).and_then(|choice| choice.get(rig)).map(Value::Word);
        let number = || field(&key).and_then(|field| field.get(rig)).map(Value::Number);
        if let Some(value) = word.or_else(number) {
            all.push((key, value));
        }
    }
    all
}

/// The rig that `entries` say, in any order. What they leave out is as in a frame of weightless legs with nothing
/// stated; guys are as many as the highest number named.
///
/// # Errors
///
/// The first key that cannot be set.
pub fn rig_of<'a>(entries: &[(&'a str, Value<'a>)]) -> Result<Rig, FlatError<'a>> {
    let number = |key: &str| key.strip_prefix("guy.")?.split('.').next()?.parse::<usize>().ok();
    let guys =
        entries.iter().filter_map(|(key, _)| number(key)).max().map_or(0, |most| most.saturating_add(1));
    let mut rig = Rig::new(4.0, 1.0, 0.0, 0.0);
    for _ in 0..guys.min(MAX_GUYS) {
        rig.guys.push(Guy::to(Point::ORIGIN));
    }
    if let Some((key, _)) = entries.iter().find(|(key, _)| field(key).is_none() && choice(key).is_none()) {
        return Err(FlatError::Key(key));
    }
    for wanted in keys(rig.guys.len()) {
        let Some((key, value)) = entries.iter().find(|(key, _)| *key == wanted) else { continue };
        match (value, field(key), choice(key)) {
            (Value::Number(value), Some(field), _) => {
                field.set(&mut rig, *value).map_err(|why| FlatError::Field(key, why))?;
            }
            (Value::Word(word), _, Some(choice)) => {
                choice.set(&mut rig, word).map_err(|_| FlatError::Word(key))?;
            }
            _ => return Err(FlatError::Key(key)),
        }
    }
    Ok(rig)
}

/// The keys of a rig with so many guys, each after those it depends on: the ground is paced from the feet, and a
/// haul point needs a path.
fn keys(guys: usize) -> impl Iterator<Item = String> {
    let of_one = |name: &str| name.starts_with("left.") || name.starts_with("right.");
    let said_once = move |key: &&str| !AGAIN.contains(key) && key.strip_prefix("legs.").is_none_or(of_one);
    let feet = fields().map(|spec| spec.key).filter(|key| key.starts_with("feet.at."));
    let chosen = choices().map(|spec| spec.key);
    let others = fields().map(|spec| spec.key).filter(|key| !key.starts_with("feet.at.")).filter(said_once);
    feet.chain(chosen).chain(others).flat_map(move |key| {
        let numbers = if key.starts_with("guy.N") { guys } else { 1 };
        (0..numbers).map(move |number| key.replace('N', &number.to_string()))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::strength::timber::{Grade, Moisture};
    use outlean_rig::strength::{HardwareClass, Holdfast, HoldfastKind, Knot, Soil};
    use outlean_rig::{
        Case, Connection, Edge, Feet, Line, Operation, Pair, Path, Scenario, SecondLine, Side, Stage, Swing,
    };

    fn rig() -> Rig {
        let mut rig = Rig::new(4.4, 1.3, 0.33, 210.0);
        rig.legs.right.weight_per_metre = 41.0;
        rig.legs.left.lashing_below_tip = 0.4;
        rig.feet = Feet {
            at: Pair::new(Point::new(0.1, 0.7, 0.0), Point::new(-0.1, -0.6, 0.05)),
            connection: Connection::Ledger,
            friction: Some(0.4),
            pinned: false,
            ..Feet::apart(1.3)
        };
        rig.line = Line {
            pulley_efficiency: 0.8,
            sling: 0.3,
            ..Line::along(Path::RedirectedAtFoot { foot: Side::Right, to: Point::new(-3.0, 2.0, 0.4) })
        };
        rig.case = Case { operation: Operation::Raising, stage: Stage::AtEdge, scenario: Scenario::MainLost };
        rig.load.at_edge = Some(Swing { side: -0.1, outward: 0.2 });
        rig.second = Some(SecondLine {
            line: Line {
                pulley_efficiency: 0.7,
                ..Line::along(Path::StraightBack { to: Point::new(-9.0, 1.0, 0.0) })
            },
            share: 0.25,
            peak_factor: Some(2.5),
        });
        rig.edge =
            Some(Edge { level: -0.25, litter_drop: 1.5, headroom_wanted: Some(0.5), ..Edge::at(0.75) });
        rig.guys.push(Guy { holdfast_allowable: Some(3000.0), ..Guy::to(Point::new(-6.0, 1.0, -0.5)) });
        rig.guys.push(Guy { rigged: false, pretension: 120.0, ..Guy::to(Point::new(4.0, -1.0, 0.0)) });
        rig.limits.upright_stop = Some(0.17);
        rig.legs.left.pole.butt_diameter = Some(0.13);
        rig.legs.right.pole.crook = Some(0.02);
        rig.gear.timber.grade = Some(Grade::C24);
        rig.gear.timber.moisture = Moisture::Dry;
        rig.gear.line.knot = Some(Knot::Bowline);
        rig.gear.sling.angle = Some(1.2);
        rig.gear.pulley.class = Some(HardwareClass::PulleyGeneral);
        rig.gear.factor = Some(12.0);
        if let Some(guy) = rig.guys.first_mut() {
            guy.cordage.breaking = Some(22_000.0);
            guy.holdfast = Holdfast {
                kind: Some(HoldfastKind::Pins3Inch),
                soil: Some(Soil::ClayGood),
                pickets: Some(3.0),
                ..Holdfast::default()
            };
        }
        rig
    }

    fn again(rig: &Rig) -> Rig {
        let entries = entries_of(rig);
        let given: Vec<(&str, Value<'_>)> =
            entries.iter().map(|(key, value)| (key.as_str(), *value)).collect();
        rig_of(&given).unwrap()
    }

    #[test]
    fn a_rig_comes_back_as_it_was() {
        let square = Rig { feet: Feet { connection_height: 0.2, ..Feet::apart(1.3) }, ..rig() };
        assert_eq!(again(&square), square);
        // Paces on feet that are not square round once, and then no more.
        let once = again(&rig());
        let near = |a: Point, b: Point| (a - b).length() < 1e-12;
        assert!(once.guys.iter().zip(&rig().guys).all(|(a, b)| near(a.anchor, b.anchor)));
        assert_eq!(Rig { guys: rig().guys, line: rig().line, second: rig().second, ..once.clone() }, rig());
        for path in [
            Path::Hung,
            Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) },
            Path::RedirectedMidBase { to: Point::new(-8.0, 0.5, 0.0) },
            Path::OverTheFront { to: Point::new(5.0, 0.0, -2.0) },
            Path::TackleAtHead { parts: 4, to: Point::new(-8.0, 0.0, 0.0) },
            Path::NotOverHead,
        ] {
            let rig = Rig { line: Line::along(path), feet: Feet::apart(1.2), ..rig() };
            assert_eq!(again(&rig), rig, "{path:?}");
        }
    }

    #[test]
    fn what_is_no_rig_names_its_key() {
        let lean = ("lean", Value::Number(0.3));
        assert_eq!(rig_of(&[lean, ("tilt", Value::Number(0.3))]), Err(FlatError::Key("tilt")));
        assert_eq!(rig_of(&[("lean", Value::Word("much"))]), Err(FlatError::Key("lean")));
        assert_eq!(rig_of(&[("line.path", Value::Word("up"))]), Err(FlatError::Word("line.path")));
        assert!(matches!(rig_of(&[("lean", Value::Number(9.0))]), Err(FlatError::Field("lean", _))));
        assert!(matches!(rig_of(&[("guy.77.rise", Value::Number(0.0))]), Err(FlatError::Key("guy.77.rise"))));
    }
}
