//! A scan of a cut reel laid beside its version.

use std::path::PathBuf;
use std::sync::Arc;

use onestrand_cut::PieceKind;
use onestrand_film::Fps;
use onestrand_intake::{Cancel, Ffmpeg, FileFrame, Making};
use onestrand_proof::{FaultKind, ReelFault, ReelProof, RollSketches, Sketch, Wanted};
use onestrand_store::Production;

use super::name::StripRolls;
use super::sketches::{SketchMemory, sketch};
use crate::documents::{ProofDocument, ProofError, ProofSpan, SpanDocument};
use crate::film_frames::{FilmFrame, FrameSink, Scans, as_stopped, read_film};
use crate::on_action::PictureSource;
use crate::{ProductionError, Progress, strand};

/// A reel to be proved, with all that is needed of the production.
#[derive(Debug, Clone)]
pub struct ReelToProve {
    cut: String,
    rolls: StripRolls,
    plan: Vec<Wanted>,
    speed: Fps,
}

impl ReelToProve {
    /// The reel of a version.
    ///
    /// # Errors
    /// [`ProductionError::Store`] when there is no such version;
    /// [`ProductionError::Unfit`] when no roll has pictures.
    pub fn of(production: &Production, cut: &str) -> Result<Self, ProductionError> {
        let rolls = StripRolls::of(production)?;
        let planned = strand::cut(production, cut)?;
        let mut plan = Vec::new();
        for piece in planned.pieces() {
            match &piece.kind {
                PieceKind::Shot(span) => {
                    let name = span.roll.to_string();
                    let roll = rolls.rolls.iter().position(|r| r.0 == name);
                    let range = span.range;
                    for frame in range.begin().index()..range.end().index() {
                        plan.push(
                            roll.map_or(Wanted::Anything, |roll| {
                                Wanted::Frame(roll, frame as usize)
                            }),
                        );
                    }
                }
                PieceKind::Leader(frames) | PieceKind::Card { frames, .. } => {
                    plan.extend((0..frames.count()).map(|_| Wanted::Anything));
                }
            }
        }
        Ok(Self {
            cut: cut.to_owned(),
            rolls,
            plan,
            speed: production.meta().speed,
        })
    }
}

