//! Raising, testing and striking, seen from the side with the crew at their posts.

use super::board::{Board, LOW, SIZE};
use super::crew;
use super::site::{Post, Rope, Site};
use crate::drawing::frame::{pulley, pulley_radius};
use crate::drawing::person::STANDING;
use crate::drawing::rope::{cut, leads_away, working};
use crate::drawing::vec2::{P, add, between, sub, unit};
use crate::{Area, Role};
use outlean_rig::{Fault, Path as LinePath, Rig, solve};

/// The moments drawn.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub(super) enum Raising {
    HandsLift,
    ForeGuyLifts,
    Upright,
    LetOut,
    UprightStop,
    HaulPath,
    TestLoad,
    Unload,
    HaulIn,
    LowerBack,
    Undress,
}

const DEGREE: f64 = core::f64::consts::PI / 180.0;
/// Leans at which the frame is drawn on its way up: in the hands, and where the fore guy takes over.
const LIFTED: f64 = -68.0 * DEGREE;
const HALF_WAY: f64 = -45.0 * DEGREE;
/// Up the plate.
const UP: P = (0.0, -1.0);

impl Raising {
    pub(super) fn draw(self, board: &mut Board, rig: &Rig) -> Result<(), Fault> {
        let site = Site::new(rig)?;
        site.ground(board);
        site.holdfasts(board);
        match self {
            Self::HandsLift => hands_lift(board, &site),
            Self::ForeGuyLifts => fore_guy_lifts(board, &site),
            Self::Upright => upright(board, &site),
            Self::LetOut => let_out(board, &site),
            Self::UprightStop => upright_stop(board, &site),
            Self::HaulPath => haul_path(board, &site)?,
            Self::TestLoad => test_load(board, &site),
            Self::Unload => unload(board, &site),
            Self::HaulIn => haul_in(board, &site),
            Self::LowerBack => lower_back(board, &site),
            Self::Undress => undress(board, &site),
        }
        Ok(())
    }
}

/// What of a plate is drawn on.
const fn plate() -> Area {
    Area { left: 4.0, top: 4.0, right: SIZE.0 - 4.0, bottom: LOW - 4.0 }
}

/// Names both guys.
fn guys(board: &mut Board, site: &Site<'_>, lean: f64, aft: &'static str, fore: &'static str) {
    board.name(aft, site.on_guy(lean, false, 0.5), (-0.6, -1.0), 5.0);
    board.name(fore, site.on_guy(lean, true, 0.5), (0.6, -1.0), 5.0);
}

fn hands_lift(board: &mut Board, site: &Site<'_>) {
    site.tied_back(board);
    site.frame(board, LIFTED, Rope::Slack, Rope::Slack);
    // Their hands are as high as the frame is there.
    let far = (1.12 / libm::cos(LIFTED)).min(site.slant() - 0.05);
    for off in [-0.1, 0.8] {
        let x = site.up(far, LIFTED).0 + off;
        site.someone(board, x - 0.3, &crew::CARRYING, 1.0);
    }
    site.post(board, Post::Feet, false);
    site.post(board, Post::Aft, false);
    site.post(board, Post::Fore, false);
    site.swings(board, LIFTED, LIFTED + 17.0 * DEGREE);
    board.name("steps.hands_lift", site.p(site.up(site.slant(), LIFTED)), (-0.1, -1.0), 24.0);
    board.name("steps.tied_back", site.p((-1.0, 0.06)), (0.1, 1.0), 12.0);
    board.name("steps.takes_in", site.on_guy(LIFTED, true, 0.62), (0.3, -1.0), 8.0);
    board.name("steps.tends", site.p((site.aft.0, 1.5)), UP, 14.0);
}

/// Half way up: on the fore guy, hands under it, its feet tied back and tended.
fn on_hands_half_way(board: &mut Board, site: &Site<'_>) {
    site.tied_back(board);
    site.frame(board, HALF_WAY, Rope::Slack, Rope::Works);
    let far = (1.84 / libm::cos(HALF_WAY)).min(site.slant() - 0.2);
    for off in [0.0, 0.75] {
        let at = site.up(far + off, HALF_WAY);
        site.someone(board, at.0 - 0.18, &crew::PUSHING, 1.0);
    }
    site.post(board, Post::Feet, false);
}

fn fore_guy_lifts(board: &mut Board, site: &Site<'_>) {
    on_hands_half_way(board, site);
    site.post(board, Post::Aft, false);
    site.post(board, Post::Fore, true);
    site.swings(board, HALF_WAY, HALF_WAY + 20.0 * DEGREE);
    let foot = site.p((0.1, 0.0));
    board.moves(&[add(foot, (6.0, -9.0)), add(foot, (24.0, -9.0))]);
    board.name("steps.feet_push", add(foot, (16.0, -8.0)), (0.6, -1.0), 10.0);
    board.name("steps.fore_takes_over", site.on_guy(HALF_WAY, true, 0.45), (0.4, -1.0), 6.0);
    board.name("steps.hands_follow", site.p(site.up(site.slant(), HALF_WAY)), (-1.0, -0.8), 14.0);
    board.name("steps.pays_out", site.p((site.aft.0 + 0.6, 0.2)), (0.3, 1.0), 24.0);
}

