//! What is said of a film, in words.

use onestrand_production::documents::AccessionDocument;

/// What is said of a film.
pub(crate) fn accession(found: &AccessionDocument) -> String {
    let words = &found.words;
    let mut told = Vec::new();
    for (what, value) in [
        ("number", &words.number),
        ("kept by", &words.keeper),
        ("kept", &words.kept),
        ("look again on", &words.look_again),
    ] {
        if !value.is_empty() {
            told.push(format!("{what}: {value}"));
        }
    }
    for (number, said) in (1..).zip(&words.statements) {
        let value = match said.value.as_str() {
            "" => "not known",
            value => value,
        };
        let known = match said.known.as_str() {
            "maker" => "the maker says so",
            "written" => "written on can, leader or paper",
            "guess" => "guessed",
            _ => "",
        };
        let how = [known, said.source.as_str()];
        let how: Vec<&str> = how.into_iter().filter(|part| !part.is_empty()).collect();
        let how = match how.is_empty() {
            true => String::new(),
            false => format!(" ({})", how.join(": ")),
        };
        told.push(format!("{number:>3}  {}: {value}{how}", said.what));
    }
    if words.statements.is_empty() {
        told.push(
            "nothing is said of the film yet: `onestrand box say DIR date 1961 --known guess`"
                .to_owned(),
        );
    }
    for action in &found.actions {
        told.push(format!("  {}  {}: {}", action.on, action.to, action.what));
    }
    told.join("\n")
}
