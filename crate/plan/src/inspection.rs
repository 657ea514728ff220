//! The inspection list: what is looked at and tried before anything is loaded.

use crate::Demand;
use crate::demand::is_redirect;
use outlean_rig::{Connection, HoldfastPull, Pair, Part, Rig, Side};
use serde::Serialize;

/// One thing to look at.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Inspected {
    /// The poles: no rot, no split, no fresh crack; no more crook than was planned with, m.
    Poles {
        /// The gap to a string along the pole; 0 where none was planned with.
        crook: f64,
    },
    /// A pole is as thick as planned, m.
    Thickness {
        /// Which.
        leg: Side,
        /// At the foot, or its lesser side.
        butt: f64,
        /// At the tip, or its greater side.
        tip: f64,
        /// Whether it is sawn.
        sawn: bool,
    },
    /// The lashing: its turns, and how much more one leg carries than the other, N.
    Lashing {
        /// Wrapping turns.
        turns: f64,
        /// Frapping turns.
        frapping: f64,
        /// The most that would make it slip.
        force: f64,
    },
    /// The sling, the pulley and its connector: seated, closed, free to turn.
    Hardware,
    /// Every knot dressed, set, with its tail.
    Knots,
    /// A holdfast once more: nothing has moved since it was tried.
    Holdfast(Part),
    /// The holdfast of a redirect midway between the feet: nothing says what it holds.
    Redirect(Part),
    /// What holds down a foot that would lift, and by how much in any case, N.
    HeldDown {
        /// Which.
        foot: Side,
        /// The most that lifts it.
        force: f64,
    },
    /// Feet held by something: seated.
    FeetPinned,
    /// Feet held by friction alone, and how much was planned with; `None` is not known.
    FeetOnFriction(Option<f64>),
    /// What runs between the feet is tight.
    Connection,
    /// The ground toward the edge: feet so far from it, m, with so much weight on them, N.
    Edge {
        /// From the foot line.
        ahead: f64,
        /// On both feet, at most.
        force: f64,
    },
    /// Where a line would bear on the edge it is padded or led clear.
    EdgeProtection,
    /// No fore guy: what keeps the frame from going back.
    NothingAhead,
    /// Nobody stands under the head, before it or inside the bend of a line.
    Clear,
}

/// The whole list.
pub(crate) fn inspection(
    rig: &Rig,
    demands: &[Demand],
    holdfasts: &[(Part, HoldfastPull)],
    lifts: &Pair<f64>,
) -> Vec<Inspected> {
    let most =
        |wanted: Part| demands.iter().find(|demand| demand.part == wanted).map_or(0.0, |demand| demand.force);
    let crook = Side::BOTH.map(|side| rig.legs.on(side).pole.crook.unwrap_or(0.0));
    let mut all = vec![Inspected::Poles { crook: crook.into_iter().fold(0.0, f64::max) }];
    for side in Side::BOTH {
        let pole = rig.legs.on(side).pole;
        let round =
            pole.tip_diameter.or(pole.butt_diameter).map(|tip| (pole.butt_diameter.unwrap_or(tip), tip));
        let sawn =
            pole.breadth.or(pole.depth).map(|one| (pole.breadth.unwrap_or(one), pole.depth.unwrap_or(one)));
        if let Some((butt, tip)) = round.or(sawn) {
            all.push(Inspected::Thickness { leg: side, butt, tip, sawn: round.is_none() });
        }
    }
    let laid = rig.gear.lashing.as_laid();
    let (turns, frapping, force) = (laid.turns, laid.frapping, most(Part::Lashing));
    all.push(Inspected::Lashing { turns, frapping, force });
    all.extend([Inspected::Hardware, Inspected::Knots]);
    all.extend(holdfasts.iter().map(|(part, _)| {
        if is_redirect(*part) { Inspected::Redirect(*part) } else { Inspected::Holdfast(*part) }
    }));
    all.push(if rig.feet.pinned {
        Inspected::FeetPinned
    } else {
        Inspected::FeetOnFriction(rig.feet.friction)
    });
    for foot in Side::BOTH {
        let force = *lifts.on(foot);
        if force > 0.0 {
            all.push(Inspected::HeldDown { foot, force });
        }
    }
    if rig.feet.connection != Connection::None {
        all.push(Inspected::Connection);
    }
    if let Some(edge) = rig.edge {
        all.push(Inspected::Edge { ahead: edge.ahead, force: most(Part::Edge) });
        all.push(Inspected::EdgeProtection);
    }
    let forward = outlean_rig::findings(rig).is_ok_and(|all| {
        all.iter().any(|finding| matches!(finding.rule, outlean_rig::Rule::ForeGuy) && !finding.met)
    });
    if forward {
        all.push(Inspected::NothingAhead);
    }
    all.push(Inspected::Clear);
    all
}
