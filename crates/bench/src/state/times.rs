//! How long the acts take at this bench, learned from the ticks.

use onestrand_film::Gauge;

use super::Deed;
use crate::BenchTimes;

/// One line of the log by the clock.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Tick {
    /// Since the line before. Unit: seconds.
    pub seconds: f64,
    /// What was done.
    pub kind: TickKind,
    /// Frames wound for it.
    pub wound: u64,
}

/// The kinds of deeds that take time of their own.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub enum TickKind {
    /// A cut, and the winding that led to it.
    Cut,
    /// A join.
    Join,
    /// A roll put on.
    Mount,
    /// Wound without a cut.
    Wind,
    /// Anything else.
    Other,
}

impl TickKind {
    /// The kind of a deed.
    #[must_use]
    pub const fn of(deed: &Deed) -> Self {
        match deed {
            Deed::Cut { .. } => Self::Cut,
            Deed::Join { .. } => Self::Join,
            Deed::Mount { .. } => Self::Mount,
            Deed::Wind { .. } => Self::Wind,
            _ => Self::Other,
        }
    }
}

/// Times learned, and of how many ticks each; 0 where the usual time stands
/// because there were too few.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct LearnedTimes {
    /// The times.
    pub times: BenchTimes,
    /// Ticks that the time of a cut was learned from.
    pub cuts: usize,
    /// Of a join.
    pub joins: usize,
    /// Of a mounting.
    pub mountings: usize,
    /// Of a foot wound.
    pub feet: usize,
}

/// Ticks of a kind that are wanted before anything is learned from them.
pub const FEWEST_TICKS: usize = 5;

/// Longer than this is a pause and no work. Unit: seconds.
pub const LONGEST_TICK: f64 = 600.0;

/// Ticks with winding that a line is laid through, the last ones: every two of
/// them are compared.
const MOST_COMPARED: usize = 300;

impl LearnedTimes {
    /// What these ticks say, the oldest first. Each time is a median, so that a
    /// telephone call or a double tap does not spoil it; pauses of more than ten
    /// minutes are left out.
    #[must_use]
    pub fn of(ticks: &[Tick], gauge: Gauge) -> Self {
        let is_work = |t: &&Tick| t.seconds > 0.0 && t.seconds <= LONGEST_TICK;
        let ticks: Vec<&Tick> = ticks.iter().filter(is_work).collect();
        let per_foot = f64::from(gauge.spec().frames_per_foot);
        let feet = |t: &Tick| t.wound as f64 / per_foot;
        let mut learned = Self::default();
        let wound = |t: &&&Tick| matches!(t.kind, TickKind::Cut | TickKind::Wind) && t.wound > 0;
        let with_winding = ticks.iter().filter(wound);
        let points: Vec<(TickKind, f64, f64)> =
            with_winding.map(|t| (t.kind, feet(t), t.seconds)).collect();
        if let Some((seconds, from)) = seconds_a_foot(&points) {
            learned.times.foot_seconds = whole(seconds);
            learned.feet = from;
        }
        let foot = f64::from(learned.times.foot_seconds);
        let of_kind = |kind: TickKind| {
            let of_kind = ticks.iter().filter(|t| t.kind == kind);
            let apart = of_kind.map(|t| match kind {
                TickKind::Cut => (t.seconds - feet(t) * foot).max(0.0),
                _ => t.seconds,
            });
            let mut seconds: Vec<f64> = apart.collect();
            let from = seconds.len();
            (from >= FEWEST_TICKS).then(|| (whole(median(&mut seconds)).max(1), from))
        };
        if let Some((seconds, from)) = of_kind(TickKind::Cut) {
            (learned.times.cut_seconds, learned.cuts) = (seconds, from);
        }
        if let Some((seconds, from)) = of_kind(TickKind::Join) {
            (learned.times.join_seconds, learned.joins) = (seconds, from);
        }
        if let Some((seconds, from)) = of_kind(TickKind::Mount) {
            (learned.times.mount_seconds, learned.mountings) = (seconds, from);
        }
        learned
    }
}

