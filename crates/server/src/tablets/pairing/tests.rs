use std::time::Duration;

use super::{FIGURES, Moment, Pairing, TRIES, code};
use crate::tablets::problem::TabletProblem;

const CODE: &str = "48291753";

/// So many seconds after the program began, at an hour of our own.
fn at(seconds: u64) -> Moment {
    Moment {
        since: Duration::from_secs(seconds),
        wall: 1_700_000_000_000 + 1000 * seconds,
    }
}

fn asked() -> Pairing {
    let mut pairing = Pairing::default();
    pairing.ask(CODE.to_owned(), "boat", at(100));
    pairing
}

fn enter(pairing: &mut Pairing, code: &str, seconds: u64) -> Result<(), &'static str> {
    let token = format!("secret {seconds}");
    let entered = pairing.enter(code, "blue tablet", &token, at(seconds));
    entered.map_err(|why| why.code())
}

#[test]
fn a_code_opens_once_for_one_tablet() {
    let mut pairing = asked();
    assert_eq!(enter(&mut pairing, CODE, 110), Ok(()));
    assert!(pairing.shown(at(111)).is_none());
    assert_eq!(enter(&mut pairing, CODE, 112), Err("tablet.wrong_code"));
    let tablets = pairing.tablets();
    assert_eq!(tablets.len(), 1);
    assert_eq!(tablets[0].film, "boat");
    assert_eq!(tablets[0].let_in, at(110).wall);
}

#[test]
fn it_may_be_typed_as_it_is_shown() {
    let mut pairing = asked();
    assert_eq!(enter(&mut pairing, " 4829 1753 ", 110), Ok(()));
}

/// Asked for at 100 s, it opens for five minutes: at 399 s and not at 400 s.
#[test]
fn a_code_grows_too_old() {
    let mut pairing = asked();
    let shown = pairing.shown(at(399)).expect("it opens still");
    assert_eq!(shown.until, at(400).wall);
    assert_eq!(enter(&mut pairing, CODE, 400), Err("tablet.wrong_code"));
    assert!(pairing.shown(at(400)).is_none());
    let mut in_time = asked();
    assert_eq!(enter(&mut in_time, CODE, 399), Ok(()));
}

#[test]
fn the_fifth_wrong_code_ends_it() {
    let mut pairing = asked();
    for wrong in 1..=4 {
        assert_eq!(
            enter(&mut pairing, "11111111", 100 + wrong),
            Err("tablet.wrong_code")
        );
        let shown = pairing.shown(at(100 + wrong)).expect("it opens still");
        assert_eq!(u64::from(shown.tries_left), 5 - wrong);
    }
    assert_eq!(
        enter(&mut pairing, "11111111", 105),
        Err("tablet.wrong_code")
    );
    assert_eq!(pairing.wrong(), TRIES);
    assert_eq!(enter(&mut pairing, CODE, 106), Err("tablet.wrong_code"));
    pairing.ask("00000000".to_owned(), "boat", at(107));
    assert_eq!(pairing.wrong(), 0);
    assert_eq!(enter(&mut pairing, "00000000", 108), Ok(()));
}

/// Within a second of the last try not even the right one is looked at; nor does that
/// cost a try.
#[test]
fn tries_rest_a_second_whoever_makes_them() {
    let mut pairing = asked();
    assert_eq!(enter(&mut pairing, "1", 101), Err("tablet.wrong_code"));
    let half = Moment {
        since: Duration::from_millis(101_999),
        wall: 0,
    };
    for _ in 0..50 {
        let entered = pairing.enter(CODE, "", "secret", half);
        assert!(matches!(entered, Err(TabletProblem::TooSoon)));
    }
    assert_eq!(pairing.wrong(), 1);
    assert_eq!(enter(&mut pairing, CODE, 102), Ok(()));
}

#[test]
fn another_code_ends_the_one_before() {
    let mut pairing = asked();
    pairing.ask("00000001".to_owned(), "ferry", at(110));
    assert_eq!(enter(&mut pairing, CODE, 111), Err("tablet.wrong_code"));
    assert_eq!(enter(&mut pairing, "00000001", 112), Ok(()));
    assert_eq!(pairing.tablets()[0].film, "ferry");
}

