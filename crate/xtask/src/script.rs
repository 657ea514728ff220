//! The page's script: its modules and the program's JavaScript joined into one, without a word too many.
//!
//! The modules are set one after another, each after those that it imports, in one scope; what each exports keeps its
//! name there. That asks of them what ours keep to, and what is refused otherwise: imports by their own names (a default
//! export by any), exports where a thing is declared, and no name twice.

use crate::command::Failure;
use oxc_allocator::Allocator;
use oxc_ast::ast::{ImportDeclarationSpecifier, ModuleExportName, Program, Statement};
use oxc_codegen::{Codegen, CodegenOptions};
use oxc_minifier::{Minifier, MinifierOptions};
use oxc_parser::Parser;
use oxc_semantic::{Scoping, SemanticBuilder};
use oxc_span::{GetSpan, SourceType, Span};
use std::collections::BTreeMap;

/// A module's text by its address as imports give it, without the `./`.
pub type Read<'a> = &'a dyn Fn(&str) -> Result<String, Failure>;

/// The module `entry` with everything that it imports, as one module.
///
/// # Errors
///
/// Names the module and what in it cannot be joined.
pub fn bundle(entry: &str, read: Read<'_>) -> Result<String, Failure> {
    let mut joined = Joined { read, defaults: BTreeMap::new(), free: Vec::new(), code: String::new() };
    joined.add(entry)?;
    let allocator = Allocator::default();
    let mut program = parsed(&allocator, entry, &joined.code)?;
    let scoping = scoping(entry, &program)?;
    let taken = |(_, name): &&(String, String)| scoping.get_root_binding(name.as_str().into()).is_some();
    if let Some((module, name)) = joined.free.iter().find(taken) {
        return Err(Failure::new(format!(
            "{module} uses the browser's `{name}`, but another module declares it: give that one another name."
        )));
    }
    let minified = Minifier::new(MinifierOptions::default()).minify(&allocator, &mut program);
    let writer = Codegen::new().with_options(CodegenOptions::minify()).with_scoping(minified.scoping);
    Ok(writer.with_private_member_mappings(minified.class_private_mappings).build(&program).code)
}

/// Modules joined so far.
struct Joined<'a> {
    read: Read<'a>,
    /// What each module calls its default export; the modules that are in.
    defaults: BTreeMap<String, Option<String>>,
    /// Names that a module takes from outside all modules: module, name.
    free: Vec<(String, String)>,
    code: String,
}

impl Joined<'_> {
    /// Adds a module after those that it imports; does nothing for one that is in.
    fn add(&mut self, name: &str) -> Result<(), Failure> {
        if self.defaults.insert(name.to_owned(), None).is_some() {
            return Ok(());
        }
        let source = (self.read)(name)?;
        let allocator = Allocator::default();
        let program = parsed(&allocator, name, &source)?;
        let mut kept = String::with_capacity(source.len());
        let mut at = 0;
        for statement in &program.body {
            // From where to where the statement goes out of the text.
            let Span { start, end, .. } = statement.span();
            let cut = match statement {
                Statement::ImportDeclaration(import) => {
                    let from = import.source.value.trim_start_matches("./");
                    self.add(from)?;
                    for specifier in import.specifiers.iter().flatten() {
                        kept.push_str(&self.renamed(name, from, specifier)?);
                    }
                    (start, end)
                }
                Statement::ExportNamedDeclaration(export) if export.source.is_none() => {
                    for specifier in &export.specifiers {
                        let local = specifier.local.name().to_string();
                        match &specifier.exported {
                            ModuleExportName::IdentifierName(exported) if exported.name == "default" => {
                                self.defaults.insert(name.to_owned(), Some(local));
                            }
                            exported if exported.name().as_str() == local => {}
                            _ => return Err(unjoined(name, "it exports a thing by another name")),
                        }
                    }
                    (start, export.declaration.as_ref().map_or(end, |declared| declared.span().start))
                }
                Statement::ExportNamedDeclaration(_)
                | Statement::ExportAllDeclaration(_)
                | Statement::ExportDefaultDeclaration(_) => {
                    return Err(unjoined(name, "it exports in a way that is not known here"));
                }
                _ => continue,
            };
            kept.push_str(source.get(at..cut.0 as usize).unwrap_or_default());
            at = cut.1 as usize;
        }
        kept.push_str(source.get(at..).unwrap_or_default());
        let scoping = scoping(name, &program)?;
        self.free.extend(
            scoping.root_unresolved_references().keys().map(|free| (name.to_owned(), free.to_string())),
        );
        self.code.push_str(&kept);
        self.code.push('\n');
        Ok(())
    }

    /// The line that gives what `module` imports from `from` the name that it has in `module`, where it needs one.
    fn renamed(
        &self,
        module: &str,
        from: &str,
        specifier: &ImportDeclarationSpecifier<'_>,
    ) -> Result<String, Failure> {
        match specifier {
            ImportDeclarationSpecifier::ImportSpecifier(one) if one.imported.name() == one.local.name => {
                Ok(String::new())
            }
            ImportDeclarationSpecifier::ImportDefaultSpecifier(one) => match self.defaults.get(from) {
                Some(Some(known)) => Ok(format!("const {} = {known};\n", one.local.name)),
                _ => Err(unjoined(module, &format!("{from} has no default export"))),
            },
            _ => Err(unjoined(module, "it imports a thing by another name, or all of a module")),
        }
    }
}

