//! Music and picture that come out together: whole bars for a sequence, joins on beats,
//! bars lifted from the music.

use crate::DubError;
use crate::dub_error::positive;

/// A join this near to a beat is on it. Unit: frames. Half a frame is what whole frames
/// can do; a move that would gain less than a tenth of a frame is not proposed.
const ON_BEAT: f64 = 0.55;

/// Frames a beat at the true speed of the projector.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn frames_per_beat(true_speed: f64, beats_a_minute: f64) -> Result<f64, DubError> {
    let speed = positive("the speed of the projector", true_speed)?;
    Ok(60.0 * speed / positive("the tempo, in beats a minute,", beats_a_minute)?)
}

/// A sequence that is to end with the music.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MusicAsked {
    /// The true speed of the projector. Unit: frames a second.
    pub speed: f64,
    /// The tempo. Unit: beats a minute.
    pub tempo: f64,
    /// Beats a bar.
    pub beats_a_bar: u32,
    /// How long the sequence is to be, as the maker wants it. Unit: frames.
    pub wanted: i64,
    /// The shortest it may be.
    pub shortest: i64,
    /// The longest it may be: the handles.
    pub longest: i64,
}

/// The length that ends with a bar.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MusicFit {
    /// How long. Unit: frames.
    pub frames: i64,
    /// How many beats that is.
    pub beats: f64,
    /// The bar that closes there, counted from 1.
    pub bar: i64,
    /// How far the end lies behind the close of that bar; negative before it. Unit: frames.
    pub off: f64,
}

/// The whole bar whose close lies nearest to the length that is wanted, inside the handles;
/// nothing where no bar closes there.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn music_fit(asked: &MusicAsked) -> Result<Option<MusicFit>, DubError> {
    let beat = frames_per_beat(asked.speed, asked.tempo)?;
    let bar = beat * positive("beats a bar", f64::from(asked.beats_a_bar))?;
    let first = ((asked.shortest as f64 / bar).floor() as i64).max(1);
    let last = ((asked.longest as f64 / bar).ceil() as i64).max(first);
    let fits = (first..=last).map(|closes| {
        let exact = closes as f64 * bar;
        let frames = exact.round() as i64;
        MusicFit {
            frames,
            beats: frames as f64 / beat,
            bar: closes,
            off: frames as f64 - exact,
        }
    });
    let inside = fits.filter(|fit| (asked.shortest..=asked.longest).contains(&fit.frames));
    Ok(inside.min_by_key(|fit| (fit.frames - asked.wanted).abs()))
}

/// A piece of a sequence, and how far it may be changed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct SequencePiece {
    /// How long it is. Unit: frames.
    pub frames: i64,
    /// By how much it may become shorter.
    pub shorter: i64,
    /// By how much it may become longer: the handles that lie unused.
    pub longer: i64,
}

/// A join of a sequence on its beat.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct MovedJoin {
    /// Where it is, counted from the head of the sequence. Unit: frames.
    pub at: i64,
    /// Where that is in the music. Unit: beats.
    pub beats: f64,
    /// By how much it moves; negative is earlier. Unit: frames.
    pub by: i64,
    /// Whether it then lies on a beat.
    pub on_beat: bool,
}

/// All joins of a sequence.
#[derive(Debug, Clone, PartialEq)]
pub struct BeatPlan {
    /// The inner joins, in order.
    pub joins: Vec<MovedJoin>,
    /// All moves together. Unit: frames.
    pub moved: i64,
    /// Joins that find no beat inside the handles.
    pub off_beat: usize,
}

/// Ways a join may go: by how much, and whether it is then on a beat.
fn ways(at: i64, beat: f64, reach: i64) -> Vec<(i64, bool)> {
    let off = |place: i64| {
        let beats = (place as f64 / beat).round();
        (place as f64 - beats * beat).abs()
    };
    let mut ways = vec![(0, off(at) <= ON_BEAT)];
    let first = ((at - reach) as f64 / beat).floor() as i64;
    let last = ((at + reach) as f64 / beat).ceil() as i64;
    for nth in first..=last {
        let by = (nth as f64 * beat).round() as i64 - at;
        if by != 0 && by.abs() <= reach {
            ways.push((by, true));
        }
    }
    ways
}

