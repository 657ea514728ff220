//! Variants side by side, and a measured rig beside the planned one.

use super::{Line, Saying, Section};
use crate::measured::dimension_of;
use crate::{Difference, Effect, Measured, REACH, Stated, Variant, Voice, governing_said};
use outlean_rig::{Dimension, Rig};
use outlean_rigfile::{fixed, percent};

/// What was stated, as people read it.
fn stated(key: &str, value: Option<Stated>, voice: &Voice<'_>) -> String {
    match (value, dimension_of(key)) {
        (Some(Stated::Number(value)), Some(Dimension::Length)) if value != 0.0 && value.abs() < 0.3 => {
            voice.small(value)
        }
        // A share of a hundredth would be lost in two decimals.
        (Some(Stated::Number(value)), Some(Dimension::Ratio)) if value.abs() < 0.1 => {
            format!("{}\u{2009}%", fixed(100.0 * value, 1))
        }
        (Some(Stated::Number(value)), Some(dimension)) => voice.shown(value, dimension),
        (Some(Stated::Word(word)), _) => word.to_owned(),
        _ => voice.say("plan.not_said"),
    }
}

/// What is at a key, in words.
fn meaning(key: &str, voice: &Voice<'_>) -> String {
    let guy = key.strip_prefix("guy.").and_then(|rest| rest.split_once('.'));
    let Some((number, name)) = guy else { return voice.say(&format!("field.{key}")) };
    let name = voice.say(&format!("field.guy.N.{name}"));
    let guy = number.parse().map_or("", |number| voice.guy(number));
    voice.fill("plan.of_guy", &[("guy", guy), ("what", &name)])
}

/// Variants side by side, called by `titles`; the words for guys are the first one's.
#[must_use]
pub fn compared_said(
    titles: &[&str],
    variants: &[Variant],
    found: &[Difference],
    voice: &Voice<'_>,
) -> Vec<Section> {
    let heading = |key: &str| voice.say(&format!("plan.heading.{key}"));
    let head = || {
        let numbered =
            (1..=titles.len()).map(|number| voice.fill("plan.variant", &[("number", &number.to_string())]));
        Line::Head(core::iter::once(voice.say("plan.as_built.what")).chain(numbered).collect())
    };
    let mut lines: Vec<Line> = (1..)
        .zip(titles)
        .map(|(number, title)| {
            let places = [("number", format!("{number}")), ("title", (*title).to_owned())];
            Line::Text(
                voice
                    .fill("plan.variant_is", &places.each_ref().map(|(name, value)| (*name, value.as_str()))),
            )
        })
        .collect();
    lines.push(head());
    let row = |key: &str, of: &dyn Fn(&Variant) -> String| {
        let cells = variants.iter().map(of);
        Line::Row(core::iter::once(voice.say(&format!("plan.compared.{key}"))).chain(cells).collect())
    };
    lines.push(row("advice", &|variant| voice.say(&format!("plan.compared.{}", variant.advice.name()))));
    lines.push(row("governs", &|variant| voice.limit(variant.governing.limit)));
    lines.push(row("ratio", &|variant| match variant.governing.ratio {
        ratio if ratio.is_finite() => percent(ratio),
        _ => voice.say("plan.not_at_all"),
    }));
    let names = variants.first().map(|first| first.readings.clone()).unwrap_or_default();
    for (place, reading) in names.iter().enumerate() {
        let of = |variant: &Variant| {
            let value = variant.readings.get(place).and_then(|reading| reading.value);
            value.map_or_else(|| voice.say("plan.none"), |value| voice.shown(value, reading.dimension))
        };
        lines.push(row(reading.name, &of));
    }
    let mut rows = Vec::new();
    for difference in found {
        let cells = difference.values.iter().map(|value| stated(&difference.key, *value, voice));
        rows.push(Line::Row(core::iter::once(meaning(&difference.key, voice)).chain(cells).collect()));
    }
    let differ = if rows.is_empty() {
        vec![Line::Text(voice.say("plan.no_difference"))]
    } else {
        core::iter::once(head()).chain(rows).collect()
    };
    vec![
        Section { key: "compared", heading: heading("compared"), lines },
        Section { key: "differences", heading: heading("differences"), lines: differ },
    ]
}

