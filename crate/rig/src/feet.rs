//! Feet: where the legs meet the ground, what holds them, and what they ask of it.

use crate::angle::hypot;
use crate::{Fault, Field, Force, Layout, LineForces, Pair, Path, Point, Rig, Side, Vector};

/// What runs between the feet.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize), serde(rename_all = "snake_case"))]
pub enum Connection {
    /// Nothing.
    #[default]
    None,
    /// A rope: it only pulls.
    Hobble,
    /// A pole: it pulls and pushes.
    Ledger,
}

/// Where the legs stand and what holds them there.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize, serde::Deserialize))]
pub struct Feet {
    /// Where they stand.
    pub at: Pair<Point>,
    /// What runs between them.
    pub connection: Connection,
    /// Height of the hobble or ledger above the feet, m.
    pub connection_height: f64,
    /// Whether something other than friction keeps them from sliding: a hole, a picket, a pin.
    pub pinned: bool,
    /// Whether something keeps them from lifting.
    pub held_down: bool,
    /// Friction coefficient between foot and ground; `None` is not known.
    pub friction: Option<f64>,
    /// Area of each foot, or its sole plate, on the ground, m²; `None` is not known.
    pub bearing_area: Option<f64>,
    /// Pressure that the ground may take, Pa, as someone says who knows it; `None` is not known.
    pub bearing_allowable: Option<f64>,
}

impl Feet {
    /// Level feet `spread` metres apart about the origin, pinned and held down, nothing between them.
    #[must_use]
    pub const fn apart(spread: f64) -> Self {
        Self {
            at: Pair::new(Point::new(0.0, spread / 2.0, 0.0), Point::new(0.0, -spread / 2.0, 0.0)),
            connection: Connection::None,
            connection_height: 0.0,
            pinned: true,
            held_down: true,
            friction: None,
            bearing_area: None,
            bearing_allowable: None,
        }
    }

    pub(crate) fn check(&self) -> Result<(), Fault> {
        for side in Side::BOTH {
            for coordinate in self.at.on(side).coordinates() {
                Field::FootPosition(side).check(coordinate)?;
            }
        }
        Field::ConnectionHeight.check(self.connection_height)?;
        Field::Friction.check_if(self.friction)?;
        Field::BearingArea.check_if(self.bearing_area)?;
        Field::BearingAllowable.check_if(self.bearing_allowable)
    }
}

/// What one foot asks of the ground.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Foothold {
    /// Force of the ground on the foot, N, with nothing between the feet.
    pub reaction: Force,
    /// How hard the foot wants to move level and square to the foot line, N: forward positive. A frame that
    /// leans forward with nothing redirected at its feet kicks back, so this is negative.
    pub kick: f64,
    /// How hard the foot wants to move away from its fellow, level, N; negative toward it.
    pub outward: f64,
    /// Vertical force on the ground, N, with nothing between the feet; negative where the foot would lift.
    pub bearing: f64,
    /// Bearing over the foot's area, Pa; `None` where the area is not known or the foot would lift.
    pub pressure: Option<f64>,
    /// Whether the foot would lift, with nothing between the feet.
    pub lifts: bool,
    /// Friction coefficient that alone would hold it, with nothing between the feet; `None` where it lifts.
    pub friction_alone: Option<f64>,
    /// Friction coefficient that would hold it with the sideways forces of the feet evened out by something
    /// between them that pulls and pushes; `None` where it lifts.
    pub friction_evened: Option<f64>,
    /// Friction coefficient that it needs with the connection that is there: `friction_alone` where there is
    /// none or a hobble that goes slack.
    pub friction_needed: Option<f64>,
}

/// What both feet ask of the ground and of what runs between them.
#[derive(Clone, Copy, Debug, PartialEq)]
#[cfg_attr(feature = "serde", derive(serde::Serialize))]
pub struct Footing {
    /// The feet.
    pub feet: Pair<Foothold>,
    /// Half the level force with which the feet part, N, at the feet: what evens them out. Negative
    /// where they close in on one another.
    pub spread_thrust: f64,
    /// Force in the hobble or ledger at its own height, N: pull positive, push negative; zero for a hobble
    /// that goes slack or no connection.
    pub connection: f64,
    /// Bending moment in the middle of the ledger from redirect pulleys hung there, N m: a quarter of their pull times
    /// the spread. Zero where none hangs on it.
    pub ledger_moment: f64,
    /// Sideways force of the ground on both feet together, N, to the left positive.
    pub net_sideways: f64,
}

