//! Formulas as plain text: for a terminal, a printed sheet, and a reader that cannot show MathML.

use crate::{Expr, Given, Step};
use outlean_rigfile::Units;

/// A formula as plain text, numbers in `units`.
#[must_use]
pub fn plain(expr: &Expr, units: Units) -> String {
    let of = |expr: &Expr| plain(expr, units);
    let bracketed = |expr: &Expr, split: bool| if split { format!("({})", of(expr)) } else { of(expr) };
    match expr {
        Expr::Symbol(symbol) => match symbol.letters() {
            (letter, Some(below)) => format!("{letter}_{below}"),
            (letter, None) => letter.to_owned(),
        },
        Expr::Quantity(value, measure) => measure.show(*value, units).to_string(),
        Expr::Whole(whole) => whole.to_string(),
        Expr::Sum(terms) => terms.iter().enumerate().fold(String::new(), |text, (i, term)| match (i, term) {
            (0, term) => of(term),
            (_, Expr::Negative(term)) => format!("{text} − {}", bracketed(term, term.splits_as_factor())),
            (_, term) => format!("{text} + {}", bracketed(term, term.splits_as_factor())),
        }),
        Expr::Negative(term) => format!("−{}", bracketed(term, term.splits_as_factor())),
        Expr::Product(factors) => {
            let factors: Vec<String> = factors.iter().map(|f| bracketed(f, f.splits_as_factor())).collect();
            factors.join("·")
        }
        Expr::Fraction(above, below) => {
            let split = below.splits_as_factor() || matches!(**below, Expr::Product(_) | Expr::Fraction(..));
            format!("{}/{}", bracketed(above, above.splits_as_factor()), bracketed(below, split))
        }
        Expr::Power(base, exponent) => {
            let exponent = match exponent {
                2 => "²".to_owned(),
                other => format!("^{other}"),
            };
            format!("{}{exponent}", bracketed(base, base.splits_as_base()))
        }
        Expr::Root(inside) => format!("√({})", of(inside)),
        Expr::Function(function, angle) => {
            let split = angle.splits_as_base() && !matches!(**angle, Expr::Quantity(..));
            format!("{} {}", function.name(), bracketed(angle, split))
        }
    }
}

/// What stands between equals signs.
fn equation(chain: &[Expr], units: Units) -> String {
    chain.iter().map(|part| plain(part, units)).collect::<Vec<_>>().join(" = ")
}

impl Given {
    /// Letter and value as plain text.
    #[must_use]
    pub fn plain(&self, units: Units) -> String {
        equation(&self.chain(), units)
    }
}

impl Step {
    /// The whole step as plain text: letter = formula = numbers = value.
    #[must_use]
    pub fn plain(&self, units: Units) -> String {
        equation(&self.chain(), units)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::Symbol;
    use crate::expr::{minus, over, product, root, sine, squared, sum};

    #[test]
    fn brackets_stand_where_they_are_needed_and_nowhere_else() {
        let a = root(sum([squared(Symbol::WorkingLength), minus(squared(over(Symbol::Spread, 2)))]));
        assert_eq!(plain(&a, Units::Metric), "√(ℓ² − (s/2)²)");
        let n = over(
            product([sum([Symbol::Load.into(), Symbol::LegWeight.into()]), Symbol::WorkingLength.into()]),
            product([2.into(), Symbol::SlantHeight.into()]),
        );
        assert_eq!(plain(&n, Units::Metric), "(W + G)·ℓ/(2·a)");
        assert_eq!(plain(&sine(Symbol::Lean), Units::Metric), "sin λ");
        let taken = sum([Symbol::Down.into(), minus(minus(Symbol::Back))]);
        assert_eq!(plain(&taken, Units::Metric), "D − (−B)");
    }
}
