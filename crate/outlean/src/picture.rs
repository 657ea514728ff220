//! `outlean picture`: a rig as an SVG file, from the scenes that the page shows.

use crate::files::{self, UnitChoice, Unread};
use crate::name;
use crate::out;
use crate::words::words;
use clap::ValueEnum;
use outlean_picture::curves::{Chart, Curves, Options, Panels};
use outlean_picture::{
    FrontViewInput, HandleState, Inks, PolygonInput, Scene, Show, SideViewInput, Subject, Words, foot_height,
    footed, front_view, parts_past, polygon, side_view, svg,
};
use outlean_rig::{
    BAND_DRAWS, Dimension, Fault, Field, Layout, Lever, Part, Scatter, Solution, WorkingRange, solve,
    working_range,
};
use outlean_rigfile::{RigFile, Units, parse_lean, show};
use std::path::PathBuf;
use std::process::ExitCode;
use std::sync::OnceLock;

/// What the command is given.
#[derive(clap::Args)]
#[command(after_help = "Exit codes:
  0  the picture is drawn; that the frame tips is a picture too
  1  the file has errors, all of them told on standard error
  2  the command was not understood, or a file cannot be read or written")]
pub struct Wanted {
    /// The rig file.
    #[arg(value_name = "RIG.toml")]
    rig: PathBuf,
    /// What is drawn.
    #[arg(long, value_enum)]
    view: View,
    /// The file to write; left out, the picture goes to standard output.
    #[arg(short, long, value_name = "FILE.svg")]
    out: Option<PathBuf>,
    /// Its width in pixels of a page.
    #[arg(long, value_parser = clap::value_parser!(u32).range(200..=8000))]
    width: Option<u32>,
    /// Its height, the caution in its foot included.
    #[arg(long, value_parser = clap::value_parser!(u32).range(200..=8000))]
    height: Option<u32>,
    /// Its colours, and on a projector its sizes.
    #[arg(long, value_enum, default_value_t = Theme::Light)]
    theme: Theme,
    /// Units of its numbers.
    #[arg(long, value_enum, default_value_t = UnitChoice::Metric)]
    units: UnitChoice,
    /// Another lean than the file's, written as in a rig file.
    #[arg(long, allow_hyphen_values = true)]
    lean: Option<String>,
    /// Show what the ground gives to the feet, too.
    #[arg(long)]
    ground: bool,
    /// Lay uncertainty bands under the curves: nine in ten of rigs that are a little off.
    #[arg(long)]
    bands: bool,
}

#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum View {
    /// From the right of the frame.
    Side,
    /// From behind, looking out over the edge.
    Front,
    /// The forces on the head, tail to head.
    Polygon,
    /// What legs and guys carry over the lean.
    Curves,
}

#[derive(Clone, Copy, PartialEq, ValueEnum)]
enum Theme {
    /// Dark on light paper.
    Light,
    /// Light on dark.
    Dark,
    /// White, full contrast, lettering for the back row.
    Projector,
    /// Black on white, no tints.
    Sunlight,
    /// On white paper.
    Print,
}

/// A rig as it is drawn.
struct Drawn<'a> {
    file: &'a RigFile,
    solution: Solution,
    range: WorkingRange,
    over: Vec<Part>,
    units: Units,
    show: Show,
    bands: bool,
    /// Width and height without the foot, px, and the size of strokes and type.
    size: (f64, f64, f64),
}

/// Runs the command and says how it went.
pub fn run(wanted: &Wanted) -> ExitCode {
    let (mut file, warnings) = match files::read(&wanted.rig) {
        Ok(read) => read,
        Err(Unread { errors, code }) => {
            out::tell(&errors);
            return code.into();
        }
    };
    out::tell(&warnings);
    if let Some(written) = &wanted.lean {
        match lean(written, &file) {
            Ok(lean) => file.rig.lean = lean,
            Err(why) => return crate::failed(&format!("--lean: {why}")),
        }
    }
    let path = wanted.rig.display().to_string();
    match drawn(wanted, &file, file.title.as_deref().unwrap_or(&path)) {
        Ok(picture) => written(wanted, &picture),
        Err(fault) => {
            out::tell(&files::unsolved(&path, &fault, wanted.units.into()));
            ExitCode::from(1)
        }
    }
}