/// Reads a scan of a cut reel and lays it beside its version.
///
/// # Errors
/// [`ProductionError::Intake`] when the scan cannot be read; others of the workprints;
/// [`ProductionError::Stopped`].
pub fn prove_reel(
    reel: &ReelToProve,
    scan: &[PathBuf],
    memory: &mut SketchMemory,
    source: &mut dyn PictureSource,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<ProofDocument, ProductionError> {
    let sketches = reel.rolls.sketches(memory, source, cancel, progress)?;
    let ffmpeg = Ffmpeg::locate()?;
    let scans = Scans::open(&ffmpeg, scan)?;
    let mut seen = Seen::default();
    let making = (Making::PicturesAndPlanes, Some(reel.speed));
    let reading =
        read_film(&ffmpeg, &scans, making, cancel, progress, &mut seen).map_err(as_stopped)?;
    if let Some(problem) = seen.problem {
        return Err(problem);
    }
    // A frame the scanner doubled and one that was joined in twice look alike: where the
    // file shows each frame once, every file frame is one of the reel.
    let is_plain = reading.found.cadence() == [1];
    let frames = if is_plain { seen.file } else { seen.film };
    let mut on_reel = RollSketches::new();
    for frame in &frames {
        on_reel.push(frame.as_ref());
    }
    progress.begin("laying the reel beside the version", None);
    let rolls: Vec<RollSketches> = sketches.iter().map(Arc::as_ref).cloned().collect();
    let proof = onestrand_proof::prove_reel(&on_reel, &rolls, &reel.plan);
    Ok(document(reel, frames.len(), &proof, reading.warnings))
}

/// What the frames of a reel are known by, as they are read.
#[derive(Debug, Default)]
struct Seen {
    file: Vec<Option<Sketch>>,
    film: Vec<Option<Sketch>>,
    problem: Option<ProductionError>,
}

impl FrameSink for Seen {
    fn film_frame(&mut self, frame: &FilmFrame<'_>) -> Result<(), ProductionError> {
        let seen = frame.jpeg.map(sketch).transpose()?;
        self.film.push(seen);
        Ok(())
    }

    fn file_frame(&mut self, _part: u32, frame: &FileFrame) -> Result<(), ProductionError> {
        self.file.push(Some(sketch(&frame.jpeg)?));
        Ok(())
    }

    fn part(&mut self, _part: u32, _base: Option<(u64, u64)>) -> Result<(), ProductionError> {
        Ok(())
    }
}

fn document(
    reel: &ReelToProve,
    frames: usize,
    proof: &ReelProof,
    warnings: Vec<crate::documents::WarningDocument>,
) -> ProofDocument {
    let name = |roll: usize| {
        reel.rolls
            .rolls
            .get(roll)
            .map(|r| r.0.clone())
            .unwrap_or_default()
    };
    let spans: Vec<ProofSpan> = proof
        .spans
        .iter()
        .map(|span| ProofSpan {
            at: count(span.at),
            roll: name(span.roll),
            first: count(span.first),
            thrown: count(span.end),
            mirrored: span.way.mirrored,
            upside_down: span.way.upside_down,
        })
        .collect();
    let errors = proof.faults.iter().map(|fault| {
        let expected = fault.expected.map(|(roll, first, end)| SpanDocument {
            roll: name(roll),
            first: i64::from(count(first)),
            thrown: i64::from(count(end)),
        });
        error(fault, expected)
    });
    ProofDocument {
        cut: reel.cut.clone(),
        frames: count(frames),
        errors: errors.collect(),
        strips: spans.clone(),
        spans,
        warnings,
    }
}

fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

fn error(fault: &ReelFault, expected: Option<SpanDocument>) -> ProofError {
    let span = expected
        .as_ref()
        .map(|e| format!(" ({}·{}–{})", e.roll, e.first, e.thrown - 1))
        .unwrap_or_default();
    let (frames, are, stand) = match fault.frames {
        1 => ("1 frame".to_owned(), "is", "stands"),
        more => (format!("{more} frames"), "are", "stand"),
    };
    let run = if fault.frames == 1 { "runs" } else { "run" };
    let (kind, words, hint) = match fault.kind {
        FaultKind::Missing => (
            "missing",
            format!("{frames} of the version {are} not on the reel{span}"),
            "look in the trim bin; or take the frames out of the version, so that it tells the truth",
        ),
        // Where hardly anything moves a frame more at an end is like one that stands twice.
        FaultKind::Doubled if fault.latest > fault.earliest => (
            "doubled",
            format!("{frames} too many: the piece is longer than planned, or a frame stands twice"),
            "count the piece on the bench; where it is as long as planned, the scanner stopped: scan \
             again",
        ),
        FaultKind::Doubled => (
            "doubled",
            format!("{frames} {stand} here a second time{span}"),
            "film has each frame once: look whether the scanner stopped here, and scan again",
        ),
        FaultKind::Mirrored => (
            "mirrored",
            format!("{frames} {are} seen from the other side{span}"),
            "open the join before it and the join after it, turn the piece over, join again",
        ),
        FaultKind::UpsideDown => (
            "upside_down",
            format!("{frames} {run} from tail to head{span}"),
            "open both joins, turn the piece end for end, join again",
        ),
        FaultKind::Order => (
            "order",
            format!("{frames} {stand} elsewhere in the version{span}"),
            "open both joins and join the piece in where the version has it; or change the version",
        ),
        FaultKind::Foreign => (
            "foreign",
            format!("{frames} {are} not of this version{span}"),
            "look at it: leader, a card, or a piece of another film",
        ),
        FaultKind::OutOfRack => (
            "out_of_rack",
            format!("{frames} {stand} off the frame line{span}"),
            "open the join before it and join on the frame line",
        ),
    };
    ProofError {
        at: count(fault.at),
        earliest: count(fault.earliest),
        latest: count(fault.latest),
        kind: kind.to_owned(),
        frames: count(fault.frames),
        expected,
        words,
        hint: hint.to_owned(),
    }
}
