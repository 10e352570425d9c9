//! Reels with planted faults, read back.

use onestrand_proof::{FaultKind, GreyPicture, RollSketches, Sketch, Wanted, prove_reel};

use crate::chance::Chance;
use crate::film::{Film, HIGH, WIDE};

/// A reel being joined: its frames as pictures, and what was done wrong.
struct Reel<'a> {
    film: &'a [Film],
    frames: Vec<Vec<u8>>,
    planted: Vec<(usize, FaultKind, usize)>,
}

impl Reel<'_> {
    fn add(&mut self, (roll, frame): (usize, usize)) {
        self.frames.push(self.film[roll].planes[frame].clone());
    }

    /// A scan: other light, noise, the picture a little to a side.
    fn scanned(&self, chance: &mut Chance) -> RollSketches {
        let mut scan = RollSketches::new();
        let gain = chance.between(0.8, 1.1);
        for plane in &self.frames {
            let (dx, dy) = (chance.below(3), chance.below(2));
            let level = |at: usize| {
                let (x, y) = (
                    (at % WIDE + dx).min(WIDE - 1),
                    (at / WIDE + dy).min(HIGH - 1),
                );
                let level = f32::from(plane[y * WIDE + x]) * gain + 3.0 * chance.normal();
                level.clamp(0.0, 255.0) as u8
            };
            let noisy: Vec<u8> = (0..WIDE * HIGH).map(level).collect();
            scan.push(Some(&Sketch::of(
                GreyPicture::new(WIDE, HIGH, &noisy).expect("a plane"),
            )));
        }
        scan
    }
}

/// Pieces of 20 to 90 frames of all films, none overlapping another.
fn plan(films: &[Film], pieces: usize, chance: &mut Chance) -> Vec<Vec<(usize, usize)>> {
    let mut taken: Vec<Vec<bool>> = films.iter().map(|f| vec![false; f.planes.len()]).collect();
    let mut plan = Vec::new();
    while plan.len() < pieces {
        let roll = chance.below(films.len());
        let length = 20 + chance.below(70);
        let first = chance.below(films[roll].planes.len() - length);
        let span = first.saturating_sub(2)..(first + length + 2).min(films[roll].planes.len());
        if taken[roll][span.clone()].iter().any(|t| *t) {
            continue;
        }
        taken[roll][span].fill(true);
        plan.push((first..first + length).map(|frame| (roll, frame)).collect());
    }
    plan
}

fn turned(plane: &[u8], mirrored: bool, upside_down: bool) -> Vec<u8> {
    let at = |at: usize| {
        let (x, y) = (at % WIDE, at / WIDE);
        let x = if mirrored != upside_down {
            WIDE - 1 - x
        } else {
            x
        };
        let y = if upside_down { HIGH - 1 - y } else { y };
        plane[y * WIDE + x]
    };
    (0..WIDE * HIGH).map(at).collect()
}

/// Joins a reel with one fault in most pieces.
fn joined<'a>(
    films: &'a [Film],
    plan: &[Vec<(usize, usize)>],
    with_faults: bool,
    chance: &mut Chance,
) -> Reel<'a> {
    let mut reel = Reel {
        film: films,
        frames: Vec::new(),
        planted: Vec::new(),
    };
    for piece in plan {
        let begin = reel.frames.len();
        let fault = if with_faults { chance.below(9) } else { 9 };
        let within = 5 + chance.below(piece.len() - 14);
        match fault {
            0 => {
                let gone = 1 + chance.below(4);
                reel.planted
                    .push((begin + within, FaultKind::Missing, gone));
                let kept = piece[..within].iter().chain(&piece[within + gone..]);
                kept.for_each(|&frame| reel.add(frame));
            }
            1 => {
                reel.planted.push((begin + within, FaultKind::Doubled, 1));
                piece[..within].iter().for_each(|&frame| reel.add(frame));
                piece[within - 1..]
                    .iter()
                    .for_each(|&frame| reel.add(frame));
            }
            2 => {
                reel.planted.push((begin, FaultKind::Mirrored, piece.len()));
                for &(roll, frame) in piece {
                    reel.frames
                        .push(turned(&films[roll].planes[frame], true, false));
                }
            }
            3 => {
                reel.planted
                    .push((begin, FaultKind::UpsideDown, piece.len()));
                for &(roll, frame) in piece.iter().rev() {
                    reel.frames
                        .push(turned(&films[roll].planes[frame], false, true));
                }
            }
            4 => {
                // A picture of nobody's: bars that move.
                reel.planted.push((begin + within, FaultKind::Foreign, 2));
                piece[..within].iter().for_each(|&frame| reel.add(frame));
                for n in 0..2 {
                    let bars = |at: usize| {
                        if (at % WIDE + at / WIDE * 2 + n * 9) % 61 < 30 {
                            60
                        } else {
                            180
                        }
                    };
                    reel.frames.push((0..WIDE * HIGH).map(bars).collect());
                }
                piece[within..].iter().for_each(|&frame| reel.add(frame));
            }
            5 => {
                reel.planted
                    .push((begin, FaultKind::OutOfRack, piece.len()));
                let rows = (0.12 * HIGH as f32) as usize + chance.below(HIGH / 5);
                for &(roll, frame) in piece {
                    let plane = &films[roll].planes[frame];
                    let mut shifted = vec![5; rows * WIDE];
                    shifted.extend(&plane[..(HIGH - rows) * WIDE]);
                    reel.frames.push(shifted);
                }
            }
            _ => piece.iter().for_each(|&frame| reel.add(frame)),
        }
    }
    reel
}