fn written(wanted: &Wanted, picture: &str) -> ExitCode {
    let Some(path) = &wanted.out else { return out::print(picture, ExitCode::SUCCESS) };
    match std::fs::write(path, picture) {
        Ok(()) => ExitCode::SUCCESS,
        Err(why) => {
            let place = path.display().to_string();
            let places = [("file", place.as_str()), ("why", &why.to_string())];
            crate::failed(&words().fill("picture.cannot_write", &places))
        }
    }
}

/// The lean (rad) that is written, for the frame in a file; else what is wrong with it.
fn lean(written: &str, file: &RigFile) -> Result<f64, String> {
    let given = parse_lean(written).map_err(|_| words().fill("argument.lean", &[("written", written)]))?;
    // A rig that was read has a layout.
    let slant = Layout::of(&file.rig, 0.0).map_or(f64::NAN, |layout| layout.slant_height);
    let lean = given.from_vertical(slant);
    let allowed = Field::Lean.allowed();
    if (allowed.least..=allowed.most).contains(&lean) {
        return Ok(lean);
    }
    let shown = |value: f64, dimension| show(value, dimension, Units::Metric).to_string();
    Err(words().fill(
        "argument.lean_range",
        &[
            ("written", written),
            ("least", &shown(allowed.least, Dimension::Angle)),
            ("most", &shown(allowed.most, Dimension::Angle)),
            ("reach", &shown(slant, Dimension::Length)),
        ],
    ))
}

/// The picture of a rig called `heading`, the caution in its foot.
fn drawn(wanted: &Wanted, file: &RigFile, heading: &str) -> Result<String, Fault> {
    let rig = &file.rig;
    let solution = solve(rig)?;
    let over = parts_past(rig, &solution);
    let projector = wanted.theme == Theme::Projector;
    let (width, height) = match (wanted.view, projector) {
        (View::Side, false) => (830, 600),
        (View::Side, true) => (1300, 1080),
        (View::Front | View::Polygon, false) => (420, 540),
        (View::Front | View::Polygon, true) => (760, 1080),
        (View::Curves, false) => (480, 520),
        (View::Curves, true) => (1300, 1080),
    };
    let (width, height) =
        (f64::from(wanted.width.unwrap_or(width)), f64::from(wanted.height.unwrap_or(height)));
    let k = match (projector, width < 360.0) {
        (true, _) => 2.1,
        (false, true) => 0.85,
        (false, false) => 1.0,
    };
    let caution = words().say("caution");
    let shown = Drawn {
        file,
        range: working_range(rig)?,
        solution,
        over,
        units: wanted.units.into(),
        bands: wanted.bands,
        show: Show { dimensions: !projector, ground_forces: wanted.ground, ..Show::USUAL },
        size: (width, (height - foot_height(caution, width, k)).max(80.0), k),
    };
    let inks = match wanted.theme {
        Theme::Light => Inks::LIGHT,
        Theme::Dark => Inks::DARK,
        Theme::Projector => Inks::PROJECTOR,
        Theme::Sunlight => Inks::SUNLIGHT,
        Theme::Print => Inks::PRINT,
    };
    let key = match wanted.view {
        View::Side => "picture.side",
        View::Front => "picture.front",
        View::Polygon => "picture.polygon",
        View::Curves => "picture.curves",
    };
    let title = words().fill(key, &[("rig", heading)]);
    let description = format!("{} {caution}", shown.told());
    let finish = |scene| svg(&footed(scene, caution), &inks, &title, &description);
    Ok(match wanted.view {
        View::Side => finish(shown.side()),
        View::Front => finish(shown.front()),
        View::Polygon => finish(shown.polygon()),
        View::Curves => {
            // The curves are an element of their own, on the paper of the whole.
            let (width, height, k) = shown.size;
            let paper = finish(Scene::new(width, height, k));
            let chart = shown.curves(&inks)?;
            let paper = paper.strip_suffix("</svg>\n").unwrap_or(&paper);
            format!("{paper}{chart}</svg>\n")
        }
    })
}

