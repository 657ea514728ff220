//! What the page says of a figure: sentence, verdict, readings, sliders, in words. A view of the state.

use crate::name::{capital, part_name};
use crate::slider::{SLIDERS, Slider};
use crate::state::State;
use crate::verdict::{self, Verdict};
use outlean_picture::{Words, tip_key};
use outlean_rig::{Check, Connection, Dimension, Lean, Part, Side, State as Assessed, checks, stands_by};
use outlean_rigfile::{Units, choice, field, percent, show};

/// Everything that the page shows of a figure in words and numbers.
#[derive(Debug)]
pub struct View {
    /// The rig in a sentence, whose values are the controls.
    pub sentence: Vec<Piece>,
    /// The same as plain text.
    pub sentence_text: String,
    /// What follows.
    pub verdict: Verdict,
    /// What was assessed and what was not.
    pub covers: String,
    /// Sliders by key.
    pub sliders: Vec<SliderView>,
    /// Choices by key.
    pub choices: Vec<ChoiceView>,
    /// What each part carries, the governing one first.
    pub rows: Vec<Row>,
    /// More readings.
    pub more: Vec<Named>,
    /// Whether forces are hidden.
    pub veiled: bool,
    /// Whether the sweep runs.
    pub playing: bool,
    /// Whether motion is reduced.
    pub reduced: bool,
    /// Whether the sweep is slow.
    pub slow: bool,
    /// Whether the lean is halted at an end of the range.
    pub halted: bool,
    /// Whether a step can be taken back, and one be done again.
    pub steps: (bool, bool),
    /// The words to be announced once the lean rests.
    pub spoken: String,
}

/// A piece of the rig's sentence.
#[derive(Debug)]
pub enum Piece {
    /// Plain text.
    Text(String),
    /// The slider of this key.
    Slider(String),
    /// The choice of this key.
    Choice(String),
}

/// A slider: what it is at, in words.
#[derive(Debug)]
pub struct SliderView {
    /// Key of the field table.
    pub key: &'static str,
    /// Its name.
    pub name: String,
    /// Its value as shown.
    pub text: String,
    /// Its value in words.
    pub spoken: String,
    /// Its value, SI.
    pub now: f64,
    /// Least value, SI.
    pub least: f64,
    /// Greatest value, SI.
    pub most: f64,
    /// Steps in a page.
    pub page: f64,
}

/// A choice: its options and the one that is made.
#[derive(Debug)]
pub struct ChoiceView {
    /// Its key.
    pub key: String,
    /// Its name.
    pub name: String,
    /// The word that is chosen.
    pub now: String,
    /// Words and what they are called.
    pub options: Vec<(String, String)>,
}

/// A part of the readings.
#[derive(Debug)]
pub struct Row {
    /// The part, a stable key for the page and its tests.
    pub key: String,
    /// Its name.
    pub name: String,
    /// What it carries.
    pub carries: String,
    /// What it may carry, or why that is not said.
    pub allowable: String,
    /// Carries over may, in per cent; empty where not assessed.
    pub used: String,
    /// The same as a number for the bar.
    pub ratio: Option<f64>,
    /// Whether it governs.
    pub governs: bool,
    /// How far it was assessed.
    pub state: Assessed,
    /// What it carries, N.
    pub demand: f64,
}

/// A reading with its name.
#[derive(Debug)]
pub struct Named {
    /// A stable key.
    pub key: &'static str,
    /// What it is of.
    pub name: String,
    /// What it is.
    pub value: String,
}

/// The view of a state.
pub fn view(state: &State, words: &Words) -> View {
    let sliders: Vec<SliderView> =
        SLIDERS.iter().filter_map(|slider| slider_view(state, slider, words)).collect();
    let choices = choices(state, words);
    let sentence = sentence(state, words, &sliders, &choices);
    let sentence_text = sentence.iter().map(|piece| plain(piece, &sliders, &choices)).collect();
    let rows = rows(state, words);
    View {
        sentence,
        sentence_text,
        verdict: verdict::verdict(state, words),
        covers: if state.veiled() { String::new() } else { covers(state, words) },
        sliders,
        choices,
        rows,
        more: if state.veiled() { Vec::new() } else { more(state, words) },
        veiled: state.veiled(),
        playing: matches!(state.motion(), crate::state::Motion::Sweeping(_)),
        reduced: state.reduced(),
        slow: state.slow(),
        halted: state.halted(),
        steps: state.steps(),
        spoken: spoken_lean(state, words),
    }
}

