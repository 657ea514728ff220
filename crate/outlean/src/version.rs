//! Versions: of a lesson, as its page and the learner's record have it, and of a whole course.

/// The version of some content, such as what a lesson's page says: its hash (FNV-1a, 64 bits), in hexadecimal. For telling
/// versions apart, not for security.
pub fn version(content: impl AsRef<[u8]>) -> String {
    let hash = content.as_ref().iter().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(*byte)).wrapping_mul(0x0000_0100_0000_01b3)
    });
    format!("{hash:016x}")
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
