//! How parts, guys, limits and numbers are called: words by key, numbers in the reader's units.

use outlean_rig::{
    Case, Dimension, Layout, Limit, Operation, Part, Path, Rig, Scenario, Side, Stage, Station, Tip,
};
use outlean_rigfile::{DEG, INCH, Units, Words, fixed, show};

/// Of a step in which small lengths are told: what is so little past one is it.
const HAIR: f64 = 1e-6;
/// A tenth of a degree, rad.
const TENTH: f64 = 0.1 * DEG;

/// Words, units and the names of a rig's guys.
#[derive(Clone, Copy, Debug)]
pub struct Voice<'a> {
    /// The words.
    pub words: &'a Words,
    /// The units of numbers.
    pub units: Units,
    /// What the guys are called, in the order of the rig: see [`guys`].
    pub guys: &'a [String],
}

/// The names of a rig's guys: as `given` has them, else by where they stand, numbered where several stand there. Empty
/// for a rig without a layout.
#[must_use]
pub fn guys(words: &Words, rig: &Rig, given: &[Option<String>]) -> Vec<String> {
    let Ok(layout) = Layout::of(rig, rig.lean) else { return Vec::new() };
    let stations: Vec<_> = rig.guys.iter().map(|guy| Station::of(guy.anchor, &layout)).collect();
    let mut names = Vec::new();
    for (number, station) in stations.iter().enumerate() {
        if let Some(Some(name)) = given.get(number) {
            names.push(name.clone());
            continue;
        }
        let key = match station {
            Station::Aft => "guy.aft",
            Station::Fore => "guy.fore",
            Station::Side => "guy.side",
        };
        let name = words.say(key).to_owned();
        let before = stations.iter().take(number).filter(|other| *other == station).count();
        let alone = stations.iter().filter(|other| *other == station).count() == 1;
        let place = (before + 1).to_string();
        names.push(match alone {
            true => name,
            false => words.fill("guy.numbered", &[("guy", &name), ("number", &place)]),
        });
    }
    names
}

impl<'a> Voice<'a> {
    /// The template of a key.
    #[must_use]
    pub fn say(&self, key: &str) -> String {
        self.words.say(key).to_owned()
    }

    /// The template of a key with its places filled.
    #[must_use]
    pub fn fill(&self, key: &str, places: &[(&str, &str)]) -> String {
        self.words.fill(key, places)
    }

    /// A number, in the SI unit of its dimension, in the reader's.
    #[must_use]
    pub fn shown(&self, value: f64, dimension: Dimension) -> String {
        show(value, dimension, self.units).to_string()
    }

    /// A force, N.
    #[must_use]
    pub fn force(&self, value: f64) -> String {
        self.shown(value, Dimension::Force)
    }

    /// A length, m.
    #[must_use]
    pub fn length(&self, value: f64) -> String {
        self.shown(value, Dimension::Length)
    }

    /// A length as it is taped, m: to the centimetre, however long.
    #[must_use]
    pub fn tape(&self, value: f64) -> String {
        match self.units {
            Units::Metric => {
                let size = fixed(value.abs(), 2);
                let sign = if value < 0.0 && size != "0.00" { "−" } else { "" };
                format!("{sign}{size}\u{2009}m")
            }
            Units::Us => self.length(value),
        }
    }

    /// A thickness or a gap, m: to the millimetre, or to the quarter inch.
    #[must_use]
    pub fn small(&self, value: f64) -> String {
        self.to_steps(libm::round(value / self.step()))
    }

    /// As [`Self::small`], of what must be so much at the least: rounded up.
    #[must_use]
    pub fn at_least(&self, value: f64) -> String {
        self.to_steps(libm::ceil(value / self.step() - HAIR))
    }

    /// As [`Self::small`], of what may be so much at the most: rounded down, to the millimetre where that leaves no quarter inch.
    #[must_use]
    pub fn at_most(&self, value: f64) -> String {
        let steps = libm::floor(value / self.step() + HAIR);
        if steps == 0.0 && matches!(self.units, Units::Us) {
            return Self { units: Units::Metric, ..*self }.at_most(value);
        }
        self.to_steps(steps)
    }

    /// An angle that may be so much at the most, rad: rounded down to a tenth of a degree.
    #[must_use]
    pub fn angle_at_most(&self, value: f64) -> String {
        self.angle(libm::floor(value / TENTH + HAIR) * TENTH)
    }

    /// What small lengths are told in, m.
    const fn step(&self) -> f64 {
        match self.units {
            Units::Metric => 0.001,
            Units::Us => INCH / 4.0,
        }
    }

    fn to_steps(self, steps: f64) -> String {
        match self.units {
            Units::Metric => format!("{}\u{2009}mm", fixed(steps, 0)),
            Units::Us => {
                let quarters = steps;
                let whole = libm::floor(quarters / 4.0);
                let part = match (quarters - 4.0 * whole) as u8 {
                    1 => " 1/4",
                    2 => " 1/2",
                    3 => " 3/4",
                    _ => "",
                };
                let whole = if whole == 0.0 && !part.is_empty() { String::new() } else { fixed(whole, 0) };
                format!("{}\u{2009}in", format!("{whole}{part}").trim_start())
            }
        }
    }

    /// An angle, rad.
    #[must_use]
    pub fn angle(&self, value: f64) -> String {
        self.shown(value, Dimension::Angle)
    }

