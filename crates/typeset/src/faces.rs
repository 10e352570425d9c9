//! The two typefaces built into the program.

use std::sync::LazyLock;

use typst::foundations::Bytes;
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;

/// Both faces in the weights the forms use, and no others.
///
/// Source: Bitter and Barlow Semi Condensed, SIL Open Font License 1.1; the
/// licences lie beside the files.
const FILES: [&[u8]; 5] = [
    include_bytes!("../../../fonts/Bitter-Regular.ttf"),
    include_bytes!("../../../fonts/Bitter-SemiBold.ttf"),
    include_bytes!("../../../fonts/Bitter-Bold.ttf"),
    include_bytes!("../../../fonts/BarlowSemiCondensed-Medium.ttf"),
    include_bytes!("../../../fonts/BarlowSemiCondensed-SemiBold.ttf"),
];

/// The faces read once for the whole run of the program.
pub(crate) struct Faces {
    /// What the engine looks faces up in.
    pub(crate) book: LazyHash<FontBook>,
    /// The faces, in the order of the book.
    pub(crate) fonts: Vec<Font>,
}

/// The faces, ready to set with.
pub(crate) static FACES: LazyLock<Faces> = LazyLock::new(|| {
    let fonts: Vec<Font> = FILES
        .into_iter()
        .flat_map(|file| Font::iter(Bytes::new(file)))
        .collect();
    Faces {
        book: LazyHash::new(FontBook::from_fonts(&fonts)),
        fonts,
    }
});

/// The letters of a text that neither built-in face can draw.
///
/// Each is listed once, in the order of first appearance. Such a letter is
/// printed as an empty box, so a form that holds one should say so. Spaces and
/// control characters leave no mark anyway and are never listed.
///
/// # Examples
/// ```
/// use onestrand_typeset::missing_letters;
///
/// assert!(missing_letters("Père Noël, 1961: „Überfahrt“").is_empty());
/// assert_eq!(missing_letters("ferry ⛴ and ⛴"), ['⛴']);
/// ```
pub fn missing_letters(text: &str) -> Vec<char> {
    let mut missing = Vec::new();
    for letter in text.chars() {
        let silent = letter.is_whitespace() || letter.is_control();
        if !silent && !missing.contains(&letter) && !is_drawn(letter) {
            missing.push(letter);
        }
    }
    missing
}

/// Whether one of the faces has this letter.
fn is_drawn(letter: char) -> bool {
    FACES
        .fonts
        .iter()
        .any(|font| font.info().coverage.contains(u32::from(letter)))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_file_holds_one_face_of_the_two_families() {
        // The engine drops the width from a family's name: templates ask for
        // "Barlow" and get the semi condensed one, the only one there is.
        let families: Vec<&str> = FACES
            .fonts
            .iter()
            .map(|font| font.info().family.as_str())
            .collect();
        assert_eq!(families, ["Bitter", "Bitter", "Bitter", "Barlow", "Barlow"]);
    }

    #[test]
    fn the_letters_of_the_forms_are_all_there() {
        assert!(missing_letters("R2·547 × 4.234 – ± ½ + 1,045 | “so” ’ …").is_empty());
    }

    #[test]
    fn a_missing_letter_is_listed_once_and_spaces_never() {
        assert_eq!(
            missing_letters("\u{5d0} \u{5d0}\n\u{5d1}"),
            ['\u{5d0}', '\u{5d1}']
        );
    }
}
