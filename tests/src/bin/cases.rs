//! `cases FILE`: holds the core against a file of independent cases.
//!
//! Exit code 0 where every case agrees, 1 where one does not or cannot be run, 2 where the file
//! cannot be read.

use std::process::ExitCode;

fn main() -> ExitCode {
    let mut arguments = std::env::args_os().skip(1);
    let (Some(path), None) = (arguments.next(), arguments.next()) else {
        eprintln!("usage: cases FILE.json");
        return ExitCode::from(2);
    };
    let report = std::fs::read_to_string(&path)
        .map_err(|error| error.to_string())
        .and_then(|text| outlean_tests::cases::run(&text));
    match report {
        Ok(report) => {
            print!("{report}");
            if report.passes() { ExitCode::SUCCESS } else { ExitCode::from(1) }
        }
        Err(error) => {
            eprintln!("{}: {error}", path.display());
            ExitCode::from(2)
        }
    }
}
