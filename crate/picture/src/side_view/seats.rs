//! Where the labels of arrows and ropes may sit.

use crate::drawing::vec2::{P, add, between, left_of, sub, times, unit};
use crate::{Edge, Seat};

/// What an arrow lies on: half its width, px, and whether it goes on beyond the arrow's free end, so that a label
/// farther along it is still seen to be its.
#[derive(Clone, Copy)]
pub(crate) struct On {
    pub half: f64,
    pub goes_on: bool,
}

/// The seats of a label of an arrow from its tail to its tip: beside its free end on the open side, along it, beside
/// it on the other side, then off it with a leader, near and farther, and last in the margin column.
///
/// `open` is 1 where the open side is on the left of the way from tail to tip, −1 where it is on the right; `free`
/// is the share of the way at which its free end is: 0 the tail, 1 the tip.
pub(crate) fn of_arrow(
    (tail, tip): (P, P),
    open: f64,
    free: f64,
    on: On,
    margin: &Margin,
    k: f64,
) -> Vec<Seat> {
    let way = unit(sub(tip, tail), (0.0, -1.0));
    let at = |share: f64| between(tail, tip, share);
    let toward = |side: f64| times(left_of(way), side);
    let near = |towards: f64| if free > 0.5 { towards } else { 1.0 - towards };
    let off = on.half;
    let gap = off + 11.5 * k;
    let mut seats = Vec::with_capacity(64);
    let onward = if free > 0.5 { way } else { times(way, -1.0) };
    // Beside the line on one side; where the line is nearly level, flush left and right too.
    let beside = |seats: &mut Vec<Seat>, share: f64, side: f64| {
        let seat = Seat::beside(at(share), toward(side), gap);
        seats.push(seat);
        if seat.across == Edge::Middle {
            seats.push(Seat { across: Edge::Far, ..seat });
            seats.push(Seat { across: Edge::Near, ..seat });
        }
    };
    beside(&mut seats, near(1.0), open);
    beside(&mut seats, 0.5, open);
    // Off the free end, on its open side.
    seats.push(Seat::beside(at(free), unit(add(toward(open), onward), onward), gap));
    for share in [near(0.75), near(0.25), near(1.25), near(1.5)] {
        beside(&mut seats, share, open);
    }
    for share in [near(1.0), 0.5, near(0.75), near(0.25), near(1.25)] {
        beside(&mut seats, share, -open);
    }
    seats.push(Seat::beside(at(1.0 - free), toward(open), gap));
    // Farther along the part that the arrow lies on.
    let onwards: &[f64] = if on.goes_on { &[16.0, 36.0, 60.0, 90.0, 125.0] } else { &[] };
    for side in [open, -open] {
        for beyond in onwards {
            let place = add(at(free), times(onward, beyond * k));
            seats.push(Seat::beside(place, toward(side), gap));
        }
    }
    // Off it with a leader: straight across, or square to it.
    for far in [22.0, 40.0, 62.0, 90.0] {
        for share in [0.5, near(0.75), near(0.25)] {
            for side in [open, -open] {
                let foot = at(share);
                for to in [(toward(side).0.signum(), 0.0), toward(side)] {
                    let seat = Seat::beside(foot, to, off + far * k);
                    seats.push(seat.led_to(add(foot, times(to, off.max(3.0 * k)))));
                }
            }
        }
    }
    for at_margin in margin.places(k) {
        seats.push(Seat::beside(at_margin, (1.0, 0.0), 0.0).led_to(at(0.5)));
    }
    seats
}

/// The columns right of the load line where labels go that have no room at their arrows.
#[derive(Clone, Copy)]
pub(crate) struct Margin {
    /// Left edge of the first, px.
    pub left: f64,
    /// From here, px.
    pub top: f64,
    /// To here, px.
    pub bottom: f64,
}

impl Margin {
    fn places(&self, k: f64) -> impl Iterator<Item = P> + '_ {
        const ROWS: u32 = 8;
        (0..3 * ROWS).map(move |place| {
            let (column, row) = (f64::from(place / ROWS), f64::from(place % ROWS) / f64::from(ROWS - 1));
            (self.left + column * 36.0 * k, self.top + (self.bottom - self.top) * row)
        })
    }
}

/// The seats of the name of a slack rope: under it or over it, from its middle out.
pub(crate) fn along(curve: &[P], under_first: bool, k: f64) -> Vec<Seat> {
    let mut seats = Vec::new();
    let last = curve.len().saturating_sub(1) as f64;
    for flip in [false, true] {
        for share in [0.5, 0.6, 0.4, 0.7, 0.3, 0.8, 0.2] {
            let i = libm::round(last * share) as usize;
            let (Some(a), Some(b)) = (curve.get(i), curve.get(i + 1).or_else(|| curve.last())) else {
                continue;
            };
            let normal = left_of(unit(sub(*b, *a), (1.0, 0.0)));
            // Up the plate, or down it.
            let up = if normal.1 < 0.0 { normal } else { times(normal, -1.0) };
            let toward = if under_first == flip { up } else { times(up, -1.0) };
            seats.push(Seat::beside(*a, toward, 7.0 * k));
        }
    }
    // Off it with a leader.
    for far in [24.0, 44.0] {
        for seat in 0..14 {
            let Some(near) = seats.get(seat).copied() else { continue };
            let way = |edge| match edge {
                Edge::Near => far * k,
                Edge::Middle => 0.0,
                Edge::Far => -far * k,
            };
            let at = add(near.at, (way(near.across), way(near.upright)));
            seats.push(Seat { at, ..near }.led_to(near.at));
        }
    }
    seats
}
