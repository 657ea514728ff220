//! The working range in words.

use crate::Voice;
use outlean_rig::{Case, Interval, Limit, Rig, WorkingRange};

/// Each stretch with what ends it, and where the rig's own lean stands.
#[must_use]
pub fn range_said(range: &WorkingRange, rig: &Rig, voice: &Voice<'_>) -> Vec<String> {
    let mut lines = Vec::new();
    let end = |key: &str, lean: &str, limit: Limit, case: Case| {
        let what = voice.limit_in_case(limit, case, rig);
        voice.fill(key, &[("lean", lean), ("limit", &what)])
    };
    for interval in &range.intervals {
        let Interval { from_limit, to_limit, from_case, to_case, .. } = *interval;
        let (from, to) = (voice.angle(interval.from), voice.angle(interval.to));
        lines.push(voice.fill("range.interval", &[("from", &from), ("to", &to)]));
        lines.push(end("range.nearer", &from, from_limit, from_case));
        lines.push(end("range.farther", &to, to_limit, to_case));
    }
    if range.intervals.is_empty() {
        let lean = voice.angle(range.best_lean);
        let limit = voice.limit(range.best_limit);
        let key = if range.best_ratio.is_finite() { "range.none" } else { "range.none_at_all" };
        lines.push(voice.fill(key, &[("lean", &lean), ("limit", &limit)]));
        return lines;
    }
    let inside = range.around(rig.lean).is_some();
    let lean = voice.angle(rig.lean);
    // An end rounds to the same figures as a lean just beyond it.
    let ends = range.intervals.iter().flat_map(|interval| [interval.from, interval.to]);
    let beside = ends.map(|end| voice.angle(end)).any(|end| end == lean);
    let key = match (inside, beside) {
        (true, _) => "range.inside",
        (false, true) => "range.just_outside",
        (false, false) => "range.outside",
    };
    lines.push(voice.fill(key, &[("lean", &lean)]));
    lines
}
