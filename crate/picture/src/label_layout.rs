//! Seating labels: no two overlap, none leaves the plate, none covers an arrow.

use crate::drawing::local::{Local, Place, table};
use crate::label::ROW;
use crate::sort_few::sort_few;
use crate::{Anchor, Area, Edge, Label, LabelKey, Path, Role, Scene, type_scale};

/// Something that labels keep clear of: a straight stroke of some half width, px.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Obstacle {
    /// One end.
    pub from: (f64, f64),
    /// The other; the same for a spot.
    pub to: (f64, f64),
    /// Room on either side.
    pub half: f64,
    /// Whether a label may be laid over it where there is no better seat: a rope, a leg. Never an arrow.
    pub soft: bool,
}

impl Obstacle {
    /// How much of a stroke a box covers, px²; 0 where it meets none of it.
    pub(crate) fn covered(&self, bounds: Area) -> f64 {
        let room = bounds.grown(self.half);
        if self.from == self.to {
            let (x, y) = self.from;
            let spot = Area { left: x, top: y, right: x, bottom: y };
            return if room.holds(spot) { 4.0 * self.half * self.half } else { 0.0 };
        }
        let share = room.share_of_line(self.from, self.to);
        if share <= 0.0 {
            return 0.0;
        }
        share * libm::hypot(self.to.0 - self.from.0, self.to.1 - self.from.1) * 2.0 * self.half
    }
}

/// Which seat each label had, so that it keeps it from frame to frame.
#[derive(Clone, Debug, PartialEq, Eq, Default)]
pub struct Seats(Vec<(LabelKey, usize)>);

impl Seats {
    fn of(&self, key: LabelKey) -> Option<usize> {
        self.0.iter().find(|(each, _)| *each == key).map(|(_, seat)| *seat)
    }
}

/// A label that found a seat.
#[derive(Clone, Debug, PartialEq)]
pub struct Seated {
    /// Its place in the list of labels.
    pub label: usize,
    /// Which of its seats.
    pub seat: usize,
    /// Its box, px.
    pub bounds: Area,
    /// The ends of its leader.
    pub leader: Option<((f64, f64), (f64, f64))>,
}

/// Room round a label, px at k = 1.
pub(crate) const ROOM: f64 = 4.0;
/// Room that a better seat must have before a label goes back to it.
const ROOM_TO_RETURN: f64 = 8.0;
/// What a leader may cross: one rope or leg, at what it would cost to cover so much of it, px² at k = 1.
const CROSSING: f64 = 60.0;
/// How far a leader may lead for nothing, and at the most, px at k = 1.
const SHORT: f64 = 46.0;
const LONGEST: f64 = 130.0;
/// How much of ropes and legs a label may cover, px² at k = 1: a thin rope across a corner of it.
pub(crate) const COVER: f64 = 220.0;

