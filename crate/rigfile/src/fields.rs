//! The field table: every number of a rig that people set, by the name they set it by.
//!
//! Files, attributes, links, forms and the command line all go by it. A key of a guy holds its place in the
//! list, from 0: `guy.0.setback`. `aft.` and `fore.` in its stead mean the first guy behind and ahead:
//! `aft.setback`, `fore.ahead`.

use crate::ground::Ground;
use outlean_rig::{Allowed, Dimension, Fault, Field, Guy, Layout, Path, Point, Rig, Side, Station};

/// One row of the table. See [`FIELDS`].
#[derive(Debug)]
pub struct FieldSpec {
    /// Its name; `guy.N.…` stands for every guy.
    pub key: &'static str,
    core: fn(u8) -> Field,
    get: fn(&Rig, u8) -> Option<f64>,
    set: fn(&mut Rig, u8, f64) -> Option<()>,
}

/// Why a field was not set.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SetError {
    /// The value is out of range.
    Fault(Fault),
    /// The rig has no such thing now: no guy of that number, no haul point on that path.
    Absent,
}

/// A field of a rig, found by its key with [`field`].
#[derive(Clone, Copy, Debug)]
pub struct FieldRef {
    /// Its row.
    pub spec: &'static FieldSpec,
    /// Whose it is.
    pub whose: Whose,
}

/// Which guy a key means.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Whose {
    /// The rig as a whole: no guy's.
    Rig,
    /// The guy of that number, from 0.
    Guy(u8),
    /// The first guy of that station.
    First(Station),
}

impl Whose {
    /// The number of the guy meant, 0 for the rig as a whole; `None` if there is no such guy.
    pub(crate) fn number(self, rig: &Rig) -> Option<u8> {
        let there = |number: u8| (usize::from(number) < rig.guys.len()).then_some(number);
        match self {
            Self::Rig => Some(0),
            Self::Guy(number) => there(number),
            Self::First(station) => first_guy(rig, station),
        }
    }
}

/// The number, from 0, of the first guy that stands at `station`; `None` where none does or the frame has
/// no layout.
#[must_use]
pub fn first_guy(rig: &Rig, station: Station) -> Option<u8> {
    let layout = Layout::of(rig, 0.0).ok()?;
    let mut guys = (0_u8..).zip(&rig.guys);
    guys.find(|(_, guy)| Station::of(guy.anchor, &layout) == station).map(|(number, _)| number)
}

/// The field of that key, if there is one. Whether the rig has that guy is seen when it is read or set.
///
/// ```
/// use outlean_rig::{Guy, Point, Rig};
/// use outlean_rigfile::field;
/// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
/// rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
/// let setback = field("aft.setback").unwrap();
/// setback.set(&mut rig, 5.0).unwrap();
/// assert_eq!(setback.get(&rig), Some(5.0));
/// assert_eq!(rig.guys[0].anchor.x(), -5.0);
/// assert!(field("guy.0.colour").is_none());
/// ```
#[must_use]
pub fn field(key: &str) -> Option<FieldRef> {
    let (whose, name) = split_key(key)?;
    let spec = FIELDS.iter().find(|spec| spec.key == name.as_ref())?;
    Some(FieldRef { spec, whose })
}

/// Whose a key is and the key of its row: `guy.2.rise` is guy 2's `guy.N.rise`.
pub(crate) fn split_key(key: &str) -> Option<(Whose, std::borrow::Cow<'_, str>)> {
    let of_guy = |name: &str| format!("guy.N.{name}").into();
    match key.split_once('.') {
        Some(("guy", rest)) => {
            let (number, name) = rest.split_once('.')?;
            let number: u8 = number.bytes().all(|b| b.is_ascii_digit()).then(|| number.parse().ok())??;
            (usize::from(number) < outlean_rig::MAX_GUYS).then(|| (Whose::Guy(number), of_guy(name)))
        }
        Some(("aft", name)) => Some((Whose::First(Station::Aft), of_guy(name))),
        Some(("fore", name)) => Some((Whose::First(Station::Fore), of_guy(name))),
        _ => Some((Whose::Rig, key.into())),
    }
}