    /// A mass, kg.
    #[must_use]
    pub fn mass(&self, value: f64) -> String {
        self.shown(value, Dimension::Mass)
    }

    /// A bare number.
    #[must_use]
    pub fn ratio(&self, value: f64) -> String {
        self.shown(value, Dimension::Ratio)
    }

    /// A guy, counted from 0; empty for one that is not there.
    #[must_use]
    pub fn guy(&self, number: u8) -> &'a str {
        self.guys.get(usize::from(number)).map_or("", String::as_str)
    }

    /// A part.
    #[must_use]
    pub fn part(&self, part: Part) -> String {
        let of = |key: &str, number: u8| self.fill(key, &[("guy", self.guy(number))]);
        let key = match part {
            Part::GuyRope(number) => return of("part.guy_rope", number),
            Part::GuyHoldfast(number) => return of("part.guy_holdfast", number),
            Part::Leg(Side::Left) => "part.leg.left",
            Part::Leg(Side::Right) => "part.leg.right",
            Part::MainLine => "part.main_line",
            Part::SecondLine => "part.second_line",
            Part::Sling => "part.sling",
            Part::SecondSling => "part.second_sling",
            Part::Lashing => "part.lashing",
            Part::HeadPulley => "part.head_pulley",
            Part::Connector => "part.connector",
            Part::RedirectPulley => "part.redirect_pulley",
            Part::HaulHoldfast => "part.haul_holdfast",
            Part::SecondPulley => "part.second_pulley",
            Part::SecondConnector => "part.second_connector",
            Part::SecondRedirect => "part.second_redirect",
            Part::SecondHoldfast => "part.second_holdfast",
            Part::Bearing(Side::Left) => "part.bearing.left",
            Part::Bearing(Side::Right) => "part.bearing.right",
            Part::Edge => "part.edge",
            other => return format!("{other:?}"),
        };
        self.say(key)
    }

    /// A limit.
    #[must_use]
    pub fn limit(&self, limit: Limit) -> String {
        let key = match limit {
            Limit::Part(of) => return self.part(of),
            Limit::UprightStop => "limit.upright_stop",
            Limit::Tips(way) => return self.tip(way),
            Limit::FootSlides(Side::Left) => "limit.foot_slides.left",
            Limit::FootSlides(Side::Right) => "limit.foot_slides.right",
            Limit::ClearReach => "limit.clear_reach",
            Limit::Headroom => "limit.headroom",
            Limit::Stretch => "limit.stretch",
            Limit::ExtraLean => "limit.extra_lean",
            Limit::NoGeometry => "limit.no_geometry",
            Limit::NotLookedFurther => "limit.not_looked_further",
            other => return format!("{other:?}"),
        };
        self.say(key)
    }

    /// A fall.
    #[must_use]
    pub fn tip(&self, tip: Tip) -> String {
        self.say(match tip {
            Tip::Forward => "tips.forward",
            Tip::Back => "tips.back",
            Tip::Left => "tips.left",
            Tip::Right => "tips.right",
        })
    }

    /// What a line is doing.
    #[must_use]
    pub fn operation(&self, operation: Operation) -> String {
        self.say(match operation {
            Operation::Lowering => "operation.lowering",
            Operation::Holding => "operation.holding",
            Operation::Raising => "operation.raising",
        })
    }

    /// What is going on in a case, as far as it differs between the cases of the rig: "raising, at the edge".
    /// Empty where nothing does.
    #[must_use]
    pub fn case(&self, case: Case, rig: &Rig) -> String {
        let all = rig.cases();
        let differs = |of: fn(&Case) -> u8| all.iter().any(|other| of(other) != of(&case));
        let mut said = Vec::new();
        if differs(|case| case.operation as u8) {
            said.push(self.operation(case.operation));
        }
        if differs(|case| case.stage as u8) {
            said.push(self.say(match case.stage {
                Stage::HangingClear => "stage.hanging_clear",
                Stage::AtEdge => "stage.at_edge",
                Stage::OnTagLines => "stage.on_tag_lines",
            }));
        }
        if differs(|case| case.scenario as u8) {
            said.push(self.say(match case.scenario {
                Scenario::Shared => "scenario.shared",
                Scenario::MainLost => "scenario.main_lost",
            }));
        }
        said.join(", ")
    }

    /// A limit, and in which case it is met where that makes a difference.
    #[must_use]
    pub fn limit_in_case(&self, of: Limit, at: Case, rig: &Rig) -> String {
        let what = self.limit(of);
        let case = self.case(at, rig);
        if case.is_empty() || matches!(of, Limit::UprightStop | Limit::NotLookedFurther) {
            return what;
        }
        self.fill("limit.while", &[("limit", &what), ("case", &case)])
    }

    /// Where a line runs.
    #[must_use]
    pub fn path(&self, path: &Path) -> String {
        self.say(match path {
            Path::Hung => "path.hung",
            Path::StraightBack { .. } => "path.straight_back",
            Path::RedirectedAtFoot { foot: Side::Left, .. } => "path.redirected_at_left_foot",
            Path::RedirectedAtFoot { foot: Side::Right, .. } => "path.redirected_at_right_foot",
            Path::RedirectedMidBase { .. } => "path.redirected_mid_base",
            Path::RedirectedOnLedger { .. } => "path.redirected_on_ledger",
            Path::OverTheFront { .. } => "path.over_the_front",
            Path::TackleAtHead { .. } => "path.tackle_at_head",
            Path::NotOverHead => "path.not_over_head",
        })
    }
}
