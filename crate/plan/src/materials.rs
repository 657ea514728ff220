//! Materials in words: what must be carried to the site.

use crate::Voice;
use outlean_rig::{HoldfastMaterials, Materials, Rig};

/// What `rig` takes, in lines. Where it is known how far its load goes, `lowered` m, each line that is hauled is longer by that,
/// a tackle by that for each of its parts.
#[must_use]
pub fn materials_said(rig: &Rig, found: &Materials, lowered: Option<f64>, voice: &Voice<'_>) -> Vec<String> {
    let length = |value: f64| voice.length(value);
    let mut lines = vec![match &found.lashing {
        Some(rope) => voice.fill(
            "materials.lashing",
            &[
                ("total", &length(rope.total())),
                ("wrapping", &length(rope.wrapping)),
                ("frapping", &length(rope.frapping)),
                ("hitches", &length(rope.hitches)),
                ("tails", &length(rope.tails)),
            ],
        ),
        None => voice.say("materials.no_lashing"),
    }];
    lines.extend(found.hobble.map(|value| voice.fill("materials.hobble", &[("length", &length(value))])));
    lines.extend(found.sling.map(|value| {
        let second = found.second_sling.map(length);
        let key = if second.is_some() { "materials.slings" } else { "materials.sling" };
        voice.fill(key, &[("length", &length(value)), ("second", &second.unwrap_or_default())])
    }));
    let hauled = [("materials.line", found.line), ("materials.second_line", found.second_line)];
    for ((key, there), line) in hauled.into_iter().zip(rig.lines()) {
        let Some(there) = there else { continue };
        let lowered = lowered.map(|lowered| lowered * line.path.falls());
        lines.push(match lowered {
            Some(lowered) => voice.fill(
                &format!("{key}.lowered"),
                &[
                    ("length", &length(there)),
                    ("lowered", &length(lowered)),
                    ("whole", &length(there + lowered)),
                ],
            ),
            None => voice.fill(key, &[("length", &length(there))]),
        });
    }
    let holdfast = |of: &str, there: Option<HoldfastMaterials>| holdfast_said(of, there, voice);
    for guy in &found.guys {
        let name = voice.guy(guy.guy);
        lines.push(voice.fill("materials.guy", &[("guy", name), ("length", &length(guy.rope))]));
        lines.extend(holdfast(name, guy.holdfast));
    }
    let hauled = [("materials.haul", found.haul), ("materials.second_haul", found.second_haul)];
    for ((key, there), line) in hauled.into_iter().zip(rig.lines()) {
        if line.path.haul_point().is_some() {
            lines.extend(holdfast(&voice.say(key), there));
        }
    }
    lines.push(voice.say("materials.spare"));
    lines
}

/// What a holdfast takes; `None` for one that is of no pickets.
fn holdfast_said(of: &str, there: Option<HoldfastMaterials>, voice: &Voice<'_>) -> Option<String> {
    let Some(there) = there else { return Some(voice.fill("materials.holdfast_unknown", &[("of", of)])) };
    let (count, lashings) = (there.pickets.to_string(), there.lashings.to_string());
    let rope = voice.length(there.rope);
    let places = [("of", of), ("count", &count), ("lashings", &lashings), ("length", &rope)];
    let key = if there.lashings > 0 { "materials.pickets" } else { "materials.pickets_alone" };
    (there.pickets > 0).then(|| voice.fill(key, &places))
}
