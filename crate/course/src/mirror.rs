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
    for swing in other.load.at_edge.iter_mut().chain(&mut other.load.on_tag_lines) {
        swing.side = -swing.side;
    }
    for guy in &mut other.guys {
        guy.anchor = across(guy.anchor);
    }
    for line in other.lines_mut() {
        line.path = match line.path {
            Path::RedirectedAtFoot { foot, to } => {
                Path::RedirectedAtFoot { foot: foot.other(), to: across(to) }
            }
            path => path.hauled_from(across),
        };
    }
    let ask = match ask {
        Quantity::LegCompression(side) => Quantity::LegCompression(side.other()),
        other => other,
    };
    (other, ask)
}
