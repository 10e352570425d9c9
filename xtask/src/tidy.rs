//! Every rule over the whole repository.

mod architecture;
mod doors;
mod glossary;
mod layers;
mod licences;
mod links;
mod manifests;
mod marks;
mod media;
mod names;
mod places;
mod problem;
mod rust_source;
mod size;
mod tree;
mod whole_words;
mod words;

use problem::Problem;
use tree::Tree;

/// A rule reads the tree and names what breaks it.
type Rule = fn(&Tree) -> Vec<Problem>;

/// The rules, in the order in which their problems are listed.
const RULES: &[Rule] = &[
    architecture::check,
    layers::check,
    manifests::check,
    doors::check,
    size::check,
    names::check,
    words::check,
    marks::check,
    places::check,
    licences::check_typefaces,
    media::check,
    glossary::check,
    links::check,
];

/// Looks at the repository this was built in.
///
/// # Errors
/// A text, when the files cannot be listed or cargo does not answer.
pub(crate) fn check() -> Result<Vec<Problem>, String> {
    let tree = Tree::of_checkout()?;
    let mut problems: Vec<Problem> = RULES.iter().flat_map(|rule| rule(&tree)).collect();
    problems.extend(licences::check_dependencies(&licences::ask_cargo()?));
    Ok(problems)
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_repository_is_tidy() {
        let problems = super::check().expect("the repository can be read");
        let listed: Vec<String> = problems.iter().map(ToString::to_string).collect();
        assert!(
            listed.is_empty(),
            "{} to mend:\n{}",
            listed.len(),
            listed.join("\n")
        );
    }
}
