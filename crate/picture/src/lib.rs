//! Pictures of a solved rig: plain shapes with roles, painted through one small trait.
//!
//! A picture is made in three steps that know nothing of one another. A *view* puts [`Item`]s into a [`Scene`]:
//! shapes in CSS pixels, each with the [`Role`] that says what it is. A role has a [`Style`]: names of inks,
//! widths, dashes. A [`Painter`] lays them on: SVG text here, a canvas in the page.
//!
//! Everything is `f64` and pure; nothing here knows the page, the lessons or the clock.
#![deny(missing_docs)]

mod advance_table;
mod build_steps;
pub mod curves;
mod decade;
mod drawing;
mod foot;
mod force_scale;
mod front_view;
mod inks;
mod label;
mod label_layout;
#[cfg(test)]
mod languages;
mod naming;
mod painter;
mod path;
mod polygon;
mod role;
#[cfg(test)]
mod sample;
mod scene;
mod side_view;
mod sort_few;
mod style;
mod subject;
mod svg;
mod text_width;

pub use build_steps::{BuildPlate, BuildStep, build_plate, build_told};
pub use drawing::pointer::HandleState;
pub use foot::{foot_height, footed};
pub use force_scale::force_scale;
pub use front_view::{FrontView, FrontViewInput, front_view};
pub use inks::{Ink, Inks};
pub use label::{Area, Edge, Label, LabelKey, Row, Seat};
pub(crate) use label_layout::seats_taken;
pub use label_layout::{Obstacle, Seated, Seats, draw_labels, seat_labels};
pub use naming::{limit_name, part_name, tip_key};
/// Words of pictures are words as of rig files.
pub use outlean_rigfile::Words;
pub use painter::{Painter, paint};
pub use path::{Path, Step};
pub use polygon::{Acting, Polygon, PolygonInput, polygon};
pub use role::{Kind, Lettering, Role, Tone, Weight};
pub use scene::{Anchor, Item, Scene, Shape};
pub(crate) use side_view::lean_span;
pub use side_view::{Show, SideView, SideViewInput, side_view};
pub(crate) use style::type_scale;
pub use style::{Dash, Hatch, PROJECTOR, Stroke, Style, TextStyle};
pub use subject::{Subject, parts_past};
pub use svg::{svg, svg_in_page};
pub use text_width::{Face, width};
