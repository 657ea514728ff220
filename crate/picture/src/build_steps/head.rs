//! The head close to: what lies over the lashing, what hangs in it, what is tied above it. From behind, as the legs cross, and
//! from the side, as the guys lead away. Legs, turns, sling and angles are those of the rig.

use super::board::{Board, SIZE};
use super::holdfast::guy;
use super::strand::{smooth, strand, webbing};
use crate::drawing::local::Local;
use crate::drawing::vec2::{P, add, along, left_of, sub, times, unit};
use crate::{Path, Role, Scene};
use outlean_rig::{Fault, Layout, Path as LinePath, Rig, Side};

/// What is on it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub(super) enum On {
    Sling,
    Pulley,
    Guys,
}

/// Sizes common to both views, px.
struct Head {
    /// The middle of the lashing.
    at: P,
    scale: f64,
    /// Thickness of a leg there.
    thick: f64,
    /// Half the thickness of the lashing's rope.
    rope: f64,
    turns: u32,
    fraps: u32,
    /// From the lashing to the tips.
    tips: f64,
    /// From the lashing down to the pulley.
    sling: f64,
}

impl Head {
    /// `above` is how much of what is above the lashing is shown, m, and `under` how much of what is below the sling.
    fn new(rig: &Rig, above: Option<f64>, under: f64) -> Self {
        let (leg, lashing) = (rig.legs.left, rig.gear.lashing);
        let thick = lashing.girth_of(&leg).map_or(0.1, |girth| girth / core::f64::consts::PI);
        let (below, sling) = (leg.lashing_below_tip.max(0.15), rig.line.sling.clamp(0.25, 0.6));
        let shown = above.unwrap_or(below + 0.06).min(below + 0.06);
        let scale = 232.0 / (shown + sling + under);
        let laid = lashing.as_laid();
        // As many as can be told apart.
        let drawn = |turns: f64| turns.clamp(1.0, 16.0) as u32;
        let rope = 0.5 * (lashing.rope.unwrap_or(0.01) * scale).max(3.4);
        let tips = below * scale;
        Self {
            at: (0.5 * SIZE.0, 4.0 + shown * scale),
            scale,
            thick: thick * scale,
            rope,
            turns: drawn(laid.turns),
            fraps: drawn(laid.frapping),
            tips,
            sling: sling * scale,
        }
    }

    /// Half the height of the band of turns.
    fn band(&self) -> f64 {
        f64::from(self.turns) * self.rope
    }

    /// The pulley below the head, its cheeks and pin; the connector from which it hangs.
    fn pulley(&self, scene: &mut Scene, at: P) -> f64 {
        let radius = (0.075 * self.scale).max(12.0);
        let cheek = Local::upright(at, radius);
        let outline: Vec<P> = [
            (-0.3, 1.75),
            (0.3, 1.75),
            (0.95, 0.6),
            (1.0, -0.3),
            (0.5, -0.95),
            (-0.5, -0.95),
            (-1.0, -0.3),
            (-0.95, 0.6),
        ]
        .map(|(x, y)| cheek.at(x, y))
        .to_vec();
        scene.circle(at, 1.12 * radius, Role::Sheave, "pulley");
        scene.part_path(Path::polygon(&outline), Role::Wrap, "pulley");
        scene.circle(at, 0.24 * radius, Role::Pin, "pulley");
        radius
    }

    /// A connector about `at`, `high` px high, its gate on the right with a locking sleeve.
    fn connector(scene: &mut Scene, at: P, high: f64) {
        let (half, wide) = (0.5 * high, 0.34 * high);
        let local = Local::upright(at, 1.0);
        let mut ring = Path::new();
        ring.move_to(local.at(-wide, -0.5 * half));
        ring.line_to(local.at(-wide, 0.5 * half));
        ring.cubic_to(
            local.at(-wide, 1.05 * half),
            local.at(0.7 * wide, 1.05 * half),
            local.at(0.75 * wide, 0.55 * half),
        );
        ring.line_to(local.at(0.75 * wide, -0.55 * half));
        ring.cubic_to(
            local.at(0.7 * wide, -1.05 * half),
            local.at(-wide, -1.05 * half),
            local.at(-wide, -0.5 * half),
        );
        scene.part_path(ring, Role::Rail, "connector");
        let sleeve = [(0.55, 0.34), (0.95, 0.34), (0.95, -0.12), (0.55, -0.12)]
            .map(|(x, y)| local.at(x * wide, y * half));
        scene.part_path(Path::polygon(&sleeve), Role::Wrap, "connector");
    }
}

