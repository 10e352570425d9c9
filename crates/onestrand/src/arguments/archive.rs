//! Commands about the archive box.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// An archive box of a film, after BagIt; made, looked at, opened again.
#[derive(Debug, Args)]
#[command(args_conflicts_with_subcommands = true, subcommand_negates_reqs = true)]
pub(crate) struct ArchiveBox {
    #[command(subcommand)]
    pub(crate) other: Option<BoxWork>,
    /// The production.
    #[arg(required = true)]
    pub(crate) dir: Option<PathBuf>,
    /// The box: a folder that is not there yet.
    #[arg(long, required = true)]
    pub(crate) out: Option<PathBuf>,
    /// Leave the scans where they are; their checksums and places stand in the box.
    #[arg(long)]
    pub(crate) without_scans: bool,
    /// A folder in which scans and finishes that have moved are looked for; may be given
    /// several times.
    #[arg(long, value_name = "DIR")]
    pub(crate) media: Vec<PathBuf>,
    /// A version whose mix and stems go in; may be given several times. The newest when
    /// not said.
    #[arg(long, value_name = "CUT")]
    pub(crate) mix: Vec<String>,
    /// Make no mix for it.
    #[arg(long, conflicts_with = "mix")]
    pub(crate) without_mix: bool,
    /// A digital finish to put in, besides those that were made here; may be given several
    /// times.
    #[arg(long, value_name = "FILE")]
    pub(crate) finish: Vec<PathBuf>,
    /// Print no sheets for it.
    #[arg(long)]
    pub(crate) without_sheets: bool,
}

#[derive(Debug, Subcommand)]
pub(crate) enum BoxWork {
    /// Hold a box against its checksums: every file that differs or is missing is named.
    Check {
        /// The box.
        place: PathBuf,
        /// A folder in which scans outside of the box are looked for; may be given several
        /// times.
        #[arg(long, value_name = "DIR")]
        media: Vec<PathBuf>,
    },
    /// Take the production out of a box, to be worked on again; the box stays as it is.
    Open {
        /// The box.
        place: PathBuf,
        /// The production: a folder that is not there yet.
        #[arg(long)]
        out: PathBuf,
    },
    /// What is said of a film for its box, how each statement is known, what was done.
    Facts {
        /// The production.
        dir: PathBuf,
    },
    /// Say something of a film for its box, with how it is known.
    Say(Say),
    /// Strike a statement off, by its number in `facts`.
    Unsay {
        /// The production.
        dir: PathBuf,
        /// The number, from 1.
        number: usize,
    },
    /// Where the film is kept: what is not said here stays as it is.
    Keep {
        /// The production.
        dir: PathBuf,
        /// Its number in the collection.
        #[arg(long)]
        number: Option<String>,
        /// Who keeps it.
        #[arg(long)]
        keeper: Option<String>,
        /// Where and how.
        #[arg(long)]
        kept: Option<String>,
        /// The day it is to be looked at again: 2028-03-03.
        #[arg(long)]
        look_again: Option<String>,
    },
}

#[derive(Debug, Args)]
pub(crate) struct Say {
    /// The production.
    pub(crate) dir: PathBuf,
    /// What it is about: title, `other_title`, maker, people, date, place, about, subject,
    /// language, rights, `who_may_see`, `came_from`.
    pub(crate) what: String,
    /// What is said; leave it out where it is not known.
    #[arg(default_value = "")]
    pub(crate) value: String,
    /// How it is known: maker, written, guess or not-known.
    #[arg(long)]
    pub(crate) known: String,
    /// Who says so, or where it is written.
    #[arg(long, default_value = "")]
    pub(crate) source: String,
}
