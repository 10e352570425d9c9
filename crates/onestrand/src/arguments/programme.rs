//! The command about the programme of a shelf.

use std::path::PathBuf;

use clap::Args;

use super::Paper;

const COLUMNS: &str = "\
Columns: what,film and, if wanted, cut,title,maker,year,sound,speed,remark,minutes.
  what     film or interval
  film     the name of its folder on the shelf
  cut      the version; the newest when empty
  speed    the true speed; the film's own when empty
  minutes  of an interval";

/// What is shown in which order, on which reels, for how long.
#[derive(Debug, Args)]
#[command(after_help = COLUMNS)]
pub(crate) struct Programme {
    /// The shelf: a folder of productions.
    pub(crate) shelf: PathBuf,
    /// Take the rows from this table, CSV; those that are kept when not said.
    #[arg(long, value_name = "FILE")]
    pub(crate) from: Option<PathBuf>,
    /// What it is called.
    #[arg(long)]
    pub(crate) title: Option<String>,
    /// Where it is shown.
    #[arg(long)]
    pub(crate) place: Option<String>,
    /// When, in your own words.
    #[arg(long)]
    pub(crate) day: Option<String>,
    /// The machine.
    #[arg(long)]
    pub(crate) machine: Option<String>,
    /// The lens in millimetres.
    #[arg(long)]
    pub(crate) lens: Option<String>,
    /// Across the picture: 1.2m.
    #[arg(long)]
    pub(crate) screen: Option<String>,
    /// What the largest reel takes, in feet.
    #[arg(long, value_name = "FEET")]
    pub(crate) reel: Option<u32>,
    /// Leader at the head of each reel, and as much at its tail, in feet.
    #[arg(long, value_name = "FEET")]
    pub(crate) leader: Option<u32>,
    /// Spacing between two films, in feet.
    #[arg(long, value_name = "FEET")]
    pub(crate) spacing: Option<u32>,
    /// How long it takes to thread a reel, in seconds.
    #[arg(long, value_name = "SECONDS")]
    pub(crate) change: Option<u32>,
    /// Keep it on the shelf.
    #[arg(long)]
    pub(crate) keep: bool,
    /// Print it as CSV in place of words.
    #[arg(long)]
    pub(crate) csv: bool,
    /// Print the note into this PDF.
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,
    /// Print labels for its reels into this PDF.
    #[arg(long, value_name = "FILE")]
    pub(crate) labels: Option<PathBuf>,
    /// It was shown on this day: a run is written into the ledger of each roll.
    #[arg(long, value_name = "DAY")]
    pub(crate) shown: Option<String>,
    /// Who showed it.
    #[arg(long, default_value = "", requires = "shown")]
    pub(crate) by: String,
    /// The paper.
    #[arg(long, default_value = "a4")]
    pub(crate) paper: Paper,
}
