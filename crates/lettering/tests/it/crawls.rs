//! Words that go through the picture.

use onestrand_lettering::{CardAsked, Design, set};

use crate::SUPER_8;

fn credits(design: Design) -> CardAsked {
    let words: Vec<String> = (1..40)
        .map(|n| format!("Helper number {n}\nAda Quay\n"))
        .collect();
    CardAsked {
        crawl: true,
        ..CardAsked::new(words.join("\n"), design, SUPER_8)
    }
}

#[test]
fn a_crawl_is_as_tall_as_its_words() {
    let card = set(&credits(Design::Plain)).expect("it can be set");
    assert!(card.full_height() > 5.0);
    let last = card.lines().last().expect("a line").bounds.bottom;
    assert!((card.full_height() - last - 0.1).abs() < 1e-6);
    let tops: Vec<f64> = card.lines().iter().map(|line| line.bounds.top).collect();
    assert!(tops.is_sorted());
}

#[test]
fn a_step_moves_every_letter_by_the_same_rows() {
    let (width, height) = (400_u32, 300_u32);
    // A machine's letters, whose surface has no grain that a pixel could hide.
    let card = set(&credits(Design::Plain)).expect("it can be set");
    let at = |rows: u32| {
        let scale = f64::from(width) / (SUPER_8.0 / SUPER_8.1);
        card.draw(
            width,
            height,
            f64::from(rows) / scale.min(f64::from(height)),
        )
    };
    let (one, other) = (at(300), at(307));
    let skip = 7 * width as usize;
    let kept = one.letters().len() - skip;
    let apart = one.letters()[skip..].iter().zip(&other.letters()[..kept]);
    let apart: Vec<u8> = apart.map(|(a, b)| a.abs_diff(*b)).collect();
    // An edge has four steps a pixel downwards, and rounding may take one of them.
    let worst = apart.iter().max();
    assert!(worst <= Some(&64), "{worst:?}");
    let sum: u64 = apart.iter().map(|by| u64::from(*by)).sum();
    assert!(sum < apart.len() as u64 / 20, "{sum}");
    assert!(one.letters().iter().any(|v| *v > 200));
}

#[test]
fn before_it_comes_in_and_after_it_went_out_the_picture_is_empty() {
    for design in Design::ALL {
        let card = set(&credits(design)).expect("it can be set");
        for from_top in [-1.0, card.full_height()] {
            let layer = card.draw(200, 150, from_top);
            assert!(
                layer.letters().iter().all(|v| *v == 0),
                "{design} {from_top}"
            );
        }
    }
}
