//! How letters stand out, and that what is offered helps: by setting the card anew.

use onestrand_lettering::{CardAsked, Contrast, Design, Down, Remedy, contrast, laid_over, set};

use crate::{SUPER_8, grey};

const SIZE: (u32, u32) = (480, 360);

fn asked(design: Design) -> CardAsked {
    CardAsked::new("The Ten-Past Boat", design, SUPER_8)
}

fn measured(asked: &CardAsked, ground: &[u8]) -> Contrast {
    let layer = set(asked).expect("it can be set").draw(SIZE.0, SIZE.1, 0.0);
    contrast(ground, &layer, SIZE)
}

#[test]
fn the_ratio_is_that_of_the_standard() {
    // Level 119 has a luminance of 0.1845; level 252, of which plain letters are, 0.974
    // (IEC 61966-2-1): (0.974 + 0.05) / (0.1845 + 0.05) = 4.37.
    // Large letters, of whose pixels few are of the edge.
    let large = CardAsked {
        letter_height: Some(0.4),
        ..CardAsked::new("HI", Design::Plain, SUPER_8)
    };
    let found = measured(&large, &grey(119, SIZE));
    assert!((found.ratio - 4.37).abs() < 0.08, "{}", found.ratio);
    assert!(!found.enough);
    let found = measured(&asked(Design::Plain), &grey(0, SIZE));
    assert!(found.enough && found.ratio > 19.0 && found.remedies.is_empty());
}

#[test]
fn the_worst_place_is_where_the_ground_is_bright() {
    // The right third is bright.
    let ground: Vec<u8> = grey(20, SIZE)
        .chunks_exact(3)
        .enumerate()
        .flat_map(|(at, _)| if at % 480 > 300 { [200; 3] } else { [20; 3] })
        .collect();
    let found = measured(&asked(Design::Plain), &ground);
    assert!(found.ratio < 2.0 && found.typical > 10.0);
    assert!(found.worst.x + found.worst.width > 300);
}

/// Sets the card as a remedy says, and measures anew.
fn carried_out(remedy: Remedy, asked: &CardAsked, ground: &[u8]) -> Contrast {
    let mut after = asked.clone();
    let mut ground = ground.to_vec();
    match remedy {
        Remedy::Move { down } => after.down = if down > 0.0 { Down::Low } else { Down::Top },
        Remedy::DarkLetters => after.dark_on_light = !after.dark_on_light,
        Remedy::Plate => after.plate = true,
        Remedy::Darken { stops } => {
            let clear = set(&CardAsked::new("i", Design::Plain, SUPER_8)).expect("set");
            let clear = clear.draw(SIZE.0, SIZE.1, 4.0);
            ground = laid_over(&ground, &clear, (-stops).exp2(), 1.0);
        }
        other => panic!("not known: {other:?}"),
    }
    measured(&after, &ground)
}

#[test]
fn every_remedy_offered_is_enough_when_it_is_carried_out() {
    // A bright band across the middle, dark above and below, and a grey all over.
    let band: Vec<u8> = (0..SIZE.1)
        .flat_map(|y| [if (110..250).contains(&y) { 215_u8 } else { 24 }; 480 * 3])
        .collect();
    let grounds = [band, grey(170, SIZE), grey(119, SIZE)];
    let mut offered = 0;
    for ground in &grounds {
        for design in Design::ALL {
            for dark in [false, true] {
                let asked = CardAsked {
                    dark_on_light: dark,
                    ..asked(design)
                };
                let before = measured(&asked, ground);
                for remedy in &before.remedies {
                    offered += 1;
                    let after = carried_out(*remedy, &asked, ground);
                    // The remedy was tried on the pixels, and is carried out on the
                    // card: a hair less is the same.
                    assert!(
                        after.ratio > before.wanted * 0.97,
                        "{design} {dark} {remedy:?}: {} after {}",
                        after.ratio,
                        before.ratio
                    );
                }
                assert!(
                    before.enough || !before.remedies.is_empty(),
                    "{design} {dark}"
                );
            }
        }
    }
    assert!(offered > 40);
}

#[test]
fn moving_comes_first_where_it_helps() {
    let band: Vec<u8> = (0..SIZE.1)
        .flat_map(|y| [if y > 110 { 215_u8 } else { 24 }; 480 * 3])
        .collect();
    let found = measured(&asked(Design::Plain), &band);
    assert!(
        matches!(found.remedies[0], Remedy::Move { down } if down < 0.0),
        "{:?}",
        found.remedies
    );
}

#[test]
fn small_letters_are_asked_for_more() {
    let small = CardAsked {
        letter_height: Some(0.025),
        ..asked(Design::Plain)
    };
    assert!(
        measured(&small, &grey(0, SIZE)).wanted
            > measured(&asked(Design::Plain), &grey(0, SIZE)).wanted
    );
}
