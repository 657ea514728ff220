//! The folder of what pages load: scripts, modules, styles, lettering, words, pictures. It is named by a hash of all that
//! is in it, so that whoever keeps a file of it need never ask for it again.
//!
//! One name for the whole folder, rather than one for each file, because files of it find each other by ways that stay as
//! they are written, in scripts and styles alike, and because no page can ever come by files of two versions. The price:
//! a word changed in one file is a new address for all of them. They are a quarter of a megabyte a lesson.

use crate::version::version_of;
use std::path::{Path, PathBuf};

/// What every lesson loads of the program.
pub const OF_LESSONS: [&str; 3] = ["page.js", "painter.js", "wasm/outlean_bg.wasm"];

/// What its name begins with.
const BEGINS: &str = "program-";

/// What it is called in pages, and in the places of files, until all that goes into it is known.
pub const UNNAMED: &str = "program-0000000000000000";

/// Its name, by what is in it: the files of a course that are in it.
pub fn name(files: &[(PathBuf, Vec<u8>)]) -> String {
    let inside: Vec<_> = files.iter().filter(|(file, _)| file.starts_with(UNNAMED)).collect();
    format!(
        "{BEGINS}{}",
        version_of(inside.iter().map(|(file, content)| (file.as_path(), content.as_slice())))
    )
}

/// Scripts that pages of others load: their addresses must stay.
const ENTRIES: [&str; 2] = ["elements.js", "frames.js"];
/// The icon of pages that are not made here, such as the examples.
const ICON: &str = "favicon.svg";

/// Beside the first page, a module by the name of each such script that there is, which hands on what that is now; and the icon.
pub fn entries(files: &[(PathBuf, Vec<u8>)], name: &str) -> Vec<(PathBuf, Vec<u8>)> {
    let there = |entry: &str| files.iter().any(|(file, _)| *file == Path::new(name).join(entry));
    let handed = |entry: &str| format!("export * from './{name}/{entry}';\n").into_bytes();
    let there = ENTRIES.into_iter().filter(|entry| there(entry));
    let icon = files.iter().find(|(file, _)| *file == Path::new(name).join(ICON));
    let icon = icon.map(|(_, content)| (ICON.into(), content.clone()));
    there.map(|entry| (entry.into(), handed(entry))).chain(icon).collect()
}

/// Where a file is once the folder has its name.
pub fn place(file: &Path, name: &str) -> PathBuf {
    file.strip_prefix(UNNAMED).map_or_else(|_| file.to_owned(), |rest| Path::new(name).join(rest))
}

/// Whether what is called so is the folder, of this version of a course or another.
pub fn is(name: &str) -> bool {
    let hash = name.strip_prefix(BEGINS).unwrap_or_default();
    hash.len() == 16 && hash.bytes().all(|digit| digit.is_ascii_hexdigit())
}

/// The folder, of the version of a course that a page is of, by the way of its script; `None` for a page without one.
pub fn of(page: &str) -> Option<&str> {
    let (before, _) = page.split_once("/page.js\"")?;
    before.rsplit(['/', '"']).next().filter(|name| is(name))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_name_is_of_what_is_in_it_and_of_nothing_else() {
        let all = |script: &str, page: &str| {
            let inside = Path::new(UNNAMED).join("page.js");
            vec![(inside, script.as_bytes().to_vec()), ("index.html".into(), page.as_bytes().to_vec())]
        };
        let usual = name(&all("1", "2"));
        assert!(is(&usual) && usual != UNNAMED, "{usual}");
        assert_eq!(usual, name(&all("1", "other")));
        assert_ne!(usual, name(&all("other", "2")));
        assert_eq!(place(&Path::new(UNNAMED).join("wasm/a"), &usual), Path::new(&usual).join("wasm/a"));
        assert_eq!(place(Path::new("a/index.html"), &usual), Path::new("a/index.html"));
    }

    #[test]
    fn a_page_tells_which_it_is() {
        let page =
            |way: &str| format!("<link href=\"../x.css\">\n<script src=\"../../{way}/page.js\"></script>");
        assert_eq!(of(&page("program-0123456789abcdef")), Some("program-0123456789abcdef"));
        assert_eq!(of("<script src=\"program-0123456789abcdef/page.js\">"), Some("program-0123456789abcdef"));
        assert_eq!(of(&page("program-0123")), None);
        assert_eq!(of(&page("programme")), None);
        assert_eq!(of("<script src=\"other.js\"></script>"), None);
    }
}