fn upright(board: &mut Board, site: &Site<'_>) {
    site.tied_back(board);
    site.frame(board, 0.0, Rope::Works, Rope::Works);
    site.post(board, Post::Feet, false);
    site.post(board, Post::Aft, false);
    site.post(board, Post::Fore, false);
    site.post(board, Post::Lead, false);
    let at = |far: f64| site.p(site.up(far, 0.0));
    board.name("steps.look_lashing", at(site.slant()), (1.0, -0.7), 12.0);
    board.name("steps.look_feet", at(0.1), (1.0, 0.6), 16.0);
    guys(board, site, 0.0, "steps.both_guys", "steps.snug");
    board.name("steps.lead_stops", site.p((site.lead() + 0.18, 1.75)), (-0.3, -1.0), 12.0);
}

fn let_out(board: &mut Board, site: &Site<'_>) {
    let lean = site.rig.lean;
    site.tied_back(board);
    site.was(board, 0.0);
    site.frame(board, lean, Rope::Works, Rope::Slack);
    site.swings(board, 0.0, lean);
    site.post(board, Post::Aft, true);
    site.post(board, Post::Fore, false);
    site.post(board, Post::Lead, false);
    guys(board, site, lean, "steps.lets_out", "steps.takes_in");
    let angle = Board::angle(lean);
    board.name_with(
        "steps.lean",
        ("lean", &angle),
        site.p(site.up(site.slant() + 0.5, 0.5 * lean)),
        UP,
        16.0,
    );
}

fn upright_stop(board: &mut Board, site: &Site<'_>) {
    let lean = site.rig.lean;
    let stop = site.rig.limits.upright_stop.unwrap_or(0.0);
    site.tied_back(board);
    site.was(board, stop);
    let (from, to) = (site.p(site.head(stop)), site.p((site.fore.0, site.fore.1 + 0.06)));
    board.scene().line(from, to, Role::Strobe, "stop");
    site.frame(board, lean, Rope::Works, Rope::Slack);
    site.plumb(board, lean);
    site.post(board, Post::Aft, false);
    site.post(board, Post::Fore, false);
    let angle = Board::angle(stop);
    board.name_with(
        "steps.stop_at",
        ("stop", &angle),
        site.p(site.up(site.slant() + 0.3, stop)),
        (-0.8, -1.0),
        10.0,
    );
    board.name("steps.made_off", site.on_guy(stop, true, 0.72), (0.7, -1.0), 22.0);
    board.name("steps.plumb", site.p((site.head(lean).0, 1.0)), (1.0, -0.3), 8.0);
}

fn haul_path(board: &mut Board, site: &Site<'_>) -> Result<(), Fault> {
    let lean = site.rig.lean;
    let solution = solve(site.rig)?;
    let works = solution.forces().and_then(|forces| forces.working_guy);
    let works = works.and_then(|number| site.rig.guys.get(usize::from(number)));
    let (aft, fore) = if works.is_none_or(|guy| solution.layout.setback(guy.anchor) > 0.0) {
        (Rope::Works, Rope::Slack)
    } else {
        (Rope::Slack, Rope::Works)
    };
    site.frame(board, lean, aft, fore);
    let radius = pulley_radius(site.scale, 1.0);
    let head = site.p(site.pulley(lean));
    site.load(board, lean, Some(0.12));
    let path = site.rig.line.path;
    let redirect = match path {
        LinePath::RedirectedAtFoot { .. } => Some("steps.at_foot"),
        LinePath::RedirectedMidBase { .. } => Some("steps.mid_base"),
        LinePath::RedirectedOnLedger { .. } => Some("steps.on_ledger"),
        _ => None,
    };
    let leaves = (head.0 - radius, head.1);
    let way = match (redirect, path.haul_point()) {
        (Some(name), _) => {
            let foot = site.p((0.0, 0.16));
            working(&mut board.sheet, leaves, add(foot, (radius, 0.0)), "haul line");
            pulley(board.scene(), foot, radius, "redirect");
            board.name(name, foot, (1.0, 0.7), 12.0);
            board.name("steps.down_the_leg", site.p(site.up(0.5 * site.slant(), lean)), (-1.0, -0.1), 24.0);
            // Low over the ground to the left, off the plate.
            Some((add(foot, (0.0, radius)), site.p((-site.origin.0 / site.scale + 0.15, 0.12))))
        }
        (None, Some(to)) => Some((leaves, cut(leaves, site.p((to.x(), to.z() + 0.9)), plate()).0)),
        (None, None) => None,
    };
    if let Some((from, end)) = way {
        working(&mut board.sheet, from, end, "haul line");
        leads_away(board.scene(), end, unit(sub(end, from), (-1.0, 0.0)), "haul line");
        let (name, share) =
            if redirect.is_some() { ("steps.haul_team", 0.45) } else { ("steps.haul_line", 0.4) };
        board.name(name, between(from, end, share), (-0.2, if redirect.is_some() { -1.0 } else { 1.0 }), 8.0);
    } else {
        board.name("steps.hung", head, (1.0, 0.4), 14.0);
    }
    pulley(board.scene(), head, radius, "pulley");
    board.name("steps.load", site.p((site.pulley(lean).0, -0.6)), (1.0, 0.2), 14.0);
    Ok(())
}

