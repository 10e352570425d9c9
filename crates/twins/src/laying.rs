//! Laying one take beside another, by what moves in both.

use onestrand_film::FramePos;

use crate::cannot_tell::CannotTell;
use crate::course::{Course, Laid};
use crate::lattice::Way;
use crate::movement::TakeMovement;
use crate::pair::Pair;
use crate::search::{BEND, SCENE, Search, Tried};
use crate::time_map::TimeMap;

/// Chance of a step to either side from one frame to the next.
const ASIDE: f32 = 0.2;
/// What must speak for a map: of some 300 pairs of different shots one has as
/// much, and both show the same ball of fire; see docs/MATCHES.md.
const ENOUGH: f32 = 32.0;
/// A place is told when it is known to so many frames.
pub(crate) const TOLD: f64 = 2.0;
/// So many frames must be told, or the map is of no use.
const FEWEST_TOLD: usize = 8;
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
    let (pace, lattice, way) = pair.at_its_pace(&first, &search, best).ok_or(no_way)?;
    let framings = framings_apart(&search, &tried, (&way, pair.stride), pace);
    let spread = lattice.spread(&way, ASIDE);
    let uncertain = spread.iter().zip(&framings);
    let uncertain: Vec<f64> = uncertain
        .map(|(&ways, &framings)| {
            let ways = f64::from(ways);
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
