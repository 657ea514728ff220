//! `outlean sweep`: rigs solved again and again along one thing that is changed.

use crate::fault;
use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use clap::ValueEnum;
use outlean_plan::Voice;
use outlean_rig::{Dimension, Fault, Governing, Lever, Margin, Outcome, Solution, Station, Swept, sweep};
use outlean_rigfile::{RigFile, first_guy, percent};
use serde::{Serialize, Serializer};
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
pub struct Along {
    #[command(flatten)]
    files: files::RigFiles,
    /// What is changed.
    #[arg(long, value_enum)]
    over: Over,
    /// Where it begins, with its unit, such as "10 deg" or "4 m".
    #[arg(long, allow_hyphen_values = true)]
    from: String,
    /// Where it ends.
    #[arg(long, allow_hyphen_values = true)]
    to: String,
    /// How many times the rig is solved, both ends included.
    #[arg(long, default_value_t = 21, value_parser = clap::value_parser!(u32).range(2..=100_000))]
    points: u32,
}

#[derive(Clone, Copy, ValueEnum)]
enum Over {
    /// The frame's lean from the vertical.
    Lean,
    /// The setback of the aft guy's anchor.
    AftSetback,
    /// How far ahead the fore guy's anchor stands.
    ForeSetback,
    /// The spread of the feet.
    Spread,
    /// The direction in which the main line is hauled, from straight back, to the left positive.
    Direction,
    /// The mass of the load.
    Load,
    /// The stiffness EA of the ropes of all guys.
    GuyStiffness,
}

impl Over {
    /// The lever of a rig; `None` where it has no such guy.
    fn lever(self, file: &RigFile) -> Option<Lever> {
        let guy = |station| first_guy(&file.rig, station).map(Lever::Setback);
        match self {
            Self::Lean => Some(Lever::Lean),
            Self::AftSetback => guy(Station::Aft),
            Self::ForeSetback => guy(Station::Fore),
            Self::Spread => Some(Lever::Spread),
            Self::Direction => Some(Lever::HaulDirection),
            Self::Load => Some(Lever::Mass),
            // It need not be known to be set.
            Self::GuyStiffness => {
                return file.rig.guys.iter().any(|guy| guy.rigged).then_some(Lever::GuyStiffness);
            }
        }
        .filter(|lever| lever.get(&file.rig).is_some())
    }

    const fn dimension(self) -> Dimension {
        match self {
            Self::Lean | Self::Direction => Dimension::Angle,
            Self::AftSetback | Self::ForeSetback | Self::Spread => Dimension::Length,
            Self::Load => Dimension::Mass,
            Self::GuyStiffness => Dimension::Force,
        }
    }
}

#[derive(Serialize)]
struct Output {
    over: Option<Lever>,
    points: Vec<Point>,
}

/// One row of a sweep; what is not there is none.
#[derive(Serialize)]
struct Point {
    value: f64,
    solution: Option<Solution>,
    governing: Option<Governing>,
    stretched: Option<Outcome>,
    margin: Option<Margin>,
    #[serde(serialize_with = "in_si")]
    fault: Option<Fault>,
}

/// A fault as JSON has it: a text with its numbers in SI units, as all of JSON is.
#[expect(clippy::ref_option, reason = "serde calls it so")]
fn in_si<S: Serializer>(fault: &Option<Fault>, to: S) -> Result<S::Ok, S::Error> {
    fault.map(|fault| fault.to_string()).serialize(to)
}

/// Runs the command and says how it went.
pub fn run(args: &Along) -> ExitCode {
    let dimension = args.over.dimension();
    let end =
        |name: &str, text: &str| files::quantity(text, dimension).map_err(|why| format!("{name}: {why}"));
    let ends = end("--from", &args.from).and_then(|from| Ok((from, end("--to", &args.to)?)));
    let (from, to) = match ends {
        Ok(ends) => ends,
        Err(why) => return crate::failed(&why),
    };
    let last = f64::from(args.points - 1);
    let values = (0..args.points).map(move |i| from + (to - from) * (f64::from(i) / last));
    files::each(&args.files, |file, form| {
        let lever = args.over.lever(file);
        let points = lever.into_iter().flat_map(|lever| sweep(&file.rig, lever, values.clone())).map(point);
        let output = Output { over: lever, points: points.collect() };
        Ok(form.said(&output, || text(&output, file, dimension, form)))
    })
}

