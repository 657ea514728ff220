//! Every number of a rig, to put other numbers in their places.

use outlean_rig::strength::{Cordage, Holdfast};
use outlean_rig::{Point, Rig, Side};

fn point(point: &mut Point, f: &mut impl FnMut(&mut f64)) {
    let [mut x, mut y, mut z] = point.coordinates();
    f(&mut x);
    f(&mut y);
    f(&mut z);
    *point = Point::new(x, y, z);
}

fn cordage(cordage: &mut Cordage, f: &mut impl FnMut(&mut f64)) {
    cordage.breaking.iter_mut().chain(&mut cordage.knot_efficiency).for_each(f);
}

fn holdfast(holdfast: &mut Holdfast, f: &mut impl FnMut(&mut f64)) {
    let Holdfast { pickets, spacing, strength, .. } = holdfast;
    pickets.iter_mut().chain(spacing).chain(strength).for_each(f);
}

fn gear(rig: &mut Rig, f: &mut impl FnMut(&mut f64)) {
    for side in Side::BOTH {
        let pole = &mut rig.legs.on_mut(side).pole;
        let round = pole.butt_diameter.iter_mut().chain(&mut pole.tip_diameter);
        let sawn = pole.breadth.iter_mut().chain(&mut pole.depth);
        round.chain(sawn).chain(&mut pole.crook).chain(&mut pole.eccentricity).for_each(&mut *f);
    }
    for guy in &mut rig.guys {
        cordage(&mut guy.cordage, f);
        holdfast(&mut guy.holdfast, f);
    }
    let gear = &mut rig.gear;
    let timber = &mut gear.timber;
    timber.compression.iter_mut().chain(&mut timber.bending).chain(&mut timber.stiffness).for_each(&mut *f);
    for rope in [&mut gear.line, &mut gear.second, &mut gear.sling.cordage] {
        cordage(rope, f);
    }
    gear.sling.parts.iter_mut().chain(&mut gear.sling.angle).for_each(&mut *f);
    for hardware in [&mut gear.pulley, &mut gear.connector, &mut gear.redirect] {
        hardware.breaking.iter_mut().for_each(&mut *f);
    }
    holdfast(&mut gear.haul, f);
    holdfast(&mut gear.second_haul, f);
    let allowables = gear.haul_allowable.iter_mut().chain(&mut gear.second_haul_allowable);
    allowables.chain(&mut gear.factor).for_each(&mut *f);
    rig.feet.bearing_allowable.iter_mut().for_each(f);
}

/// Calls `f` with every number of the rig, always in the same order.
pub fn each_number(rig: &mut Rig, f: &mut impl FnMut(&mut f64)) {
    for side in Side::BOTH {
        let leg = rig.legs.on_mut(side);
        f(&mut leg.length);
        f(&mut leg.lashing_below_tip);
        f(&mut leg.weight_per_metre);
        point(rig.feet.at.on_mut(side), f);
    }
    let feet = &mut rig.feet;
    f(&mut feet.connection_height);
    feet.friction.iter_mut().for_each(&mut *f);
    feet.bearing_area.iter_mut().for_each(&mut *f);
    f(&mut rig.lean);
    let load = &mut rig.load;
    f(&mut load.mass);
    f(&mut load.dynamic_factor);
    f(&mut load.side_angle);
    f(&mut load.outward_angle);
    for swing in load.at_edge.iter_mut().chain(&mut load.on_tag_lines) {
        f(&mut swing.side);
        f(&mut swing.outward);
    }
    for line in rig.lines_mut() {
        line.path = line.path.hauled_from(|mut to| {
            point(&mut to, f);
            to
        });
        f(&mut line.pulley_efficiency);
        f(&mut line.redirect_efficiency);
        f(&mut line.sling);
    }
    if let Some(second) = &mut rig.second {
        f(&mut second.share);
        second.peak_factor.iter_mut().for_each(&mut *f);
    }
    if let Some(edge) = &mut rig.edge {
        f(&mut edge.ahead);
        f(&mut edge.level);
        f(&mut edge.litter_drop);
        edge.clear_reach_wanted.iter_mut().for_each(&mut *f);
        edge.headroom_wanted.iter_mut().for_each(&mut *f);
    }
    for guy in &mut rig.guys {
        point(&mut guy.anchor, f);
        f(&mut guy.pretension);
        guy.rope_allowable.iter_mut().for_each(&mut *f);
        guy.holdfast_allowable.iter_mut().for_each(&mut *f);
    }
    rig.limits.upright_stop.iter_mut().for_each(&mut *f);
    gear(rig, f);
}
