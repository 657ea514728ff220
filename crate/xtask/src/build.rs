//! `cargo xtask build`: the wasm, the native program, the site, the sizes.

use crate::command::{self, Failure, cargo};
use crate::{arguments, place, script, sizes, wasm};
use std::fs::{self, DirEntry};
use std::io;

/// Fills target/site.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    arguments::only(arguments, &[])?;
    wasm::build()?;
    program()?;
    command::run(
        &mut cargo("build --release --package outlean"),
        "The errors above are in the native program or a crate below it.",
    )?;
    let mut site = command::program(place::outlean(), ["build", "--lessons", "lessons", "--assets"]);
    site.arg(place::assets()).arg("--program").arg(place::program()).arg("--out").arg(place::site());
    command::run(&mut site, "The errors above say which file is at fault.")?;
    keep_packed().map_err(|why| Failure::new(format!("what is packed cannot be kept: {why}")))?;
    sizes::check(&place::site())
}

/// Puts the packed forms of the program's files, as the site has them, beside those files: packing is most of a build, and a
/// course that is built of them takes it from there.
fn keep_packed() -> io::Result<()> {
    for site in fs::read_dir(place::site())?
        .flatten()
        .filter(|entry| named(entry, |name| name.starts_with("program-")))
    {
        for part in ["", "wasm"] {
            let folder = place::program().join(part);
            let packed = |name: &str| name.ends_with(".br") || name.ends_with(".gz");
            for file in fs::read_dir(site.path().join(part))?.flatten().filter(|entry| named(entry, packed)) {
                let to = folder.join(file.file_name());
                if to.with_extension("").is_file() {
                    fs::copy(file.path(), to)?;
                }
            }
        }
    }
    Ok(())
}

/// The bindings without what they would warn of on the console: nobody reads that there, and the pages say themselves what keeps a
/// program from starting.
fn unwarned(bindings: &str) -> String {
    let mut parts = bindings.split("console.warn(");
    let mut kept = parts.next().unwrap_or_default().to_owned();
    for part in parts {
        // Each is a line of its own.
        kept.push_str("void 0;");
        kept.push_str(part.find('\n').and_then(|end| part.get(end..)).unwrap_or_default());
    }
    kept
}

/// Whether what stands in a folder is called so.
fn named(entry: &DirEntry, so: impl Fn(&str) -> bool) -> bool {
    entry.file_name().to_str().is_some_and(so)
}

/// Lays out what pages load of the program as the site has it: one script of everything in JavaScript, one of what each
/// page apart from the lessons has besides, and the modules in `wasm`.
fn program() -> Result<(), Failure> {
    let web = place::wasm("web");
    let read = |name: &str| {
        let file = match name.strip_prefix("wasm/") {
            Some(name) => web.join(name),
            None => place::assets().join(name),
        };
        let text = fs::read_to_string(&file);
        let text = text.map_err(|why| Failure::new(format!("{}: {why}", file.display())))?;
        Ok(if name.starts_with("wasm/") { unwarned(&text) } else { text })
    };
    let scripts = [
        "page.js",
        "painter.js",
        "speaker.js",
        "led.js",
        "hands.js",
        "record.js",
        "class.js",
        "refresher.js",
        "plan.js",
        "lms.js",
        "offline.js",
        "frames.js",
    ];
    // A lesson in one file holds what others load; on anyone's page elements have nothing of the course's pages.
    let instead = |name: &str, of: &str, by: &str| {
        let read = |module: &str| read(if module == of { by } else { module });
        script::bundle(name, &read)
    };
    let others = [
        ("single.js", instead("single.js", "origin.js", "held.js")),
        ("elements.js", instead("elements.js", "given.js", "anywhere.js")),
        ("embed.js", instead("embed.js", "given.js", "anywhere.js")),
    ];
    let made = scripts.into_iter().map(|name| (name, script::bundle(name, &read))).chain(others);
    let made = made.map(|(name, script)| Ok((name, script?)));
    let made = made.collect::<Result<Vec<_>, Failure>>()?;
    let folder = place::program();
    let wasm = folder.join("wasm");
    // What an earlier build left there would go into the site.
    let cleared = if folder.exists() { fs::remove_dir_all(&folder) } else { Ok(()) };
    cleared
        .and_then(|()| fs::create_dir_all(&wasm))
        .and_then(|()| made.iter().try_for_each(|(name, script)| fs::write(folder.join(name), script)))
        .and_then(|()| {
            let modules = ["outlean_bg.wasm", "refresher_bg.wasm", "class_bg.wasm", "planner_bg.wasm"];
            modules.iter().try_for_each(|name| fs::copy(web.join(name), wasm.join(name)).map(drop))
        })
        .map_err(|why| Failure::new(format!("{} cannot be filled: {why}", folder.display())))?;
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bindings_lose_their_warnings_and_nothing_else() {
        let bindings = "if (a) {\n  console.warn('so; or so', e);\n\n} else { throw e; }\n";
        assert_eq!(unwarned(bindings), "if (a) {\n  void 0;\n\n} else { throw e; }\n");
        assert_eq!(unwarned("a();\n"), "a();\n");
    }
}