fn point(swept: Swept) -> Point {
    let (found, fault) = match swept.outcome {
        Ok(found) => (Some(found), None),
        Err(fault) => (None, Some(fault)),
    };
    let (solution, governing) = found.unzip();
    let (stretched, margin) = swept.stretched.unzip();
    Point { value: swept.value, solution, governing, stretched, margin: margin.flatten(), fault }
}

fn text(output: &Output, file: &RigFile, dimension: Dimension, form: &Form<'_>) -> String {
    let mut lines = Vec::new();
    if output.over.is_none() {
        lines.push(words().say("sweep.nothing").to_owned());
    }
    let guys = name::guys(file);
    let voice = name::voice(&guys, form.units);
    let force = |value: f64| voice.force(value);
    for point in &output.points {
        let value = voice.shown(point.value, dimension);
        let (Some(solution), Some(governing)) = (&point.solution, &point.governing) else {
            let fault = point.fault.map(|fault| fault::said(&fault, form.units)).unwrap_or_default();
            lines.push(words().fill("sweep.fault", &[("value", &value), ("fault", &fault)]));
            continue;
        };
        let limit = voice.limit_in_case(governing.limit, governing.case, &file.rig);
        let Some(forces) = solution.forces() else {
            lines.push(words().fill("sweep.tips", &[("value", &value), ("limit", &limit)]));
            continue;
        };
        let tensions = guys.iter().zip(&forces.guys).map(|(guy, there)| {
            words().fill("sweep.guy", &[("guy", guy), ("tension", &force(there.tension))])
        });
        let tensions: Vec<_> = tensions.collect();
        let ratio = if governing.ratio.is_finite() { percent(governing.ratio) } else { String::new() };
        let places = [
            ("value", value.as_str()),
            ("left", &force(forces.compression.left)),
            ("right", &force(forces.compression.right)),
            ("guys", &tensions.join("; ")),
            ("limit", &limit),
            ("ratio", &ratio),
        ];
        lines.push(words().fill("sweep.point", &places).trim_end().to_owned());
        if let Some(outcome) = &point.stretched {
            lines.push(on_ropes(outcome, point.margin, &voice));
        }
    }
    files::page(form, &lines)
}

/// What becomes of it on guys that stretch.
fn on_ropes(outcome: &Outcome, margin: Option<Margin>, voice: &Voice<'_>) -> String {
    let force = |value: f64| voice.force(value);
    let found = match outcome {
        Outcome::Stands(found) => found,
        Outcome::RunsAway(multiple) => {
            return words().fill("sweep.runs_away", &[("share", &percent(*multiple))]);
        }
        Outcome::NothingHolds => return words().say("sweep.nothing_holds").to_owned(),
        Outcome::Tips(tip) => return words().fill("sweep.stretched_tips", &[("tip", &voice.tip(*tip))]),
    };
    let tensions = voice
        .guys
        .iter()
        .zip(&found.tension)
        .map(|(guy, tension)| words().fill("sweep.guy", &[("guy", guy), ("tension", &force(*tension))]));
    let tensions: Vec<_> = tensions.collect();
    let multiple = margin.map(|margin| margin.multiple).filter(|multiple| multiple.is_finite());
    let multiple = multiple
        .map_or_else(|| words().say("stretch.no_such_load").to_owned(), |multiple| voice.ratio(multiple));
    let angle = |value: f64| voice.angle(value);
    let set = found.set_lean.map_or_else(|| words().say("stretch.unknown").to_owned(), angle);
    let places = [
        ("set", set),
        ("lean", angle(found.lean)),
        ("left", force(found.compression.left)),
        ("right", force(found.compression.right)),
        ("guys", tensions.join("; ")),
        ("margin", multiple),
    ];
    words().fill("sweep.stretched", &places.each_ref().map(|(place, said)| (*place, said.as_str())))
}
