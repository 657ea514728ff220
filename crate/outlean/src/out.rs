//! What is printed. Whoever closes the pipe early has read enough: that is no error.

use crate::words::words;
use std::io::{self, ErrorKind, Write, stderr, stdout};
use std::process::ExitCode;

/// Prints the answer of a command, which `code` is how it went; 2 where it cannot be printed, with the reason.
pub fn print(text: &str, code: ExitCode) -> ExitCode {
    match put(&mut stdout().lock(), text) {
        Ok(()) => code,
        Err(why) => unprinted(&why),
    }
}

/// Says on standard error what is wrong; where that cannot be said, nobody is there to be told so.
pub fn tell(text: &str) {
    let _ = put(&mut stderr().lock(), text);
}

/// Writes a text and all before it.
///
/// # Errors
///
/// Why it cannot be written; not that nobody reads it any more.
pub fn put(to: &mut impl Write, text: &str) -> io::Result<()> {
    match to.write_all(text.as_bytes()).and_then(|()| to.flush()) {
        Err(why) if why.kind() != ErrorKind::BrokenPipe => Err(why),
        _ => Ok(()),
    }
}

/// Says why an answer could not be printed.
pub fn unprinted(why: &io::Error) -> ExitCode {
    crate::failed(&words().fill("picture.cannot_write", &[("file", "-"), ("why", &why.to_string())]))
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Fails as it is told to.
    struct Failing(ErrorKind);

    impl Write for Failing {
        fn write(&mut self, _: &[u8]) -> io::Result<usize> {
            Err(self.0.into())
        }

        fn flush(&mut self) -> io::Result<()> {
            Ok(())
        }
    }

    #[test]
    fn a_closed_pipe_is_no_error_and_a_full_disk_is_one() {
        assert!(put(&mut Failing(ErrorKind::BrokenPipe), "text").is_ok());
        assert!(put(&mut Failing(ErrorKind::StorageFull), "text").is_err());
    }
}
