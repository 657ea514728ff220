//! The briefing: what the crew is told, in the words in which it can be read out.

use super::{Line, Saying, Section};
use crate::Hold;

impl Saying<'_> {
    pub(super) fn briefing(&self) -> Section {
        let (voice, plan, rig) = (&self.voice, self.plan, self.rig);
        let mut lines = Vec::new();
        let mut point = |key: &str, places: &[(&str, &str)]| lines.push(Line::Point(voice.fill(key, places)));
        point(
            "plan.brief.task",
            &[("mass", &voice.mass(rig.load.mass)), ("path", &voice.path(&rig.line.path))],
        );
        let in_charge = plan.job.in_charge.clone().unwrap_or_else(|| voice.say("plan.brief.someone"));
        point("plan.brief.in_charge", &[("name", &in_charge)]);
        point("plan.brief.stop", &[]);
        point("plan.brief.clear", &[]);
        if rig.line.path.is_redirected() {
            point("plan.brief.bight", &[]);
        }
        if rig.edge.is_some() {
            point("plan.brief.edge", &[]);
        }
        let governs = voice.limit_in_case(plan.governing.limit, plan.governing.case, rig);
        point("plan.brief.watch", &[("limit", &governs)]);
        let (least, most) = plan.test.at_work;
        point("plan.brief.lean", &[("least", &voice.angle(least)), ("most", &voice.angle(most))]);
        for hold in [Hold::HoldfastsTried, Hold::HeadDressed, Hold::Measured, Hold::TestLoaded] {
            if plan.steps.iter().any(|step| step.hold == Some(hold)) {
                point("plan.brief.hold", &[("hold", &self.hold(hold))]);
            }
        }
        point("plan.brief.unknown", &[]);
        point("plan.brief.questions", &[]);
        self.section("briefing", lines)
    }
}
