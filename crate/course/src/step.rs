//! One step of a worked solution, and the paper on which steps are written one after another.

use crate::{Expr, Measure, Symbol};

/// A number of the rig that a worked solution starts from.
#[derive(Clone, Copy, Debug, PartialEq, serde::Serialize)]
pub struct Given {
    /// Its letter.
    pub symbol: Symbol,
    /// Its value, SI.
    pub value: f64,
    /// What it is.
    pub measure: Measure,
}

impl Given {
    /// Letter and value.
    #[must_use]
    pub fn chain(&self) -> Vec<Expr> {
        vec![Expr::Symbol(self.symbol), Expr::Quantity(self.value, self.measure)]
    }
}

/// One step: what is worked out, from what, and what it comes to.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Step {
    /// Its name: `step.` and this in the strings.
    pub key: &'static str,
    /// The letter of what is worked out.
    pub symbol: Symbol,
    /// The formula in letters; `None` where the rig is not plain enough for a formula by hand (unequal legs, a
    /// slope across the feet, a load swung aside) and the value is the core's own.
    pub formula: Option<Expr>,
    /// The formula with the learner's numbers.
    pub numbers: Option<Expr>,
    /// What it comes to, SI, from the core.
    pub value: f64,
    /// What kind of number that is.
    pub measure: Measure,
}

impl Step {
    /// Letter, formula, numbers, value: what stands between the equals signs.
    #[must_use]
    pub fn chain(&self) -> Vec<Expr> {
        let mut chain = vec![Expr::Symbol(self.symbol)];
        chain.extend(self.formula.clone());
        // A formula that is a single letter or number would only be said twice.
        let result = Expr::Quantity(self.value, self.measure);
        chain.extend(self.numbers.clone().filter(|numbers| *numbers != result));
        chain.push(result);
        chain
    }
}

/// A worked solution.
#[derive(Clone, Debug, PartialEq, serde::Serialize)]
pub struct Worked {
    /// What it starts from.
    pub given: Vec<Given>,
    /// The steps; the value of the last one is the answer.
    pub steps: Vec<Step>,
}

/// Formulas agree with the core within this share of the value.
const AGREES: f64 = 1e-9;

impl Worked {
    pub(crate) const fn new() -> Self {
        Self { given: Vec::new(), steps: Vec::new() }
    }

    /// Notes a number that the rig gives.
    pub(crate) fn give(&mut self, symbol: Symbol, value: f64, measure: Measure) {
        self.given.push(Given { symbol, value, measure });
    }

    /// Writes a step whose `value` the core has found. The formula is shown where, with the numbers written so
    /// far, it comes to that value; on a rig that it does not fit it is left out.
    pub(crate) fn write(
        &mut self,
        key: &'static str,
        symbol: Symbol,
        value: f64,
        measure: Measure,
        formula: impl Into<Expr>,
    ) {
        let formula = formula.into();
        let numbers = formula.with(&|symbol| self.known(symbol));
        let fits = numbers.value().is_some_and(|by_hand| {
            let apart = (by_hand - value).abs();
            apart <= AGREES * (1.0 + value.abs())
        });
        let (formula, numbers) = if fits { (Some(formula), Some(numbers)) } else { (None, None) };
        self.steps.push(Step { key, symbol, formula, numbers, value, measure });
    }

    fn known(&self, symbol: Symbol) -> Option<(f64, Measure)> {
        let worked = self.steps.iter().rev().find(|step| step.symbol == symbol);
        let given = || self.given.iter().find(|given| given.symbol == symbol);
        worked.map(|step| (step.value, step.measure)).or_else(|| given().map(|g| (g.value, g.measure)))
    }
}