impl FieldSpec {
    /// What kind of quantity it holds.
    #[must_use]
    pub fn dimension(&self) -> Dimension {
        (self.core)(0).dimension()
    }

    /// The range it may take on its own, in its SI unit.
    #[must_use]
    pub fn allowed(&self) -> Allowed {
        (self.core)(0).allowed()
    }

    /// The name under which the words for it are found.
    #[must_use]
    pub fn meaning(&self) -> String {
        format!("field.{}", self.key)
    }
}

impl FieldRef {
    /// What kind of quantity it holds.
    #[must_use]
    pub fn dimension(&self) -> Dimension {
        self.spec.dimension()
    }

    /// The range it may take on its own, in its SI unit.
    #[must_use]
    pub fn allowed(&self) -> Allowed {
        self.spec.allowed()
    }

    /// What the core calls it. Of a guy that is not there, as of guy 0.
    #[must_use]
    pub fn core(&self, rig: &Rig) -> Field {
        (self.spec.core)(self.whose.number(rig).unwrap_or(0))
    }

    /// Its value, in its SI unit; `None` where it is not known or the rig has no such thing, and for a field
    /// of both legs that differ.
    #[must_use]
    pub fn get(&self, rig: &Rig) -> Option<f64> {
        (self.spec.get)(rig, self.whose.number(rig)?)
    }

    /// Sets it, in its SI unit. Only its own range is checked; a count is rounded.
    ///
    /// # Errors
    ///
    /// Out of range, or nothing there to set; the rig is then as it was.
    pub fn set(&self, rig: &mut Rig, value: f64) -> Result<(), SetError> {
        let number = self.whose.number(rig).ok_or(SetError::Absent)?;
        let core = (self.spec.core)(number);
        let allowed = core.allowed();
        if !(value >= allowed.least && value <= allowed.most) {
            return Err(SetError::Fault(Fault { field: core, value, allowed }));
        }
        (self.spec.set)(rig, number, value).ok_or(SetError::Absent)
    }
}

/// The key under which people set what the core calls `field`; `None` for what follows from other fields.
///
/// ```
/// use outlean_rig::Field;
/// assert_eq!(outlean_rigfile::key_of(Field::Pretension(1)).as_deref(), Some("guy.1.pretension"));
/// ```
#[must_use]
pub fn key_of(field: Field) -> Option<String> {
    let numbers = (0_u8..).take(outlean_rig::MAX_GUYS);
    // A field of one leg is named as that leg's, not as both legs'.
    let rows = || FIELDS.iter().rev();
    for number in numbers {
        if let Some(spec) = rows().find(|spec| (spec.core)(number) == field) {
            return Some(spec.key.replace('N', &number.to_string()));
        }
    }
    None
}

/// A pace counted backward.
const BACK: f64 = -1.0;
/// A pace counted as it is: ahead, left, up.
const AS_PACED: f64 = 1.0;

macro_rules! plain {
    ($key:literal, $core:expr, $($place:tt)+) => {
        FieldSpec {
            key: $key,
            core: |_| $core,
            get: |rig, _| Some(rig.$($place)+),
            set: |rig, _, value| { rig.$($place)+ = value; Some(()) },
        }
    };
}

macro_rules! optional {
    ($key:literal, $core:expr, $($place:tt)+) => {
        FieldSpec {
            key: $key,
            core: |_| $core,
            get: |rig, _| rig.$($place)+,
            set: |rig, _, value| { rig.$($place)+ = Some(value); Some(()) },
        }
    };
}

macro_rules! both_legs {
    ($key:literal, $core:ident, $place:ident) => {
        FieldSpec {
            key: $key,
            core: |_| Field::$core(Side::Left),
            get: |rig, _| {
                let legs = &rig.legs;
                (legs.left.$place.to_bits() == legs.right.$place.to_bits()).then_some(legs.left.$place)
            },
            set: |rig, _, value| {
                (rig.legs.left.$place, rig.legs.right.$place) = (value, value);
                Some(())
            },
        }
    };
}

