//! Running a program: printed first, explained when it fails.

use crate::place;
use std::ffi::OsStr;
use std::process::Command;

/// Why a command ended early, for the person who typed it.
#[derive(Debug)]
pub struct Failure {
    /// What failed and what to do; empty where the program that failed has said all there is to say.
    pub message: String,
    /// The exit code to end with.
    pub code: u8,
}

impl Failure {
    /// A failure with exit code 1.
    pub fn new(message: impl Into<String>) -> Self {
        Self { message: message.into(), code: 1 }
    }
}

/// `program` with `arguments`, run from the root of the repository.
pub fn program(
    program: impl AsRef<OsStr>,
    arguments: impl IntoIterator<Item = impl AsRef<OsStr>>,
) -> Command {
    let mut command = Command::new(program);
    command.args(arguments).current_dir(place::root());
    command
}

/// `cargo` with `arguments` as one string, split at spaces.
pub fn cargo(arguments: &str) -> Command {
    program("cargo", arguments.split(' '))
}

/// Prints `command`, runs it and waits. `advice` is what to do when it fails.
pub fn run(command: &mut Command, advice: &str) -> Result<(), Failure> {
    let line = line(command);
    println!("$ {line}");
    let status = command
        .status()
        .map_err(|why| Failure::new(format!("`{line}` could not be started: {why}.\n{advice}")))?;
    if status.success() {
        return Ok(());
    }
    let code = status.code().and_then(|code| u8::try_from(code).ok()).unwrap_or(1);
    Err(Failure { message: format!("`{line}` failed: {status}.\n{advice}"), code })
}

/// What `command` prints on its standard output, if it can be run and succeeds; not printed itself.
pub fn output_of(mut command: Command) -> Option<String> {
    let output = command.output().ok()?;
    output.status.success().then(|| String::from_utf8_lossy(&output.stdout).trim().to_owned())
}

/// The command as someone would type it at the root of the repository.
fn line(command: &Command) -> String {
    let mut words: Vec<String> = command
        .get_envs()
        .filter_map(|(name, value)| Some(format!("{}={}", name.display(), short(value?))))
        .collect();
    words.extend(std::iter::once(command.get_program()).chain(command.get_args()).map(short));
    if let Some(folder) = command.get_current_dir().filter(|folder| *folder != place::root()) {
        words.insert(0, format!("cd {} &&", short(folder.as_os_str())));
    }
    words.join(" ")
}

/// A word with the root of the repository left out, quoted where a shell would split it.
pub fn short(word: &OsStr) -> String {
    let root = format!("{}{}", place::root().display(), std::path::MAIN_SEPARATOR);
    let word = word.to_string_lossy().replace(&root, "");
    if word.contains(' ') { format!("'{word}'") } else { word }
}
