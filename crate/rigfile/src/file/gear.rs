//! What of a rig's gear a file says by halves, so that it cannot be assessed.

use super::assemble::Assembly;
use crate::problem::What;

/// The tables that say what a rope is.
const ROPES: [&str; 3] = ["line", "second", "sling"];
/// The tables that say what hardware is.
const HARDWARE: [&str; 3] = ["pulley", "connector", "redirect"];
/// Values of timber that a grade may leave to be stated.
const VALUES: [&str; 3] = ["timber.compression", "timber.bending", "timber.stiffness"];

impl Assembly<'_> {
    /// Warns of every piece of gear of which too little is said.
    pub(super) fn gear(&mut self) {
        let guys: Vec<String> = (0..self.leaves.guys).map(|number| format!("guy.{number}")).collect();
        let ropes = guys.iter().map(String::as_str).chain(ROPES);
        let mut broken_by = Vec::new();
        for of in ropes {
            let strength = self.said([format!("{of}.rope"), format!("{of}.breaking")]);
            let knot = self.said([format!("{of}.knot"), format!("{of}.knot_efficiency")]);
            match (&strength, knot) {
                (Some(strength), None) => self.needs(strength, &format!("{of}.knot")),
                (None, Some(knot)) => self.needs(&knot, &format!("{of}.breaking")),
                _ => {}
            }
            broken_by.extend(strength);
        }
        for of in HARDWARE {
            broken_by.extend(self.said([format!("{of}.class"), format!("{of}.breaking")]));
        }
        if let Some(first) = broken_by.first()
            && !self.has("limits.strength_factor")
        {
            self.needs(first, "limits.strength_factor");
        }
        for of in guys.iter().map(String::as_str).chain(["line", "second"]) {
            self.holdfast(of);
        }
        self.timber();
    }

    fn holdfast(&mut self, of: &str) {
        let (kind, ground) = (format!("{of}.holdfast"), format!("{of}.soil"));
        if self.has(&format!("{of}.holdfast_strength")) || self.has(&format!("{of}.holdfast_allowable")) {
            return;
        }
        let rest = [ground.clone(), format!("{of}.pickets"), format!("{of}.picket_spacing")];
        if let (false, Some(said)) = (self.has(&kind), self.said(rest)) {
            self.needs(&said, &kind);
        }
        match self.text(&kind).as_deref() {
            Some("natural" | "deadman") => self.needs(&kind, &format!("{of}.holdfast_strength")),
            Some("steel pickets") | None => {}
            Some(_) if self.has(&ground) => {}
            Some(_) => self.needs(&kind, &ground),
        }
    }

    fn timber(&mut self) {
        let of_legs = |name: &str| ["legs", "legs.left", "legs.right"].map(|leg| format!("{leg}.{name}"));
        let round = self.said([of_legs("butt_diameter"), of_legs("tip_diameter")].concat());
        let sawn = self.said([of_legs("breadth"), of_legs("depth")].concat());
        if let (Some(round), Some(sawn)) = (&round, &sawn) {
            self.both(round, sawn);
        }
        let grade = self.text("timber.grade");
        match (round.or(sawn), &grade) {
            (Some(section), None) => self.needs(&section, "timber.grade"),
            (None, Some(_)) => self.needs("timber.grade", "legs.butt_diameter"),
            _ => {}
        }
        if self.any_bad("timber.grade") {
            return;
        }
        let stated = grade.is_some_and(|grade| grade.starts_with("stated"));
        for value in VALUES {
            match (stated, self.has(value)) {
                (true, false) => self.needs("timber.grade", value),
                (false, true) if self.has("timber.grade") => self.both("timber.grade", value),
                (false, true) => self.needs(value, "timber.grade"),
                _ => {}
            }
        }
    }

    /// The first of some keys that stands in the file.
    fn said(&self, keys: impl IntoIterator<Item = String>) -> Option<String> {
        keys.into_iter().find(|key| self.has(key))
    }

    /// Says that what stands at `key` is not assessed without what should stand at `needs`.
    fn needs(&mut self, key: &str, needs: &str) {
        if !self.may_stand(needs) {
            self.warning(key, What::Needs { key: key.to_owned(), needs: needs.to_owned() });
        }
    }
}
