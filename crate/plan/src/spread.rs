//! How surely, as a picture: between which shares of what is allowed nine in ten of the draws lie, and where the limit is.

use crate::Voice;
use outlean_picture::{Anchor, Kind, Lettering, Path, Role, Scene, Tone};
use outlean_rig::Band;
use outlean_rigfile::percent;

/// Height of the picture, px.
const HEIGHT: f64 = 98.0;
/// Where the axis runs, px from the top.
const AXIS: f64 = 74.0;
/// Room at either end, px.
const ROOM: f64 = 34.0;
/// The least and the most that the axis goes to, in shares of what is allowed.
const ENDS: (f64, f64) = (1.25, 4.0);

/// The band of the governing ratio of a plan, what governs as planned (`ratio`) on it, on a plate so many pixels wide. What is
/// not finite, as where draws fall, runs on to the end of the axis.
#[must_use]
pub fn spread_picture(band: &Band, ratio: f64, voice: &Voice<'_>, width: f64) -> Scene {
    let width = if width.is_finite() { width.clamp(200.0, 4_000.0) } else { 600.0 };
    let mut scene = Scene::new(width, HEIGHT, 1.0);
    let finite = [band.low, band.middle, band.high, ratio].into_iter().filter(|value| value.is_finite());
    let end = finite.fold(ENDS.0, |end, value| end.max(1.1 * value)).min(ENDS.1);
    let at = |share: f64| {
        ROOM + (width - 2.0 * ROOM) * if share.is_finite() { share.max(0.0).min(end) / end } else { 1.0 }
    };

    let (from, to) = (at(band.low), at(band.high));
    scene.part_path(
        Path::rectangle(from, AXIS - 30.0, to, AXIS - 14.0),
        Role::Band(Kind::Pull),
        "nine in ten",
    );
    for share in [band.low, band.high] {
        scene.line((at(share), AXIS - 32.0), (at(share), AXIS - 12.0), Role::BandEdge(Kind::Pull), "bound");
    }
    scene.line((at(band.middle), AXIS - 32.0), (at(band.middle), AXIS - 12.0), Role::Stop, "middle");
    scene.line((at(0.0), AXIS), (at(end), AXIS), Role::AxisLine, "axis");
    let step = if end > 2.0 { 0.5 } else { 0.25 };
    let tone = |lettering| Role::Text(lettering, Tone::Ink);
    let mut ticks = Path::new();
    let mut share = 0.0;
    while share <= end + 1e-9 {
        ticks.add_line((at(share), AXIS), (at(share), AXIS + 4.0));
        scene.text((at(share), AXIS + 18.0), percent(share), Anchor::Middle, tone(Lettering::Note));
        share += step;
    }
    scene.part_path(ticks, Role::Tick, "axis");
    scene.line((at(1.0), 28.0), (at(1.0), AXIS), Role::Limit, "limit");
    scene.text((at(1.0) + 5.0, 37.0), voice.say("plan.spread.limit"), Anchor::Start, tone(Lettering::Note));
    scene.circle((at(ratio), AXIS - 22.0), 4.0, Role::Sheave, "as planned");
    scene.text((ROOM, 14.0), voice.say("plan.spread.title"), Anchor::Start, tone(Lettering::Name));
    scene
}
