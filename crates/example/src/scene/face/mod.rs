//! Setups 4A and 6A: Ida's face and Bram's, close.

pub(super) mod bram;
pub(super) mod ida;

use tiny_skia::Transform;

use super::Set;
use crate::draw::nature::{Horizon, horizon};
use crate::draw::water::{Bed, Water};
use crate::paper::shape::{curve, oval, smooth};
use crate::paper::{Paper, Papers, Stage};
use crate::world::motion::bump;

/// What a face shows.
#[derive(Debug, Clone, Copy)]
struct Look {
    /// Eyes to the side and down, -1 to 1.
    gaze: (f32, f32),
    /// Brows up (1) or down (-1).
    brow: f32,
    /// Inner ends of the brows up: worry, 0 to 1.
    worry: f32,
    /// Corners of the mouth up (1) or down (-1).
    smile: f32,
    /// Lids, 0 open to 1 shut.
    lids: f32,
    open: f32,
}

fn back(papers: &Papers, seed: u64, water: f32) -> Set {
    let bed = Bed {
        top: water - 4.0,
        bottom: 520.0,
        strips: 5,
        wave: 190.0,
        seed,
    };
    let far = Horizon {
        seed: seed + 2,
        water,
        zoom: 1.9,
        sun: None,
    };
    Set::new(papers, |stage| horizon(stage, far)).with_water(Water::new(papers, bed))
}

fn blink(t: f32, every: f32) -> f32 {
    let at = (t + 7.0).rem_euclid(every);
    bump(1.5, 2.5, 1.5, at)
}

/// Eyes, brows, nose and mouth about a middle between the eyes.
fn features(stage: &mut Stage<'_>, head: Transform, middle: (f32, f32), look: &Look) {
    let (x, y) = middle;
    for side in [-1.0, 1.0] {
        let ex = x + side * 44.0;
        stage.piece(&oval(ex, y, 22.0, 19.0), Paper::Cream, head);
        let (px, py) = (ex + look.gaze.0 * 9.0, y + look.gaze.1 * 7.0);
        stage.fill(&oval(px, py, 11.0, 11.5), [62, 48, 44, 255], head);
        stage.fill(
            &oval(px - 3.6, py - 4.0, 3.2, 3.2),
            [250, 244, 228, 255],
            head,
        );
        if look.lids > 0.03 {
            let drop = -20.0 + 40.0 * look.lids;
            let lid = smooth(&[
                (ex - 25.0, y - 6.0),
                (ex - 15.0, y - 23.0),
                (ex + 15.0, y - 23.0),
                (ex + 25.0, y - 6.0),
                (ex + 14.0, y + drop),
                (ex - 14.0, y + drop),
            ]);
            stage.sheet(&lid, Paper::SkinWarm, head);
        }
        let lift = y - 34.0 - 9.0 * look.brow;
        let inner = lift - 12.0 * look.worry;
        let outer = lift + 7.0 * look.worry + 4.0;
        let brow = curve(&[
            (ex - side * 20.0, inner),
            (ex, lift - 5.0),
            (ex + side * 24.0, outer),
        ]);
        stage.line(&brow, 7.0, [78, 52, 40, 255], head);
    }
    let nose = smooth(&[
        (x + 2.0, y + 8.0),
        (x + 17.0, y + 46.0),
        (x + 6.0, y + 56.0),
        (x - 9.0, y + 51.0),
        (x - 4.0, y + 28.0),
    ]);
    stage.piece(&nose, Paper::SkinWarm, head);
    mouth(stage, head, (x + 2.0, y + 84.0), look);
}

fn mouth(stage: &mut Stage<'_>, head: Transform, at: (f32, f32), look: &Look) {
    let (x, y) = at;
    let bend = look.smile * 13.0;
    let gape = look.open * 13.0;
    if gape > 1.0 {
        let lips = smooth(&[
            (x - 20.0, y),
            (x, y - gape * 0.7),
            (x + 20.0, y),
            (x, y + gape),
        ]);
        stage.sheet(&lips, Paper::BerryDark, head);
    } else {
        let lips = curve(&[
            (x - 28.0, y - bend * 0.7),
            (x - 10.0, y + bend * 0.5),
            (x + 10.0, y + bend * 0.5),
            (x + 28.0, y - bend * 0.7),
        ]);
        stage.line(&lips, 7.0, [150, 52, 56, 255], head);
    }
}
