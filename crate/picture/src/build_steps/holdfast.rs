//! Holdfasts close to, from the side: pickets in line with the pull, and how a guy ends at one: tied, on a haul system, and
//! from one to the other.

use super::board::{Board, SIZE};
use super::strand::{smooth, strand, webbing};
use crate::drawing::ground::{ground, picket};
use crate::drawing::local::Local;
use crate::drawing::vec2::{P, add, along, between, left_of, sub, times, unit};
use crate::{Path, Role};
use outlean_rig::strength::{Holdfast, HoldfastKind};
use outlean_rig::{Fault, Guy, Layout, Rig};

/// What is seen of it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum End {
    Pickets,
    PulledOn,
    Fixed,
    SystemBeside,
    SystemHolds,
    Adjustable,
}

/// The slope at which the aft guy comes down, rad above the level, and the pickets it comes to.
struct Pull {
    /// As the rig has it.
    said: f64,
    /// As it is drawn: where it can be seen to come down.
    slope: f64,
    count: u32,
    apart: f64,
}

impl Pull {
    fn of(rig: &Rig) -> Result<Self, Fault> {
        let layout = Layout::of(rig, rig.lean)?;
        let aft = guy(rig, &layout, false);
        let slope = aft.map_or(0.5, |guy| {
            let to = layout.head - guy.anchor;
            libm::atan2(to.z, libm::hypot(to.x, to.y))
        });
        let (count, apart) = in_line(aft.map(|guy| guy.holdfast));
        Ok(Self { said: slope, slope: slope.clamp(0.15, 0.9), count, apart: apart.clamp(0.6, 2.0) })
    }
}

/// The first rigged guy behind the foot line, or ahead of it.
pub(super) fn guy<'r>(rig: &'r Rig, layout: &Layout, ahead: bool) -> Option<&'r Guy> {
    rig.guys.iter().find(|guy| guy.rigged && (layout.setback(guy.anchor) < 0.0) == ahead)
}

/// How many pickets stand in line at a holdfast, and how far apart, m: three 1.2 m apart where the rig does not say.
pub(super) fn in_line(holdfast: Option<Holdfast>) -> (u32, f64) {
    let count = match holdfast.and_then(|holdfast| holdfast.kind) {
        Some(HoldfastKind::Picket) => 1,
        Some(HoldfastKind::Pickets11 | HoldfastKind::Pickets21) => 2,
        _ => 3,
    };
    (count, holdfast.and_then(|holdfast| holdfast.spacing).unwrap_or(1.2))
}

pub(super) fn draw(board: &mut Board, rig: &Rig, end: End) -> Result<(), Fault> {
    let pull = Pull::of(rig)?;
    match end {
        End::Pickets => pickets(board, &pull, false),
        End::PulledOn => pickets(board, &pull, true),
        _ => guy_end(board, &pull, end),
    }
    Ok(())
}

