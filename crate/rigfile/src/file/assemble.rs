//! Makes a rig of what stands in a file, field by field, and says what does not go together.

use super::RigFile;
use super::walk::{Leaf, Leaves, Scalar, may_be_bare};
use crate::fields::SetError;
use crate::problem::{Problem, Severity, Wanted, What};
use crate::unit::Unit;
use crate::{
    ChoiceError, DEG, QuantityError, choice, choices, field, fields, key_of, parse, parse_answer, parse_lean,
};
use core::ops::Range;
use outlean_rig::{Dimension, Fault, Field, G, Guy, Layout, Lean, LineName, Path, Point, Rig, Side};

/// Common practice: the frame never stands within ten degrees of upright.
const USUAL_UPRIGHT_STOP: f64 = 10.0 * DEG;

/// The rig that `leaves` describe, if every error found on the way leaves one.
pub(super) fn assemble(leaves: &Leaves, problems: &mut Vec<Problem>) -> Option<RigFile> {
    let mut rig = Rig::new(4.0, 1.0, 0.0, 0.0);
    (rig.feet.pinned, rig.feet.held_down) = (false, false);
    rig.limits.upright_stop = Some(USUAL_UPRIGHT_STOP);
    for _ in 0..leaves.guys {
        // The walk lets through no more guys than a rig may have.
        let _ = rig.guys.try_push(Guy::to(Point::ORIGIN));
    }
    let mut assembly = Assembly { leaves, rig, problems, bad: Vec::new() };
    assembly.what_must_be_there();
    assembly.what_a_table_needs();
    assembly.choices();
    let upright = assembly.fields();
    assembly.lean(upright);
    assembly.gear();
    assembly.whole()
}

pub(super) struct Assembly<'a> {
    pub(super) leaves: &'a Leaves,
    rig: Rig,
    problems: &'a mut Vec<Problem>,
    /// Keys that are missing or not understood.
    bad: Vec<String>,
}

/// A quantity as read: its value in the field's SI unit, and the unit written.
pub(super) struct Given {
    pub(super) value: f64,
    pub(super) unit: Option<&'static Unit>,
}

