//! The store: a workprint frame by its name, and opening a large production.

use std::path::Path;
use std::process::Command;

use onestrand_store::{FileFrameRow, NewFrame, Production, WorkprintWriter, Workprints};

use crate::cost;
use crate::figures::{Figures, megabytes, seconds_each, time};
use crate::invented::{self, FRAMES, PIECES, ROLLS, TAKES};
use crate::reading::program;
use crate::say;
use crate::table::Table;
use crate::trouble::{Trouble, make_sure};

/// Lines of the journal of the large production.
const EDITS: u32 = 3_000;
/// The roll with pictures of true size, and that size: the mean of a browsing
/// picture in the trials for the stack. Unit: bytes.
const TRUE_ROLL: &str = "R1";
const TRUE_SIZE: usize = 79_000;
/// Size of the pictures of all other rolls; opening does not look at them.
const SMALL_SIZE: usize = 6_000;
/// Frames asked for by name.
const ASKED: u32 = 36_000;
/// Source of the three: issue 2. Unit: seconds.
const FRAME_MEDIAN: f64 = 50e-6;
const FRAME_NINETY_NINTH: f64 = 1e-3;
const OPENING: f64 = 0.5;

/// Makes the production, measures, and prints the table.
///
/// # Errors
/// [`Trouble`] when it cannot be made or read.
pub(crate) fn measure() -> Result<(), Trouble> {
    let temp = std::env::temp_dir();
    let room = tempfile::tempdir().map_err(Trouble::file("make a folder", &temp))?;
    let dir = room.path().join("production");
    make(&dir)?;
    say("opening it");
    open(&dir)?;
    let opening = seconds_each(15, |_| open(&dir))?;
    let listing = listing(&dir)?;
    say("asking for frames by name");
    let frames = frames(&dir)?;
    println!(
        "Store: {ROLLS} rolls, {} film frames, {} takes, {PIECES} pieces,",
        ROLLS * FRAMES,
        ROLLS * TAKES
    );
    println!(
        "{EDITS} edits in the journal; everything warm, in {}.\n",
        room.path().display()
    );
    let mut table = Table::new(&["", "time", "target", ""]);
    table.time(
        "a workprint frame by name, median",
        frames.median(),
        Some(FRAME_MEDIAN),
    );
    table.time(
        "a workprint frame by name, 99th of 100",
        frames.ninety_ninth(),
        Some(FRAME_NINETY_NINTH),
    );
    table.time(
        &format!("a workprint frame by name, worst of {ASKED}"),
        frames.worst(),
        None,
    );
    table.time("opening, median of 15", opening.median(), Some(OPENING));
    table.time("opening, worst of 15", opening.worst(), Some(OPENING));
    table.time(
        "`onestrand roll list`, as a person waits, median",
        listing.median(),
        None,
    );
    print!("{table}");
    let size = |name: &str| std::fs::metadata(dir.join(name)).map_or(0.0, |m| m.len() as f64);
    println!(
        "production.db {}, workprints/index.db {}\n",
        megabytes(size("production.db")),
        megabytes(size("workprints/index.db"))
    );
    Ok(())
}

fn make(dir: &Path) -> Result<(), Trouble> {
    say(&format!(
        "making a production of {ROLLS} rolls in {}",
        dir.display()
    ));
    let cut = invented::cut()?;
    let mut production = Production::create(dir, &invented::meta())?;
    production.act("bring everything in", &invented::everything(&cut))?;
    for name in invented::names() {
        make_workprint(dir, &name)?;
    }
    say(&format!("making {EDITS} edits"));
    let made = seconds_each(EDITS, |turn| {
        let act = invented::trim_act(&cut, turn)?;
        production.act("trim a piece", &act)?;
        Ok::<(), Trouble>(())
    })?;
    say(&format!("an edit took {} (median)", time(made.median())));
    Ok(())
}

fn size_for(roll: &str) -> usize {
    if roll == TRUE_ROLL {
        TRUE_SIZE
    } else {
        SMALL_SIZE
    }
}

