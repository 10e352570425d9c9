//! The sound of a film: what is kept of it, where each cue stands in a version, and the mix.

mod changes;
mod document;
mod fits;
mod hands;
mod kept;
mod laid;
mod mix_kept;
mod version;

pub use changes::{CueChanged, DubChange, DubChangeKind};
pub use document::dub_document;

pub(crate) use mix_kept::MIX;

use std::path::PathBuf;

use onestrand_store::Production;

/// Where the sounds of a film are kept.
pub(crate) fn sounds_folder(production: &Production) -> PathBuf {
    production.dir().join("sounds")
}