fn films() -> Vec<Film> {
    [
        "sintel_excerpt.mp4",
        "tears_of_steel_a.mp4",
        "edison_1899_coaches.mp4",
        "hbomb_test_film_1952.mp4",
    ]
    .map(Film::clip)
    .into()
}

fn setting(name: &str) -> Option<u64> {
    std::env::var(name).ok()?.parse().ok()
}

/// A reel that is its plan has no fault; one piece turned over and two frames gone are
/// the only faults of one in which that was done.
#[test]
fn a_good_reel_is_proved_and_two_faults_are_placed() {
    let films = [Film::clip("sintel_excerpt.mp4")];
    let rolls = [films[0].sketches(1)];
    let piece = |from: usize| (from..from + 40).map(|f| (0, f)).collect::<Vec<_>>();
    let plan = [piece(300), piece(60), piece(420)];
    let wanted: Vec<Wanted> = plan
        .iter()
        .flatten()
        .map(|&(r, f)| Wanted::Frame(r, f))
        .collect();
    let mut chance = Chance::new(3);
    let reel = joined(&films, &plan, false, &mut chance);
    let proof = prove_reel(&reel.scanned(&mut chance), &rolls, &wanted);
    assert_eq!(proof.faults, [], "nothing was done wrong");
    assert_eq!(proof.spans.len(), 3);
    let mut reel = joined(&films, &plan, false, &mut chance);
    for frame in &mut reel.frames[40..80] {
        *frame = turned(frame, true, false);
    }
    reel.frames.drain(100..102);
    let proof = prove_reel(&reel.scanned(&mut chance), &rolls, &wanted);
    let kinds: Vec<_> = proof.faults.iter().map(|f| (f.kind, f.frames)).collect();
    assert_eq!(kinds, [(FaultKind::Mirrored, 40), (FaultKind::Missing, 2)]);
    assert_eq!(proof.faults[0].at, 40);
    assert!((proof.faults[1].earliest..=proof.faults[1].latest).contains(&100));
}

#[test]
#[ignore = "wide: minutes; REELS and FROM choose the seeds"]
fn planted_faults_are_found_and_placed() {
    let films = films();
    let rolls: Vec<RollSketches> = films.iter().zip(0..).map(|(f, n)| f.sketches(n)).collect();
    let (mut planted, mut found, mut false_ones, mut frames) = (0, 0, 0, 0);
    let from = setting("FROM").unwrap_or(0);
    for seed in from..from + setting("REELS").unwrap_or(6) {
        let mut chance = Chance::new(seed);
        let plan = plan(&films, 24, &mut chance);
        let reel = joined(&films, &plan, seed % 3 != 0, &mut chance);
        let scan = reel.scanned(&mut chance);
        let wanted: Vec<Wanted> = plan
            .iter()
            .flatten()
            .map(|&(r, f)| Wanted::Frame(r, f))
            .collect();
        let start = std::time::Instant::now();
        let proof = prove_reel(&scan, &rolls, &wanted);
        eprintln!(
            "seed {seed}: {} frames, {:?}",
            scan.frames(),
            start.elapsed()
        );
        frames += scan.frames();
        planted += reel.planted.len();
        let mut left = proof.faults.clone();
        for fault in &reel.planted {
            let same = |f: &onestrand_proof::ReelFault| {
                f.kind == fault.1
                    && (f.earliest.saturating_sub(2)..=f.latest + 2).contains(&fault.0)
                    && f.frames.abs_diff(fault.2) <= 2
            };
            match left.iter().position(same) {
                Some(at) => {
                    left.remove(at);
                    found += 1;
                }
                None => eprintln!("  not found: {fault:?}"),
            }
        }
        for fault in &left {
            eprintln!("  false: {fault:?}");
        }
        false_ones += left.len();
    }
    eprintln!("planted {planted}, found {found}, false {false_ones} in {frames} frames");
}
