//! Versions: of a lesson, as its page and the learner's record have it, and of a whole course.

use std::path::Path;

/// The version of some content, such as what a lesson's page says: its hash (FNV-1a, 64 bits), in hexadecimal. For telling
/// versions apart, not for security.
pub fn version(content: impl AsRef<[u8]>) -> String {
    let hash = content.as_ref().iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    format!("{hash:016x}")
}

/// The version of some files together, in whatever order they come: of what is in each, and of where.
pub fn version_of<'a>(files: impl IntoIterator<Item = (&'a Path, &'a [u8])>) -> String {
    let mut each: Vec<String> =
        files.into_iter().map(|(file, content)| format!("{} {}\n", way(file), version(content))).collect();
    each.sort();
    version(each.concat())
}

/// A file's way from the first page, as addresses have it.
pub fn way(file: &Path) -> String {
    file.to_string_lossy().replace('\\', "/")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_version_is_the_published_hash() {
        // From the test vectors of the hash's authors (G. Fowler, L. C. Noll, K.-P. Vo; from memory).
        assert_eq!(version(""), "cbf29ce484222325");
        assert_eq!(version("a"), "af63dc4c8601ec8c");
    }
}
