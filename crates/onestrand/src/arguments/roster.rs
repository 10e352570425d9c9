//! The command about the class roster.

use std::path::PathBuf;

use clap::Args;

use super::Paper;

const COLUMNS: &str = "\
Columns: team,step,hours and, if wanted, needs,waits_for,from,sitting.
  team       one team, or several that do the same: Ada;Ben
  hours      2, 1.5 or 1:30
  needs      bench;splicer:2
  waits_for  what must be true before it may begin: scan proved
  from       the session, from 1, in which it may begin; a step that waits for
             something and has none is listed and not planned
  sitting    the longest stretch at once, in hours";

/// Who has what when.
#[derive(Debug, Args)]
#[command(after_help = COLUMNS)]
pub(crate) struct Roster {
    /// The table of teams and steps, CSV, a row a step in its order.
    pub(crate) file: PathBuf,
    /// How long each session is, in hours: 10x2:30, or 2,2,3.
    #[arg(long, value_name = "HOURS")]
    pub(crate) sessions: String,
    /// How many there are of a thing: bench=1. May be given several times.
    #[arg(long, value_name = "THING=COUNT")]
    pub(crate) thing: Vec<String>,
    /// Teams of which only one works at a time: Ada+Ben. May be given several times.
    #[arg(long, value_name = "TEAM+TEAM")]
    pub(crate) apart: Vec<String>,
    /// The shortest time counted, in minutes. Hours of work are rounded up to it, those of
    /// a session down.
    #[arg(long, value_name = "MINUTES", default_value_t = 30)]
    pub(crate) slot: u16,
    /// Print the plan as CSV in place of words.
    #[arg(long)]
    pub(crate) csv: bool,
    /// Print the roster into this PDF too.
    #[arg(long, value_name = "FILE")]
    pub(crate) sheet: Option<PathBuf>,
    /// What stands at the head of the sheet.
    #[arg(long, default_value = "Our class")]
    pub(crate) title: String,
    /// The paper.
    #[arg(long, default_value = "a4")]
    pub(crate) paper: Paper,
}
