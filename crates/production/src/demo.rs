//! The example film, ready to open.

use std::path::{Path, PathBuf};
use std::sync::atomic::{AtomicU64, Ordering};
use std::sync::mpsc;

use onestrand_cut::{JoinKind, Piece, Slate, TrialCut};
use onestrand_example::{self as example, FRAMES_PER_ROLL, RollPainter};
use onestrand_film::{Fps, FrameRange, Gauge, RollId, Span};
use onestrand_finish::{Coding, FilmWriter, PictureForm};
use onestrand_intake::{Cancel, Ffmpeg, PixelLayout};
use onestrand_store::{Act, CutRecord, Meta, NoteRecord, Production, StoreError, TakeRecord};
use serde::Serialize;

use crate::demo_transfers::{ExampleTransfer, TRANSFERS, TransferWriter};
use crate::roll::{AddRoll, add_roll};
use crate::{ProductionError, Progress};

/// The title of the example.
const TITLE: &str = "The Ten-Past Boat";

/// How the scans are coded: a rate factor at which the grain survives, and a
/// key frame every 48 frames at most; the three rolls take under 200 MB.
const SCAN: Coding = Coding::H264 {
    crf: 23,
    group: 48,
    pace: "superfast",
};

/// What was made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize)]
pub struct DemoMade {
    /// The folder of the production.
    pub dir: String,
    /// The scans.
    pub scans: Vec<String>,
    /// Whether all of it was there already.
    pub kept: bool,
}

