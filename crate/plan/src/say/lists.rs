//! What is cut and carried, built, looked at, and by whom.

use super::{Line, Saying, Section};
use crate::{Hold, Inspected, Step, materials_said};
use outlean_rig::{Connection, Haul, Line as Rope, Part, Path, Side};

impl Saying<'_> {
    pub(super) fn cut(&self) -> Section {
        let voice = &self.voice;
        let mut lines: Vec<String> = Side::BOTH
            .into_iter()
            .map(|side| {
                let leg = self.rig.legs.on(side);
                let key = if side == Side::Left { "plan.cut.left_leg" } else { "plan.cut.right_leg" };
                let said = voice.fill(key, &[("length", &voice.length(leg.length))]);
                let thin = leg.pole.least_thickness();
                thin.map_or_else(
                    || said.clone(),
                    |thin| voice.fill("plan.cut.thick", &[("leg", &said), ("thick", &voice.at_least(thin))]),
                )
            })
            .collect();
        lines.extend(materials_said(self.rig, &self.plan.materials, self.plan.job.lowered, voice));
        let knot = voice.length(outlean_rig::KNOT);
        let last = lines.pop();
        lines.push(voice.fill("plan.cut.knots", &[("length", &knot)]));
        lines.push(
            voice.fill("plan.cut.spacer", &[("gap", &voice.small(self.rig.gear.lashing.as_laid().spacer))]),
        );
        if self.rig.feet.connection == Connection::Ledger {
            let spread = voice.length((self.rig.feet.at.left - self.rig.feet.at.right).length());
            lines.push(voice.fill("plan.cut.ledger", &[("spread", &spread)]));
        }
        lines.extend(self.stores());
        lines.extend(last);
        self.section("cut", lines.into_iter().map(Line::Box).collect())
    }

    /// What is carried and not cut.
    fn stores(&self) -> Vec<String> {
        let (rig, plan) = (self.rig, self.plan);
        let tackle = |line: &&Rope| matches!(line.path, Path::TackleAtHead { .. });
        let at_head = rig.lines().filter(|line| line.path.haul_point().is_some() && !tackle(line)).count();
        let redirects = rig.lines().filter(|line| line.path.is_redirected()).count();
        let teams = [plan.crew.haul, plan.crew.second].iter().flatten().count();
        let team = usize::from(plan.crew.parts.saturating_sub(1)) * teams;
        let pulleys = at_head + redirects + team;
        let guys = plan.materials.guys.iter().map(|guy| guy.holdfast);
        let holdfasts = guys.chain([plan.materials.haul, plan.materials.second_haul]).flatten();
        let pickets: u32 = holdfasts.map(|holdfast| holdfast.pickets).sum();
        let mut all = Vec::new();
        let mut put = |key: &str, count: usize| {
            if count > 0 {
                all.push(self.voice.fill(key, &[("count", &count.to_string())]));
            }
        };
        put("plan.carry.pulleys", pulleys);
        put("plan.carry.connectors", pulleys);
        put("plan.carry.tackle", rig.lines().filter(tackle).count());
        put("plan.carry.pickets", pickets as usize);
        put("plan.carry.maul", usize::from(pickets > 0));
        put("plan.carry.plates", if rig.feet.bearing_area.is_some() { 2 } else { 0 });
        put("plan.carry.pins", if rig.feet.pinned { 2 } else { 0 });
        put("plan.carry.tag_lines", if rig.load.on_tag_lines.is_some() { 2 } else { 0 });
        put("plan.carry.edge", usize::from(rig.edge.is_some()));
        put("plan.carry.tools", 1);
        put("plan.carry.test_load", usize::from(plan.is_tested()));
        all
    }

    pub(super) fn build(&self) -> Section {
        let mut lines = Vec::new();
        for (number, numbered) in (1..).zip(&self.plan.steps) {
            let said = self.step(&numbered.step);
            lines.push(Line::Box(
                self.voice.fill("plan.step", &[("number", &format!("{number}")), ("step", &said)]),
            ));
            if let Some(hold) = numbered.hold {
                lines.push(Line::Hold(self.hold(hold)));
            }
        }
        self.section("build", lines)
    }

    pub(super) fn hold(&self, hold: Hold) -> String {
        self.voice.say(match hold {
            Hold::HoldfastsTried => "plan.hold.holdfasts",
            Hold::HeadDressed => "plan.hold.head",
            Hold::Measured => "plan.hold.measured",
            Hold::TestLoaded => "plan.hold.test",
        })
    }

    fn step(&self, step: &Step) -> String {
        let voice = &self.voice;
        let count = |value: f64| outlean_rigfile::fixed(value, 0);
        match step {
            Step::Brief => voice.say("plan.step.brief"),
            Step::TieOn => voice.say("plan.step.tie_on"),
            Step::MarkOut { within } => {
                voice.fill("plan.step.mark_out", &[("within", &voice.at_most(*within))])
            }
            Step::Holdfast { of, pickets: 0, .. } => {
                voice.fill("plan.step.holdfast", &[("of", &self.mark(*of))])
            }
            Step::Holdfast { of, pickets, lashings } => {
                let key = if *lashings > 0 { "plan.step.pickets" } else { "plan.step.pickets_alone" };
                let (pickets, lashings) = (pickets.to_string(), lashings.to_string());
                voice.fill(key, &[("of", &self.mark(*of)), ("pickets", &pickets), ("lashings", &lashings)])
            }
            Step::TryHoldfast { of, force: 0.0, .. } => {
                voice.fill("plan.step.try_by_hand", &[("of", &voice.part(*of))])
            }
            Step::TryRedirect { of, force, uplift } => voice.fill(
                "plan.step.try_redirect",
                &[
                    ("of", &voice.part(*of)),
                    ("force", &voice.force(*force)),
                    ("uplift", &voice.force(*uplift)),
                ],
            ),
            Step::TryHoldfast { of, force, unproven } => {
                let key = if *unproven { "plan.step.try_unproven" } else { "plan.step.try" };
                voice.fill(key, &[("of", &voice.part(*of)), ("force", &voice.force(*force))])
            }
            Step::Feet { pinned, plates } => {
                let mut said = voice.say(if *pinned { "plan.step.feet_pinned" } else { "plan.step.feet" });
                if *plates {
                    said = voice.fill("plan.step.feet_plates", &[("feet", &said)]);
                }
                said
            }
            Step::HoldDown { foot, force } => voice.fill(
                if *foot == Side::Left { "plan.step.hold_down.left" } else { "plan.step.hold_down.right" },
                &[("force", &voice.force(*force))],
            ),
            Step::LayLegs { left, right } => {
                let (left, right) = (voice.length(*left), voice.length(*right));
                let key = if left == right { "plan.step.lay" } else { "plan.step.lay_unlike" };
                voice.fill(key, &[("left", &left), ("right", &right)])
            }
            Step::Lash { turns, frapping, spacer } => voice.fill(
                "plan.step.lash",
                &[
                    ("turns", &count(*turns)),
                    ("frapping", &count(*frapping)),
                    ("spacer", &voice.small(*spacer)),
                ],
            ),
            Step::Dress { guys, main, pulley, second, tag_lines } => {
                let mut things = vec![voice.say("plan.dress.sling")];
                let line = if *pulley { "plan.dress.pulley" } else { "plan.dress.hung" };
                things.extend(main.then(|| voice.say(line)));
                things.extend(second.then(|| voice.say("plan.dress.second")));
                things.push(voice.fill("plan.dress.guys", &[("count", &guys.to_string())]));
                things.extend(tag_lines.then(|| voice.say("plan.dress.tag_lines")));
                voice.fill("plan.step.dress", &[("things", &things.join(", "))])
            }
            Step::Spread { spread, connection } => {
                let key = match connection {
                    Connection::None => "plan.step.spread",
                    Connection::Hobble => "plan.step.spread_hobble",
                    Connection::Ledger => "plan.step.spread_ledger",
                };
                voice.fill(key, &[("spread", &voice.length(*spread))])
            }
            Step::Raise { lift, preventer } => {
                let key = match preventer {
                    Some(_) => "plan.step.raise",
                    None => "plan.step.raise_no_preventer",
                };
                let guy = preventer.map_or("", |guy| voice.guy(guy));
                let lift = if *lift > 0.0 { voice.force(*lift) } else { voice.say("plan.not_known") };
                voice.fill(key, &[("lift", &lift), ("guy", guy)])
            }
            Step::SetLean { lean } => voice.fill("plan.step.set_lean", &[("lean", &voice.angle(*lean))]),
            Step::Pretension { guy, tension } => voice.fill(
                "plan.step.pretension",
                &[("guy", voice.guy(*guy)), ("tension", &voice.force(*tension))],
            ),
            Step::Measure => voice.say("plan.step.measure"),
            Step::TestLoad { mass, between: (least, most) } => voice.fill(
                "plan.step.test_load",
                &[
                    ("mass", &voice.mass(*mass)),
                    ("least", &voice.angle(*least)),
                    ("most", &voice.angle(*most)),
                ],
            ),
            Step::InspectAgain => voice.say("plan.step.inspect_again"),
            Step::Work => voice.say("plan.step.work"),
            Step::TakeDown => voice.say("plan.step.take_down"),
        }
    }

    pub(super) fn inspection(&self) -> Section {
        let lines = self.plan.inspection.iter().map(|item| Line::Box(self.inspected(item))).collect();
        self.section("inspection", lines)
    }

    fn inspected(&self, item: &Inspected) -> String {
        let voice = &self.voice;
        let count = |value: f64| outlean_rigfile::fixed(value, 0);
        match item {
            Inspected::Poles { crook } if *crook > 0.0 => {
                voice.fill("plan.look.poles", &[("crook", &voice.at_most(*crook))])
            }
            Inspected::Poles { .. } => voice.say("plan.look.poles_straight"),
            Inspected::Thickness { leg, butt, tip, sawn } => {
                let leg = voice.part(Part::Leg(*leg));
                let key = if *sawn { "plan.look.sawn" } else { "plan.look.thickness" };
                let (butt, tip) = (voice.at_least(*butt), voice.at_least(*tip));
                voice.fill(key, &[("leg", &leg), ("butt", &butt), ("tip", &tip)])
            }
            Inspected::Lashing { turns, frapping, force } => {
                let shown = voice.force(*force);
                // Legs loaded alike have nothing to slip by.
                let alike = shown == voice.force(0.0);
                let key = if alike { "plan.look.lashing_alike" } else { "plan.look.lashing" };
                let places = [("turns", count(*turns)), ("frapping", count(*frapping)), ("force", shown)];
                voice.fill(key, &places.each_ref().map(|(name, value)| (*name, value.as_str())))
            }
            Inspected::Hardware => voice.say("plan.look.hardware"),
            Inspected::Knots => voice.say("plan.look.knots"),
            Inspected::Holdfast(part) => voice.fill("plan.look.holdfast", &[("of", &voice.part(*part))]),
            Inspected::Redirect(part) => voice.fill("plan.look.redirect", &[("of", &voice.part(*part))]),
            Inspected::HeldDown { foot, force } => voice.fill(
                if *foot == Side::Left { "plan.look.held_down.left" } else { "plan.look.held_down.right" },
                &[("force", &voice.force(*force))],
            ),
            Inspected::FeetPinned => voice.say("plan.look.feet_pinned"),
            Inspected::FeetOnFriction(Some(friction)) => {
                voice.fill("plan.look.friction", &[("friction", &voice.ratio(*friction))])
            }
            Inspected::FeetOnFriction(None) => voice.say("plan.look.friction_unknown"),
            Inspected::Connection => voice.say("plan.look.connection"),
            Inspected::Edge { ahead, force } => voice
                .fill("plan.look.edge", &[("ahead", &voice.length(*ahead)), ("force", &voice.force(*force))]),
            Inspected::EdgeProtection => voice.say("plan.look.edge_protection"),
            Inspected::NothingAhead => voice.say("plan.look.nothing_ahead"),
            Inspected::Clear => voice.say("plan.look.clear"),
        }
    }

    pub(super) fn crew(&self) -> Section {
        let (voice, plan) = (&self.voice, self.plan);
        let mut lines = vec![Line::Text(voice.say("plan.role.in_charge"))];
        if self.rig.edge.is_some() {
            lines.push(Line::Text(voice.say("plan.role.edge")));
        }
        let guys = self.rig.guys.iter().filter(|guy| guy.rigged).count().to_string();
        lines.push(self.text("plan.role.guys", &[("count", &guys)]));
        if self.rig.second.is_some() {
            lines.push(match (plan.crew.second, plan.crew.each) {
                (Some(Haul { people, .. }), Some(_)) if people > 1 => {
                    self.text("plan.role.second_team", &[("count", &people.to_string())])
                }
                _ => Line::Text(voice.say("plan.role.second")),
            });
        }
        lines.extend(plan.crew.said(voice).into_iter().map(Line::Text));
        if let Some(people) = plan.people {
            let people = people.to_string();
            let there = plan.job.people.map(|there| outlean_rigfile::fixed(there, 0));
            let key = match plan.job.people {
                None => "plan.people",
                Some(there) if there < f64::from(plan.people.unwrap_or(0)) => "plan.people.too_few",
                Some(_) => "plan.people.enough",
            };
            lines.push(self.text(key, &[("count", &people), ("there", &there.unwrap_or_default())]));
        }
        self.section("crew", lines)
    }
}