fn force(value: f64, units: Units) -> String {
    show(value, Dimension::Force, units).to_string()
}

fn length(value: f64, units: Units) -> String {
    show(value, Dimension::Length, units).to_string()
}

fn angle(value: f64, units: Units) -> String {
    show(value, Dimension::Angle, units).to_string()
}

fn slider_view(state: &State, slider: &Slider, words: &Words) -> Option<SliderView> {
    let now = state.value(slider.key)?;
    let dimension = field(slider.key)?.dimension();
    let shown = show(now, dimension, state.units());
    let spoken = if slider.key == "lean" { spoken_lean(state, words) } else { shown.to_string() };
    Some(SliderView {
        key: slider.key,
        name: words.say(&format!("control.{}", slider.key)).to_owned(),
        text: shown.to_string(),
        spoken,
        now,
        least: slider.span.0,
        most: slider.span.1,
        page: slider.page,
    })
}

/// "18 degrees, in the working range; aft guy 1.2 kN, 37 % of its allowable".
pub fn spoken_lean(state: &State, words: &Words) -> String {
    let number = show(state.rig().lean, Dimension::Angle, state.units()).number;
    let lean = words.fill("degrees", &[("number", &number)]);
    if state.veiled() {
        return words.fill("spoken.lean_veiled", &[("lean", &lean)]);
    }
    if let Some(tip) = state.solution().tips() {
        let tip = words.say(tip_key(tip));
        return words.fill("spoken.lean_tips", &[("lean", &lean), ("tip", tip)]);
    }
    let guy = spoken_guy(state, words);
    let key =
        if state.range().around(state.rig().lean).is_some() { "spoken.lean_in" } else { "spoken.lean_out" };
    words.fill(key, &[("lean", &lean), ("guy", &guy)])
}

fn spoken_guy(state: &State, words: &Words) -> String {
    let working = state.solution().forces().and_then(|forces| forces.working_guy);
    let Some(number) = working else { return words.say("spoken.no_guy").to_owned() };
    let name = part_name(state, Part::GuyRope(number), words);
    let all = checks(state.rig(), state.solution());
    let of_guy =
        |check: &&Check| matches!(check.part, Part::GuyRope(n) | Part::GuyHoldfast(n) if n == number);
    let worst =
        all.iter().filter(of_guy).max_by(|a, b| a.ratio.unwrap_or(-1.0).total_cmp(&b.ratio.unwrap_or(-1.0)));
    let tension = worst.map_or(0.0, |check| check.demand);
    let tension = force(tension, state.units());
    match worst.and_then(|check| check.ratio) {
        Some(ratio) => words
            .fill("spoken.guy_used", &[("name", &name), ("tension", &tension), ("percent", &percent(ratio))]),
        None => words.fill("spoken.guy", &[("name", &name), ("tension", &tension)]),
    }
}

fn choices(state: &State, words: &Words) -> Vec<ChoiceView> {
    let mut all = Vec::new();
    for key in ["line.operation", "line.path", "fore.rigged"] {
        let Some((choice, now)) = choice(key).and_then(|choice| Some((choice, choice.get(state.rig())?)))
        else {
            continue;
        };
        // A tackle and a line that misses the head are offered only where the rig has them.
        let offered = |word: &&str| !matches!(*word, "tackle at head" | "not over head") || *word == now;
        // A word that more than one choice has is said for its own choice.
        let said = |word: &str| {
            let own = format!("choice.{key}.{word}");
            if words.has(&own) {
                words.say(&own).to_owned()
            } else {
                words.say(&format!("choice.{word}")).to_owned()
            }
        };
        all.push(ChoiceView {
            key: key.to_owned(),
            name: words.say(&format!("control.{key}")).to_owned(),
            now: now.to_owned(),
            options: choice
                .spec
                .options
                .iter()
                .copied()
                .filter(offered)
                .map(|word| (word.to_owned(), said(word)))
                .collect(),
        });
    }
    all
}

