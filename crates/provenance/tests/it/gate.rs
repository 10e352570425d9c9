//! The outline of a gate out of drawn frames, and scans that do not show one.

use onestrand_provenance::{GateUnseen, ProvenanceError, ScanPicture, ShotSeen, Side};

use crate::chance::Chance;
use crate::family::{Camera, SIZE, Shot, Stock, draw};

fn plain(chance: &mut Chance, camera: &Camera) -> Vec<ScanPicture> {
    let stock = Stock::new(chance);
    let shot = Shot {
        camera,
        stock,
        hairs: Vec::new(),
        fog: (0.0, 0.0),
    };
    draw(&shot, chance)
}

/// A part of a picture, as a scan that is cropped shows it.
fn cropped(picture: &ScanPicture, [left, right, top, bottom]: [usize; 4]) -> ScanPicture {
    let bytes = picture.bytes();
    let mut rgb = Vec::new();
    for y in top..SIZE.1 - bottom {
        rgb.extend_from_slice(&bytes[(y * SIZE.0 + left) * 3..(y * SIZE.0 + SIZE.0 - right) * 3]);
    }
    ScanPicture::new(SIZE.0 - left - right, SIZE.1 - top - bottom, rgb).expect("a picture")
}

#[test]
fn two_shots_of_one_camera_have_the_outline_that_was_drawn() {
    let mut chance = Chance::new(7);
    let camera = Camera::new(&mut chance, 1.0);
    let mut seen = 0;
    for _shot in 0..6 {
        let shot = ShotSeen::of(&plain(&mut chance, &camera)).expect("looked at");
        // A scene that is dark at a side shows no edge there, and says so.
        let Some(outline) = shot.outline() else {
            assert_ne!(shot.unseen().expect("a reason").words(), "");
            continue;
        };
        seen += 1;
        // Drawn about 500 by 355.
        let high = outline.height_share();
        assert!((high - 0.71).abs() < 0.015, "{high}");
        let places = Side::ALL.map(|side| outline.points(side).iter().flatten().count());
        assert!(places.iter().sum::<usize>() >= 84, "{places:?}");
    }
    assert!(seen >= 3, "{seen} of 6");
}

#[test]
fn a_scan_cropped_to_the_picture_says_so_and_guesses_nothing() {
    let mut chance = Chance::new(8);
    let camera = Camera::new(&mut chance, 1.0);
    for n in 0..6 {
        let pictures = plain(&mut chance, &camera);
        let all = [90, 90, 80, 80];
        let inside: Vec<_> = pictures.iter().map(|p| cropped(p, all)).collect();
        let seen = ShotSeen::of(&inside).expect("looked at");
        assert!(seen.outline().is_none(), "shot {n}");
        let left: Vec<_> = pictures.iter().map(|p| cropped(p, [90, 0, 0, 0])).collect();
        let seen = ShotSeen::of(&left).expect("looked at");
        assert!(seen.outline().is_none(), "shot {n}");
        if let Some(GateUnseen::Sides(sides)) = seen.unseen() {
            assert!(sides.contains(&Side::Left), "{sides:?}");
        }
    }
}

#[test]
fn too_few_pictures_and_pictures_of_two_sizes_are_refused() {
    let grey = |w: usize, h: usize| ScanPicture::new(w, h, vec![90; w * h * 3]);
    assert!(matches!(
        grey(20, 20),
        Err(ProvenanceError::PictureSize { .. })
    ));
    let one = grey(320, 240).expect("a picture");
    let few = ShotSeen::of(&[one.clone(), one.clone()]);
    assert!(matches!(few, Err(ProvenanceError::TooFew { found: 2, .. })));
    let other = grey(320, 200).expect("a picture");
    let mixed = ShotSeen::of(&[one.clone(), one.clone(), one, other]);
    assert_eq!(mixed, Err(ProvenanceError::Sizes));
}
