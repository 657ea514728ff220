//! Draws every step of a build as an SVG file, to be looked at: `cargo run --example build_steps -- RIG DIRECTORY`.

use outlean_picture::{BuildStep, Inks, Words, build_plate, build_told, svg};

fn main() -> Result<(), Box<dyn std::error::Error>> {
    let mut arguments = std::env::args().skip(1);
    let (rig, directory) = arguments
        .next()
        .zip(arguments.next())
        .ok_or("say of what and where to: build_steps RIG DIRECTORY")?;
    let rig = outlean_rigfile::read(&std::fs::read_to_string(rig)?).0.ok_or("the rig file has errors")?.rig;
    let strings = concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/strings/en/steps.json");
    let words: Words = serde_json::from_str(&std::fs::read_to_string(strings)?)?;
    for (name, step) in BuildStep::all() {
        for (theme, inks) in [("light", Inks::LIGHT), ("dark", Inks::DARK)] {
            let plate = build_plate(step, &rig, &words, name == "upright")?;
            let file = format!("{directory}/{}_{theme}.svg", name.replace(' ', "_"));
            std::fs::write(file, svg(&plate.scene, &inks, name, &build_told(step, &rig, &words)))?;
            if theme == "light" {
                println!("{name}: left out {:?}", plate.dropped);
            }
        }
    }
    Ok(())
}
