//! Finding words in code, where they hide in names.

/// A line made plain for [`has_word`]: `camelCase`, `snake_case` and
/// `kebab-case` become words of their own, everything small, with one blank at
/// either end and between words.
pub(crate) fn plain(line: &str) -> String {
    let mut out = String::from(" ");
    let mut before = ' ';
    for sign in line.chars() {
        let new_word = before.is_lowercase() && sign.is_uppercase();
        if (new_word || !sign.is_alphabetic()) && !out.ends_with(' ') {
            out.push(' ');
        }
        if sign.is_alphabetic() {
            out.extend(sign.to_lowercase());
        }
        before = sign;
    }
    if !out.ends_with(' ') {
        out.push(' ');
    }
    out
}

/// Whether a plain line holds a word, or several words in a row, also with a
/// plural s. The word is given small.
pub(crate) fn has_word(plain: &str, word: &str) -> bool {
    plain.contains(&format!(" {word} ")) || plain.contains(&format!(" {word}s "))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_are_found_in_every_spelling_of_a_name() {
        for line in [
            "a wood saw",
            "let wood_saw = 1;",
            "struct WoodSaw;",
            "wood-saws",
            "\"Wood saw.\"",
        ] {
            assert!(has_word(&plain(line), "wood saw"), "{line}");
        }
        for line in ["a plywood saw", "woodsaw", "wood: saws2see", ""] {
            let found = has_word(&plain(line), "wood saw");
            assert_eq!(found, line.contains("saws2"), "{line}");
        }
    }
}