impl Footing {
    /// The footing of a frame whose legs carry `compression` (N).
    ///
    /// On each foot: the leg's push, the rest of the leg's weight, and the pull of the redirect pulleys tied
    /// there, both parts of their ropes. The ground answers their sum.
    // Inlined as in `Posture::at`.
    #[cfg_attr(not(target_family = "wasm"), inline(always))]
    pub(crate) fn of(
        rig: &Rig,
        layout: &Layout,
        compression: Pair<f64>,
        main: &LineForces,
        second: Option<&LineForces>,
    ) -> Self {
        // Redirect pulleys tied to a foot, and those hung on the ledger midway between both.
        let (mut at_foot, mut on_ledger) = (Pair::both(Force::ZERO), Force::ZERO);
        let second_line = rig.second.as_ref().map(|second| second.line.path).zip(second);
        for (path, line) in core::iter::once((rig.line.path, main)).chain(second_line) {
            match (path, line.redirect) {
                (Path::RedirectedAtFoot { foot, .. }, Some(pull)) => *at_foot.on_mut(foot) += pull,
                (Path::RedirectedOnLedger { .. }, Some(pull)) => on_ledger += pull,
                _ => {}
            }
        }
        let reaction = Pair::from_fn(|side| {
            let leg = rig.legs.on(side);
            let pushed = Force::along(-*layout.down_leg.on(side), *compression.on(side));
            let weight = Force::new(0.0, 0.0, leg.weight_at_foot());
            pushed + weight - (*at_foot.on(side) + on_ledger.scaled(0.5))
        });
        let sideways = Pair::from_fn(|side| reaction.on(side).component(Vector::Z.cross(layout.forward)));
        let net_sideways = sideways.left + sideways.right;
        let spread_thrust = (sideways.right - sideways.left) / 2.0;

        // A connection up the legs carries more than the thrust at the feet: the head takes the rest.
        let lever = Self::lever(rig, layout);
        let evens_out = match rig.feet.connection {
            Connection::None => false,
            Connection::Hobble => spread_thrust > 0.0,
            Connection::Ledger => true,
        };
        // Along a foot line that is not level it pulls one foot up and the other down as well.
        let level = hypot(layout.foot_line.x, layout.foot_line.y);
        let connection = if evens_out { spread_thrust * lever / level } else { 0.0 };
        let raised = spread_thrust * layout.foot_line.z / level;
        let raised = Pair::new(raised, -raised);

        // Below this a vertical force is rounding, not bearing. What guys were set to counts too: where nothing is left
        // of it there is rounding.
        let lines = main.load.size() + second.map_or(0.0, |line| line.load.size());
        let set: f64 = rig.guys.iter().filter(|guy| guy.rigged).map(|guy| guy.pretension).sum();
        let none = 1e-9 * (compression.left.abs() + compression.right.abs() + lines + set);
        let feet = Pair::from_fn(|side| {
            let reaction = *reaction.on(side);
            let bearing = reaction.z();
            let fore_and_aft = reaction.component(layout.forward);
            let lifts = bearing < -none;
            let friction = |sideways: f64, bearing: f64| {
                (bearing > none).then(|| hypot(fore_and_aft, sideways) / bearing)
            };
            let friction_alone = friction(*sideways.on(side), bearing);
            let friction_evened = friction(net_sideways / 2.0, bearing + raised.on(side));
            Foothold {
                reaction,
                kick: -fore_and_aft,
                outward: match side {
                    Side::Left => -sideways.left,
                    Side::Right => sideways.right,
                },
                bearing,
                pressure: rig.feet.bearing_area.filter(|_| !lifts).map(|area| bearing.max(0.0) / area),
                lifts,
                friction_alone,
                friction_evened,
                friction_needed: if evens_out { friction_evened } else { friction_alone },
            }
        });
        let ledger_moment = on_ledger.size() * layout.spread / 4.0;
        Self { feet, spread_thrust, connection, ledger_moment, net_sideways }
    }

    /// Force of the ground on a foot, N, with the connection that is there: one that works evens out how hard the feet
    /// push to the sides. As [`Foothold::reaction`] where there is none or it goes slack.
    #[must_use]
    pub fn ground(&self, side: Side, layout: &Layout) -> Force {
        let reaction = self.feet.on(side).reaction;
        if self.connection == 0.0 {
            return reaction;
        }
        // Along the foot line, which a connection that is not level follows.
        let thrust = self.spread_thrust / hypot(layout.foot_line.x, layout.foot_line.y);
        let evened = Force::along(layout.foot_line, thrust);
        match side {
            Side::Left => reaction + evened,
            Side::Right => reaction - evened,
        }
    }

    /// Force in the connection over thrust at the feet: ℓ/(ℓ − d) for a connection d up the leg. A connection
    /// drawn higher than the head counts as at nine tenths of the leg.
    fn lever(rig: &Rig, layout: &Layout) -> f64 {
        let length = 0.5 * (layout.working_length.left + layout.working_length.right);
        let rise = (layout.head_height() / length).max(1e-3);
        let up_the_leg = (rig.feet.connection_height / rise).min(0.9 * length);
        length / (length - up_the_leg)
    }
}

/// Level distance of a leg from foot to lashing, m.
pub(crate) fn level_run(layout: &Layout, side: Side) -> f64 {
    let along = *layout.down_leg.on(side) * *layout.working_length.on(side);
    hypot(along.x, along.y)
}
