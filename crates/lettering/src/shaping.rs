//! From characters to glyphs in the order they stand in on the line.

use std::collections::BTreeMap;
use std::ops::Range;

use rustybuzz::{Direction, UnicodeBuffer};
use unicode_bidi::{BidiInfo, ParagraphInfo};
use unicode_script::{Script, UnicodeScript};
use unicode_segmentation::UnicodeSegmentation;

use crate::typeface::Typeface;
use crate::{Design, LetteringError};

/// The least space between words. On a screen words run together sooner than on
/// paper, and bold typefaces are made with narrow spaces. Unit: capitals.
const WORD_SPACE: f32 = 0.44;

/// A glyph where it stands on its line. Measures in capitals, y downwards.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(crate) struct Glyph {
    pub(crate) face: usize,
    pub(crate) id: u16,
    pub(crate) x: f32,
    pub(crate) y: f32,
    /// Where its character begins in the paragraph. Unit: bytes.
    pub(crate) cluster: usize,
    /// Whether it joins its neighbours, as Arabic letters do.
    pub(crate) joins: bool,
}

/// A line shaped.
#[derive(Debug, Clone, Default)]
pub(crate) struct Shaped {
    pub(crate) glyphs: Vec<Glyph>,
    /// Its advance, in capitals.
    pub(crate) width: f32,
}

/// Typefaces in the order they are asked, and the space put between letters.
pub(crate) struct Shaper<'a> {
    pub(crate) faces: Vec<Typeface<'a>>,
    /// Unit: capitals.
    pub(crate) tracking: f32,
}

/// One typed line, its directions and the typeface of each of its characters.
pub(crate) struct Paragraph<'t> {
    pub(crate) text: &'t str,
    bidi: BidiInfo<'t>,
    /// For the first byte of each character as a reader sees it: its typeface.
    faces: BTreeMap<usize, usize>,
}

/// What no typeface has: characters as a reader sees them.
pub(crate) type Missing = Vec<String>;

