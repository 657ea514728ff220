//! `outlean plan`: a plan that a crew can build from, as text to print or read out, or as JSON.

use crate::files::{self, Form, Unread};
use crate::name;
use crate::out;
use crate::words::words;
use outlean_picture::{Inks, footed, svg};
use outlean_plan::{
    DRAWS, Difference, Given, Line, MOST_VARIANTS, Measured, Plan, SEED, Saying, Section, Variant,
    compared_said, differences, ground_plan, pacing, spread_picture, variant,
};
use outlean_rig::{Fault, Rig, governing, uncertainty};
use outlean_rigfile::RigFile;
use serde::Serialize;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What both A4 and Letter hold beside their margins, and as high as leaves room for the answers, mm.
const PAPER: (f64, f64) = (180.0, 110.0);
/// As wide, px.
const WIDE: f64 = PAPER.0 * 96.0 / 25.4;

/// What the command is given.
#[derive(clap::Args)]
pub struct Wanted {
    #[command(flatten)]
    files: files::RigFiles,
    /// Another variant of the plan, to be laid beside each; may be given twice.
    #[arg(long, value_name = "OTHER.toml")]
    compare: Vec<PathBuf>,
    /// What was measured once it stood, as a rig file, to be laid beside each.
    #[arg(long, value_name = "MEASURED.toml")]
    as_built: Option<PathBuf>,
    /// Write the ground plan to scale into this file too; of one rig only.
    #[arg(long, value_name = "FILE.svg")]
    figure: Option<PathBuf>,
    /// Write how surely it holds, as a picture, into this file too; of one rig only.
    #[arg(long, value_name = "FILE.svg")]
    spread: Option<PathBuf>,
    /// How many rigs a little off are drawn to say how surely it holds.
    #[arg(long, default_value_t = DRAWS)]
    draws: u32,
}

#[derive(Serialize)]
struct Output<'a> {
    guy_names: &'a [Option<String>],
    rig: &'a Rig,
    plan: Plan,
    #[serde(skip_serializing_if = "Option::is_none")]
    compared: Option<Compared<'a>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured: Option<Measured>,
}

/// Variants side by side, the file itself first.
#[derive(Serialize)]
struct Compared<'a> {
    titles: Vec<&'a str>,
    variants: Vec<Variant>,
    differences: Vec<Difference>,
}

/// Another file that plans are laid beside.
struct Other {
    path: String,
    file: RigFile,
}

impl Other {
    fn read(path: &Path) -> Result<Self, ExitCode> {
        let read = files::read(path).map_err(|Unread { errors, code }| {
            out::tell(&errors);
            ExitCode::from(code)
        });
        read.map(|(file, warnings)| {
            out::tell(&warnings);
            Self { path: path.display().to_string(), file }
        })
    }

    fn title(&self) -> &str {
        self.file.title.as_deref().unwrap_or(&self.path)
    }
}

/// Runs the command and says how it went.
pub fn run(wanted: &Wanted) -> ExitCode {
    if wanted.compare.len() >= MOST_VARIANTS {
        return crate::failed(&words().fill("plan.too_many", &[("most", &MOST_VARIANTS.to_string())]));
    }
    let others: Result<Vec<_>, _> = wanted.compare.iter().map(|path| Other::read(path)).collect();
    let measured = wanted.as_built.as_deref().map(Other::read).transpose();
    let (others, measured) = match (others, measured) {
        (Ok(others), Ok(measured)) => (others, measured),
        (Err(code), _) | (_, Err(code)) => return code,
    };
    if (wanted.figure.is_some() || wanted.spread.is_some())
        && let Err(code) = pictures(wanted)
    {
        return code;
    }
    files::each(&wanted.files, |file, form| answer(wanted.draws, file, &others, measured.as_ref(), form))
}

fn answer(
    draws: u32,
    file: &RigFile,
    others: &[Other],
    measured: Option<&Other>,
    form: &Form<'_>,
) -> Result<String, Fault> {
    let rig = &file.rig;
    let plan = Plan::of(&Given { rig, job: &file.job, draws })?;
    let compared = (!others.is_empty()).then(|| compared(&plan, rig, others, form)).transpose()?;
    let of = |other: &Other| {
        Measured::of(&plan, rig, &Given { rig: &other.file.rig, job: &other.file.job, draws })
    };
    let beside = measured.map(of).transpose()?;
    let guys = name::guys(file);
    let output = Output { guy_names: &file.guy_names, rig, plan, compared, measured: beside };
    Ok(form.said(&output, || {
        let voice = name::voice(&guys, form.units);
        let saying = Saying { plan: &output.plan, rig, voice };
        let mut sections = Vec::new();
        if let Some(Compared { titles, variants, differences }) = &output.compared {
            sections.extend(compared_said(titles, variants, differences, &voice));
        }
        if let Some((found, other)) = output.measured.as_ref().zip(measured) {
            sections.extend(saying.measured_said(found, &other.file.rig));
        }
        if sections.is_empty() {
            sections = saying.sections();
        }
        page(form, &sections)
    }))
}

/// Draws a picture, as SVG; `None` where there is nothing to draw.
type Drawing<'a> = &'a dyn Fn() -> Result<Option<String>, Fault>;

