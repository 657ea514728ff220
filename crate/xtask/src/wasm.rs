//! The calculation, the scheduler, the class table and the planner as wasm modules with their JavaScript.

use crate::command::{Failure, cargo, run, short};
use crate::{install, place, remapped};
use std::fs;
use std::path::Path;
use std::time::SystemTime;
use wasm_bindgen_cli_support::Bindgen;

/// What is compiled for pages, as the compiler calls it.
pub const TARGET: &str = "wasm32-unknown-unknown";

/// Habits of the compiler that cost room even where it is told to mind it: to rewrite loops, to move what does not change
/// out of them, to copy a few words one by one instead of together.
const SMALL: [&str; 4] =
    ["-disable-lsr", "-disable-machine-licm", "-max-store-memcpy=1", "-max-store-memmove=1"];

/// Compiles the widget and makes `outlean.js` with its module in `target/wasm/web` (for pages) and `target/wasm/node` (for
/// the tests), beside each `refresher.js` out of the scheduler and `class.js`, and `planner.js` for pages; each only when it is older
/// than what it is made from.
pub fn build() -> Result<(), Failure> {
    install::wasm_target()?;
    compile("widget", "The errors above are in the Rust code that goes into the page.")?;
    let for_pages = |bindgen: &mut Bindgen| {
        bindgen.web(true).map(|bindgen| bindgen.omit_default_module_path(false)).map(drop)
    };
    bind("widget", "outlean", "web", for_pages)?;
    let for_node = |bindgen: &mut Bindgen| bindgen.nodejs(true).map(drop);
    bind("widget", "outlean", "node", for_node)?;
    for package in ["refresher", "class", "planner"] {
        compile(package, "The errors above are in the Rust code of a page apart from the lessons.")?;
        bind(package, package, "web", for_pages)?;
    }
    bind("refresher", "refresher", "node", for_node)?;
    bind("class", "class", "node", for_node)
}

/// Compiles a package. As a module alone: a crate that is also made as a library for others is not optimised as a whole.
fn compile(package: &str, advice: &str) -> Result<(), Failure> {
    let mut made = cargo(&format!(
        "rustc --profile page --target {TARGET} --package outlean-{package} --lib --crate-type cdylib"
    ));
    made.args(remapped::settings(TARGET)).arg("--");
    run(made.args(SMALL.map(|habit| format!("-Cllvm-args={habit}"))), advice)?;
    remapped::check(&place::raw_wasm(package))
}

/// Makes one form of the module of a package, in files of this name.
fn bind<E: std::fmt::Display>(
    package: &str,
    name: &str,
    form: &str,
    choose: impl FnOnce(&mut Bindgen) -> Result<(), E>,
) -> Result<(), Failure> {
    let folder = place::wasm(form);
    // This program is one of the sources: the bindings are made by the library inside it.
    let sources = [Some(place::raw_wasm(package)), std::env::current_exe().ok()];
    let newest = sources.iter().flatten().filter_map(|path| changed(path)).max();
    if newest <= changed(&folder.join(format!("{name}_bg.wasm"))) {
        return Ok(());
    }
    println!("> making the bindings of {name} for {form} in {}", short(folder.as_os_str()));
    let failed = |why: &dyn std::fmt::Display| {
        Failure::new(format!(
            "the bindings of {name} for {form} could not be made: {why:#}.\n\
             wasm-bindgen and wasm-bindgen-cli-support must be of one version in Cargo.toml."
        ))
    };
    let mut bindgen = Bindgen::new();
    bindgen.input_path(place::raw_wasm(package)).out_name(name).typescript(true);
    bindgen.remove_name_section(true).remove_producers_section(true);
    choose(&mut bindgen).map_err(|why| failed(&why))?;
    bindgen.generate(&folder).map_err(|why| failed(&why))
}

/// When a file was last written; `None` where there is none.
fn changed(path: &Path) -> Option<SystemTime> {
    fs::metadata(path).and_then(|file| file.modified()).ok()
}