impl Drawn<'_> {
    fn subject(&self) -> Subject<'_> {
        let (width, height, k) = self.size;
        Subject {
            rig: &self.file.rig,
            solution: &self.solution,
            range: &self.range,
            over: &self.over,
            units: self.units,
            words: picture_words(),
            width,
            height,
            k,
            grown: 1.0,
        }
    }

    fn side(&self) -> Scene {
        let tipping = self.solution.tips().map(|_| 1.0);
        side_view(&SideViewInput { tipping, ..SideViewInput::still(self.subject(), self.show) }).scene
    }

    fn front(&self) -> Scene {
        let input = FrontViewInput {
            of: self.subject(),
            scale: None,
            force_scale: None,
            show: self.show,
            handle: HandleState::Rest,
            tipping: self.solution.tips().map(|_| 1.0),
            seats: None,
        };
        front_view(&input).scene
    }

    fn polygon(&self) -> Scene {
        let input = PolygonInput { of: self.subject(), px_per_newton: None, seats: None };
        polygon(&input).scene
    }

    fn curves(&self, inks: &Inks) -> Result<String, Fault> {
        let (width, height, k) = self.size;
        let options = Options { width, height, k, units: self.units, panels: Panels::Both, revealed: true };
        let rig = &self.file.rig;
        // Every rig has a lean.
        let Some(curves) = Curves::of(rig, &self.range, Lever::Lean)? else { return Ok(String::new()) };
        let mut chart = Chart::new(curves, options, curve_words());
        if self.bands {
            chart.band(rig, Some(Scatter::USUAL))?;
            while chart.draw_bands(BAND_DRAWS) {}
        }
        Ok(chart.svg(rig, &self.solution, inks, "", ""))
    }

    /// What is seen, in sentences, for those who do not see it.
    fn told(&self) -> String {
        let guys = name::guys(self.file);
        let voice = name::voice(&guys, self.units);
        let force = |value: f64| voice.force(value);
        let lean = voice.angle(self.solution.layout.lean);
        let mut said = vec![words().fill("picture.leaning", &[("lean", &lean)])];
        match (self.solution.forces(), self.solution.tips()) {
            (Some(forces), _) => {
                let (left, right) = (force(forces.compression.left), force(forces.compression.right));
                said.push(words().fill("picture.legs", &[("left", &left), ("right", &right)]));
                for (guy, there) in guys.iter().zip(&forces.guys) {
                    if there.tension > 0.0 {
                        let tension = force(there.tension);
                        said.push(words().fill("picture.guy", &[("guy", guy), ("tension", &tension)]));
                    }
                }
            }
            (None, Some(tip)) => said.push(words().fill("picture.tips", &[("tip", &voice.tip(tip))])),
            (None, None) => {}
        }
        said.join(" ")
    }
}

/// The words of views and the force polygon, from the string file that the page has too.
fn picture_words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| serde_json::from_str(PICTURE).unwrap_or_default())
}

/// The words of curves.
fn curve_words() -> &'static Words {
    static WORDS: OnceLock<Words> = OnceLock::new();
    WORDS.get_or_init(|| serde_json::from_str(CURVES).unwrap_or_default())
}

const PICTURE: &str = include_str!("../../../www/strings/en/picture.json");
const CURVES: &str = include_str!("../../../www/strings/en/curves.json");

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_string_files_can_be_read() {
        for file in [PICTURE, CURVES] {
            let read: Result<Words, _> = serde_json::from_str(file);
            assert!(read.is_ok_and(|words| words.keys().count() > 15));
        }
    }
}
