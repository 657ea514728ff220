//! See the README.
fn main() {}
