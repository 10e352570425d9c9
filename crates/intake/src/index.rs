//! What is kept of every file frame so that it can be found again.

use crate::{FileFrame, IntakeError, PlaneHash, Ratio};

/// One file frame as it was read.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct IndexRow {
    /// As [`FileFrame::pts`].
    pub pts: Option<i64>,
    /// As [`FileFrame::key`].
    pub key: bool,
    /// As [`FileFrame::number`].
    pub number: Option<u64>,
    /// The hash of [`FileFrame::plane`], by which the frame is known again.
    pub plane: PlaneHash,
}

impl From<&FileFrame> for IndexRow {
    fn from(frame: &FileFrame) -> Self {
        Self {
            pts: frame.pts,
            key: frame.key,
            number: frame.number,
            plane: frame.plane.hash(),
        }
    }
}

/// The rows of a whole source, row n being file frame n.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrameIndex {
    rows: Vec<IndexRow>,
    time_base: Option<Ratio>,
    /// Whether every row has a time and the times rise, so that a time names
    /// one frame.
    has_rising_times: bool,
}

impl FrameIndex {
    /// The index of a source read before: a row for each file frame, from the
    /// first, and the time base that the reading reported.
    #[must_use]
    pub fn new(rows: Vec<IndexRow>, time_base: Option<Ratio>) -> Self {
        let timed = rows.iter().all(|row| row.pts.is_some());
        let has_rising_times =
            timed && time_base.is_some() && rows.is_sorted_by(|a, b| a.pts < b.pts);
        Self {
            rows,
            time_base,
            has_rising_times,
        }
    }

    /// File frames in the index.
    #[must_use]
    pub fn frames(&self) -> u64 {
        self.rows.len() as u64
    }

    /// The rows.
    #[must_use]
    pub fn rows(&self) -> &[IndexRow] {
        &self.rows
    }

    pub(crate) fn row(&self, frame: u64) -> Result<&IndexRow, IntakeError> {
        let at = usize::try_from(frame).ok();
        at.and_then(|n| self.rows.get(n))
            .ok_or(IntakeError::NotInIndex {
                frame,
                frames: self.frames(),
            })
    }

    pub(crate) fn has_rising_times(&self) -> bool {
        self.has_rising_times
    }

    /// The last frame at or before `frame` at which decoding can begin; 0 if
    /// there is none.
    pub(crate) fn key_before(&self, frame: u64) -> u64 {
        let upto = usize::try_from(frame)
            .unwrap_or(usize::MAX)
            .min(self.rows.len().saturating_sub(1));
        self.rows
            .iter()
            .take(upto + 1)
            .rposition(|row| row.key)
            .unwrap_or(0) as u64
    }

    /// The time of a frame, and of the next key frame behind it, in seconds.
    pub(crate) fn seconds(&self, frame: u64) -> Option<f64> {
        let (row, base) = (self.row(frame).ok()?, self.time_base?);
        Some(row.pts? as f64 * base.num as f64 / base.den as f64)
    }

    pub(crate) fn key_after(&self, frame: u64) -> Option<u64> {
        let from = usize::try_from(frame).ok()?.checked_add(1)?;
        let behind = self.rows.get(from..)?.iter().position(|row| row.key)?;
        Some((from + behind) as u64)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn row(pts: Option<i64>, key: bool) -> IndexRow {
        IndexRow {
            pts,
            key,
            number: None,
            plane: PlaneHash::from_bits(0),
        }
    }

    #[test]
    fn keys_and_times() {
        let rows = vec![
            row(Some(-2), false),
            row(Some(0), true),
            row(Some(3), false),
            row(Some(4), true),
        ];
        let index = FrameIndex::new(rows.clone(), Some(Ratio { num: 1, den: 4 }));
        assert!(index.has_rising_times());
        assert_eq!([0, 1, 2, 3].map(|n| index.key_before(n)), [0, 1, 1, 3]);
        assert_eq!((index.key_after(1), index.key_after(3)), (Some(3), None));
        assert_eq!(index.seconds(2), Some(0.75));
        assert_eq!(index.row(4).unwrap_err().code(), "intake.not_in_index");
        assert!(!FrameIndex::new(rows, None).has_rising_times());
        let base = Some(Ratio { num: 1, den: 4 });
        assert!(
            !FrameIndex::new(vec![row(Some(1), true), row(Some(1), true)], base).has_rising_times()
        );
        assert!(
            !FrameIndex::new(vec![row(Some(1), true), row(None, true)], base).has_rising_times()
        );
    }
}
