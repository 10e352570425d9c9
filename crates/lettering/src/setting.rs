//! Words set on a card: as large as the design likes and fits.

use unicode_segmentation::UnicodeSegmentation;

use crate::breaking::{self, Piece};
use crate::chance::seed_of;
use crate::manner::{self, Manner};
use crate::placing::{self, Layout, Line};
use crate::set_card::{Look, SetCard};
use crate::shaping::{self, Paragraph, Shaper};
use crate::typeface::Typeface;
use crate::{CardAsked, LetteringError, faces, measures};

/// The smallest capital a card is set in unasked. A letter must be 20′ tall at the
/// last row (the usual rule of the eye chart: 5′ for 20/20, four times that to be
/// read at ease); with a screen 1,200 mm wide and the last row at 5 m that is
/// 29.1 mm of 900, 3.2 % of the picture height.
const LEAST: f64 = 0.032;
/// From one size tried to the next.
const STEP: f64 = 0.97;
/// A typed line is kept whole if the letters need be no smaller than this part of
/// what they could be with the line broken;
const WHOLE: f64 = 0.72;
/// or than this, where breaking it would leave a short word alone on a line.
const WHOLE_IF_LONE: f64 = 0.5;
/// A word alone is short below this part of the widest line.
const SHORT: f32 = 0.62;
/// An empty line beside a line of words.
const GAP: f32 = 0.6;

/// Sets the words of a card.
///
/// # Errors
/// [`LetteringError::NoWords`], [`LetteringError::WordTooWide`],
/// [`LetteringError::TooManyWords`], [`LetteringError::MissingCharacters`],
/// [`LetteringError::NoFont`], [`LetteringError::OutOfRange`] and
/// [`LetteringError::TextTooLong`], as they say.
///
/// # Examples
/// ```
/// use onestrand_lettering::{CardAsked, Design, LetteringError, set};
/// let card = set(&CardAsked::new("The Ten-Past Boat", Design::Brush, (5.31, 4.01)))?;
/// assert_eq!(card.words(), 3);
/// assert!(card.capital_height() > 0.08);
/// let none = set(&CardAsked::new(" \n ", Design::Brush, (5.31, 4.01)));
/// assert_eq!(none.unwrap_err(), LetteringError::NoWords);
/// # Ok::<(), LetteringError>(())
/// ```
pub fn set(asked: &CardAsked) -> Result<SetCard, LetteringError> {
    measures::of_asked(asked)?;
    let typed = typed_lines(&asked.words);
    let words = typed.iter().flat_map(|line| line.split_whitespace());
    let words = words.filter(|word| word.chars().any(char::is_alphanumeric));
    let words = words.count();
    if typed.iter().all(|line| line.is_empty()) {
        return Err(LetteringError::NoWords);
    }
    let manner = manner::of(asked.design);
    let shaper = Shaper {
        faces: typefaces(asked, &manner)?,
        tracking: manner.tracking,
    };
    let mut missing = Vec::new();
    let paragraphs: Vec<Paragraph<'_>> = typed
        .iter()
        .map(|line| shaper.read(line, &mut missing))
        .collect();
    if !missing.is_empty() {
        return Err(shaping::refusal(&missing, asked.design));
    }
    let setting = Setting {
        asked,
        manner,
        shaper,
        paragraphs,
        words,
        seed: seed_of(&asked.words),
    };
    let layout = setting.layout()?;
    Ok(setting.card(layout))
}

/// The typed lines, without what cannot be lettered: empty lines before and after,
/// spaces at the ends, control characters.
fn typed_lines(words: &str) -> Vec<String> {
    let mut lines: Vec<String> = words
        .replace("\r\n", "\n")
        .split([
            '\n', '\r', '\u{2028}', '\u{2029}', '\u{85}', '\u{b}', '\u{c}',
        ])
        .map(|line| {
            let shown = line.chars().filter(|c| *c == '\t' || !is_unseen(*c));
            let line: String = shown.collect();
            line.split([' ', '\t'])
                .filter(|word| !word.is_empty())
                .collect::<Vec<_>>()
                .join(" ")
                .trim()
                .to_owned()
        })
        .collect();
    while lines.last().is_some_and(String::is_empty) {
        lines.pop();
    }
    let first = lines.iter().position(|line| !line.is_empty());
    lines.drain(..first.unwrap_or(0));
    lines
}

