//! What native and page are compared by is the whole solution: every number of its JSON is among the numbers.

use outlean_rig::{solve, working_range};
use outlean_tests::random::random_rig;
use outlean_widget::solved::all_numbers;
use serde_json::{Value, json};

fn leaves(value: &Value, found: &mut Vec<f64>) {
    match value {
        Value::Number(number) if number.is_f64() => found.extend(number.as_f64()),
        Value::Array(list) => list.iter().for_each(|each| leaves(each, found)),
        Value::Object(map) => map.values().for_each(|each| leaves(each, found)),
        _ => {}
    }
}

#[test]
fn no_number_of_a_solution_or_a_range_is_left_out() {
    let mut solved = 0;
    for seed in 0..60 {
        let rig = random_rig(seed);
        let (Ok(solution), Ok(range)) = (solve(&rig), working_range(&rig)) else { continue };
        let mut wanted = Vec::new();
        leaves(&json!([solution, range]), &mut wanted);
        let mut numbers: Vec<u64> = all_numbers(&rig, true).iter().map(|number| number.to_bits()).collect();
        for number in wanted {
            let at = numbers.iter().position(|bits| *bits == number.to_bits());
            let at = at.unwrap_or_else(|| panic!("seed {seed}: {number} is not among the numbers"));
            numbers.swap_remove(at);
        }
        solved += 1;
    }
    assert!(solved > 30, "{solved}");
}