impl Assembly<'_> {
    pub(super) fn has(&self, key: &str) -> bool {
        self.leaves.values.contains_key(key)
    }

    /// Where `key` stands, else the innermost table that would hold it.
    fn place(&self, key: &str) -> Range<usize> {
        if let Some(leaf) = self.leaves.values.get(key) {
            return leaf.span.clone();
        }
        let mut table = key;
        while let Some((outer, _)) = table.rsplit_once('.') {
            if let Some(span) = self.leaves.tables.get(outer) {
                return span.clone();
            }
            table = outer;
        }
        0..0
    }

    pub(super) fn error(&mut self, key: &str, what: What) {
        let span = self.place(key);
        self.bad.push(key.to_owned());
        self.problems.push(Problem { severity: Severity::Error, span, what });
    }

    pub(super) fn warning(&mut self, key: &str, what: What) {
        let span = self.place(key);
        self.problems.push(Problem { severity: Severity::Warning, span, what });
    }

    /// The text that stands at `key`, in lower case.
    pub(super) fn text(&self, key: &str) -> Option<String> {
        self.leaves.values.get(key).and_then(text_of).map(str::to_ascii_lowercase)
    }

    /// Whether `key` may stand in the file after all: in a part that could not be read, misspelt, or in a
    /// table that is none.
    pub(super) fn may_stand(&self, key: &str) -> bool {
        let within = |outer: &str| {
            key.strip_prefix(outer).is_some_and(|rest| rest.is_empty() || rest.starts_with('.'))
        };
        self.leaves.broken || self.leaves.misread.iter().any(|misread| within(misread))
    }

    fn missing(&mut self, key: &str) {
        if self.may_stand(key) {
            self.bad.push(key.to_owned());
        } else {
            self.error(key, What::Missing { key: key.to_owned() });
        }
    }

    /// Whether any key of that table or name is missing or not understood.
    pub(super) fn any_bad(&self, stem: &str) -> bool {
        self.bad.iter().any(|key| key.starts_with(stem))
    }

    fn what_must_be_there(&mut self) {
        for key in ["lean", "load.mass", "line.path"] {
            if !self.has(key) {
                self.missing(key);
            }
        }
        for name in ["length", "lashing_below_tip", "weight"] {
            let both = format!("legs.{name}");
            let sides = ["left", "right"].map(|side| format!("legs.{side}.{name}"));
            let absent: Vec<_> = sides.iter().filter(|key| !self.has(key)).collect();
            if self.has(&both) || absent.is_empty() {
                continue;
            }
            let key = if let [one] = absent.as_slice() { *one } else { &both };
            if name == "weight" && self.may_stand(key) {
                continue;
            } else if name == "weight" {
                self.warning(key, What::LeftOut { key: key.clone() });
            } else {
                self.missing(key);
            }
        }
        let foot_of = |side: &str| format!("feet.at.{side}");
        let placed = ["left", "right"].map(|side| self.leaves.tables.contains_key(&foot_of(side)));
        match (self.has("feet.spread"), placed) {
            (true, [false, false]) => {}
            (true, _) => self.both("feet.spread", "feet.at"),
            (false, [false, false]) => self.missing("feet.spread"),
            (false, _) => {
                for side in ["left", "right"] {
                    let key = format!("{}.left", foot_of(side));
                    if !self.has(&key) {
                        self.missing(&key);
                    }
                }
            }
        }
        for number in 0..self.leaves.guys {
            let [setback, ahead] = ["setback", "ahead"].map(|name| format!("guy.{number}.{name}"));
            match (self.has(&setback), self.has(&ahead)) {
                (false, false) => self.missing(&setback),
                (true, true) => self.both(&setback, &ahead),
                _ => {}
            }
        }
    }

    /// What a table needs as soon as anything stands in it.
    fn what_a_table_needs(&mut self) {
        for (table, needed) in
            [("second", &["second.path", "second.share"][..]), ("edge", &["edge.ahead"][..])]
        {
            // A heading with nothing under it says nothing: its keys were taken out one by one.
            let stem = format!("{table}.");
            let said = |key: &String| key.starts_with(&stem);
            if !self.leaves.values.keys().any(said) && !self.leaves.misread.iter().any(said) {
                continue;
            }
            for &key in needed {
                if !self.has(key) {
                    self.missing(key);
                }
            }
        }
    }

    pub(super) fn both(&mut self, first: &str, second: &str) {
        let key = if self.has(second) { second } else { first };
        self.error(key, What::Both { first: first.to_owned(), second: second.to_owned() });
    }

    /// Every key of the file that `row` of a table stands for: itself, or one for each guy.
    fn keys_of(&self, row: &str) -> Vec<String> {
        if row.starts_with("guy.N.") {
            (0..self.leaves.guys).map(|number| row.replace('N', &number.to_string())).collect()
        } else {
            vec![row.to_owned()]
        }
    }

    fn choices(&mut self) {
        for spec in choices() {
            for key in self.keys_of(spec.key) {
                let Some(leaf) = self.leaves.values.get(&key) else { continue };
                let yes_no = spec.options.contains(&"yes");
                let word = match &leaf.value {
                    Scalar::Text(word) => word.trim().to_ascii_lowercase(),
                    Scalar::Bool(value) if yes_no => (if *value { "yes" } else { "no" }).to_owned(),
                    other => {
                        let wanted = if yes_no { Wanted::YesNo } else { Wanted::Word };
                        let found = kind(other);
                        self.error(&key, What::WrongType { key: key.clone(), found, wanted });
                        continue;
                    }
                };
                let chosen = choice(&key).map(|choice| choice.set(&mut self.rig, &word));
                if let Some(Err(ChoiceError::NoSuchOption { nearest })) = chosen {
                    let options = spec.options;
                    self.error(&key, What::NoSuchOption { key: key.clone(), word, nearest, options });
                }
            }
        }
        self.line("line", self.rig.line.path);
        if let Some(second) = self.rig.second {
            self.line("second", second.line.path);
        }
    }

    /// What the path of a line needs and what it does not use.
    fn line(&mut self, line: &str, runs: Path) {
        let key = |name: &str| format!("{line}.{name}");
        if self.any_bad(&key("path")) {
            return;
        }
        let path = choice(&key("path")).and_then(|choice| choice.get(&self.rig)).unwrap_or_default();
        let on = runs.haul_point().is_some();
        let tackle = matches!(runs, Path::TackleAtHead { .. });
        let (back, ahead) = (key("to.back"), key("to.ahead"));
        let mut needed = Vec::new();
        if on && self.has(&back) && self.has(&ahead) {
            self.both(&back, &ahead);
        } else if on && !self.has(&ahead) {
            needed.push(back);
        }
        if on {
            needed.push(key("pulley_efficiency"));
        }
        if runs.is_redirected() {
            needed.push(key("redirect_efficiency"));
        }
        if tackle {
            needed.push(key("parts"));
        }
        for key in needed {
            if !self.has(&key) && !self.may_stand(&key) {
                self.error(&key, What::MissingFor { key: key.clone(), path });
            }
        }
        let to = ["to.back", "to.ahead", "to.left", "to.up"];
        let unused = to.into_iter().filter(|_| !on).chain((!tackle).then_some("parts")).map(key);
        for key in unused.collect::<Vec<_>>() {
            if self.has(&key) {
                self.warning(&key, What::Unused { key: key.clone(), path });
            }
        }
    }

    /// Sets every field but the lean. Gives the upright height of the head, if legs and feet have one.
    fn fields(&mut self) -> Option<f64> {
        let mut upright = None;
        for spec in fields().filter(|spec| spec.key != "lean") {
            if upright.is_none() && spec.key.starts_with("load.") {
                // Legs and feet stand before the load in the table.
                upright = self.upright();
            }
            for key in self.keys_of(spec.key) {
                let Some(leaf) = self.leaves.values.get(&key) else { continue };
                if spec.key == "limits.upright_stop" && text_of(leaf) == Some("none") {
                    self.rig.limits.upright_stop = None;
                    continue;
                }
                let given = match height_multiple(spec.key, leaf) {
                    Some(Ok(multiple)) => {
                        let Some(height) = upright else { continue };
                        Given { value: multiple * height, unit: None }
                    }
                    Some(Err(error)) => {
                        let wanted = Dimension::Length;
                        self.error(&key, What::BadQuantity { key: key.clone(), error, wanted });
                        continue;
                    }
                    None => match self.quantity(&key, leaf, spec.dimension()) {
                        Some(given) => given,
                        None => continue,
                    },
                };
                self.set(&key, leaf, &given);
            }
        }
        upright
    }

    fn set(&mut self, key: &str, leaf: &Leaf, given: &Given) {
        let Some(field) = field(key) else { return };
        // A haul point that this path does not have was said to be unused.
        let Err(SetError::Fault(fault)) = field.set(&mut self.rig, given.value) else { return };
        let what = What::OutOfRange {
            key: key.to_owned(),
            written: written(leaf),
            allowed: fault.allowed,
            dimension: fault.field.dimension(),
            unit: given.unit,
        };
        self.error(key, what);
    }

    pub(super) fn quantity(&mut self, key: &str, leaf: &Leaf, wanted: Dimension) -> Option<Given> {
        let read = match &leaf.value {
            Scalar::Text(text) => quantity_in(text, wanted),
            Scalar::Number(number) if may_be_bare(wanted) => {
                parse(&number.replace('_', ""), wanted).map(|value| Given { value, unit: None })
            }
            Scalar::Number(number) => Err(QuantityError::NoUnit { number: number.clone() }),
            Scalar::Bool(_) => {
                let (found, wanted) = (kind(&leaf.value), Wanted::Quantity(wanted));
                self.error(key, What::WrongType { key: key.to_owned(), found, wanted });
                return None;
            }
        };
        match read {
            Ok(given) => Some(given),
            Err(error) => {
                self.error(key, What::BadQuantity { key: key.to_owned(), error, wanted });
                None
            }
        }
    }

    /// The height of the head when the frame stands upright; says so where the legs do not meet.
    fn upright(&mut self) -> Option<f64> {
        if ["legs.length", "legs.la", "legs.left", "legs.right", "feet.spread", "feet.at"]
            .iter()
            .any(|stem| self.any_bad(stem))
        {
            return None;
        }
        let mut frame = Rig::new(4.0, 1.0, 0.0, 0.0);
        frame.legs = self.rig.legs;
        frame.feet.at = self.rig.feet.at;
        match Layout::of(&frame, 0.0) {
            Ok(layout) => Some(layout.slant_height),
            Err(fault) => {
                self.implied(fault);
                None
            }
        }
    }

    fn lean(&mut self, upright: Option<f64>) {
        let Some(leaf) = self.leaves.values.get("lean") else { return };
        let text = match &leaf.value {
            Scalar::Text(text) => text.as_str(),
            Scalar::Number(number) => {
                let error = QuantityError::NoUnit { number: number.clone() };
                return self.error("lean", What::BadLean { error });
            }
            Scalar::Bool(_) => {
                let (key, found) = ("lean".to_owned(), kind(&leaf.value));
                return self.error("lean", What::WrongType { key, found, wanted: Wanted::Lean });
            }
        };
        let lean = match parse_lean(text) {
            Ok(lean) => lean,
            Err(error) => return self.error("lean", What::BadLean { error }),
        };
        let unit = match lean {
            Lean::Reach(_) => unit_in(text, Dimension::Length),
            _ => unit_in(text, Dimension::Angle),
        };
        if let Lean::Reach(reach) = lean {
            let Some(most) = upright else { return };
            if reach.abs() >= most {
                return self.error("lean", What::ReachTooLong { written: written(leaf), most, unit });
            }
        }
        let value = lean.from_vertical(upright.unwrap_or(1.0));
        self.set("lean", leaf, &Given { value, unit });
    }

    /// The rig as a whole, solved once to see that its numbers go together.
    fn whole(mut self) -> Option<RigFile> {
        if self.problems.iter().all(|problem| problem.severity != Severity::Error)
            && let Err(fault) = outlean_rig::solve(&self.rig)
        {
            self.implied(fault);
        }
        let title = self.free_text("title");
        let names = (0..self.leaves.guys).map(|number| format!("guy.{number}.name")).collect::<Vec<_>>();
        let guy_names = names.iter().map(|key| self.free_text(key)).collect();
        let job = self.job();
        Some(RigFile { title, guy_names, job, rig: self.rig })
    }

    /// Text that says something to people only.
    pub(super) fn free_text(&mut self, key: &str) -> Option<String> {
        let leaf = self.leaves.values.get(key)?;
        let text = text_of(leaf).map(str::to_owned);
        if text.is_none() {
            let (found, wanted) = (kind(&leaf.value), Wanted::Text);
            self.error(key, What::WrongType { key: key.to_owned(), found, wanted });
        }
        text
    }

    /// What the core found impossible, said at the field most likely to be wrong.
    fn implied(&mut self, fault: Fault) {
        // What the core needs and nobody said.
        if fault.value.is_nan()
            && let Some(key) = key_of(fault.field).filter(|key| !self.has(key))
        {
            return self.missing(&key);
        }
        let side = |side: Side| if side == Side::Left { "left" } else { "right" };
        let candidates = match fault.field {
            Field::WorkingLength(of) => {
                let side = side(of);
                vec![
                    format!("legs.{side}.lashing_below_tip"),
                    format!("legs.{side}.length"),
                    "legs.lashing_below_tip".to_owned(),
                ]
            }
            Field::Spread => vec!["feet.spread".to_owned(), "feet.at.left.left".to_owned()],
            Field::HaulLength(of) | Field::HaulPoint(of) => {
                let line = if of == LineName::Main { "line" } else { "second" };
                ["to.back", "to.ahead", "path"].map(|name| format!("{line}.{name}")).to_vec()
            }
            Field::GuyLength(number) | Field::GuyAnchor(number) => {
                vec![format!("guy.{number}.setback"), format!("guy.{number}.ahead")]
            }
            other => key_of(other).into_iter().collect(),
        };
        let key = candidates.iter().find(|key| self.has(key)).or(candidates.first()).cloned();
        let key = key.unwrap_or_default();
        let unit = self.leaves.values.get(&key).and_then(text_of);
        let unit = unit.and_then(|text| unit_in(text, fault.field.dimension()));
        self.error(&key, What::Implied { fault, unit });
    }
}

