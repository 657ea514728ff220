//! Problems of a file as its author reads them: file, line, column, the place marked, what to type instead.

use crate::words::words;
use annotate_snippets::{AnnotationKind, Level, Renderer, Snippet};
use core::ops::Range;
use outlean_rigfile::{Problem, Severity};
use std::io::IsTerminal;

/// All `problems` of the file `path` whose text is `source`, ready to print to standard error. In colour only
/// where that is a terminal and NO_COLOR is not set.
pub fn problems(path: &str, source: &str, problems: &[Problem]) -> String {
    let mut all = String::new();
    for problem in problems {
        let said = problem.said(words());
        let level = match problem.severity {
            Severity::Error => Level::ERROR,
            Severity::Warning => Level::WARNING,
        };
        all.push_str(&one(level, path, source, problem.span.clone(), &said.message, said.hint.as_deref()));
    }
    all
}

/// One complaint about the file `path`, an error, as [`problems`] prints it.
pub fn complaint(path: &str, source: &str, span: Range<usize>, message: &str, hint: Option<&str>) -> String {
    one(Level::ERROR, path, source, span, message, hint)
}

/// One warning about the file `path`, as [`problems`] prints it.
pub fn warning(path: &str, source: &str, span: Range<usize>, message: &str, hint: Option<&str>) -> String {
    one(Level::WARNING, path, source, span, message, hint)
}

fn one(
    level: Level<'_>,
    path: &str,
    source: &str,
    span: Range<usize>,
    message: &str,
    hint: Option<&str>,
) -> String {
    let marked = AnnotationKind::Primary.span(within(source, &span));
    let snippet = Snippet::source(source).path(path).annotation(marked);
    let mut group = level.primary_title(message).element(snippet);
    if let Some(hint) = hint {
        group = group.element(Level::HELP.message(hint));
    }
    let colour = std::io::stderr().is_terminal() && std::env::var_os("NO_COLOR").is_none();
    let renderer = if colour { Renderer::styled() } else { Renderer::plain() };
    format!("{}\n\n", renderer.render(&[group]))
}

/// `span` cut to whole characters of `source`.
fn within(source: &str, span: &Range<usize>) -> Range<usize> {
    let start = source.floor_char_boundary(span.start);
    start..source.ceil_char_boundary(span.end).max(start)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_shows_its_file_line_column_and_hint() {
        let source = "lean = \"18 deg\"\nlode = 3\n";
        let shown =
            complaint("rig.toml", source, 16..20, "there is no field `lode`", Some("did you mean `load`?"));
        for part in
            ["error: there is no field `lode`", "rig.toml:2:1", "2 | lode = 3", "^^^^", "help: did you mean"]
        {
            assert!(shown.contains(part), "{part} in\n{shown}");
        }
    }

    #[test]
    fn no_place_is_too_odd_to_mark() {
        for (source, span) in [("", 0..0), ("é", 1..1), ("é\n", 1..9), ("a\r\nb", 0..4), ("\u{feff}x", 0..9)]
        {
            assert!(complaint("rig.toml", source, span, "it is odd", None).contains("it is odd"));
        }
    }
}