fn pickets(board: &mut Board, pull: &Pull, loaded: bool) {
    let span = pull.apart * f64::from(pull.count - 1);
    let scale = (180.0 / (span + 0.4)).min(92.0);
    let first = (SIZE.0 - 106.0, 134.0);
    ground(board.scene(), &[(-4.0, first.1), (SIZE.0 + 4.0, first.1)], -1.0, "ground");
    board.sheet.keep_clear((0.0, first.1), (SIZE.0, first.1), 3.0, true);
    let foot = |i: u32| (first.0 - f64::from(i) * pull.apart * scale, first.1);
    // 15 degrees back: the top of a picket, a hand below it.
    let top = |i: u32| add(foot(i), (-0.259 * 0.36 * scale, -0.966 * 0.36 * scale));
    let low = |i: u32| add(foot(i), (0.0, -0.07 * scale));
    for i in 0..pull.count {
        picket(board.scene(), foot(i), -1.0, scale, "picket");
        board.sheet.keep_clear(foot(i), top(i), 5.0, false);
    }
    for i in 0..pull.count - 1 {
        let (from, to) = (top(i), low(i + 1));
        for off in [-1.6, 1.6] {
            let aside = times(left_of(unit(sub(to, from), (1.0, 0.0))), off);
            strand(board.scene(), &[add(from, aside), add(to, aside)], 1.7, "lashing");
        }
        board.sheet.keep_clear(from, to, 4.0, true);
        // A stick that twists it tight.
        if !loaded {
            let middle = between(from, to, 0.5);
            let stick = Path::polygon(&[
                add(middle, (-2.0, -13.0)),
                add(middle, (2.0, -13.0)),
                add(middle, (2.0, 13.0)),
                add(middle, (-2.0, 13.0)),
            ]);
            board.scene().part_path(stick, Role::Timber, "stick");
        }
        for (at, lean) in [(from, -0.7), (to, -0.5)] {
            for dy in [-2.0, 1.6] {
                strand(
                    board.scene(),
                    &[add(at, (-5.0, dy + lean)), add(at, (5.0, dy - lean))],
                    1.7,
                    "lashing",
                );
            }
        }
    }
    // The guy comes low to the first of them.
    let way = (libm::cos(pull.slope), -libm::sin(pull.slope));
    let (from, end) = (low(0), along(low(0), way, 150.0));
    strand(board.scene(), &[from, end], 2.2, "guy");
    board.sheet.keep_clear(from, end, 4.0, true);
    for dy in [-2.2, 1.8] {
        strand(board.scene(), &[add(from, (-6.0, dy + 0.6)), add(from, (6.0, dy - 0.6))], 2.2, "guy");
    }
    if loaded {
        let tail = along(from, way, 34.0);
        board.pulls(tail, along(from, way, 84.0));
        board.name("steps.test_pull", along(from, way, 70.0), (-0.5, -1.0), 8.0);
        board.name("steps.must_not_walk", add(foot(0), (-4.0, 6.0)), (-0.6, 1.0), 24.0);
        let slope = Board::angle(pull.said);
        // How steep it comes down, between guy and level.
        let mut arc = Path::new();
        let quarter = core::f64::consts::FRAC_PI_2;
        arc.arc(from, 74.0, quarter - pull.slope, quarter, true);
        board.scene().part_path(arc, Role::Dimension, "slope");
        let middle = (libm::cos(0.5 * pull.slope), -libm::sin(0.5 * pull.slope));
        let text = ("slope", slope.as_str());
        board.name_with("steps.slope", text, along(from, middle, 73.0), (-0.5, 1.0), 36.0);
    } else {
        board.name("steps.guy_low", along(from, way, 15.0), (0.4, 1.0), 32.0);
        if pull.count > 1 {
            board.name("steps.head_to_foot", between(top(0), low(1), 0.35), (-0.2, -1.0), 34.0);
            let (a, b) = (foot(1), foot(0));
            let y = 40.0;
            board.measure(add(a, (0.0, y)), add(b, (0.0, y)));
            let long = Board::long(pull.apart);
            board.name_with(
                "steps.apart",
                ("long", &long),
                add(between(a, b, 0.5), (0.0, y)),
                (0.0, 1.0),
                6.0,
            );
        }
        let last = pull.count - 1;
        board.name("steps.fifteen_back", top(last), (0.0, -1.0), 20.0);
        board.name("steps.in_line", along(from, way, 70.0), (-0.5, -1.0), 14.0);
    }
}

