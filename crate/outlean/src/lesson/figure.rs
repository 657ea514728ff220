//! The `figure` block of a lesson: a rig that is drawn, set and read.
//!
//! ```toml
//! name = "slate"
//! rig = "rig.toml"               # the rig that it begins with, beside the lesson
//! ```

use super::block::Source;
use super::{Block, rig};

/// Reads it.
pub fn read(source: &mut Source<'_, '_>) -> Option<Block> {
    let rig_of = source.rig_of;
    let tree = source.tree();
    let mut table = source.table(tree.get_ref(), 0..0);
    let hint = "a name for questions to call it by, such as name = \"slate\"";
    let name = table.name("name", hint, "a figure");
    let rig = rig(&mut table, rig_of);
    table.done();
    Some(Block::Figure { name: name?.0, rig: Box::new(rig?) })
}
