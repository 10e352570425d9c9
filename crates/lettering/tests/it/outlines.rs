//! True-size outlines.

use onestrand_lettering::{CardAsked, Design, set};

use crate::{SUPER_8, card};

/// What story 10's field shows. Unit: millimetres.
const FIELD: (f64, f64) = (224.0, 169.1);

/// The ends of lines and curves in path data, without the points that only pull.
fn corners(data: &str) -> Vec<(f64, f64)> {
    data.split(['M', 'L', 'Q', 'C', 'Z'])
        .filter(|part| !part.trim().is_empty())
        .map(|part| {
            let numbers: Vec<f64> = part
                .split_whitespace()
                .map(|number| number.parse().expect("a number"))
                .collect();
            let [.., x, y] = numbers[..] else {
                panic!("a point: {part}")
            };
            (x, y)
        })
        .collect()
}

#[test]
fn letters_are_as_large_on_the_art_as_the_field_says() {
    // Straight strokes, so that corners are the ink's ends.
    let asked = CardAsked {
        letter_height: Some(0.1),
        ..CardAsked::new("HILL", Design::Plain, SUPER_8)
    };
    let card = set(&asked).expect("it can be set");
    let points = corners(&card.path_data(FIELD));
    let top = points.iter().map(|p| p.1).fold(f64::MAX, f64::min);
    let bottom = points.iter().map(|p| p.1).fold(f64::MIN, f64::max);
    // A tenth of the picture: 224.0 × 4.01 / 5.31 = 169.16 is just more than 169.1, so
    // the height rules.
    assert!((bottom - top - 16.91).abs() < 0.02, "{}", bottom - top);
    let left = points.iter().map(|p| p.0).fold(f64::MAX, f64::min);
    let right = points.iter().map(|p| p.0).fold(f64::MIN, f64::max);
    assert!(((left + right) / 2.0 - 112.0).abs() < 0.05);
}

#[test]
fn outlines_and_pixels_are_the_same_letters() {
    for design in Design::ALL {
        let card = card("Ten-Past", design);
        let points = corners(&card.path_data(FIELD));
        let (width, height) = (1120_u32, 845_u32);
        let layer = card.draw(width, height, 0.0);
        // Every corner of an outline lies at ink, within what pens, chalk and paint add
        // or take.
        let reach = (card.capital_height() * 845.0 * 0.05).ceil() as i64 + 1;
        for (x, y) in points {
            let (x, y) = ((x * 5.0) as i64, (y * 845.0 / 169.1) as i64);
            let near = (-reach..=reach).any(|down| {
                (-reach..=reach).any(|across| {
                    let at = (y + down) * i64::from(width) + x + across;
                    layer.letters()[at as usize] > 30
                })
            });
            assert!(near, "{design}: a corner at {x}, {y} without ink");
        }
    }
}

#[test]
fn the_drawing_is_true_to_size_and_reversed_when_asked() {
    let card = card("Boat", Design::Pen);
    let plain = card.svg(FIELD, false);
    assert!(
        plain.contains("width=\"224.000mm\" height=\"169.100mm\" viewBox=\"0 0 224.000 169.100\"")
    );
    assert!(plain.contains("fill=\"#000000\"") && !plain.contains("<rect"));
    // A pen's letters have their weight from the pen.
    assert!(plain.contains(&format!("stroke-width=\"{:.4}\"", card.pen_mm(FIELD))));
    assert!(card.pen_mm(FIELD) > 0.3);
    let reversed = card.svg(FIELD, true);
    assert!(reversed.contains("<rect width=\"100%\" height=\"100%\" fill=\"#000000\"/>"));
    assert!(reversed.contains("<path fill=\"#ffffff\""));
}