/// How a guy ends at its holdfast.
fn guy_end(board: &mut Board, pull: &Pull, end: End) {
    let foot = (58.0, 186.0);
    ground(board.scene(), &[(-4.0, foot.1), (SIZE.0 + 4.0, foot.1)], -1.0, "ground");
    board.sheet.keep_clear((0.0, foot.1), (SIZE.0, foot.1), 3.0, true);
    picket(board.scene(), foot, -1.0, 130.0, "picket");
    board.sheet.keep_clear(add(foot, (0.0, -4.0)), add(foot, (-13.0, -56.0)), 6.0, false);
    let slope = pull.slope.clamp(0.3, 0.62);
    let way = (libm::cos(slope), -libm::sin(slope));
    let tie = add(foot, (-2.0, -12.0));
    let far = along(tie, way, 400.0);
    let (far, _) = crate::drawing::rope::cut(
        tie,
        far,
        crate::Area { left: -8.0, top: -8.0, right: SIZE.0 + 8.0, bottom: SIZE.1 },
    );
    let grab = along(tie, way, 182.0);
    let sling_at = add(foot, (-5.0, -27.0));
    let tied = matches!(end, End::Fixed | End::SystemBeside | End::SystemHolds);
    let system = end != End::Fixed;
    // The guy: dead straight from the frame to what holds it; from there on to the knot it may hang.
    let holds_at = if matches!(end, End::SystemHolds | End::Adjustable) { grab } else { tie };
    strand(board.scene(), &[holds_at, far], 2.6, "guy");
    board.sheet.keep_clear(holds_at, far, 4.0, true);
    if tied && holds_at == grab {
        let sag = smooth(&[
            grab,
            add(between(grab, tie, 0.3), (2.0, 14.0)),
            add(between(grab, tie, 0.66), (2.0, 17.0)),
            tie,
        ]);
        strand(board.scene(), &sag, 2.6, "guy");
        board.sheet.keep_clear_along(&sag, 4.0, true);
    } else if !tied {
        let loose = smooth(&[
            grab,
            add(grab, (-14.0, 22.0)),
            add(grab, (-30.0, 46.0)),
            (grab.0 - 10.0, foot.1 - 4.0),
            (grab.0 + 26.0, foot.1 - 5.0),
        ]);
        strand(board.scene(), &loose, 2.6, "tail");
        board.sheet.keep_clear_along(&loose, 4.0, true);
    }
    if tied {
        knot(board, tie, way, !matches!(end, End::Fixed | End::SystemBeside));
    }
    if system {
        haul_system(board, sling_at, grab, end);
    }
    match end {
        End::Fixed => {
            board.name("steps.round_turn", add(tie, (6.0, 2.0)), (0.6, 1.0), 34.0);
            board.name("steps.half_hitches", along(tie, way, 30.0), (-0.5, -1.0), 12.0);
            board.name("steps.guy_to_head", along(tie, way, 180.0), (-0.5, -1.0), 7.0);
        }
        End::SystemBeside => {
            board.name("steps.tie_holds", add(tie, (4.0, 4.0)), (0.4, 1.0), 34.0);
            board.name("steps.sling_beside", add(sling_at, (4.0, -5.0)), (-0.1, -1.0), 34.0);
            board.name("steps.grab_ahead", grab, (0.5, 1.0), 16.0);
            board.name("steps.capture", add(sling_at, (52.0, -25.0)), (-0.3, -1.0), 20.0);
            board.name("steps.haul_until", (150.0, 150.0), (0.6, 1.0), 22.0);
        }
        End::SystemHolds => {
            board.name("steps.tie_slack", add(between(grab, tie, 0.55), (2.0, 17.0)), (0.5, 1.0), 10.0);
            board.name("steps.capture_holds", add(sling_at, (52.0, -25.0)), (-0.3, -1.0), 20.0);
            board.name("steps.tail_in_hand", add(foot, (24.0, 0.0)), (0.4, 1.0), 14.0);
        }
        _ => {
            board.name("steps.knot_off", (grab.0 + 6.0, foot.1 - 5.0), (0.4, 1.0), 14.0);
            board.name("steps.capture_always", add(sling_at, (52.0, -25.0)), (-0.3, -1.0), 20.0);
            board.name("steps.tail_in_hand", add(foot, (24.0, 0.0)), (0.4, 1.0), 14.0);
        }
    }
}

/// A round turn and two half hitches.
fn knot(board: &mut Board, tie: P, way: P, slack: bool) {
    for dy in [-2.6, 2.4] {
        strand(board.scene(), &[add(tie, (-8.5, dy + 1.0)), add(tie, (8.5, dy - 1.0))], 2.5, "round turn");
    }
    let way = if slack { unit((0.8, 0.5), way) } else { way };
    for far in [17.0, 23.5] {
        let at = along(tie, way, far);
        let aside = times(left_of(way), 5.4);
        strand(board.scene(), &[add(at, aside), sub(at, aside)], 2.4, "half hitch");
    }
    let tail = along(tie, way, 24.0);
    let line = smooth(&[tail, add(tail, (3.0, 9.0)), add(tail, (10.0, 15.0)), add(tail, (22.0, 17.0))]);
    strand(board.scene(), &line, 2.2, "tail");
    board.sheet.keep_clear_along(&line, 3.0, false);
}

