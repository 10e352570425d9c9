//! Where it cannot be told, it is said, and why.

use crate::drawn::{noise, pendulum, retaken, still, take, walkers};
use crate::retake::Retake;
use onestrand_twins::{CannotTell, lay_beside};

/// A still take with the grain, flicker and weave of film.
fn quiet(ground: u64, seed: u64) -> onestrand_twins::TakeMovement {
    let retake = Retake {
        seed,
        grain: 6.0,
        ..Retake::PLAIN
    };
    retaken(&still(ground, 120), &retake, 0)
}

#[test]
fn still_takes_move_too_little_to_tell() {
    let moving = take(0, &walkers(1, 120));
    for seed in 0..5 {
        let told = lay_beside(&quiet(seed, 1), &quiet(seed + 7, 2));
        let (here, there) = (true, true);
        assert_eq!(told, Err(CannotTell::TooLittleMovement { here, there }));
        let there = false;
        let told = lay_beside(&quiet(seed, 3), &moving);
        assert_eq!(told, Err(CannotTell::TooLittleMovement { here, there }));
    }
    // The same still picture taken twice: alike as can be, and nothing told.
    let told = lay_beside(&quiet(3, 4), &quiet(3, 5));
    assert!(matches!(told, Err(CannotTell::TooLittleMovement { .. })));
}

#[test]
fn noise_moves_too_little_to_tell() {
    for seed in 0..4 {
        let told = lay_beside(
            &take(0, &noise(seed, 100)),
            &take(0, &noise(seed + 50, 130)),
        );
        let (here, there) = (true, true);
        assert_eq!(told, Err(CannotTell::TooLittleMovement { here, there }));
    }
}

#[test]
fn other_actions_are_not_laid_beside_each_other() {
    let takes: Vec<_> = (0..8)
        .map(|seed| take(0, &walkers(100 + seed, 160)))
        .collect();
    for (n, here) in takes.iter().enumerate() {
        for there in &takes[n + 1..] {
            let told = lay_beside(here, there);
            let unlike = matches!(told, Err(CannotTell::NotAlike | CannotTell::ManyPlaces));
            assert!(unlike, "{n}: {told:?}");
        }
    }
}

#[test]
fn what_swings_to_and_fro_could_be_anywhere() {
    let told = lay_beside(&take(0, &pendulum(150)), &take(0, &pendulum(150)[24..]));
    assert_eq!(told, Err(CannotTell::ManyPlaces));
}

#[test]
fn every_answer_says_what_helps() {
    let all = [
        CannotTell::TooLittleMovement {
            here: true,
            there: false,
        },
        CannotTell::NotAlike,
        CannotTell::ManyPlaces,
    ];
    for answer in all {
        assert!(answer.hint().contains("two marks"));
        assert!(answer.code().starts_with("twins."));
    }
    assert_eq!(all[0].to_string(), "too little movement to tell");
}
