//! Whole poles and rope, before anything is lashed: chosen, inspected, laid out and marked; and spread once they are lashed.

use super::bench::grain;
use super::board::{Board, SIZE};
use super::strand::{smooth, strand};
use crate::drawing::vec2::{P, along, left_of, sub, times, unit};
use crate::{Path, Role};
use outlean_rig::{Fault, Layout, Rig};

/// What is seen from above.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Laid {
    Choose,
    Cordage,
    Mark,
    FootTie,
    Spread,
}

/// A pole of the rig, px: length, thickness at butt and tip, lashing from the butt.
struct Pole {
    long: f64,
    butt: f64,
    tip: f64,
    mark: f64,
    scale: f64,
}

impl Pole {
    fn of(rig: &Rig, room: f64) -> Self {
        let leg = rig.legs.left;
        let scale = room / leg.length.max(0.5);
        let tip = leg.pole.tip_diameter.or(leg.pole.butt_diameter).unwrap_or(0.1);
        let butt = leg.pole.butt_diameter.unwrap_or(tip);
        Self {
            long: leg.length * scale,
            butt: butt * scale,
            tip: tip * scale,
            mark: (leg.length - leg.lashing_below_tip) * scale,
            scale,
        }
    }

    /// Draws it from its butt along a way.
    fn draw(&self, board: &mut Board, butt: P, way: P) {
        let tip = along(butt, way, self.long);
        let aside = left_of(way);
        let (a, b) = (times(aside, 0.5 * self.butt), times(aside, 0.5 * self.tip));
        let corner = |at: P, off: P, side: f64| (at.0 + off.0 * side, at.1 + off.1 * side);
        let outline =
            [corner(butt, a, 1.0), corner(tip, b, 1.0), corner(tip, b, -1.0), corner(butt, a, -1.0)];
        board.scene().part_path(Path::polygon(&outline), Role::Timber, "pole");
        board.sheet.keep_clear(butt, tip, 0.5 * self.butt, true);
    }
}

/// From left to right.
const EAST: P = (1.0, 0.0);

pub(super) fn draw(board: &mut Board, rig: &Rig, laid: Laid) -> Result<(), Fault> {
    match laid {
        Laid::Choose => choose(board, rig),
        Laid::Cordage => cordage(board),
        Laid::Mark => mark(board, rig),
        Laid::FootTie => foot_tie(board, rig),
        Laid::Spread => return spread(board, rig),
    }
    Ok(())
}

