//! Laying one take beside another, by what moves in both.

use onestrand_film::FramePos;

use crate::cannot_tell::CannotTell;
use crate::course::{Course, Laid};
use crate::lattice::{Lattice, Way};
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
/// Takes longer than so many frames are laid on every second frame, or third:
/// memory is bounded, and a part of a frame is told all the same.
const LONGEST: usize = 1200;
/// No place is known better than this. Unit: frames.
const SURE: f64 = 0.2;

/// Which moments of `there` the frames of `here` show, by the pictures alone.
///
/// Both must show the same action, one of them as a part of the other's view or
/// as much of it; where the takes overlap is found too. The action may run from
/// 0.8 to 1.25 times as fast. Two takes of 700 frames need about 0.7 s and 30 MB;
/// no takes need more than 100 MB.
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
    let Some(first) = pair.lattice(1.0).best_way(BEND) else {
        return Err(no_way);
    };
    let backwards = pair.backwards();
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
    let lattice = pair.lattice(pace);
    let way = lattice.best_way(BEND).ok_or(no_way)?;
    let framings = framings_apart(&search, &tried, (&way, pair.stride), pace);
    let spread = lattice.spread(&way, ASIDE);
    let uncertain = spread.iter().zip(&framings);
    let uncertain: Vec<f64> = uncertain
        .map(|(&ways, &framings)| {
            let ways = f64::from(ways) * pair.stride as f64;
            (ways * ways + framings + SURE * SURE).sqrt()
        })
        .collect();
    let told = uncertain.iter().filter(|&&u| u <= TOLD).count() * pair.stride;
    if told < FEWEST_TOLD {
        return Err(CannotTell::ManyPlaces);
    }
    let course = pair.course(&way, &uncertain);
    let first = here.range().begin().index() + (way.first * pair.stride) as u32;
    let first = FramePos::new(first).unwrap_or(FramePos::MAX);
    let begin = f64::from(there.range().begin().index());
    Ok(TimeMap::found(Course::new(
        first,
        course
            .map(|laid| Laid {
                place: begin + laid.place,
                ..laid
            })
            .collect(),
        f64::from(strength),
    )))
}

/// Two takes under one framing, frame by frame, or on every few frames when
/// they are long.
struct Pair {
    stride: usize,
    here: [Track; 2],
    there: [Track; 2],
    likeness: Likeness,
}

impl Pair {
    fn new(here: &TakeMovement, there: &TakeMovement, best: &Tried) -> Self {
        let stride = here.frames().max(there.frames()).div_ceil(LONGEST);
        let tracks = |take, window| {
            let light = WindowLight::of(take, window, stride);
            [REACH, QUICK].map(|reach| light.changes((reach / stride).max(1)))
        };
        let here = tracks(here, best.framing.first);
        let there = tracks(there, best.framing.second);
        let likeness = Likeness::of(&[(&here[0], &there[0]), (&here[1], &there[1])]);
        Self {
            stride,
            here,
            there,
            likeness,
        }
    }

    fn lattice(&self, pace: f32) -> Lattice {
        self.likeness.lattice(pace, WEIGHT * self.stride as f32)
    }

    /// Whether hardly anything moves, here and there.
    fn still(&self) -> [bool; 2] {
        let later = (REACH / 2 / self.stride).max(1);
        let frames = |tracks: &[Track; 2]| tracks[0].steady(later) * self.stride as f32;
        [&self.here, &self.there].map(|tracks| frames(tracks) < FEWEST_MOVING)
    }

    /// What speaks for the other take run backwards: that is alike by chance.
    fn backwards(&self) -> f32 {
        let there = [0, 1].map(|n| self.there[n].backwards());
        let likeness = Likeness::of(&[(&self.here[0], &there[0]), (&self.here[1], &there[1])]);
        let lattice = likeness.lattice(1.0, WEIGHT * self.stride as f32);
        lattice.best_evidence(BEND)
    }

    /// A way made smooth, frame by frame. Unit of its places: frames of the
    /// other take.
    fn course(&self, way: &Way, uncertain: &[f64]) -> impl Iterator<Item = Laid> {
        let last = way.columns.len() - 1;
        let smooth = |n: usize| {
            // As many on either side, so that a straight way stays as it is.
            let near = n.min(last - n).min(SMOOTH);
            let columns = &way.columns[n - near..=n + near];
            let sum: f64 = columns.iter().map(|&c| f64::from(c)).sum();
            sum / columns.len() as f64
        };
        let smooth: Vec<f64> = (0..=last).map(smooth).collect();
        let uncertain = uncertain.to_vec();
        let stride = self.stride;
        (0..=last * stride).map(move |frame| {
            let (row, part) = (frame / stride, (frame % stride) as f64 / stride as f64);
            let between = |of: &[f64]| of[row] + part * (of[(row + 1).min(last)] - of[row]);
            Laid {
                place: between(&smooth) * stride as f64,
                uncertain: between(&uncertain),
            }
        })
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
fn framings_apart(
    search: &Search<'_>,
    tried: &[Tried],
    (way, own): (&Way, usize),
    pace: f32,
) -> Vec<f64> {
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
        let row = ((row * own) as f32 / stride).round() as usize;
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