/// Characters that stand for nothing on a card.
fn is_unseen(c: char) -> bool {
    c.is_control() || matches!(c, '\u{feff}' | '\u{fff9}'..='\u{fffb}' | '\u{ad}')
}

/// The user's or the design's typeface, and those that have other writings.
fn typefaces<'a>(
    asked: &'a CardAsked,
    manner: &Manner,
) -> Result<Vec<Typeface<'a>>, LetteringError> {
    let mut all = Vec::new();
    if let Some(own) = &asked.face {
        all.push(Typeface::new(own)?);
    }
    let beside = if manner.serifs {
        [faces::VOLLKORN, faces::OPEN_SANS, faces::NASKH]
    } else {
        [faces::OPEN_SANS, faces::VOLLKORN, faces::NASKH]
    };
    all.push(Typeface::new(manner.face.bytes)?);
    for face in beside {
        all.push(Typeface::new(face.bytes)?);
    }
    Ok(all)
}

/// A card being set.
pub(crate) struct Setting<'a, 't> {
    pub(crate) asked: &'a CardAsked,
    pub(crate) manner: Manner,
    pub(crate) shaper: Shaper<'a>,
    pub(crate) paragraphs: Vec<Paragraph<'t>>,
    pub(crate) words: usize,
    pub(crate) seed: u64,
}

impl Setting<'_, '_> {
    /// Width over height of the picture.
    pub(crate) fn aspect(&self) -> f64 {
        self.asked.aspect_mm.0 / self.asked.aspect_mm.1
    }

    /// How wide a line may be. Unit: picture heights.
    pub(crate) fn room_across(&self) -> f64 {
        let border = if self.manner.border { 0.93 } else { 1.0 };
        self.aspect() * self.asked.safe * border
    }

    /// How tall the words may be. Unit: picture heights.
    pub(crate) fn room_down(&self) -> f64 {
        let border = if self.manner.border { 0.93 } else { 1.0 };
        self.asked.safe * border
    }

    fn layout(&self) -> Result<Layout, LetteringError> {
        let whole = self.pieces(false);
        if let Some(tall) = self.asked.letter_height {
            return self
                .at(&whole, tall)
                .or_else(|| self.at(&self.pieces(true), tall))
                .ok_or_else(|| self.refusal(&whole, tall));
        }
        if self.asked.crawl {
            let tall = self.liked().min(0.075);
            return self
                .down_from(&whole, tall)
                .or_else(|| self.down_from(&self.pieces(true), tall))
                .ok_or_else(|| self.refusal(&whole, LEAST));
        }
        self.down_from(&whole, self.liked())
            .or_else(|| self.down_from(&self.pieces(true), self.liked()))
            .ok_or_else(|| self.refusal(&self.pieces(true), LEAST))
    }

    fn pieces(&self, at_hyphens: bool) -> Vec<Vec<Piece>> {
        self.paragraphs
            .iter()
            .map(|paragraph| breaking::pieces(&self.shaper, paragraph, at_hyphens))
            .collect()
    }

    /// The capital height that a card of so many words is set in if there is room.
    fn liked(&self) -> f64 {
        let usual = match self.words {
            0..=3 => 0.125,
            4..=6 => 0.105,
            7..=10 => 0.09,
            11..=16 => 0.078,
            17..=30 => 0.066,
            _ => 0.056,
        };
        usual * f64::from(self.manner.size)
    }

    /// The largest size from `tall` down that fits, with typed lines whole if that
    /// costs little.
    fn down_from(&self, pieces: &[Vec<Piece>], tall: f64) -> Option<Layout> {
        let typed = pieces.iter().filter(|line| !line.is_empty()).count();
        let mut found: Option<Layout> = None;
        let mut tall = tall.max(LEAST);
        let mut kept_from = 0.0;
        loop {
            if found.is_some() && tall < kept_from {
                return found;
            }
            if let Some(layout) = self.at(pieces, tall) {
                if layout.lines.len() <= typed {
                    return Some(layout);
                }
                if found.is_none() {
                    kept_from = tall
                        * if self.leaves_alone(pieces, tall) {
                            WHOLE_IF_LONE
                        } else {
                            WHOLE
                        };
                    found = Some(layout);
                }
            }
            if tall <= LEAST {
                return found;
            }
            tall = (tall * STEP).max(LEAST);
        }
    }

