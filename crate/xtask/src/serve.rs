//! `cargo xtask serve`: build, then let the native program serve.

use crate::command::{self, Failure, program};
use crate::{build, place};

/// Serves target/site until stopped. `--port`, `--no-open` and `--watch` are the native program's own.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    check(arguments)?;
    build::run(&[])?;
    println!();
    let mut serve = program(place::outlean(), ["serve", "--dir"]);
    serve.arg(place::site()).args(arguments);
    if arguments.iter().any(|argument| argument == "--watch") {
        serve.args(["--lessons", "lessons", "--assets", "www", "--program"]).arg(place::program());
    }
    command::run(&mut serve, "Another port may be free: cargo xtask serve --port N")
}

/// Refuses a wrong argument before anything is built.
fn check(arguments: &[String]) -> Result<(), Failure> {
    let mut rest = arguments.iter();
    while let Some(argument) = rest.next() {
        match argument.as_str() {
            "--no-open" | "--watch" => {}
            "--port" => match rest.next().map(|port| (port, port.parse::<u16>())) {
                Some((_, Ok(_))) => {}
                Some((port, Err(_))) => {
                    return Err(Failure::new(format!(
                        "--port is `{port}`; it must be a whole number, 0 to 65535."
                    )));
                }
                None => return Err(Failure::new("--port needs a number, 0 to 65535.")),
            },
            other => {
                return Err(Failure::new(format!(
                    "`{other}` is not understood; known: --port N, --no-open, --watch."
                )));
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wrong_arguments_are_refused_by_name() {
        let with = |words: &[&str]| check(&words.iter().map(|word| (*word).to_owned()).collect::<Vec<_>>());
        assert!(with(&[]).is_ok());
        assert!(with(&["--port", "8123", "--no-open"]).is_ok());
        assert!(with(&["--port", "70000"]).unwrap_err().message.contains("70000"));
        assert!(with(&["--port"]).unwrap_err().message.contains("needs a number"));
        assert!(with(&["--prot", "1"]).unwrap_err().message.contains("--prot"));
    }
}
