//! Doublings and skips of the scanning machine.

use onestrand_cadence::{FaultKind, FilmFrame};
use onestrand_telecine::{Look, Planted, Roll, Scene, Transfer};

use super::score::{CODING, Outcome, find};

/// Walkers and pans of all paces by turns, with titles and still scenes
/// between when asked for.
fn roll(turns: u32, quiet: u32, seed: u64) -> Roll {
    let pan = |turn: u32| {
        let pace = 0.004 * (2 + turn % 3) as f32;
        Scene::Pan(if turn.is_multiple_of(2) { pace } else { -pace })
    };
    let scenes: Vec<(Scene, u32)> = (0..turns)
        .flat_map(|turn| {
            [
                (Scene::Walk, 100),
                (pan(turn), 100),
                (Scene::Still, quiet),
                (Scene::Title, quiet),
            ]
        })
        .filter(|scene| scene.1 > 0)
        .collect();
    Roll::new((192, 144), Look::FAIR, seed, &scenes)
}

/// A doubling in every scene, and a skip of one to three frames in every pan.
fn faults(turns: u32) -> Vec<Planted> {
    let of_turn = |turn: u32| {
        let at = turn * 200;
        [
            Planted::Doubled { at: at + 37 + turn },
            Planted::Doubled {
                at: at + 123 + turn,
            },
            Planted::Skipped {
                at: at + 164 + turn,
                frames: 1 + turn % 3,
            },
        ]
    };
    (0..turns).flat_map(of_turn).collect()
}

fn told(outcome: &Outcome, kind: FaultKind) -> Places {
    let faults = outcome
        .found
        .faults
        .iter()
        .filter(|fault| fault.kind == kind);
    faults.map(|fault| (fault.at, fault.frames)).collect()
}

/// Places with numbers of frames.
type Places = Vec<(u32, u32)>;

fn planted(turns: u32) -> (Places, Places) {
    let (mut doubled, mut skipped) = (Vec::new(), Vec::new());
    for fault in faults(turns) {
        match fault {
            Planted::Doubled { at } => doubled.push((at, 1)),
            Planted::Skipped { at, frames } => skipped.push((at, frames)),
        }
    }
    (doubled, skipped)
}

#[test]
fn every_planted_fault_of_a_clean_transfer_is_found_with_its_place_and_number() {
    let turns = 8;
    let (doubled, skipped) = planted(turns);
    for (number, (film, file)) in (0_u64..).zip([
        ((24, 1), (24, 1)),
        ((18, 1), (25, 1)),
        ((16, 1), (30_000, 1001)),
        ((24, 1), (25, 1)),
    ]) {
        let roll = roll(turns, 0, 300 + number);
        let transfer = Transfer::clean(film, file).with(&faults(turns));
        let outcome = find(&roll, &transfer, CODING);
        let what = format!("{film:?} into {file:?}: {:?}", outcome.found.faults);
        assert_eq!(told(&outcome, FaultKind::Doubled), doubled, "{what}");
        assert_eq!(told(&outcome, FaultKind::Skipped), skipped, "{what}");
        assert_eq!(outcome.frames.len() as u32, roll.frames(), "{what}");
        let is_right = |frame: &FilmFrame| match frame.shown_by {
            Some(k) => outcome.share(frame.number, k) > 0.99,
            None => skipped
                .iter()
                .any(|(at, many)| (*at..at + many).contains(&frame.number)),
        };
        assert!(outcome.frames.iter().all(is_right), "{what}");
    }
}

#[test]
fn doublings_in_blends_are_found_nearly_all_with_their_places() {
    // Of 16 in each: in walkers, and in pans of three paces.
    for (seed, (film, file, exposure, least)) in (500..).zip([
        ((18, 1), (25, 1), 1.0, 16),
        ((20, 1), (24, 1), 1.0, 16),
        ((441, 25), (30_000, 1001), 1.0, 15),
        ((50, 3), (25, 1), 0.8, 15),
    ]) {
        let roll = roll(8, 0, seed);
        let faults: Vec<Planted> = faults(8)
            .into_iter()
            .filter(|fault| matches!(fault, Planted::Doubled { .. }))
            .collect();
        let transfer = Transfer::clean(film, file)
            .exposed(exposure)
            .drifting(0.01, 2500.0)
            .with(&faults);
        let outcome = find(&roll, &transfer, CODING);
        // A doubling that is not found moves the numbers after it by one, so each is
        // held against what its file frame shows.
        let film_frame = |number: u32| {
            let frame = &outcome.frames[number as usize];
            outcome.truth[frame.shown_by.expect("it is shown") as usize].most()
        };
        let told = told(&outcome, FaultKind::Doubled);
        let right = told.iter().filter(|(at, _)| {
            let near = |fault: &Planted| match fault {
                Planted::Doubled { at: planted } => film_frame(*at).abs_diff(*planted) <= 1,
                Planted::Skipped { .. } => false,
            };
            faults.iter().any(near)
        });
        let right = right.count();
        let what = format!("{film:?} into {file:?}: {right} of {told:?}");
        assert!(right >= least, "{what}");
        assert_eq!(told.len(), right, "{what}");
        assert!(outcome.found.faults.len() == told.len(), "{what}");
    }
}

#[test]
fn no_fault_is_told_of_eleven_thousand_frames_without_one() {
    let transfers = [
        Transfer::clean((24, 1), (24, 1)),
        Transfer::clean((18, 1), (25, 1)),
        Transfer::clean((18, 1), (25, 1))
            .exposed(1.0)
            .drifting(0.02, 2500.0),
        Transfer::clean((20, 1), (24, 1))
            .exposed(1.0)
            .drifting(0.01, 2500.0),
        Transfer::clean((16, 1), (30, 1))
            .exposed(0.7)
            .drifting(0.03, 2500.0),
    ];
    for (seed, transfer) in (400..).zip(transfers) {
        let roll = roll(9, 25, seed);
        let outcome = find(&roll, &transfer, CODING);
        assert!(
            outcome.found.faults.is_empty(),
            "{transfer:?}: {:?}",
            outcome.found.faults
        );
        assert_eq!(outcome.frames.len() as u32, roll.frames(), "{transfer:?}");
    }
}

#[test]
fn a_roll_with_clear_leader_and_clear_film_amid_it_tells_no_fault() {
    // On clear film the exposure is nearly all that changes from film frame to film
    // frame, and now and then it does not: that is no doubling.
    let scenes = [
        (Scene::Clear, 50),
        (Scene::Walk, 60),
        (Scene::Clear, 40),
        (Scene::Pan(0.008), 60),
        (Scene::Clear, 40),
        (Scene::Still, 60),
        (Scene::Clear, 40),
        (Scene::Walk, 100),
        (Scene::Clear, 50),
    ];
    for (seed, transfer) in [
        (601, Transfer::clean((24, 1), (24, 1))),
        (607, Transfer::clean((18, 1), (25, 1)).from_phase(0.3)),
        (607, Transfer::clean((24, 1), (30, 1)).exposed(0.4)),
        (609, Transfer::clean((18, 1), (25, 1)).exposed(1.0)),
    ] {
        let roll = Roll::new((192, 144), Look::FAIR, seed, &scenes);
        let outcome = find(&roll, &transfer, CODING);
        let what = format!("{seed} {transfer:?}: {:?}", outcome.found.faults);
        assert!(outcome.found.faults.is_empty(), "{what}");
        assert_eq!(outcome.frames.len(), 500, "{what}");
    }
}
