//! What guys, parts, limits and rules are called in the readings.

use crate::words::words;
use outlean_rig::{Case, Layout, Limit, Operation, Part, Path, Rig, Scenario, Side, Stage, Station, Tip};
use outlean_rigfile::RigFile;

/// The names of a rig's guys: as the file has them, else by where they stand, numbered where several stand there.
pub(crate) fn guys(file: &RigFile) -> Vec<String> {
    let RigFile { rig, guy_names: given, .. } = file;
    // A rig that was read has a layout: it was solved once.
    let Ok(layout) = Layout::of(rig, rig.lean) else { return Vec::new() };
    let stations: Vec<_> = rig.guys.iter().map(|guy| Station::of(guy.anchor, &layout)).collect();
    let mut names = Vec::new();
    for (number, station) in stations.iter().enumerate() {
        if let Some(Some(name)) = given.get(number) {
            names.push(name.clone());
            continue;
        }
        let key = match station {
            Station::Aft => "guy.aft",
            Station::Fore => "guy.fore",
            Station::Side => "guy.side",
        };
        let name = words().say(key).to_owned();
        let before = stations.iter().take(number).filter(|other| *other == station).count();
        let alone = stations.iter().filter(|other| *other == station).count() == 1;
        let place = (before + 1).to_string();
        names.push(match alone {
            true => name,
            false => words().fill("guy.numbered", &[("guy", &name), ("number", &place)]),
        });
    }
    names
}

pub(crate) fn guy(number: u8, guys: &[String]) -> &str {
    guys.get(usize::from(number)).map_or("", String::as_str)
}

pub(crate) fn part(part: Part, guys: &[String]) -> String {
    let say = |key: &str| words().say(key).to_owned();
    let of = |key: &str, number: u8| words().fill(key, &[("guy", guy(number, guys))]);
    match part {
        Part::GuyRope(number) => of("part.guy_rope", number),
        Part::GuyHoldfast(number) => of("part.guy_holdfast", number),
        Part::Leg(Side::Left) => say("part.leg.left"),
        Part::Leg(Side::Right) => say("part.leg.right"),
        Part::MainLine => say("part.main_line"),
        Part::SecondLine => say("part.second_line"),
        Part::Sling => say("part.sling"),
        Part::SecondSling => say("part.second_sling"),
        Part::Lashing => say("part.lashing"),
        Part::HeadPulley => say("part.head_pulley"),
        Part::Connector => say("part.connector"),
        Part::RedirectPulley => say("part.redirect_pulley"),
        Part::HaulHoldfast => say("part.haul_holdfast"),
        Part::SecondPulley => say("part.second_pulley"),
        Part::SecondConnector => say("part.second_connector"),
        Part::SecondRedirect => say("part.second_redirect"),
        Part::SecondHoldfast => say("part.second_holdfast"),
        Part::Bearing(Side::Left) => say("part.bearing.left"),
        Part::Bearing(Side::Right) => say("part.bearing.right"),
        Part::Edge => say("part.edge"),
        other => format!("{other:?}"),
    }
}

pub(crate) fn limit(limit: Limit, guys: &[String]) -> String {
    let key = match limit {
        Limit::Part(of) => return part(of, guys),
        Limit::UprightStop => "limit.upright_stop",
        Limit::Tips(way) => return tip(way),
        Limit::FootSlides(Side::Left) => "limit.foot_slides.left",
        Limit::FootSlides(Side::Right) => "limit.foot_slides.right",
        Limit::ClearReach => "limit.clear_reach",
        Limit::Headroom => "limit.headroom",
        Limit::Stretch => "limit.stretch",
        Limit::NoGeometry => "limit.no_geometry",
        Limit::NotLookedFurther => "limit.not_looked_further",
        other => return format!("{other:?}"),
    };
    words().say(key).to_owned()
}

pub(crate) fn tip(tip: Tip) -> String {
    let key = match tip {
        Tip::Forward => "tips.forward",
        Tip::Back => "tips.back",
        Tip::Left => "tips.left",
        Tip::Right => "tips.right",
    };
    words().say(key).to_owned()
}

pub(crate) fn operation(operation: Operation) -> String {
    let key = match operation {
        Operation::Lowering => "operation.lowering",
        Operation::Holding => "operation.holding",
        Operation::Raising => "operation.raising",
    };
    words().say(key).to_owned()
}

/// What is going on in a case, as far as it differs between the cases of the rig: "raising, at the edge".
/// Empty where nothing does.
pub(crate) fn case(case: Case, rig: &Rig) -> String {
    let all = rig.cases();
    let differs = |of: fn(&Case) -> u8| all.iter().any(|other| of(other) != of(&case));
    let mut said = Vec::new();
    if differs(|case| case.operation as u8) {
        said.push(operation(case.operation));
    }
    if differs(|case| case.stage as u8) {
        let key = match case.stage {
            Stage::HangingClear => "stage.hanging_clear",
            Stage::AtEdge => "stage.at_edge",
            Stage::OnTagLines => "stage.on_tag_lines",
        };
        said.push(words().say(key).to_owned());
    }
    if differs(|case| case.scenario as u8) {
        let key = match case.scenario {
            Scenario::Shared => "scenario.shared",
            Scenario::MainLost => "scenario.main_lost",
        };
        said.push(words().say(key).to_owned());
    }
    said.join(", ")
}

/// A limit, and in which case it is met where that makes a difference.
pub(crate) fn limit_in_case(of: Limit, at: Case, rig: &Rig, guys: &[String]) -> String {
    let what = limit(of, guys);
    let case = case(at, rig);
    if case.is_empty() || matches!(of, Limit::UprightStop | Limit::NotLookedFurther) {
        return what;
    }
    words().fill("limit.while", &[("limit", &what), ("case", &case)])
}

pub(crate) fn path(path: &Path) -> String {
    let key = match path {
        Path::Hung => "path.hung",
        Path::StraightBack { .. } => "path.straight_back",
        Path::RedirectedAtFoot { foot: Side::Left, .. } => "path.redirected_at_left_foot",
        Path::RedirectedAtFoot { foot: Side::Right, .. } => "path.redirected_at_right_foot",
        Path::RedirectedMidBase { .. } => "path.redirected_mid_base",
        Path::RedirectedOnLedger { .. } => "path.redirected_on_ledger",
        Path::OverTheFront { .. } => "path.over_the_front",
        Path::TackleAtHead { .. } => "path.tackle_at_head",
        Path::NotOverHead => "path.not_over_head",
    };
    words().say(key).to_owned()
}
