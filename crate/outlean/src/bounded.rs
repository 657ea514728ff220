//! Files that others wrote: no more is read of one than it may hold.

use std::fs::File;
use std::io::{Error, ErrorKind, Read, Result};
use std::path::Path;

/// What is in a file of at most so many bytes.
///
/// # Errors
///
/// Why it cannot be read; of one that is longer, how many bytes it may have.
pub fn read(path: &Path, most: usize) -> Result<Vec<u8>> {
    let mut bytes = Vec::new();
    File::open(path)?.take(most as u64 + 1).read_to_end(&mut bytes)?;
    if bytes.len() > most {
        return Err(Error::new(ErrorKind::FileTooLarge, format!("it has more than {most} bytes")));
    }
    Ok(bytes)
}

/// The same of a file of text.
///
/// # Errors
///
/// As [`read`]; that it is no text.
pub fn text(path: &Path, most: usize) -> Result<String> {
    String::from_utf8(read(path, most)?).map_err(|why| Error::new(ErrorKind::InvalidData, why))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_up_to_its_bound_and_a_stream_without_an_end_as_well() {
        let file = Path::new(env!("CARGO_MANIFEST_DIR")).join("Cargo.toml");
        let whole = std::fs::read(&file).unwrap();
        assert_eq!(read(&file, whole.len()).unwrap(), whole);
        let told = |path: &Path, most| text(path, most).unwrap_err().to_string();
        assert_eq!(told(&file, whole.len() - 1), format!("it has more than {} bytes", whole.len() - 1));
        #[cfg(unix)]
        assert_eq!(told(Path::new("/dev/zero"), 1000), "it has more than 1000 bytes");
    }
}
