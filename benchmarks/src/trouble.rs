//! What can keep a benchmark from being run.

use std::path::PathBuf;

/// Why there is no figure.
#[derive(Debug, thiserror::Error)]
#[non_exhaustive]
pub(crate) enum Trouble {
    /// FFmpeg is missing, or a clip cannot be read.
    #[error(transparent)]
    Intake(#[from] onestrand_intake::IntakeError),
    /// The store refused.
    #[error(transparent)]
    Store(#[from] onestrand_store::StoreError),
    /// The list of known changes cannot be read.
    #[error(transparent)]
    Inspect(#[from] onestrand_inspect::InspectError),
    /// A measure of the invented production lies outside its range.
    #[error(transparent)]
    Unit(#[from] onestrand_film::UnitError),
    /// A picture of the example film cannot be painted.
    #[error(transparent)]
    Example(#[from] onestrand_example::ExampleError),
    /// A change does not fit the invented cut.
    #[error(transparent)]
    Refused(#[from] onestrand_cut::Refusal),
    /// A card cannot be lettered.
    #[error(transparent)]
    Lettering(#[from] onestrand_lettering::LetteringError),
    /// A sound cannot be read.
    #[error(transparent)]
    Sound(#[from] onestrand_sound::SoundError),
    /// A file or folder cannot be used.
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
    /// The system does not say how much processor time was used.
    #[error("the system does not say how much processor time was used: {0}")]
    NoUsage(#[from] nix::Error),
    /// A program failed that was to be measured.
    #[error("{program} failed: {said}")]
    Child {
        /// The program with what it was to do.
        program: String,
        /// The end of what it said.
        said: String,
    },
    /// The work measured did not do what it was measured for.
    #[error("{what}: {wanted} wanted, {found} found; a figure for this would mean nothing")]
    NotDone {
        /// What was counted.
        what: &'static str,
        /// How many there should be.
        wanted: u64,
        /// How many there are.
        found: u64,
    },
}

impl Trouble {
    /// The next step, in the user's words.
    pub(crate) fn hint(&self) -> String {
        match self {
            Self::Intake(error) => error.hint().into(),
            Self::Store(error) => error.hint().into(),
            Self::Inspect(error) => error.hint().into(),
            Self::Unit(error) => error.hint(),
            Self::Example(error) => error.hint().into(),
            Self::Refused(error) => error.hint().into(),
            Self::Lettering(error) => error.hint(),
            Self::Sound(e) => e.hint().to_owned(),
            Self::File { .. } => {
                "check the name and the rights; the clips need some 3 GB where TMPDIR points".into()
            }
            Self::NoUsage(_) => "run it on Linux".into(),
            Self::Child { .. } => "run ./run once: it installs and builds what is needed".into(),
            Self::NotDone { .. } => "run ./test: something is broken".into(),
        }
    }

    /// For `map_err` on what the file system refuses.
    pub(crate) fn file<'a>(
        what: &'static str,
        path: &'a std::path::Path,
    ) -> impl FnOnce(std::io::Error) -> Self + 'a {
        move |source| Self::File {
            what,
            source,
            path: path.to_owned(),
        }
    }
}

/// Makes sure that something measured was really done.
pub(crate) fn make_sure(what: &'static str, found: u64, wanted: u64) -> Result<(), Trouble> {
    if found == wanted {
        return Ok(());
    }
    Err(Trouble::NotDone {
        what,
        wanted,
        found,
    })
}
