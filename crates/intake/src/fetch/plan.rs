//! Which frames are fetched by one process, and where it begins.

use crate::{FrameIndex, IntakeError, Source};

/// Frames worth decoding for nothing rather than starting another process
/// (measured: a start costs 80–180 ms, a frame of 1440×1080 5–50 ms).
const SKIP_MOST: u64 = 12;
/// Stretches of frames in one process; each is a term of a filter expression.
const STRETCHES_MOST: usize = 48;
/// Pictures of a run in one process; each is a link in a folder.
const PICTURES_MOST: usize = 4096;

/// Where decoding begins.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Start {
    /// At this key frame; frames are found by their time.
    Key(u64),
    /// At the beginning of the file; frames are found by their time.
    BeginningByTime,
    /// At the beginning of the file; frames are counted.
    BeginningByCount,
    /// The pictures of a run, each a file of its own.
    Pictures,
}

/// Frames fetched together, and the starts to try in order.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Group {
    pub(super) frames: Vec<u64>,
    pub(super) starts: Vec<Start>,
}

pub(super) fn plan(
    source: &Source,
    index: &FrameIndex,
    wanted: &[u64],
) -> Result<Vec<Group>, IntakeError> {
    check(index, wanted)?;
    if source.sequence().is_some() {
        let pictures = |frames: &[u64]| Group {
            frames: frames.to_vec(),
            starts: vec![Start::Pictures],
        };
        return Ok(wanted.chunks(PICTURES_MOST).map(pictures).collect());
    }
    if !index.has_rising_times() {
        let starts = vec![Start::BeginningByCount];
        let all = Group {
            frames: wanted.to_vec(),
            starts,
        };
        return Ok(if wanted.is_empty() {
            Vec::new()
        } else {
            vec![all]
        });
    }
    Ok(group_by_keys(index, wanted))
}

fn check(index: &FrameIndex, wanted: &[u64]) -> Result<(), IntakeError> {
    for pair in wanted.windows(2) {
        if pair[1] <= pair[0] {
            return Err(IntakeError::OutOfOrder { frame: pair[1] });
        }
    }
    wanted
        .last()
        .map_or(Ok(()), |last| index.row(*last).map(|_| ()))
}

fn group_by_keys(index: &FrameIndex, wanted: &[u64]) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    let mut stretches = 0;
    let mut last = None;
    for frame in wanted.iter().copied() {
        let key = index.key_before(frame);
        let is_next = last.is_some_and(|last| last + 1 == frame);
        let joins = last
            .is_some_and(|last| is_next || (key <= last + SKIP_MOST && stretches < STRETCHES_MOST));
        match groups.last_mut().filter(|_| joins) {
            Some(group) => group.frames.push(frame),
            None => {
                groups.push(Group {
                    frames: vec![frame],
                    starts: starts_for(index, key),
                });
                stretches = 0;
            }
        }
        if !is_next {
            stretches += 1;
        }
        last = Some(frame);
    }
    groups
}

/// The key frame itself, the one before the one before it, the beginning.
fn starts_for(index: &FrameIndex, key: u64) -> Vec<Start> {
    let mut starts = Vec::new();
    if key > 0 {
        starts.push(Start::Key(key));
        let earlier = index.key_before(index.key_before(key - 1).saturating_sub(1));
        if earlier > 0 {
            starts.push(Start::Key(earlier));
        }
    }
    starts.extend([Start::BeginningByTime, Start::BeginningByCount]);
    starts
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{IndexRow, PlaneHash, Ratio};

    fn index(keys_every: usize, frames: usize) -> FrameIndex {
        let row = |n: usize| IndexRow {
            pts: i64::try_from(n).ok(),
            key: n.is_multiple_of(keys_every),
            number: None,
            plane: PlaneHash::from_bits(n as u64),
        };
        FrameIndex::new(
            (0..frames).map(row).collect(),
            Some(Ratio { num: 1, den: 18 }),
        )
    }

    fn frames(groups: &[Group]) -> Vec<Vec<u64>> {
        groups.iter().map(|g| g.frames.clone()).collect()
    }

    #[test]
    fn frames_of_one_group_of_pictures_share_a_process() {
        let index = index(50, 500);
        let groups = group_by_keys(&index, &[3, 40, 55, 130, 449]);
        assert_eq!(frames(&groups), [vec![3, 40, 55], vec![130], vec![449]]);
        assert_eq!(
            groups[0].starts,
            [Start::BeginningByTime, Start::BeginningByCount]
        );
        let begin = [Start::BeginningByTime, Start::BeginningByCount];
        assert_eq!(groups[1].starts, [&[Start::Key(100)][..], &begin].concat());
        assert_eq!(
            groups[2].starts,
            [&[Start::Key(400), Start::Key(300)][..], &begin].concat()
        );
    }

    #[test]
    fn many_stretches_are_split_but_never_a_stretch() {
        let index = index(1, 1000);
        let scattered: Vec<u64> = (0..100).map(|n| n * 3).collect();
        let groups = group_by_keys(&index, &scattered);
        assert_eq!(
            groups.iter().map(|g| g.frames.len()).collect::<Vec<_>>(),
            [48, 48, 4]
        );
        let run: Vec<u64> = (100..900).collect();
        assert_eq!(group_by_keys(&index, &run).len(), 1);
    }

    #[test]
    fn the_frames_wanted_must_rise_and_be_there() {
        let index = index(10, 20);
        assert_eq!(
            check(&index, &[1, 1]).unwrap_err().code(),
            "intake.out_of_order"
        );
        assert_eq!(
            check(&index, &[20]).unwrap_err().code(),
            "intake.not_in_index"
        );
        assert!(check(&index, &[]).is_ok());
    }
}
