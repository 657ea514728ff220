//! What may be asked, by the words an author writes.

use outlean_rig::{Quantity, Side};

/// Words and what they ask for.
pub const ASKED: [(&str, Quantity); 8] = [
    ("compression of the left leg", Quantity::LegCompression(Side::Left)),
    ("compression of the right leg", Quantity::LegCompression(Side::Right)),
    ("tension of the first guy", Quantity::GuyTension(0)),
    ("tension of the second guy", Quantity::GuyTension(1)),
    ("tension of the haul line", Quantity::HaulTension),
    ("pull on the head sling", Quantity::OnHead),
    ("reach", Quantity::Reach),
    ("height of the head", Quantity::HeadHeight),
];

/// What the words ask for; `None` for words that are not in [`ASKED`].
#[must_use]
pub fn asked(words: &str) -> Option<Quantity> {
    ASKED.iter().find(|(each, _)| *each == words).map(|(_, quantity)| *quantity)
}

/// The words that ask for a quantity; `None` for one that cannot be asked in words.
#[must_use]
pub fn asking(quantity: Quantity) -> Option<&'static str> {
    ASKED.iter().find(|(_, each)| *each == quantity).map(|(words, _)| *words)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::answered_in;

    #[test]
    fn what_can_be_asked_is_answered_in_something() {
        for (words, quantity) in ASKED {
            assert!(answered_in(quantity).is_some(), "{words}");
            assert_eq!((asked(words), asking(quantity)), (Some(quantity), Some(words)));
        }
        assert_eq!(asked("tilt"), None);
    }
}