/// Seats the labels on a plate, those of low rank first. A label takes its first seat whose box, with room
/// round it, lies on the plate and meets no label, arrow, leader, rope or leg, and whose leader is short and crosses
/// nothing; failing that, of the seats where it meets at most a little of ropes and its leader crosses at most one
/// of them, the one where least is covered; failing that it is left out. It keeps the
/// seat it had in `before` until that is hit, and goes back when a better one is free with room to spare.
#[must_use]
pub fn seat_labels(
    labels: &[Label],
    obstacles: &[Obstacle],
    plate: Area,
    k: f64,
    before: &Seats,
) -> Vec<Seated> {
    let mut order: Vec<usize> = (0..labels.len()).collect();
    sort_few(&mut order, |i| labels.get(*i).map_or(f64::MAX, |label| f64::from(label.rank)));
    let mut seated: Vec<Seated> = Vec::new();
    for i in order {
        let Some(label) = labels.get(i) else { continue };
        let size = label.size(k);
        // A seat that is free, and what it costs.
        let place = |seat: usize, room: f64| -> Option<(f64, Seated)> {
            let taken = label.seats.get(seat)?;
            let bounds = taken.bounds(size);
            let leader = taken.leader.map(|to| (leader_start(bounds, to), to));
            let roomy = bounds.grown(room);
            if !plate.holds(bounds) || seated.iter().any(|other| clash(other, roomy, leader)) {
                return None;
            }
            let mut cost = match leader {
                Some(leader) => leads(leader, obstacles, k)?,
                None => 0.0,
            };
            for each in obstacles {
                let covered = each.covered(roomy);
                if covered > 0.0 && !each.soft {
                    return None;
                }
                cost += covered;
            }
            Some((cost, Seated { label: i, seat, bounds, leader }))
        };
        let free = |seat: usize, room: f64| place(seat, room).filter(|(cost, _)| *cost <= 0.0);
        let room = ROOM * k;
        let kept = before.of(label.key);
        let mut best = kept
            .and_then(|kept| (0..kept).find_map(|seat| free(seat, ROOM_TO_RETURN * k)))
            .or_else(|| free(kept?, room));
        if best.is_none() {
            let most = if label.timid { 0.0 } else { COVER * k * k };
            for seat in 0..label.seats.len() {
                let Some((mut cost, found)) = place(seat, room) else { continue };
                if cost > most {
                    continue;
                }
                // A little better is no reason to move.
                if kept == Some(seat) {
                    cost *= 0.5;
                }
                if best.as_ref().is_none_or(|(least, _)| cost < *least) {
                    best = Some((cost, found));
                }
                if cost <= 0.0 {
                    break;
                }
            }
        }
        seated.extend(best.map(|(_, found)| found));
    }
    seated
}

/// What to pass as `before` for the next frame.
#[must_use]
pub(crate) fn seats_taken(labels: &[Label], seated: &[Seated]) -> Seats {
    Seats(seated.iter().filter_map(|each| Some((labels.get(each.label)?.key, each.seat))).collect())
}

/// Where the leader leaves the box: the middle of the side that faces its end. An end above or below that is hardly
/// aside is faced by top or bottom: from a side the leader would run along the letters.
fn leader_start(bounds: Area, to: (f64, f64)) -> (f64, f64) {
    let middle = ((bounds.left + bounds.right) / 2.0, (bounds.top + bounds.bottom) / 2.0);
    let aside = (bounds.left - to.0).max(to.0 - bounds.right);
    if aside > 2.5 {
        if to.0 < middle.0 { (bounds.left - 3.0, middle.1) } else { (bounds.right + 3.0, middle.1) }
    } else if to.1 < middle.1 {
        (middle.0, bounds.top - 2.0)
    } else {
        (middle.0, bounds.bottom + 2.0)
    }
}

/// Whether a label already seated meets a box, or either meets the leader of the other, or the leaders cross.
fn clash(other: &Seated, bounds: Area, leader: Option<((f64, f64), (f64, f64))>) -> bool {
    other.bounds.meets(bounds)
        || other.leader.is_some_and(|(from, to)| bounds.meets_line(from, to))
        || leader.is_some_and(|(from, to)| other.bounds.grown(2.0).meets_line(from, to))
        || leader.zip(other.leader).is_some_and(|(a, b)| cross(a, b))
}

/// What a leader costs; `None` for one that is too long, or crosses an arrow, a pointer or a scale, or more than one
/// rope or leg.
fn leads((from, to): ((f64, f64), (f64, f64)), obstacles: &[Obstacle], k: f64) -> Option<f64> {
    let long = libm::hypot(to.0 - from.0, to.1 - from.1);
    if long > LONGEST * k {
        return None;
    }
    // It ends on the arrow that it leads to: short of that nothing may be in its way.
    let share = 1.0 - (4.0 * k / long.max(1e-9)).min(1.0);
    let short = (from, (from.0 + (to.0 - from.0) * share, from.1 + (to.1 - from.1) * share));
    let mut crossed = 0;
    for each in obstacles {
        if each.from != each.to && cross(short, (each.from, each.to)) {
            crossed += 1;
            if !each.soft || crossed > 1 {
                return None;
            }
        }
    }
    Some(f64::from(crossed) * CROSSING * k * k + (long - SHORT * k).max(0.0) * k)
}

