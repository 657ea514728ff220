//! The `faults` block of a lesson: readings of a rig in which faults were put, to be found.
//!
//! ```toml
//! id = "look-it-over"
//! rig = "rig.toml"           # with nothing wrong in it
//! least = 1                  # faults put in, at the least
//! most = 2                   # and at the most
//! # objective, level, hint, explanation, source; asks, figure, [[vary]] where they are wanted
//!
//! [[item]]
//! says = "Aft guy anchored {aft.setback} back."
//! sound = "aft.setback >= height of the head"   # so while nothing is wrong with it
//! because = "Nearer than the head is high, it pulls more down than back."
//!
//! [[fault]]
//! set = { aft.setback = "2.5 m" }
//! ```

use super::block::Source;
use super::question::{Figure, QuestionBlock, because, head, rig, spans};
use super::table::{Table, near_or};
use super::{claim, flaw};
use outlean_course::{FaultsTemplate, Item, Planted, Put, Template};
use outlean_rigfile::{choice, choices, field, fields};
use std::ops::Range;
use toml::de::{DeTable, DeValue};

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<QuestionBlock> {
    let before = source.complaints.len();
    let (objectives, rig_of) = (source.objectives, source.rig_of);
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let head = head(&mut table, objectives, Figure::Maybe);
    let (rig, varied) = rig(&mut table, rig_of);
    let least = table.count("least", 0..13, "how many faults are put in at the least");
    let most = table.count("most", 1..13, "how many faults are put in at the most");
    let (items, faults) = (table.tables("item"), table.tables("fault"));
    table.done();
    let head = head.checked(source);
    let vary = spans(source, &varied, rig.as_ref());
    let read_items: Vec<Option<Item>> =
        items.iter().map(|(each, at)| item(source, each, at.clone())).collect();
    let read_faults: Vec<Option<Planted>> =
        faults.iter().map(|(each, at)| fault(source, each, at.clone())).collect();
    if source.complaints.len() > before {
        return None;
    }
    let head = head?;
    let template = Template::Faults(FaultsTemplate {
        id: head.id.clone(),
        rig: rig?,
        vary: vary?,
        items: read_items.into_iter().collect::<Option<_>>()?,
        faults: read_faults.into_iter().collect::<Option<_>>()?,
        least: least? as usize,
        most: most? as usize,
    });
    let places = flaw::Places::of(&items, &faults);
    let template = flaw::tried(source, template, head.at.clone(), &places)?;
    Some(head.block(template))
}

fn item(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<Item> {
    let mut table = source.table(table, at);
    let says = table.words("says", "what is read off, such as says = \"Feet {feet.spread} apart.\"");
    let sound = table.text("sound", "the claim that holds while nothing is wrong with it");
    let why = table.maybe("because", "what to say of it after the mark");
    table.done();
    let because = because(source, why);
    let says = says.and_then(|says| claim::text(source, &says));
    let sound = sound.and_then(|sound| claim::claim(source, &sound));
    Some(Item { says: says?, sound: sound?, because: because? })
}

fn fault(source: &mut Source<'_, '_>, table: &DeTable<'_>, at: Range<usize>) -> Option<Planted> {
    const HINT: &str = "what is put wrong, such as set = { aft.setback = \"2.5 m\" }";
    let mut table = source.table(table, at);
    let set = table.table("set", HINT);
    let mut all = Some(Vec::new());
    if let Some(set) = set {
        if set.is_empty() {
            table.complain(table.place(), "`set` changes nothing", HINT);
            all = None;
        }
        for (key, at, value) in flat(set) {
            let put = put(&mut table, &key, &at, value);
            all = all.zip(put).map(|(mut all, put)| {
                all.push(put);
                all
            });
        }
    }
    table.done();
    set?;
    all.map(|set| Planted { set })
}

/// Keys, where they stand, and what they are set to, in the author's order. `aft.setback = …` is a key as
/// `"aft.setback" = …` is.
fn flat<'t>(table: &'t DeTable<'t>) -> Vec<(String, Range<usize>, &'t toml::Spanned<DeValue<'t>>)> {
    let mut all = Vec::new();
    for (key, value) in table.iter() {
        match value.get_ref() {
            DeValue::Table(inner) => all.extend(
                flat(inner)
                    .into_iter()
                    .map(|(rest, at, value)| (format!("{}.{rest}", key.get_ref()), at, value)),
            ),
            _ => all.push((key.get_ref().to_string(), key.span(), value)),
        }
    }
    all.sort_by_key(|(_, at, _)| at.start);
    all
}

/// A key and what it is set to.
fn put(
    table: &mut Table<'_, '_>,
    key: &str,
    at: &Range<usize>,
    value: &toml::Spanned<DeValue<'_>>,
) -> Option<Put> {
    if let Some(place) = field(key) {
        let hint = "a quantity in quotes, such as \"2.5 m\"";
        let DeValue::String(text) = value.get_ref() else {
            table.complain(value.span(), format!("`{key}` must be text in quotes"), hint);
            return None;
        };
        let value = table.as_quantity(key, text, value.span(), place.dimension())?;
        return Some(Put::Number(key.to_owned(), value));
    }
    if let Some(chosen) = choice(key) {
        let options = chosen.spec.options;
        let word = match value.get_ref() {
            DeValue::String(word) => word.to_string(),
            DeValue::Boolean(true) => "yes".to_owned(),
            DeValue::Boolean(false) => "no".to_owned(),
            _ => String::new(),
        };
        if options.contains(&word.as_str()) {
            return Some(Put::Word(key.to_owned(), word));
        }
        let hint = near_or(&word, options.iter().copied(), || format!("one of: {}", options.join(", ")));
        table.complain(value.span(), format!("`{word}` is none of the words for `{key}`"), hint);
        return None;
    }
    let keys: Vec<String> = fields()
        .map(|spec| spec.key)
        .chain(choices().map(|spec| spec.key))
        .map(|key| key.replace("guy.N", "aft"))
        .collect();
    let hint = near_or(key, keys.iter().map(String::as_str), || "see the list of fields".to_owned());
    table.complain(at.clone(), format!("there is no field or choice `{key}`"), hint);
    None
}
