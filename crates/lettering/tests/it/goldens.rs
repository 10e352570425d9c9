//! Every design as it looked when it was last looked at, 160×120 pixels. With
//! `ONESTRAND_WRITE_CARDS=1` they are written anew: look at each before it is kept.

use std::path::PathBuf;

use onestrand_lettering::{CardAsked, Design, laid_over, set};

use crate::{SUPER_8, grey};

const SIZE: (u32, u32) = (160, 120);

/// Floating point may round otherwise on another processor: on the average no pixel
/// may differ by more than this. Unit: levels of 255.
const MEAN: f64 = 0.75;
/// A pixel differs when it does by more than this; Unit: levels of 255.
const FAR: u8 = 40;
/// and so many may: one in a thousand.
const FEW: usize = 57;

fn picture(design: Design) -> Vec<u8> {
    let asked = CardAsked {
        plate: design == Design::Typewriter,
        shadow: (design == Design::Brush).then_some(true),
        outline: (design == Design::Plain).then_some(true),
        ..CardAsked::new("The\nTen-Past\nBoat", design, SUPER_8)
    };
    let card = set(&asked).expect("it can be set");
    let layer = card.draw(SIZE.0, SIZE.1, 0.0);
    laid_over(&grey(96, SIZE), &layer, 1.0, 1.0)
}

fn kept(design: Design) -> PathBuf {
    let folder = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/goldens");
    folder.join(format!("{design}.png"))
}

/// Mean difference, and how many values are far apart.
fn apart(one: &[u8], other: &[u8]) -> (f64, usize) {
    assert_eq!(one.len(), other.len());
    let each = one.iter().zip(other).map(|(a, b)| a.abs_diff(*b));
    let mean = each.clone().map(f64::from).sum::<f64>() / one.len() as f64;
    (mean, each.filter(|by| *by > FAR).count())
}

#[test]
fn every_design_looks_as_it_did() {
    for design in Design::ALL {
        let now = picture(design);
        let path = kept(design);
        if std::env::var_os("ONESTRAND_WRITE_CARDS").is_some() {
            image::save_buffer(&path, &now, SIZE.0, SIZE.1, image::ColorType::Rgb8)
                .expect("written");
        }
        let was = image::open(&path).expect("a kept picture").into_rgb8();
        let (mean, far) = apart(&now, was.as_raw());
        assert!(
            mean <= MEAN && far <= FEW,
            "{design}: {mean:.2} levels apart on the average, {far} values far; look at it, and write it anew with ONESTRAND_WRITE_CARDS=1"
        );
    }
}

#[test]
fn no_two_designs_pass_for_each_other() {
    let pictures: Vec<Vec<u8>> = Design::ALL.into_iter().map(picture).collect();
    for (at, one) in pictures.iter().enumerate() {
        for other in &pictures[at + 1..] {
            let (mean, far) = apart(one, other);
            assert!(mean > MEAN && far > FEW);
        }
    }
}

#[test]
fn the_same_words_give_the_same_bytes() {
    for design in Design::ALL {
        assert_eq!(picture(design), picture(design), "{design}");
    }
}
