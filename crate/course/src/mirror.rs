//! A rig as in a mirror: left for right.

use outlean_rig::{Pair, Path, Point, Quantity, Rig};

/// The rig with left and right changed over, and the quantity that then means the same part. What it carries
/// is what it carried.
pub(crate) fn mirrored(rig: &Rig, ask: Quantity) -> (Rig, Quantity) {
    let across = |point: Point| Point::new(point.x(), -point.y(), point.z());
    let mut other = rig.clone();
    other.legs = Pair::new(rig.legs.right, rig.legs.left);
    other.feet.at = Pair::new(across(rig.feet.at.right), across(rig.feet.at.left));
    other.load.side_angle = -rig.load.side_angle;
    for guy in &mut other.guys {
        guy.anchor = across(guy.anchor);
    }
    match &mut other.line.path {
        Path::Hung | Path::NotOverHead => {}
        Path::RedirectedAtFoot { foot, to } => (*foot, *to) = (foot.other(), across(*to)),
        Path::StraightBack { to }
        | Path::RedirectedMidBase { to }
        | Path::OverTheFront { to }
        | Path::TackleAtHead { to, .. } => *to = across(*to),
    }
    let ask = match ask {
        Quantity::LegCompression(side) => Quantity::LegCompression(side.other()),
        other => other,
    };
    (other, ask)
}