/// The head from behind: sling, then connector, pulley and line.
pub(super) fn from_behind(board: &mut Board, rig: &Rig, on: On) -> Result<(), Fault> {
    let layout = Layout::of(rig, 0.0)?;
    let head = match on {
        On::Sling => Head::new(rig, None, 0.12),
        _ => Head::new(rig, Some(0.2), 0.36),
    };
    let half_spread = 0.5 * layout.spread;
    let working = layout.working_length.left.max(half_spread + 0.1);
    let sine = half_spread / working;
    let cosine = libm::sqrt(1.0 - sine * sine);
    // Unit steps up each leg: the left one leads up to the right.
    let up = |side: f64| (-side * sine, -cosine);
    let (c, t) = (head.at, head.thick);
    for side in [1.0, -1.0] {
        let way = up(side);
        let (butt, tip) = (along(c, way, -(SIZE.1 - c.1 + 40.0)), along(c, way, head.tips));
        let aside = times(left_of(way), 0.5 * t);
        let outline = [add(butt, aside), add(tip, aside), sub(tip, aside), sub(butt, aside)];
        board.scene().part_path(Path::polygon(&outline), Role::Timber, "leg");
        let mut lines = Path::new();
        for (share, from, to) in [(-0.25, -200.0, -70.0), (0.1, -160.0, -96.0), (0.28, 46.0, head.tips - 8.0)]
        {
            let aside = times(left_of(way), share * t);
            lines.add_line(add(along(c, way, from), aside), add(along(c, way, to), aside));
        }
        board.scene().part_path(lines, Role::GroundStroke, "grain");
        board.sheet.keep_clear(along(c, way, -SIZE.1), tip, 0.5 * t, true);
    }
    // What of the sling lies behind: from the crotch down between the legs.
    let band = head.band();
    let below = (c.0, c.1 + head.sling - 18.0);
    let wide = 5.0;
    let behind = [(c.0 - 7.0, c.1 + band + 2.0), (c.0 - 9.0, c.1 + band + 16.0), (below.0 - 3.0, below.1)];
    webbing(board.scene(), &smooth(&behind), wide, "sling");
    lashed(board.scene(), &head, sine / cosine);
    // In front: out of the crotch, over the band, down.
    let front = [
        (c.0 - 4.0, c.1 - band - 13.0),
        (c.0 + 4.0, c.1 - band - 4.0),
        (c.0 + 8.0, c.1),
        (c.0 + 9.0, c.1 + band + 10.0),
        (below.0 + 3.0, below.1),
    ];
    let front = smooth(&front);
    webbing(board.scene(), &front, wide, "sling");
    board.sheet.keep_clear_along(&front, wide, true);
    // The turn over the crotch itself.
    let over = [(c.0 - 9.0, c.1 - band - 9.0), (c.0 - 1.0, c.1 - band - 15.0), (c.0 + 4.0, c.1 - band - 5.0)];
    webbing(board.scene(), &smooth(&over), wide, "sling");
    let top = (c.0, c.1 - band - 12.0);
    if on == On::Sling {
        board.name("steps.sling_over", add(top, (4.0, 0.0)), (1.0, -0.3), 44.0);
        board.name("steps.lashing", (c.0 + 0.7 * t, c.1 + 4.0), (1.0, 0.3), 12.0);
        board.name("steps.sling_hangs", (below.0 + 6.0, below.1 - 10.0), (-1.0, 0.1), 66.0);
        return Ok(());
    }
    let link = add(below, (0.0, 8.0));
    let pulley = add(below, (0.0, 48.0));
    // The line: to the load on the right, away down a leg or straight back on the left.
    let radius = (0.075 * head.scale).max(12.0);
    let to_left = match rig.line.path {
        LinePath::RedirectedAtFoot { foot: Side::Left, .. } => Some(-0.42),
        LinePath::RedirectedAtFoot { foot: Side::Right, .. } => Some(0.42),
        LinePath::RedirectedMidBase { .. } | LinePath::RedirectedOnLedger { .. } => Some(-0.06),
        path => path.haul_point().map(|_| -0.9),
    };
    let rope = 2.3;
    for (x, lean) in [Some((0.95, 0.0)), to_left.map(|lean| (-0.95, lean))].into_iter().flatten() {
        let from = add(pulley, (x * radius, -2.0));
        let line = [from, add(from, (lean * 80.0, 80.0))];
        strand(board.scene(), &line, rope, "main line");
        board.sheet.keep_clear(line[0], line[1], 4.0, true);
    }
    head.pulley(board.scene(), pulley);
    Head::connector(board.scene(), link, 38.0);
    board.name("steps.connector", add(link, (11.0, 0.0)), (1.0, -0.2), 50.0);
    board.name("steps.pulley", add(pulley, (radius, 2.0)), (1.0, 0.1), 50.0);
    board.name("steps.line_to_load", add(pulley, (0.95 * radius, 26.0)), (1.0, 0.6), 30.0);
    if let Some(lean) = to_left {
        board.name("steps.line_away", add(pulley, (-0.95 * radius + lean * 20.0, 24.0)), (-1.0, 0.2), 60.0);
    }
    board.name("steps.sling", (c.0 + 9.0, c.1 + band + 8.0), (-1.0, -0.1), 70.0);
    Ok(())
}

