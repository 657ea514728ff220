//! The as-built sheet, to be filled in by hand.

use super::{Line, Saying, Section};
use crate::{Measure, REACH};
use outlean_rig::Dimension;

impl Saying<'_> {
    /// What is measured.
    pub(super) fn measured(&self, key: &str, guy: Option<u8>) -> String {
        let voice = &self.voice;
        let row = match guy {
            Some(number) => key.replacen(&format!("guy.{number}."), "guy.", 1),
            None => key.to_owned(),
        };
        let name = guy.map_or("", |guy| voice.guy(guy));
        voice.fill(&format!("plan.measure.{row}"), &[("guy", name)])
    }

    /// A value as it is measured.
    pub(super) fn taped(&self, value: f64, dimension: Dimension) -> String {
        if dimension == Dimension::Length {
            self.voice.tape(value)
        } else {
            self.voice.shown(value, dimension)
        }
    }

    /// How far one is off.
    pub(super) fn off(&self, value: f64, dimension: Dimension) -> String {
        if dimension == Dimension::Length {
            self.voice.small(value)
        } else {
            self.voice.shown(value, dimension)
        }
    }

    /// How far one may be off at the most.
    pub(super) fn within(&self, value: f64, dimension: Dimension) -> String {
        match dimension {
            Dimension::Length => self.voice.at_most(value),
            Dimension::Angle => self.voice.angle_at_most(value),
            _ => self.voice.shown(value, dimension),
        }
    }

    pub(super) fn as_built(&self) -> Section {
        let voice = &self.voice;
        let head = ["what", "planned", "tolerance", "measured"];
        let mut lines = vec![
            Line::Text(voice.say("plan.as_built.how")),
            Line::Head(head.iter().map(|name| voice.say(&format!("plan.as_built.{name}"))).collect()),
        ];
        for Measure { key, guy, dimension, planned, tolerance } in &self.plan.as_built {
            // What stands on the foot line or on its level is not measured.
            let nothing = !key.contains("lean") && key != REACH && planned.abs() < 1e-9;
            if nothing && (key.ends_with("rise") || key.ends_with("up") || key.ends_with("level")) {
                continue;
            }
            lines.push(Line::Row(vec![
                self.measured(key, *guy),
                self.taped(*planned, *dimension),
                voice.fill("plan.as_built.within", &[("off", &self.within(*tolerance, *dimension))]),
                voice.say("plan.as_built.blank"),
            ]));
        }
        let test = &self.plan.test;
        let (least, most) = test.between;
        let (mass, before) = (voice.mass(test.mass), voice.angle(test.before));
        let under = test.under.map(|under| voice.angle(under)).unwrap_or_default();
        let change = test.under.map(|under| voice.angle((under - test.before).abs())).unwrap_or_default();
        let key = match test.under {
            None => "plan.test.unknown",
            Some(under) if under >= test.before => "plan.test.farther",
            Some(_) => "plan.test.nearer",
        };
        if self.plan.is_tested() {
            let (least, most) = (voice.angle(least), voice.angle(most));
            lines.push(self.text("plan.test.mass", &[("mass", &mass)]));
            lines.push(self.text(key, &[("before", &before), ("under", &under), ("change", &change)]));
            lines.push(self.text("plan.test.stop", &[("least", &least), ("most", &most)]));
        }
        lines.push(Line::Text(voice.say("plan.sign")));
        self.section("as_built", lines)
    }
}
