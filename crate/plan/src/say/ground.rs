//! The pacing-out table.

use super::{Line, Saying, Section};
use crate::{Mark, Voice};
use outlean_rig::{LineName, Side};

/// What stands at a mark.
pub(crate) fn mark_said(mark: Mark, voice: &Voice<'_>) -> String {
    match mark {
        Mark::Foot(Side::Left) => voice.say("foot.left"),
        Mark::Foot(Side::Right) => voice.say("foot.right"),
        Mark::Anchor(number) => voice.fill("plan.mark.anchor", &[("guy", voice.guy(number))]),
        Mark::HaulPoint(LineName::Main) => voice.say("plan.mark.haul_point"),
        Mark::HaulPoint(LineName::Second) => voice.say("plan.mark.second_haul_point"),
        Mark::Redirect(LineName::Main) => voice.say("plan.mark.redirect"),
        Mark::Redirect(LineName::Second) => voice.say("plan.mark.second_redirect"),
        Mark::Edge => voice.say("plan.mark.edge"),
    }
}

impl Saying<'_> {
    /// What stands at a mark.
    pub(super) fn mark(&self, mark: Mark) -> String {
        mark_said(mark, &self.voice)
    }

    pub(super) fn pacing(&self) -> Section {
        let voice = &self.voice;
        let way = |value: f64, more: &str, less: &str| {
            // What rounds to nothing has no side.
            let shown = voice.tape(value.abs());
            match () {
                () if shown == voice.tape(0.0) => voice.say("plan.pacing.none"),
                () if value > 0.0 => voice.fill(more, &[("length", &shown)]),
                () => voice.fill(less, &[("length", &shown)]),
            }
        };
        let head = ["mark", "ahead", "aside", "up", "from_left", "from_right"];
        let mut lines = vec![
            Line::Text(voice.say("plan.pacing.how")),
            Line::Head(head.iter().map(|name| voice.say(&format!("plan.pacing.{name}"))).collect()),
        ];
        let mut checked = false;
        for pace in &self.plan.pacing {
            let tape = |there: Option<f64>| there.map_or_else(String::new, |there| voice.tape(there));
            checked |= pace.from_left_foot.is_some();
            lines.push(Line::Row(vec![
                self.mark(pace.mark),
                way(pace.ahead, "plan.pacing.is_ahead", "plan.pacing.is_back"),
                way(pace.left, "plan.pacing.is_left", "plan.pacing.is_right"),
                way(pace.up, "plan.pacing.is_up", "plan.pacing.is_down"),
                tape(pace.from_left_foot),
                tape(pace.from_right_foot),
            ]));
        }
        if checked {
            let within = voice.at_most(self.plan.job.scatter.length);
            lines.push(self.text("plan.pacing.diagonals", &[("within", &within)]));
        }
        if self.rig.edge.is_some() {
            lines.push(Line::Text(voice.say("plan.pacing.edge_twice")));
        }
        self.section("pacing", lines)
    }
}