/// A quantity of text: of `wanted`, or where a mass is wanted the weight of one.
fn quantity_in(text: &str, wanted: Dimension) -> Result<Given, QuantityError> {
    match parse(text, wanted) {
        Err(QuantityError::WrongUnit { unit, .. })
            if wanted == Dimension::Mass && unit.dimension == Dimension::Force =>
        {
            parse(text, Dimension::Force).map(|force| Given { value: force / G, unit: Some(unit) })
        }
        read => read.map(|value| Given { value, unit: unit_in(text, wanted) }),
    }
}

fn unit_in(text: &str, wanted: Dimension) -> Option<&'static Unit> {
    parse_answer(text, wanted).ok().and_then(|answer| answer.unit).filter(|unit| unit.dimension == wanted)
}

/// "1.5 x" at the key of a setback: how many upright head heights.
fn height_multiple(row: &str, leaf: &Leaf) -> Option<Result<f64, QuantityError>> {
    let multiple = text_of(leaf)?.trim().strip_suffix(['x', 'X', '×'])?;
    matches!(row, "guy.N.setback" | "guy.N.ahead").then(|| parse(multiple, Dimension::Ratio))
}

fn text_of(leaf: &Leaf) -> Option<&str> {
    match &leaf.value {
        Scalar::Text(text) => Some(text.trim()),
        _ => None,
    }
}

pub(super) fn written(leaf: &Leaf) -> String {
    match &leaf.value {
        Scalar::Text(text) | Scalar::Number(text) => text.trim().to_owned(),
        Scalar::Bool(value) => value.to_string(),
    }
}

pub(super) const fn kind(value: &Scalar) -> &'static str {
    match value {
        Scalar::Text(_) => "string",
        Scalar::Number(_) => "number",
        Scalar::Bool(_) => "boolean",
    }
}
