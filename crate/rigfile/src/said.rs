//! A problem of a file in words: what is wrong, and what to type instead.

use crate::problem::{Problem, Wanted, What};
use crate::quantity::QuantityError;
use crate::unit::Unit;
use crate::{Words, choice, field};
use outlean_rig::{Dimension, Fault, Field, G};

/// A problem as people read it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Said {
    /// What is wrong, without a full stop.
    pub message: String,
    /// What to type instead.
    pub hint: Option<String>,
}

impl Problem {
    /// The problem in words. Keys of the words begin with `problem.`.
    #[must_use]
    pub fn said(&self, words: &Words) -> Said {
        let say = |key: &str, places: &[(&str, &str)]| words.fill(&format!("problem.{key}"), places);
        let said = |message: String, hint: String| Said { message, hint: Some(hint) };
        let only = |message: String| Said { message, hint: None };
        match &self.what {
            What::Syntax { message } => {
                let hint = message.contains("quoted").then(|| say("syntax.hint", &[]));
                Said { message: say("syntax", &[("message", message)]), hint }
            }
            What::TooLong { bytes, most } => {
                only(say("too_long", &[("bytes", &bytes.to_string()), ("most", &most.to_string())]))
            }
            What::TooDeep { most } => only(say("too_deep", &[("most", &most.to_string())])),
            What::UnknownKey { key, nearest, others } => {
                let message = say("unknown_key", &[("key", &shown_key(words, key))]);
                said(message, did_you_mean(words, nearest.as_deref(), &others.join(", ")))
            }
            What::WrongType { key, found, wanted } => {
                let found = words.say(&format!("kind.{found}")).to_owned();
                let message = say("wrong_type", &[("key", &shown_key(words, key)), ("found", &found)]);
                let (kind, example) = (wanted_word(words, *wanted), example(words, *wanted, key));
                let how = if *wanted == Wanted::Word { "one_of" } else { "write_such_as" };
                let places = [("wanted", kind.as_str()), ("example", &example), ("options", &example)];
                said(message, say(how, &places))
            }
            What::BadQuantity { key, error, wanted } => {
                bad_quantity(words, &shown_key(words, key), error, Wanted::Quantity(*wanted))
            }
            What::BadLean { error } => bad_quantity(words, &shown_key(words, "lean"), error, Wanted::Lean),
            What::ReachTooLong { written, most, unit } => only(say(
                "reach_too_long",
                &[("written", written), ("most", &amount(*most, Dimension::Length, *unit))],
            )),
            What::OutOfRange { key, written, allowed, dimension, unit } => only(say(
                "out_of_range",
                &[
                    ("key", &shown_key(words, key)),
                    ("written", written),
                    ("least", &amount(allowed.least, *dimension, *unit)),
                    ("most", &amount(allowed.most, *dimension, *unit)),
                ],
            )),
            What::NoSuchOption { key, word, nearest, options } => {
                let message = say("no_such_option", &[("key", &shown_key(words, key)), ("word", word)]);
                if options.contains(&"yes") {
                    return said(message, say("yes_no.hint", &[]));
                }
                said(message, did_you_mean(words, *nearest, &options.join(", ")))
            }
            What::Missing { key } => {
                let message = say("missing", &[("key", &shown_key(words, key))]);
                said(message, say("write_line", &[("line", &example_line(words, key))]))
            }
            What::MissingFor { key, path } => {
                let message = say("missing_for", &[("key", &shown_key(words, key)), ("path", path)]);
                said(message, say("write_line", &[("line", &example_line(words, key))]))
            }
            What::Unused { key, path } => {
                only(say("unused", &[("key", &shown_key(words, key)), ("path", path)]))
            }
            What::Both { first, second } => {
                let (first, second) = (shown_key(words, first), shown_key(words, second));
                said(say("both", &[("first", &first), ("second", &second)]), say("both.hint", &[]))
            }
            What::TooManyGuys { most, count } => {
                only(say("too_many_guys", &[("most", &most.to_string()), ("count", &count.to_string())]))
            }
            What::Implied { fault, unit } => implied(words, fault, *unit),
            What::Needs { key, needs } => {
                let places = [("key", shown_key(words, key)), ("needs", shown_key(words, needs))];
                let places = places.each_ref().map(|(name, value)| (*name, value.as_str()));
                said(say("needs", &places), say("write_line", &[("line", &example_line(words, needs))]))
            }
            What::LeftOut { key } => {
                said(say("left_out", &[("key", &shown_key(words, key))]), say("left_out.hint", &[]))
            }
        }
    }
}