fn unjoined(module: &str, why: &str) -> Failure {
    Failure::new(format!("{module} cannot be joined into the page's script: {why}."))
}

fn parsed<'a>(allocator: &'a Allocator, name: &str, source: &'a str) -> Result<Program<'a>, Failure> {
    let parsed = Parser::new(allocator, source, SourceType::mjs()).parse();
    match parsed.errors.first() {
        None => Ok(parsed.program),
        Some(why) => Err(unjoined(name, &why.to_string())),
    }
}

/// What is declared in a module, and what is not.
fn scoping(name: &str, program: &Program<'_>) -> Result<Scoping, Failure> {
    let built = SemanticBuilder::new().with_check_syntax_error(true).build(program);
    match built.errors.first() {
        None => Ok(built.semantic.into_scoping()),
        Some(why) => Err(unjoined(name, &why.to_string())),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bundled(modules: &[(&str, &str)]) -> Result<String, String> {
        let read = |name: &str| {
            let found = modules.iter().find(|(module, _)| *module == name);
            found.map(|(_, source)| (*source).to_owned()).ok_or_else(|| Failure::new(format!("no {name}")))
        };
        bundle("page.js", &read).map_err(|why| why.message)
    }

    #[test]
    fn modules_are_joined_once_in_order_and_shortened() {
        let said = bundled(&[
            (
                "page.js",
                "// Why.\nimport { twice } from './a.js';\nimport begin from './b.js';\ntwice(begin('x'));",
            ),
            (
                "a.js",
                "import { loud } from './c.js';\n/** @param {string} text */\nexport function twice(text) { loud(text); loud(text); }",
            ),
            (
                "b.js",
                "import { loud } from './c.js';\nfunction first(word) { return loud(word) ?? word; }\nexport { first as default };",
            ),
            (
                "c.js",
                "export const loud = text => document.write(text);\nexport function unused() { return 'unused'; }",
            ),
        ]);
        let said = said.unwrap();
        assert_eq!(said.matches("document.write").count(), 1, "{said}");
        for gone in ["import", "export", "unused", "Why", "twice"] {
            assert!(!said.contains(gone), "{gone} in {said}");
        }
    }

    #[test]
    fn what_cannot_be_joined_is_refused_by_name() {
        let page = |with: &'static str| {
            [("page.js", "import './a.js';\nconst one = fetch('x');\nshow(one);"), ("a.js", with)]
        };
        for (with, said) in [
            ("const one = 2; show(one);", "already been declared"),
            ("export function fetch() {}\nfetch();", "page.js uses the browser's `fetch`"),
            ("import { b } from './b.js';", "no b.js"),
            ("import * as b from './page.js';", "a.js cannot be joined"),
            ("export default 1;", "a.js cannot be joined"),
            ("export * from './page.js';", "a.js cannot be joined"),
            ("let = ;", "a.js cannot be joined"),
        ] {
            let why = bundled(&page(with)).unwrap_err();
            assert!(why.contains(said), "{with}: {why}");
        }
    }
}
