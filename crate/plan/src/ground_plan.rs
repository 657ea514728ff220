//! The ground plan: the site seen from above, to a round scale, with a scale bar. Forward is to the right, as in the side
//! view; left is up.

use crate::{Mark, Pace, Voice};
use outlean_picture::{
    Anchor, Area, Edge, Label, Lettering, Obstacle, Path, Role, Row, Scene, Seat, Seats, Tone, draw_labels,
    seat_labels,
};
use outlean_rig::{Fault, Ground, Layout, Rig, Side, solve};
use outlean_rigfile::{FT, Units};

/// CSS pixels in a millimetre of paper.
const MM: f64 = 96.0 / 25.4;
/// Scales that a ruler has or a crew can reckon with, 1 to so much.
const SCALES: [f64; 9] = [20.0, 25.0, 50.0, 75.0, 100.0, 150.0, 200.0, 250.0, 500.0];
/// Room round what is drawn, for its labels, mm.
const ROOM: (f64, f64) = (24.0, 14.0);
/// A label this near to its mark needs no leader, px.
const NEAR: f64 = 10.0;
/// Room for the scale bar at the foot, mm.
const FOOT: f64 = 12.0;

/// Lengths of a scale bar, m or ft, and into how many parts each is cut.
const BARS: [(f64, u8); 7] = [(100.0, 5), (50.0, 5), (20.0, 4), (10.0, 5), (5.0, 5), (2.0, 4), (1.0, 5)];

/// A ground plan.
#[derive(Clone, Debug, PartialEq)]
pub struct GroundPlan {
    /// The picture, in CSS pixels: printed at its size it is to scale.
    pub scene: Scene,
    /// One to so much.
    pub scale: f64,
    /// What there was no room to name.
    pub dropped: usize,
}

/// The plan of what is paced out, on paper of so many millimetres, at the largest scale that fits it, or 1 to 500 where none does.
///
/// # Errors
///
/// As [`solve`].
pub fn ground_plan(
    rig: &Rig,
    pacing: &[Pace],
    voice: &Voice<'_>,
    paper: (f64, f64),
) -> Result<GroundPlan, Fault> {
    let layout = solve(rig)?.layout;
    let sound = |mm: f64, least: f64| if mm.is_finite() { mm.max(least).min(2_000.0) } else { least };
    let paper = (sound(paper.0, 60.0), sound(paper.1, 50.0));
    let [ahead, left, _] = Ground::of(&rig.feet).paced(layout.head);
    let places = || {
        let marks = pacing.iter().filter(|pace| pace.mark != Mark::Edge).map(|pace| (pace.ahead, pace.left));
        let edge = pacing.iter().filter(|pace| pace.mark == Mark::Edge).map(|pace| (pace.ahead, 0.0));
        marks.chain(edge).chain([(ahead, left)])
    };
    let least = places().fold((0.0_f64, 0.0_f64), |least, at| (least.0.min(at.0), least.1.min(at.1)));
    let most = places().fold((0.0_f64, 0.0_f64), |most, at| (most.0.max(at.0), most.1.max(at.1)));
    let wide = (paper.0 - 2.0 * ROOM.0, paper.1 - 2.0 * ROOM.1 - FOOT);
    let fits = |scale: &&f64| {
        (most.0 - least.0) * 1000.0 / **scale <= wide.0 && (most.1 - least.1) * 1000.0 / **scale <= wide.1
    };
    let scale = SCALES.iter().find(fits).or(SCALES.last()).copied().unwrap_or(500.0);
    let px = 1000.0 / scale * MM;
    let middle = ((least.0 + most.0) / 2.0, (least.1 + most.1) / 2.0);
    let centre = (paper.0 * MM / 2.0, (paper.1 - FOOT) * MM / 2.0);
    let mut drawing = Drawing {
        scene: Scene::new(paper.0 * MM, paper.1 * MM, 1.0),
        labels: Vec::new(),
        obstacles: Vec::new(),
        px,
        origin: (centre.0 - middle.0 * px, centre.1 + middle.1 * px),
        voice,
    };
    drawing.ground(pacing);
    drawing.rig(rig, &layout);
    for pace in pacing {
        drawing.mark(pace);
    }
    drawing.scale_bar(scale, paper);
    let dropped = drawing.seat();
    Ok(GroundPlan { scene: drawing.scene, scale, dropped })
}