/// Seconds for one foot: the median slope between every two ticks of a kind that
/// wound at least a foot more or less, and the ticks it is learned from.
fn seconds_a_foot(points: &[(TickKind, f64, f64)]) -> Option<(f64, usize)> {
    let points = &points[points.len().saturating_sub(MOST_COMPARED)..];
    let mut slopes = Vec::new();
    for (i, (kind, feet, seconds)) in points.iter().enumerate() {
        for (other_kind, other_feet, other_seconds) in &points[i + 1..] {
            let more = other_feet - feet;
            if kind == other_kind && more.abs() >= 1.0 {
                slopes.push((other_seconds - seconds) / more);
            }
        }
    }
    let enough = points.len() >= FEWEST_TICKS && slopes.len() >= FEWEST_TICKS;
    enough.then(|| (median(&mut slopes).max(0.0), points.len()))
}

fn median(values: &mut [f64]) -> f64 {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    match values.len() % 2 {
        _ if values.is_empty() => 0.0,
        1 => values[middle],
        _ => values[middle - 1].midpoint(values[middle]),
    }
}

/// Rounded to whole seconds, of which a pause holds few.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "between 0 and the longest tick"
)]
fn whole(seconds: f64) -> u32 {
    seconds.clamp(0.0, LONGEST_TICK).round() as u32
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tick(kind: TickKind, seconds: f64, wound: u64) -> Tick {
        Tick {
            seconds,
            kind,
            wound,
        }
    }

    /// Cuts at 20 seconds and 2 more for each foot of Super 8 wound.
    fn cuts(count: u64) -> Vec<Tick> {
        let cut = |i: u64| {
            let feet = i % 7;
            tick(TickKind::Cut, 20.0 + 2.0 * feet as f64, feet * 72)
        };
        (0..count).map(cut).collect()
    }

    #[test]
    fn cut_and_foot_are_told_apart() {
        let learned = LearnedTimes::of(&cuts(14), Gauge::Super8);
        assert_eq!(learned.times.cut_seconds, 20);
        assert_eq!(learned.times.foot_seconds, 2);
        assert_eq!((learned.cuts, learned.feet), (14, 12));
    }

    #[test]
    fn a_telephone_call_and_a_night_do_not_spoil_it() {
        let mut ticks = cuts(21);
        ticks[3].seconds = 590.0;
        ticks[9].seconds = 40_000.0;
        ticks[12].seconds = 0.5;
        let learned = LearnedTimes::of(&ticks, Gauge::Super8);
        assert_eq!((learned.times.cut_seconds, learned.cuts), (20, 20));
        assert_eq!(learned.times.foot_seconds, 2);
    }

    #[test]
    fn of_four_nothing_is_learned_and_of_five_the_middle() {
        let joins = [80.0, 95.0, 90.0, 300.0, 85.0].map(|s| tick(TickKind::Join, s, 0));
        let few = LearnedTimes::of(&joins[..4], Gauge::Super8);
        assert_eq!(few, LearnedTimes::default());
        let learned = LearnedTimes::of(&joins, Gauge::Super8);
        assert_eq!((learned.times.join_seconds, learned.joins), (90, 5));
        assert_eq!(
            learned.times.mount_seconds,
            BenchTimes::default().mount_seconds
        );
        assert_eq!((learned.cuts, learned.mountings, learned.feet), (0, 0, 0));
    }

    #[test]
    fn winding_that_is_all_alike_says_nothing_of_a_foot() {
        let ticks = [30.0; 9].map(|s| tick(TickKind::Cut, s, 144));
        let learned = LearnedTimes::of(&ticks, Gauge::Super8);
        assert_eq!((learned.feet, learned.times.foot_seconds), (0, 1));
        assert_eq!(learned.times.cut_seconds, 28);
    }
}
