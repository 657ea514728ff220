//! `outlean materials`: what must be carried to the site to build a rig.

use crate::files::{self, Form};
use crate::name;
use crate::words::words;
use outlean_rig::{Dimension, Fault, HoldfastMaterials, Materials, materials};
use outlean_rigfile::{RigFile, show};
use serde::Serialize;
use std::process::ExitCode;

#[derive(Serialize)]
struct Output {
    materials: Materials,
}

/// Runs the command and says how it went.
pub fn run(args: &files::RigFiles) -> ExitCode {
    files::each(args, answer)
}

fn answer(file: &RigFile, form: &Form<'_>) -> Result<String, Fault> {
    let output = Output { materials: materials(&file.rig)? };
    let guys = name::guys(file);
    Ok(form.said(&output, || text(&output, &guys, form)))
}

fn text(output: &Output, guys: &[String], form: &Form<'_>) -> String {
    let length = |value: f64| show(value, Dimension::Length, form.units).to_string();
    let found = &output.materials;
    let mut lines = Vec::new();
    lines.push(match &found.lashing {
        Some(rope) => words().fill(
            "materials.lashing",
            &[
                ("total", &length(rope.total())),
                ("wrapping", &length(rope.wrapping)),
                ("frapping", &length(rope.frapping)),
                ("hitches", &length(rope.hitches)),
                ("tails", &length(rope.tails)),
            ],
        ),
        None => words().say("materials.no_lashing").to_owned(),
    });
    for (key, there) in
        [("materials.hobble", found.hobble), ("materials.sling", found.sling), ("materials.line", found.line)]
    {
        lines.extend(there.map(|value| words().fill(key, &[("length", &length(value))])));
    }
    let holdfast = |of: &str, there: HoldfastMaterials| {
        let (count, lashings) = (there.pickets.to_string(), there.lashings.to_string());
        let places =
            [("of", of), ("count", &count), ("lashings", &lashings), ("length", &length(there.rope))];
        (there.pickets > 0).then(|| words().fill("materials.pickets", &places))
    };
    for guy in &found.guys {
        let name = name::guy(guy.guy, guys);
        lines.push(words().fill("materials.guy", &[("guy", name), ("length", &length(guy.rope))]));
        lines.extend(holdfast(name, guy.holdfast));
    }
    lines.extend(holdfast(words().say("materials.haul"), found.haul));
    lines.extend(holdfast(words().say("materials.second_haul"), found.second_haul));
    lines.push(words().say("materials.spare").to_owned());
    files::page(form, &lines)
}
