//! What every question has besides what is asked.

/// What an author says of a question. Marking needs none of it.
#[derive(Clone, Debug, PartialEq, serde::Serialize, serde::Deserialize)]
pub struct About {
    /// Which of the lesson's objectives it is for, counted from 1.
    pub objective: u32,
    /// How hard it is: 1 to know, 2 to apply, 3 to judge.
    pub level: u8,
    /// What helps a learner who is stuck, as plain text.
    pub hint: String,
    /// Why it is as it is, shown after the mark, as plain text.
    pub explanation: String,
    /// Where the rule behind it comes from.
    pub source: String,
}
