//! What is said of a film for its archive box, and the box itself.

use serde::{Deserialize, Serialize};
use utoipa::ToSchema;

/// What is said of a film, with how each statement is known.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(default)]
pub struct AccessionWords {
    /// The number it has in the collection.
    pub number: String,
    /// Who keeps it.
    pub keeper: String,
    /// Where and how it is kept.
    pub kept: String,
    /// The day it is to be looked at again, as `2028-03-03`.
    pub look_again: String,
    /// The statements, in the order in which they were written.
    pub statements: Vec<StatementWords>,
}

/// One statement on a film.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct StatementWords {
    /// What it is about: `title`, `other_title`, `maker`, `people`, `date`, `place`, `about`,
    /// `subject`, `language`, `rights`, `who_may_see` or `came_from`.
    pub what: String,
    /// What is said; empty while it is not known.
    pub value: String,
    /// How it is known: `maker` (the maker says so), `written` (it is written on the can, the
    /// leader or a paper), `guess`, or `not-known`.
    pub known: String,
    /// Who says so, or where it is written.
    #[serde(default)]
    pub source: String,
}

/// What is said of a film, as the page shows it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct AccessionDocument {
    /// The change after which it stands so.
    pub revision: u64,
    /// What is said.
    pub words: AccessionWords,
    /// What can be said, in the order of the sheet: the word and what it means.
    pub what: Vec<StatementKindDocument>,
    /// What was done to its rolls and its files, the first day first.
    pub actions: Vec<ActionDocument>,
}

/// A kind of statement.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct StatementKindDocument {
    /// Its word.
    pub what: String,
    /// What it means.
    pub words: String,
}

/// Something that was done, with its day.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct ActionDocument {
    /// The day, as `2026-03-03`; empty where it is not known.
    pub on: String,
    /// What it was done to: a roll, a version, the film.
    pub to: String,
    /// What was done.
    pub what: String,
    /// By whom; empty where it is not known.
    pub by: String,
}

/// A box that was made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BoxDocument {
    /// The folder.
    #[serde(rename = "box")]
    pub place: String,
    /// The film.
    pub title: String,
    /// Files of the payload.
    pub files: u64,
    /// Bytes of the payload.
    pub bytes: u64,
    /// That all of it was read back and is as it was written.
    pub verified: bool,
    /// The scans.
    pub scans: Vec<BoxedScanDocument>,
    /// The digital finishes that lie in it.
    pub finishes: Vec<String>,
    /// The mixes that lie in it, and their stems.
    pub mixes: Vec<String>,
    /// Printed sheets that lie in it.
    pub sheets: usize,
    /// What does not lie in it, and why.
    pub left_out: Vec<LeftOutDocument>,
}

/// A scan as a box has it.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct BoxedScanDocument {
    /// The roll.
    pub roll: String,
    /// Which of its scans, from 0.
    pub part: u32,
    /// Its size. Unit: bytes.
    pub bytes: u64,
    /// BLAKE3 of it, as it was taken when it was read.
    pub blake3: String,
    /// Whether it lies in the box.
    pub in_box: bool,
    /// How it was found: `where_read`, `beside` (in or beside the film's folder, by its name),
    /// `by_fixity` (elsewhere or under another name, the same to the bit) or `not_found`.
    pub found: String,
    /// Its files: where each was, and where it lies in the box.
    pub files: Vec<BoxedFileDocument>,
}

/// A file of a scan or a finish, with its fixity.
#[derive(Debug, Clone, Default, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct BoxedFileDocument {
    /// Where it lay when the box was made.
    pub place: String,
    /// Where it lies in the box; nothing when it does not.
    pub path: Option<String>,
    /// Its size. Unit: bytes.
    pub bytes: u64,
    /// SHA-256 of it; nothing when it was not found.
    pub sha256: Option<String>,
    /// SHA-512 of it.
    pub sha512: Option<String>,
}

/// Something that does not lie in a box.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub struct LeftOutDocument {
    /// What.
    pub what: String,
    /// Why.
    pub why: String,
}

/// A box that was looked at.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BoxCheckDocument {
    /// The folder.
    #[serde(rename = "box")]
    pub place: String,
    /// Whether it is whole: not one bit differs, nothing is missing.
    pub ok: bool,
    /// The film, when the box says so.
    pub title: String,
    /// The day it was made, when the box says so.
    pub made: String,
    /// Files of the payload that are there.
    pub files: u64,
    /// Their bytes.
    pub bytes: u64,
    /// All that is not as it was put in.
    pub problems: Vec<BoxProblemDocument>,
    /// Scans that lie outside of the box, and whether they were found again.
    pub outside: Vec<OutsideDocument>,
}

/// Something in a box that is not as it was put in.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct BoxProblemDocument {
    /// `changed`, `missing`, `not_listed`, `sum`, `unreadable` or `not_compared`.
    pub kind: String,
    /// The file, when it is about one.
    pub path: Option<String>,
    /// The same in a sentence, with what the file is.
    pub words: String,
}

/// A file that a box knows by its fixity alone.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct OutsideDocument {
    /// The roll whose scan it is, or the finish.
    pub of: String,
    /// Where it lay when the box was made.
    pub place: String,
    /// Where it is now, the same to the bit; nothing when it was not found.
    pub found: Option<String>,
}

/// A production that was taken out of a box.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, ToSchema)]
pub struct UnboxedDocument {
    /// The folder of the production.
    pub dir: String,
    /// Its title.
    pub title: String,
    /// Files that were taken out, each held against its checksum.
    pub files: u64,
    /// Their bytes.
    pub bytes: u64,
    /// Scans that do not lie in the box.
    pub scans_outside: Vec<String>,
}
