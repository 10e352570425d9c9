//! Trims from the example and from real clips, photographed and named.

use onestrand_film::Gauge;
use onestrand_proof::{GreyPicture, RollSketches, StripPlace, find_strips, name_strip};

use crate::chance::Chance;
use crate::film::Film;
use crate::photograph::{Photograph, Taken, photograph};

fn named(photo: &Photograph, gauge: Gauge, rolls: &[RollSketches]) -> Vec<StripPlace> {
    let grey = GreyPicture::new(photo.size.0, photo.size.1, &photo.levels).expect("a picture");
    name_strip(&find_strips(grey, gauge), rolls)
}

/// What came of many photographs.
#[derive(Debug, Default)]
struct Tally {
    of: usize,
    right: usize,
    still: usize,
    excess: usize,
    wrong: usize,
    confident_wrong: usize,
    unknown: usize,
}

impl Tally {
    /// Tells an answer by the truth: roll, first frame, and which frames are seen.
    fn add(
        &mut self,
        told: &[StripPlace],
        (roll, first): (usize, usize),
        photo: &Photograph,
    ) -> bool {
        self.of += 1;
        let Some(best) = told.first() else {
            self.unknown += 1;
            return false;
        };
        let open = |at: &usize| photo.open[*at];
        let all = 0..photo.open.len();
        let low = all.clone().find(open).unwrap_or(0) + first;
        let high = all.clone().rev().find(open).unwrap_or(0) + first + 1;
        let whole = (first, first + photo.open.len());
        // Everything that is seen; a still shot may say more, nothing else may.
        let covers = best.first <= low && best.end >= high;
        let inside = best.first >= whole.0 && best.end <= whole.1;
        let right = best.roll == roll && covers && (best.still || inside);
        if right {
            self.right += 1;
            self.still += usize::from(best.still);
            self.excess += (best.end - best.first).saturating_sub(photo.open.len());
        } else {
            self.wrong += 1;
            self.confident_wrong += usize::from(best.confidence >= 0.9);
        }
        right
    }
}

#[test]
#[ignore = "looked at while making"]
fn first_look() {
    let film = Film::clip("camera_roll_b.mp4");
    let rolls = [film.sketches(1)];
    let mut chance = Chance::new(7);
    for first in [40, 200, 333, 500] {
        let frames: Vec<&[u8]> = film.planes[first..first + 12]
            .iter()
            .map(Vec::as_slice)
            .collect();
        let photo = photograph(&frames, Taken::plainly(Gauge::Super8), &mut chance);
        let grey = GreyPicture::new(photo.size.0, photo.size.1, &photo.levels).expect("a picture");
        let strips = find_strips(grey, Gauge::Super8);
        for s in &strips {
            eprintln!("{:?} {} up {:?}", s.by, s.frames.len(), s.up);
        }
        eprintln!("{first}: {:?}", name_strip(&strips, &rolls));
    }
}

#[test]
#[ignore = "wide: minutes"]
fn trims_of_real_clips() {
    let names = [
        "camera_roll_b.mp4",
        "nosferatu_1922_excerpt.mp4",
        "tears_of_steel_a.mp4",
        "hbomb_test_film_1952.mp4",
        "edison_1899_coaches.mp4",
        "sintel_excerpt.mp4",
    ];
    let films: Vec<Film> = names.iter().map(|n| Film::clip(n)).collect();
    let rolls: Vec<RollSketches> = films.iter().zip(0..).map(|(f, n)| f.sketches(n)).collect();
    let count: u64 = std::env::var("TRIMS")
        .ok()
        .and_then(|t| t.parse().ok())
        .unwrap_or(40);
    let mut tally = Tally::default();
    let from: u64 = std::env::var("FROM")
        .ok()
        .and_then(|t| t.parse().ok())
        .unwrap_or(0);
    for seed in from..from + count {
        let mut chance = Chance::new(seed);
        let roll = chance.below(films.len());
        let length = 6 + chance.below(35);
        let first = chance.below(films[roll].planes.len() - length);
        let frames: Vec<&[u8]> = films[roll].planes[first..first + length]
            .iter()
            .map(Vec::as_slice)
            .collect();
        let mut taken = Taken::by_chance(Gauge::Super8, length, &mut chance);
        let plain = std::env::var("PLAIN").unwrap_or_default();
        if plain.contains('t') {
            taken.tilt = (0.0, 0.0);
        }
        if plain.contains('c') {
            taken.curl = 0.0;
        }
        let photo = photograph(&frames, taken, &mut chance);
        let start = std::time::Instant::now();
        let grey = GreyPicture::new(photo.size.0, photo.size.1, &photo.levels).expect("a picture");
        let strips = find_strips(grey, Gauge::Super8);
        let found = start.elapsed();
        let told = name_strip(&strips, &rolls);
        eprintln!(
            "found {found:?} {:?}",
            strips
                .iter()
                .map(|s| (s.by, s.frames.len()))
                .collect::<Vec<_>>()
        );
        let took = start.elapsed();
        if !tally.add(&told, (roll, first), &photo) {
            let open = photo.open.iter().filter(|o| **o).count();
            eprintln!(
                "seed {seed}: {} {first}+{length} open {open} {taken:?}\n   {:?}",
                names[roll],
                told.iter().take(2).collect::<Vec<_>>()
            );
        }
        eprintln!("{seed} {took:?}");
    }
    eprintln!("{tally:?}");
}
