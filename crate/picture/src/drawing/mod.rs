//! Things to draw: each puts its shapes into a scene, in CSS pixels.

pub(crate) mod arrow;
pub(crate) mod frame;
pub(crate) mod ground;
pub(crate) mod hanging;
pub(crate) mod local;
pub(crate) mod person;
pub(crate) mod pointer;
pub(crate) mod rope;
pub(crate) mod sheet;
pub(crate) mod vec2;
