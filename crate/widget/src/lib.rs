//! The page side in Rust: one stateful object per element, typed messages in and out.
//!
//! [`State`](state::State) and its [`Action`](action::Action)s know no page and run natively; `figure.rs` and
//! `estimate.rs` are the wasm-bindgen surface over them. No statics and no marking rules here: the core and the
//! course are called.

pub mod action;
pub mod motion;
pub mod slider;
pub mod solved;
pub mod state;
pub mod verdict;
pub mod view;
pub mod working;

mod asked;
mod canvas;
mod chart_backend;
mod estimate;
mod figure;
mod history;
mod message;
mod name;
mod told;

pub use asked::said;

/// The allocator of the page: a fifth of the size of the usual one, in constant time.
#[cfg(target_arch = "wasm32")]
#[global_allocator]
static ALLOCATOR: rlsf::SmallGlobalTlsf = rlsf::SmallGlobalTlsf::new();
