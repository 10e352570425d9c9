//! Numbers on the edge of the stock: read at a few frames, known at those between.

use onestrand_film::FramePos;

/// A number as it stands on the edge: what may stand before it, and the number that
/// goes up or down from one to the next.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Printed {
    before: String,
    number: u64,
    /// Zeros before it are kept: `0099` is followed by `0100`.
    digits: usize,
}

impl Printed {
    /// The digits at the end are the number.
    fn read(text: &str) -> Option<Self> {
        let text = text.trim();
        let digits = text.bytes().rev().take_while(u8::is_ascii_digit).count();
        let (before, number) = text.split_at(text.len() - digits);
        let number = number
            .parse()
            .ok()
            .filter(|_| (1..=MOST_DIGITS).contains(&digits))?;
        Some(Self {
            before: before.to_owned(),
            number,
            digits,
        })
    }

    fn at(&self, number: u64) -> String {
        format!("{}{number:0digits$}", self.before, digits = self.digits)
    }
}

/// More digits than any stock carries.
const MOST_DIGITS: usize = 12;

/// A number read at a frame.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct EdgeReading {
    /// The frame it stands at.
    pub at: FramePos,
    /// The number as it was read.
    pub number: String,
}

/// Why numbers that were read cannot be.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum EdgeConflict {
    /// What was read ends with no number.
    #[error("{number:?} at frame {at} ends with no number")]
    NoNumber {
        /// The frame.
        at: FramePos,
        /// What was read.
        number: String,
    },
    /// Two readings do not fit the step.
    #[error(
        "{} at frame {} and {} at frame {} do not fit: {} frames lie between them, and by the \
         step it would be {expected}",
        .first.number, .first.at, .second.number, .second.at,
        .second.at.index() - .first.at.index()
    )]
    Apart {
        /// The one nearer to the head.
        first: EdgeReading,
        /// The other.
        second: EdgeReading,
        /// Frames that would lie between them by the step.
        expected: u64,
    },
    /// What stands before the number is another.
    #[error(
        "{} at frame {} and {} at frame {} are not of one stock, and no join is known between them",
        .first.number, .first.at, .second.number, .second.at
    )]
    OtherStock {
        /// The one nearer to the head.
        first: EdgeReading,
        /// The other.
        second: EdgeReading,
    },
    /// The numbers rise, and then fall.
    #[error(
        "the numbers turn between frame {} ({}) and frame {} ({})",
        .first.at, .first.number, .second.at, .second.number
    )]
    Turns {
        /// The one nearer to the head.
        first: EdgeReading,
        /// The other.
        second: EdgeReading,
    },
}

/// The edge numbers of a roll: those read, and those that follow between two of them.
///
/// # Examples
/// ```
/// use onestrand_bench::{EdgeReading, edge_numbers};
/// use onestrand_film::FramePos;
/// let read = |at, number: &str| EdgeReading {
///     at: FramePos::new(at).unwrap(),
///     number: number.to_owned(),
/// };
/// let all = edge_numbers(20, &[read(100, "4127"), read(160, "4130")], &[]).unwrap();
/// assert_eq!(all[1], read(120, "4128"));
/// assert!(edge_numbers(40, &[read(100, "4127"), read(160, "4130")], &[]).is_err());
/// ```
///
/// `step` is how many frames lie from one number to the next, as the user says it of
/// this stock; `joins` are first frames behind joins, over which nothing follows.
/// Nothing is told beyond the first and the last reading of a stretch.
///
/// # Errors
/// [`EdgeConflict`] with the two readings that do not agree.
pub fn edge_numbers(
    step: u32,
    readings: &[EdgeReading],
    joins: &[FramePos],
) -> Result<Vec<EdgeReading>, EdgeConflict> {
    let mut sorted: Vec<(&EdgeReading, Printed)> = Vec::with_capacity(readings.len());
    for reading in readings {
        let printed = Printed::read(&reading.number).ok_or_else(|| EdgeConflict::NoNumber {
            at: reading.at,
            number: reading.number.clone(),
        })?;
        sorted.push((reading, printed));
    }
    sorted.sort_by_key(|(reading, _)| reading.at);
    let mut all: Vec<EdgeReading> = Vec::new();
    let mut rises: Option<bool> = None;
    for (i, (second, printed)) in sorted.iter().enumerate() {
        let before = i.checked_sub(1).map(|i| &sorted[i]);
        let joined = |first: &EdgeReading| joins.iter().any(|j| first.at < *j && *j <= second.at);
        match before.filter(|(first, _)| !joined(first)) {
            None => rises = None,
            Some((first, from)) => {
                let up = agree(step, (first, from), (second, printed), rises)?;
                rises = Some(up);
                between(step.max(1), (first, from), second, up, &mut all);
            }
        }
        all.push((*second).clone());
    }
    Ok(all)
}

