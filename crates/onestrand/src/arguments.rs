//! The command line, as settled in the command reference.

use std::net::IpAddr;
use std::path::PathBuf;

use clap::{Args, Parser, Subcommand, ValueEnum};

mod archive;
mod backup;
mod camera;
mod cuts;
mod dub;
mod family;
mod finish;
mod in_the_hand;
mod light;
mod new_production;
mod programme;
mod reading_back;
mod reckon;
mod reel_plan;
mod rolls;
mod roster;
mod runs;
mod script;
mod title;
mod work;

pub(crate) use archive::*;
pub(crate) use backup::*;
pub(crate) use camera::*;
pub(crate) use cuts::*;
pub(crate) use dub::*;
pub(crate) use family::*;
pub(crate) use finish::*;
pub(crate) use in_the_hand::*;
pub(crate) use light::*;
pub(crate) use new_production::*;
pub(crate) use programme::*;
pub(crate) use reading_back::*;
pub(crate) use reckon::*;
pub(crate) use reel_plan::*;
pub(crate) use rolls::*;
pub(crate) use roster::*;
pub(crate) use runs::*;
pub(crate) use script::*;
pub(crate) use title::*;
pub(crate) use work::*;

/// Onestrand: the cutting room for film that exists only once.
#[derive(Debug, Parser)]
#[command(version, about, propagate_version = true)]
pub(crate) struct Arguments {
    /// Print exactly one JSON document on standard output.
    #[arg(long, global = true)]
    pub(crate) json: bool,
    #[command(subcommand)]
    pub(crate) command: Command,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Command {
    /// Write the example production "The Ten-Past Boat" with its scans.
    Demo {
        /// Where to.
        dir: PathBuf,
    },
    /// Serve the page of a production, or of a shelf: a folder of productions.
    Open(Open),
    /// Make a new production, bare, from a template or like another.
    New(NewProduction),
    /// Say what of the outside world is here, and what to install.
    Ready,
    /// Write a safe copy of a production, also while it is open: FILE, and beside it the
    /// folder FILE-parts with sounds, recordings, artwork and photographs. A second time
    /// only what is new is copied. Scans are not in it.
    Backup(Backup),
    /// Put a production back out of a safe copy, with what lies beside it; what is missing or
    /// damaged is told by name.
    Restore(Restore),
    /// Turn a length of film into every unit.
    Reckon(Reckon),
    /// Read one transfer with no production: film frames, takes, signs.
    Read(Read),
    /// Rolls: bring in, on paper, list.
    #[command(subcommand)]
    Roll(Box<Roll>),
    /// Reels and cans: what is wound on what.
    #[command(subcommand)]
    Reel(Box<Reel>),
    /// How far the projector stands, how large the picture is, what the last row reads.
    Throw(ThrowAsked),
    /// What the camera can do: lenses, focus, light, pans, the sun, its true speed.
    #[command(subcommand)]
    Camera(Camera),
    /// Titles: how long they stand, field and light of the copy stand, the exposure sheet.
    #[command(subcommand)]
    Title(Box<Title>),
    /// Sounds: bring in, list.
    #[command(subcommand)]
    Sound(Sound),
    /// Writes the mix of a version.
    Mix(MixOut),
    /// How loud a sound is, to EBU R 128.
    Loudness(LoudnessOf),
    /// Cues: bring in, write out, list what became of them.
    #[command(subcommand)]
    Cue(Cue),
    /// The projector: how fast it truly runs.
    #[command(subcommand)]
    Projector(Projector),
    /// The tape recorder: what its counter means.
    #[command(subcommand)]
    Tape(Tape),
    /// Hang a take on another pin of the trim bin.
    Pin(Pin),
    /// The log sheet as CSV.
    #[command(subcommand)]
    Log(Log),
    /// The cutting sheet as CSV.
    #[command(subcommand)]
    Cut(Cut),
    /// The shooting script: bring in, show, write out.
    #[command(subcommand)]
    Script(Script),
    /// How much film the script takes, on which rolls, and what covers what.
    Plan(Plan),
    /// The class roster: teams, benches, sessions, with the lower bound beside the plan.
    Roster(Roster),
    /// Strand check: can this cut be made from the one strand?
    Check {
        /// The production.
        dir: PathBuf,
        /// The version.
        #[arg(long)]
        cut: String,
        /// The usual join; the version's own when not said.
        #[arg(long)]
        join: Option<Join>,
    },
    /// The work order of a version: which roll first, what to hang, what to take up.
    Bench(Bench),
    /// What a new version of a film already cut costs, each change apart.
    Recut(Recut),
    /// The work at the bench: what comes next, what was done.
    #[command(subcommand)]
    Work(Box<Work>),
    /// The printed forms as PDF: of a version, or of the rolls.
    Sheets(PrintSheets),
    /// The light of the shots, in points: matched, kept, printed, as ASC CDL.
    #[command(subcommand)]
    Light(Box<Light>),
    /// The digital finish of a version, frame for frame.
    Finish(Finish),
    /// The programme of a shelf: what is shown in which order, on which reels.
    Programme(Box<Programme>),
    /// An archive box of the film: made, looked at, opened again.
    Box(Box<ArchiveBox>),
    /// Write a version as OpenTimelineIO, for other programs.
    Exchange(Exchange),
    /// Where to cut from one take to another on the action.
    Match(MatchTakes),
    /// Lay a scan of the cut reel beside its version.
    Prove(ProveReel),
    /// Which frames of which roll a loose strip is, by a photograph on a light box.
    Name(NameStrip),
    /// Family reels: whose camera, in which order, and which of two copies.
    #[command(subcommand)]
    Family(Family),
    /// Look for takes that show the same action, by their pictures.
    Twins(FindTwins),
    /// Take the last change back.
    Undo {
        /// The production.
        dir: PathBuf,
    },
    /// Make the change again that was taken back last.
    Redo {
        /// The production.
        dir: PathBuf,
    },
    /// What was changed, newest first.
    Journal {
        /// The production.
        dir: PathBuf,
        /// How many lines at most.
        #[arg(long, default_value_t = 20)]
        most: u32,
    },
    /// Long work: what is done, failed or interrupted; interrupted work is
    /// carried on.
    Jobs {
        /// The production.
        dir: PathBuf,
    },
}

#[derive(Debug, Args)]
pub(crate) struct Open {
    /// The production or the shelf.
    pub(crate) dir: PathBuf,
    /// The port; a usual one, else any that is free, when not said.
    #[arg(long)]
    pub(crate) port: Option<u16>,
    /// Do not open a browser.
    #[arg(long)]
    pub(crate) no_browser: bool,
    /// A folder that scans may be brought from; may be given several times.
    #[arg(long, value_name = "DIR")]
    pub(crate) media: Vec<PathBuf>,
    /// Open the tablet's door on the local network at once, for the film of the folder;
    /// the code that is printed opens once, within five minutes.
    #[arg(long)]
    pub(crate) tablet: bool,
    /// An address of this machine at which tablets are let in, private or link-local;
    /// may be given several times. All such addresses when not said. It opens nothing by
    /// itself.
    #[arg(long, value_name = "ADDRESS")]
    pub(crate) tablet_at: Vec<IpAddr>,
}

#[derive(Debug, Args)]
pub(crate) struct Read {
    /// A film file, a folder of pictures, or several in order along the roll.
    #[arg(required = true)]
    pub(crate) files: Vec<PathBuf>,
    /// regular8, super8, 9.5, 16 or 35.
    #[arg(long)]
    pub(crate) gauge: Option<String>,
    /// Frames a second in the camera.
    #[arg(long)]
    pub(crate) film_speed: Option<String>,
    /// Length measured on the bench: 50ft0.
    #[arg(long)]
    pub(crate) measured: Option<String>,
    /// Shrinkage in per cent, if measured.
    #[arg(long)]
    pub(crate) shrinkage: Option<String>,
    /// Write the film frames as PNG into this new or empty folder.
    #[arg(long)]
    pub(crate) frames_dir: Option<PathBuf>,
    /// The scan is of regular 8 that was not slit, and the first run lies on this
    /// side: the frames of both halves go into folders of their own.
    #[arg(long, requires = "frames_dir")]
    pub(crate) unslit: Option<SideWord>,
    /// Pictures below each other in each half: two where the machine moved by a
    /// whole 16 mm frame.
    #[arg(long, default_value_t = 2, requires = "unslit")]
    pub(crate) down: u32,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum SideWord {
    Left,
    Right,
}

#[derive(Debug, Subcommand)]
pub(crate) enum Log {
    /// Bring a log in.
    Import {
        /// The production.
        dir: PathBuf,
        /// The form.
        file: PathBuf,
        /// The roll, for a log that names none.
        #[arg(long)]
        roll: Option<String>,
        /// In what figures without a unit count, where no heading says so.
        #[arg(long)]
        counter: Option<CounterWord>,
    },
    /// Print the log as CSV.
    Export {
        /// The production.
        dir: PathBuf,
    },
}

/// The word of a choice, as it is written on the command line.
pub(crate) fn word(choice: impl ValueEnum) -> String {
    choice
        .to_possible_value()
        .map(|value| value.get_name().to_owned())
        .unwrap_or_default()
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Join {
    Tape,
    Cement,
    Weld,
}

#[derive(Debug, Args)]
pub(crate) struct PrintSheets {
    /// The production.
    pub(crate) dir: PathBuf,
    /// The version; without one, the sheets about rolls are printed.
    #[arg(long)]
    pub(crate) cut: Option<String>,
    /// The version as it is joined now, for the change list.
    #[arg(long)]
    pub(crate) from: Option<String>,
    /// Only this roll, on the sheets about rolls.
    #[arg(long)]
    pub(crate) roll: Option<String>,
    /// The folder for the sheets.
    #[arg(long)]
    pub(crate) out: PathBuf,
    /// Only this sheet.
    #[arg(long)]
    pub(crate) only: Option<FormName>,
    /// The paper.
    #[arg(long, default_value = "a4")]
    pub(crate) paper: Paper,
    /// As CSV in place of PDF.
    #[arg(long)]
    pub(crate) csv: bool,
    /// The usual join; the version's own when not said.
    #[arg(long)]
    pub(crate) join: Option<Join>,
    #[command(flatten)]
    pub(crate) bench: BenchOnPaper,
}

/// How the bench is, for the sheets that follow its work.
#[derive(Debug, Args)]
pub(crate) struct BenchOnPaper {
    /// Pins of the trim bin; as kept with the film, or 12, when not said.
    #[arg(long)]
    pub(crate) pins: Option<u32>,
    /// A roll may be wound through and worked from its tail.
    #[arg(long)]
    pub(crate) tails: bool,
    /// Rolls may be wound to and fro.
    #[arg(long)]
    pub(crate) to_and_fro: bool,
    /// Which side of the film is up on the bench.
    #[arg(long)]
    pub(crate) up: Option<FilmSide>,
    /// On which side the head of the film lies.
    #[arg(long)]
    pub(crate) head: Option<BenchSide>,
    /// The longest single count on a frame card, in frames.
    #[arg(long)]
    pub(crate) longest_count: Option<u32>,
    /// Which end of the cut reel is outermost; left open on its labels when not said.
    #[arg(long)]
    pub(crate) lies: Option<OutermostEnd>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FilmSide {
    Base,
    Emulsion,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum BenchSide {
    Left,
    Right,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum OutermostEnd {
    Heads,
    Tails,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum FormName {
    CuttingSheet,
    PullList,
    LinedSheet,
    WorkOrder,
    FrameCards,
    PinLabels,
    OutsList,
    ReelLabels,
    JoinsInspection,
    ChangeList,
    LogSheet,
    TrimLabels,
    InspectionSheet,
    ScanSheet,
    HandlingLedger,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, ValueEnum)]
pub(crate) enum Paper {
    A4,
    Letter,
}
