//! Laying one take beside another, by what moves in both.

use onestrand_film::FramePos;

use crate::cannot_tell::CannotTell;
use crate::course::{Course, Laid};
use crate::lattice::Way;
use crate::likeness::Likeness;
use crate::movement::TakeMovement;
use crate::search::{BEND, REACH, SCENE, Search, Tried, WEIGHT};
use crate::time_map::TimeMap;
use crate::tracks::{Track, WindowLight};

/// Frames over which quick change is looked at: it tells the moment more
/// closely, where there is any.
const QUICK: usize = 2;
/// Chance of a step to either side from one frame to the next.
const ASIDE: f32 = 0.2;
/// What must speak for a map: above it lies one pair in fifty of takes that
/// have nothing to do with each other, see docs/MATCHES.md.
const ENOUGH: f32 = 32.0;
/// Frames of steady movement that a take must have to be laid anywhere.
const FEWEST_MOVING: f32 = 12.0;
/// A place is told when it is known to so many frames.
pub(crate) const TOLD: f64 = 2.0;
/// So many frames must be told, or the map is of no use.
const FEWEST_TOLD: usize = 8;
/// Speeds at which the same action is played again.
const PACES: [f32; 2] = [0.8, 1.25];
/// Frames to each side over which the steps of the way are made smooth.
const SMOOTH: usize = 6;
/// No place is known better than this. Unit: frames.
const SURE: f64 = 0.2;

/// Which moments of `there` the frames of `here` show, by the pictures alone.
///
/// Both must show the same action, one of them as a part of the other's view or
/// as much of it; where the takes overlap is found too. The action may run from
/// 0.8 to 1.25 times as fast. Two takes of 700 frames need about 0.7 s.
///
/// # Errors
/// [`CannotTell`], which is an honest answer: two marks help.
pub fn lay_beside(here: &TakeMovement, there: &TakeMovement) -> Result<TimeMap, CannotTell> {
    let search = Search::new(here, there);
    let tried = search.tried();
    let Some(best) = tried.first() else {
        return Err(CannotTell::NotAlike);
    };
    let pair = Pair::new(here, there, best);
    let still = pair.still();
    let no_way = match still {
        [false, false] => CannotTell::NotAlike,
        [here, there] => CannotTell::TooLittleMovement { here, there },
    };
    let Some(first) = pair.likeness.lattice(1.0, WEIGHT).best_way(BEND) else {
        return Err(no_way);
    };
    let backwards = pair.backwards().lattice(1.0, WEIGHT).best_evidence(BEND);
    let strength = first.evidence + SCENE * best.scene - backwards;
    if strength < ENOUGH {
        let alike = first.evidence > ENOUGH && backwards > 0.5 * first.evidence;
        let either_way = alike && still == [false, false];
        return Err(if either_way {
            CannotTell::ManyPlaces
        } else {
            no_way
        });
    }
    let pace = pair.pace_of(&first);
    let lattice = pair.likeness.lattice(pace, WEIGHT);
    let way = lattice.best_way(BEND).ok_or(no_way)?;
    let framings = framings_apart(&search, &tried, &way, pace);
    let spread = lattice.spread(&way, ASIDE);
    let uncertain = spread.iter().zip(&framings);
    let uncertain: Vec<f64> = uncertain
        .map(|(&ways, &framings)| (f64::from(ways).powi(2) + framings + SURE * SURE).sqrt())
        .collect();
    if uncertain.iter().filter(|&&u| u <= TOLD).count() < FEWEST_TOLD {
        return Err(CannotTell::ManyPlaces);
    }
    Ok(map_of(&way, &uncertain, (here, there), strength))
}

/// Two takes under one framing, frame by frame.
struct Pair {
    here: [Track; 2],
    there: [Track; 2],
    likeness: Likeness,
}

impl Pair {
    fn new(here: &TakeMovement, there: &TakeMovement, best: &Tried) -> Self {
        let tracks = |take, window| {
            let light = WindowLight::of(take, window, 1);
            [light.changes(REACH), light.changes(QUICK)]
        };
        let here = tracks(here, best.framing.first);
        let there = tracks(there, best.framing.second);
        let likeness = Likeness::of(&[(&here[0], &there[0]), (&here[1], &there[1])]);
        Self {
            here,
            there,
            likeness,
        }
    }