struct Drawing<'a> {
    scene: Scene,
    labels: Vec<Label>,
    obstacles: Vec<Obstacle>,
    /// Pixels to the metre.
    px: f64,
    /// The middle of the foot line, px.
    origin: (f64, f64),
    voice: &'a Voice<'a>,
}

impl Drawing<'_> {
    /// A place so far ahead and to the left, px.
    fn at(&self, (ahead, left): (f64, f64)) -> (f64, f64) {
        (self.origin.0 + ahead * self.px, self.origin.1 - left * self.px)
    }

    fn line(&mut self, from: (f64, f64), to: (f64, f64), role: Role, part: &'static str) {
        let (from, to) = (self.at(from), self.at(to));
        self.scene.line(from, to, role, part);
        self.obstacles.push(Obstacle { from, to, half: 1.5, soft: true });
    }

    /// The foot line and the middle line through the whole plan, the edge across it.
    fn ground(&mut self, pacing: &[Pace]) {
        let (width, height) = (self.scene.width, self.scene.height - FOOT * MM);
        let (x, y) = self.origin;
        self.scene.line((0.0, y), (width, y), Role::Axis, "middle line");
        self.scene.line((x, 0.0), (x, height), Role::Axis, "foot line");
        for pace in pacing.iter().filter(|pace| pace.mark == Mark::Edge) {
            let (at, _) = self.at((pace.ahead, 0.0));
            self.scene.line((at, 0.0), (at, height), Role::GroundLine, "edge");
            // The drop is on the side of the strokes.
            let mut strokes = Path::new();
            let mut down = 6.0;
            while down < height {
                strokes.add_line((at, down), (at + 6.0, down - 6.0));
                down += 10.0;
            }
            self.scene.part_path(strokes, Role::GroundStroke, "edge");
            self.obstacles.push(Obstacle { from: (at, 0.0), to: (at, height), half: 4.0, soft: true });
        }
    }

    /// Legs, guys and lines, as their shadows fall with the sun overhead.
    fn rig(&mut self, rig: &Rig, layout: &Layout) {
        let ground = Ground::of(&rig.feet);
        let flat = |point| {
            let [ahead, left, _] = ground.paced(point);
            (ahead, left)
        };
        let head = flat(layout.head);
        for guy in rig.guys.iter().filter(|guy| guy.rigged) {
            self.line(head, flat(guy.anchor), Role::Cord, "guy");
        }
        for path in rig.lines().map(|line| line.path) {
            let way =
                [path.next_point(&rig.feet, layout), path.haul_point().filter(|_| path.is_redirected())];
            let mut from = head;
            for to in way.into_iter().flatten().map(flat) {
                self.line(from, to, Role::Rope, "haul line");
                from = to;
            }
        }
        for side in Side::BOTH {
            self.line(flat(*rig.feet.at.on(side)), head, Role::Hidden, "leg");
        }
        let at = self.at(head);
        self.scene.circle(at, 4.0, Role::Sheave, "head");
    }

    /// A mark, its name and where it stands.
    fn mark(&mut self, pace: &Pace) {
        let at = self.at((pace.ahead, pace.left));
        let voice = self.voice;
        let (name, rank) = match pace.mark {
            // The most crowded first: what stands far out has room all round.
            Mark::Redirect(_) => ("redirect", 0),
            Mark::Foot(_) => ("foot", 1),
            Mark::Anchor(_) => ("anchor", 2),
            Mark::HaulPoint(_) => ("haul point", 2),
            Mark::Edge => ("edge", 3),
        };
        if pace.mark != Mark::Edge {
            let role = if matches!(pace.mark, Mark::Foot(_)) { Role::Pin } else { Role::Sheave };
            self.scene.circle(at, 3.5, role, name);
            self.obstacles.push(Obstacle { from: at, to: at, half: 5.0, soft: false });
        }
        let called = crate::say::mark_said(pace.mark, voice);
        let way = |value: f64, more: &str, less: &str| {
            let shown = voice.tape(value.abs());
            let key = if value >= 0.0 { more } else { less };
            (shown != voice.tape(0.0)).then(|| voice.fill(key, &[("length", &shown)]))
        };
        let ahead = way(pace.ahead, "plan.pacing.is_ahead", "plan.pacing.is_back");
        let left = way(pace.left, "plan.pacing.is_left", "plan.pacing.is_right");
        let up = way(pace.up, "plan.pacing.is_up", "plan.pacing.is_down");
        let where_it_is = [ahead, left, up].into_iter().flatten().collect::<Vec<_>>().join(", ");
        let mut rows = vec![Row::new(called, Lettering::Name, Tone::Ink)];
        if !where_it_is.is_empty() {
            rows.push(Row::new(where_it_is, Lettering::Note, Tone::Quiet));
        }
        let ways = [
            (0.0, -1.0),
            (0.0, 1.0),
            (1.0, -0.7),
            (-1.0, -0.7),
            (1.0, 0.7),
            (-1.0, 0.7),
            (1.0, 0.0),
            (-1.0, 0.0),
            (-0.4, -1.0),
            (-0.4, 1.0),
            (0.4, -1.0),
            (0.4, 1.0),
        ];
        // The first is past the mark's own spot and the room round a label.
        let gaps = [NEAR, 22.0, 44.0, 70.0];
        let mut seats = Vec::new();
        for gap in gaps {
            for way in ways {
                let seat = Seat::beside(at, way, gap);
                seats.push(if gap > NEAR { seat.led_to(at) } else { seat });
            }
        }
        if pace.mark == Mark::Edge {
            // Beside the line at its upper end.
            seats = [20.0, 60.0, 100.0]
                .into_iter()
                .flat_map(|down| {
                    [Edge::Near, Edge::Far].map(|across| {
                        let off = if across == Edge::Near { NEAR } else { -NEAR };
                        Seat::at((at.0 + off, down), across, Edge::Near)
                    })
                })
                .collect();
        }
        let number = u8::try_from(self.labels.len()).unwrap_or(u8::MAX);
        self.labels.push(Label { key: (name, number), rows, seats, rank, timid: false, in_line: false });
    }

    /// A bar of a round length, its ticks, and the scale in words.
    fn scale_bar(&mut self, scale: f64, paper: (f64, f64)) {
        let (metre, unit) = match self.voice.units {
            Units::Metric => (1.0, "m"),
            Units::Us => (FT, "ft"),
        };
        let room = 0.4 * paper.0 * MM / self.px / metre;
        let (long, parts) = BARS.into_iter().find(|(long, _)| *long <= room).unwrap_or((1.0, 5));
        let (x, y) = (8.0 * MM, (paper.1 - 5.0) * MM);
        let length = long * metre * self.px;
        self.scene.line((x, y), (x + length, y), Role::Bar, "scale bar");
        let mut ticks = Path::new();
        for part in 0..=parts {
            let at = x + length * f64::from(part) / f64::from(parts);
            ticks.add_line((at, y), (at, y - if part == 0 || part == parts { 9.0 } else { 5.0 }));
        }
        self.scene.part_path(ticks, Role::Tick, "scale bar");
        let tone = Role::Text(Lettering::Note, Tone::Ink);
        self.scene.text((x, y - 12.0), "0".to_owned(), Anchor::Middle, tone);
        let end = format!("{}\u{2009}{unit}", outlean_rigfile::fixed(long, 0));
        self.scene.text((x + length, y - 12.0), end, Anchor::Middle, tone);
        let scale = outlean_rigfile::fixed(scale, 0);
        let said = self.voice.fill("plan.figure.scale", &[("scale", &scale)]);
        self.scene.text((x + length + 30.0, y), said, Anchor::Start, tone);
    }

    /// Seats the labels; how many found no place.
    fn seat(&mut self) -> usize {
        let inside = Area {
            left: 2.0,
            top: 2.0,
            right: self.scene.width - 2.0,
            bottom: self.scene.height - FOOT * MM,
        };
        let seated = seat_labels(&self.labels, &self.obstacles, inside, 1.0, &Seats::default());
        draw_labels(&mut self.scene, &self.labels, &seated);
        self.labels.len() - seated.len()
    }
}