#[test]
fn without_a_code_nothing_opens() {
    let mut pairing = Pairing::default();
    for (second, tried) in (0..).zip(["", " ", "0", CODE]) {
        let entered = pairing.enter(tried, "", "secret", at(second));
        assert!(matches!(entered, Err(TabletProblem::WrongCode)), "{tried}");
    }
    assert_eq!(pairing.wrong(), 0);
}

#[test]
fn who_is_in_is_known_by_the_secret_until_sent_away() {
    let mut pairing = asked();
    enter(&mut pairing, CODE, 110).expect("in");
    let who = pairing.who("secret 110", at(200)).expect("known");
    assert_eq!(
        (who.name.as_str(), who.film.as_str()),
        ("blue tablet", "boat")
    );
    assert_eq!(pairing.tablets()[0].last_seen, at(200).wall);
    for other in ["", "secret", "secret 111"] {
        assert!(pairing.who(other, at(201)).is_none(), "{other}");
    }
    assert!(!pairing.send_away(who.id + 1));
    assert!(pairing.send_away(who.id));
    assert!(!pairing.has(who.id));
    assert!(pairing.who("secret 110", at(202)).is_none());
    assert!(!pairing.send_away(who.id));
}

#[test]
fn shut_nobody_is_in_and_nothing_opens() {
    let mut pairing = asked();
    enter(&mut pairing, CODE, 110).expect("in");
    pairing.ask("00000002".to_owned(), "boat", at(120));
    pairing.forget_all();
    assert!(pairing.tablets().is_empty());
    assert_eq!(
        enter(&mut pairing, "00000002", 130),
        Err("tablet.wrong_code")
    );
}

#[test]
fn names_that_may_stand_in_the_log() {
    let long = "x".repeat(40);
    for (given, name) in [
        ("", "tablet"),
        ("  ", "tablet"),
        (" the blue one ", "the blue one"),
        ("Grün 2", "Grün 2"),
        ("青いタブレット", "青いタブレット"),
        (&long, long.as_str()),
    ] {
        let mut pairing = asked();
        pairing.enter(CODE, given, "secret", at(110)).expect("in");
        assert_eq!(pairing.tablets()[0].name, name);
    }
    let longer = "x".repeat(41);
    for given in [
        "a\nb",
        "a\0",
        "\u{202e}a",
        "a\u{200b}b",
        "\u{1b}[1m",
        "a\u{2028}b",
        &longer,
    ] {
        let mut pairing = asked();
        let entered = pairing.enter(CODE, given, "secret", at(110));
        assert!(matches!(entered, Err(TabletProblem::Name(_))), "{given:?}");
        // It cost no try and the code still opens.
        assert_eq!(enter(&mut pairing, CODE, 110), Ok(()));
    }
}

#[test]
fn two_of_one_name_are_told_apart_and_no_more_than_eight_come() {
    let mut pairing = Pairing::default();
    for nth in 0..8 {
        pairing.ask(CODE.to_owned(), "boat", at(10 * nth));
        assert_eq!(enter(&mut pairing, CODE, 10 * nth + 1), Ok(()));
    }
    let names: Vec<String> = pairing.tablets().into_iter().map(|t| t.name).collect();
    assert_eq!(
        names[..3],
        ["blue tablet", "blue tablet 2", "blue tablet 3"]
    );
    pairing.ask(CODE.to_owned(), "boat", at(100));
    assert_eq!(enter(&mut pairing, CODE, 101), Err("tablet.full"));
}

/// 42 whole rounds of a hundred million codes fit in 32 bits; what lies beyond would
/// make some codes likelier and is drawn anew.
#[test]
fn every_code_is_as_likely_as_any_other() {
    for (drawn, figures) in [
        (0, "00000000"),
        (7, "00000007"),
        (99_999_999, "99999999"),
        (100_000_000, "00000000"),
        (4_199_999_999, "99999999"),
    ] {
        let found = code(&mut || Ok(drawn)).expect("a code");
        assert_eq!(found, figures);
        assert_eq!(found.len(), FIGURES);
    }
    let mut numbers = [u32::MAX, 4_200_000_000, 12_345_678].into_iter();
    let found = code(&mut || Ok(numbers.next().expect("one more"))).expect("a code");
    assert_eq!(found, "12345678");
    assert!(code(&mut || Err(std::io::Error::other("none"))).is_err());
}
