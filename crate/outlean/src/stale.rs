//! What an earlier build put into a folder and this one does not: it goes, and nothing else that stands there.

use crate::packed::{self, Packing};
use crate::program;
use std::collections::BTreeSet;
use std::fs;
use std::io;
use std::path::{Component, Path, PathBuf};

/// The list, in the folder itself, of what the build before put there: a path to a line.
const LIST: &str = "files.txt";

/// What the build before put into `out`; nothing that a line leads out of it to.
pub fn before(out: &Path) -> Vec<PathBuf> {
    let list = fs::read_to_string(out.join(LIST)).unwrap_or_default();
    list.lines().map(PathBuf::from).filter(|file| inside(file)).collect()
}

/// Removes from `out` what its list names and `now` does not, with its packed form, and any folder of what pages load but
/// the one in `now`, such as a build that was stopped leaves without a list; lists what is there now.
///
/// # Errors
///
/// The list cannot be written. A file that cannot be removed is passed over.
pub fn clear(out: &Path, now: &BTreeSet<PathBuf>) -> io::Result<()> {
    let list = out.join(LIST);
    for file in before(out).iter().filter(|file| !now.contains(*file)) {
        let _ = fs::remove_file(out.join(file));
        for packed in Packing::ALL.into_iter().filter_map(|packing| packed::place(file, packing)) {
            let _ = fs::remove_file(out.join(packed));
        }
        // A folder that is not empty stays, and so do those that it is in.
        let folders = file.ancestors().skip(1).filter(|folder| *folder != Path::new(""));
        let _ = folders.map(|folder| fs::remove_dir(out.join(folder))).find(Result::is_err);
    }
    let now_in = |name: &str| now.iter().any(|file| file.starts_with(name));
    for entry in fs::read_dir(out).into_iter().flatten().flatten() {
        let name = entry.file_name();
        if name.to_str().is_some_and(|name| program::is(name) && !now_in(name)) {
            let _ = fs::remove_dir_all(entry.path());
        }
    }
    let lines: String = now.iter().map(|file| format!("{}\n", file.display())).collect();
    if fs::read_to_string(&list).is_ok_and(|before| lines == before) {
        Ok(())
    } else {
        fs::write(list, lines)
    }
}

/// Whether a path stays in the folder that it starts from.
fn inside(path: &Path) -> bool {
    path.components().all(|part| matches!(part, Component::Normal(_)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_build_no_longer_makes_goes_and_what_others_put_there_stays() {
        let root = std::env::temp_dir().join(format!("outlean-stale-{}", std::process::id()));
        let out = root.join("out");
        fs::create_dir_all(out.join("old/a/b")).unwrap();
        for folder in ["kept", "program-0123456789abcdef", "program-of-theirs"] {
            fs::create_dir_all(out.join(folder)).unwrap();
        }
        for name in [
            "old/index.html",
            "old/index.html.br",
            "old/index.html.gz",
            "old/a/b/x.css",
            "page.js",
            "kept/own.txt",
            "kept/index.html",
            "../beside.txt",
        ] {
            fs::write(out.join(name), "text").unwrap();
        }
        let set = |names: &[&str]| names.iter().map(PathBuf::from).collect::<BTreeSet<_>>();
        clear(&out, &set(&["old/index.html", "old/a/b/x.css", "page.js", "kept/index.html"])).unwrap();
        assert!(out.join("old/index.html").exists(), "a first build removes nothing");
        // As nobody but a hand would write it.
        let list = fs::read_to_string(out.join(LIST)).unwrap() + "../beside.txt\n";
        fs::write(out.join(LIST), list).unwrap();
        clear(&out, &set(&["page.js"])).unwrap();
        for (name, stays) in [
            ("old", false),
            ("page.js", true),
            ("kept/own.txt", true),
            ("kept/index.html", false),
            ("../beside.txt", true),
            ("program-0123456789abcdef", false),
            ("program-of-theirs", true),
        ] {
            assert_eq!(out.join(name).exists(), stays, "{name}");
        }
        assert_eq!(fs::read_to_string(out.join(LIST)).unwrap(), "page.js\n");
        fs::remove_dir_all(root).unwrap();
    }
}
