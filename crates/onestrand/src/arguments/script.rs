//! Commands about the film before it is shot.

use std::path::PathBuf;

use clap::{Args, Subcommand};

/// The shooting script.
#[derive(Debug, Subcommand)]
pub(crate) enum Script {
    /// Bring in a screenplay (Fountain), a table of setups, a list of wild sounds or a
    /// camera report (CSV).
    Import {
        /// The production.
        dir: PathBuf,
        /// The file; what it is is seen from its first lines.
        file: PathBuf,
    },
    /// The setups as a table, to be filled in and brought in again.
    Export {
        /// The production.
        dir: PathBuf,
        /// The wild sounds instead.
        #[arg(long)]
        wild_sounds: bool,
    },
    /// The paper of the plan as PDF, and the camera report as a page for a phone.
    Sheets(ScriptPaper),
    /// Scenes, actions and setups, with what covers what.
    Show {
        /// The production.
        dir: PathBuf,
    },
}

/// Which sheets of the plan, and for where and when.
#[derive(Debug, Args)]
pub(crate) struct ScriptPaper {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The folder for the sheets.
    #[arg(long)]
    pub(crate) out: PathBuf,
    /// Only this one: shooting-script, lined-script, shot-list, floor-plan, visits,
    /// stock-sheet, in-camera, camera-report, sound-report, wild-sounds, location-folder or
    /// camera-page. Visits and in-camera are left out by themselves where the film has none.
    #[arg(long, value_name = "NAME")]
    pub(crate) only: Option<String>,
    /// The paper.
    #[arg(long, default_value = "a4")]
    pub(crate) paper: super::Paper,
    /// The place, as it is to stand at the head of each sheet.
    #[arg(long, default_value = "")]
    pub(crate) place: String,
    /// The day, as it is to stand there; a line to write on when not said.
    #[arg(long, default_value = "")]
    pub(crate) day: String,
    /// Only these scenes are shot: 2,3.
    #[arg(long, value_name = "NUMBERS", value_delimiter = ',')]
    pub(crate) scenes: Vec<String>,
}

/// Stock, packing and coverage.
#[derive(Debug, Args)]
pub(crate) struct Plan {
    /// The production.
    pub(crate) dir: PathBuf,
    /// Frames of a roll that can be used; as the film has it when not said.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) load: Option<u32>,
    /// Frames of run-up and run-out of each take.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) runup: Option<u32>,
    /// Frames of the last roll that no take may use: for titles, tests, a retake.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) kept_back: Option<u32>,
    /// Seconds that a clockwork motor runs on one wind.
    #[arg(long, value_name = "SECONDS")]
    pub(crate) one_wind: Option<String>,
    /// The version whose length is shown; the newest when not said.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// Also: the film cut in the camera, each setup once, its dissolves by winding back.
    #[arg(long)]
    pub(crate) in_camera: bool,
    /// Frames that the camera can wind back.
    #[arg(long, value_name = "FRAMES")]
    pub(crate) wind_back: Option<u32>,
    /// Also: what one more take does at the far end, of this setup or of each.
    #[arg(long, value_name = "SETUP", num_args = 0..=1, default_missing_value = "")]
    pub(crate) one_more: Option<String>,
}