    /// Whether hardly anything moves, here and there.
    fn still(&self) -> [bool; 2] {
        [&self.here, &self.there].map(|tracks| tracks[0].steady(REACH / 2) < FEWEST_MOVING)
    }

    /// The other take run backwards: as like by chance, and no more.
    fn backwards(&self) -> Likeness {
        let there = [0, 1].map(|n| self.there[n].backwards());
        Likeness::of(&[(&self.here[0], &there[0]), (&self.here[1], &there[1])])
    }

    /// The speed of a way on the whole, by least squares over what moves.
    fn pace_of(&self, way: &Way) -> f32 {
        let (mut weight, mut row_sum, mut column_sum) = (0.0_f64, 0.0, 0.0);
        let rows = || way.rows().zip(way.columns.iter().map(|&c| f64::from(c)));
        let moving = |row: usize| f64::from(self.here[0].moving[row]) + 0.01;
        for (row, column) in rows() {
            weight += moving(row);
            row_sum += moving(row) * row as f64;
            column_sum += moving(row) * column;
        }
        let (row_mean, column_mean) = (row_sum / weight, column_sum / weight);
        let (mut square, mut product) = (0.0, 0.0);
        for (row, column) in rows() {
            let off = row as f64 - row_mean;
            square += moving(row) * off * off;
            product += moving(row) * off * (column - column_mean);
        }
        // A dozen frames do not tell a speed.
        if way.columns.len() < 2 * SMOOTH || square <= 0.0 {
            return 1.0;
        }
        ((product / square) as f32).clamp(PACES[0], PACES[1])
    }
}

/// How far apart the framings that are nearly as good lay each frame of a way:
/// the square, in frames there.
fn framings_apart(search: &Search<'_>, tried: &[Tried], way: &Way, pace: f32) -> Vec<f64> {
    let stride = search.stride as f32;
    let best = tried[0];
    let room = 0.05 * best.score() + 2.0;
    let chance = |tried: &Tried| ((tried.score() - best.score()) / room).exp();
    let ways: Vec<(f32, Way)> = tried
        .iter()
        .take(OTHERS)
        .filter(|tried| chance(tried) > 0.05)
        .filter_map(|tried| Some((chance(tried), search.way(tried.framing, pace)?)))
        .collect();
    let Some((_, reference)) = ways.first() else {
        return vec![0.0; way.columns.len()];
    };
    let off_line = |way: &Way, row: usize| {
        let row = (row as f32 / stride).round() as usize;
        let row = row.clamp(way.first, way.rows().end - 1);
        stride * (way.columns[row - way.first] - pace * row as f32)
    };
    let apart = |row: usize| {
        let (mut weight, mut square) = (0.0_f32, 0.0_f32);
        for (chance, other) in &ways {
            weight += chance;
            square += chance * (off_line(other, row) - off_line(reference, row)).powi(2);
        }
        f64::from(square / weight)
    };
    way.rows().map(apart).collect()
}

/// Framings looked at for how sure the best is.
const OTHERS: usize = 12;

fn map_of(
    way: &Way,
    uncertain: &[f64],
    (here, there): (&TakeMovement, &TakeMovement),
    strength: f32,
) -> TimeMap {
    let begin = f64::from(there.range().begin().index());
    let last = way.columns.len() - 1;
    let laid = |n: usize| {
        // As many on either side, so that a straight way stays as it is.
        let near = n.min(last - n).min(SMOOTH);
        let columns = &way.columns[n - near..=n + near];
        let sum: f64 = columns.iter().map(|&c| f64::from(c)).sum();
        Laid {
            place: begin + sum / columns.len() as f64,
            uncertain: uncertain[n],
        }
    };
    let first = here.range().begin().index() + way.first as u32;
    let first = FramePos::new(first).unwrap_or(FramePos::MAX);
    TimeMap::found(Course::new(
        first,
        (0..=last).map(laid).collect(),
        f64::from(strength),
    ))
}
