//! The calculation as a wasm module with its JavaScript.

use crate::command::{Failure, cargo, run, short};
use crate::{install, place};
use std::fs;
use std::path::Path;
use std::time::SystemTime;
use wasm_bindgen_cli_support::Bindgen;

/// Name of the files made: `outlean.js`, `outlean_bg.wasm`.
const NAME: &str = "outlean";

/// Habits of the compiler that cost room even where it is told to mind it: to rewrite loops, to move what does not change
/// out of them, to copy a few words one by one instead of together.
const SMALL: [&str; 4] =
    ["-disable-lsr", "-disable-machine-licm", "-max-store-memcpy=1", "-max-store-memmove=1"];

/// Compiles the widget and makes `target/wasm/web` (ES module for pages) and `target/wasm/node` (for the tests),
/// each only when it is older than what it is made from.
pub fn build() -> Result<(), Failure> {
    install::wasm_target()?;
    // As a module alone: a crate that is also made as a library for others is not optimised as a whole.
    let made = "rustc --profile page --target wasm32-unknown-unknown --package outlean-widget --lib --crate-type cdylib \
                -- -Cllvm-args=";
    let made = format!("{made}{}", SMALL.join(" -Cllvm-args="));
    run(&mut cargo(&made), "The errors above are in the Rust code that goes into the page.")?;
    bind("web", |bindgen| bindgen.web(true).map(|bindgen| bindgen.omit_default_module_path(false)))?;
    bind("node", |bindgen| bindgen.nodejs(true))
}

/// Makes one form of the module.
fn bind<E: std::fmt::Display>(
    form: &str,
    choose: impl FnOnce(&mut Bindgen) -> Result<&mut Bindgen, E>,
) -> Result<(), Failure> {
    let folder = place::wasm(form);
    // This program is one of the sources: the bindings are made by the library inside it.
    let sources = [Some(place::raw_wasm()), std::env::current_exe().ok()];
    let newest = sources.iter().flatten().filter_map(|path| changed(path)).max();
    if newest <= changed(&folder.join(format!("{NAME}_bg.wasm"))) {
        return Ok(());
    }
    println!("> making the bindings for {form} in {}", short(folder.as_os_str()));
    let failed = |why: &dyn std::fmt::Display| {
        Failure::new(format!(
            "the bindings for {form} could not be made: {why:#}.\n\
             wasm-bindgen and wasm-bindgen-cli-support must be of one version in Cargo.toml."
        ))
    };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(place::raw_wasm()).out_name(NAME).typescript(true);
    bindgen.remove_name_section(true).remove_producers_section(true);
    choose(&mut bindgen).map_err(|why| failed(&why))?;
    bindgen.generate(&folder).map_err(|why| failed(&why))
}

/// When a file was last written; `None` where there is none.
fn changed(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|file| file.modified()).ok()
}