/// Puts the inner joins of a sequence on beats: as many as the handles allow, and then with
/// the fewest frames moved. The two ends stay. Exact: by dynamic programming over joins and
/// beats.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn joins_on_beats(
    pieces: &[SequencePiece],
    true_speed: f64,
    tempo: f64,
) -> Result<BeatPlan, DubError> {
    let beat = frames_per_beat(true_speed, tempo)?;
    let reach = (1.5 * beat).ceil() as i64;
    let mut at = 0;
    let inner = pieces.iter().map(|piece| {
        at += piece.frames;
        at
    });
    let places: Vec<i64> = inner.take(pieces.len().saturating_sub(1)).collect();
    // For each way of the join before: off beat so far, frames moved, ways chosen.
    let mut so_far = vec![(0_i64, (0_usize, 0_i64), Vec::<usize>::new())];
    let mut all_ways = Vec::with_capacity(places.len());
    for (nth, place) in places.iter().enumerate() {
        let ways = ways(*place, beat, reach);
        let mut next = Vec::with_capacity(ways.len());
        for (which, (by, on)) in ways.iter().enumerate() {
            let from = so_far
                .iter()
                .filter(|(before, ..)| fits(&pieces[nth], by - before));
            let best = from.min_by_key(|(_, cost, _)| *cost);
            if let Some((_, (off, moved), chosen)) = best {
                let mut chosen = chosen.clone();
                chosen.push(which);
                let cost = (off + usize::from(!on), moved + by.abs());
                next.push((*by, cost, chosen));
            }
        }
        all_ways.push(ways);
        so_far = next;
    }
    let end = pieces.last();
    let last = so_far
        .into_iter()
        .filter(|(by, ..)| end.is_none_or(|piece| fits(piece, -by)))
        .min_by_key(|(_, cost, _)| *cost);
    // To leave all joins where they are is always a way.
    let (cost, chosen) = last.map_or(((0, 0), Vec::new()), |(_, cost, chosen)| (cost, chosen));
    let joins = places.iter().zip(&all_ways).zip(&chosen);
    let joins = joins.map(|((at, ways), which)| MovedJoin {
        at: *at,
        beats: *at as f64 / beat,
        by: ways[*which].0,
        on_beat: ways[*which].1,
    });
    Ok(BeatPlan {
        joins: joins.collect(),
        moved: cost.1,
        off_beat: cost.0,
    })
}

/// Whether a piece may change its length by so much and is still there.
fn fits(piece: &SequencePiece, by: i64) -> bool {
    by == 0 || (-piece.shorter <= by && by <= piece.longer && piece.frames + by > 0)
}

/// Bars that are lifted from the music so that it ends with the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct BarsLifted {
    /// The first bar that goes, counted from 1.
    pub from: u32,
    /// How many.
    pub bars: u32,
    /// By how much the music then ends behind the picture; negative before it. Unit: frames.
    pub off: f64,
}

/// Which bars to lift from music of so many bars, so that it ends nearest to a picture of so
/// many frames: whole phrases of four begin and end it, where there are enough. Nothing where
/// the music as it is ends nearest, or would not be left.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn bars_to_lift(asked: &MusicAsked, bars: u32) -> Result<Option<BarsLifted>, DubError> {
    let beat = frames_per_beat(asked.speed, asked.tempo)?;
    let bar = beat * positive("beats a bar", f64::from(asked.beats_a_bar))?;
    let over = f64::from(bars) * bar - asked.wanted as f64;
    let lift = (over / bar).round();
    if lift < 1.0 || lift >= f64::from(bars) {
        return Ok(None);
    }
    let lifted = lift as u32;
    let left = bars - lifted;
    // The ending stays; what goes begins where a phrase ends, as near the middle as may be.
    let phrases = left / 4;
    let before = match phrases {
        0 => left / 2,
        phrases => 4 * (phrases.div_ceil(2)),
    };
    Ok(Some(BarsLifted {
        from: before + 1,
        bars: lifted,
        off: over - lift * bar,
    }))
}