    /// Whether breaking lines at this size leaves a short word alone on a line.
    fn leaves_alone(&self, pieces: &[Vec<Piece>], tall: f64) -> bool {
        let width = (self.room_across() / tall) as f32;
        pieces.iter().any(|pieces| {
            let lines = breaking::even_lines(pieces, width);
            let wide = |line: &std::ops::Range<usize>| -> f32 {
                let gaps: f32 = pieces[line.start..line.end - 1].iter().map(|p| p.gap).sum();
                gaps + pieces[line.clone()].iter().map(|p| p.width).sum::<f32>()
            };
            let widest = lines.iter().map(wide).fold(0.0, f32::max);
            let ends = [lines.first(), lines.last()];
            lines.len() > 1
                && ends
                    .into_iter()
                    .flatten()
                    .any(|line| line.len() == 1 && wide(line) < widest * SHORT)
        })
    }

    /// The words at one size, if they fit.
    fn at(&self, pieces: &[Vec<Piece>], tall: f64) -> Option<Layout> {
        let (lines, rows) = self.lines(pieces, tall)?;
        let leading = f64::from(self.manner.leading) * tall;
        if !self.asked.crawl && (f64::from(rows) - 1.0) * leading + tall > self.room_down() {
            return None;
        }
        placing::placed(self, &lines, tall)
    }

    /// Lines at one size with their distance from the first, in rows; nothing when a
    /// word is too wide.
    fn lines(&self, pieces: &[Vec<Piece>], tall: f64) -> Option<(Vec<Line>, f32)> {
        let width = (self.room_across() / tall) as f32;
        let mut lines = Vec::new();
        let mut row = 0.0;
        for (number, pieces) in pieces.iter().enumerate() {
            if pieces.is_empty() {
                row += GAP;
                continue;
            }
            if pieces.iter().any(|piece| piece.width > width) {
                return None;
            }
            for line in breaking::even_lines(pieces, width) {
                lines.push(Line {
                    paragraph: number,
                    range: pieces[line.start].range.start..pieces[line.end - 1].range.end,
                    row,
                });
                row += 1.0;
            }
        }
        Some((lines, row))
    }

    /// Why nothing fits at a size, and what would.
    fn refusal(&self, pieces: &[Vec<Piece>], tall: f64) -> LetteringError {
        let room = self.room_across();
        let each = pieces.iter().enumerate();
        let each = each.flat_map(|(line, pieces)| pieces.iter().map(move |piece| (line, piece)));
        let widest = each.max_by(|a, b| a.1.width.total_cmp(&b.1.width));
        if let Some((line, piece)) = widest
            && f64::from(piece.width) * tall > room
        {
            let word = &self.paragraphs[line].text[piece.range.clone()];
            // A little less than would just go, for a hand that strays.
            let fits = room / f64::from(piece.width) * 0.97;
            return LetteringError::WordTooWide {
                word: word.graphemes(true).take(60).collect(),
                asked: tall,
                fits: (fits * 1000.0).floor() / 1000.0,
            };
        }
        let rows = self.lines(pieces, tall).map_or(1.0, |(_, rows)| rows);
        let leading = f64::from(self.manner.leading) * tall;
        let on_card = ((self.room_down() - tall) / leading).floor().max(0.0) + 1.0;
        LetteringError::TooManyWords {
            words: self.words,
            asked: tall,
            cards: ((f64::from(rows) / on_card).ceil() as usize).max(2),
        }
    }

    fn card(&self, layout: Layout) -> SetCard {
        let asked = self.asked;
        let x_height = self.shaper.faces[0].x_height;
        SetCard {
            design: asked.design,
            look: Look {
                manner: self.manner,
                outline: asked.outline.unwrap_or(self.manner.outline),
                shadow: asked.shadow.unwrap_or(self.manner.shadow),
                plate: asked.plate,
                dark: asked.dark_on_light,
            },
            seed: self.seed,
            words: self.words,
            capital_height: layout.tall,
            x_height: layout.tall * f64::from(x_height),
            bounds: layout.bounds,
            full_height: layout.full_height,
            lines: layout.lines,
            letters: layout.letters,
            aspect: self.aspect(),
            safe: asked.safe,
        }
    }
}