fn test_load(board: &mut Board, site: &Site<'_>) {
    let lean = site.rig.lean;
    site.frame(board, lean, Rope::Works, Rope::Slack);
    const OFF_THE_GROUND: f64 = 0.12;
    site.load(board, lean, Some(OFF_THE_GROUND));
    let floor = site.floor_below(lean);
    board.name(
        "steps.hands_breadth",
        add(floor, (-0.34 * site.scale, -0.06 * site.scale)),
        (-1.0, 0.2),
        14.0,
    );
    site.someone(board, -1.15, &STANDING, 1.0);
    board.name("steps.looks", site.p((-1.15, 1.7)), (-0.5, -1.0), 12.0);
    board.name("steps.dead_load", add(floor, (0.3 * site.scale, -0.6 * site.scale)), (1.0, -0.4), 14.0);
    board.name("steps.read_guy", site.on_guy(lean, false, 0.5), (-0.6, -1.0), 5.0);
    board.name("steps.look_lashing", site.p(site.head(lean)), (-1.0, -0.6), 14.0);
}

fn unload(board: &mut Board, site: &Site<'_>) {
    let lean = site.rig.lean;
    site.frame(board, lean, Rope::Works, Rope::Slack);
    site.load(board, lean, None);
    site.post(board, Post::Aft, false);
    site.post(board, Post::Fore, false);
    site.post(board, Post::Lead, false);
    board.name("steps.nothing_hangs", site.p(site.pulley(lean)), (1.0, 0.6), 12.0);
    board.name("steps.says_unloaded", site.p((site.lead() + 0.18, 1.75)), (-0.3, -1.0), 12.0);
}

fn haul_in(board: &mut Board, site: &Site<'_>) {
    let lean = site.rig.lean;
    site.tied_back(board);
    site.was(board, lean);
    site.frame(board, 0.0, Rope::Works, Rope::Slack);
    site.swings(board, lean, 0.0);
    site.post(board, Post::Aft, true);
    site.post(board, Post::Fore, false);
    site.post(board, Post::Feet, false);
    guys(board, site, 0.0, "steps.hauls_in", "steps.off_its_stop");
}

fn lower_back(board: &mut Board, site: &Site<'_>) {
    on_hands_half_way(board, site);
    site.post(board, Post::Fore, true);
    site.post(board, Post::Aft, false);
    site.swings(board, HALF_WAY + 20.0 * DEGREE, HALF_WAY);
    board.name("steps.fore_lowers", site.on_guy(HALF_WAY, true, 0.45), (0.4, -1.0), 6.0);
    board.name("steps.hands_take", site.p(site.up(site.slant(), HALF_WAY)), (-1.0, -0.8), 14.0);
    board.name("steps.tied_back", site.p((-1.0, 0.06)), (0.1, 1.0), 12.0);
}

fn undress(board: &mut Board, site: &Site<'_>) {
    const LYING: f64 = -86.0 * DEGREE;
    site.frame(board, LYING, Rope::Off, Rope::Off);
    let head = site.head(LYING);
    site.someone(board, head.0 - 0.75, &crew::KNEELING, 1.0);
    site.post(board, Post::Feet, false);
    // What came off the head lies beside it.
    let radius = pulley_radius(site.scale, 1.0);
    for x in [0.55, 0.85] {
        pulley(board.scene(), site.p((head.0 + x, 0.45)), radius, "pulley");
    }
    board.name("steps.head_undressed", site.p((head.0, 0.9)), (0.0, -1.0), 26.0);
    board.name("steps.then_lashing", site.p((-0.2, 0.9)), (0.4, -1.0), 26.0);
    for at in [site.aft, site.fore] {
        board.name("steps.pickets_last", site.p((at.0, at.1 + 0.4)), (0.0, -1.0), 34.0);
    }
}
