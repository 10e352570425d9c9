//! Commands about sound: cues, and the machines that play it.

use std::path::PathBuf;

use clap::{Args, Subcommand};

use super::Paper;

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
    /// The paper of the dub: chart, effects list, hand score, mix log, tape table, music and
    /// rights. Lists are written as CSV too.
    Sheets(CueSheets),
    /// What the cues say, as captions (WebVTT) at the speed of the mix, from the first
    /// picture on.
    Captions {
        /// The production.
        dir: PathBuf,
        /// The version; the newest when not said.
        #[arg(long)]
        cut: Option<String>,
        /// The file to write; to the screen when not said.
        #[arg(long, value_name = "FILE")]
        out: Option<PathBuf>,
    },
}

#[derive(Debug, Args)]
pub(crate) struct CueSheets {
    /// The production's folder.
    pub(crate) dir: PathBuf,
    /// The version; the newest when not said.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// The folder to print into.
    #[arg(long, value_name = "FOLDER")]
    pub(crate) out: PathBuf,
    /// Only this one: dubbing-chart, effects-list, hand-score, mix-log, tape-table or
    /// music-list.
    #[arg(long, value_name = "SHEET")]
    pub(crate) only: Option<String>,
    /// Timings of the tape's counter for the tape table: a form count,seconds.
    #[arg(long, value_name = "FILE")]
    pub(crate) timings: Option<PathBuf>,
    /// The machine and the tape, to stand on the tape table.
    #[arg(long, value_name = "WORDS", default_value = "")]
    pub(crate) tape: String,
    /// The paper.
    #[arg(long, value_enum, default_value_t = Paper::A4)]
    pub(crate) paper: Paper,
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

/// Sounds.
#[derive(Debug, Subcommand)]
pub(crate) enum Sound {
    /// Bring sounds in: any kind that FFmpeg reads. They are copied into the film's folder.
    Add {
        /// The production.
        dir: PathBuf,
        /// The files.
        #[arg(required = true)]
        files: Vec<PathBuf>,
    },
    /// The sounds of the film.
    List {
        /// The production.
        dir: PathBuf,
    },
    /// Listens to a sound: for a loop, its speed, strokes that fit marked frames, its beat.
    /// Nothing is kept.
    Listen(ListenTo),
}

#[derive(Debug, Args)]
pub(crate) struct ListenTo {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The sound, by its name or its number.
    pub(crate) sound: String,
    /// From where, in seconds; from its beginning when not said.
    #[arg(long)]
    pub(crate) from: Option<f64>,
    /// To where, in seconds; to its end when not said, twenty minutes at most.
    #[arg(long)]
    pub(crate) to: Option<f64>,
    /// What for.
    #[command(subcommand)]
    pub(crate) what: ListenWhat,
}

/// What is listened for.
#[derive(Debug, Subcommand)]
pub(crate) enum ListenWhat {
    /// Where an atmosphere can go round without a beat.
    Seams {
        /// The shortest loop that will do, in seconds; a quarter of the sound when not said.
        #[arg(long)]
        least: Option<f64>,
        /// How long both ends are heard together, in seconds.
        #[arg(long)]
        crossed: Option<f64>,
    },
    /// How fast a tape ran, by a tone whose pitch is known.
    Tone {
        /// The true pitch in hertz: 440 for a tuning fork.
        hertz: f64,
    },
    /// How fast a tape ran, by the hum of the mains.
    Hum {
        /// 50 or 60.
        mains: u32,
    },
    /// Strokes that fit marked frames, or for one frame the clap of a slate.
    Strokes {
        /// The running frames that are marked, with commas between.
        #[arg(required = true, value_delimiter = ',')]
        marks: Vec<u32>,
        /// The version; the newest when not said.
        #[arg(long)]
        cut: Option<String>,
        /// The column they are laid in, by its name; the first when not said.
        #[arg(long)]
        column: Option<String>,
    },
    /// Tempo, beats and bars.
    Beats {
        /// The slowest tempo, in beats a minute.
        #[arg(long)]
        slowest: Option<f64>,
        /// The fastest.
        #[arg(long)]
        fastest: Option<f64>,
    },
}

#[derive(Debug, Args)]
pub(crate) struct MixOut {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version; the newest when not said.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// The file: WAV, 48 kHz, 24 bits, Broadcast Wave.
    #[arg(long)]
    pub(crate) out: PathBuf,
    /// The speed of the projector; the film's when not said.
    #[arg(long)]
    pub(crate) speed: Option<String>,
    /// Leader before the first picture, in frames.
    #[arg(long)]
    pub(crate) leader: Option<u32>,
    /// Writes each column alone beside it: MIX-1-river.wav and so on.
    #[arg(long)]
    pub(crate) stems: bool,
}

#[derive(Debug, Args)]
pub(crate) struct LoudnessOf {
    /// The file.
    pub(crate) file: PathBuf,
}
