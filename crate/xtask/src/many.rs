//! Many rig files at once through the command line, on all cores.

use crate::command::{self, Failure, cargo, program};
use crate::place;
use std::fs;
use std::io::{BufRead, BufReader};
use std::process::{Child, Stdio};
use std::time::Instant;

/// Asked of every file.
const QUESTIONS: [&str; 2] = ["solve", "range"];

/// Has `files` rigs answered, each in a line of its own and in order, and prints how long it took and the most memory that was held
/// when a tenth and when nearly all were answered.
pub fn answered(files: u32) -> Result<(), Failure> {
    let advice = "The native program builds as `cargo xtask build` builds it.";
    command::run(&mut cargo("build --release --package outlean"), advice)?;
    let folder = place::target().join("many-rigs");
    let failed = |why: std::io::Error| Failure::new(format!("{}: {why}", folder.display()));
    fs::create_dir_all(&folder).map_err(failed)?;
    for number in 0..files {
        fs::write(folder.join(named(number)), rig(number)).map_err(failed)?;
    }
    for question in QUESTIONS {
        let begun = Instant::now();
        let mut outlean = program(place::outlean(), [question, "--json"]);
        let mut outlean = outlean.arg(&folder).stdout(Stdio::piped()).spawn().map_err(failed)?;
        let mut held = Vec::new();
        let mut lines = 0;
        if let Some(out) = outlean.stdout.take() {
            for line in BufReader::new(out).lines() {
                let line = line.map_err(failed)?;
                let file = format!("{}\",", named(lines));
                if !line.contains(&file) {
                    let begins: String = line.chars().take(200).collect();
                    return Err(Failure::new(format!(
                        "`{question}` should answer {file} next and says: {begins}"
                    )));
                }
                lines += 1;
                if lines == files / 10 || lines == files - files / 10 {
                    held.extend(most_held(&outlean));
                }
            }
        }
        let ended = outlean.wait().map_err(failed)?;
        if !ended.success() || lines != files {
            return Err(Failure::new(format!(
                "`{question}` answered {lines} of {files} rig files: {ended}."
            )));
        }
        let taken = begun.elapsed().as_secs_f64();
        let held = held.join(", then ");
        println!(
            "{question}: {files} rig files in {taken:.2} s, {:.0} a second; {held}",
            f64::from(files) / taken
        );
    }
    fs::remove_dir_all(&folder).map_err(failed)
}

fn named(number: u32) -> String {
    format!("{number:06}.toml")
}

/// A rig that can be solved, another for each number.
fn rig(number: u32) -> String {
    format!(
        "lean = \"{} deg\"\n\
         legs = {{ length = \"4.9 m\", lashing_below_tip = \"0.5 m\", weight = \"44 N/m\" }}\n\
         feet = {{ spread = \"1.4 m\", friction = 0.6 }}\nload.mass = \"{} kg\"\n\
         line = {{ path = \"straight back\", to.back = \"9 m\", pulley_efficiency = \"90 %\" }}\n\
         [[guy]]\nsetback = \"6.5 m\"\nholdfast_allowable = \"3.5 kN\"\n\
         [[guy]]\nahead = \"5.5 m\"\nholdfast_allowable = \"3.5 kN\"\n",
        10 + number % 40,
        80.0 + f64::from(number) / 400.0,
    )
}

/// The most memory that a running program has held, as Linux tells it; nothing elsewhere.
fn most_held(of: &Child) -> Option<String> {
    let status = fs::read_to_string(format!("/proc/{}/status", of.id())).ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmHWM:"))?;
    Some(format!("{} of memory", line.trim()))
}
