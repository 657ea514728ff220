#![allow(clippy::unwrap_used, clippy::panic, clippy::indexing_slicing, reason = "a test fails by panicking")]
//! How a figure answers what is done to it: halts, sweeps, falls, refusals.

use outlean_rig::{Feet, Guy, Line, Path, Point, Rig};
use outlean_rigfile::{DEG, Units};
use outlean_widget::action::Action;
use outlean_widget::state::{Motion, State};

/// Hung load, aft and fore guy; the aft holdfast ends the range somewhere past 30°.
fn rig() -> Rig {
    let mut rig = Rig::new(4.2, 1.4, 20.0 * DEG, 240.0);
    rig.limits.upright_stop = Some(10.0 * DEG);
    rig.guys.push(Guy { holdfast_allowable: Some(2400.0), ..Guy::to(Point::new(-6.0, 0.0, 0.0)) });
    rig.guys.push(Guy::to(Point::new(5.0, 0.0, 0.0)));
    rig
}

fn state() -> State {
    State::new(rig()).unwrap()
}

fn set_lean(state: &mut State, degrees: f64) -> outlean_widget::action::Change {
    state.act(Action::Set { key: "lean".into(), value: degrees * DEG })
}

fn lean(state: &State) -> f64 {
    state.rig().lean / DEG
}

/// Lets time pass until nothing moves, at most a minute; the leans passed through.
fn run(state: &mut State) -> Vec<f64> {
    let mut leans = Vec::new();
    for _ in 0..3600 {
        if !state.moving() {
            return leans;
        }
        state.act(Action::Tick { ms: 16.7 });
        leans.push(lean(state));
    }
    panic!("it never comes to rest");
}

#[test]
fn a_drag_halts_at_the_end_and_goes_past_when_taken_again() {
    let mut state = state();
    let end = state.range().intervals[0].to / DEG;
    assert!(end > 30.0 && end < 50.0, "{end}");
    state.act(Action::Grab);
    let change = set_lean(&mut state, 55.0);
    assert!(change.halted && (lean(&state) - end).abs() < 1e-9);
    // The same drag stays halted, however it goes on, and may come back in.
    assert!(!set_lean(&mut state, 57.0).any());
    assert!((lean(&state) - end).abs() < 1e-9);
    set_lean(&mut state, 25.0);
    assert!((lean(&state) - 25.0).abs() < 1e-9);
    set_lean(&mut state, 55.0);
    state.act(Action::Grab);
    assert!(!set_lean(&mut state, 55.0).halted);
    assert!((lean(&state) - 55.0).abs() < 1e-9);
    // Back in from outside nothing halts.
    set_lean(&mut state, 30.0);
    assert!((lean(&state) - 30.0).abs() < 1e-9);
}

#[test]
fn the_upright_stop_halts_too() {
    let mut state = state();
    state.act(Action::Grab);
    assert!(set_lean(&mut state, 2.0).halted);
    assert!((lean(&state) - 10.0).abs() < 0.011, "{}", lean(&state));
}

#[test]
fn keys_step_in_whole_degrees_and_the_second_press_goes_past() {
    let mut state = state();
    let end = state.range().intervals[0].to;
    set_lean(&mut state, (end / DEG).floor());
    let press = |state: &mut State| {
        state.act(Action::Grab);
        state.act(Action::Step { key: "lean".into(), steps: 1.0 })
    };
    assert!(press(&mut state).halted);
    assert!((state.rig().lean - end).abs() < 1e-12);
    assert!(!press(&mut state).halted);
    assert!((lean(&state) - (end / DEG).ceil()).abs() < 1e-9);
}

#[test]
fn the_sweep_goes_past_the_end_holds_there_and_returns() {
    let mut state = state();
    let end = state.range().intervals[0].to / DEG;
    assert!(state.act(Action::Play).motion);
    let leans = run(&mut state);
    let most = leans.iter().copied().fold(0.0, f64::max);
    assert!((most - (end + 6.0)).abs() < 1e-6, "{most}");
    let at_end = leans.iter().filter(|lean| (**lean - end).abs() < 1e-9).count();
    // 1.2 s out and 1.2 s back, at 16.7 ms.
    assert!((130..160).contains(&at_end), "{at_end}");
    assert!((lean(&state) - 20.0).abs() < 1e-9);
    assert!(leans.windows(2).all(|pair| (pair[1] - pair[0]).abs() <= 4.0 * 0.0168 + 1e-9));
}

#[test]
fn a_sweep_pauses_and_goes_on() {
    let mut state = state();
    state.act(Action::Play);
    for _ in 0..60 {
        state.act(Action::Tick { ms: 16.7 });
    }
    state.act(Action::Pause);
    let paused = lean(&state);
    assert!(!state.moving() && paused > 23.0);
    state.act(Action::Play);
    state.act(Action::Tick { ms: 16.7 });
    assert!(lean(&state) > paused);
}

/// Straight back with no fore guy: tips back below the balance lean.
fn straight_back() -> Rig {
    let mut rig = rig();
    rig.guys.truncate(1);
    rig.guys[0].holdfast_allowable = Some(9000.0);
    rig.line = Line::along(Path::StraightBack { to: Point::new(-8.0, 0.0, 0.0) });
    rig.lean = 42.0 * DEG;
    rig.limits.upright_stop = None;
    rig
}

