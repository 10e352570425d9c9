//! Where lines end.

use std::ops::Range;

use icu_segmenter::LineSegmenter;
use icu_segmenter::options::LineBreakOptions;

use crate::shaping::{Paragraph, Shaper};

/// A word, or as much of the line as may not be parted. Measures in capitals.
#[derive(Debug, Clone, PartialEq)]
pub(crate) struct Piece {
    /// Without the spaces after it. Unit: bytes of the paragraph.
    pub(crate) range: Range<usize>,
    pub(crate) width: f32,
    /// The space after it.
    pub(crate) gap: f32,
    /// How many letters it has.
    pub(crate) letters: usize,
}

/// Cuts a typed line at the places where it may end (UAX #14). A hyphen inside a
/// word is such a place only with `at_hyphens`: a title reads better whole.
pub(crate) fn pieces(
    shaper: &Shaper<'_>,
    paragraph: &Paragraph<'_>,
    at_hyphens: bool,
) -> Vec<Piece> {
    let text = paragraph.text;
    let segmenter = LineSegmenter::new_for_non_complex_scripts(LineBreakOptions::default());
    let mut pieces = Vec::new();
    let mut from = 0;
    for to in segmenter.segment_str(text) {
        let bare = text[from..to].trim_end();
        let ends_in_space = bare.len() < to - from;
        if bare.is_empty()
            || !(ends_in_space || at_hyphens || to == text.len() || is_ideograph(text, to))
        {
            continue;
        }
        let end = from + bare.len();
        let width = shaper.shape(paragraph, from..end).width;
        let whole = shaper.shape(paragraph, from..to).width;
        pieces.push(Piece {
            range: from..end,
            width,
            gap: (whole - width).max(0.0) + shaper.tracking,
            letters: bare.chars().filter(|c| c.is_alphanumeric()).count(),
        });
        from = to;
    }
    pieces
}

/// Writings without spaces part between any two signs.
fn is_ideograph(text: &str, at: usize) -> bool {
    let near = |c: Option<char>| c.is_some_and(|c| ('\u{2e80}'..='\u{d7ff}').contains(&c));
    near(text[..at].chars().next_back()) || near(text[at..].chars().next())
}

/// Lines of pieces, the fewest that go into the width, and of these the most even.
/// A piece that is wider than the width stands alone. Gives ranges of pieces.
pub(crate) fn even_lines(pieces: &[Piece], width: f32) -> Vec<Range<usize>> {
    let count = pieces.len();
    // For each beginning: the least trouble from there to the end, and where its
    // first line ends.
    let mut best: Vec<(f32, usize)> = vec![(0.0, count); count + 1];
    for from in (0..count).rev() {
        best[from].0 = f32::INFINITY;
        let mut wide = 0.0;
        for to in from + 1..=count {
            if to > from + 1 {
                wide += pieces[to - 2].gap;
            }
            wide += pieces[to - 1].width;
            if wide > width && to > from + 1 {
                break;
            }
            let trouble = of_line(pieces, from..to, wide, width) + best[to].0;
            if trouble < best[from].0 {
                best[from] = (trouble, to);
            }
        }
    }
    let mut lines = Vec::new();
    let mut from = 0;
    while from < count {
        lines.push(from..best[from].1);
        from = best[from].1;
    }
    lines
}

/// How much a line is to be avoided: one line more outweighs everything else, then
/// unevenness counts, and a little what it begins or ends with.
fn of_line(pieces: &[Piece], line: Range<usize>, wide: f32, width: f32) -> f32 {
    let slack = ((width - wide) / width).clamp(0.0, 1.0);
    let mut trouble = 100.0 + slack * slack;
    let is_last = line.end == pieces.len();
    let is_lone = line.len() == 1;
    if is_last && line.start > 0 && is_lone && wide < width * 0.4 {
        trouble += 0.8;
    }
    if line.start == 0 && !is_last && is_lone && wide < width * 0.4 {
        trouble += 0.5;
    }
    // A short word hangs badly at the end of a line: an article, a preposition.
    if !is_last && line.len() > 1 && pieces[line.end - 1].letters <= 2 {
        trouble += 0.06;
    }
    trouble
}

#[cfg(test)]
mod tests {
    use super::*;

    fn of_letters(words: &str) -> Vec<Piece> {
        let mut at = 0;
        words
            .split(' ')
            .map(|word| {
                let range = at..at + word.len();
                at = range.end + 1;
                Piece {
                    range,
                    width: word.len() as f32,
                    gap: 1.0,
                    letters: word.len(),
                }
            })
            .collect()
    }

    fn broken(words: &str, width: f32) -> Vec<String> {
        let pieces = of_letters(words);
        even_lines(&pieces, width)
            .into_iter()
            .map(|line| {
                words[pieces[line.start].range.start..pieces[line.end - 1].range.end].into()
            })
            .collect()
    }

    #[test]
    fn lines_are_even_and_no_short_word_is_left_over() {
        // Filled one after the other, “it” would stand alone.
        assert_eq!(
            broken("nobody could say when it", 21.0),
            ["nobody could", "say when it"]
        );
        assert_eq!(
            broken("the ten-past boat goes", 17.0),
            ["the ten-past", "boat goes"]
        );
    }

    #[test]
    fn as_few_lines_as_filling_each_would_need() {
        for width in 8..40 {
            let words = "a rather long run of words with some that are longer than others are";
            let filled = {
                let (mut lines, mut at) = (1, 0);
                for word in words.split(' ') {
                    if at > 0 && at + 1 + word.len() > width {
                        lines += 1;
                        at = word.len();
                    } else {
                        at += word.len() + usize::from(at > 0);
                    }
                }
                lines
            };
            let ours = broken(words, width as f32);
            assert_eq!(ours.len(), filled, "at {width}");
            assert_eq!(ours.join(" "), words);
            assert!(ours.iter().all(|line| line.len() <= width), "at {width}");
        }
    }
}
