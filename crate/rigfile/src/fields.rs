//! The field table: every number of a rig that people set, by the name they set it by.
//!
//! Files, attributes, links, forms and the command line all go by it. A key of a guy holds its place in the
//! list, from 0: `guy.0.setback`. `aft.` and `fore.` in its stead mean the first guy behind and ahead:
//! `aft.setback`, `fore.ahead`.

use crate::place::{Core, GEAR, Place, known, of_guy};
use outlean_rig::{
    Allowed, Dimension, Edge, Fault, Field, Ground, Guy, Layout, Line, LineName, Path, Point, Rig, Side,
    Stage, Station, Swing,
};

/// One row of the table. See [`fields`].
#[derive(Debug)]
pub struct FieldSpec {
    /// Its name; `guy.N.…` stands for every guy.
    pub key: &'static str,
    pub(crate) core: Core,
    pub(crate) place: Place,
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
    let spec = fields().find(|spec| spec.key == name.as_ref())?;
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
        self.core.of(0).dimension()
    }

    /// The range it may take on its own, in its SI unit.
    #[must_use]
    pub fn allowed(&self) -> Allowed {
        self.core.of(0).allowed()
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
        self.spec.core.of(self.whose.number(rig).unwrap_or(0))
    }

    /// Its value, in its SI unit; `None` where it is not known or the rig has no such thing, and for a field
    /// of both legs that differ.
    #[must_use]
    pub fn get(&self, rig: &Rig) -> Option<f64> {
        self.spec.get(rig, self.whose.number(rig)?)
    }

    /// Sets it, in its SI unit. Only its own range is checked; a count is rounded.
    ///
    /// # Errors
    ///
    /// Out of range, or nothing there to set; the rig is then as it was.
    pub fn set(&self, rig: &mut Rig, value: f64) -> Result<(), SetError> {
        let number = self.whose.number(rig).ok_or(SetError::Absent)?;
        let core = self.spec.core.of(number);
        let allowed = core.allowed();
        if !(value >= allowed.least && value <= allowed.most) {
            return Err(SetError::Fault(Fault { field: core, value, allowed }));
        }
        let value = if core.dimension() == Dimension::Count { libm::round(value) } else { value };
        self.spec.put(rig, number, value).ok_or(SetError::Absent)
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
    let rows = || GEAR.iter().rev().chain(FIELDS.iter().rev());
    for number in numbers {
        if let Some(spec) = rows().find(|spec| spec.core.of(number) == field) {
            return Some(spec.key.replace('N', &number.to_string()));
        }
    }
    None
}

/// Every row of the table: what the rig is set up as, then what it is made of. What stands for both legs comes before
/// what stands for one.
pub fn fields() -> impl DoubleEndedIterator<Item = &'static FieldSpec> + Clone {
    FIELDS.iter().chain(GEAR)
}

/// A pace counted backward.
const BACK: f64 = -1.0;
/// A pace counted as it is: ahead, left, up.
const AS_PACED: f64 = 1.0;

macro_rules! plain {
    ($key:literal, $core:expr, $($place:tt)+) => {
        FieldSpec {
            key: $key,
            core: Core::Is($core),
            place: Place::Own {
                get: |rig, _| Some(rig.$($place)+),
                set: |rig, _, value| { rig.$($place)+ = value; Some(()) },
            },
        }
    };
}

macro_rules! both_legs {
    ($key:literal, $core:ident, $place:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::$core(Side::Left)),
            place: Place::Own {
                get: |rig, _| {
                    let legs = &rig.legs;
                    (legs.left.$place.to_bits() == legs.right.$place.to_bits()).then_some(legs.left.$place)
                },
                set: |rig, _, value| {
                    (rig.legs.left.$place, rig.legs.right.$place) = (value, value);
                    Some(())
                },
            },
        }
    };
}

macro_rules! foot {
    ($key:literal, $side:ident, $place:ident, $pace:literal) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::FootPosition(Side::$side)),
            place: Place::Own {
                get: |rig, _| rig.feet.at.$place.coordinates().get($pace).copied(),
                set: |rig, _, value| {
                    let mut at = rig.feet.at.$place.coordinates();
                    *at.get_mut($pace)? = value;
                    let [x, y, z] = at;
                    rig.feet.at.$place = Point::new(x, y, z);
                    Some(())
                },
            },
        }
    };
}