impl Saying<'_> {
    /// What was measured beside what was planned; the words of this plan are the planned one's.
    #[must_use]
    pub fn measured_said(&self, measured: &Measured, rig: &Rig) -> Vec<Section> {
        let voice = &self.voice;
        let head = ["what", "planned", "measured", "off", "tolerance", "effect"];
        let mut lines = vec![
            Line::Lead(voice.say(if measured.within {
                "plan.measured.within"
            } else {
                "plan.measured.beyond"
            })),
            Line::Head(head.iter().map(|name| voice.say(&format!("plan.as_built.{name}"))).collect()),
        ];
        let effect = |alone: &Option<Effect>| match alone {
            Some(Effect { limit, before, after }) if before.is_finite() && after.is_finite() => {
                let (before, after) = (percent(*before), percent(*after));
                if before == after {
                    return voice.say("plan.measured.no_effect");
                }
                let places = [("limit", voice.limit(*limit)), ("before", before), ("after", after)];
                voice.fill(
                    "plan.measured.effect",
                    &places.each_ref().map(|(name, value)| (*name, value.as_str())),
                )
            }
            Some(effect) => voice.limit(effect.limit),
            None => String::new(),
        };
        for row in &measured.rows {
            let planned = &row.planned;
            let dimension = planned.dimension;
            if planned.planned.abs() < 1e-9 && row.measured.is_some_and(|value| value.abs() < 1e-9) {
                continue;
            }
            let off = row.measured.map(|value| value - planned.planned);
            let sign = match off {
                Some(off) if off > 0.0 => "+",
                Some(off) if off < 0.0 => "−",
                _ => "",
            };
            let off = off.map_or_else(String::new, |off| format!("{sign}{}", self.off(off.abs(), dimension)));
            let mark = voice.say(if row.within { "plan.measured.ok" } else { "plan.measured.not_ok" });
            lines.push(Line::Row(vec![
                self.measured(&planned.key, planned.guy),
                self.taped(planned.planned, dimension),
                row.measured.map_or_else(|| voice.say("plan.not_said"), |value| self.taped(value, dimension)),
                off,
                format!("± {} {mark}", self.within(planned.tolerance, dimension)),
                if planned.key == REACH { String::new() } else { effect(&row.alone) },
            ]));
        }
        for other in &measured.others {
            lines.push(Line::Row(vec![
                meaning(&other.key, voice),
                stated(&other.key, other.planned, voice),
                stated(&other.key, other.measured, voice),
                String::new(),
                String::new(),
                effect(&other.alone),
            ]));
        }
        if let Some(off) = measured.second_lean {
            let agree = off.abs() <= self.plan.job.scatter.angle + 1e-6;
            let key = if agree { "plan.measured.leans_agree" } else { "plan.measured.leans_differ" };
            lines.push(self.text(key, &[("off", &voice.angle(off.abs()))]));
        }
        let beside = |key: &str, planned: String, measured: String| {
            Line::Row(vec![voice.say(&format!("plan.compared.{key}")), planned, measured])
        };
        let names = ["what", "planned", "measured"].map(|name| voice.say(&format!("plan.as_built.{name}")));
        let advice = |plan: &crate::Plan| voice.say(&format!("plan.compared.{}", plan.advice.name()));
        let governs = |plan: &crate::Plan, rig: &Rig| governing_said(&plan.governing, rig, voice);
        let mut effects = vec![
            Line::Head(names.to_vec()),
            beside("advice", advice(self.plan), advice(&measured.plan)),
            beside("governs", governs(self.plan, self.rig), governs(&measured.plan, rig)),
        ];
        let (before, after) = (crate::variant(self.plan, self.rig), crate::variant(&measured.plan, rig));
        for (before, after) in before.readings.iter().zip(&after.readings) {
            let shown = |value: Option<f64>| {
                value.map_or_else(|| voice.say("plan.none"), |value| voice.shown(value, before.dimension))
            };
            if shown(before.value) != shown(after.value) {
                effects.push(beside(before.name, shown(before.value), shown(after.value)));
            }
        }
        vec![self.section("measured", lines), self.section("effect", effects)]
    }
}
