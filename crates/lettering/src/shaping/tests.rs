//! Order, joining and typefaces of other writings, letter by letter.

use rustybuzz::ttf_parser::GlyphId;

use super::*;
use crate::faces;

fn shaper() -> Shaper<'static> {
    let all = [faces::JOST, faces::OPEN_SANS, faces::VOLLKORN, faces::NASKH];
    Shaper {
        faces: all
            .iter()
            .map(|face| Typeface::new(face.bytes).expect("a shipped face is sound"))
            .collect(),
        tracking: 0.03,
    }
}

fn shaped(text: &str) -> Shaped {
    let shaper = shaper();
    let mut missing = Vec::new();
    let paragraph = shaper.read(text, &mut missing);
    assert!(missing.is_empty(), "{missing:?}");
    shaper.shape(&paragraph, 0..text.len())
}

/// Where characters begin, in the order in which they stand from left to right.
fn order(text: &str) -> Vec<usize> {
    let mut glyphs = shaped(text).glyphs;
    glyphs.sort_by(|a, b| a.x.total_cmp(&b.x));
    glyphs.iter().map(|glyph| glyph.cluster).collect()
}

#[test]
fn hebrew_runs_from_right_to_left() {
    let text = "הסירה";
    let mut expected: Vec<usize> = text.char_indices().map(|(at, _)| at).collect();
    expected.reverse();
    assert_eq!(order(text), expected);
}

#[test]
fn a_latin_word_and_a_number_in_a_hebrew_line_run_from_left_to_right() {
    // Read: boat, 10, Rosa. By the bidirectional algorithm (UAX #9) there stand from
    // left to right: Rosa, 10, and boat reversed.
    let text = "סירה 10 Rosa";
    let order = order(text);
    let place = |character: char| {
        let at = text.find(character).expect("it is there");
        order
            .iter()
            .position(|cluster| *cluster == at)
            .expect("it is drawn")
    };
    assert!(place('R') < place('o') && place('o') < place('a'));
    assert!(place('a') < place('1') && place('1') < place('0'));
    assert!(place('0') < place('ה') && place('ה') < place('ס'));
}

#[test]
fn a_bracket_in_a_hebrew_line_is_mirrored() {
    let mirrored = shaped("(א");
    let plain = shaped("(a");
    let bracket = |line: &Shaped| {
        let glyph = line.glyphs.iter().find(|glyph| glyph.cluster == 0);
        *glyph.expect("the bracket")
    };
    let faces = shaper().faces;
    let id = |character: char, of: &Glyph| {
        faces[of.face]
            .shaper
            .glyph_index(character)
            .map(|glyph| glyph.0)
    };
    assert_eq!(Some(bracket(&plain).id), id('(', &bracket(&plain)));
    assert_eq!(Some(bracket(&mirrored).id), id(')', &bracket(&mirrored)));
}

#[test]
fn arabic_letters_join() {
    let joined = shaped("بيت");
    assert!(joined.glyphs.iter().all(|glyph| glyph.joins));
    let faces = shaper().faces;
    let advance = |glyph: &Glyph| {
        let advance = faces[glyph.face]
            .shaper
            .glyph_hor_advance(GlyphId(glyph.id));
        f32::from(advance.unwrap_or(0)) * faces[glyph.face].scale
    };
    // Dots are glyphs of their own, without advance; the bodies are what changes.
    let bodies = |line: &Shaped| -> Vec<u16> {
        let bodies = line.glyphs.iter().filter(|glyph| advance(glyph) > 0.0);
        bodies.map(|glyph| glyph.id).collect()
    };
    let alone: Vec<u16> = ["ب", "ي", "ت"]
        .iter()
        .flat_map(|letter| bodies(&shaped(letter)))
        .collect();
    let ids = bodies(&joined);
    assert_eq!((ids.len(), alone.len()), (3, 3));
    assert!(
        ids.iter().all(|id| !alone.contains(id)),
        "{ids:?} {alone:?}"
    );
    // The first letter read stands at the right.
    let first = joined.glyphs.iter().filter(|glyph| glyph.cluster == 0);
    let right = first.map(|glyph| glyph.x).fold(f32::MIN, f32::max);
    assert!(
        joined
            .glyphs
            .iter()
            .all(|glyph| glyph.cluster == 0 || glyph.x < right)
    );
    // Nothing is put between them: joined, they are no wider than their advances.
    let advances: f32 = joined.glyphs.iter().map(advance).sum();
    assert!(joined.width <= advances + 1e-3);
}

#[test]
fn an_accent_written_apart_is_the_accented_letter() {
    let ids = |text: &str| -> Vec<u16> { shaped(text).glyphs.iter().map(|g| g.id).collect() };
    assert_eq!(ids("e\u{301}t"), ids("\u{e9}t"));
}

#[test]
fn each_writing_has_a_typeface_and_latin_has_the_design_s_own() {
    let faces = |text: &str| -> Vec<usize> {
        let mut faces: Vec<usize> = shaped(text).glyphs.iter().map(|g| g.face).collect();
        faces.dedup();
        faces
    };
    assert_eq!(faces("Žluťoučký kůň"), [0]);
    assert_eq!(faces("βάρκα"), [1]);
    assert_eq!(faces("סירה"), [1]);
    assert_eq!(faces("قارب"), [3]);
}

#[test]
fn what_no_typeface_has_is_named_once() {
    let mut missing = Vec::new();
    shaper().read("नाव ना boat", &mut missing);
    assert_eq!(missing, ["ना", "व"]);
    let LetteringError::MissingCharacters { scripts, .. } = refusal(&missing, Design::Plain) else {
        panic!("a refusal of characters");
    };
    assert_eq!(scripts, "Devanagari");
}

#[test]
fn space_between_letters_is_what_the_design_asks() {
    let wide = shaped("boat").width;
    let mut close = shaper();
    close.tracking = 0.0;
    let paragraph = close.read("boat", &mut Vec::new());
    let close = close.shape(&paragraph, 0..4).width;
    assert!((wide - close - 3.0 * 0.03).abs() < 1e-4, "{wide} {close}");
}
