//! Cards lettered at the size of a scan, in every design.

use nix::sys::resource::{UsageWho, getrusage};
use nix::sys::time::TimeValLike;
use onestrand_lettering::{CardAsked, Design, LetteringError, laid_over, set};

use crate::figures::Figures;
use crate::say;
use crate::table::Table;
use crate::trouble::{Trouble, make_sure};

/// What a card may take, plain and with a shadow, after the first. Source: issue 8.
/// Unit: seconds of processor time.
const PLAIN: f64 = 0.25;
const WITH_SHADOW: f64 = 0.7;
/// Unit: pixels.
const SIZE: (u32, u32) = (1440, 1080);
/// What a Super 8 projector shows. Unit: millimetres.
const SUPER_8: (f64, f64) = (5.31, 4.01);
/// How often each is drawn after the first.
const TURNS: u32 = 9;
/// The intertitle of a dozen words and more.
const WORDS: &str =
    "Nobody on the quay had ever seen\nthe boat leave late,\nnot once in forty years.";

/// Measures, and prints the table. Writing the picture to a file is not counted.
///
/// # Errors
/// [`Trouble`] when a card cannot be set, shows no letters, or the system does not say
/// how much processor time was used.
pub(crate) fn measure() -> Result<(), Trouble> {
    say("lettering cards of 1440×1080 in every design");
    println!("Cards of 1440×1080 over a picture, processor time, median of {TURNS}.\n");
    let mut table = Table::new(&["", "time", "target", ""]);
    for design in Design::ALL {
        for (shadow, target) in [(false, PLAIN), (true, WITH_SHADOW)] {
            let asked = CardAsked {
                shadow: Some(shadow),
                ..CardAsked::new(WORDS, design, SUPER_8)
            };
            let figures = processor_each(&asked)?;
            let with = if shadow { ", with shadow" } else { "" };
            table.time(&format!("{design}{with}"), figures.median(), Some(target));
        }
    }
    println!("{table}");
    Ok(())
}

/// Processor time of setting, drawing and laying over a ground, each time anew.
fn processor_each(asked: &CardAsked) -> Result<Figures, Trouble> {
    let ground: Vec<u8> = (0..SIZE.0 * SIZE.1 * 3)
        .map(|at| (at.wrapping_mul(2_654_435_761) >> 25) as u8)
        .collect();
    let shown = lettered(asked, &ground)?;
    let changed = shown.iter().zip(&ground).any(|(a, b)| a != b);
    make_sure("cards with letters", changed.into(), 1)?;
    let mut all = Vec::new();
    for _ in 0..TURNS {
        let before = processor()?;
        std::hint::black_box(lettered(asked, &ground)?);
        all.push(processor()? - before);
    }
    Ok(Figures::of(all))
}

fn lettered(asked: &CardAsked, ground: &[u8]) -> Result<Vec<u8>, LetteringError> {
    let layer = set(asked)?.draw(SIZE.0, SIZE.1, 0.0);
    Ok(laid_over(ground, &layer, 1.0, 1.0))
}

/// What this process has used so far. Unit: seconds.
pub(crate) fn processor() -> Result<f64, Trouble> {
    let used = getrusage(UsageWho::RUSAGE_SELF)?;
    let both = used.user_time() + used.system_time();
    Ok(both.num_microseconds() as f64 / 1e6)
}
