//! Centred by eye: seen in the pixels, not in what the card says of itself.

use onestrand_lettering::{Across, CardAsked, Design, Down, Layer, set};

use crate::{SUPER_8, card};

const SIZE: (u32, u32) = (1324, 1000);

/// The first and last column (or row) with ink, in pixels.
fn ends(layer: &Layer, of: impl Fn(usize) -> usize) -> (f64, f64) {
    let inked = layer
        .letters()
        .iter()
        .enumerate()
        .filter(|(_, v)| **v > 127);
    let (first, last) = inked.fold((usize::MAX, 0), |(first, last), (at, _)| {
        (first.min(of(at)), last.max(of(at)))
    });
    (first as f64, last as f64 + 1.0)
}

fn across(layer: &Layer) -> (f64, f64) {
    ends(layer, |at| at % SIZE.0 as usize)
}

fn down(layer: &Layer) -> (f64, f64) {
    ends(layer, |at| at / SIZE.0 as usize)
}

fn drawn(asked: &CardAsked) -> Layer {
    set(asked).expect("it can be set").draw(SIZE.0, SIZE.1, 0.0)
}

#[test]
fn ink_is_centred_not_the_room_that_the_typeface_leaves() {
    // J hangs out to the left of its place, and T stands far from its edge.
    for words in ["Jet", "TOT", "fjord"] {
        let (left, right) = across(&card(words, Design::Plain).draw(SIZE.0, SIZE.1, 0.0));
        let off = (left + right) / 2.0 - f64::from(SIZE.0) / 2.0;
        assert!(off.abs() <= 1.5, "{words} is {off} pixels off");
    }
}

#[test]
fn a_full_stop_hangs_and_counts_in_part() {
    let at = |words: &str| {
        let asked = CardAsked {
            letter_height: Some(0.1),
            ..CardAsked::new(words, Design::Plain, SUPER_8)
        };
        across(&drawn(&asked))
    };
    let (bare, stopped) = (at("MINIM"), at("MINIM..."));
    let hung = stopped.1 - stopped.0 - (bare.1 - bare.0);
    let moved = bare.0 - stopped.0;
    // Centred by its ink alone it would move by a half of what hangs; not counted at
    // all, by nothing.
    assert!(hung > 20.0);
    assert!(
        moved > 0.1 * hung && moved < 0.35 * hung,
        "{moved} of {hung}"
    );
}

#[test]
fn the_middle_is_a_little_above_the_middle() {
    let (top, bottom) = down(&card("HOME", Design::Plain).draw(SIZE.0, SIZE.1, 0.0));
    let off = (top + bottom) / 2.0 - f64::from(SIZE.1) / 2.0;
    assert!((-30.0..=-5.0).contains(&off), "{off}");
}

#[test]
fn ranged_lines_stand_at_the_edge_of_the_safe_area() {
    for (place, edge) in [(Across::Left, 0.1), (Across::Right, 0.9)] {
        let asked = CardAsked {
            across: place,
            ..CardAsked::new("one\ntwo and three", Design::Plain, SUPER_8)
        };
        let (left, right) = across(&drawn(&asked));
        let ink = if edge < 0.5 { left } else { right };
        assert!(
            (ink - edge * f64::from(SIZE.0)).abs() < 2.5,
            "{place:?} {ink}"
        );
    }
    for (place, edge) in [(Down::Top, 0.1), (Down::Low, 0.9)] {
        let asked = CardAsked {
            down: place,
            ..CardAsked::new("quay", Design::Plain, SUPER_8)
        };
        let (top, bottom) = down(&drawn(&asked));
        let ink = if edge < 0.5 { top } else { bottom };
        assert!(
            (ink - edge * f64::from(SIZE.1)).abs() < 2.5,
            "{place:?} {ink}"
        );
    }
}

#[test]
fn capitals_are_as_tall_as_the_card_says() {
    for design in [
        Design::Plain,
        Design::Transfer,
        Design::WoodType,
        Design::Silent,
    ] {
        let asked = CardAsked {
            letter_height: Some(0.12),
            ..CardAsked::new("HIT", design, SUPER_8)
        };
        let (top, bottom) = down(&drawn(&asked));
        // A hand strays by a few hundredths of a capital, and a pen adds its half.
        assert!(
            ((bottom - top) / 120.0 - 1.0).abs() < 0.09,
            "{design} {}",
            bottom - top
        );
    }
}

#[test]
fn typed_line_ends_and_gaps_are_kept() {
    let set = card("one\ntwo\n\nthree", Design::Plain);
    let lines: Vec<&str> = set.lines().iter().map(|line| line.text.as_str()).collect();
    assert_eq!(lines, ["one", "two", "three"]);
    let base: Vec<f64> = set.lines().iter().map(|line| line.baseline).collect();
    assert!(base[2] - base[1] > (base[1] - base[0]) * 1.4);
}

#[test]
fn two_letters_of_a_hand_are_not_the_same_letter_twice() {
    let set = card("oo", Design::Pen);
    let layer = set.draw(SIZE.0, SIZE.1, 0.0);
    let (left, right) = across(&layer);
    let width = SIZE.0 as usize;
    let middle = ((left + right) / 2.0) as usize;
    let half = |from: usize, to: usize| -> u64 {
        let rows = layer.letters().chunks_exact(width);
        rows.flat_map(|row| &row[from..to])
            .map(|v| u64::from(*v))
            .sum()
    };
    let (one, other) = (
        half(left as usize, middle),
        half(middle, right as usize + 1),
    );
    assert!(one.abs_diff(other) > one / 400, "{one} {other}");
}