/// Writes the pictures asked for of the one file given. What there is to say of the file itself is said with its plan.
fn pictures(wanted: &Wanted) -> Result<(), ExitCode> {
    let [path] = wanted.files.files() else {
        return Err(crate::failed(words().say("plan.figure.one_rig")));
    };
    let (file, _) = files::read(path).map_err(|Unread { errors, code }| {
        out::tell(&errors);
        ExitCode::from(code)
    })?;
    let path = path.display().to_string();
    let guys = name::guys(&file);
    let voice = name::voice(&guys, wanted.files.units());
    let title = file.title.as_deref().unwrap_or(&path);
    let caution = words().say("caution");
    let rig = &file.rig;
    let finished = |scene, key: &str| {
        svg(&footed(scene, caution), &Inks::PRINT, &voice.fill(key, &[("rig", title)]), caution)
    };
    let ground = || {
        let drawn = ground_plan(rig, &pacing(rig)?, &voice, PAPER)?;
        Ok(Some(finished(drawn.scene, "plan.figure.title")))
    };
    let spread = || {
        // As the plan has it.
        let found = uncertainty(rig, &file.job.scatter, SEED, wanted.draws)?;
        let planned = governing(rig, rig.lean)?.ratio;
        let scene = found.ratio.map(|band| spread_picture(&band, planned, &voice, WIDE));
        Ok(scene.map(|scene| finished(scene, "plan.spread.of")))
    };
    let all: [(&Option<PathBuf>, Drawing<'_>); 2] = [(&wanted.figure, &ground), (&wanted.spread, &spread)];
    for (out, drawn) in all {
        let Some(out) = out else { continue };
        let picture = match drawn() {
            Ok(Some(picture)) => picture,
            Ok(None) => {
                let draws = wanted.draws.to_string();
                let places = [("file", path.as_str()), ("draws", &draws)];
                out::tell(&(words().fill("plan.no_spread", &places) + "\n"));
                return Err(ExitCode::from(1));
            }
            Err(fault) => {
                out::tell(&files::unsolved(&path, &fault, wanted.files.units()));
                return Err(ExitCode::from(1));
            }
        };
        if let Err(why) = std::fs::write(out, picture) {
            let places = [("file", out.display().to_string()), ("why", why.to_string())];
            let places = places.each_ref().map(|(name, value)| (*name, value.as_str()));
            return Err(crate::failed(&words().fill("picture.cannot_write", &places)));
        }
    }
    Ok(())
}

fn compared<'a>(plan: &Plan, rig: &Rig, others: &'a [Other], form: &Form<'a>) -> Result<Compared<'a>, Fault> {
    let mut variants = vec![variant(plan, rig)];
    for other in others {
        let given = Given { rig: &other.file.rig, job: &other.file.job, draws: 0 };
        variants.push(variant(&Plan::of(&given)?, given.rig));
    }
    let rigs: Vec<&Rig> = core::iter::once(rig).chain(others.iter().map(|other| &other.file.rig)).collect();
    let titles = core::iter::once(form.heading).chain(others.iter().map(Other::title)).collect();
    Ok(Compared { titles, variants, differences: differences(&rigs) })
}

/// Sections as plain text, the caution first and last.
fn page(form: &Form<'_>, sections: &[Section]) -> String {
    let caution = words().say("caution");
    let mut out = format!("{}\n\n{caution}\n", form.heading);
    for section in sections {
        out += &format!("\n{}\n", section.heading);
        let widths = widths(section);
        for line in &section.lines {
            let said = match line {
                Line::Lead(text) => format!("▶ {text}"),
                Line::Text(text) => text.clone(),
                Line::Point(text) => format!("- {text}"),
                Line::Box(text) => format!("[ ] {text}"),
                Line::Hold(text) => {
                    format!("    ■ {} {text} {}", words().say("plan.hold"), words().say("plan.hold.sign"))
                }
                Line::Head(cells) | Line::Row(cells) => {
                    let cells = cells.iter().zip(&widths);
                    let row: Vec<_> = cells.map(|(cell, width)| format!("{cell:width$}")).collect();
                    row.join("  ").trim_end().to_owned()
                }
            };
            out += &format!("  {said}\n");
        }
    }
    out += &format!("\n{caution}\n");
    out
}

/// How wide each column of a section's table is, in letters.
fn widths(section: &Section) -> Vec<usize> {
    let mut widths: Vec<usize> = Vec::new();
    for line in &section.lines {
        let (Line::Head(cells) | Line::Row(cells)) = line else { continue };
        for (column, cell) in cells.iter().enumerate() {
            let wide = cell.chars().count();
            match widths.get_mut(column) {
                Some(width) => *width = wide.max(*width),
                None => widths.push(wide),
            }
        }
    }
    widths
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rigfile::Units;
    use std::fs;

    /// On the command's paper; on one as small as the page draws it one name more may have no room.
    #[test]
    fn everything_on_the_ground_plans_of_the_sites_has_its_name() {
        let sites = fs::read_dir(concat!(env!("CARGO_MANIFEST_DIR"), "/sites")).unwrap();
        let mut tried = 0;
        for site in sites.map(|site| site.unwrap().path()) {
            let file = outlean_rigfile::read(&fs::read_to_string(&site).unwrap()).0.unwrap();
            let guys = name::guys(&file);
            // Its two lines leave little room.
            let crowded = usize::from(site.ends_with("mill-race.toml"));
            for (units, paper, most) in [
                (Units::Metric, PAPER, crowded),
                (Units::Us, PAPER, crowded),
                (Units::Metric, (118.0, 66.0), 1 + crowded),
            ] {
                let voice = name::voice(&guys, units);
                let drawn = ground_plan(&file.rig, &pacing(&file.rig).unwrap(), &voice, paper).unwrap();
                assert!(drawn.dropped <= most, "{} {units:?} {paper:?}: {}", site.display(), drawn.dropped);
                tried += 1;
            }
        }
        assert!(tried >= 15);
    }
}