macro_rules! haul_point {
    ($key:literal, $which:ident, $pace:literal, $sign:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::HaulPoint(LineName::$which)),
            place: Place::Own {
                get: |rig, _| {
                    paced(rig, line(rig, LineName::$which)?.path.haul_point()?, $pace)
                        .map(|pace| $sign * pace)
                },
                set: |rig, _, value| {
                    let ground = Ground::of(&rig.feet);
                    let path = &mut line_mut(rig, LineName::$which)?.path;
                    path.haul_point()?;
                    *path = path.hauled_from(|to| ground.moved(to, $pace, $sign * value));
                    Some(())
                },
            },
        }
    };
}

macro_rules! of_line {
    ($key:literal, $which:ident, $core:ident, $place:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::$core(LineName::$which)),
            place: Place::Own {
                get: |rig, _| Some(line(rig, LineName::$which)?.$place),
                set: |rig, _, value| line_mut(rig, LineName::$which).map(|line| line.$place = value),
            },
        }
    };
}

macro_rules! parts {
    ($key:literal, $which:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::TackleParts(LineName::$which)),
            place: Place::Own {
                get: |rig, _| match line(rig, LineName::$which)?.path {
                    Path::TackleAtHead { parts, .. } => Some(f64::from(parts)),
                    _ => None,
                },
                set: |rig, _, value| match &mut line_mut(rig, LineName::$which)?.path {
                    Path::TackleAtHead { parts, .. } => {
                        *parts = libm::round(value) as u8;
                        Some(())
                    }
                    _ => None,
                },
            },
        }
    };
}

macro_rules! swing {
    ($key:literal, $core:ident, $stage:ident, $place:ident, $pace:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::$core(Stage::$stage)),
            place: Place::Own {
                get: |rig, _| rig.load.$place.map(|swing| swing.$pace),
                set: |rig, _, value| {
                    rig.load.$place.get_or_insert(Swing::NONE).$pace = value;
                    Some(())
                },
            },
        }
    };
}

macro_rules! of_edge {
    ($key:literal, $core:ident, $place:ident, $value:expr, $read:expr) => {
        FieldSpec {
            key: $key,
            core: Core::Is(Field::$core),
            place: Place::Own {
                get: |rig, _| $read(rig.edge.as_ref()?.$place),
                set: |rig, _, value| rig.edge.as_mut().map(|edge| edge.$place = $value(value)),
            },
        }
    };
}

macro_rules! anchor {
    ($key:literal, $pace:literal, $sign:ident) => {
        FieldSpec {
            key: $key,
            core: Core::Of(Field::GuyAnchor),
            place: Place::Own {
                get: |rig, number| paced(rig, guy(rig, number)?.anchor, $pace).map(|pace| $sign * pace),
                set: |rig, number, value| {
                    let ground = Ground::of(&rig.feet);
                    let guy = guy_mut(rig, number)?;
                    guy.anchor = ground.moved(guy.anchor, $pace, $sign * value);
                    Some(())
                },
            },
        }
    };
}

