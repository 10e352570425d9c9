//! The ways a card can be lettered.

use std::fmt;
use std::str::FromStr;

use crate::LetteringError;

/// How the words of a card are lettered.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
#[non_exhaustive]
pub enum Design {
    /// Round hand lettering with a loaded brush.
    Brush,
    /// Plain hand lettering with a broad pen.
    Pen,
    /// Rub-down letters from a sheet.
    Transfer,
    /// Chalk on a board.
    Chalk,
    /// Letters cut out of paper with a knife and laid down.
    CutPaper,
    /// Typed on a machine with a tired ribbon.
    Typewriter,
    /// The card of a silent film, with a drawn border.
    Silent,
    /// Roman capitals with an engraver's shade.
    Engraved,
    /// Sprayed through a stencil.
    Stencil,
    /// Large wooden type, printed by hand.
    WoodType,
    /// Clear even letters and nothing else.
    Plain,
}

impl Design {
    /// Every design, in the order they are offered.
    pub const ALL: [Self; 11] = [
        Self::Brush,
        Self::Pen,
        Self::Transfer,
        Self::Chalk,
        Self::CutPaper,
        Self::Typewriter,
        Self::Silent,
        Self::Engraved,
        Self::Stencil,
        Self::WoodType,
        Self::Plain,
    ];

    /// The word for commands and files, such as `cut-paper`.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Self::Brush => "brush",
            Self::Pen => "pen",
            Self::Transfer => "transfer",
            Self::Chalk => "chalk",
            Self::CutPaper => "cut-paper",
            Self::Typewriter => "typewriter",
            Self::Silent => "silent",
            Self::Engraved => "engraved",
            Self::Stencil => "stencil",
            Self::WoodType => "wood-type",
            Self::Plain => "plain",
        }
    }

    /// Its name for a person.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Brush => "Brush lettering",
            Self::Pen => "Pen lettering",
            Self::Transfer => "Transfer lettering",
            Self::Chalk => "Chalk",
            Self::CutPaper => "Cut paper",
            Self::Typewriter => "Typewriter",
            Self::Silent => "Silent-film card",
            Self::Engraved => "Engraved capitals",
            Self::Stencil => "Stencil",
            Self::WoodType => "Wooden type",
            Self::Plain => "Plain letters",
        }
    }

    /// One sentence: for which films.
    #[must_use]
    pub fn about(self) -> &'static str {
        match self {
            Self::Brush => "Warm and round, for family films, journeys and stories told aloud.",
            Self::Pen => "Like a careful note, for diaries, school films and names of people.",
            Self::Transfer => {
                "Close-set and exact, for films about work, places and things that are made."
            }
            Self::Chalk => "White on a dark board, for lessons, games and films by children.",
            Self::CutPaper => "Bold and a little askew, for comedies and animated films.",
            Self::Typewriter => {
                "Dry and factual, for reports, letters read aloud and detective stories."
            }
            Self::Silent => "With a drawn border, for what is said in a film without sound.",
            Self::Engraved => "Roman capitals with a cut shade, for histories and solemn openings.",
            Self::Stencil => "Sprayed and blunt, for harbours, sheds, machines and adventures.",
            Self::WoodType => "Loud as a poster, for fairs, shows and the one word that matters.",
            Self::Plain => "Clear at any size, for credits, long texts and subtitles.",
        }
    }
}

impl fmt::Display for Design {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl FromStr for Design {
    type Err = LetteringError;

    fn from_str(word: &str) -> Result<Self, LetteringError> {
        let wanted = word.trim().to_lowercase().replace([' ', '_'], "-");
        Self::ALL
            .into_iter()
            .find(|design| design.word() == wanted)
            .ok_or_else(|| LetteringError::NoSuchDesign {
                asked: word.trim().chars().take(40).collect(),
            })
    }
}
