//! What a part may carry, and what that stands on.

use super::{CheckRule, Citation, Notes, Source, Symbol};

/// What kind of strength an allowable stands on. Ratios of different bases are not alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[cfg_attr(feature = "serde", derive(serde::Serialize), serde(rename_all = "snake_case"))]
#[non_exhaustive]
pub enum Basis {
    /// The load at which it breaks, as its maker warrants it at least.
    Breaking,
    /// A strength that one piece in twenty does not reach.
    Characteristic,
    /// A design value with its margin already taken.
    Design,
    /// What it stands on is not known here.
    Unknown,
}

/// What a part may carry. Forces in N.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    /// The strength that the rule begins from, for the part as it is rigged.
    pub strength: f64,
    /// What may be asked of it; `None` where the rule needs a factor and none was asked for.
    pub allowable: Option<f64>,
    /// The load at which it is expected to fail at the least; `None` where the strength says nothing of that.
    pub failure: Option<f64>,
    /// What the strength stands on.
    pub basis: Basis,
    /// Whether it is what someone says it is, or a value was taken for one that is not known.
    pub assumed: bool,
    /// The rule.
    pub rule: CheckRule,
    /// Where the strength comes from.
    pub source: Citation,
}

impl Capacity {
    /// An allowable stated with the rig. How it was found is not known here: it is assumed, on an unknown basis.
    #[must_use]
    pub const fn stated(allowable: f64) -> Self {
        Self {
            strength: allowable,
            allowable: Some(allowable),
            failure: None,
            basis: Basis::Unknown,
            assumed: true,
            rule: CheckRule::Stated,
            source: Citation::none(Source::Stated),
        }
    }

    /// Of what breaks at `strength`, known from `source`, with `factor` asked for between the two by `rule`; no allowable
    /// where none is.
    pub(crate) fn breaking(
        strength: f64,
        factor: Option<f64>,
        rule: CheckRule,
        source: Citation,
        notes: &mut impl Notes,
    ) -> Self {
        if let Some(factor) = factor {
            notes.put(Symbol::Factor, factor);
        }
        Self {
            strength,
            allowable: factor.map(|factor| strength / factor),
            failure: Some(strength),
            basis: Basis::Breaking,
            assumed: false,
            rule,
            source,
        }
    }

    /// The one that allows less; one that allows nothing known yields to the other.
    #[must_use]
    pub fn lesser(one: Option<Self>, other: Option<Self>) -> Option<Self> {
        let (Some(a), Some(b)) = (one, other) else { return one.or(other) };
        match (a.allowable, b.allowable) {
            (Some(x), Some(y)) if y < x => other,
            (None, Some(_)) => other,
            _ => one,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// What allows less holds; what allows nothing known yields; of two alike the first.
    #[test]
    fn the_lesser_of_two() {
        let stated = |allowable| Some(Capacity::stated(allowable));
        let unasked = Some(Capacity { allowable: None, ..Capacity::stated(1.0) });
        let alike = Some(Capacity { rule: CheckRule::Pins, ..Capacity::stated(2.0) });
        for (one, other, lesser) in [
            (stated(1.0), stated(2.0), stated(1.0)),
            (stated(3.0), stated(2.0), stated(2.0)),
            (stated(2.0), alike, stated(2.0)),
            (alike, stated(2.0), alike),
            (unasked, stated(2.0), stated(2.0)),
            (stated(2.0), unasked, stated(2.0)),
            (None, alike, alike),
            (alike, None, alike),
            (None, None, None),
        ] {
            assert_eq!(Capacity::lesser(one, other), lesser);
        }
    }
}