macro_rules! foot {
    ($key:literal, $side:ident, $place:ident, $pace:literal) => {
        FieldSpec {
            key: $key,
            core: |_| Field::FootPosition(Side::$side),
            get: |rig, _| rig.feet.at.$place.coordinates().get($pace).copied(),
            set: |rig, _, value| {
                let mut at = rig.feet.at.$place.coordinates();
                *at.get_mut($pace)? = value;
                let [x, y, z] = at;
                rig.feet.at.$place = Point::new(x, y, z);
                Some(())
            },
        }
    };
}

macro_rules! haul_point {
    ($key:literal, $pace:literal, $sign:ident) => {
        FieldSpec {
            key: $key,
            core: |_| Field::HaulPoint,
            get: |rig, _| paced(rig, rig.line.path.haul_point()?, $pace).map(|pace| $sign * pace),
            set: |rig, _, value| {
                let moved = Ground::of(&rig.feet).moved(rig.line.path.haul_point()?, $pace, $sign * value);
                haul_point_mut(&mut rig.line.path).map(|to| *to = moved)
            },
        }
    };
}

macro_rules! anchor {
    ($key:literal, $pace:literal, $sign:ident) => {
        FieldSpec {
            key: $key,
            core: Field::GuyAnchor,
            get: |rig, number| paced(rig, guy(rig, number)?.anchor, $pace).map(|pace| $sign * pace),
            set: |rig, number, value| {
                let ground = Ground::of(&rig.feet);
                let guy = guy_mut(rig, number)?;
                guy.anchor = ground.moved(guy.anchor, $pace, $sign * value);
                Some(())
            },
        }
    };
}

/// Every number of a rig that people set. What stands for both legs comes before what stands for one.
pub const FIELDS: &[FieldSpec] = &[
    plain!("lean", Field::Lean, lean),
    both_legs!("legs.length", LegLength, length),
    both_legs!("legs.lashing_below_tip", LashingBelowTip, lashing_below_tip),
    both_legs!("legs.weight", LegWeight, weight_per_metre),
    plain!("legs.left.length", Field::LegLength(Side::Left), legs.left.length),
    plain!("legs.left.lashing_below_tip", Field::LashingBelowTip(Side::Left), legs.left.lashing_below_tip),
    plain!("legs.left.weight", Field::LegWeight(Side::Left), legs.left.weight_per_metre),
    plain!("legs.right.length", Field::LegLength(Side::Right), legs.right.length),
    plain!("legs.right.lashing_below_tip", Field::LashingBelowTip(Side::Right), legs.right.lashing_below_tip),
    plain!("legs.right.weight", Field::LegWeight(Side::Right), legs.right.weight_per_metre),
    FieldSpec {
        key: "feet.spread",
        core: |_| Field::Spread,
        get: |rig, _| Some((rig.feet.at.left - rig.feet.at.right).length()),
        set: |rig, _, value| {
            rig.feet.at = Ground::feet_apart(&rig.feet, value);
            Some(())
        },
    },
    foot!("feet.at.left.ahead", Left, left, 0),
    foot!("feet.at.left.left", Left, left, 1),
    foot!("feet.at.left.up", Left, left, 2),
    foot!("feet.at.right.ahead", Right, right, 0),
    foot!("feet.at.right.left", Right, right, 1),
    foot!("feet.at.right.up", Right, right, 2),
    plain!("feet.connection_height", Field::ConnectionHeight, feet.connection_height),
    optional!("feet.friction", Field::Friction, feet.friction),
    optional!("feet.bearing_area", Field::BearingArea, feet.bearing_area),
    plain!("load.mass", Field::Mass, load.mass),
    plain!("load.dynamic_factor", Field::DynamicFactor, load.dynamic_factor),
    plain!("load.side_angle", Field::SideAngle, load.side_angle),
    plain!("load.outward_angle", Field::OutwardAngle, load.outward_angle),
    haul_point!("line.to.ahead", 0, AS_PACED),
    haul_point!("line.to.back", 0, BACK),
    haul_point!("line.to.left", 1, AS_PACED),
    haul_point!("line.to.up", 2, AS_PACED),
    FieldSpec {
        key: "line.parts",
        core: |_| Field::TackleParts,
        get: |rig, _| match rig.line.path {
            Path::TackleAtHead { parts, .. } => Some(f64::from(parts)),
            _ => None,
        },
        set: |rig, _, value| match &mut rig.line.path {
            Path::TackleAtHead { parts, .. } => {
                *parts = libm::round(value) as u8;
                Some(())
            }
            _ => None,
        },
    },
    plain!("line.pulley_efficiency", Field::PulleyEfficiency, line.pulley_efficiency),
    plain!("line.redirect_efficiency", Field::RedirectEfficiency, line.redirect_efficiency),
    plain!("line.sling", Field::Sling, line.sling),
    anchor!("guy.N.ahead", 0, AS_PACED),
    anchor!("guy.N.offset", 1, AS_PACED),
    anchor!("guy.N.rise", 2, AS_PACED),
    anchor!("guy.N.setback", 0, BACK),
    FieldSpec {
        key: "guy.N.pretension",
        core: Field::Pretension,
        get: |rig, number| Some(guy(rig, number)?.pretension),
        set: |rig, number, value| guy_mut(rig, number).map(|guy| guy.pretension = value),
    },
    FieldSpec {
        key: "guy.N.rope_allowable",
        core: Field::RopeAllowable,
        get: |rig, number| guy(rig, number)?.rope_allowable,
        set: |rig, number, value| guy_mut(rig, number).map(|guy| guy.rope_allowable = Some(value)),
    },
    FieldSpec {
        key: "guy.N.holdfast_allowable",
        core: Field::HoldfastAllowable,
        get: |rig, number| guy(rig, number)?.holdfast_allowable,
        set: |rig, number, value| guy_mut(rig, number).map(|guy| guy.holdfast_allowable = Some(value)),
    },
    optional!("limits.upright_stop", Field::UprightStop, limits.upright_stop),
];