fn cross(a: ((f64, f64), (f64, f64)), b: ((f64, f64), (f64, f64))) -> bool {
    let turn =
        |p: (f64, f64), q: (f64, f64), r: (f64, f64)| (q.0 - p.0) * (r.1 - p.1) - (q.1 - p.1) * (r.0 - p.0);
    turn(a.0, a.1, b.0) * turn(a.0, a.1, b.1) <= 0.0 && turn(b.0, b.1, a.0) * turn(b.0, b.1, a.1) <= 0.0
}

/// Draws the seated labels: leaders first, so that no halo is struck through.
pub fn draw_labels(scene: &mut Scene, labels: &[Label], seated: &[Seated]) {
    for each in seated {
        if let Some((from, to)) = each.leader {
            scene.line(from, to, Role::Leader, "");
        }
    }
    let (k, scale) = (scene.k, type_scale(scene.k));
    for each in seated {
        let Some(label) = labels.get(each.label) else { continue };
        if label.in_line {
            let gap = each.bounds.grown(3.0 * k);
            let middle = (gap.top + gap.bottom) / 2.0;
            // Just the line itself: no more paper than it takes.
            let gap = Path::rectangle(gap.left, middle - 2.0 * k, gap.right, middle + 2.0 * k);
            scene.path(gap, Role::Break);
        }
        let across = label.seats.get(each.seat).map_or(Edge::Near, |seat| seat.across);
        let (mut baseline, width) = (each.bounds.top + label.ends(k).0, each.bounds.right - each.bounds.left);
        for row in &label.rows {
            let start = each.bounds.left
                + match across {
                    Edge::Near => 0.0,
                    Edge::Middle => (width - row.width(k)) / 2.0,
                    Edge::Far => width - row.width(k),
                };
            // Set from the edge that stays where it is when the number changes.
            let text_width = row.text_width(k);
            let (x, anchor) = match across {
                Edge::Near => (start, Anchor::Start),
                Edge::Middle => (start + text_width / 2.0, Anchor::Middle),
                Edge::Far => (start + text_width, Anchor::End),
            };
            scene.text((x, baseline), row.text.clone(), anchor, Role::Text(row.lettering, row.tone));
            if row.past {
                draw_past(scene, (start + text_width + 6.0 * scale, baseline), scale);
            }
            baseline += ROW * scale;
        }
    }
}

/// The brackets of the mark, to the right of its place and up from it; px at type of size 1.
const FIRST: [Place; 4] = table([(2.4, 9.6), (0.0, 9.6), (0.0, 0.4), (2.4, 0.4)]);
const SECOND: [Place; 4] = table([(8.6, 9.6), (11.0, 9.6), (11.0, 0.4), (8.6, 0.4)]);