/// Three poles: a sound one with a string along it, a crooked one, one with knots and a split.
fn choose(board: &mut Board, rig: &Rig) {
    let pole = Pole::of(rig, 292.0);
    let left = 14.0;
    let rows = [62.0, 124.0, 188.0];
    // Sound: a string from end to end touches it all along.
    let [first, second, third] = rows;
    pole.draw(board, (left, first), EAST);
    grain(board.scene(), (left + 6.0, left + pole.long - 6.0), |x| {
        let half = 0.5 * (pole.butt + (pole.tip - pole.butt) * (x - left) / pole.long);
        (first - half, first + half)
    });
    let string = |y: f64| [(left - 4.0, y), (left + pole.long + 4.0, y)];
    let [from, to] = string(first + 0.5 * pole.butt);
    board.scene().line(from, to, Role::Cord, "string");
    board.measure(
        (left + pole.long - 5.0, first - 0.5 * pole.tip - 9.0),
        (left + pole.long - 5.0, first + 0.5 * pole.tip + 9.0),
    );
    board.name("steps.thinnest", (left + pole.long - 8.0, first - 14.0), (-0.4, -1.0), 4.0);
    board.name("steps.string", (left + 66.0, first + 0.5 * pole.butt), (0.2, 1.0), 5.0);
    // Crooked: the string stands off in the middle.
    let bow = 0.055 * pole.long;
    let edge = |side: f64| -> Vec<P> {
        (0..=16)
            .map(|i| {
                let t = f64::from(i) / 16.0;
                let half = 0.5 * (pole.butt + (pole.tip - pole.butt) * t);
                (left + pole.long * t, second - 4.0 * bow * t * (1.0 - t) + side * half)
            })
            .collect()
    };
    let mut outline = edge(-1.0);
    outline.extend(edge(1.0).into_iter().rev());
    board.scene().part_path(Path::polygon(&outline), Role::Timber, "pole");
    board.sheet.keep_clear(
        (left, second - 0.5 * bow),
        (left + pole.long, second - 0.5 * bow),
        0.5 * bow + pole.butt * 0.5,
        true,
    );
    let [from, to] = string(second + 0.5 * pole.butt);
    board.scene().line(from, to, Role::Cord, "string");
    let x = left + 0.5 * pole.long;
    board.measure((x, second - bow + 0.5 * pole.butt), (x, second + 0.5 * pole.butt));
    board.name("steps.gap", (x + 6.0, second + 0.5 * pole.butt - 3.0), (0.6, 1.0), 8.0);
    // Knots in a ring, a split.
    pole.draw(board, (left, third), EAST);
    let knots = left + 0.36 * pole.long;
    for (dx, dy) in [(-3.0, -2.4), (2.5, 1.2), (7.0, -1.8), (-7.0, 2.2)] {
        board.scene().circle((knots + dx, third + dy), 1.8, Role::Wrap, "knot");
    }
    let split: Vec<P> = (0..=10)
        .map(|i| {
            (left + pole.long * (0.62 + 0.026 * f64::from(i)), third + if i % 2 == 0 { -1.6 } else { 1.2 })
        })
        .collect();
    board.scene().part_path(Path::through(&split), Role::Bar, "split");
    board.name("steps.knots", (knots, third + 4.0), (-0.3, 1.0), 8.0);
    board.name("steps.split", (left + 0.76 * pole.long, third + 2.0), (0.4, 1.0), 8.0);
}

/// Rope through the hand: what a finger finds.
fn cordage(board: &mut Board) {
    let half = 5.5;
    let line = smooth(&[
        (-10.0, 60.0),
        (60.0, 46.0),
        (150.0, 62.0),
        (236.0, 56.0),
        (286.0, 92.0),
        (262.0, 138.0),
        (190.0, 142.0),
        (120.0, 132.0),
        (54.0, 150.0),
        (34.0, 196.0),
        (84.0, 222.0),
        (170.0, 208.0),
        (250.0, 214.0),
        (330.0, 200.0),
    ]);
    strand(board.scene(), &line, half, "rope");
    board.sheet.keep_clear_along(&line, half, true);
    let at = |share: f64| {
        let i = libm::round(share * (line.len().saturating_sub(1)) as f64) as usize;
        let here = line.get(i).copied().unwrap_or((0.0, 0.0));
        let next = line.get(i + 1).copied().unwrap_or(here);
        (here, unit(sub(next, here), EAST))
    };
    // A cut sheath: white strands stand out of it.
    let (cut, way) = at(0.2);
    let mut fluff = Path::new();
    for (along_it, out) in [(-7.0, 12.0), (-3.0, 15.0), (1.0, 13.0), (5.0, 15.0), (8.0, 11.0)] {
        let root = along(along(cut, way, 0.5 * along_it), left_of(way), 0.2 * half);
        fluff.add_line(root, along(along(cut, way, along_it), left_of(way), out));
    }
    board.scene().part_path(fluff, Role::Cord, "fluff");
    board.name("steps.cut_sheath", along(cut, left_of(way), 14.0), (0.3, -1.0), 6.0);
    // A flat, soft place: the rope is narrow there, between two thumbs.
    let (soft, way) = at(0.56);
    let paper = Path::polygon(&[
        along(along(soft, way, -12.0), left_of(way), half + 1.5),
        along(along(soft, way, 12.0), left_of(way), half + 1.5),
        along(along(soft, way, 12.0), left_of(way), -half - 1.5),
        along(along(soft, way, -12.0), left_of(way), -half - 1.5),
    ]);
    board.scene().part_path(paper, Role::Break, "soft place");
    let side = |sign: f64| {
        [(-13.0, half), (-6.0, 2.6), (0.0, 2.0), (6.0, 2.6), (13.0, half)]
            .map(|(on, off)| along(along(soft, way, sign * on), left_of(way), sign * off))
    };
    let pinched: Vec<P> = side(1.0).into_iter().chain(side(-1.0)).collect();
    board.scene().part_path(Path::polygon(&pinched), Role::Wrap, "soft place");
    board.name("steps.soft_place", along(soft, left_of(way), -9.0), (-0.2, 1.0), 10.0);
    // Glazed: a shine along it.
    let (glazed, way) = at(0.9);
    for off in [-2.2, 0.4] {
        let aside = times(left_of(way), off);
        let from = along(glazed, way, -16.0);
        let to = along(glazed, way, 16.0);
        let (from, to) = ((from.0 + aside.0, from.1 + aside.1), (to.0 + aside.0, to.1 + aside.1));
        board.scene().line(from, to, Role::Core, "glazed");
        board.scene().line(from, to, Role::Cord, "glazed");
    }
    board.name("steps.glazed", along(glazed, left_of(way), 7.0), (0.1, -1.0), 7.0);
    // The bend shows a damaged core.
    board.name("steps.bend", (280.0, 112.0), (-1.0, -0.1), 30.0);
    let (end, way) = at(0.06);
    board.moves(&[
        along(along(end, left_of(way), 14.0), way, -4.0),
        along(along(end, left_of(way), 14.0), way, 24.0),
    ]);
    board.name("steps.every_metre", along(end, left_of(way), 16.0), (0.5, -1.0), 6.0);
}

