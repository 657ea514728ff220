//! Formulas as MathML Core, for pages. Nothing in them comes from what people type.

use crate::{Expr, Given, Step};
use outlean_rigfile::{Shown, Units};

/// A formula as MathML, without the outer `math` element, numbers in `units`.
#[must_use]
pub fn mathml(expr: &Expr, units: Units) -> String {
    let of = |expr: &Expr| mathml(expr, units);
    let bracketed = |expr: &Expr, split: bool| {
        if split { format!("<mrow><mo>(</mo>{}<mo>)</mo></mrow>", of(expr)) } else { of(expr) }
    };
    match expr {
        Expr::Symbol(symbol) => match symbol.letters() {
            (letter, Some(below)) => format!("<msub><mi>{letter}</mi><mi>{below}</mi></msub>"),
            (letter, None) => format!("<mi>{letter}</mi>"),
        },
        Expr::Quantity(value, measure) => quantity(&measure.show(*value, units)),
        Expr::Whole(whole) => format!("<mn>{whole}</mn>"),
        Expr::Sum(terms) => {
            let inside = terms.iter().enumerate().fold(String::new(), |text, (i, term)| match (i, term) {
                (0, term) => of(term),
                (_, Expr::Negative(term)) => {
                    format!("{text}<mo>−</mo>{}", bracketed(term, term.splits_as_factor()))
                }
                (_, term) => format!("{text}<mo>+</mo>{}", bracketed(term, term.splits_as_factor())),
            });
            format!("<mrow>{inside}</mrow>")
        }
        Expr::Negative(term) => {
            format!("<mrow><mo>−</mo>{}</mrow>", bracketed(term, term.splits_as_factor()))
        }
        Expr::Product(factors) => {
            let factors: Vec<String> = factors.iter().map(|f| bracketed(f, f.splits_as_factor())).collect();
            format!("<mrow>{}</mrow>", factors.join("<mo>·</mo>"))
        }
        Expr::Fraction(above, below) => format!("<mfrac>{}{}</mfrac>", of(above), of(below)),
        Expr::Power(base, exponent) => {
            format!("<msup>{}<mn>{exponent}</mn></msup>", bracketed(base, base.splits_as_base()))
        }
        Expr::Root(inside) => format!("<msqrt>{}</msqrt>", of(inside)),
        Expr::Function(function, angle) => {
            let split = angle.splits_as_base() && !matches!(**angle, Expr::Quantity(..));
            let name = function.name();
            format!("<mrow><mi>{name}</mi><mo>&#x2061;</mo>{}</mrow>", bracketed(angle, split))
        }
    }
}

fn quantity(shown: &Shown) -> String {
    let Shown { number, unit } = shown;
    match *unit {
        "" => format!("<mn>{number}</mn>"),
        "°" => format!("<mrow><mn>{number}</mn><mtext>°</mtext></mrow>"),
        unit => format!("<mrow><mn>{number}</mn><mtext>\u{2009}{unit}</mtext></mrow>"),
    }
}

/// What stands between equals signs, as one `math` element.
fn equation(chain: &[Expr], units: Units) -> String {
    let chain: Vec<String> = chain.iter().map(|part| mathml(part, units)).collect();
    format!(
        "<math xmlns=\"http://www.w3.org/1998/Math/MathML\" display=\"block\"><mrow>{}</mrow></math>",
        chain.join("<mo>=</mo>")
    )
}

impl Given {
    /// Letter and value as one `math` element.
    #[must_use]
    pub fn mathml(&self, units: Units) -> String {
        equation(&self.chain(), units)
    }
}

impl Step {
    /// The whole step as one `math` element: letter = formula = numbers = value.
    #[must_use]
    pub fn mathml(&self, units: Units) -> String {
        equation(&self.chain(), units)
    }
}