fn bad_quantity(words: &Words, key: &str, error: &QuantityError, wanted: Wanted) -> Said {
    let say = |key: &str, places: &[(&str, &str)]| words.fill(&format!("problem.{key}"), places);
    let kind = wanted_word(words, wanted);
    let such_as = || say("write_such_as", &[("wanted", &kind), ("example", &example(words, wanted, ""))]);
    let units = || {
        let dimensions: &[Dimension] = match wanted {
            Wanted::Quantity(dimension) => &[dimension],
            _ => &[Dimension::Angle, Dimension::Length],
        };
        let symbols = dimensions.iter().flat_map(|&dimension| Unit::of(dimension));
        symbols.map(|unit| unit.symbol).collect::<Vec<_>>().join(", ")
    };
    let dimension = match wanted {
        Wanted::Quantity(dimension) => dimension,
        _ => Dimension::Angle,
    };
    let (message, hint) = match error {
        QuantityError::Empty => (say("empty", &[("key", key)]), such_as()),
        QuantityError::NotANumber { found } => {
            (say("not_a_number", &[("key", key), ("found", found)]), such_as())
        }
        QuantityError::AmbiguousComma { decimal, thousands } => {
            let either = [("decimal", decimal.as_str()), ("thousands", thousands.as_str())];
            (say("ambiguous_comma", &[("key", key)]), say("ambiguous_comma.hint", &either))
        }
        QuantityError::NoUnit { number } => {
            let unit = likely_unit(dimension, number);
            let places = [("number", number.as_str()), ("unit", unit), ("units", &units())];
            (say("no_unit", &[("key", key), ("number", number)]), say("no_unit.hint", &places))
        }
        QuantityError::UnknownUnit { written, nearest } => {
            let message = say("unknown_unit", &[("key", key), ("written", written)]);
            let options = units();
            let hint = if options.is_empty() {
                such_as()
            } else {
                did_you_mean(words, nearest.map(|unit| unit.symbol), &options)
            };
            (message, hint)
        }
        QuantityError::WrongUnit { number, unit } => {
            let of = words.say(&format!("dimension.{}", dimension_key(unit.dimension))).to_owned();
            let places = [("key", key), ("wanted", &kind), ("unit", unit.symbol), ("dimension", &of)];
            let hint = match (wanted, unit.symbol) {
                (Wanted::Quantity(Dimension::Force), "kg" | "lb") => {
                    say("mass_for_force.hint", &[("number", number), ("unit", unit.symbol)])
                }
                _ => such_as(),
            };
            (say("wrong_unit", &places), hint)
        }
        QuantityError::Mixed { first, then } => {
            let places = [("key", key), ("first", first.symbol), ("then", then.symbol)];
            (say("mixed", &places), such_as())
        }
        QuantityError::NotWhole => (say("not_whole", &[("key", key)]), such_as()),
        QuantityError::TooLarge => (say("too_large", &[("key", key)]), such_as()),
    };
    Said { message, hint: Some(hint) }
}

/// What the core found impossible: each kind in its own words, what is rare in common ones.
fn implied(words: &Words, fault: &Fault, unit: Option<&'static Unit>) -> Said {
    let dimension = fault.field.dimension();
    let kind = match fault.field {
        Field::Spread => "spread",
        Field::WorkingLength(_) => "working_length",
        Field::GuyLength(_) => "guy_length",
        Field::HaulLength(_) => "haul_length",
        _ => "other",
    };
    let number = match fault.field {
        Field::GuyLength(number) => (number.saturating_add(1)).to_string(),
        _ => String::new(),
    };
    let key = crate::key_of(fault.field).unwrap_or_default();
    let places = [
        ("key", shown_key(words, &key)),
        ("number", number),
        ("value", amount(fault.value, dimension, unit)),
        ("least", amount(fault.allowed.least, dimension, unit)),
        ("most", amount(fault.allowed.most, dimension, unit)),
    ];
    let places: Vec<_> = places.iter().map(|(name, value)| (*name, value.as_str())).collect();
    Said { message: words.fill(&format!("problem.implied.{kind}"), &places), hint: None }
}

fn did_you_mean(words: &Words, nearest: Option<&str>, options: &str) -> String {
    match nearest {
        Some(nearest) => words.fill("problem.did_you_mean", &[("nearest", nearest)]),
        None => words.fill("problem.one_of", &[("options", options)]),
    }
}

