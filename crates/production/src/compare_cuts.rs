//! Two versions of a film compared.

use onestrand_cut::compare;
use onestrand_store::Production;

use crate::documents::{ChangeLineDocument, ComparedDocument};
use crate::{ProductionError, film_view, strand};

/// What leads from one version to another.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version.
pub fn compare_cuts(
    production: &Production,
    from: &str,
    to: &str,
) -> Result<ComparedDocument, ProductionError> {
    let (old, new) = (strand::cut(production, from)?, strand::cut(production, to)?);
    let strand = strand::strand(production)?;
    let found = compare(&old, &new);
    let gauge = production.meta().gauge;
    let lines = found.changes().iter();
    Ok(ComparedDocument {
        from: from.to_owned(),
        to: to.to_owned(),
        revision: production.revision()?.number(),
        from_frames: old.frames().count(),
        to_frames: new.frames().count(),
        held: found.held().count(),
        moved: found.moved().count(),
        out: found.out().count(),
        new_frames: found.new_frames().count(),
        usual_joins: [old.usual_join().to_string(), new.usual_join().to_string()],
        changes: lines
            .map(|line| ChangeLineDocument::new(line, gauge))
            .collect(),
        stays: found.stays().iter().map(Into::into).collect(),
        beside: found.beside().iter().map(Into::into).collect(),
        from_pieces: film_view::pieces(&old, &strand),
        to_pieces: film_view::pieces(&new, &strand),
    })
}
