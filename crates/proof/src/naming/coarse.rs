//! The first search: every place of every roll, by 48 cells a frame.

use super::fit::Placed;
use super::query::{Looked, Query, Window};
use crate::rolls::RollSketches;
use crate::sketch::dot;
use crate::way::Way;

/// Frames of the strip that the first search looks at.
const LOOKED_AT: usize = 6;

/// Parts of a patch that may be the frame.
const WINDOWS: [Window; 7] = [
    Window::new(0, 0, 96),
    Window::new(0, 0, 106),
    Window::new(0, 0, 86),
    Window::new(5, 0, 98),
    Window::new(-5, 0, 98),
    Window::new(0, 5, 98),
    Window::new(0, -5, 98),
];

/// The likeliest places, each apart from the others.
pub(super) fn coarse_places(query: &Query, rolls: &[RollSketches], most: usize) -> Vec<Placed> {
    let chosen = chosen(query);
    let jobs: Vec<(Window, Way)> = WINDOWS
        .iter()
        .flat_map(|&window| Way::ALL.map(|way| (window, way)))
        .collect();
    let looked: Vec<(Window, Way, Vec<Vec<i8>>)> = jobs
        .into_iter()
        .map(|(window, way)| {
            let seen = query.sketches(window, Looked::Some);
            let cells = |&at: &usize| way.cells(&seen[at].sketch.coarse());
            (window, way, chosen.iter().map(cells).collect())
        })
        .collect();
    let seen = query.sketches(WINDOWS[0], Looked::Some);
    let places: Vec<i64> = chosen.iter().map(|&at| seen[at].place).collect();
    let last = query.places.last().copied().unwrap_or(0);
    let by = query.by();
    let runs = move |way: Way, backwards: bool| Query::may_run(by, way, backwards);
    let threads = std::thread::available_parallelism().map_or(1, usize::from);
    let share = looked.len().div_ceil(threads);
    let found = std::thread::scope(|scope| {
        let started: Vec<_> = looked
            .chunks(share)
            .map(|part| {
                let (places, query_runs) = (&places, &runs);
                scope.spawn(move || {
                    let mut best = Best::new(most);
                    for (window, way, cells) in part {
                        search(
                            (*window, *way),
                            cells,
                            (query_runs, places, last),
                            rolls,
                            &mut best,
                        );
                    }
                    best.places
                })
            })
            .collect();
        let done = started.into_iter().filter_map(|thread| thread.join().ok());
        done.flatten().collect::<Vec<_>>()
    });
    super::apart(found, most)
}

/// Frames all along the strip; of two beside each other the one with more in it.
fn chosen(query: &Query) -> Vec<usize> {
    let seen = query.sketches(WINDOWS[0], Looked::Some);
    let frames = seen.len();
    if frames <= LOOKED_AT {
        return (0..frames).collect();
    }
    let pick = |part: usize| {
        let from = part * frames / LOOKED_AT;
        let to = ((part + 1) * frames / LOOKED_AT).max(from + 1);
        let strength = |&at: &usize| seen[at].sketch.strength;
        (from..to).max_by(|a, b| strength(a).total_cmp(&strength(b)))
    };
    (0..LOOKED_AT).filter_map(pick).collect()
}

fn search(
    (window, way): (Window, Way),
    cells: &[Vec<i8>],
    (runs, places, last): (&(dyn Fn(Way, bool) -> bool + Sync), &[i64], i64),
    rolls: &[RollSketches],
    best: &mut Best,
) {
    let lengths: Vec<f32> = cells.iter().map(|c| (dot(c, c) as f32).sqrt()).collect();
    for (number, roll) in rolls.iter().enumerate() {
        let mut like = Vec::with_capacity(cells.len());
        for (cells, &length) in cells.iter().zip(&lengths) {
            let per = if length > 0.0 { 1.0 / length } else { 0.0 };
            let of = |(frame, per_frame): (&[i8], f32)| dot(cells, frame) as f32 * per * per_frame;
            like.push(roll.coarse().map(of).collect::<Vec<f32>>());
        }
        let frames = roll.frames() as i64;
        for backwards in [false, true].into_iter().filter(|&b| runs(way, b)) {
            let at = |begin: i64, place: i64| {
                if backwards {
                    begin - place
                } else {
                    begin + place
                }
            };
            let begins = if backwards {
                last..frames
            } else {
                0..frames - last
            };
            let score = |begin: i64| {
                let sum: f32 = like
                    .iter()
                    .zip(places)
                    .map(|(like, &place)| like[at(begin, place) as usize])
                    .sum();
                sum / places.len() as f32
            };
            let mut before = f32::MIN;
            let mut here = f32::MIN;
            // Only places more like than both beside them.
            for begin in begins.clone().chain([begins.end]) {
                let next = if begin < begins.end {
                    score(begin)
                } else {
                    f32::MIN
                };
                if here >= before && here > next && here > best.least() {
                    best.add(Placed {
                        roll: number,
                        begin: begin - 1,
                        backwards,
                        way,
                        window,
                        warp: None,
                        likeness: here,
                    });
                }
                before = std::mem::replace(&mut here, next);
            }
        }
    }
}

/// The best places of a search that goes on.
struct Best {
    most: usize,
    places: Vec<Placed>,
    least: f32,
}

impl Best {
    fn new(most: usize) -> Self {
        Self {
            most,
            places: Vec::new(),
            least: 0.1,
        }
    }

    fn least(&self) -> f32 {
        self.least
    }

    fn add(&mut self, place: Placed) {
        self.places.push(place);
        if self.places.len() >= 4 * self.most {
            self.places
                .sort_by(|a, b| b.likeness.total_cmp(&a.likeness));
            self.places.truncate(2 * self.most);
            self.least = self.places.last().map_or(0.1, |p| p.likeness);
        }
    }
}