impl<'a> Shaper<'a> {
    /// Finds directions and typefaces of a typed line; what no typeface has goes
    /// to `missing`.
    pub(crate) fn read<'t>(&self, text: &'t str, missing: &mut Missing) -> Paragraph<'t> {
        let mut faces = BTreeMap::new();
        let mut before = None;
        for (at, character) in text.grapheme_indices(true) {
            // Spaces and stops stay with the typeface before them, so that a line of
            // one writing is one run.
            let is_neutral = character.chars().all(|c| c.script() == Script::Common);
            let first = before.filter(|_| is_neutral);
            let found = first
                .into_iter()
                .chain(0..self.faces.len())
                .find(|face| self.has(*face, character));
            if let Some(face) = found {
                before = Some(face);
            } else if !missing.iter().any(|had| had == character) {
                missing.push(character.to_owned());
            }
            faces.insert(at, found.unwrap_or(0));
        }
        Paragraph {
            text,
            bidi: BidiInfo::new(text, None),
            faces,
        }
    }

    /// Whether a typeface has everything that a character is made of.
    fn has(&self, face: usize, character: &str) -> bool {
        let face = &self.faces[face].shaper;
        let mut only = character.chars();
        if let (Some(one), None) = (only.next(), only.next())
            && face.glyph_index(one).is_some()
        {
            return true;
        }
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(character);
        buffer.guess_segment_properties();
        let shaped = rustybuzz::shape(face, &[], buffer);
        !shaped.is_empty() && shaped.glyph_infos().iter().all(|glyph| glyph.glyph_id != 0)
    }

    /// Glyphs of a part of a typed line, from left to right.
    pub(crate) fn shape(&self, paragraph: &Paragraph<'_>, part: Range<usize>) -> Shaped {
        let mut line = Shaped::default();
        if part.is_empty() {
            return line;
        }
        let whole = ParagraphInfo {
            range: 0..paragraph.text.len(),
            level: paragraph
                .bidi
                .paragraphs
                .first()
                .map_or_else(unicode_bidi::Level::ltr, |first| first.level),
        };
        let (levels, runs) = paragraph.bidi.visual_runs(&whole, part);
        for run in runs {
            let is_rtl = levels[run.start].is_rtl();
            let mut pieces = self.pieces(paragraph, run);
            if is_rtl {
                pieces.reverse();
            }
            for (piece, face) in pieces {
                self.shape_piece(paragraph.text, piece, face, is_rtl, &mut line);
            }
        }
        line.width = (line.width - self.tracking).max(0.0);
        line
    }

    /// A run of one direction cut where typeface or writing changes.
    fn pieces(&self, paragraph: &Paragraph<'_>, run: Range<usize>) -> Vec<(Range<usize>, usize)> {
        let mut pieces: Vec<(Range<usize>, usize, Script)> = Vec::new();
        for (at, face) in paragraph.faces.range(run.clone()) {
            let rest = &paragraph.text[*at..run.end];
            let character = rest.graphemes(true).next().unwrap_or(rest);
            let script = character
                .chars()
                .map(|c| c.script())
                .find(|s| !matches!(s, Script::Common | Script::Inherited))
                .unwrap_or(Script::Common);
            let end = at + character.len();
            match pieces.last_mut() {
                Some((piece, had, writing))
                    if had == face
                        && (*writing == script
                            || script == Script::Common
                            || *writing == Script::Common) =>
                {
                    piece.end = end;
                    if *writing == Script::Common {
                        *writing = script;
                    }
                }
                _ => pieces.push((*at..end, *face, script)),
            }
        }
        pieces
            .into_iter()
            .map(|(piece, face, _)| (piece, face))
            .collect()
    }

    fn shape_piece(
        &self,
        text: &str,
        piece: Range<usize>,
        face: usize,
        is_rtl: bool,
        line: &mut Shaped,
    ) {
        let typeface = &self.faces[face];
        let mut buffer = UnicodeBuffer::new();
        buffer.push_str(&text[piece.clone()]);
        buffer.set_pre_context(&text[..piece.start]);
        buffer.set_post_context(&text[piece.end..]);
        buffer.guess_segment_properties();
        buffer.set_direction(if is_rtl {
            Direction::RightToLeft
        } else {
            Direction::LeftToRight
        });
        let joins = text[piece.clone()].chars().any(joins);
        // Joined writing is never spaced out: its strokes would part.
        let tracking = if joins { 0.0 } else { self.tracking };
        let shaped = rustybuzz::shape(&typeface.shaper, &[], buffer);
        let mut last = None;
        for (info, position) in shaped.glyph_infos().iter().zip(shaped.glyph_positions()) {
            // Marks stand in the place of their letter: space goes between letters.
            if last.is_some_and(|last| last != info.cluster) {
                line.width += tracking;
            }
            last = Some(info.cluster);
            line.glyphs.push(Glyph {
                face,
                id: u16::try_from(info.glyph_id).unwrap_or(0),
                x: line.width + position.x_offset as f32 * typeface.scale,
                y: -position.y_offset as f32 * typeface.scale,
                cluster: piece.start + info.cluster as usize,
                joins,
            });
            let advance = position.x_advance as f32 * typeface.scale;
            let is_space = text[piece.start + info.cluster as usize..].starts_with(' ');
            line.width += if is_space {
                advance.max(WORD_SPACE)
            } else {
                advance
            };
        }
        line.width += tracking;
    }
}

/// Whether a character belongs to a writing whose letters join.
fn joins(character: char) -> bool {
    matches!(
        character.script(),
        Script::Arabic
            | Script::Syriac
            | Script::Nko
            | Script::Mongolian
            | Script::Devanagari
            | Script::Bengali
            | Script::Gurmukhi
    )
}

/// The refusal of characters that no typeface has.
pub(crate) fn refusal(missing: &Missing, design: Design) -> LetteringError {
    let mut scripts: Vec<&str> = Vec::new();
    for character in missing.iter().flat_map(|shown| shown.chars()) {
        let script = match character.script() {
            Script::Common | Script::Inherited => "signs and pictures",
            script => script.full_name(),
        };
        if !scripts.contains(&script) {
            scripts.push(script);
        }
    }
    scripts.truncate(4);
    let shown: Vec<&str> = missing.iter().take(12).map(String::as_str).collect();
    LetteringError::MissingCharacters {
        characters: shown.join(" "),
        scripts: scripts.join(", "),
        design,
    }
}

#[cfg(test)]
mod tests;
