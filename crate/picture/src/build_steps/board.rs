//! The plate of a step: its matter, the names beside it, the mark of a hold point.

use crate::drawing::arrow;
use crate::drawing::local::{Local, Place, table};
use crate::drawing::sheet::{Finished, Sheet};
use crate::drawing::vec2::{P, add, along, length, sub, times, unit};
use crate::{Area, Edge, Kind, Lettering, Path, Role, Row, Scene, Seat, Tone, Words};
use outlean_rigfile::{Units, show};

/// Width and height of a plate, px: small enough for the narrowest page, drawn larger where there is room.
pub(super) const SIZE: (f64, f64) = (320.0, 240.0);
/// Height of a plate of the whole site, which is low and wide, px.
pub(super) const LOW: f64 = 204.0;
/// What lies on it keeps so far from its edges, px.
const MARGIN: f64 = 5.0;

/// A step in the making.
pub(super) struct Board<'a> {
    pub sheet: Sheet,
    words: &'a Words,
}

/// The open tip of an arrow that says which way something moves.
const TIP: [Place; 3] = table([(8.0, 4.0), (0.0, 0.0), (8.0, -4.0)]);

impl<'a> Board<'a> {
    pub(super) fn new(words: &'a Words, height: f64) -> Self {
        Self { sheet: Sheet::new(Scene::new(SIZE.0, height, 1.0)), words }
    }

    /// The shapes.
    pub(super) const fn scene(&mut self) -> &mut Scene {
        &mut self.sheet.scene
    }

    /// Names what is at `target`: beside it, first on the side that `toward` points to, `near` px off; then farther off,
    /// with a leader.
    pub(super) fn name(&mut self, key: &'static str, target: P, toward: P, near: f64) {
        let text = self.words.say(key).to_owned();
        self.say(key, text, target, toward, near);
    }

    /// Names it with a number in the place of its words.
    pub(super) fn name_with(
        &mut self,
        key: &'static str,
        (place, value): (&str, &str),
        target: P,
        toward: P,
        near: f64,
    ) {
        let text = self.words.fill(key, &[(place, value)]);
        self.say(key, text, target, toward, near);
    }

    fn say(&mut self, key: &'static str, text: String, target: P, toward: P, near: f64) {
        const TURNS: [f64; 9] = [0.0, 0.45, -0.45, 0.9, -0.9, 1.5, -1.5, 2.2, -2.2];
        const OFF: [f64; 6] = [14.0, 26.0, 40.0, 58.0, 78.0, 98.0];
        let way = unit(toward, (0.0, -1.0));
        let turned = |by: f64| {
            let (sine, cosine) = (libm::sin(by), libm::cos(by));
            (way.0 * cosine - way.1 * sine, way.0 * sine + way.1 * cosine)
        };
        let first = Seat::beside(target, way, near);
        let led = |seat: Seat, to: P| seat.led_to(along(target, to, near.min(3.0)));
        let mut seats = vec![if near > 12.0 { led(first, way) } else { first }];
        for off in OFF {
            for turn in TURNS {
                let to = turned(turn);
                seats.push(led(Seat::beside(target, to, near.min(24.0) + off), to));
            }
        }
        let number = self.sheet.labels.len() as u8;
        let rows = text.split('\n').map(|row| Row::new(row.to_owned(), Lettering::Name, Tone::Ink)).collect();
        self.sheet.label((key, number), number, rows, seats);
    }

    /// A length in words.
    pub(super) fn long(metres: f64) -> String {
        show(metres, outlean_rig::Dimension::Length, Units::Metric).to_string()
    }

    /// A short length in words, in millimetres.
    pub(super) fn millimetres(metres: f64) -> String {
        format!("{:.0}\u{2009}mm", metres * 1000.0)
    }

    /// An angle in words.
    pub(super) fn angle(radians: f64) -> String {
        show(radians, outlean_rig::Dimension::Angle, Units::Metric).to_string()
    }

    /// Which way something moves: a thin line through these places with a tip at the last.
    pub(super) fn moves(&mut self, places: &[P]) {
        self.scene().part_path(Path::through(places), Role::PencilThin, "way");
        if let [.., before, last] = places {
            let way = unit(sub(*last, *before), (1.0, 0.0));
            Local::back_from(*last, way, 1.0).open(self.scene(), &TIP, Role::PencilThin, "way");
        }
        self.sheet.keep_clear_along(places, 4.0, false);
    }

    /// A pull of a rope on what it is tied to, or of a hand on a rope: direction alone, no size.
    pub(super) fn pulls(&mut self, from: P, to: P) {
        arrow::force(&mut self.sheet, Kind::Pull, from, to, unit(sub(to, from), (1.0, 0.0)), "pull");
    }

    /// A dimension line between two places, ends square to it.
    pub(super) fn measure(&mut self, from: P, to: P) {
        let way = unit(sub(to, from), (1.0, 0.0));
        let head = (0.4 * length(sub(to, from))).min(8.0);
        let mut path = Path::new();
        path.add_line(from, to);
        for (at, way) in [(from, way), (to, times(way, -1.0))] {
            let local = Local::onward(at, way, 1.0);
            path.add_line(local.at(0.0, -5.0), local.at(0.0, 5.0));
            path.add_through(&[local.at(head, -2.6), at, local.at(head, 2.6)]);
        }
        self.scene().part_path(path, Role::Dimension, "measure");
        self.sheet.keep_clear(from, to, 3.0, true);
    }

    /// Marks a hold point: an octagon with a bar, and the words.
    pub(super) fn hold(&mut self) {
        const RADIUS: f64 = 8.0;
        let centre = (15.0, 16.0);
        let corner = |i: u32| {
            let angle = (f64::from(i) + 0.5) * core::f64::consts::FRAC_PI_4;
            add(centre, (RADIUS * libm::sin(angle), RADIUS * libm::cos(angle)))
        };
        let octagon: Vec<P> = (0..8).map(corner).collect();
        let scene = self.scene();
        scene.part_path(Path::polygon(&octagon), Role::Sheave, "hold point");
        scene.line(add(centre, (-4.0, 0.0)), add(centre, (4.0, 0.0)), Role::Stop, "hold point");
        self.sheet.keep_clear(centre, centre, RADIUS, false);
        let text = self.words.say("steps.hold").to_owned();
        let row = Row::new(text, Lettering::Value, Tone::Ink);
        let seat = Seat::at((28.0, 16.0), Edge::Near, Edge::Middle);
        self.sheet.label(("steps.hold", 0), 0, vec![row], vec![seat]);
    }

    /// The picture, its names in their places.
    pub(super) fn finish(self) -> Finished {
        let plate = Area { left: 0.0, top: 0.0, right: SIZE.0, bottom: self.sheet.scene.height };
        self.sheet.finish(plate.grown(-MARGIN), None)
    }
}
