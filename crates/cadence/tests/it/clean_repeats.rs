//! Film frames repeated in a file, each file frame showing one.

use onestrand_cadence::{Standing, Transfer as Kind};
use onestrand_telecine::{Look, Transfer};

use super::score::{CODING, find, mixed_roll};

const FILM: [(u32, u32); 5] = [(16, 1), (50, 3), (18, 1), (20, 1), (24, 1)];
const FILE: [(u32, u32); 7] = [
    (24, 1),
    (25, 1),
    (30_000, 1001),
    (30, 1),
    (50, 1),
    (60_000, 1001),
    (60, 1),
];

#[test]
fn every_pair_of_speeds_gives_every_film_frame_at_its_place() {
    for (number, film) in (0_u64..).zip(FILM) {
        let roll = mixed_roll(Look::FAIR, 100 + number);
        for file in FILE {
            let outcome = find(&roll, &Transfer::clean(film, file), CODING);
            let what = format!("{film:?} into {file:?}");
            assert_eq!(outcome.frames.len(), 800, "{what}");
            for frame in &outcome.frames {
                let shown = frame.shown_by.expect("no frame is missing");
                assert!(
                    outcome.share(frame.number, shown) > 0.999,
                    "{what}: {frame:?}"
                );
            }
            assert!(
                outcome.found.faults.is_empty(),
                "{what}: {:?}",
                outcome.found.faults
            );
            let repeats = outcome.truth.len() as u64 - 800;
            assert_eq!(outcome.found.repeats, repeats, "{what}");
            let one_to_one = film == file;
            assert_eq!(
                outcome.found.transfer == Kind::OneToOne,
                one_to_one,
                "{what}"
            );
            assert_eq!(outcome.count(Standing::Blended), 0, "{what}");
            if !one_to_one {
                let speed = outcome.found.film_speed.expect("the rate is known");
                assert_eq!((speed.num(), speed.den()), film, "{what}");
            }
        }
    }
}
