//! Strokes of a recording matched to marked frames.

use onestrand_film::{Fps, FramePos};

use crate::HearingError;
use crate::tone::in_range;

/// Which strokes may be taken.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum Strokes {
    /// Only strokes that follow one another, as the tape has them: one piece of
    /// it is laid.
    InARow,
    /// Any strokes in their order: what lies between is silenced.
    Any,
}

/// Strokes that were chosen for marked frames, and how they fit.
#[derive(Debug, Clone, PartialEq)]
pub struct StrokeFit {
    /// Which strokes, by their place in the list that was given, from 0.
    pub strokes: Vec<usize>,
    /// Where the beginning of the sound comes, when it is played at the true
    /// speed, counted from the beginning of the film. Unit: seconds; below 0
    /// when the sound would begin before the film.
    pub begins_seconds: f64,
    /// How far each stroke lies from the instant its frame begins to be shown;
    /// above 0 it is late. Unit: milliseconds.
    pub off_ms: Vec<f64>,
    /// The farthest of them, without its sign. Unit: milliseconds.
    pub worst_ms: f64,
    /// Half of the time a frame is shown. Unit: milliseconds.
    pub half_frame_ms: f64,
}

impl StrokeFit {
    /// Whether every stroke is within half a frame of its picture.
    #[must_use]
    pub fn holds(&self) -> bool {
        self.worst_ms <= self.half_frame_ms
    }
}

/// The strokes that fit marked frames best: those with the least sum of squared
/// distances, the sound being laid where that sum is least.
///
/// Unit of `heard`: seconds on the tape as it was played, forward. `play`: how
/// many times faster the tape must be played to be true ([`crate::Tone::play`]),
/// from 0.25 to 4. `marked`: running frames, forward. `speed`: of the film as it
/// is shown. The best `keep` choices come, best first; of two that fit alike the
/// earlier strokes.
///
/// # Errors
/// [`HearingError::TooFewStrokes`], [`HearingError::NotForward`] for times or
/// frames out of order, [`HearingError::OutOfRange`] for `play`, an empty list
/// of frames, or a time that is no number.
///
/// ```
/// use onestrand_film::FramePos;
/// use onestrand_hearing::{Strokes, fit_strokes};
///
/// let heard = [2.104, 3.228, 4.262, 5.292, 6.363, 7.420, 8.510];
/// let marked = [1349, 1368, 1387].map(|frame| FramePos::new(frame).unwrap_or(FramePos::ZERO));
/// let found = fit_strokes(&heard, 1.0152, &marked, "18.36".parse()?, Strokes::Any, 1)?;
/// assert_eq!(found[0].strokes, [2, 3, 4]); // the third, fourth and fifth
/// assert_eq!(format!("{:.1} of {:.1}", found[0].worst_ms, found[0].half_frame_ms), "13.5 of 27.2");
/// assert!(fit_strokes(&heard[..2], 1.0152, &marked, "18.36".parse()?, Strokes::Any, 1).is_err());
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn fit_strokes(
    heard: &[f64],
    play: f64,
    marked: &[FramePos],
    speed: Fps,
    which: Strokes,
    keep: usize,
) -> Result<Vec<StrokeFit>, HearingError> {
    in_range("how much faster the tape is played", play, 0.25, 4.0)?;
    in_range(
        "how many frames are marked",
        marked.len() as f64,
        1.0,
        10_000.0,
    )?;
    if heard.len() < marked.len() {
        return Err(HearingError::TooFewStrokes {
            heard: heard.len(),
            marked: marked.len(),
        });
    }
    let on_tape: Vec<f64> = heard.iter().map(|seconds| seconds / play).collect();
    let shown: Vec<f64> = marked
        .iter()
        .map(|frame| f64::from(frame.index()) / speed.as_f64())
        .collect();
    forward("the strokes heard", &on_tape)?;
    forward("the frames marked", &shown)?;
    let mut choices = Choices {
        on_tape: &on_tape,
        shown: &shown,
        keep: keep.max(1),
        best: Vec::new(),
    };
    // A row is cheap to try, and a good first guess keeps the search short.
    for first in 0..=on_tape.len() - shown.len() {
        let row: Vec<usize> = (first..first + shown.len()).collect();
        choices.offer(&row);
    }
    if which == Strokes::Any {
        choices.search(&mut Vec::new(), Partial::default());
    }
    let half = 500.0 / speed.as_f64();
    let found = choices.best.iter();
    Ok(found
        .map(|(_, strokes)| fit_of(strokes, &on_tape, &shown, half))
        .collect())
}

