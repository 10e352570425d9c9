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
    one_of_several: usize,
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
        let is_right = |told: &StripPlace| {
            let covers = told.first <= low && told.end >= high;
            let inside = told.first >= whole.0 && told.end <= whole.1;
            told.roll == roll && covers && (told.still || inside)
        };
        let right = is_right(best);
        if !right && best.confidence < 0.9 && told.iter().any(is_right) {
            self.one_of_several += 1;
            return false;
        }
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

/// Trims of one clip, whole and covered, any way up, from either side, are named.
#[test]
fn trims_get_their_names() {
    let film = Film::clip("edison_1899_coaches.mp4");
    let rolls = [film.sketches(1)];
    let plain = Taken::plainly(Gauge::Super8);
    let ways = [(0.0, false), (200.0, false), (75.0, true)];
    for (seed, (turn, mirrored)) in (0..).zip(ways) {
        let first = 300 + 30 * seed as usize;
        let frames: Vec<&[u8]> = film.planes[first..first + 9]
            .iter()
            .map(Vec::as_slice)
            .collect();
        let taken = Taken {
            turn,
            mirrored,
            blur: 0.9,
            noise: 2.0,
            quality: 85,
            ..plain
        };
        let photo = photograph(&frames, taken, &mut Chance::new(seed));
        let told = named(&photo, Gauge::Super8, &rolls);
        let mut tally = Tally::default();
        assert!(tally.add(&told, (0, first), &photo), "{first}: {told:?}");
        assert_eq!(told[0].way.mirrored, mirrored, "{told:?}");
    }
    // The same pictures are not in another film.
    let other = [Film::clip("sintel_excerpt.mp4").sketches(2)];
    let frames: Vec<&[u8]> = film.planes[300..309].iter().map(Vec::as_slice).collect();
    let photo = photograph(&frames, plain, &mut Chance::new(9));
    let told = named(&photo, Gauge::Super8, &other);
    assert!(told.iter().all(|place| place.confidence < 0.9), "{told:?}");
}

fn setting(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

#[test]
#[ignore = "wide: some minutes; TRIMS and FROM choose the seeds"]
fn trims_of_real_clips() {
    let names = [
        "bbb_trailer.webm",
        "nosferatu_1922_excerpt.mp4",
        "tears_of_steel_a.mp4",
        "hbomb_test_film_1952.mp4",
        "edison_1899_coaches.mp4",
        "sintel_excerpt.mp4",
    ];
    let films: Vec<Film> = names.iter().map(|n| Film::clip(n)).collect();
    let rolls: Vec<RollSketches> = films.iter().zip(0..).map(|(f, n)| f.sketches(n)).collect();
    let from = setting("FROM").unwrap_or(0);
    let mut tally = Tally::default();
    for seed in from..from + setting("TRIMS").unwrap_or(40) {
        let mut chance = Chance::new(seed);
        let roll = chance.below(films.len());
        let length = 6 + chance.below(35);
        let first = chance.below(films[roll].planes.len() - length);
        let frames: Vec<&[u8]> = films[roll].planes[first..first + length]
            .iter()
            .map(Vec::as_slice)
            .collect();
        let taken = Taken::by_chance(Gauge::Super8, length, &mut chance);
        if setting("ONLY").is_some_and(|only| only != seed) {
            continue;
        }
        let photo = photograph(&frames, taken, &mut chance);
        let open = photo.open.iter().filter(|o| **o).count();
        if open < 6 {
            continue;
        }
        let told = named(&photo, Gauge::Super8, &rolls);
        if tally.add(&told, (roll, first), &photo) {
            continue;
        }
        let map: String = photo
            .open
            .iter()
            .map(|o| if *o { '.' } else { 'x' })
            .collect();
        eprintln!(
            "seed {seed}: {} {first}..{} {map} {taken:?}",
            names[roll],
            first + length
        );
        for t in told.iter().take(3) {
            eprintln!("     {t:?}");
        }
    }
    eprintln!("{tally:?}");
}