/// Writes the example production with its scans and sounds, ready to open. What is there
/// already is kept, so that it may be called again after a kill.
///
/// # Errors
/// [`ProductionError`]; a scan is there whole or not at all.
pub fn demo(
    dir: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<DemoMade, ProductionError> {
    let scans = example_scans(dir);
    let mut kept = is_drawn(&dir.join("scans"));
    draw_example(dir, cancel, progress)?;
    let mut production = open_example(dir)?;
    crate::carry_on(&mut production, cancel, progress)?;
    for roll in 1..=example::ROLLS {
        let request = example_roll(dir, roll);
        if production.roll(&request.roll).is_err() {
            kept = false;
            progress.note(&format!("reading {}", request.roll));
            add_roll(&mut production, &request, cancel, progress)?;
        }
        kept &= !log_example_roll(&mut production, roll)?;
    }
    kept &= !lay_example_cut(&mut production)?;
    kept &= !write_example_script(&mut production)?;
    kept &= !crate::write_example_titles(&mut production)?;
    kept &= !crate::lay_example_sound(&mut production, cancel, progress)?;
    Ok(DemoMade {
        dir: crate::film_frames::path_text(dir),
        scans: scans
            .iter()
            .map(|s| crate::film_frames::path_text(s))
            .collect(),
        kept,
    })
}

/// The rolls of the example.
pub const EXAMPLE_ROLLS: u8 = example::ROLLS;

/// Where the scans of the example lie, roll by roll.
fn example_scans(dir: &Path) -> Vec<PathBuf> {
    (1..=example::ROLLS)
        .map(|roll| dir.join("scans").join(format!("R{roll}.mkv")))
        .collect()
}

/// Draws the scans of the example that are not there yet. The long part; it
/// needs no production.
///
/// # Errors
/// [`ProductionError`]; a scan is there whole or not at all.
pub fn draw_example(
    dir: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<(), ProductionError> {
    let ffmpeg = Ffmpeg::locate()?;
    let scans_dir = dir.join("scans");
    std::fs::create_dir_all(&scans_dir)
        .map_err(crate::error::file("make the folder", &scans_dir))?;
    draw_scans(&ffmpeg, &scans_dir, cancel, progress)
}

/// Whether all scans and transfers lie in their folder.
fn is_drawn(scans: &Path) -> bool {
    (1..=example::ROLLS).all(|roll| wanting(scans, roll).is_none())
}

/// Which files of a roll are not there yet: its scan, and its transfer.
#[derive(Debug)]
struct Wanting {
    roll: u8,
    scan: Option<PathBuf>,
    transfer: Option<ExampleTransfer>,
}

/// What a roll wants; nothing when all of it is there.
fn wanting(scans: &Path, roll: u8) -> Option<Wanting> {
    let scan = Some(scans.join(format!("R{roll}.mkv"))).filter(|path| !path.is_file());
    let transfer = TRANSFERS
        .into_iter()
        .find(|one| one.roll == roll && !one.path(scans).is_file());
    let wanting = Wanting {
        roll,
        scan,
        transfer,
    };
    (wanting.scan.is_some() || wanting.transfer.is_some()).then_some(wanting)
}

/// Opens the production of the example, or makes it.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn open_example(dir: &Path) -> Result<Production, ProductionError> {
    if Production::is_here(dir) {
        return Ok(Production::open(dir)?);
    }
    let meta = Meta {
        title: TITLE.to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    Ok(Production::create(dir, &meta)?)
}

/// How a roll of the example, counted from 1, is brought in.
#[must_use]
pub fn example_roll(dir: &Path, roll: u8) -> AddRoll {
    let name = format!("R{roll}");
    AddRoll {
        files: vec![dir.join("scans").join(format!("{name}.mkv"))],
        roll: name,
        gauge: None,
        film_speed: None,
        base: "triacetate".to_owned(),
        measured: Some("50ft0".to_owned()),
        shrinkage: None,
        wind: Some("B".to_owned()),
        fit: "project".to_owned(),
    }
}

/// Draws the scans and transfers that are not there yet, all rolls at once.
fn draw_scans(
    ffmpeg: &Ffmpeg,
    scans: &Path,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<(), ProductionError> {
    let missing: Vec<Wanting> = (1..=example::ROLLS)
        .filter_map(|roll| wanting(scans, roll))
        .collect();
    if missing.is_empty() {
        return Ok(());
    }
    let total = missing.len() as u64 * u64::from(FRAMES_PER_ROLL);
    progress.begin("drawing the example", Some(total));
    let drawn = AtomicU64::new(0);
    std::thread::scope(|scope| {
        let (send, told) = mpsc::channel();
        let work: Vec<_> = missing
            .iter()
            .map(|wanting| {
                let (drawn, told) = (&drawn, send.clone());
                scope.spawn(move || draw_roll(ffmpeg, (scans, wanting), cancel, drawn, &told))
            })
            .collect();
        drop(send);
        for frames in told {
            progress.at(frames);
        }
        work.into_iter()
            .try_for_each(|one| one.join().unwrap_or(Err(ProductionError::Stopped)))
    })
}

/// Draws a roll once, into its scan and its transfer together.
fn draw_roll(
    ffmpeg: &Ffmpeg,
    (scans, wanting): (&Path, &Wanting),
    cancel: &Cancel,
    drawn: &AtomicU64,
    told: &mpsc::Sender<u64>,
) -> Result<(), ProductionError> {
    let form = PictureForm {
        width: example::WIDTH,
        height: example::HEIGHT,
        layout: PixelLayout::nearest("rgb24"),
        pixel_aspect: (1, 1),
        colour: [Some("tv".to_owned()), None, None, None],
    };
    let painter = RollPainter::new(wanting.roll)?;
    let title = format!("{TITLE}, R{}", wanting.roll);
    let mut scan = match &wanting.scan {
        Some(path) => Some(FilmWriter::begin(
            ffmpeg,
            path,
            &form,
            Fps::EIGHTEEN,
            SCAN,
            &title,
        )?),
        None => None,
    };
    let mut transfer = match wanting.transfer {
        Some(one) => {
            let path = one.path(scans);
            Some(TransferWriter::begin(ffmpeg, one, (&path, &form, &title))?)
        }
        None => None,
    };
    let mut picture = vec![0; example::FRAME_BYTES];
    for frame in 0..FRAMES_PER_ROLL {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        painter.paint(frame, &mut picture)?;
        if let Some(scan) = &mut scan {
            scan.push(&picture)?;
        }
        if let Some(transfer) = &mut transfer {
            transfer.push(&picture)?;
        }
        let frames = drawn.fetch_add(1, Ordering::Relaxed) + 1;
        // Nobody listens any more when another roll has failed.
        let _heard = told.send(frames);
    }
    if let Some(scan) = scan {
        scan.finish()?;
    }
    if let Some(transfer) = transfer {
        transfer.finish()?;
    }
    Ok(())
}

/// Writes the makers' log of a roll, counted from 1, unless somebody has named
/// a take of it. Gives whether it did.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn log_example_roll(production: &mut Production, roll: u8) -> Result<bool, ProductionError> {
    let name = format!("R{roll}");
    let seen = production.takes_of(&name)?;
    if seen.iter().any(|t| t.setup.is_some()) {
        return Ok(false);
    }
    let takes = log_of(roll, &seen);
    production.act(
        &format!("the log of {name}"),
        &Act::PutTakes { roll: name, takes },
    )?;
    Ok(true)
}

/// The log as the makers wrote it, with what the reading saw at each start.
fn log_of(roll: u8, seen: &[TakeRecord]) -> Vec<TakeRecord> {
    let one = |take: &example::ExampleTake| {
        let found = seen.iter().find(|s| s.first == take.span_in);
        let way = take.direction.words();
        let direction = match (take.mover, way) {
            ("", _) => String::new(),
            (mover, "") => mover.to_owned(),
            (mover, way) => format!("{mover}, {way}"),
        };
        TakeRecord {
            roll: format!("R{roll}"),
            first: take.span_in,
            thrown: take.span_out,
            setup: Some(take.slate.to_owned()),
            take: Some(u16::from(take.take)),
            rating: take.chosen.word().to_owned(),
            size: take.size.word().to_owned(),
            camera_move: take.camera.to_owned(),
            direction,
            action: take.action.to_owned(),
            note: take.note.to_owned(),
            begins: found
                .map_or("camera_stop", |f| f.begins.as_str())
                .to_owned(),
            flash_frames: found.map_or(0, |f| f.flash_frames),
            flash_stops: found.and_then(|f| f.flash_stops),
            looked: false,
            pin: None,
        }
    };
    example::takes()
        .iter()
        .filter(|t| t.roll == roll)
        .map(one)
        .collect()
}

/// Writes the shooting script of the example, unless there is one. Gives whether it did.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn write_example_script(production: &mut Production) -> Result<bool, ProductionError> {
    if !production.script()?.is_empty() {
        return Ok(false);
    }
    for (name, text) in [
        ("screenplay.fountain", example::SCREENPLAY),
        ("setups.csv", example::SETUPS),
        ("wild_sounds.csv", example::WILD_SOUNDS),
    ] {
        crate::import_script_text(production, Path::new(name), text.into())?;
    }
    Ok(true)
}

/// Marks what is seen on the rolls of the example and lays its first cut, unless that
/// is there. Gives whether it did.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn lay_example_cut(production: &mut Production) -> Result<bool, ProductionError> {
    match production.cut("v1") {
        Ok(_) => return Ok(false),
        Err(StoreError::NotFound { .. }) => {}
        Err(problem) => return Err(problem.into()),
    }
    let mut pieces = Vec::new();
    for piece in example::first_cut() {
        let roll = RollId::new(&format!("R{}", piece.roll))?;
        let range = FrameRange::of(piece.span_in, piece.span_out)?;
        pieces.push(Piece {
            slate: Slate::new(piece.slate, u16::from(piece.take)).ok(),
            note: piece.note.to_owned(),
            ..Piece::shot(Span::new(roll, range))
        });
    }
    let cut = TrialCut::new(pieces, JoinKind::Tape);
    let mut acts = marks_noted(production)?;
    acts.push(Act::PutCut {
        name: "v1".to_owned(),
        cut: Some(CutRecord::new(&cut, "the first cut")),
    });
    production.act(
        "mark what is seen, and lay the first cut",
        &Act::All { acts },
    )?;
    Ok(true)
}

/// A note on each frame that shows something one can count from at the bench.
fn marks_noted(production: &Production) -> Result<Vec<Act>, StoreError> {
    let first = production.next_note_id()?;
    let marked = (first..).zip(example::marks());
    let noted = marked.map(|(id, mark)| Act::PutNote {
        id,
        note: Some(NoteRecord::new(
            &format!("R{}", mark.roll),
            mark.frame,
            mark.kind.words(),
            "",
        )),
    });
    Ok(noted.collect())
}
