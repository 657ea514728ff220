//! Things to draw: each puts its shapes into a scene, in CSS pixels.

pub(crate) mod arrow;
pub(crate) mod dimension;
pub(crate) mod frame;
pub(crate) mod ground;
pub(crate) mod hanging;
pub(crate) mod length;
pub(crate) mod local;
pub(crate) mod person;
pub(crate) mod pointer;
pub(crate) mod projection;
pub(crate) mod rope;
pub(crate) mod sheet;
pub(crate) mod vec2;
pub(crate) mod voice;