/// Every number of a rig that people set, but for what it is made of.
const FIELDS: &[FieldSpec] = &[
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
        core: Core::Is(Field::Spread),
        place: Place::Own {
            get: |rig, _| Some((rig.feet.at.left - rig.feet.at.right).length()),
            set: |rig, _, value| {
                rig.feet.at = Ground::feet_apart(&rig.feet, value);
                Some(())
            },
        },
    },
    foot!("feet.at.left.ahead", Left, left, 0),
    foot!("feet.at.left.left", Left, left, 1),
    foot!("feet.at.left.up", Left, left, 2),
    foot!("feet.at.right.ahead", Right, right, 0),
    foot!("feet.at.right.left", Right, right, 1),
    foot!("feet.at.right.up", Right, right, 2),
    plain!("feet.connection_height", Field::ConnectionHeight, feet.connection_height),
    known("feet.friction", Field::Friction),
    known("feet.bearing_area", Field::BearingArea),
    plain!("load.mass", Field::Mass, load.mass),
    plain!("load.dynamic_factor", Field::DynamicFactor, load.dynamic_factor),
    plain!("load.side_angle", Field::SideAngle(Stage::HangingClear), load.side_angle),
    plain!("load.outward_angle", Field::OutwardAngle(Stage::HangingClear), load.outward_angle),
    swing!("load.at_edge.side_angle", SideAngle, AtEdge, at_edge, side),
    swing!("load.at_edge.outward_angle", OutwardAngle, AtEdge, at_edge, outward),
    swing!("load.on_tag_lines.side_angle", SideAngle, OnTagLines, on_tag_lines, side),
    swing!("load.on_tag_lines.outward_angle", OutwardAngle, OnTagLines, on_tag_lines, outward),
    haul_point!("line.to.ahead", Main, 0, AS_PACED),
    haul_point!("line.to.back", Main, 0, BACK),
    haul_point!("line.to.left", Main, 1, AS_PACED),
    haul_point!("line.to.up", Main, 2, AS_PACED),
    parts!("line.parts", Main),
    of_line!("line.pulley_efficiency", Main, PulleyEfficiency, pulley_efficiency),
    of_line!("line.redirect_efficiency", Main, RedirectEfficiency, redirect_efficiency),
    of_line!("line.sling", Main, Sling, sling),
    haul_point!("second.to.ahead", Second, 0, AS_PACED),
    haul_point!("second.to.back", Second, 0, BACK),
    haul_point!("second.to.left", Second, 1, AS_PACED),
    haul_point!("second.to.up", Second, 2, AS_PACED),
    parts!("second.parts", Second),
    of_line!("second.pulley_efficiency", Second, PulleyEfficiency, pulley_efficiency),
    of_line!("second.redirect_efficiency", Second, RedirectEfficiency, redirect_efficiency),
    of_line!("second.sling", Second, Sling, sling),
    FieldSpec {
        key: "second.share",
        core: Core::Is(Field::SecondShare),
        place: Place::Own {
            get: |rig, _| Some(rig.second.as_ref()?.share),
            set: |rig, _, value| rig.second.as_mut().map(|second| second.share = value),
        },
    },
    FieldSpec {
        key: "second.peak_factor",
        core: Core::Is(Field::PeakFactor),
        place: Place::Own {
            get: |rig, _| rig.second.as_ref()?.peak_factor,
            set: |rig, _, value| rig.second.as_mut().map(|second| second.peak_factor = Some(value)),
        },
    },
    FieldSpec {
        key: "edge.ahead",
        core: Core::Is(Field::EdgeAhead),
        place: Place::Own {
            get: |rig, _| Some(rig.edge.as_ref()?.ahead),
            set: |rig, _, value| {
                rig.edge.get_or_insert(Edge::at(value)).ahead = value;
                Some(())
            },
        },
    },
    of_edge!("edge.level", EdgeLevel, level, core::convert::identity, Some),
    of_edge!("edge.litter_drop", LitterDrop, litter_drop, core::convert::identity, Some),
    of_edge!("edge.clear_reach", ClearReachWanted, clear_reach_wanted, Some, core::convert::identity),
    of_edge!("edge.headroom", HeadroomWanted, headroom_wanted, Some, core::convert::identity),
    anchor!("guy.N.ahead", 0, AS_PACED),
    anchor!("guy.N.offset", 1, AS_PACED),
    anchor!("guy.N.rise", 2, AS_PACED),
    anchor!("guy.N.setback", 0, BACK),
    FieldSpec {
        key: "guy.N.pretension",
        core: Core::Of(Field::Pretension),
        place: Place::Own {
            get: |rig, number| Some(guy(rig, number)?.pretension),
            set: |rig, number, value| guy_mut(rig, number).map(|guy| guy.pretension = value),
        },
    },
    of_guy("guy.N.rope_allowable", Field::RopeAllowable),
    of_guy("guy.N.holdfast_allowable", Field::HoldfastAllowable),
    known("limits.upright_stop", Field::UprightStop),
];

fn guy(rig: &Rig, number: u8) -> Option<&Guy> {
    rig.guys.get(usize::from(number))
}

fn guy_mut(rig: &mut Rig, number: u8) -> Option<&mut Guy> {
    rig.guys.get_mut(usize::from(number))
}

pub(crate) fn line(rig: &Rig, name: LineName) -> Option<&Line> {
    match name {
        LineName::Main => Some(&rig.line),
        LineName::Second => rig.second.as_ref().map(|second| &second.line),
    }
}

pub(crate) fn line_mut(rig: &mut Rig, name: LineName) -> Option<&mut Line> {
    match name {
        LineName::Main => Some(&mut rig.line),
        LineName::Second => rig.second.as_mut().map(|second| &mut second.line),
    }
}

fn paced(rig: &Rig, point: Point, which: usize) -> Option<f64> {
    Ground::of(&rig.feet).paced(point).get(which).copied()
}

#[cfg(test)]
mod tests;
