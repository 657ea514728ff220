//! Answer: the plan of a rig file in words, line by line, and what stands in its way.

use crate::form::{Said, said};
use crate::worked::{Worked, given};
use outlean_plan::{
    MOST_VARIANTS, Measured, Plan, Saying, Section, compared_said, differences, proposal_said, variant,
};
use outlean_rig::Rig;
use outlean_rigfile::{Problem, Units, Words, read};
use serde::Serialize;

/// What comes of a rig file. Nothing is worked out of one that has an error.
#[derive(Serialize, Default)]
pub struct Answer {
    /// What is wrong, if no plan could be made.
    problems: Vec<Said>,
    /// `build`, `find_out`, `stiffen`, `change`, `do_not_build`; none without a plan.
    advice: Option<&'static str>,
    /// The plan, section by section.
    sections: Vec<Section>,
    /// What would bring it inside, the smallest change first, each with its effect.
    proposals: Vec<String>,
}

/// The plan of a rig file's text, if it makes one.
pub fn answer(text: &str, worked: Option<&Worked>, words: &Words, units: Units) -> Answer {
    let Some(worked) = worked else {
        return Answer { problems: problems(&read(text).1, words), ..Answer::default() };
    };
    let Worked { file, plan, .. } = worked;
    let voice = worked.voice(words, units);
    Answer {
        problems: Vec::new(),
        advice: Some(plan.advice.name()),
        sections: Saying { plan, rig: &file.rig, voice }.sections(),
        proposals: plan.proposals.iter().map(|one| proposal_said(one, &file.rig, &voice)).collect(),
    }
}

/// Problems in words.
fn problems(all: &[Problem], words: &Words) -> Vec<Said> {
    all.iter().map(|problem| said(problem, words)).collect()
}

/// What comes of laying plans beside one another.
#[derive(Serialize, Default)]
pub struct Beside {
    /// Titles of those that are no rig files.
    unread: Vec<String>,
    sections: Vec<Section>,
}

/// A plan beside others, each with its title; no more than [`MOST_VARIANTS`] in all.
pub fn beside(own: &Worked, others: &[(String, String)], words: &Words, units: Units) -> Beside {
    let mut all = Beside::default();
    let mut files = Vec::new();
    for (title, text) in others.iter().take(MOST_VARIANTS - 1) {
        match read(text).0 {
            Some(file) => files.push((title.as_str(), file)),
            None => all.unread.push(title.clone()),
        }
    }
    let plans = files.iter().map(|(_, file)| Plan::of(&given(file)).map(|plan| variant(&plan, &file.rig)));
    let own_variant = core::iter::once(Ok(variant(&own.plan, &own.file.rig)));
    let Ok(variants) = own_variant.chain(plans).collect::<Result<Vec<_>, _>>() else { return all };
    let rigs: Vec<&Rig> =
        core::iter::once(&own.file.rig).chain(files.iter().map(|(_, file)| &file.rig)).collect();
    let titles: Vec<&str> =
        core::iter::once(words.say("form.this")).chain(files.iter().map(|(title, _)| *title)).collect();
    all.sections = compared_said(&titles, &variants, &differences(&rigs), &own.voice(words, units));
    all
}

/// What comes of laying what was measured beside its plan.
#[derive(Serialize, Default)]
pub struct MeasuredSaid {
    /// What is wrong in the file of what was measured.
    problems: Vec<Said>,
    sections: Vec<Section>,
}

/// What was measured, the text of a rig file, beside its plan.
pub fn measured(own: &Worked, other: &str, words: &Words, units: Units) -> MeasuredSaid {
    let (other, wrong) = read(other);
    let Some(other) = other else {
        return MeasuredSaid { problems: problems(&wrong, words), sections: Vec::new() };
    };
    let Worked { file, plan, .. } = own;
    let Ok(found) = Measured::of(plan, &file.rig, &given(&other)) else { return MeasuredSaid::default() };
    let saying = Saying { plan, rig: &file.rig, voice: own.voice(words, units) };
    MeasuredSaid { problems: Vec::new(), sections: saying.measured_said(&found, &other.rig) }
}
