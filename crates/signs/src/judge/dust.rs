//! Specks on the frames of a take.

use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{Sign, SignKind};
use crate::spans::{greatest, middle};

/// Shortest take that is asked.
const SHORTEST: usize = 6;

pub(super) fn of_take(record: &SignRecord, take: &Take, limits: &SignLimits) -> Option<Sign> {
    // The first and the last frame have no neighbour on one side.
    let inner = take.span.start + 1..take.span.end.saturating_sub(1);
    if inner.len() < SHORTEST {
        return None;
    }
    let specks = |at: usize| record.frames[at].specks.map_or(f32::NAN, f32::from);
    let known = inner.clone().filter(|&at| !specks(at).is_nan()).count();
    if known < SHORTEST || 2 * known < inner.len() {
        return None;
    }
    // A figure that darts leaves specks on a few frames: the middle frame
    // counts, with the mean of the quieter half to tell small numbers apart.
    let usual = middle(inner.clone().map(specks));
    let quiet: Vec<f32> = inner.clone().map(specks).filter(|n| *n <= usual).collect();
    let below = quiet.iter().sum::<f32>() / quiet.len().max(1) as f32;
    let measure = 0.5 * (usual + below);
    (measure >= limits.dust_above).then(|| {
        let most = greatest(inner.clone(), specks);
        let least = greatest(inner, |at| -specks(at));
        Sign::new(SignKind::Dust, take.span.clone(), measure).beside(most, least)
    })
}