/// A workprint of noise: pictures that no disk and no page cache can shrink,
/// each beginning with its own number.
fn make_workprint(dir: &Path, roll: &str) -> Result<(), Trouble> {
    let mut writer = WorkprintWriter::begin(dir, roll)?;
    let mut noise = Noise::from(0x9e37_79b9_7f4a_7c15);
    let mut picture = vec![0; size_for(roll)];
    for frame in 0..FRAMES {
        noise.fill(&mut picture);
        picture[..4].copy_from_slice(&frame.to_le_bytes());
        let row = FileFrameRow {
            pts: Some(i64::from(frame) * 1_000),
            key: true,
            number: None,
            byte_pos: Some(u64::from(frame) * 500_000),
            plane: noise.next(),
        };
        writer.push_file_frame(0, frame.into(), row)?;
        writer.push(&NewFrame {
            jpeg: Some(&picture),
            shown_by: Some((0, frame.into())),
            made_of: None,
            level: 100.0,
            sharpness: 10.0,
            change: 2.0,
        })?;
    }
    writer.push_part(0, Some((1, 18_000)))?;
    writer.finish("", "[]")?;
    Ok(())
}

/// Opens everything that a person looks at first.
fn open(dir: &Path) -> Result<(), Trouble> {
    let production = Production::open(dir)?;
    let prints = Workprints::open(dir)?;
    let rolls = production.rolls()?;
    let takes = production.takes()?;
    let cut = production.cut(invented::CUT)?.to_model()?;
    let lines = production.journal(20)?;
    let mut frames = 0;
    for roll in &rolls {
        frames += prints
            .info(&roll.name)?
            .map_or(0, |info| u64::from(info.frames));
    }
    make_sure(
        "film frames of the workprints",
        frames,
        u64::from(ROLLS * FRAMES),
    )?;
    make_sure("takes", takes.len() as u64, u64::from(ROLLS * TAKES))?;
    make_sure("pieces", cut.pieces().len() as u64, PIECES.into())?;
    make_sure("lines of the journal shown", lines.len() as u64, 20)
}

fn listing(dir: &Path) -> Result<Figures, Trouble> {
    let onestrand = program()?;
    let mut walls = Vec::new();
    for _ in 0..5 {
        let mut command = Command::new(&onestrand);
        command.args(["roll", "list"]).arg(dir);
        walls.push(cost::of(&mut command, "onestrand roll list")?.wall);
    }
    Ok(Figures::of(walls))
}

/// Times frames of the roll with pictures of true size, in no order.
fn frames(dir: &Path) -> Result<Figures, Trouble> {
    let mut prints = Workprints::open(dir)?;
    let mut right = 0;
    for frame in 0..FRAMES {
        let picture = prints.picture(TRUE_ROLL, frame)?.unwrap_or_default();
        right += u64::from(picture.len() == TRUE_SIZE && picture.starts_with(&frame.to_le_bytes()));
    }
    make_sure(
        "pictures that are the frame asked for",
        right,
        FRAMES.into(),
    )?;
    let mut noise = Noise::from(1);
    let bound = u64::from(FRAMES);
    let asked: Vec<u32> = (0..ASKED)
        .map(|_| u32::try_from(noise.next() % bound).unwrap_or(0))
        .collect();
    seconds_each(ASKED, |turn| {
        std::hint::black_box(prints.picture(TRUE_ROLL, asked[turn as usize])?);
        Ok(())
    })
}

/// Marsaglia's xorshift generator with the shifts 13, 7, 17.
///
/// Source: G. Marsaglia, "Xorshift RNGs", Journal of Statistical Software 8
/// (14), 2003.
struct Noise(u64);

impl Noise {
    /// From a seed that is not 0.
    fn from(seed: u64) -> Self {
        Self(seed)
    }

    fn next(&mut self) -> u64 {
        self.0 ^= self.0 << 13;
        self.0 ^= self.0 >> 7;
        self.0 ^= self.0 << 17;
        self.0
    }

    fn fill(&mut self, bytes: &mut [u8]) {
        for chunk in bytes.chunks_mut(8) {
            let word = self.next().to_le_bytes();
            chunk.copy_from_slice(&word[..chunk.len()]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn noise_fills_to_the_last_byte_and_is_the_same_again() {
        let (mut one, mut two) = ([0; 1003], [0; 1003]);
        Noise::from(7).fill(&mut one);
        Noise::from(7).fill(&mut two);
        assert_eq!(one, two);
        let counted = one.iter().filter(|byte| **byte == 0).count();
        assert!(counted < 20, "{counted} of 1003 are 0");
        assert_ne!(&one[1000..], &[0; 3]);
    }

    #[test]
    fn one_roll_has_pictures_of_true_size() {
        let sizes: Vec<usize> = invented::names().map(|name| size_for(&name)).collect();
        assert_eq!(sizes.iter().filter(|size| **size == TRUE_SIZE).count(), 1);
    }
}