/// Whether two readings agree; gives whether the numbers rise.
fn agree(
    step: u32,
    (first, from): (&EdgeReading, &Printed),
    (second, to): (&EdgeReading, &Printed),
    rises: Option<bool>,
) -> Result<bool, EdgeConflict> {
    let (first, second) = (first.clone(), second.clone());
    if from.before != to.before {
        return Err(EdgeConflict::OtherStock { first, second });
    }
    let expected = from
        .number
        .abs_diff(to.number)
        .saturating_mul(u64::from(step));
    if u64::from(second.at.index() - first.at.index()) != expected || expected == 0 {
        return Err(EdgeConflict::Apart {
            first,
            second,
            expected,
        });
    }
    let up = to.number > from.number;
    match rises {
        Some(was) if was != up => Err(EdgeConflict::Turns { first, second }),
        _ => Ok(up),
    }
}

fn between(
    step: u32,
    (first, from): (&EdgeReading, &Printed),
    second: &EdgeReading,
    up: bool,
    all: &mut Vec<EdgeReading>,
) {
    let begin = first.at.index();
    let places = (begin..second.at.index()).step_by(step as usize).skip(1);
    for (by, at) in (1_u64..).zip(places) {
        let number = if up {
            from.number + by
        } else {
            from.number - by
        };
        if let Ok(at) = FramePos::new(at) {
            let number = from.at(number);
            all.push(EdgeReading { at, number });
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(at: u32, number: &str) -> EdgeReading {
        EdgeReading {
            at: FramePos::new(at).expect("a frame"),
            number: number.to_owned(),
        }
    }

    fn join(at: u32) -> FramePos {
        FramePos::new(at).expect("a frame")
    }

    /// By hand: 4127 at 1,206 and 4135 at 1,366 are 8 numbers in 160 frames, 20 each; so
    /// 4128 stands at 1,226 and 4131 at 1,286.
    #[test]
    fn numbers_between_two_readings_follow() {
        let all = edge_numbers(20, &[read(1_366, "4135"), read(1_206, "4127")], &[]);
        let all = all.expect("they agree");
        assert_eq!(all.len(), 9);
        assert_eq!(all[1], read(1_226, "4128"));
        assert_eq!(all[4], read(1_286, "4131"));
        assert_eq!(
            (&all[0], &all[8]),
            (&read(1_206, "4127"), &read(1_366, "4135"))
        );
    }

    #[test]
    fn they_may_fall_and_keep_what_stands_before_them() {
        let all = edge_numbers(40, &[read(10, "KD 0101"), read(130, "KD 0098")], &[]);
        let all = all.expect("they agree");
        let told: Vec<_> = all.iter().map(|one| one.number.as_str()).collect();
        assert_eq!(told, ["KD 0101", "KD 0100", "KD 0099", "KD 0098"]);
        assert_eq!(all[2].at, join(90));
    }

    #[test]
    fn one_reading_stands_alone_and_nothing_is_told_over_a_join() {
        assert_eq!(
            edge_numbers(20, &[read(7, "4127")], &[]),
            Ok(vec![read(7, "4127")])
        );
        let apart = [read(100, "4127"), read(500, "88"), read(540, "90")];
        let all = edge_numbers(20, &apart, &[join(300)]).expect("a join parts them");
        assert_eq!(
            all,
            [
                read(100, "4127"),
                read(500, "88"),
                read(520, "89"),
                read(540, "90")
            ]
        );
    }

    #[test]
    fn what_does_not_agree_is_refused_with_both_frames() {
        let said = |step, readings: &[EdgeReading]| {
            edge_numbers(step, readings, &[])
                .expect_err("they disagree")
                .to_string()
        };
        // Three numbers of 20 frames are 60, and 61 lie between.
        let words = said(20, &[read(100, "4127"), read(161, "4130")]);
        assert_eq!(
            words,
            "4127 at frame 100 and 4130 at frame 161 do not fit: 61 frames lie between them, \
             and by the step it would be 60"
        );
        let words = said(
            20,
            &[read(100, "4127"), read(120, "4128"), read(140, "4127")],
        );
        assert_eq!(
            words,
            "the numbers turn between frame 120 (4128) and frame 140 (4127)"
        );
        let words = said(20, &[read(100, "A4127"), read(120, "B4128")]);
        assert!(words.contains("not of one stock"), "{words}");
        let words = said(20, &[read(100, "4127"), read(120, "4127")]);
        assert!(words.contains("by the step it would be 0"), "{words}");
        let words = said(20, &[read(100, "KD")]);
        assert_eq!(words, "\"KD\" at frame 100 ends with no number");
    }
}
