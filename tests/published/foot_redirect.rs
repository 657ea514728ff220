//! A line led down a leg to a pulley at the foot and away level across, at 18°: legs of 4 m with feet 4/3 m apart,
//! aft guy set back 1.5 slant heights, 2.7 kN. *Derived*: that foot is drawn sideways with 2.4 kN on 1.6 kN of vertical force, a
//! friction of 1.5, and a hobble goes slack.

use super::{mass_of, near, solved};
use outlean_rig::{Connection, Guy, Line, Path, Point, Rig, Side, Solution};

fn rig(foot: Side, connection: Connection) -> Solution {
    let mut rig = Rig::new(4.0, 4.0 / 3.0, 18f64.to_radians(), mass_of(2700.0));
    let setback = 1.5 * solved(&rig).layout.slant_height;
    rig.guys.push(Guy::to(Point::new(-setback, 0.0, 0.0)));
    let across = match foot {
        Side::Left => -1.0,
        Side::Right => 1.0,
    };
    rig.line = Line::along(Path::RedirectedAtFoot { foot, to: Point::new(0.0, 12.0 * across, 0.0) });
    rig.feet.connection = connection;
    solved(&rig)
}

#[test]
fn friction_never_holds_it_and_a_hobble_goes_slack() {
    for foot in Side::BOTH {
        let solution = rig(foot, Connection::Hobble);
        let footing = solution.forces().unwrap().footing;
        let there = footing.feet.on(foot);
        near(-there.outward / 1000.0, 2.4, 0.05);
        near(there.bearing / 1000.0, 1.6, 0.05);
        near(there.friction_alone.unwrap(), 1.5, 0.05);
        assert!(footing.spread_thrust < 0.0);
        near(footing.connection, 0.0, 0.0);
        assert_eq!(there.friction_needed, there.friction_alone);

        // A ledger pushes.
        let ledger = rig(foot, Connection::Ledger).forces().unwrap().footing;
        assert!(ledger.connection < 0.0);
        assert_eq!(ledger.feet.on(foot).friction_needed, ledger.feet.on(foot).friction_evened);
    }
}
