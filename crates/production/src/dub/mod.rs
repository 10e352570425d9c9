//! The sound of a film: what is kept of it, where each cue stands in a version, and the mix.

mod changes;
mod fits;
mod kept;
mod mix_kept;

pub use changes::{CueChanged, DubChange, DubChangeKind};

pub(crate) use mix_kept::MIX;

use std::path::PathBuf;

use onestrand_store::Production;

/// Where the sounds of a film are kept.
pub(crate) fn sounds_folder(production: &Production) -> PathBuf {
    production.dir().join("sounds")
}
