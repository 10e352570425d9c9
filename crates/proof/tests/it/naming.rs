//! Trims from the example and from real clips, photographed and named.

use onestrand_film::Gauge;
use onestrand_proof::{FoundBy, GreyPicture, RollSketches, StripPlace, find_strips, name_strip};

use crate::chance::Chance;
use crate::film::Film;
use crate::photograph::{Photograph, Taken, photograph};
use crate::tally::{Came, Tally, Truth, came, without};

fn named(photo: &Photograph, gauge: Gauge, rolls: &[RollSketches]) -> Vec<StripPlace> {
    let grey = GreyPicture::new(photo.size.0, photo.size.1, &photo.levels).expect("a picture");
    name_strip(&find_strips(grey, gauge), rolls)
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
        let truth = Truth {
            roll: Some(0),
            first,
            film: &film,
        };
        assert_eq!(came(&told, truth, &photo), Came::Right, "{first}: {told:?}");
        assert_eq!(told[0].way.mirrored, mirrored, "{told:?}");
    }
    // The same pictures are not in another film.
    let other = [Film::clip("sintel_excerpt.mp4").sketches(2)];
    let frames: Vec<&[u8]> = film.planes[300..309].iter().map(Vec::as_slice).collect();
    let photo = photograph(&frames, plain, &mut Chance::new(9));
    let told = named(&photo, Gauge::Super8, &other);
    assert!(told.iter().all(|place| place.confidence < 0.9), "{told:?}");
}

/// Specks are light places on a line here and there, and no row of holes.
#[test]
fn specks_are_no_film() {
    for seed in 0..5 {
        let mut chance = Chance::new(seed);
        let speck = |_| (128.0 + 24.0 * chance.normal()).clamp(0.0, 255.0) as u8;
        let rough: Vec<u8> = (0..800 * 600).map(speck).collect();
        // Twice as large as they were drawn, as a lens and JPEG make them.
        let at = |x: usize, y: usize| f32::from(rough[(y / 2).min(599) * 800 + (x / 2).min(799)]);
        let smooth = |i: usize| {
            let (x, y) = (i % 1_600, i / 1_600);
            (0.25 * (at(x, y) + at(x + 1, y) + at(x, y + 1) + at(x + 1, y + 1))) as u8
        };
        let levels: Vec<u8> = (0..1_600 * 1_200).map(smooth).collect();
        let photo = GreyPicture::new(1_600, 1_200, &levels).expect("a picture");
        let found = find_strips(photo, Gauge::Super8);
        let by_holes = found.iter().filter(|s| s.by == FoundBy::Perforations);
        assert_eq!(by_holes.count(), 0, "seed {seed}");
    }
}

fn setting(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// The gauge that GAUGE names, and whether it has holes along both edges, as `16x2` has.
fn gauge() -> (Gauge, bool) {
    let name = std::env::var("GAUGE").unwrap_or("super8".to_owned());
    let one = name.trim_end_matches("x2");
    (one.parse().expect("a gauge"), one != name)
}

/// Strips of 6 to 40 frames, one in ten of them of no roll that is searched.
#[test]
#[ignore = "wide: many minutes; TRIMS and FROM choose the seeds, ONLY one of them, GAUGE"]
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
    let (gauge, both_edges) = gauge();
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
        let taken = Taken {
            both_edges,
            ..Taken::by_chance(gauge, length, &mut chance)
        };
        if setting("ONLY").is_some_and(|only| only != seed) {
            continue;
        }
        let photo = drawn_once(seed, &frames, taken, &mut chance);
        let open = photo.open.iter().filter(|o| **o).count();
        if open < 6 {
            continue;
        }
        let foreign = seed % 10 == 9;
        let truth = Truth {
            roll: (!foreign).then_some(roll),
            first,
            film: &films[roll],
        };
        let start = std::time::Instant::now();
        let told = if foreign {
            named(&photo, gauge, &without(&rolls, roll))
        } else {
            named(&photo, gauge, &rolls)
        };
        let took = start.elapsed().as_secs_f32();
        let came = tally.add(&told, truth, &photo);
        if foreign && came != Came::WrongSure {
            continue;
        }
        let map: String = photo
            .open
            .iter()
            .map(|o| if *o { '.' } else { 'x' })
            .collect();
        eprintln!(
            "seed {seed}: {came:?} {} {first}..{} {map} {took:.1} s",
            names[roll],
            first + length
        );
        for t in told.iter().take(3) {
            eprintln!("     {t:?}");
        }
        if came != Came::Right {
            eprintln!("     {taken:?}");
        }
    }
    eprintln!("{tally:?}");
}

/// Draws a photograph, or takes the one that PHOTOS, a folder, has of this seed.
fn drawn_once(seed: u64, frames: &[&[u8]], taken: Taken, chance: &mut Chance) -> Photograph {
    let Some(dir) = std::env::var_os("PHOTOS") else {
        return photograph(frames, taken, chance);
    };
    let at = |end: &str| std::path::Path::new(&dir).join(format!("{seed}.{end}"));
    if let (Ok(levels), Ok(open)) = (std::fs::read(at("grey")), std::fs::read(at("open"))) {
        return Photograph {
            size: taken.size,
            levels,
            open: open.iter().map(|o| *o == 1).collect(),
        };
    }
    let photo = photograph(frames, taken, chance);
    std::fs::write(at("grey"), &photo.levels).expect("it can be kept");
    let open: Vec<u8> = photo.open.iter().map(|o| u8::from(*o)).collect();
    std::fs::write(at("open"), open).expect("it can be kept");
    photo
}
