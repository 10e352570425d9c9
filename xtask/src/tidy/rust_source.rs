//! Reading Rust source: its functions, the paths it names, the texts it holds,
//! and which of its lines are tests.

use std::ops::RangeInclusive;

use proc_macro2::{TokenStream, TokenTree};
use syn::spanned::Spanned as _;
use syn::visit::{self, Visit};

/// A function as it stands in the file.
#[derive(Debug, PartialEq, Eq)]
pub(crate) struct Function {
    /// Its name.
    pub(crate) name: String,
    /// The line of its signature, counted from 1.
    pub(crate) line: usize,
    /// Its lines from signature to closing brace.
    pub(crate) lines: usize,
}

/// What the rules want to know of one file, tests left out.
#[derive(Debug, Default)]
pub(crate) struct RustSource {
    /// Functions with a body.
    pub(crate) functions: Vec<Function>,
    /// Paths named, in `use` and in code, written out: `std::process::Command`.
    pub(crate) paths: Vec<(usize, String)>,
    /// Lines of the file that belong to tests.
    tests: Vec<RangeInclusive<usize>>,
}

impl RustSource {
    /// Reads a file.
    ///
    /// # Errors
    /// The line and what the reader of Rust says, for text that is no Rust.
    pub(crate) fn read(text: &str) -> Result<Self, (usize, String)> {
        let file = syn::parse_file(text).map_err(|e| (e.span().start().line, e.to_string()))?;
        let mut source = Self::default();
        source.visit_file(&file);
        Ok(source)
    }

    /// Whether a line, counted from 1, belongs to tests.
    pub(crate) fn is_test_line(&self, line: usize) -> bool {
        self.tests.iter().any(|range| range.contains(&line))
    }

    /// How many lines of the text are not tests.
    pub(crate) fn production_lines(&self, text: &str) -> usize {
        let lines = text.lines().count();
        (1..=lines).filter(|line| !self.is_test_line(*line)).count()
    }

    fn function(&mut self, signature: &syn::Signature, body: &syn::Block) {
        let line = signature.span().start().line;
        let end = body.span().end().line;
        let name = signature.ident.to_string();
        self.functions.push(Function {
            name,
            line,
            lines: end + 1 - line,
        });
    }

    fn use_tree(&mut self, before: &str, tree: &syn::UseTree) {
        let line = tree.span().start().line;
        match tree {
            syn::UseTree::Path(path) => {
                self.use_tree(&format!("{before}{}::", path.ident), &path.tree);
            }
            syn::UseTree::Group(group) => {
                for part in &group.items {
                    self.use_tree(before, part);
                }
            }
            syn::UseTree::Name(name) => self.paths.push((line, format!("{before}{}", name.ident))),
            syn::UseTree::Rename(name) => {
                self.paths.push((line, format!("{before}{}", name.ident)))
            }
            syn::UseTree::Glob(_) => self.paths.push((line, format!("{before}*"))),
        }
    }
}

impl<'ast> Visit<'ast> for RustSource {
    fn visit_item(&mut self, item: &'ast syn::Item) {
        if attributes(item).iter().any(is_of_tests) {
            let span = item.span();
            self.tests.push(span.start().line..=span.end().line);
            return;
        }
        visit::visit_item(self, item);
    }

    fn visit_item_fn(&mut self, item: &'ast syn::ItemFn) {
        self.function(&item.sig, &item.block);
        visit::visit_item_fn(self, item);
    }

    fn visit_impl_item_fn(&mut self, item: &'ast syn::ImplItemFn) {
        self.function(&item.sig, &item.block);
        visit::visit_impl_item_fn(self, item);
    }

    fn visit_trait_item_fn(&mut self, item: &'ast syn::TraitItemFn) {
        if let Some(body) = &item.default {
            self.function(&item.sig, body);
        }
        visit::visit_trait_item_fn(self, item);
    }

    fn visit_item_use(&mut self, item: &'ast syn::ItemUse) {
        self.use_tree("", &item.tree);
    }