/// A key as people find it in their file; a guy's with its number from 1.
fn shown_key(words: &Words, key: &str) -> String {
    let of_guy = key.strip_prefix("guy.").and_then(|rest| {
        let (number, name) = rest.split_once('.')?;
        let number: usize = number.parse().ok()?;
        let number = number.saturating_add(1).to_string();
        Some(words.fill("problem.key_of_guy", &[("key", name), ("number", &number)]))
    });
    of_guy.unwrap_or_else(|| words.fill("problem.key", &[("key", key)]))
}

fn wanted_word(words: &Words, wanted: Wanted) -> String {
    let key = match wanted {
        Wanted::Quantity(dimension) => {
            return words.say(&format!("a.{}", dimension_key(dimension))).to_owned();
        }
        Wanted::Lean => "lean",
        Wanted::Word => "word",
        Wanted::YesNo => "yes_no",
        Wanted::Text => "text",
        Wanted::Table => "table",
        Wanted::Tables => "tables",
    };
    words.say(&format!("a.{key}")).to_owned()
}

/// What might stand at a key, quotes included.
fn example(words: &Words, wanted: Wanted, key: &str) -> String {
    let kind = match wanted {
        Wanted::Quantity(dimension) => dimension_key(dimension),
        Wanted::Lean => "lean",
        Wanted::Word => {
            let options = choice(key).map_or(&[][..], |choice| choice.spec.options);
            return options.iter().map(|option| format!("\"{option}\"")).collect::<Vec<_>>().join(", ");
        }
        Wanted::YesNo => "yes_no",
        Wanted::Text => "text",
        Wanted::Table => return format!("[{key}]"),
        Wanted::Tables => return format!("[[{key}]]"),
    };
    words.say(&format!("example.{kind}")).to_owned()
}

/// A line that might stand in a file: `length = "4.6 m"`.
fn example_line(words: &Words, key: &str) -> String {
    let row = key.strip_prefix("guy.").and_then(|rest| rest.split_once('.'));
    let row = row.map_or(key.to_owned(), |(_, name)| format!("guy.N.{name}"));
    let own = format!("value.{row}");
    if let Some(line) = words.get(&own) {
        return line.to_owned();
    }
    let name = key.rsplit('.').next().unwrap_or(key);
    if choice(key).is_some() {
        let value = example(words, Wanted::Word, key);
        return words.fill("value.one_of", &[("name", name), ("value", &value)]);
    }
    let value = field(key).map_or("text", |field| dimension_key(field.dimension()));
    format!("{name} = {}", words.say(&format!("value.{value}")).to_owned())
}

/// The unit that a bare number was most likely meant in, by its size.
fn likely_unit(dimension: Dimension, number: &str) -> &'static str {
    let number = crate::decimal::decimal(number).unwrap_or_default();
    match dimension {
        Dimension::Force if number >= 50.0 => "N",
        Dimension::Length if number >= 100.0 => "cm",
        _ => usual_unit(dimension).map_or("", |unit| unit.symbol),
    }
}

fn usual_unit(dimension: Dimension) -> Option<&'static Unit> {
    Unit::of(dimension).next()
}

/// The name of a dimension in the words: `value.length`, say.
#[must_use]
pub const fn dimension_key(dimension: Dimension) -> &'static str {
    match dimension {
        Dimension::Length => "length",
        Dimension::Area => "area",
        Dimension::Angle => "angle",
        Dimension::Mass => "mass",
        Dimension::Force => "force",
        Dimension::ForcePerLength => "force_per_length",
        Dimension::Ratio => "ratio",
        Dimension::Pressure => "pressure",
        Dimension::Moment => "moment",
        Dimension::Count => "count",
    }
}

/// `value`, in the SI unit of `dimension`, in the unit that the author used, else the usual one, to four
/// figures.
fn amount(value: f64, dimension: Dimension, unit: Option<&'static Unit>) -> String {
    let usual = || usual_unit(dimension).filter(|unit| unit.dimension != Dimension::Ratio);
    let Some(unit) = unit.or_else(usual) else {
        return figures(value);
    };
    // A load may be given as its weight.
    let weight = dimension == Dimension::Mass && unit.dimension == Dimension::Force;
    let value = if weight { value * G } else { value };
    format!("{} {}", figures(value / unit.si), unit.symbol)
}

fn figures(value: f64) -> String {
    if value == 0.0 {
        return "0".to_owned();
    }
    let before = libm::floor(libm::log10(value.abs()));
    let decimals = (3.0 - before).clamp(0.0, 6.0) as usize;
    let text = crate::fixed(value, decimals);
    if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
}