fn forward(what: &'static str, times: &[f64]) -> Result<(), HearingError> {
    if let Some(given) = times.iter().find(|time| !time.is_finite()) {
        in_range("a time", *given, f64::MIN, f64::MAX)?;
    }
    match times.windows(2).position(|pair| pair[1] <= pair[0]) {
        Some(before) => Err(HearingError::NotForward {
            what,
            at: before + 1,
        }),
        None => Ok(()),
    }
}

fn fit_of(strokes: &[usize], on_tape: &[f64], shown: &[f64], half_frame_ms: f64) -> StrokeFit {
    let gaps = || {
        strokes
            .iter()
            .zip(shown)
            .map(|(&at, time)| time - on_tape[at])
    };
    let begins_seconds = gaps().sum::<f64>() / shown.len() as f64;
    let off_ms: Vec<f64> = gaps().map(|gap| 1000.0 * (begins_seconds - gap)).collect();
    let worst_ms = off_ms
        .iter()
        .fold(0.0, |worst: f64, off| worst.max(off.abs()));
    StrokeFit {
        strokes: strokes.to_vec(),
        begins_seconds,
        off_ms,
        worst_ms,
        half_frame_ms,
    }
}

/// Distances of the strokes chosen so far: how many, their sum and squares, each
/// measured from the first so that no figure is large.
#[derive(Debug, Clone, Copy, Default)]
struct Partial {
    count: f64,
    sum: f64,
    squares: f64,
    first: f64,
}

impl Partial {
    fn with(self, gap: f64) -> Self {
        let first = if self.count == 0.0 { gap } else { self.first };
        let from_first = gap - first;
        Self {
            count: self.count + 1.0,
            sum: self.sum + from_first,
            squares: self.squares + from_first * from_first,
            first,
        }
    }

    /// The sum of squares about the mean. It never falls when a stroke is added,
    /// so what is already worse than the best need not be gone on with.
    fn worth(self) -> f64 {
        (self.squares - self.sum * self.sum / self.count.max(1.0)).max(0.0)
    }
}

struct Choices<'a> {
    on_tape: &'a [f64],
    shown: &'a [f64],
    keep: usize,
    best: Vec<(f64, Vec<usize>)>,
}

impl Choices<'_> {
    fn search(&mut self, chosen: &mut Vec<usize>, partial: Partial) {
        let at = chosen.len();
        let Some(&shown) = self.shown.get(at) else {
            self.offer(chosen);
            return;
        };
        let from = chosen.last().map_or(0, |last| last + 1);
        let to = self.on_tape.len() - (self.shown.len() - at - 1);
        for stroke in from..to {
            let next = partial.with(shown - self.on_tape[stroke]);
            if next.worth() <= self.bar() {
                chosen.push(stroke);
                self.search(chosen, next);
                chosen.pop();
            }
        }
    }

    /// What a choice must not exceed to be kept.
    fn bar(&self) -> f64 {
        match self.best.get(self.keep - 1) {
            Some((worth, _)) => *worth + 1e-15,
            None => f64::INFINITY,
        }
    }

    fn offer(&mut self, strokes: &[usize]) {
        if self.best.iter().any(|(_, known)| known == strokes) {
            return;
        }
        let pairs = strokes.iter().zip(self.shown);
        let gaps = pairs.map(|(&at, time)| time - self.on_tape[at]);
        let worth = gaps.fold(Partial::default(), Partial::with).worth();
        self.best.push((worth, strokes.to_vec()));
        self.best
            .sort_by(|a, b| a.0.total_cmp(&b.0).then_with(|| a.1.cmp(&b.1)));
        self.best.truncate(self.keep);
    }
}