#[test]
fn a_frame_that_tips_falls_and_is_set_back_to_where_it_last_stood() {
    let mut state = State::new(straight_back()).unwrap();
    let stop = state.range().intervals[0].from;
    state.act(Action::Grab);
    assert!(set_lean(&mut state, 20.0).halted);
    state.act(Action::Grab);
    let change = set_lean(&mut state, 20.0);
    assert!(change.tips && state.moving());
    // While it falls it cannot be dragged.
    assert!(!set_lean(&mut state, 30.0).any());
    let frames = run(&mut state).len();
    // 1200 ms falling, 800 at rest, 420 being set back.
    assert!((140..150).contains(&frames), "{frames}");
    assert!((state.rig().lean - stop).abs() < 1e-12);
    assert!(state.solution().tips().is_none());
}

#[test]
fn taking_hold_of_a_falling_frame_sets_it_back_at_once() {
    let mut state = State::new(straight_back()).unwrap();
    for _ in 0..2 {
        state.act(Action::Grab);
        set_lean(&mut state, 20.0);
    }
    assert!(state.moving());
    state.act(Action::Grab);
    assert!(!state.moving() && state.solution().tips().is_none());
}

#[test]
fn with_reduced_motion_nothing_moves_by_itself() {
    let mut state = State::new(straight_back()).unwrap();
    state.act(Action::Motion { reduced: true });
    state.act(Action::Play);
    assert!(!state.moving());
    for _ in 0..2 {
        state.act(Action::Grab);
        set_lean(&mut state, 20.0);
    }
    assert!(!state.moving());
    let Motion::Falling(fall) = state.motion() else { panic!("it lies") };
    assert!((fall.progress() - 1.0).abs() < 1e-9);
}

#[test]
fn a_choice_that_tips_the_frame_shows_it_and_another_rights_it() {
    let mut state = state();
    state.act(Action::Choose { key: "fore.rigged".into(), word: "no".into() });
    let change = state.act(Action::Choose { key: "line.path".into(), word: "straight back".into() });
    assert!(change.tips && change.rig);
    run(&mut state);
    assert!(state.solution().tips().is_some());
    let change = state.act(Action::Choose { key: "fore.rigged".into(), word: "yes".into() });
    assert!(change.motion && state.solution().tips().is_none());
}

#[test]
fn what_cannot_be_computed_changes_nothing_and_says_why() {
    let mut state = state();
    let before = state.rig().clone();
    let change = state.act(Action::Set { key: "load.mass".into(), value: -5.0 });
    assert!(change.fault.is_some() && !change.any());
    assert_eq!(*state.rig(), before);
    let change = state.act(Action::Set { key: "load.mass".into(), value: f64::NAN });
    assert!(change.fault.is_some());
    let feet = Feet::apart(40.0);
    let change = state.act(Action::Load { rig: Box::new(Rig { feet, ..rig() }) });
    assert!(change.fault.is_some());
    assert_eq!(*state.rig(), before);
    assert!(!state.act(Action::Set { key: "no.such".into(), value: 1.0 }).any());
    assert!(!set_lean(&mut state, f64::NAN).any());
}

#[test]
fn a_veil_stops_the_sweep_and_reset_brings_the_first_rig_back() {
    let mut state = state();
    state.act(Action::Play);
    assert!(state.act(Action::Veil).veil && !state.moving());
    state.act(Action::Play);
    assert!(!state.moving());
    assert!(state.act(Action::Reveal).veil);
    state.act(Action::Set { key: "aft.setback".into(), value: 4.0 });
    state.act(Action::Units { units: Units::Us });
    state.act(Action::Step { key: "load.mass".into(), steps: 1.0 });
    state.act(Action::Reset);
    assert_eq!(*state.rig(), rig());
    assert_eq!(state.units(), Units::Us);
}

#[test]
fn each_drag_is_one_step_back_and_reset_is_one_too() {
    let mut state = state();
    assert_eq!(state.steps(), (false, false));
    for to in [24.0, 28.0] {
        state.act(Action::Grab);
        set_lean(&mut state, to - 1.0);
        set_lean(&mut state, to);
    }
    state.act(Action::Reset);
    // A press that moved nothing is no step.
    state.act(Action::Grab);
    for back in [28.0, 24.0, 20.0] {
        assert!(state.act(Action::Undo).rig);
        assert!((lean(&state) - back).abs() < 1e-9, "{back}");
    }
    assert_eq!(state.steps(), (false, true));
    assert!(!state.act(Action::Undo).rig);
    for forth in [24.0, 28.0, 20.0] {
        assert!(state.act(Action::Redo).rig);
        assert!((lean(&state) - forth).abs() < 1e-9, "{forth}");
    }
    // While an answer is asked for, nothing goes back to where it was seen.
    state.act(Action::Veil);
    assert_eq!(state.steps(), (false, false));
    assert!(!state.act(Action::Undo).rig);
}

#[test]
fn a_sweep_is_one_step_and_undo_stops_it() {
    let mut state = state();
    state.act(Action::Play);
    for _ in 0..60 {
        state.act(Action::Tick { ms: 16.7 });
    }
    assert!(lean(&state) > 22.0);
    state.act(Action::Undo);
    assert_eq!(state.motion(), &Motion::Still);
    assert!((lean(&state) - 20.0).abs() < 1e-9);
}

#[test]
fn a_rig_from_a_link_can_be_taken_back_and_reset_returns_to_the_first() {
    let mut state = state();
    let other = Rig { lean: 30.0 * DEG, ..rig() };
    state.act(Action::Show { rig: Box::new(other) });
    assert!((lean(&state) - 30.0).abs() < 1e-9);
    state.act(Action::Reset);
    assert!((lean(&state) - 20.0).abs() < 1e-9);
    state.act(Action::Undo);
    assert!((lean(&state) - 30.0).abs() < 1e-9);
}
