//! Scripts as a page loads them: without comments and indentation, which are a quarter of their bytes.

/// `source` without JSDoc blocks, comments that have a line of their own, indentation and empty lines.
///
/// Only for scripts that keep to this: no `/**` inside a text, no template that runs over several lines. What else is
/// in a line is left as it stands.
pub fn bare(source: &str) -> String {
    let mut code = String::with_capacity(source.len());
    let mut rest = source;
    while let Some((before, after)) = rest.split_once("/**") {
        code.push_str(before);
        rest = after.split_once("*/").map_or("", |(_, after)| after);
    }
    code.push_str(rest);
    let mut out = String::with_capacity(code.len());
    for line in code.lines().map(str::trim).filter(|line| !line.is_empty() && !line.starts_with("//")) {
        out.push_str(line);
        out.push('\n');
    }
    out
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn comments_go_and_code_stays() {
        let source = "// Why.\n\n/**\n * @param {string} a\n */\nexport function f(a) {\n  // here\n  return /** @type {string} */ (a) + 'http://x'; // stays\n}\n";
        assert_eq!(bare(source), "export function f(a) {\nreturn  (a) + 'http://x'; // stays\n}\n");
    }
}
