//! The feet before the lift, from above: in their holes, tied to one another and back to a holdfast, the frame lying back.

use super::board::{Board, SIZE};
use super::strand::strand;
use crate::drawing::ground::ground;
use crate::drawing::vec2::{P, add, along, between, left_of, sub, times, unit};
use crate::{Path, Role};
use outlean_rig::{Connection, Fault, Layout, Rig};

pub(super) fn draw(board: &mut Board, rig: &Rig) -> Result<(), Fault> {
    let layout = Layout::of(rig, 0.0)?;
    let leg = rig.legs.left;
    let edge = rig.edge.map_or(0.6, |edge| edge.ahead).clamp(0.3, 2.0);
    // From the tips, which lie behind, to a little beyond the edge.
    let scale = (SIZE.0 - 20.0) / (leg.length + edge + 0.75);
    let middle = 0.5 * SIZE.1 + 2.0;
    let x = SIZE.0 - 10.0 - (edge + 0.55) * scale;
    let half = 0.5 * layout.spread * scale;
    let feet = [(x, middle - half), (x, middle + half)];
    // The edge: rock on the left, the cut on the right.
    let lip = x + edge * scale;
    ground(board.scene(), &[(lip, SIZE.1 + 4.0), (lip, -4.0)], -1.0, "edge");
    board.sheet.keep_clear((lip, 0.0), (lip, SIZE.1), 3.0, true);
    let head = (x - layout.slant_height * scale, middle);
    let pole = |at: f64| (at * scale).max(4.0);
    let tip = leg.pole.tip_diameter.unwrap_or(0.1);
    let widths = (pole(leg.pole.butt_diameter.unwrap_or(tip)), pole(tip));
    // Ties from each foot back to a holdfast between the legs.
    let peg = (x - 0.5 * leg.length * scale, middle);
    for foot in feet {
        strand(board.scene(), &[add(foot, (-3.0, 0.0)), add(peg, (5.0, 0.0))], 1.5, "tie");
        board.sheet.keep_clear(foot, peg, 2.5, true);
    }
    for i in 0..2 {
        let at = add(peg, (-f64::from(i) * 18.0, 0.0));
        if i == 0 {
            board.scene().line(at, add(at, (-18.0, 0.0)), Role::Cord, "picket");
        }
        board.scene().circle(at, 4.6, Role::Sheave, "picket");
        board.scene().circle(at, 1.6, Role::Pin, "picket");
        board.sheet.keep_clear(at, at, 6.0, false);
    }
    for foot in feet {
        // A hole is wider than the butt.
        board.scene().circle(foot, 0.5 * widths.0 + 4.0, Role::Hidden, "hole");
        let way = unit(sub(head, foot), (-1.0, 0.0));
        let (butt, end) = (along(foot, way, -2.0), along(foot, way, leg.length * scale));
        let aside = left_of(way);
        let (a, b) = (times(aside, 0.5 * widths.0), times(aside, 0.5 * widths.1));
        let outline = [add(butt, a), add(end, b), sub(end, b), sub(butt, a)];
        board.scene().part_path(Path::polygon(&outline), Role::Timber, "leg");
        board.sheet.keep_clear(butt, end, 0.5 * widths.0, true);
    }
    for turn in 0..5 {
        let x = head.0 + (f64::from(turn) - 2.0) * 3.2;
        strand(
            board.scene(),
            &[(x, middle + 0.5 * widths.1 + 5.0), (x, middle - 0.5 * widths.1 - 5.0)],
            1.6,
            "lashing",
        );
    }
    // What joins the feet: tight, low, a turn round each leg.
    let (upper, lower) = (add(feet[0], (-9.0, 2.0)), add(feet[1], (-9.0, -2.0)));
    let joins = match rig.feet.connection {
        Connection::Ledger => {
            let log = Path::rectangle(upper.0 - 3.0, upper.1 - 12.0, upper.0 + 3.0, lower.1 + 12.0);
            board.scene().part_path(log, Role::Timber, "ledger");
            Some("steps.ledger")
        }
        Connection::Hobble => {
            strand(board.scene(), &[upper, lower], 1.8, "hobble");
            for at in [upper, lower] {
                for dx in [-1.8, 1.8] {
                    strand(board.scene(), &[add(at, (dx, 7.0)), add(at, (dx, -7.0))], 1.7, "hobble");
                }
            }
            Some("steps.hobble")
        }
        Connection::None => None,
    };
    // Why they are tied back: while the frame comes up they push toward the cut.
    for foot in feet {
        let from: P = add(foot, (0.5 * widths.0 + 8.0, 0.0));
        board.moves(&[from, add(from, (20.0, 0.0))]);
    }
    board.name("steps.hole", add(feet[0], (0.0, -10.0)), (-0.3, -1.0), 16.0);
    if let Some(joins) = joins {
        board.name(joins, between(upper, lower, 0.5), (-1.0, 0.0), 13.0);
    }
    board.name("steps.tied_back", between(feet[1], peg, 0.5), (-0.3, 1.0), 46.0);
    board.name("steps.edge", (lip, 24.0), (1.0, 0.0), 6.0);
    board.name("steps.push_up", add(feet[1], (26.0, 4.0)), (-0.5, 1.0), 22.0);
    board.name("steps.lies_back", add(head, (0.0, -8.0)), (0.4, -1.0), 30.0);
    Ok(())
}
