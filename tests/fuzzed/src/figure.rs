//! A rig as in an address, then a line each of what is done to its figure: the kind, a key, a number, a word. Nothing that is
//! done leaves a rig that cannot be solved, and what is refused changes nothing.

use crate::link;
use crate::spoken::words;
use outlean_rig::solve;
use outlean_widget::action::Action;
use outlean_widget::state::State;
use outlean_widget::view::view;
use outlean_widget::working::working;

/// Most that is done.
const MOST_DONE: usize = 24;

pub fn held(text: &str) {
    let mut lines = text.lines();
    let Some(rig) = lines.next().and_then(link::rig) else { return };
    let Ok(mut state) = State::new(rig) else { return };
    for line in lines.take(MOST_DONE) {
        let mut parts = line.splitn(4, ' ');
        let mut part = || parts.next().unwrap_or_default();
        let (kind, key, value, word) = (part(), part(), part().parse().unwrap_or(f64::NAN), part());
        let before = (state.rig().clone(), state.units(), state.veiled());
        let Some(action) = Action::of(kind, key, value, word) else { continue };
        let change = state.act(action);
        if change.fault.is_some() {
            assert_eq!(&before.0, state.rig(), "refused and changed: {line}");
        }
        assert!(solve(state.rig()).is_ok(), "{line}");
        assert!((0.0..=1.0).contains(&state.grown()), "{line}");
    }
    let seen = view(&state, words());
    for slider in &seen.sliders {
        assert!(slider.now.is_finite() && slider.least <= slider.most, "{}", slider.key);
    }
    for row in &seen.rows {
        assert!(
            (seen.veiled || row.demand.is_finite()) && row.ratio.is_none_or(|ratio| ratio >= 0.0),
            "{}",
            row.key
        );
        let _ = working(&state, words(), &row.key);
    }
    assert!(!seen.sentence_text.is_empty());
}