/// Where both poles lie, one beside the other, and how far apart.
fn beside(pole: &Pole, rig: &Rig) -> (f64, [f64; 2]) {
    let gap = rig.gear.lashing.as_laid().spacer * pole.scale;
    let middle = 0.5 * SIZE.1 - 4.0;
    let off = 0.5 * (pole.butt + gap.max(3.0));
    (middle, [middle - off, middle + off])
}

fn pair(board: &mut Board, rig: &Rig) -> (Pole, f64, f64, [f64; 2]) {
    let pole = Pole::of(rig, 278.0);
    let left = 22.0;
    let (middle, rows) = beside(&pole, rig);
    // Bearers under them.
    for share in [0.14, 0.8] {
        let x = left + share * pole.long;
        let half = 4.5;
        let log = Path::rectangle(x - half, middle - 34.0, x + half, middle + 34.0);
        board.scene().part_path(log, Role::Timber, "bearer");
    }
    for y in rows {
        pole.draw(board, (left, y), EAST);
    }
    (pole, left, middle, rows)
}

fn mark(board: &mut Board, rig: &Rig) {
    let (pole, left, middle, [upper, lower]) = pair(board, rig);
    let x = left + pole.mark;
    for y in [upper, lower] {
        board.scene().line((x, y - 0.5 * pole.butt), (x, y + 0.5 * pole.butt), Role::Stop, "mark");
    }
    // Butts level against a straight edge.
    board.scene().line((left - 1.5, middle - 24.0), (left - 1.5, middle + 24.0), Role::Axis, "level");
    let y = lower + 0.5 * pole.butt + 26.0;
    board.measure((left, y), (x, y));
    let long = Board::long(pole.mark / pole.scale);
    board.name_with("steps.from_butts", ("long", &long), (0.5 * (left + x), y), (0.0, 1.0), 5.0);
    board.name("steps.butts_level", (left, middle - 20.0), (0.5, -1.0), 8.0);
    board.name("steps.mark_both", (x, upper - 2.0), (-0.7, -1.0), 30.0);
    board.name("steps.bearer", (left + 0.14 * pole.long, middle + 33.0), (0.6, 1.0), 46.0);
    let y = upper - 0.5 * pole.butt - 14.0;
    board.measure((x, y), (left + pole.long, y));
    board.name("steps.above_it", (0.5 * (x + left + pole.long), y), (0.0, -1.0), 6.0);
}

