//! A disk that fills up while a finish is made: said in plain words.

use std::fs;
use std::io::ErrorKind;
use std::path::Path;

use onestrand_intake::IntakeError;

use crate::parts::parts_of;
use crate::{FinishError, FinishPlan};

/// What the system says, and FFmpeg after it, when a disk is full (POSIX, `ENOSPC`), or
/// when this user may put no more on it (`EDQUOT`).
const FULL: [&str; 2] = ["No space left on device", "Disk quota exceeded"];

/// A failure as what it is where the disk was full: which disk, and how much room the rest
/// takes, reckoned by what `made` places have taken. The finish is put together out of its
/// parts, so it needs its room twice.
pub(crate) fn said_if_full(problem: FinishError, plan: &FinishPlan, made: u64) -> FinishError {
    let is_full = match &problem {
        FinishError::Intake(IntakeError::ChildFailed { said, .. }) => {
            FULL.iter().any(|words| said.contains(words))
        }
        FinishError::File { source, .. } => matches!(
            source.kind(),
            ErrorKind::StorageFull | ErrorKind::QuotaExceeded
        ),
        _ => false,
    };
    if !is_full {
        return problem;
    }
    let folder = plan.path.parent().unwrap_or(Path::new("."));
    FinishError::DiskFull {
        folder: folder.to_owned(),
        needed: needed(taken(&parts_of(&plan.path)), made, plan.places.len() as u64),
    }
}

/// What the rest takes; none while nothing is made to reckon by. Unit: bytes.
fn needed(taken: u64, made: u64, places: u64) -> Option<u64> {
    if made == 0 || taken == 0 {
        return None;
    }
    let all = u128::from(taken) * u128::from(places) / u128::from(made);
    let all = u64::try_from(all).unwrap_or(u64::MAX);
    Some(all.saturating_mul(2).saturating_sub(taken))
}

/// Bytes of the whole parts that stay.
fn taken(folder: &Path) -> u64 {
    let files = fs::read_dir(folder).into_iter().flatten().flatten();
    let sizes = files.filter_map(|file| file.metadata().ok());
    sizes.map(|about| about.len()).sum()
}

#[cfg(test)]
mod tests {
    use super::needed;

    #[test]
    fn the_rest_is_reckoned_by_what_is_made() {
        // A tenth has taken 30: the parts take 300, the whole another 300, 30 are there.
        assert_eq!(needed(30, 10, 100), Some(570));
        assert_eq!(needed(0, 0, 100), None);
    }
}
