//! `cmi5.xml`: what a learning system that keeps to cmi5 is told of a package.
//!
//! By the cmi5 specification (Quartz, 1st edition), 13 and 14. Each lesson is an assignable unit: it is completed when all its questions
//! are answered and passed at the course's mark. A test holds it against the standard's schema.

use super::manifest::Page;
use crate::markup::escaped;
use outlean_course::PASS;

/// The name of the course, by chance, under which each lesson has its own, and what statements add.
pub const COURSE: &str = "urn:uuid:bbf19409-37de-400a-8c08-301ebfddc435";

/// A text as the schema has it.
fn text(element: &str, text: &str) -> String {
    format!("<{element}><langstring lang=\"en\">{}</langstring></{element}>\n", escaped(text))
}

/// The structure of a package that starts `pages`.
pub fn course_structure(pages: &[Page]) -> String {
    let titles: Vec<&str> = pages.iter().map(|page| page.title.as_str()).collect();
    let units: String = pages
        .iter()
        .map(|page| {
            // A lesson that states no objectives is about what its title says.
            let about = if page.about.is_empty() { &page.title } else { &page.about };
            format!(
                "<au id=\"{COURSE}#{}\" moveOn=\"CompletedAndPassed\" masteryScore=\"{PASS}\" \
                 activityType=\"http://adlnet.gov/expapi/activities/lesson\">\n{}{}<url>{}</url>\n</au>\n",
                escaped(&page.name),
                text("title", &page.title),
                text("description", about),
                escaped(&page.href())
            )
        })
        .collect();
    format!(
        "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n\
         <courseStructure xmlns=\"https://w3id.org/xapi/profiles/cmi5/v1/CourseStructure.xsd\">\n\
         <course id=\"{COURSE}\">\n{}{}</course>\n{units}</courseStructure>\n",
        text("title", "Outlean"),
        text("description", &titles.join(". "))
    )
}