fn foot_tie(board: &mut Board, rig: &Rig) {
    let (pole, left, middle, [upper, lower]) = pair(board, rig);
    for y in [upper, lower] {
        let x = left + pole.mark;
        board.scene().line((x, y - 0.5 * pole.butt), (x, y + 0.5 * pole.butt), Role::Stop, "mark");
    }
    let (top, bottom) = (upper - 0.5 * pole.butt - 2.0, lower + 0.5 * pole.butt + 2.0);
    for turn in 0..3 {
        let x = left + 20.0 + 4.6 * f64::from(turn);
        strand(board.scene(), &[(x - 0.8, bottom), (x + 0.8, top)], 2.2, "foot tie");
    }
    let bow = smooth(&[
        (left + 25.0, top + 1.0),
        (left + 34.0, top - 9.0),
        (left + 44.0, top - 7.0),
        (left + 52.0, top - 13.0),
    ]);
    strand(board.scene(), &bow, 2.2, "foot tie");
    board.name("steps.foot_tie", (left + 25.0, bottom), (0.3, 1.0), 34.0);
    board.name("steps.mark", (left + pole.mark, top + 3.0), (-0.2, -1.0), 26.0);
    // What it keeps from happening.
    let tip = (left + pole.long - 4.0, middle);
    board.moves(&[(tip.0, upper - 12.0), (tip.0, upper - 34.0)]);
    board.moves(&[(tip.0, lower + 12.0), (tip.0, lower + 34.0)]);
    board.name("steps.would_scissor", (tip.0, lower + 30.0), (-1.0, 0.6), 10.0);
}

/// The feet spread: the poles cross at the lashing.
fn spread(board: &mut Board, rig: &Rig) -> Result<(), Fault> {
    let layout = Layout::of(rig, 0.0)?;
    let pole = Pole::of(rig, 272.0);
    let half = 0.5 * layout.spread;
    let working = layout.working_length.left;
    let sine = (half / working).clamp(-0.7, 0.7);
    let cosine = libm::sqrt(1.0 - sine * sine);
    let middle = 0.5 * SIZE.1 - 2.0;
    let left = 34.0;
    let feet = [-1.0, 1.0].map(|side| (left, middle + side * half * pole.scale));
    let head = (left + working * cosine * pole.scale, middle);
    for (foot, side) in feet.iter().zip([1.0, -1.0]) {
        pole.draw(board, *foot, (cosine, side * sine));
    }
    let turns = 5;
    for turn in 0..turns {
        let x = head.0 + (f64::from(turn) - 0.5 * f64::from(turns - 1)) * 3.6;
        let high = 0.5 * pole.tip + (x - head.0).abs() * sine / cosine + 3.5;
        strand(board.scene(), &[(x - 0.8, middle + high), (x + 0.8, middle - high)], 1.8, "lashing");
    }
    for (foot, side) in feet.iter().zip([-1.0, 1.0]) {
        let from = (foot.0 + 30.0, foot.1 - side * 26.0);
        board.moves(&[from, (foot.0 + 26.0, foot.1 - side * 9.0)]);
    }
    board.measure((left - 16.0, feet[0].1), (left - 16.0, feet[1].1));
    let wide = Board::long(layout.spread);
    board.name_with("steps.feet_apart", ("wide", &wide), (left - 16.0, middle), (1.0, 0.0), 11.0);
    board.name("steps.tightens", (head.0, middle + 12.0), (-0.2, 1.0), 22.0);
    Ok(())
}
