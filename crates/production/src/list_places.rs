//! Numbers by which the parts of a list stand in order, with room between.

/// Room left between two parts, so that others can be put between them.
pub(crate) const STEP: i64 = 1 << 20;

/// A number between two others, or beyond the one there is; none where no room is left.
pub(crate) fn between(low: Option<i64>, high: Option<i64>) -> Option<i64> {
    match (low, high) {
        (None, None) => Some(0),
        (Some(low), None) => low.checked_add(STEP),
        (None, Some(high)) => high.checked_sub(STEP),
        (Some(low), Some(high)) => (high - low > 1).then(|| low + (high - low) / 2),
    }
}

/// Where something stands behind another part of a list.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Behind {
    /// There is room: its number.
    Room(i64),
    /// There is none: all stand anew, and it is the nth of them, from 0.
    Anew(usize),
}

/// The place behind a part of a list, whose parts are given as (its name, its number) in
/// order: the last when none is said, the first for 0; nothing when there is no such part.
pub(crate) fn behind(parts: &[(i64, i64)], after: Option<i64>) -> Option<Behind> {
    let at = match after {
        None => parts.len(),
        Some(0) => 0,
        Some(after) => 1 + parts.iter().position(|(name, _)| *name == after)?,
    };
    let low = at.checked_sub(1).map(|at| parts[at].1);
    let high = parts.get(at).map(|part| part.1);
    Some(between(low, high).map_or(Behind::Anew(at), Behind::Room))
}

/// The number of the nth part of a list that stands anew, from 0.
pub(crate) fn anew(nth: usize) -> i64 {
    i64::try_from(nth).unwrap_or(i64::MAX).saturating_mul(STEP)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn room_is_halved_until_none_is_left() {
        let (low, mut high, mut times) = (anew(0), anew(1), 0);
        while let Some(place) = between(Some(low), Some(high)) {
            assert!(low < place && place < high);
            (high, times) = (place, times + 1);
        }
        assert_eq!(times, 20);
        assert_eq!(between(None, Some(i64::MIN)), None);
        assert_eq!(between(None, None), Some(0));
    }
}
