//! Rows of the check values: how long ten words stand.

use onestrand_film::{Fps, Gauge};
use onestrand_title::{HOLD_RULES, HoldRule, count_words, hold, hold_footage};
use proptest::prelude::*;

/// O076: ten words at 120, 160, 180 and 200 words a minute, in seconds and in frames at
/// 18 and 24 a second, rounded up.
#[test]
fn ten_words_stand_as_long_as_was_worked_out() {
    for (rate, seconds, at_18, at_24) in [
        (120.0, 5.00, 90, 120),
        (160.0, 3.75, 68, 90),
        (180.0, 3.33, 60, 80),
        (200.0, 3.00, 54, 72),
    ] {
        let rule = HoldRule::words_a_minute(rate).expect("a rate");
        for (speed, frames) in [(Fps::EIGHTEEN, at_18), (Fps::TWENTY_FOUR, at_24)] {
            let found = hold(10, &rule, speed).expect("a hold");
            assert!((found.seconds - seconds).abs() < 0.005, "{rate}");
            assert_eq!(found.frames.count(), frames, "{rate} at {speed}");
        }
    }
    for code in ["wpm120", "wpm160", "wpm180"] {
        let named = HOLD_RULES.iter().find(|named| named.code == code);
        let rate: f64 = code[3..].parse().expect("a rate");
        let rule = HoldRule::words_a_minute(rate).expect("a rate");
        assert_eq!(named.expect("a rule").rule, rule);
    }
}

/// O078: the study's least is 1.5 s, and about 3.5 s are a line, 6 s two full ones. A line
/// of 9 words and two of 15 come near that at its slower rate.
#[test]
fn the_studys_rule_is_near_what_it_found_for_lines() {
    let study = HOLD_RULES.iter().find(|named| named.code == "study");
    let rule = study.expect("a rule").rule;
    let seconds = |words| hold(words, &rule, Fps::EIGHTEEN).expect("a hold").seconds;
    assert!((seconds(1) - 1.5).abs() < 1e-12);
    assert!((seconds(9) - 3.5).abs() < 0.2);
    assert!((seconds(15) - 6.0).abs() < 0.05);
}

/// Story 10: twelve words stand 7.0 s, two words the least, 2.5 s.
#[test]
fn the_storys_titles_stand_as_it_tells() {
    let own = HoldRule::default();
    let main = hold(12, &own, Fps::EIGHTEEN).expect("a hold");
    assert_eq!((main.frames.count(), main.is_least), (126, false));
    assert!((main.seconds - 7.0).abs() < 1e-12);
    assert_eq!(hold_footage(&main, Gauge::Super8), "1ft54");
    let end = hold(2, &own, Fps::EIGHTEEN).expect("a hold");
    assert_eq!((end.frames.count(), end.is_least), (45, true));
}

/// UAX #29, its own examples of words and what is none.
#[test]
fn words_are_counted_as_a_reader_meets_them() {
    for (text, words) in [
        ("The quick (“brown”) fox can’t jump 32.3 feet, right?", 9),
        ("", 0),
        (" — … !", 0),
        ("a\n\nb\tc", 3),
        ("Überfahrt 1967", 2),
        ("три слова здесь", 3),
    ] {
        assert_eq!(count_words(text), words, "{text:?}");
    }
}

#[test]
fn what_cannot_be_read_is_refused_and_what_is_long_is_told() {
    let own = HoldRule::default();
    assert_eq!(
        hold(0, &own, Fps::EIGHTEEN).expect_err("none").code(),
        "title.no_words"
    );
    assert!(hold(400, &own, Fps::EIGHTEEN).expect("a long one").is_long);
    assert!(hold(5_000, &own, Fps::EIGHTEEN).is_err());
    let odd = HoldRule {
        per_word_s: f64::NAN,
        ..own
    };
    assert!(hold(3, &odd, Fps::EIGHTEEN).is_err());
    assert!(HoldRule::words_a_minute(0.0).is_err());
}

proptest! {
    /// I1: never shorter than the rule, by less than a frame longer. Reckoned again in
    /// whole thousandths, where nothing is rounded.
    #[test]
    fn frames_are_rounded_up_by_less_than_one(
        words in 1_u64..500, least in 0_u64..9_000, first in 0_u64..5_000,
        per_word in 100_u64..2_000, num in 1_u64..120_000, den in 1_u64..1_200,
    ) {
        if let Ok(speed) = Fps::new(num, den) {
            let rule = HoldRule {
                least_s: least as f64 / 1e3,
                first_s: first as f64 / 1e3,
                per_word_s: per_word as f64 / 1e3,
            };
            let found = hold(words as usize, &rule, speed).expect("a hold");
            let thousandths = u128::from(least.max(first + per_word * words));
            let (num, den) = (u128::from(speed.num()), u128::from(speed.den()));
            let frames = (thousandths * num).div_ceil(1_000 * den).max(1);
            prop_assert_eq!(u128::from(found.frames.count()), frames);
        }
    }
}
