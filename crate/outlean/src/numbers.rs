//! The page that says how the numbers are computed. Its text is `pages/numbers.md`; what it says in numbers stands there as gaps,
//! `{so}`, and is worked out as the page is made.

use crate::glossary::Glossary;
use crate::page::Shell;
use crate::sheet;
use crate::text_page;
use outlean_course::worked;
use outlean_rig::strength::OFFERED_FACTORS;
use outlean_rig::{
    BAND_DRAWS, Dimension, EXTRA_LEAN, FARTHEST_BACK, FARTHEST_OUT, G, Guy, LeanIs, Outcome, Point, Quantity,
    Rig, Rope, STIFF_LEG, Side, Stretch, WANTED_MARGIN, margin, solve, stretched,
};
use outlean_rigfile::{Units, show};

const TEXT: &str = include_str!("../pages/numbers.md");
const RIG: &str = include_str!("../pages/numbers.toml");

/// What the numbers are held against, as it stands beside the tests.
const PUBLISHED: &str = include_str!("../../../tests/published/main.rs");
const CASES: &str = include_str!("../../../tests/data/statics_cases.json");
const FUZZED: &str = include_str!("../../../tests/fuzz/Cargo.toml");
const SECOND: &str = include_str!("../../../tests/reference/README.md");

/// The page. Words of the `glossary` are links in it.
pub fn page(shell: &Shell, glossary: &Glossary) -> String {
    let (body, _) = glossary.linked(&text_page::body(TEXT, gap), "../glossary/", None);
    // In a formula no word is a link.
    let body = body.replace(EXAMPLE, &steps().unwrap_or_default());
    shell.page("../", "numbers", &body)
}

/// What a gap is filled with, as HTML.
fn gap(name: &str) -> Option<String> {
    let angle = |value| Some(shown(value, Dimension::Angle));
    Some(match name {
        "gravity" => G.to_string(),
        "mass" => shown(example()?.load.mass, Dimension::Mass),
        "lean" => return angle(example()?.lean),
        "guy" => shown(GUY.of(&solve(&example()?).ok()?)?, Dimension::Force),
        "leg" => shown(Quantity::LegCompression(Side::Left).of(&solve(&example()?).ok()?)?, Dimension::Force),
        "margin" => shown(WANTED_MARGIN, Dimension::Ratio),
        "extra" => return angle(EXTRA_LEAN),
        "back" => return angle(FARTHEST_BACK),
        "out" => return angle(FARTHEST_OUT),
        "draws" => BAND_DRAWS.to_string(),
        "factors" => listed(&OFFERED_FACTORS.map(|(factor, _)| factor.to_string())),
        "published" => PUBLISHED.lines().filter(|line| line.starts_with("mod ")).count().to_string(),
        "cases" => {
            let all: serde_json::Value = serde_json::from_str(CASES).ok()?;
            all.get("cases")?.as_array()?.len().to_string()
        }
        "fuzzed" => FUZZED.lines().filter(|line| *line == "[[bin]]").count().to_string(),
        "second_rigid" => second("- rigid: ", " rigs, none fails")?.to_owned(),
        "second_stretched" => second(" rigs. ", " agree")?.to_owned(),
        _ => {
            let (what, lean) = name.split_once(' ')?;
            return soft(what, lean.parse().ok()?);
        }
    })
}

fn shown(value: f64, dimension: Dimension) -> String {
    show(value, dimension, Units::Metric).to_string()
}

/// "5, 10 and 12".
fn listed(all: &[String]) -> String {
    match all.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => all.concat(),
    }
}

/// The number of the last comparison with a second program that stands between these words.
fn second(before: &str, after: &str) -> Option<&'static str> {
    let number = SECOND.split_once(before)?.1.split_once(after)?.0;
    number.bytes().all(|digit| digit.is_ascii_digit()).then_some(number)
}

/// Where the worked example stands.
const EXAMPLE: &str = "<p>{worked}</p>";

/// The steps of the worked example.
fn steps() -> Option<String> {
    worked(&example()?, GUY).ok().map(|worked| sheet::steps(&worked))
}

/// What is asked of the example.
const GUY: Quantity = Quantity::GuyTension(0);

/// The frame of the worked example.
fn example() -> Option<Rig> {
    outlean_rigfile::read(RIG).0.map(|read| read.rig)
}

