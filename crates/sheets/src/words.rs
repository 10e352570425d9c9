//! Numbers and the maker's words as they stand on paper.

use onestrand_film::{FeetFrames, FrameDelta, Frames, Gauge};

/// A count with commas between the thousands: `1,045`.
pub(crate) fn count(number: u32) -> String {
    let digits = number.to_string();
    let mut text = String::new();
    for (place, digit) in digits.chars().enumerate() {
        if place > 0 && (digits.len() - place).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    text
}

/// A count with its word: `1 frame`, `24 joins`.
pub(crate) fn counted(number: u32, one: &str, many: &str) -> String {
    format!("{} {}", count(number), if number == 1 { one } else { many })
}

/// Feet and frames in words: `37 ft 60 fr`.
pub(crate) fn footage(footage: FeetFrames) -> String {
    format!("{} ft {} fr", count(footage.feet()), footage.frames())
}

/// Feet as a decimal, to a tenth, by the trade's frames a foot: `135.1`.
pub(crate) fn decimal_feet(frames: Frames, gauge: Gauge) -> String {
    let per_foot = u64::from(gauge.spec().frames_per_foot);
    // Rounded half up in whole numbers, so that no float decides a digit.
    let tenths = (u64::from(frames.count()) * 20 + per_foot) / (2 * per_foot);
    let feet = u32::try_from(tenths / 10).unwrap_or(u32::MAX);
    format!("{}.{}", count(feet), tenths % 10)
}

/// A signed count for the eye: `+ 77`, `− 12`, with a true minus.
pub(crate) fn signed(delta: FrameDelta) -> String {
    let sign = if delta.frames() < 0 { '−' } else { '+' };
    format!("{sign} {}", count(delta.frames().unsigned_abs()))
}

/// The size of a shift.
pub(crate) fn size(delta: FrameDelta) -> Frames {
    // A shift is at most the largest count of frames.
    Frames::new(delta.frames().unsigned_abs()).unwrap_or(Frames::MAX)
}

/// Names in a list: `R1, R2 and R3`.
pub(crate) fn list(names: &[String]) -> String {
    match names {
        [] => String::new(),
        [one] => one.clone(),
        [most @ .., last] => format!("{} and {last}", most.join(", ")),
    }
}

/// Words cut short to at most so many letters, with an ellipsis when they were.
pub(crate) fn short(words: &str, most: usize) -> String {
    if words.chars().count() <= most {
        return words.to_owned();
    }
    let mut kept: String = words.chars().take(most.saturating_sub(1)).collect();
    kept.truncate(kept.trim_end().len());
    kept.push('…');
    kept
}

/// Names side by side while they fit into so many letters, else the first of
/// them and an ellipsis.
pub(crate) fn row_of_names(names: &[&str], most: usize) -> String {
    let all = names.join(", ");
    if all.chars().count() <= most {
        return all;
    }
    let mut fitting = names.len();
    while fitting > 1 && names[..fitting].join(", ").chars().count() + 3 > most {
        fitting -= 1;
    }
    format!("{}, …", names[..fitting].join(", "))
}

/// The maker's words on one line, as they are, less what would not be a mark
/// on paper but an order to the setting: line breaks, tabs and other control
/// characters become spaces, and the signs that turn the direction of writing
/// round are dropped, lest a title print the figures beside it backwards.
pub(crate) fn plain(words: &str) -> String {
    let turned = |c: char| matches!(c, '\u{202a}'..='\u{202e}' | '\u{2066}'..='\u{2069}');
    let spaced: String = words
        .chars()
        .filter(|c| !turned(*c))
        .map(|c| if c.is_control() { ' ' } else { c })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn counts_have_commas_in_the_thousands() {
        for (number, text) in [
            (0, "0"),
            (999, "999"),
            (1_045, "1,045"),
            (100_000, "100,000"),
            (4_294_967_295, "4,294,967,295"),
        ] {
            assert_eq!(count(number), text);
        }
    }

    #[test]
    fn one_is_not_many() {
        assert_eq!(counted(1, "frame", "frames"), "1 frame");
        assert_eq!(counted(0, "frame", "frames"), "0 frames");
    }

    #[test]
    fn the_wound_feet_of_story_seven() {
        let feet = |n| decimal_feet(Frames::new(n).expect("in range"), Gauge::Super8);
        assert_eq!(feet(9_724), "135.1");
        assert_eq!(feet(23_038), "320.0");
        assert_eq!(feet(0), "0.0");
    }

    #[test]
    fn signs_stand_apart_and_minus_is_a_minus() {
        let text = |n| signed(FrameDelta::new(n).expect("in range"));
        assert_eq!(text(77), "+ 77");
        assert_eq!(text(-1_045), "− 1,045");
        assert_eq!(text(0), "+ 0");
    }

    #[test]
    fn lists_end_in_and() {
        let of = |names: &[&str]| list(&names.iter().map(|n| (*n).to_owned()).collect::<Vec<_>>());
        assert_eq!(of(&[]), "");
        assert_eq!(of(&["R1"]), "R1");
        assert_eq!(of(&["R1", "R2", "R3"]), "R1, R2 and R3");
    }

    #[test]
    fn short_words_say_that_they_were_cut() {
        assert_eq!(short("The Ten-Past Boat", 17), "The Ten-Past Boat");
        assert_eq!(short("The Ten-Past Boat", 5), "The…");
        assert_eq!(short("Überfahrt", 4), "Übe…");
    }

    #[test]
    fn names_that_do_not_fit_end_in_an_ellipsis() {
        assert_eq!(row_of_names(&["R1", "R2", "R3"], 10), "R1, R2, R3");
        assert_eq!(row_of_names(&["R1", "R2", "R3", "R4"], 11), "R1, R2, …");
        assert_eq!(
            row_of_names(&["A-very-long-one", "R2"], 5),
            "A-very-long-one, …"
        );
        assert_eq!(row_of_names(&[], 5), "");
    }

    #[test]
    fn words_stay_what_they_are_on_one_line() {
        assert_eq!(
            plain("  #panic()\t*bold*\r\n\"q\" \\ <b> "),
            "#panic() *bold* \"q\" \\ <b>"
        );
        assert_eq!(plain("a\u{202e}b\u{2066}c\u{0}d"), "abc d");
    }

    proptest! {
        #[test]
        fn a_count_without_its_commas_is_the_number(number: u32) {
            let text = count(number);
            prop_assert_eq!(text.replace(',', "").parse::<u32>().expect("digits"), number);
            prop_assert!(text.split(',').skip(1).all(|group| group.len() == 3));
        }

        #[test]
        fn plain_words_are_one_line_and_stay_so(words: String) {
            let once = plain(&words);
            prop_assert!(!once.chars().any(char::is_control));
            prop_assert_eq!(plain(&once), once);
        }
    }
}