/// The rig's sentence, cut at its placeholders.
fn sentence(state: &State, words: &Words, sliders: &[SliderView], choices: &[ChoiceView]) -> Vec<Piece> {
    let layout = &state.solution().layout;
    let units = state.units();
    let has_fore = choices.iter().any(|choice| choice.key == "fore.rigged");
    let template = words.say(if has_fore { "rig.sentence" } else { "rig.sentence_no_fore" });
    let mut pieces = Vec::new();
    for (i, part) in template.split(['{', '}']).enumerate() {
        let name = (i % 2 == 1).then_some(part);
        let piece = match name {
            None => Piece::Text(part.to_owned()),
            Some("length") => Piece::Text(length(layout.working_length.left, units)),
            Some("spread") => Piece::Slider("feet.spread".to_owned()),
            Some("load") => Piece::Slider("load.mass".to_owned()),
            Some("setback") => Piece::Slider("aft.setback".to_owned()),
            Some("operation") => Piece::Choice("line.operation".to_owned()),
            Some("path") => Piece::Choice("line.path".to_owned()),
            Some("fore") => Piece::Choice("fore.rigged".to_owned()),
            Some(other) => Piece::Slider(other.to_owned()),
        };
        let known = match &piece {
            Piece::Text(text) => !text.is_empty(),
            Piece::Slider(key) => sliders.iter().any(|slider| slider.key == *key),
            Piece::Choice(key) => choices.iter().any(|choice| choice.key == *key),
        };
        if known {
            pieces.push(piece);
        }
    }
    pieces
}

fn plain(piece: &Piece, sliders: &[SliderView], choices: &[ChoiceView]) -> String {
    match piece {
        Piece::Text(text) => text.clone(),
        Piece::Slider(key) => sliders
            .iter()
            .find(|slider| slider.key == *key)
            .map(|slider| slider.text.clone())
            .unwrap_or_default(),
        Piece::Choice(key) => choices
            .iter()
            .find(|choice| choice.key == *key)
            .and_then(|choice| choice.options.iter().find(|(word, _)| *word == choice.now))
            .map(|(_, name)| name.clone())
            .unwrap_or_default(),
    }
}

/// A stable key of a part.
pub fn part_key(part: Part) -> String {
    let key = match part {
        Part::GuyRope(n) => return format!("guy-{n}-rope"),
        Part::GuyHoldfast(n) => return format!("guy-{n}-holdfast"),
        Part::Leg(Side::Left) => "leg-left",
        Part::Leg(Side::Right) => "leg-right",
        Part::MainLine => "main-line",
        Part::Sling => "sling",
        Part::SecondLine => "second-line",
        Part::SecondSling => "second-sling",
        Part::HeadPulley => "head-pulley",
        Part::Connector => "connector",
        Part::RedirectPulley => "redirect-pulley",
        Part::HaulHoldfast => "haul-holdfast",
        Part::SecondPulley => "second-pulley",
        Part::SecondConnector => "second-connector",
        Part::SecondRedirect => "second-redirect",
        Part::SecondHoldfast => "second-holdfast",
        Part::Bearing(Side::Left) => "ground-left",
        Part::Bearing(Side::Right) => "ground-right",
        Part::Edge => "edge",
        _ => "lashing",
    };
    key.to_owned()
}

fn rows(state: &State, words: &Words) -> Vec<Row> {
    let units = state.units();
    let mut all = checks(state.rig(), state.solution());
    // The governing part first, the others in their order. While a prediction is open nothing is told of them.
    let veiled = state.veiled();
    let mut governs: Option<(usize, f64)> = None;
    for (i, check) in all.iter().enumerate() {
        if let Some(ratio) = check.ratio.filter(|ratio| *ratio > 0.0 && !veiled)
            && governs.is_none_or(|(_, most)| ratio > most)
        {
            governs = Some((i, ratio));
        }
    }
    if let Some((i, _)) = governs {
        let check = all.remove(i);
        all.insert(0, check);
    }
    all.iter()
        .enumerate()
        .map(|(i, check)| Row {
            key: part_key(check.part),
            name: capital(&part_name(state, check.part, words)),
            carries: if veiled {
                words.say("readings.veiled").to_owned()
            } else if check.demand > 0.0 || !matches!(check.part, Part::GuyRope(_) | Part::GuyHoldfast(_)) {
                force(check.demand, units)
            } else {
                words.say("readings.slack").to_owned()
            },
            allowable: match (check.allowable, check.state) {
                (Some(allowable), _) => force(allowable, units),
                (None, Assessed::ConfirmOnSite) => words.say("readings.confirm").to_owned(),
                (None, _) => words.say("readings.not_assessed").to_owned(),
            },
            used: check.ratio.filter(|_| !veiled).map(percent).unwrap_or_default(),
            ratio: check.ratio.filter(|_| !veiled),
            governs: i == 0 && governs.is_some(),
            state: check.state,
            demand: if veiled { f64::NAN } else { check.demand },
        })
        .collect()
}