/// The mark `[ ] •`: outside.
fn draw_past(scene: &mut Scene, at: (f64, f64), scale: f64) {
    let local = Local::upright(at, scale);
    let mut brackets = Path::through(&local.points(&FIRST));
    brackets.add_through(&local.points(&SECOND));
    scene.path(brackets, Role::MarkBracket);
    scene.circle(local.at(16.6, 5.0), 2.7 * scale, Role::MarkDot, "past");
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{Lettering, Row, Seat, Tone};

    const PLATE: Area = Area { left: 0.0, top: 0.0, right: 200.0, bottom: 100.0 };

    fn label(n: u8, seats: &[(f64, f64)]) -> Label {
        let seat = |at: &(f64, f64)| Seat { at: *at, across: Edge::Near, upright: Edge::Near, leader: None };
        Label {
            key: ("label", n),
            rows: vec![Row::new("load".to_owned(), Lettering::Name, Tone::Ink)],
            seats: seats.iter().map(seat).collect(),
            rank: n,
            timid: false,
            in_line: false,
        }
    }

    fn spot(x: f64, y: f64, soft: bool) -> Obstacle {
        Obstacle { from: (x, y), to: (x, y), half: 3.0, soft }
    }

    #[test]
    fn a_lower_rank_sits_first_and_the_last_is_left_out() {
        let labels = [label(1, &[(10.0, 10.0)]), label(0, &[(12.0, 12.0)])];
        let seated = seat_labels(&labels, &[], PLATE, 1.0, &Seats::default());
        assert_eq!(seated.iter().map(|s| s.label).collect::<Vec<_>>(), [1]);
    }

    #[test]
    fn a_label_avoids_a_rope_covers_little_of_one_if_it_must_and_never_an_arrow() {
        let labels = [label(0, &[(10.0, 10.0), (100.0, 10.0)])];
        let sits = |obstacles: &[Obstacle]| {
            seat_labels(&labels, obstacles, PLATE, 1.0, &Seats::default()).first().map(|s| s.seat)
        };
        assert_eq!(sits(&[]), Some(0));
        assert_eq!(sits(&[spot(15.0, 15.0, true)]), Some(1));
        assert_eq!(sits(&[spot(15.0, 15.0, true), spot(105.0, 15.0, true)]), Some(0));
        assert_eq!(sits(&[spot(15.0, 15.0, true), spot(105.0, 15.0, false)]), Some(0));
        assert_eq!(sits(&[spot(15.0, 15.0, false), spot(105.0, 15.0, false)]), None);
        // The seat where less is covered; none where it is much.
        let across = |x: f64, half| Obstacle { from: (x, 0.0), to: (x, 100.0), half, soft: true };
        assert_eq!(sits(&[across(15.0, 2.5), across(105.0, 2.0)]), Some(1));
        assert_eq!(sits(&[across(15.0, 25.0), across(105.0, 25.0)]), None);
    }

    #[test]
    fn a_label_keeps_its_seat_until_hit_and_goes_back_with_room_to_spare() {
        let labels = [label(0, &[(10.0, 10.0), (100.0, 10.0)])];
        let mut seats = Seats::default();
        let mut step = |x: f64| {
            let seated = seat_labels(&labels, &[spot(x, 15.0, false)], PLATE, 1.0, &seats);
            seats = seats_taken(&labels, &seated);
            seated.first().map(|s| s.seat)
        };
        assert_eq!(step(60.0), Some(0));
        assert_eq!(step(15.0), Some(1));
        let right = 10.0 + labels[0].size(1.0).0;
        // Free by 5 px is not enough to go back, by 9 px it is.
        assert_eq!(step(right + 3.0 + 5.0), Some(1));
        assert_eq!(step(right + 3.0 + 9.0), Some(0));
        assert_eq!(step(right + 3.0 + 5.0), Some(0));
    }

    #[test]
    fn a_leader_may_cross_one_rope_and_no_arrow_and_is_short() {
        let sits = |to: f64, obstacles: &[Obstacle]| {
            let mut led = label(0, &[(160.0, 40.0)]);
            led.seats[0].leader = Some((to, 50.0));
            seat_labels(&[led], obstacles, PLATE, 1.0, &Seats::default()).len()
        };
        let across = |x: f64, soft| Obstacle { from: (x, 0.0), to: (x, 100.0), half: 2.0, soft };
        assert_eq!(sits(100.0, &[across(120.0, true)]), 1);
        assert_eq!(sits(100.0, &[across(120.0, true), across(130.0, true)]), 0);
        assert_eq!(sits(100.0, &[across(120.0, false)]), 0);
        assert_eq!((sits(40.0, &[]), sits(10.0, &[])), (1, 0));
    }

    #[test]
    fn nothing_leaves_the_plate() {
        let labels = [label(0, &[(-2.0, 10.0), (190.0, 10.0), (10.0, 95.0)])];
        assert!(seat_labels(&labels, &[], PLATE, 1.0, &Seats::default()).is_empty());
    }
}
