//! Why an act could not be carried out.

use std::path::PathBuf;

use onestrand_bench::{CannotBe, NoWorkOrder};
use onestrand_compose::ComposeError;
use onestrand_cut::Conflict;
use onestrand_finish::FinishError;
use onestrand_intake::IntakeError;
use onestrand_sheets::SheetError;
use onestrand_store::StoreError;

/// One thing wrong with a file that is to be imported.
#[derive(Debug, Clone, PartialEq, Eq, serde::Serialize)]
pub struct ImportProblem {
    /// Line of the file, from 1; 1 is the header.
    pub line: u64,
    /// Column by its name in the header, empty when the whole line is meant.
    pub column: String,
    /// What is wrong.
    pub message: String,
}

/// Why an act could not be carried out. Nothing is changed then.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub enum ProductionError {
    /// The production file.
    #[error(transparent)]
    Store(#[from] StoreError),
    /// Reading a scan.
    #[error(transparent)]
    Intake(#[from] IntakeError),
    /// Putting the picture of a film frame together.
    #[error(transparent)]
    Compose(#[from] ComposeError),
    /// Making the finish.
    #[error(transparent)]
    Finish(#[from] FinishError),
    /// Sound.
    #[error(transparent)]
    Sound(#[from] onestrand_sound::SoundError),
    /// The light of shots.
    #[error(transparent)]
    Light(#[from] onestrand_light::LightError),
    /// What film shows of where it came from.
    #[error(transparent)]
    Provenance(#[from] onestrand_provenance::ProvenanceError),
    /// An archive box.
    #[error(transparent)]
    Archive(#[from] onestrand_archive::ArchiveError),
    /// Printing.
    #[error(transparent)]
    Sheets(#[from] SheetError),
    /// A measure that cannot be read.
    #[error(transparent)]
    Unit(#[from] onestrand_film::UnitError),
    /// What no lens, shutter or day can be.
    #[error(transparent)]
    Camera(#[from] onestrand_plan::camera::CameraError),
    /// What no title, copy stand or exposure sheet can be.
    #[error(transparent)]
    Title(#[from] onestrand_title::TitleError),
    /// What cannot be lettered.
    #[error(transparent)]
    Lettering(#[from] onestrand_lettering::LetteringError),
    /// The example film could not be drawn.
    #[error("the example could not be drawn: {0}")]
    Example(#[from] onestrand_example::ExampleError),
    /// A file to import has problems.
    #[error("{}: {} to put right", .path.display(), in_words(.problems.len()))]
    Import {
        /// The file.
        path: PathBuf,
        /// Every problem, in the order of the lines.
        problems: Vec<ImportProblem>,
    },
    /// The strand check refuses the cut.
    #[error("cut {cut} cannot be made: {} refused by the strand check", in_words(.conflicts.len()))]
    CutRefused {
        /// The cut.
        cut: String,
        /// What is refused.
        conflicts: Vec<Conflict>,
    },
    /// There is nothing to make a work order of.
    #[error(transparent)]
    NoWorkOrder(NoWorkOrder),
    /// What was said to be done at the bench cannot have happened.
    #[error(transparent)]
    CannotBe(#[from] CannotBe),
    /// Something keeps the film from being planned.
    #[error("the film cannot be planned: {source}")]
    Plan {
        /// Everything that does.
        #[source]
        source: onestrand_plan::PlanError,
    },
    /// Something keeps the class roster from being planned.
    #[error("the roster cannot be planned: {source}")]
    Roster {
        /// Everything that does.
        #[source]
        source: onestrand_plan::PlanError,
    },
    /// There is a roll of that name already.
    #[error("there is a roll {roll} already")]
    RollThere {
        /// The roll.
        roll: String,
    },
    /// A scan is not what it was when it was read.
    #[error("a scan of {roll} is not what was read: {found}: {}", .path.display())]
    ScanChanged {
        /// The roll.
        roll: String,
        /// What differs.
        found: String,
        /// The scan.
        path: PathBuf,
    },
    /// The gap between two numbers of a sequence is too long to be a slip.
    #[error("{missing} pictures are missing in one place, more than {most}")]
    GapTooLong {
        /// Missing numbers.
        missing: u64,
        /// The most that is taken for a gap in one roll.
        most: u64,
    },
    /// A file or folder could not be read or written.
    #[error("cannot {what}: {source}: {}", .path.display())]
    File {
        /// What was tried.
        what: &'static str,
        /// The system's reason.
        #[source]
        source: std::io::Error,
        /// Where.
        path: PathBuf,
    },
    /// A picture of a workprint cannot be read.
    #[error(transparent)]
    Picture {
        /// Which, and the decoder's reason.
        source: onestrand_pictures::PictureError,
    },
    /// A small picture cannot be coded.
    #[error(transparent)]
    SmallPicture {
        /// The encoder's reason.
        source: onestrand_pictures::PictureError,
    },
    /// A value that does not fit.
    #[error("{message}")]
    Unfit {
        /// What does not fit, and why.
        message: String,
        /// What to do.
        hint: String,
    },
    /// The user stopped it.
    #[error("stopped; nothing half-made is left")]
    Stopped,
}

fn in_words(count: usize) -> String {
    match count {
        1 => "1 thing".to_owned(),
        n => format!("{n} things"),
    }
}

impl ProductionError {
    /// A stable name for programs.
    #[must_use]
    pub fn code(&self) -> &str {
        match self {
            Self::Store(e) => e.code(),
            Self::Intake(e) => e.code(),
            Self::Compose(e) => e.code(),
            Self::Finish(e) => e.code(),
            Self::Sound(e) => e.code(),
            Self::Light(e) => e.code(),
            Self::Provenance(e) => e.code(),
            Self::Archive(e) => e.code(),
            Self::Sheets(e) => e.code(),
            Self::Unit(e) => e.code(),
            Self::Camera(e) => e.code(),
            Self::Title(e) => e.code(),
            Self::Lettering(e) => e.code(),
            Self::Example(_) => "production.example",
            Self::Import { .. } => "production.import",
            Self::CutRefused { .. } => "production.cut_refused",
            Self::NoWorkOrder(e) => e.code(),
            Self::CannotBe(_) => "bench.cannot_be",
            Self::Plan { source } | Self::Roster { source } => source.code(),
            Self::RollThere { .. } => "production.roll_there",
            Self::ScanChanged { .. } => "production.scan_changed",
            Self::GapTooLong { .. } => "production.gap_too_long",
            Self::File { .. } => "production.file",
            Self::Picture { .. } => "production.picture",
            Self::SmallPicture { .. } => "production.small_picture",
            Self::Unfit { .. } => "production.unfit",
            Self::Stopped => "production.stopped",
        }
    }

    /// The next step, in the user's words.
    #[must_use]
    pub fn hint(&self) -> String {
        match self {
            Self::Store(e) => e.hint().to_owned(),
            Self::Intake(e) => e.hint().to_string(),
            Self::Compose(e) => e.hint(),
            Self::Finish(e) => e.hint(),
            Self::Sound(e) => e.hint().to_owned(),
            Self::Light(e) => e.hint().to_owned(),
            Self::Provenance(e) => e.hint().to_owned(),
            Self::Archive(e) => e.hint().to_owned(),
            Self::Sheets(e) => e.hint().to_string(),
            Self::Unit(e) => e.hint(),
            Self::Camera(e) => e.hint(),
            Self::Title(e) => e.hint(),
            Self::Lettering(e) => e.hint(),
            Self::Example(_) => "report this; the example is drawn by the program itself".into(),
            Self::Import { .. } => "put these right in the file and bring it in again; nothing was changed".into(),
            Self::CutRefused { cut, .. } => {
                format!("look at `onestrand check DIR --cut {cut}`: it names the frames and the ways out")
            }
            Self::NoWorkOrder(e) => e.hint().to_owned(),
            Self::CannotBe(e) => e.hint().to_owned(),
            Self::Plan { .. } => "put these right in the script or the stock, and plan again".into(),
            Self::Roster { source } => source.hint().to_owned(),
            Self::RollThere { .. } => "choose another name, or look with `onestrand roll list`".into(),
            Self::ScanChanged { .. } => {
                "put the scan back as it was, say where it is now with `onestrand roll moved`, or bring it in as a new roll".into()
            }
            Self::GapTooLong { .. } => {
                "check that the pictures are of one roll, and bring each run in as a roll of its own".into()
            }
            Self::File { .. } => "check the name, the rights and the space left".into(),
            Self::Picture { .. } => {
                "close the production, take its folder `workprints` away and open it again: the pictures are made anew from the scan".into()
            }
            Self::SmallPicture { .. } => "ask for smaller pictures, or fewer of them".into(),
            Self::Unfit { hint, .. } => hint.clone(),
            Self::Stopped => "start it again when you like".into(),
        }
    }

    /// More for a program to read: the problems of an import, the conflicts
    /// of a cut.
    #[must_use]
    pub fn details(&self) -> serde_json::Value {
        match self {
            Self::Import { problems, .. } => serde_json::json!({ "problems": problems }),
            Self::CutRefused { conflicts, .. } => {
                let all: Vec<_> = conflicts
                    .iter()
                    .map(crate::documents::ConflictDocument::plain)
                    .collect();
                serde_json::json!({ "conflicts": all })
            }
            Self::Plan { source } | Self::Roster { source } => {
                let problems = source.problems().iter();
                let all: Vec<_> = problems
                    .map(|found| {
                        serde_json::json!({
                            "line": found.line, "place": found.place, "message": found.message
                        })
                    })
                    .collect();
                serde_json::json!({ "problems": all })
            }
            _ => serde_json::Value::Null,
        }
    }

    /// Whether the user stopped it.
    #[must_use]
    pub const fn is_stopped(&self) -> bool {
        matches!(
            self,
            Self::Stopped
                | Self::Intake(IntakeError::Cancelled { .. })
                | Self::Sound(onestrand_sound::SoundError::Stopped)
                | Self::Archive(onestrand_archive::ArchiveError::Stopped)
                | Self::Finish(
                    FinishError::Cancelled { .. }
                        | FinishError::Intake(IntakeError::Cancelled { .. })
                )
        )
    }
}

/// Turns the system's refusal into an error that says what was tried.
pub(crate) fn file<'a>(
    what: &'static str,
    path: &'a std::path::Path,
) -> impl FnOnce(std::io::Error) -> ProductionError + 'a {
    move |source| ProductionError::File {
        what,
        source,
        path: path.to_owned(),
    }
}

/// A value that does not fit, with what to do about it.
pub(crate) fn unfit(message: String, hint: &str) -> ProductionError {
    ProductionError::Unfit {
        message,
        hint: hint.to_owned(),
    }
}