/// A haul system of three parts between a sling round the holdfast and a grab on the guy, its capture at the sling.
fn haul_system(board: &mut Board, sling_at: P, grab: P, end: End) {
    // The sling round the picket, and the connector that all hangs on.
    let ring = add(sling_at, (26.0, -9.0));
    for dy in [-2.4, 2.4] {
        webbing(
            board.scene(),
            &[add(sling_at, (-8.0, dy + 1.0)), add(sling_at, (8.0, dy - 1.0))],
            2.3,
            "sling",
        );
    }
    for off in [-2.6, 2.6] {
        webbing(board.scene(), &[add(sling_at, (6.0, off)), add(ring, (-4.0, off * 0.4))], 2.0, "sling");
    }
    let way = unit(sub(grab, ring), (1.0, 0.0));
    let side = left_of(way);
    let fixed = along(ring, way, 13.0);
    let moving = along(grab, way, -17.0);
    // Three parts: from the grab to the fixed pulley, back round the moving one, and to the hands.
    let rope = 1.7;
    let part = |off: f64| [along(fixed, side, off), along(moving, side, off)];
    let tail_from = along(fixed, side, -8.0);
    for off in [7.0, 0.5] {
        strand(board.scene(), &part(off), rope, "haul rope");
    }
    let hauled = along(moving, side, -7.0);
    let beside = matches!(end, End::SystemBeside);
    if !beside {
        strand(board.scene(), &[hauled, tail_from], rope, "haul rope");
    }
    board.sheet.keep_clear(fixed, moving, 11.0, true);
    for at in [fixed, moving] {
        board.scene().circle(at, 8.5, Role::Sheave, "pulley");
        board.scene().circle(at, 2.2, Role::Pin, "pulley");
    }
    // The capture bites on the rope at the fixed pulley.
    let bite = along(along(fixed, way, 15.0), side, 7.0);
    capture(board, bite, way);
    // The grab: three turns of cord round the guy.
    for far in [-6.0, -1.0, 4.0] {
        let at = along(grab, way, far);
        strand(board.scene(), &[along(at, side, 6.0), along(at, side, -6.0)], 1.7, "grab");
    }
    board.scene().line(grab, moving, Role::Rail, "grab");
    board.scene().line(fixed, ring, Role::Rail, "connector");
    // The tail: in hand, with a turn round the holdfast, once the system holds.
    if beside {
        let way = unit((-1.0, 0.62), way);
        let end = along(hauled, way, 62.0);
        strand(board.scene(), &[hauled, end], rope, "haul rope");
        board.sheet.keep_clear(hauled, end, 3.0, true);
        board.pulls(end, along(end, way, 30.0));
    } else {
        let foot = add(sling_at, (4.0, 22.0));
        let line = smooth(&[
            tail_from,
            add(tail_from, (-14.0, 14.0)),
            add(foot, (2.0, -2.0)),
            add(foot, (22.0, 3.0)),
            add(foot, (58.0, -2.0)),
            add(foot, (84.0, -16.0)),
            add(foot, (98.0, -26.0)),
        ]);
        strand(board.scene(), &line, rope, "haul rope");
        board.sheet.keep_clear_along(&line, 3.0, true);
        hand(board, add(foot, (86.0, -17.5)));
    }
}

/// A progress capture: a cam in a small body on the rope.
fn capture(board: &mut Board, at: P, way: P) {
    let local = Local::onward(at, way, 1.0);
    let body = [(-7.0, 5.5), (6.0, 5.5), (8.0, 0.0), (6.0, -4.5), (-7.0, -4.5)].map(|(x, y)| local.at(x, y));
    board.scene().part_path(Path::polygon(&body), Role::Basket, "capture");
    let cam = [(-3.0, 4.0), (4.0, 0.0), (-3.0, -3.0)].map(|(x, y)| local.at(x, y));
    board.scene().part_path(Path::polygon(&cam), Role::Pin, "capture");
    board.sheet.keep_clear(at, at, 8.0, true);
}

/// A fist on a rope.
pub(super) fn hand(board: &mut Board, at: P) {
    // A forearm from the right, a fist on the rope, four fingers round it.
    let mut arm = Path::line(add(at, (2.0, 1.0)), add(at, (40.0, 5.0)));
    arm.pen = 8.0;
    board.scene().part_path(arm, Role::Limb, "hand");
    let mut fist = Path::line(add(at, (-2.5, 1.5)), add(at, (3.5, -2.0)));
    fist.pen = 11.0;
    board.scene().part_path(fist, Role::Limb, "hand");
    let mut fingers = Path::new();
    for along_it in [-3.0, 0.0, 3.0] {
        let x = along_it;
        fingers.add_line(add(at, (x - 1.2, -5.2 - 0.55 * x)), add(at, (x + 1.2, 1.2 - 0.55 * x)));
    }
    board.scene().part_path(fingers, Role::Core, "hand");
    board.sheet.keep_clear(add(at, (-2.0, 2.0)), add(at, (40.0, 5.0)), 5.0, false);
}
