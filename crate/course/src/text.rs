//! An author's text with gaps that the drawn rig fills: `The guy stands {aft.setback} back`.

use crate::{Operand, Unclear};
use core::ops::Range;
use outlean_rig::{Dimension, Rig, solve};
use outlean_rigfile::{Units, choice, choices, measured};

/// A text with gaps.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct Text(pub Vec<Piece>);

/// A piece of a text.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "snake_case")]
pub enum Piece {
    /// As it is written.
    Plain(String),
    /// A reading or a field of the drawn rig.
    Number(Operand),
    /// A choice of the drawn rig, by its key.
    Choice(String),
}

/// A piece of a text with its gap filled.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Filled {
    /// As it is written.
    Plain(String),
    /// A number in SI, to be shown in the reader's units.
    Number(f64, Dimension),
    /// The word of a choice: key and word of the choice table.
    Word(String, &'static str),
}

/// Why a text has a gap that nothing fills.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct BadGap {
    /// Where, in bytes of the text.
    pub at: Range<usize>,
    /// The name spelled most like it; `None` too where a gap is not closed.
    pub nearest: Option<String>,
    /// Whether the gap is closed.
    pub closed: bool,
}

impl Text {
    /// Reads a text. A gap is `{` a field's or choice's key, or the words of a reading `}`.
    ///
    /// # Errors
    ///
    /// The first gap that is not closed or that nothing fills.
    pub fn read(written: &str) -> Result<Self, BadGap> {
        let mut pieces = Vec::new();
        let mut at = 0;
        let mut rest = written;
        while let Some((before, after)) = rest.split_once('{') {
            if !before.is_empty() {
                pieces.push(Piece::Plain(before.to_owned()));
            }
            let from = at + before.len();
            let Some((name, after)) = after.split_once('}') else {
                return Err(BadGap { at: from..written.len(), nearest: None, closed: false });
            };
            let named = || Operand::named(name).map(Piece::Number);
            let chosen = || choice(name).map(|_| Piece::Choice(name.to_owned()));
            let Some(piece) = named().or_else(chosen) else {
                let near = Operand::nearest(name, choices().map(|spec| spec.key));
                let at = from + 1..from + 1 + name.len();
                return Err(BadGap { at, nearest: near, closed: true });
            };
            pieces.push(piece);
            at = from + 1 + name.len() + 1;
            rest = after;
        }
        if !rest.is_empty() {
            pieces.push(Piece::Plain(rest.to_owned()));
        }
        Ok(Self(pieces))
    }

    /// The text as it is written.
    #[must_use]
    pub fn written(&self) -> String {
        let piece = |piece: &Piece| match piece {
            Piece::Plain(text) => text.clone(),
            Piece::Number(operand) => format!("{{{}}}", operand.name().unwrap_or_default()),
            Piece::Choice(key) => format!("{{{key}}}"),
        };
        self.0.iter().map(piece).collect()
    }

    /// The text with its gaps filled from `rig`.
    ///
    /// # Errors
    ///
    /// Why a gap cannot be filled.
    pub fn filled(&self, rig: &Rig) -> Result<Vec<Filled>, Unclear> {
        let reads = |piece: &Piece| matches!(piece, Piece::Number(operand) if operand.is_reading());
        let solution =
            if self.0.iter().any(reads) { Some(solve(rig).map_err(Unclear::Impossible)?) } else { None };
        let fill = |piece: &Piece| {
            Ok(match piece {
                Piece::Plain(text) => Filled::Plain(text.clone()),
                Piece::Number(operand) => {
                    let dimension = operand.dimension().unwrap_or(Dimension::Ratio);
                    Filled::Number(operand.value(rig, solution.as_ref())?, dimension)
                }
                Piece::Choice(key) => {
                    let word = choice(key).and_then(|choice| choice.get(rig));
                    Filled::Word(key.clone(), word.ok_or_else(|| Unclear::Absent(key.clone()))?)
                }
            })
        };
        self.0.iter().map(fill).collect()
    }
}

/// A filled text as people read it, numbers in `units`; the words of choices as `word` says them.
#[must_use]
pub fn shown(filled: &[Filled], units: Units, word: &dyn Fn(&str, &'static str) -> String) -> String {
    let piece = |piece: &Filled| match piece {
        Filled::Plain(text) => text.clone(),
        Filled::Number(value, dimension) => measured(*value, *dimension, units).to_string(),
        Filled::Word(key, chosen) => word(key, chosen),
    };
    filled.iter().map(piece).collect()
}

/// Whether two filled texts read alike in either system of units.
pub(crate) fn alike(a: &[Filled], b: &[Filled]) -> bool {
    let plain = |_: &str, word: &'static str| word.to_owned();
    [Units::Metric, Units::Us].iter().any(|units| shown(a, *units, &plain) == shown(b, *units, &plain))
}
