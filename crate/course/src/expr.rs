//! Formulas as small trees: written once in letters, filled with a learner's own numbers.

use crate::{Measure, Symbol};

/// A function in a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Function {
    /// Sine.
    Sin,
    /// Cosine.
    Cos,
}

impl Function {
    /// Its name as it is written.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Sin => "sin",
            Self::Cos => "cos",
        }
    }
}

/// A formula.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
#[serde(rename_all = "snake_case")]
pub enum Expr {
    /// A letter.
    Symbol(Symbol),
    /// A number of the rig, in SI, with what it is.
    Quantity(f64, Measure),
    /// A bare whole number.
    Whole(u32),
    /// Terms added; a negative one is written with a minus.
    Sum(Vec<Expr>),
    /// The opposite of a term.
    Negative(Box<Expr>),
    /// Factors multiplied.
    Product(Vec<Expr>),
    /// Above over below.
    Fraction(Box<Expr>, Box<Expr>),
    /// A power.
    Power(Box<Expr>, u32),
    /// A square root.
    Root(Box<Expr>),
    /// A function of an angle.
    Function(Function, Box<Expr>),
}

impl From<Symbol> for Expr {
    fn from(symbol: Symbol) -> Self {
        Self::Symbol(symbol)
    }
}

impl From<u32> for Expr {
    fn from(whole: u32) -> Self {
        Self::Whole(whole)
    }
}

impl Expr {
    /// Its value in SI; `None` while a letter stands in it. A division by nothing gives an infinity or NaN.
    #[must_use]
    pub fn value(&self) -> Option<f64> {
        Some(match self {
            Self::Symbol(_) => return None,
            Self::Quantity(value, _) => *value,
            Self::Whole(whole) => f64::from(*whole),
            Self::Sum(terms) => terms.iter().map(Self::value).sum::<Option<f64>>()?,
            Self::Negative(term) => -term.value()?,
            Self::Product(factors) => factors.iter().map(Self::value).product::<Option<f64>>()?,
            Self::Fraction(above, below) => above.value()? / below.value()?,
            Self::Power(base, exponent) => {
                let base = base.value()?;
                (0..*exponent).fold(1.0, |power, _| power * base)
            }
            Self::Root(of) => libm::sqrt(of.value()?),
            Self::Function(Function::Sin, of) => libm::sin(of.value()?),
            Self::Function(Function::Cos, of) => libm::cos(of.value()?),
        })
    }

    /// The same formula with every letter that `number` knows replaced by its number.
    #[must_use]
    pub fn with(&self, number: &impl Fn(Symbol) -> Option<(f64, Measure)>) -> Self {
        let boxed = |expr: &Self| Box::new(expr.with(number));
        let all = |list: &[Self]| list.iter().map(|expr| expr.with(number)).collect();
        match self {
            Self::Symbol(symbol) => match number(*symbol) {
                Some((value, measure)) => Self::Quantity(value, measure),
                None => self.clone(),
            },
            Self::Quantity(..) | Self::Whole(_) => self.clone(),
            Self::Sum(terms) => Self::Sum(all(terms)),
            Self::Negative(term) => Self::Negative(boxed(term)),
            Self::Product(factors) => Self::Product(all(factors)),
            Self::Fraction(above, below) => Self::Fraction(boxed(above), boxed(below)),
            Self::Power(base, exponent) => Self::Power(boxed(base), *exponent),
            Self::Root(of) => Self::Root(boxed(of)),
            Self::Function(function, of) => Self::Function(*function, boxed(of)),
        }
    }

    /// Whether it wants brackets where it is a factor.
    pub(crate) fn splits_as_factor(&self) -> bool {
        match self {
            Self::Sum(terms) => terms.len() > 1,
            Self::Negative(_) => true,
            Self::Quantity(value, _) => *value < 0.0,
            _ => false,
        }
    }

    /// Whether it wants brackets under a power or after a function: anything that is not a single sign.
    pub(crate) fn splits_as_base(&self) -> bool {
        !matches!(self, Self::Symbol(_) | Self::Whole(_) | Self::Root(_))
    }
}

/// A sum.
pub(crate) fn sum(terms: impl IntoIterator<Item = Expr>) -> Expr {
    Expr::Sum(terms.into_iter().collect())
}

/// A product.
pub(crate) fn product(factors: impl IntoIterator<Item = Expr>) -> Expr {
    Expr::Product(factors.into_iter().collect())
}

/// The opposite.
pub(crate) fn minus(term: impl Into<Expr>) -> Expr {
    Expr::Negative(Box::new(term.into()))
}

/// A fraction.
pub(crate) fn over(above: impl Into<Expr>, below: impl Into<Expr>) -> Expr {
    Expr::Fraction(Box::new(above.into()), Box::new(below.into()))
}

/// A square.
pub(crate) fn squared(base: impl Into<Expr>) -> Expr {
    Expr::Power(Box::new(base.into()), 2)
}

/// A square root.
pub(crate) fn root(of: Expr) -> Expr {
    Expr::Root(Box::new(of))
}

/// A sine.
pub(crate) fn sine(of: Symbol) -> Expr {
    Expr::Function(Function::Sin, Box::new(of.into()))
}

/// A cosine.
pub(crate) fn cosine(of: Symbol) -> Expr {
    Expr::Function(Function::Cos, Box::new(of.into()))
}
