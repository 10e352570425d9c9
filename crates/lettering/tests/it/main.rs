//! Cards as whole pictures: read back, looked at, measured.

mod bounds;
mod by_eye;
mod crawls;
mod exposing;
mod goldens;
mod grounds;
mod outlines;
mod read_back;
mod refusals;
mod standing_out;

use onestrand_lettering::{CardAsked, Design, SetCard, set};

/// What a Super 8 projector shows (check value G053). Unit: millimetres.
const SUPER_8: (f64, f64) = (5.31, 4.01);

fn card(words: &str, design: Design) -> SetCard {
    set(&CardAsked::new(words, design, SUPER_8)).expect("it can be set")
}

/// A ground of one grey.
fn grey(level: u8, (width, height): (u32, u32)) -> Vec<u8> {
    vec![level; width as usize * height as usize * 3]
}
