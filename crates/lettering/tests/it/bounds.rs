//! Whatever words come in: they stand in the safe area, or are refused with a next
//! step.

use onestrand_lettering::{Across, CardAsked, Design, Down, set};
use proptest::prelude::*;

fn words() -> impl Strategy<Value = String> {
    let word = prop_oneof![
        6 => "[a-zA-Z]{1,12}",
        2 => "[äöüßéèêçñøåžščřőğıłæœþ]{1,9}",
        1 => "[Α-Ωα-ω]{1,9}",
        1 => "[А-Яа-я]{1,9}",
        1 => "[א-ת]{1,8}",
        1 => "[بتثجحخدذرزسش]{1,8}",
        1 => "[0-9]{1,6}[.,:!?…”»)]{0,2}",
        1 => "\\PC{1,6}",
    ];
    let space = prop_oneof![6 => Just(" "), 2 => Just("\n"), 1 => Just("\n\n"), 1 => Just("-")];
    prop::collection::vec((word, space), 0..26).prop_map(|parts| {
        let parts = parts.into_iter().map(|(word, space)| word + space);
        parts.collect()
    })
}

fn asked() -> impl Strategy<Value = CardAsked> {
    let design = prop::sample::select(Design::ALL.to_vec());
    let places = (0..3_usize, 0..3_usize);
    let tall = prop::option::weighted(0.3, 0.02..0.3_f64);
    (words(), design, places, tall, 0.5..1.0_f64, 0.7..2.6_f64).prop_map(
        |(words, design, (across, down), letter_height, safe, aspect)| CardAsked {
            across: [Across::Left, Across::Centre, Across::Right][across],
            down: [Down::Top, Down::Middle, Down::Low][down],
            letter_height,
            safe,
            ..CardAsked::new(words, design, (4.0 * aspect, 4.0))
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(160))]

    #[test]
    fn in_the_safe_area_or_refused(asked in asked()) {
        match set(&asked) {
            Err(refused) => {
                prop_assert!(!refused.to_string().is_empty());
                prop_assert!(refused.hint().len() > 20);
            }
            Ok(card) => {
                let aspect = asked.aspect_mm.0 / asked.aspect_mm.1;
                let size = ((160.0 * aspect) as u32, 160_u32);
                let layer = card.draw(size.0, size.1, 0.0);
                // The drawn letters are looked at, not what the card says of them.
                let scale = f64::from(size.0).min(160.0 * aspect) / aspect;
                let wide = asked.safe * scale * aspect / 2.0 + 1.5;
                let tall = asked.safe * scale / 2.0 + 1.5;
                let mut seen = 0;
                for (at, letter) in layer.letters().iter().enumerate() {
                    if *letter < 40 {
                        continue;
                    }
                    seen += 1;
                    let x = (at as u32 % size.0) as f64 + 0.5 - f64::from(size.0) / 2.0;
                    let y = (at as u32 / size.0) as f64 + 0.5 - f64::from(size.1) / 2.0;
                    prop_assert!(x.abs() <= wide && y.abs() <= tall, "ink at {x}, {y} of {wide}, {tall}");
                }
                prop_assert!(seen > 0 || card.capital_height() < 0.03);
                if let Some(tall) = asked.letter_height {
                    prop_assert!((card.capital_height() - tall).abs() < 1e-9);
                }
            }
        }
    }
}
