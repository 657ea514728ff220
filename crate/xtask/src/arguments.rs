//! What stands behind a command's name.

use crate::command::Failure;

/// Refuses anything that is not one of `known`.
pub fn only(arguments: &[String], known: &[&str]) -> Result<(), Failure> {
    match arguments.iter().find(|argument| !known.contains(&argument.as_str())) {
        None => Ok(()),
        Some(other) if known.is_empty() => {
            Err(Failure::new(format!("`{other}` is not understood; this command takes no arguments.")))
        }
        Some(other) => Err(Failure::new(format!("`{other}` is not understood; known: {}.", known.join(" ")))),
    }
}

/// Whether `flag` was given.
pub fn given(arguments: &[String], flag: &str) -> bool {
    arguments.iter().any(|argument| argument == flag)
}
