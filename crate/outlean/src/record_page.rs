//! What pages say for the learner's record: the version of a lesson, and the page that shows the record.

use crate::lesson::TITLE;
use crate::page::{Shell, escaped};

/// The page of the learner's record.
pub fn page(shell: &Shell) -> String {
    let say = |key: &str| escaped(shell.words.say(key));
    let body = format!(
        "<script type=\"module\" src=\"../record.js\"></script>\n<outlean-record><p>{}</p></outlean-record>\n",
        say("record_still")
    );
    shell.fill(&[
        ("title", &say("record_title")),
        ("description", &say("record_description")),
        ("facts", &say("record_description")),
        ("root", "../"),
        ("anchor", TITLE),
        ("body", &body),
    ])
}

/// The version of a lesson: a hash of what its page says (FNV-1a, 64 bits), in hexadecimal. For telling versions apart,
/// not for security.
pub fn version(body: &str) -> String {
    let hash = body.bytes().fold(0xcbf2_9ce4_8422_2325_u64, |hash, byte| {
        (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3)
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
