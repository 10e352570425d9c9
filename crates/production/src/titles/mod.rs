//! The titles of a film: what is kept of each, what is reckoned of it, and how it looks
//! frame by frame until it is photographed.

mod cards;
mod changes;
mod document;
mod hold;
mod kept;
mod lettered;
mod pictures;
mod reckoned;
mod stand_kept;

pub use cards::title_card;
pub use changes::{TitleChange, TitleChangeKind};
pub use document::titles_document;
pub use hold::{TitleHoldRequest, title_hold};
pub use pictures::keep_for_title;

pub(crate) use stand_kept::STAND;
