//! Commands about sound: cues, and the machines that play it.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// Cues: sounds at their places.
#[derive(Debug, Subcommand)]
pub(crate) enum Cue {
    /// Bring cues in from a CSV form, laid to a version.
    Import {
        /// The production.
        dir: PathBuf,
        /// The form; README.md says its columns.
        file: PathBuf,
        /// The version; the newest when not said.
        #[arg(long)]
        cut: Option<String>,
    },
    /// The cues as the same CSV form.
    Export {
        /// The production.
        dir: PathBuf,
        /// The version; the newest when not said.
        #[arg(long)]
        cut: Option<String>,
    },
    /// Where the cues stand in a version, what moved, what lost its place, which join is
    /// heard near one.
    List {
        /// The production.
        dir: PathBuf,
        /// The version; the newest when not said.
        #[arg(long)]
        cut: Option<String>,
    },
}

/// The projector.
#[derive(Debug, Subcommand)]
pub(crate) enum Projector {
    /// How fast it truly runs, and when frames will come, out of timings.
    Fit(ProjectorTimings),
}

#[derive(Debug, Args)]
pub(crate) struct ProjectorTimings {
    /// The form: frame,seconds.
    pub(crate) file: PathBuf,
    /// Frames to say the time of, with commas between.
    #[arg(long, value_delimiter = ',')]
    pub(crate) predict: Vec<u32>,
    /// The machine creeps as it warms up: a curve instead of a straight line.
    #[arg(long)]
    pub(crate) creep: bool,
}

/// The tape recorder.
#[derive(Debug, Subcommand)]
pub(crate) enum Tape {
    /// What its counter means, out of timings.
    Fit {
        /// The form: count,seconds.
        file: PathBuf,
        /// Counts to say the time of, with commas between.
        #[arg(long, value_delimiter = ',')]
        predict: Vec<f64>,
    },
}
