//! `outlean embed`: a rig file as an element to be pasted into anyone's page, its still picture beside that page.

use crate::figure::Figure;
use crate::files::{self, Unread};
use crate::markup::escaped;
use crate::out;
use outlean_picture::Words;
use outlean_rigfile::Units;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// What the command is given.
#[derive(clap::Args)]
#[command(after_help = "Exit codes:
  0  the lines are printed and the picture is drawn
  1  the file has errors, all of them told on standard error
  2  the command was not understood, or a file cannot be read or written")]
pub struct Wanted {
    /// The rig file.
    #[arg(value_name = "RIG.toml")]
    rig: PathBuf,
    /// The address of the built course's elements.js.
    #[arg(long, value_name = "ADDRESS", default_value = "elements.js")]
    program: String,
    /// The still picture to write; the page finds it by this name, beside itself.
    #[arg(short, long, value_name = "FILE.svg")]
    out: PathBuf,
}

/// Runs the command and says how it went.
pub fn run(wanted: &Wanted) -> ExitCode {
    let (file, warnings) = match files::read(&wanted.rig) {
        Ok(read) => read,
        Err(Unread { errors, code }) => {
            out::tell(&errors);
            return code.into();
        }
    };
    out::tell(&warnings);
    let words = words();
    let path = wanted.rig.display().to_string();
    let Some(picture) = crate::still::side_view(&file.rig, &words, true) else {
        let why = outlean_rig::solve(&file.rig).err().or_else(|| outlean_rig::working_range(&file.rig).err());
        out::tell(&why.map(|fault| files::unsolved(&path, &fault, Units::Metric)).unwrap_or_default());
        return ExitCode::from(1);
    };
    if let Err(why) = std::fs::write(&wanted.out, picture) {
        return crate::failed(&format!("{}: {why}", wanted.out.display()));
    }
    let figure = Figure {
        id: &stem(&wanted.rig),
        rig: &file.rig,
        veiled: false,
        cautioned: false,
        still: &crate::disk::name_of(&wanted.out),
        note: &escaped(words.say("caution")),
        words: &words,
    };
    let (program, figure) = (escaped(&wanted.program), figure.element());
    let lines = format!("<script type=\"module\" src=\"{program}\"></script>\n{figure}\n");
    out::print(&lines, ExitCode::SUCCESS)
}

/// What a file is called without its ending.
fn stem(path: &Path) -> String {
    path.file_stem().map(|name| name.to_string_lossy().into_owned()).unwrap_or_default()
}

/// The words of figures, as pages have them.
fn words() -> Words {
    let read = |text: &str| {
        serde_json::from_str::<std::collections::BTreeMap<String, String>>(text).unwrap_or_default()
    };
    Words::new(STRINGS.into_iter().flat_map(read))
}

const STRINGS: [&str; 2] =
    [include_str!("../../../www/strings/en/page.json"), include_str!("../../../www/strings/en/picture.json")];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_string_files_can_be_read() {
        assert!(STRINGS.iter().all(|text| serde_json::from_str::<Words>(text).is_ok()));
        assert!(words().keys().count() > 100);
    }
}
