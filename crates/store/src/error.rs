//! What can go wrong with a production file.

use std::path::PathBuf;

/// Why the production could not be read or written.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum StoreError {
    /// There is no production in that folder.
    #[error("no production here: {}", .dir.display())]
    NoProduction {
        /// The folder asked for.
        dir: PathBuf,
    },
    /// There is one already.
    #[error("there is a production here already: {}", .dir.display())]
    AlreadyThere {
        /// The folder asked for.
        dir: PathBuf,
    },
    /// Another process owns it.
    #[error("this production is open in another window or command: {}", .dir.display())]
    Owned {
        /// The folder asked for.
        dir: PathBuf,
    },
    /// It was written by a later version of the program.
    #[error("the production is of form {found}, this program knows up to {known}")]
    TooNew {
        /// The number in the file.
        found: u32,
        /// The newest number known.
        known: u32,
    },
    /// SQLite's own check found damage.
    #[error("the production file is damaged: {report}")]
    Damaged {
        /// The first line of SQLite's report.
        report: String,
    },
    /// A name that is not there.
    #[error("there is no {what} named {name}")]
    NotFound {
        /// What kind of thing.
        what: &'static str,
        /// The name asked for.
        name: String,
    },
    /// Nothing to undo or redo.
    #[error("there is nothing to {what}")]
    NothingTo {
        /// `undo` or `redo`.
        what: &'static str,
    },
    /// Undo has come to what was done at the bench.
    #[error("undo stops here: {words}")]
    ForGood {
        /// What was done.
        words: String,
    },
    /// The change was made against an older state.
    #[error("the production has changed meanwhile: change {found}, now at {now}")]
    Stale {
        /// The revision the caller saw.
        found: u64,
        /// The revision now.
        now: u64,
    },
    /// Two takes would hang on one pin.
    #[error("pin {pin} would hold two takes")]
    PinTaken {
        /// The pin, counted from 1.
        pin: u32,
    },
    /// The change does not fit the cut.
    #[error("the cut was not changed: {0}")]
    Refused(#[from] onestrand_cut::Refusal),
    /// A stored value that no longer reads as what it was.
    #[error("cannot read {what} from the production file: {found}")]
    Unreadable {
        /// What it should be.
        what: &'static str,
        /// What stands there.
        found: String,
    },
    /// The disk has no room, or the file system refuses.
    #[error("cannot write {what}: {source}: {}", .path.display())]
    File {
        /// What was being written or read.
        what: &'static str,
        /// The system's reason.
        #[source]
        source: std::io::Error,
        /// Where.
        path: PathBuf,
    },
    /// SQLite refused.
    #[error("the production file could not be used: {0}")]
    Sql(#[from] rusqlite::Error),
    /// An act could not be written as text.
    #[error("the change could not be written down: {0}")]
    Json(#[from] serde_json::Error),
}

impl StoreError {
    /// A stable name for programs.
    #[must_use]
    pub const fn code(&self) -> &'static str {
        match self {
            Self::NoProduction { .. } => "store.no_production",
            Self::AlreadyThere { .. } => "store.already_there",
            Self::Owned { .. } => "store.owned",
            Self::TooNew { .. } => "store.too_new",
            Self::Damaged { .. } => "store.damaged",
            Self::NotFound { .. } => "store.not_found",
            Self::NothingTo { .. } => "store.nothing_to_do",
            Self::ForGood { .. } => "store.for_good",
            Self::Stale { .. } => "store.stale",
            Self::PinTaken { .. } => "store.pin_taken",
            Self::Refused(_) => "store.refused",
            Self::Unreadable { .. } => "store.unreadable",
            Self::File { .. } => "store.file",
            Self::Sql(_) => "store.sql",
            Self::Json(_) => "store.json",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> &'static str {
        match self {
            Self::NoProduction { .. } => {
                "make one with `onestrand new DIR --title T --gauge super8 --speed 18`, or try `onestrand demo DIR`"
            }
            Self::AlreadyThere { .. } => "choose another folder, or open this one",
            Self::Owned { .. } => "close it there first; what is kept there is safe",
            Self::TooNew { .. } => "open it with the newer program that wrote it",
            Self::Damaged { .. } => {
                "nothing was changed; go back to the newest backup (`onestrand backup` makes one) and keep this file for inspection"
            }
            Self::NotFound { .. } => "look at the names with the list commands",
            Self::NothingTo { .. } => "the journal has no further step in that direction",
            Self::ForGood { .. } => {
                "what was done to film is not undone; say in the Bench room what really happened"
            }
            Self::PinTaken { .. } => "choose a free pin, or change the two about",
            Self::Stale { .. } => "look at the newest state and make the change again",
            Self::Refused(refusal) => refusal.hint(),
            Self::Unreadable { .. } => "keep a copy of the folder and report what stands there",
            Self::File { .. } => "check the space left on the disk and the rights on the folder",
            Self::Sql(_) => "check the space left on the disk and the rights on the folder",
            Self::Json(_) => "report this; nothing was changed",
        }
    }

    pub(crate) fn unreadable(what: &'static str, found: impl ToString) -> Self {
        Self::Unreadable {
            what,
            found: found.to_string(),
        }
    }
}