    fn visit_path(&mut self, path: &'ast syn::Path) {
        let parts: Vec<String> = path.segments.iter().map(|s| s.ident.to_string()).collect();
        self.paths
            .push((path.span().start().line, parts.join("::")));
        visit::visit_path(self, path);
    }
}

/// The texts a program may show: string literals outside of comments and of
/// tests, with their lines.
pub(crate) fn texts(source: &RustSource, text: &str) -> Vec<(usize, String)> {
    let mut found = Vec::new();
    if let Ok(tokens) = text.parse::<TokenStream>() {
        collect_texts(tokens, &mut found);
    }
    found.retain(|(line, _)| !source.is_test_line(*line));
    found
}

fn collect_texts(tokens: TokenStream, found: &mut Vec<(usize, String)>) {
    for token in tokens {
        match token {
            // A doc comment reaches us as `#[doc = "…"]`.
            TokenTree::Group(group) if is_doc(&group.stream()) => {}
            TokenTree::Group(group) => collect_texts(group.stream(), found),
            TokenTree::Literal(literal) => {
                let line = literal.span().start().line;
                if let syn::Lit::Str(text) = syn::Lit::new(literal) {
                    found.push((line, text.value()));
                }
            }
            TokenTree::Ident(_) | TokenTree::Punct(_) => {}
        }
    }
}

fn is_doc(attribute: &TokenStream) -> bool {
    matches!(attribute.clone().into_iter().next(), Some(TokenTree::Ident(name)) if name == "doc")
}

fn is_of_tests(attribute: &syn::Attribute) -> bool {
    let path = attribute.path();
    let cfg_test = || {
        let inside = attribute.parse_args::<syn::Ident>();
        path.is_ident("cfg") && inside.is_ok_and(|name| name == "test")
    };
    path.is_ident("test") || cfg_test()
}

fn attributes(item: &syn::Item) -> &[syn::Attribute] {
    match item {
        syn::Item::Fn(i) => &i.attrs,
        syn::Item::Mod(i) => &i.attrs,
        syn::Item::Impl(i) => &i.attrs,
        syn::Item::Use(i) => &i.attrs,
        syn::Item::Const(i) => &i.attrs,
        syn::Item::Struct(i) => &i.attrs,
        syn::Item::Static(i) => &i.attrs,
        _ => &[],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SOURCE: &str = r#"
use std::{io::{self, Write as _}, process::Command};
/// Says "hello".
fn short() {
    let _ = format!("said {}", 1);
}
struct S;
impl S {
    fn inner(&self) -> u32 {
        rusqlite::ffi::VERSION
    }
}
#[cfg(test)]
mod tests {
    use std::fs;
    #[test]
    fn a_test() { assert_eq!("in a test", ""); }
}
"#;

    #[test]
    fn functions_are_measured_and_tests_left_out() {
        let source = RustSource::read(SOURCE).expect("it is Rust");
        let measured: Vec<_> = source
            .functions
            .iter()
            .map(|f| (f.name.as_str(), f.line, f.lines))
            .collect();
        assert_eq!(measured, [("short", 4, 3), ("inner", 9, 3)]);
        assert!(source.is_test_line(15) && !source.is_test_line(12));
        assert_eq!(source.production_lines(SOURCE), 12);
    }

    #[test]
    fn paths_are_written_out() {
        let source = RustSource::read(SOURCE).expect("it is Rust");
        let has = |path: &str| source.paths.iter().any(|(_, at)| at == path);
        for path in [
            "std::process::Command",
            "std::io::Write",
            "rusqlite::ffi::VERSION",
        ] {
            assert!(has(path), "{path}");
        }
        assert!(!has("std::fs"), "what a test uses does not count");
    }

    #[test]
    fn texts_are_those_that_may_be_shown() {
        let source = RustSource::read(SOURCE).expect("it is Rust");
        assert_eq!(texts(&source, SOURCE), [(5, "said {}".to_owned())]);
    }

    #[test]
    fn what_is_no_rust_is_named_by_its_line() {
        let (line, _) = RustSource::read("fn a() {}\nfn ( {").expect_err("it is no Rust");
        assert_eq!(line, 2);
    }
}