/// The turns over the crossing, and what holds them together.
fn lashed(scene: &mut Scene, head: &Head, slope: f64) {
    let (c, band) = (head.at, head.band());
    for turn in 0..head.turns {
        let y = -band + (2.0 * f64::from(turn) + 1.0) * head.rope;
        let half = 0.5 * head.thick * 1.03 + y.abs() * slope + head.rope;
        let line = [(c.0 - half, c.1 + y + 0.5 * head.rope), (c.0 + half, c.1 + y - 0.5 * head.rope)];
        strand(scene, &line, head.rope, "wrap");
    }
    let count = f64::from(head.fraps);
    for turn in 0..head.fraps {
        let x = c.0 - 6.0 + (f64::from(turn) - 0.5 * (count - 1.0)) * 2.0 * head.rope;
        let line = [(x, c.1 + band + head.rope), (x, c.1 - band - head.rope)];
        strand(scene, &line, head.rope, "frap");
    }
}

/// The head from the side, at its lean: guys above the lashing, each led to its own side.
pub(super) fn from_the_side(board: &mut Board, rig: &Rig) -> Result<(), Fault> {
    let layout = Layout::of(rig, rig.lean)?;
    let head = Head::new(rig, None, 0.38);
    let c = add(head.at, (14.0, 8.0));
    let way = unit((libm::sin(rig.lean), -libm::cos(rig.lean)), (0.0, -1.0));
    let t = head.thick;
    let aside = times(left_of(way), 0.5 * t);
    let (butt, tip) = (along(c, way, -260.0), along(c, way, 0.86 * head.tips));
    let band = head.band();
    let sling_at = (c.0, c.1 + head.sling);
    // The half of the sling on the far side of the legs.
    let outer = 0.5 * t + 5.0;
    let local = Local::onward(c, way, 1.0);
    let far = [
        local.at(band + 6.0, -2.0),
        local.at(band - 2.0, outer),
        local.at(-band, outer + 3.0),
        add(sling_at, (-3.0, -20.0)),
    ];
    webbing(board.scene(), &smooth(&far), 5.0, "sling");
    let outline = [add(butt, aside), add(tip, aside), sub(tip, aside), sub(butt, aside)];
    board.scene().part_path(Path::polygon(&outline), Role::Timber, "leg");
    board.sheet.keep_clear(butt, tip, 0.5 * t, true);
    for turn in 0..head.turns {
        let y = -band + (2.0 * f64::from(turn) + 1.0) * head.rope;
        let half = 0.5 * t + head.rope;
        strand(
            board.scene(),
            &[local.at(y - 0.4 * head.rope, -half), local.at(y + 0.4 * head.rope, half)],
            head.rope,
            "wrap",
        );
    }
    // Over the band between the tips, and down on the near side.
    let near = [
        local.at(band + 7.0, 3.0),
        local.at(band - 1.0, -outer),
        local.at(-band, -outer - 2.0),
        add(sling_at, (3.0, -20.0)),
    ];
    webbing(board.scene(), &smooth(&near), 5.0, "sling");
    // The guys: a clove hitch each, above the lashing.
    let mut ends = Vec::new();
    for (i, ahead) in [(0.0, false), (1.0, true)] {
        let Some(guy) = guy(rig, &layout, ahead) else { continue };
        let run = (guy.anchor - layout.head).dot(layout.forward);
        let fall = (guy.anchor - layout.head).z;
        let leads = unit((run, -fall), (if ahead { 1.0 } else { -1.0 }, 0.5));
        let y = band + 18.0 + i * 15.0;
        let half = 0.5 * t + 2.4;
        let from = local.at(y, if ahead { -half } else { half });
        let end = along(from, leads, 400.0);
        let (end, _) = crate::drawing::rope::cut(
            from,
            end,
            crate::Area { left: -8.0, top: 0.0, right: SIZE.0 + 8.0, bottom: SIZE.1 + 8.0 },
        );
        let line = [from, end];
        strand(board.scene(), &line, 2.4, "guy");
        board.sheet.keep_clear(from, end, 4.0, true);
        for turn in [[-3.4, -half, -0.6, half], [0.6, -half, 3.4, half], [-3.6, half, 3.6, -half]] {
            let line = [local.at(y + turn[0], turn[1]), local.at(y + turn[2], turn[3])];
            strand(board.scene(), &line, 2.4, "hitch");
        }
        ends.push((ahead, from, leads, local.at(y, 0.0)));
    }
    let link = add(sling_at, (0.0, -10.0));
    let pulley = add(sling_at, (0.0, 30.0));
    head.pulley(board.scene(), pulley);
    Head::connector(board.scene(), link, 38.0);
    for (ahead, from, leads, _) in ends {
        let (key, far) = if ahead { ("steps.fore_guy_on", 60.0) } else { ("steps.aft_guy_on", 70.0) };
        board.name(key, along(from, leads, far), (if ahead { 0.7 } else { -0.7 }, -1.0), 6.0);
    }
    board.name("steps.own_hitch", local.at(band + 26.0, 0.5 * t), (-1.0, -0.9), 14.0);
    board.name("steps.lashing", local.at(0.0, 0.3 * t), (-1.0, 0.3), 34.0);
    board.name("steps.pulley", add(pulley, (16.0, 4.0)), (1.0, 0.2), 10.0);
    Ok(())
}