/// Readings that are of no part.
pub fn more(state: &State, words: &Words) -> Vec<Named> {
    let (units, solution, layout) = (state.units(), state.solution(), &state.solution().layout);
    let mut all = Vec::new();
    let mut reading = |key: &'static str, value: String| {
        all.push(Named { key, name: words.say(key).to_owned(), value });
    };
    reading("reading.reach", length(layout.reach(), units));
    reading("reading.head_height", length(layout.head_height(), units));
    reading("reading.ground_angle", angle(Lean::to_ground(layout.lean), units));
    let run = 1.0 / Lean::to_slope(layout.lean);
    if run > 0.0 && run < 100.0 {
        let number = show(run, Dimension::Ratio, units).number;
        reading("reading.slope", words.fill("reading.slope_value", &[("number", &number)]));
    }
    reading("reading.on_head", force(solution.resultant.force.size(), units));
    if let Some(ahead) = solution.resultant.ahead_of_feet {
        let key = if ahead < 0.0 { "reading.behind" } else { "reading.ahead" };
        reading("reading.meets_ground", words.fill(key, &[("distance", &length(ahead.abs(), units))]));
    }
    if solution.line.haul_tension > 0.0 {
        reading("reading.haul", force(solution.line.after_redirect, units));
    }
    let balance =
        state.balance().map_or_else(|| words.say("reading.no_balance").to_owned(), |lean| angle(lean, units));
    reading("reading.balance", balance);
    if let Some(forces) = solution.forces() {
        let (left, right) = (&forces.footing.feet.left, &forces.footing.feet.right);
        let both = |l: f64, r: f64| {
            words.fill(
                "reading.kick_value",
                &[("left", &force(l.abs(), units)), ("right", &force(r.abs(), units))],
            )
        };
        let forward = left.kick + right.kick > 0.0;
        let kick = if forward { "reading.kick_forward" } else { "reading.kick_back" };
        reading(kick, both(left.kick, right.kick));
        let thrust = forces.footing.spread_thrust;
        let parts = if thrust < 0.0 { "reading.close_thrust" } else { "reading.spread_thrust" };
        reading(parts, force(thrust.abs(), units));
        match state.rig().feet.connection {
            Connection::None => {}
            Connection::Hobble => reading("reading.hobble", force(forces.footing.connection, units)),
            Connection::Ledger => reading("reading.ledger", force(forces.footing.connection, units)),
        }
        let friction = left.friction_needed.zip(right.friction_needed).map(|(l, r)| l.max(r));
        let friction = friction.map_or_else(
            || words.say("reading.friction_lifts").to_owned(),
            |needed| show(needed, Dimension::Ratio, units).number,
        );
        reading("reading.friction", friction);
    }
    all
}

/// "Assessed: …. Not assessed: …. Confirm on site: …."
fn covers(state: &State, words: &Words) -> String {
    let all = checks(state.rig(), state.solution());
    if all.is_empty() {
        return String::new();
    }
    let list = |wanted: Assessed| {
        let names: Vec<String> = all
            .iter()
            .filter(|check| check.state == wanted)
            .map(|check| part_name(state, check.part, words))
            .collect();
        if names.is_empty() { words.say("reading.no_guy").to_owned() } else { names.join("; ") }
    };
    let assumed = all.iter().any(|check| check.state == Assessed::Assumed);
    let mut said = words.fill(
        if assumed { "verdict.covers_assumed" } else { "verdict.covers" },
        &[
            ("assessed", &list(Assessed::Assessed)),
            ("assumed", &list(Assessed::Assumed)),
            ("unassessed", &list(Assessed::NotAssessed)),
            ("confirm", &list(Assessed::ConfirmOnSite)),
        ],
    );
    let mut also = |does: bool, key: &str| {
        if does {
            said.push(' ');
            said.push_str(words.say(key));
        }
    };
    also(state.rig().comes_to_rest(), "verdict.at_rest");
    also(stands_by(state.rig(), state.solution()), "verdict.alone");
    said
}
