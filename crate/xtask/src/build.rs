//! `cargo xtask build`: the wasm, the native program, the site, the sizes.

use crate::command::{self, Failure, cargo, program};
use crate::{arguments, place, sizes, wasm};

/// Fills target/site.
pub fn run(arguments: &[String]) -> Result<(), Failure> {
    arguments::only(arguments, &[])?;
    wasm::build()?;
    command::run(
        &mut cargo("build --release --package outlean"),
        "The errors above are in the native program or a crate below it.",
    )?;
    let mut site = program(place::outlean(), ["build", "--lessons", "lessons", "--assets", "www", "--wasm"]);
    site.arg(place::wasm("web")).arg("--out").arg(place::site());
    command::run(&mut site, "The errors above say which file is at fault.")?;
    sizes::check(&place::site())
}
