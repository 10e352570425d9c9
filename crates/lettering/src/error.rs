//! Why a card cannot be lettered as asked.

use crate::Design;

/// Why a card could not be set, drawn or laid over its ground.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum LetteringError {
    /// Nothing but spaces and line ends.
    #[error("the card has no words")]
    NoWords,
    /// No design has this word.
    #[error("there is no design “{asked}”")]
    NoSuchDesign {
        /// What was asked for.
        asked: String,
    },
    /// One word does not go into the width of the safe area.
    #[error(
        "the word “{word}” is wider than the safe area at a capital height of {:.1} % of the picture",
        .asked * 100.0
    )]
    WordTooWide {
        /// The word.
        word: String,
        /// The capital height asked for, or the smallest that can be read.
        /// Unit: parts of the picture height.
        asked: f64,
        /// The capital height at which the word fits, rounded down.
        /// Unit: parts of the picture height.
        fits: f64,
    },
    /// All words together do not go into the height of the safe area.
    #[error(
        "{words} words do not go on one card at a capital height of {:.1} % of the picture",
        .asked * 100.0
    )]
    TooManyWords {
        /// How many words there are.
        words: usize,
        /// The capital height asked for, or the smallest that can be read.
        /// Unit: parts of the picture height.
        asked: f64,
        /// How many cards they would fill.
        cards: usize,
    },
    /// Neither the design's typeface nor any that comes with the program has them.
    #[error("no typeface here has the characters {characters} ({scripts})")]
    MissingCharacters {
        /// Those missing, each once, the first twelve.
        characters: String,
        /// Their writing, such as `Devanagari`.
        scripts: String,
        /// The design asked for.
        design: Design,
    },
    /// The bytes of the user's font are none.
    #[error("the font file cannot be read as TrueType or OpenType")]
    NoFont,
    /// The bytes of the picture are none, or end too early.
    #[error("the picture cannot be read: {why}")]
    CorruptPicture {
        /// What the decoder said.
        why: String,
    },
    /// The picture would need more memory than a picture of a card may.
    #[error(
        "the picture is larger than {most} × {most} pixels, or than {megabytes} MB when opened"
    )]
    PictureTooLarge {
        /// Most pixels across or down.
        most: u32,
        /// Most memory.
        megabytes: u64,
    },
    /// A measure outside of what makes sense.
    #[error("{what} of {value} is outside of {least} to {greatest}")]
    OutOfRange {
        /// Which measure, with its unit.
        what: &'static str,
        /// What was given.
        value: f64,
        /// The least that goes.
        least: f64,
        /// The greatest that goes.
        greatest: f64,
    },
    /// More text than any card or crawl has.
    #[error("the text has {characters} characters, and a card or crawl takes {most} at most")]
    TextTooLong {
        /// How many there are.
        characters: usize,
        /// How many may be.
        most: usize,
    },
}

impl LetteringError {
    /// A stable name for programs.
    #[must_use]
    pub fn code(&self) -> &'static str {
        match self {
            Self::NoWords => "lettering.no_words",
            Self::NoSuchDesign { .. } => "lettering.no_such_design",
            Self::WordTooWide { .. } => "lettering.word_too_wide",
            Self::TooManyWords { .. } => "lettering.too_many_words",
            Self::MissingCharacters { .. } => "lettering.missing_characters",
            Self::NoFont => "lettering.no_font",
            Self::CorruptPicture { .. } => "lettering.corrupt_picture",
            Self::PictureTooLarge { .. } => "lettering.picture_too_large",
            Self::OutOfRange { .. } => "lettering.out_of_range",
            Self::TextTooLong { .. } => "lettering.text_too_long",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::NoWords => "type the words that shall be read, one line or several".into(),
            Self::NoSuchDesign { .. } => {
                let all: Vec<_> = Design::ALL.iter().map(|design| design.word()).collect();
                format!("take one of these: {}", all.join(", "))
            }
            Self::WordTooWide { fits, .. } => format!(
                "part the word, or set the letters at {:.1} % of the picture height or less",
                fits * 100.0
            ),
            Self::TooManyWords { cards, .. } => format!(
                "share the words among {cards} cards, make a crawl of them, or set smaller letters if the last row can read them"
            ),
            Self::MissingCharacters { design, .. } => format!(
                "bring a font file that has them, or write them otherwise; the design “{}” keeps its look with your font",
                design.name()
            ),
            Self::NoFont => {
                "bring a .ttf or .otf file that opens elsewhere; web fonts (.woff, .woff2) must be turned into one first".into()
            }
            Self::CorruptPicture { .. } => {
                "open the picture in another program and save it anew as PNG or JPEG".into()
            }
            Self::PictureTooLarge { .. } => {
                "save the picture smaller: twice the width of the card is more than enough".into()
            }
            Self::OutOfRange {
                least, greatest, ..
            } => format!("give a value from {least} to {greatest}"),
            Self::TextTooLong { .. } => "share the text among several cards or crawls".into(),
        }
    }
}
