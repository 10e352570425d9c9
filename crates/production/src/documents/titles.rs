//! The titles of a film as a document: what is kept of each, and what is reckoned of it.

use serde::Serialize;
use utoipa::ToSchema;

use super::{StandWords, TitleWords};

/// Where a title stands in a version, as a card to shoot.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitleStandsDocument {
    /// The version.
    pub cut: String,
    /// The position, counted from 1.
    pub position: usize,
    /// How long it stands there. Unit: frames.
    pub frames: u32,
    /// Whether that is what its sheet exposes.
    pub agrees: bool,
}

/// Something about a title that wants a look.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitleProblemDocument {
    /// What it is, in a sentence.
    pub what: String,
    /// What can be done.
    pub next: String,
    /// Whether the card cannot be made so; else it is a question.
    pub refused: bool,
}

/// A title and what is reckoned of it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitleDocument {
    /// Its number.
    pub id: i64,
    /// What is kept of it.
    pub title: TitleWords,
    /// How many words it has.
    pub words: usize,
    /// How long the lettering stands by the reading rule. Unit: frames.
    pub by_rule: u32,
    /// How long it stands. Unit: frames.
    pub hold: u32,
    /// The whole of it on the screen. Unit: frames.
    pub whole: u32,
    /// What it takes of a roll: every take. Unit: frames.
    pub of_roll: u32,
    /// Whether it is on film already: takes that its slate names.
    pub photographed: usize,
    /// Where it stands as a card to shoot.
    pub stands: Vec<TitleStandsDocument>,
    /// What wants a look.
    pub problems: Vec<TitleProblemDocument>,
    /// Changes whenever its pictures do: for the address of a picture.
    pub drawn: String,
}

/// Where the pictures of a title are: what a card to shoot looks like in a cut.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitlePicturesDocument {
    /// Its number.
    pub id: i64,
    /// As a card in a cut names it.
    pub name: String,
    /// What it says, in its first line.
    pub says: String,
    /// The whole of it on the screen. Unit: frames.
    pub frames: u32,
    /// Changes whenever its pictures do.
    pub drawn: String,
}

/// A card design.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct CardDesignDocument {
    /// Its word for commands and files.
    pub word: String,
    /// What it is called.
    pub name: String,
    /// For which films it is.
    pub about: String,
}

/// A reading rule.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ReadingRuleDocument {
    /// Its word.
    pub word: String,
    /// What it says, in a sentence.
    pub says: String,
    /// Where it comes from.
    pub source: String,
}

/// All titles of a film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct TitlesDocument {
    /// The state it was read in.
    pub revision: u64,
    /// In the order of the list.
    pub titles: Vec<TitleDocument>,
    /// All of them together on the screen. Unit: frames.
    pub whole: u32,
    /// What all of them take of a roll. Unit: frames.
    pub of_roll: u32,
    /// Cards in the newest version that no title in the list is named for.
    pub without_title: Vec<String>,
    /// The copy stand and the hall.
    pub stand: StandWords,
    /// The designs there are.
    pub designs: Vec<CardDesignDocument>,
    /// The reading rules there are.
    pub rules: Vec<ReadingRuleDocument>,
}

/// The copy stand of a film with all that is reckoned of it.
#[derive(Debug, Clone, PartialEq, Serialize, ToSchema)]
pub struct TitleStandDocument {
    /// As it was typed.
    pub stand: StandWords,
    /// Field and distances; nothing where they cannot be reckoned.
    pub field: Option<super::TitleFieldDocument>,
    /// The light of the lamps; nothing where none is known of them.
    pub light: Option<super::TitleLightDocument>,
    /// What wants a look.
    pub problems: Vec<TitleProblemDocument>,
}
