//! Picture: the rig of a plan, to scale.

use crate::worked::Worked;
use outlean_picture::{Inks, Show, SideViewInput, Subject, side_view, svg};
use outlean_plan::{ground_plan, spread_picture};
use outlean_rig::solve;
use outlean_rigfile::{Units, Words};

/// The side view, so wide and high, CSS pixels.
pub fn side(
    Worked { file, plan, .. }: &Worked,
    words: &Words,
    units: Units,
    (width, height): (f64, f64),
    dark: bool,
) -> Option<String> {
    let solution = solve(&file.rig).ok()?;
    let of = Subject {
        rig: &file.rig,
        solution: &solution,
        range: &plan.range,
        over: &[],
        units,
        words,
        width,
        height,
        k: 1.0,
        grown: 1.0,
    };
    let view = side_view(&SideViewInput::still(of, Show::USUAL));
    Some(svg(&view.scene, &inks(dark), words.say("side.title"), ""))
}

/// The ground plan, for paper of so many millimetres.
pub fn ground(worked: &Worked, words: &Words, units: Units, paper: (f64, f64), dark: bool) -> Option<String> {
    let Worked { file, plan, .. } = worked;
    let drawn = ground_plan(&file.rig, &plan.pacing, &worked.voice(words, units), paper).ok()?;
    Some(svg(&drawn.scene, &inks(dark), words.say("planner.ground"), ""))
}

/// How surely the plan holds, so many CSS pixels wide; `None` before all is drawn, and where no draw could be solved.
pub fn spread(worked: &Worked, words: &Words, units: Units, width: f64, dark: bool) -> Option<String> {
    let plan = &worked.plan;
    let band = plan.uncertainty.as_ref()?.ratio.as_ref()?;
    let scene = spread_picture(band, plan.governing.ratio, &worked.voice(words, units), width);
    Some(svg(&scene, &inks(dark), words.say("planner.spread"), ""))
}

const fn inks(dark: bool) -> Inks {
    if dark { Inks::DARK } else { Inks::LIGHT }
}
