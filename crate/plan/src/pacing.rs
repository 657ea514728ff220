//! Pacing out: where each thing stands on the ground, in the order in which a crew goes round with the tape.

use outlean_rig::{Fault, Ground, Layout, LineName, Path, Point, Rig, Side, Station, solve};
use serde::Serialize;

/// What stands there.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Mark {
    /// A foot.
    Foot(Side),
    /// The holdfast of a guy, counted from 0.
    Anchor(u8),
    /// Where a line is hauled from.
    HaulPoint(LineName),
    /// The pulley of a redirect on a holdfast of its own.
    Redirect(LineName),
    /// The edge, where it is nearest to the middle of the foot line.
    Edge,
}

/// One place on the ground.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Pace {
    /// What stands there.
    pub mark: Mark,
    /// Ahead of the foot line, square to it, m; negative behind.
    pub ahead: f64,
    /// To the left of the middle of the foot line, facing the edge, m; negative to the right.
    pub left: f64,
    /// Above the middle of the foot line, m.
    pub up: f64,
    /// Straight from the left foot, as a tape runs, m; `None` for the feet and the edge.
    pub from_left_foot: Option<f64>,
    /// Straight from the right foot, m.
    pub from_right_foot: Option<f64>,
}

/// Every place: the feet, aft anchors, what the lines run to, fore anchors, side anchors, the edge.
///
/// # Errors
///
/// As [`solve`].
pub fn pacing(rig: &Rig) -> Result<Vec<Pace>, Fault> {
    let layout = solve(rig)?.layout;
    let ground = Ground::of(&rig.feet);
    let place = |mark: Mark, at: Point, taped: bool| {
        let [ahead, left, up] = ground.paced(at);
        let from = |side: Side| taped.then(|| (at - *rig.feet.at.on(side)).length());
        let (from_left_foot, from_right_foot) = (from(Side::Left), from(Side::Right));
        Pace { mark, ahead, left, up, from_left_foot, from_right_foot }
    };
    let mut all: Vec<Pace> =
        Side::BOTH.map(|side| place(Mark::Foot(side), *rig.feet.at.on(side), false)).to_vec();
    let anchors = |station: Station| {
        let rigged = (0_u8..).zip(&rig.guys).filter(|(_, guy)| guy.rigged);
        let there = rigged.filter(|(_, guy)| Station::of(guy.anchor, &layout) == station).collect::<Vec<_>>();
        there
            .into_iter()
            .map(|(number, guy)| place(Mark::Anchor(number), guy.anchor, true))
            .collect::<Vec<_>>()
    };
    all.extend(anchors(Station::Aft));
    for (name, line) in [LineName::Main, LineName::Second].into_iter().zip(rig.lines()) {
        all.extend(redirect(line.path, &layout).map(|at| place(Mark::Redirect(name), at, true)));
        all.extend(line.path.haul_point().map(|at| place(Mark::HaulPoint(name), at, true)));
    }
    all.extend(anchors(Station::Fore));
    all.extend(anchors(Station::Side));
    all.extend(rig.edge.map(|edge| place(Mark::Edge, ground.point(edge.ahead, 0.0, edge.level), false)));
    Ok(all)
}

/// The pulley of a redirect that hangs on a holdfast of its own.
fn redirect(path: Path, layout: &Layout) -> Option<Point> {
    matches!(path, Path::RedirectedMidBase { .. }).then_some(layout.mid_base)
}
