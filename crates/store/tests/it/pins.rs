//! Takes on the pins of the trim bin.

use onestrand_store::{Act, HungTake, Production, TakeRecord};

use crate::journal::{roll, take};
use crate::owner::meta;

fn takes(roll: &str, starts: &[u32]) -> Act {
    let one = |first: &u32| TakeRecord {
        roll: roll.to_owned(),
        ..take(*first)
    };
    Act::PutTakes {
        roll: roll.to_owned(),
        takes: starts.iter().map(one).collect(),
    }
}

fn hung(production: &Production) -> Vec<(u32, String, u32)> {
    let pins = production.pins().expect("pins").into_iter();
    pins.map(|h| (h.pin, h.roll, h.first)).collect()
}

fn on(list: &[(u32, &str, u32)]) -> Vec<(u32, String, u32)> {
    let one = |(pin, roll, first): &(u32, &str, u32)| (*pin, (*roll).to_owned(), *first);
    list.iter().map(one).collect()
}

fn two_rolls(dir: &std::path::Path) -> Production {
    let mut film = Production::create(dir, &meta()).expect("new");
    for name in ["R1", "R2"] {
        let act = Act::PutRoll {
            name: name.to_owned(),
            roll: Some(Box::new(roll(name, 100))),
        };
        film.act("a roll", &act).expect("kept");
    }
    film
}

#[test]
fn takes_hang_in_the_order_of_the_roll_and_keep_their_pins() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = two_rolls(dir.path());
    film.act("log", &takes("R1", &[0, 20, 40])).expect("kept");
    film.act("log", &takes("R2", &[0, 20])).expect("kept");
    let first = [
        (1, "R1", 0),
        (2, "R1", 20),
        (3, "R1", 40),
        (4, "R2", 0),
        (5, "R2", 20),
    ];
    assert_eq!(hung(&film), on(&first));

    // A take that goes leaves its pin; a new one takes the lowest that is free.
    film.act("log", &takes("R1", &[0, 40, 60])).expect("kept");
    let then = [
        (1, "R1", 0),
        (2, "R1", 60),
        (3, "R1", 40),
        (4, "R2", 0),
        (5, "R2", 20),
    ];
    assert_eq!(hung(&film), on(&then));
    film.undo().expect("undone");
    assert_eq!(hung(&film), on(&first));
    film.redo().expect("done again");
    assert_eq!(hung(&film), on(&then));

    // Two change places at once, also between rolls, and back again.
    let pin = |roll: &str, first, pin| HungTake {
        roll: roll.to_owned(),
        first,
        pin,
    };
    let swap = Act::Hang {
        pins: vec![pin("R1", 0, 5), pin("R2", 20, 1)],
    };
    assert_eq!(swap.touches().len(), 2);
    film.act("swap", &swap).expect("kept");
    let swapped = [
        (1, "R2", 20),
        (2, "R1", 60),
        (3, "R1", 40),
        (4, "R2", 0),
        (5, "R1", 0),
    ];
    assert_eq!(hung(&film), on(&swapped));
    film.undo().expect("undone");
    assert_eq!(hung(&film), on(&then));

    let nobody = Act::Hang {
        pins: vec![pin("R1", 7, 9)],
    };
    let refused = film.act("nobody", &nobody).expect_err("no such take");
    assert_eq!(refused.code(), "store.not_found");
    assert_eq!(hung(&film), on(&then));
}

#[test]
fn no_two_takes_hang_on_one_pin() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut film = two_rolls(dir.path());
    let said = |roll: &str, pins: &[(u32, u32)]| Act::PutTakes {
        roll: roll.to_owned(),
        takes: pins
            .iter()
            .map(|(first, pin)| TakeRecord {
                roll: roll.to_owned(),
                pin: Some(*pin),
                ..take(*first)
            })
            .collect(),
    };
    film.act("log", &said("R1", &[(0, 7), (20, 7)]))
        .expect("kept");
    film.act("log", &said("R2", &[(0, 7), (20, 3)]))
        .expect("kept");
    let all = [(1, "R1", 20), (2, "R2", 0), (3, "R2", 20), (7, "R1", 0)];
    assert_eq!(hung(&film), on(&all));
}
