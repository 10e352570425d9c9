//! Where two scans of one roll show the same frames at their seam.

use std::collections::VecDeque;

use onestrand_intake::Plane;

use crate::documents::WarningDocument;

/// Frames at a seam that are looked at: over two seconds of film.
pub(crate) const SEAM: usize = 48;

/// The shortest overlap that is told from chance.
const SHORTEST: usize = 3;

/// How much less two pictures of one frame differ than two neighbours do, at
/// least. Grain, dust and weave change on every film frame; between two scans
/// of the same frame only the scanner's own noise does.
const LIKENESS: f64 = 0.5;

/// The last frames of a part.
#[derive(Debug, Default)]
pub(crate) struct Tail(VecDeque<Plane>);

impl Tail {
    pub(crate) fn push(&mut self, plane: &Plane) {
        if self.0.len() == SEAM {
            self.0.pop_front();
        }
        self.0.push_back(plane.clone());
    }

    /// How many of the first frames of the next part are the last of this one.
    ///
    /// The count whose pictures differ least is taken, if they differ by less
    /// than half of what neighbours differ. Where nothing moves at the seam
    /// neighbours do not differ either, and no overlap is claimed.
    pub(crate) fn overlap(&self, head: &[Plane]) -> usize {
        let neighbours = mean(self.0.iter().zip(self.0.iter().skip(1)));
        let most = self.0.len().min(head.len());
        let best = (SHORTEST..=most)
            .map(|count| {
                let tail = self.0.iter().skip(self.0.len() - count);
                (count, mean(tail.zip(&head[..count])))
            })
            .min_by(|a, b| a.1.total_cmp(&b.1));
        match best {
            Some((count, difference)) if difference < neighbours * LIKENESS => count,
            _ => 0,
        }
    }
}

/// Mean difference of pairs. Unit: grey levels.
fn mean<'a>(pairs: impl Iterator<Item = (&'a Plane, &'a Plane)>) -> f64 {
    let (mut sum, mut count) = (0_u64, 0_u64);
    for (a, b) in pairs {
        // Every third pixel is enough to tell frames apart.
        for (x, y) in a.bytes().iter().zip(b.bytes()).step_by(3) {
            sum += u64::from(x.abs_diff(*y));
            count += 1;
        }
    }
    sum as f64 / count.max(1) as f64
}

/// What is said of frames that two files of a roll share.
pub(crate) fn overlap_warning(part: u32, frames: usize) -> WarningDocument {
    WarningDocument {
        code: "production.overlap".to_owned(),
        message: format!(
            "the first {frames} frames of file {} are the last of file {part}; they are counted once",
            part + 1
        ),
        hint: "look at the seam; if the film really stands still there, bring the files in as one"
            .to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Frame n of a made-up roll: a slope that moves, and its own grain.
    fn frame(n: u64, noise: u64) -> Plane {
        let mut state = n.wrapping_mul(0x9e37_79b9_7f4a_7c15) | 1;
        let bytes = (0..Plane::BYTES as u64)
            .map(|i| {
                state = state
                    .wrapping_mul(6_364_136_223_846_793_005)
                    .wrapping_add(noise);
                let slope = (i % 192 + n * 3) % 192;
                u8::try_from(30 + slope / 2 + (state >> 60)).expect("in range")
            })
            .collect();
        Plane::from_bytes(bytes).expect("a plane")
    }

    fn tail(frames: std::ops::Range<u64>) -> Tail {
        let mut tail = Tail::default();
        frames.for_each(|n| tail.push(&frame(n, 1)));
        tail
    }

    fn head(frames: std::ops::Range<u64>) -> Vec<Plane> {
        frames.map(|n| frame(n, 1)).collect()
    }

    #[test]
    fn the_overlap_is_found_to_the_frame() {
        for count in [3, 10, 48] {
            let begin = 100 - count as u64;
            assert_eq!(tail(0..100).overlap(&head(begin..begin + 60)), count);
        }
    }

    #[test]
    fn scans_that_follow_each_other_do_not_overlap() {
        assert_eq!(tail(0..100).overlap(&head(100..160)), 0);
        assert_eq!(tail(0..100).overlap(&head(500..560)), 0);
        assert_eq!(tail(0..2).overlap(&head(0..2)), 0);
    }

    #[test]
    fn where_nothing_moves_nothing_is_claimed() {
        let still = Plane::from_bytes(vec![9; Plane::BYTES]).expect("a plane");
        let mut tail = Tail::default();
        (0..60).for_each(|_| tail.push(&still));
        assert_eq!(tail.overlap(&vec![still; 60]), 0);
    }
}
