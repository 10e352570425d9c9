//! Writes contact sheets of the example film, to be looked at.
//!
//! `contact_sheet OUT.png COLUMNS SCALE ROLL:FRAME…`: the frames named, side by
//! side. `contact_sheet raw ROLL` writes a whole roll to standard output as
//! RGB24, for an encoder; `contact_sheet check ROLL` reads a whole roll of
//! decoded grey pictures from standard input and proves their numbers;
//! `contact_sheet time ROLL` measures.

use std::io::{Read as _, Write as _};
use std::time::Instant;

use onestrand_example::{FRAME_BYTES, FRAMES_PER_ROLL, HEIGHT, RollPainter, WIDTH, edge_code};
use tiny_skia::{Pixmap, PremultipliedColorU8};

type Outcome = Result<(), Box<dyn std::error::Error>>;

fn main() -> Outcome {
    let words: Vec<String> = std::env::args().skip(1).collect();
    match words.first().map(String::as_str) {
        Some("raw") => raw(words.get(1).ok_or("which roll?")?.parse()?),
        Some("check") => check(words.get(1).ok_or("which roll?")?.parse()?),
        Some("time") => time(words.get(1).ok_or("which roll?")?.parse()?),
        Some(out) => sheet(out, &words[1..]),
        None => Err("say OUT.png COLUMNS SCALE ROLL:FRAME…, or raw ROLL, or time ROLL".into()),
    }
}

fn raw(roll: u8) -> Outcome {
    let painter = RollPainter::new(roll)?;
    let mut frame = vec![0; FRAME_BYTES];
    let mut out = std::io::stdout().lock();
    for number in 0..FRAMES_PER_ROLL {
        painter.paint(number, &mut frame)?;
        out.write_all(&frame)?;
    }
    Ok(())
}

fn check(roll: u8) -> Outcome {
    let mut grey = vec![0; (WIDTH * HEIGHT) as usize];
    let mut input = std::io::stdin().lock();
    let mut err = std::io::stderr().lock();
    let mut wrong = 0;
    for number in 0..FRAMES_PER_ROLL {
        input.read_exact(&mut grey)?;
        let read = edge_code::read_edge_code(&grey, WIDTH, HEIGHT, WIDTH as usize);
        if read != Some((roll, number)) {
            wrong += 1;
            writeln!(err, "R{roll}·{number} reads {read:?}")?;
        }
    }
    writeln!(err, "R{roll}: {FRAMES_PER_ROLL} frames, {wrong} wrong")?;
    Ok(())
}

fn time(roll: u8) -> Outcome {
    let begun = Instant::now();
    let painter = RollPainter::new(roll)?;
    let mut err = std::io::stderr().lock();
    writeln!(err, "sets built in {:?}", begun.elapsed())?;
    let mut frame = vec![0; FRAME_BYTES];
    for take in onestrand_example::takes().iter().filter(|t| t.roll == roll) {
        let begun = Instant::now();
        let step = (take.frames() / 30).max(1) as usize;
        let frames: Vec<u32> = (take.span_in..take.span_out).step_by(step).collect();
        for number in &frames {
            painter.paint(*number, &mut frame)?;
        }
        let each = begun.elapsed() / frames.len() as u32;
        writeln!(err, "{:>6} {each:?} a frame", take.name())?;
    }
    Ok(())
}

fn sheet(out: &str, words: &[String]) -> Outcome {
    let columns: u32 = words.first().ok_or("how many columns?")?.parse()?;
    let part: u32 = words.get(1).ok_or("one in how many pixels?")?.parse()?;
    let frames = &words[2..];
    let rows = (frames.len() as u32).div_ceil(columns);
    let (w, h) = (WIDTH / part, HEIGHT / part);
    let mut page = Pixmap::new(columns * (w + 4), rows * (h + 4)).ok_or("nothing to show")?;
    let mut rgb = vec![0; FRAME_BYTES];
    let mut painter = RollPainter::new(1)?;
    for (index, name) in frames.iter().enumerate() {
        let (roll, frame) = name.split_once(':').ok_or("frames are named ROLL:FRAME")?;
        let roll = roll.parse()?;
        if painter.roll() != roll {
            painter = RollPainter::new(roll)?;
        }
        painter.paint(frame.parse()?, &mut rgb)?;
        let (left, top) = (
            index as u32 % columns * (w + 4),
            index as u32 / columns * (h + 4),
        );
        put(&mut page, &rgb, (left, top), part);
    }
    page.save_png(out)?;
    Ok(())
}

/// Puts a frame on the page, made smaller by taking means.
fn put(page: &mut Pixmap, rgb: &[u8], (left, top): (u32, u32), part: u32) {
    let wide = page.width();
    for y in 0..HEIGHT / part {
        for x in 0..WIDTH / part {
            let mut sum = [0_u32; 3];
            for (dy, dx) in (0..part).flat_map(|dy| (0..part).map(move |dx| (dy, dx))) {
                let at = (((y * part + dy) * WIDTH + x * part + dx) * 3) as usize;
                for (sum, value) in sum.iter_mut().zip(&rgb[at..at + 3]) {
                    *sum += u32::from(*value);
                }
            }
            let [r, g, b] = sum.map(|s| (s / (part * part)) as u8);
            let to = ((top + y) * wide + left + x) as usize;
            if let Some(pixel) = PremultipliedColorU8::from_rgba(r, g, b, 255) {
                page.pixels_mut()[to] = pixel;
            }
        }
    }
}