fn guy(rig: &Rig, number: u8) -> Option<&Guy> {
    rig.guys.get(usize::from(number))
}

fn guy_mut(rig: &mut Rig, number: u8) -> Option<&mut Guy> {
    rig.guys.get_mut(usize::from(number))
}

fn paced(rig: &Rig, point: Point, which: usize) -> Option<f64> {
    Ground::of(&rig.feet).paced(point).get(which).copied()
}

pub(crate) fn haul_point_mut(path: &mut Path) -> Option<&mut Point> {
    match path {
        Path::Hung | Path::NotOverHead => None,
        Path::StraightBack { to }
        | Path::RedirectedAtFoot { to, .. }
        | Path::RedirectedMidBase { to }
        | Path::OverTheFront { to }
        | Path::TackleAtHead { to, .. } => Some(to),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rig() -> Rig {
        let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
        rig.line.path = Path::TackleAtHead { parts: 3, to: Point::new(-7.0, 0.5, 0.25) };
        rig.guys.push(Guy::to(Point::new(4.0, 0.0, 0.0)));
        rig.guys.push(Guy::to(Point::new(-6.0, 1.0, 0.5)));
        rig
    }

    #[test]
    fn every_field_holds_what_it_is_set_to_and_refuses_what_is_not_allowed() {
        for spec in FIELDS {
            let key = spec.key.replace('N', "1");
            let field = field(&key).unwrap_or_else(|| panic!("{key}"));
            let Allowed { least, most } = field.allowed();
            let mut rig = rig();
            let wanted =
                if field.dimension() == Dimension::Count { 7.0 } else { least + 0.31 * (most - least) };
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
        let mut keys: Vec<_> = FIELDS.iter().map(|spec| spec.key).collect();
        keys.sort_unstable();
        keys.dedup();
        assert_eq!(keys.len(), FIELDS.len());
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
}