/// What becomes of a frame on one soft rope that is set at so many degrees.
fn soft(what: &str, lean: f64) -> Option<String> {
    let mut rig = Rig::new(4.0, 4.0 / 3.0, lean.to_radians(), 275.3);
    rig.guys.push(Guy::to(Point::new(-5.56, 0.0, 0.0)));
    let ropes = core::iter::once(Rope::of_elongation(0.03, 1335.0)).collect();
    let stretch = Stretch { leg_stiffness: STIFF_LEG, ropes, lean_is: LeanIs::SetBefore };
    let outcome = stretched(&rig, &stretch).ok()?;
    let stands = if let Outcome::Stands(stands) = &outcome { Some(stands) } else { None };
    Some(match (what, stands) {
        ("rigid", _) => shown(solve(&rig).ok()?.forces()?.guys.first()?.tension, Dimension::Force),
        ("rest", Some(stands)) => format!("{:.1}°", stands.lean.to_degrees()),
        ("stretched", Some(stands)) => shown(*stands.tension.first()?, Dimension::Force),
        ("rest", None) => "nowhere".to_owned(),
        ("stretched", None) => "–".to_owned(),
        ("away", Some(_)) => format!("{:.2} × its load", margin(&rig, &stretch).ok()??.multiple),
        ("away", None) => match outcome {
            Outcome::RunsAway(multiple) => format!("{multiple:.2} × its load"),
            _ => return None,
        },
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_reads_as_easily_as_a_lesson() {
        assert_eq!(crate::reading::hard(TEXT), []);
    }

    #[test]
    fn every_gap_is_filled() {
        let text = text_page::body(TEXT, gap).replace("{worked}", "");
        assert!(!text.contains(['{', '}']), "{text}");
        assert_eq!(listed(&["5".to_owned()]), "5");
    }

    /// Worked out again from the measures in the file, with nothing of the program.
    #[test]
    fn the_example_comes_to_what_a_hand_finds() {
        let slant = libm::sqrt(4.1 * 4.1 - 0.65 * 0.65);
        let (sin, cos) = libm::sincos(19_f64.to_radians());
        let down = 195.0 * 9.80665 + 2.0 * 60.0 * 4.5 * (4.5 / 2.0) / 4.1;
        let (reach, height) = (slant * sin, slant * cos);
        let length = libm::hypot(6.2 + reach, height);
        let guy = down * reach / (height * 6.2 / length);
        let press = down * cos + guy * (height * cos + (6.2 + reach) * sin) / length;
        let leg = press / 2.0 * 4.1 / slant;
        assert_eq!(gap("guy"), Some(format!("{:.2}\u{2009}kN", guy / 1000.0)));
        assert_eq!(gap("leg"), Some(format!("{:.2}\u{2009}kN", leg / 1000.0)));
        assert!(steps().is_some_and(|steps| steps.matches("<math").count() > 10));
    }

    /// Against independent solutions: tests/published/stretch.rs has the frame with the anchor set by its own height.
    #[test]
    fn the_frame_on_a_soft_rope_stands_or_runs_away() {
        let row = |lean: &str| {
            ["rest", "stretched", "away"].map(|what| gap(&format!("{what} {lean}")).unwrap_or_default())
        };
        assert_eq!(row("20"), ["29.0°", "2.22\u{2009}kN", "1.29 × its load"]);
        assert_eq!(row("25"), ["nowhere", "–", "0.96 × its load"]);
        assert_eq!(gap("rigid 25"), Some("1.83\u{2009}kN".to_owned()));
    }

    #[test]
    fn what_is_counted_is_there() {
        let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests");
        let count = |folder: std::path::PathBuf| std::fs::read_dir(folder).map_or(0, Iterator::count);
        // Every file but the one that lists them.
        assert_eq!(gap("published"), Some((count(folder.join("published")) - 1).to_string()));
        assert_eq!(gap("fuzzed"), Some(count(folder.join("fuzz/targets")).to_string()));
        assert_eq!(gap("cases"), Some("15".to_owned()));
        assert_eq!(
            (gap("second_rigid"), gap("second_stretched")),
            (Some("992".to_owned()), Some("952".to_owned()))
        );
    }
}
