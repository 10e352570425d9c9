//! What a hand can count from on every roll, from all that is known of it.

use std::collections::BTreeMap;

use onestrand_bench::{LandmarkKind, Landmarks};
use onestrand_cut::JoinKind;
use onestrand_film::{FramePos, RollId, Shrinkage};
use onestrand_inspect::{ChangeKind, SeenFrame, StrongChange, strong_changes};
use onestrand_store::{Production, TakeRecord, Workprints};

use crate::edge_numbers::edge_numbers_of;
use crate::sign_limits::roll_report;
use crate::{ProductionError, on_action, roll_measures};

/// A note longer than this is a thought and not the name of something seen.
/// Unit: letters.
const MARK_MOST: usize = 32;

/// The landmarks of rolls: where takes begin, joins found in the hand, flashes and
/// strong changes that the reading saw inside takes, numbers on the edge, short notes on
/// frames, and frames marked as the same moment of two takes.
pub(crate) fn landmarks(
    production: &Production,
    rolls: &[RollId],
) -> Result<Landmarks, ProductionError> {
    let prints = Workprints::open(production.dir())?;
    let mut all = Landmarks::default();
    for id in rolls {
        let roll = production.roll(id.as_str())?;
        for take in production.takes_of(id.as_str())? {
            if let Some(kind) = beginning(&take)? {
                all.add(id, FramePos::new(take.first)?, kind);
            }
        }
        for join in &roll.inspection.joins {
            let kind: Option<JoinKind> = join.kind.parse().ok();
            all.add(id, FramePos::new(join.frame)?, LandmarkKind::Join(kind));
        }
        let report = roll_report(production, &prints, id.as_str())?;
        let signs = report.map(|report| report.signs).unwrap_or_default();
        for flash in signs.iter().filter(|sign| sign.kind == "flash") {
            all.add(id, FramePos::new(flash.first)?, LandmarkKind::Flash);
        }
        let flashes: Vec<(u32, u32)> = signs
            .iter()
            .filter(|sign| sign.kind == "flash")
            .map(|flash| (flash.first, flash.thrown))
            .collect();
        for change in changes_inside_takes(production, &prints, id.as_str(), &flashes)? {
            let words = match change.kind {
                ChangeKind::Lighter => "it gets lighter",
                ChangeKind::Darker => "it gets darker",
                ChangeKind::Picture => "the picture changes",
            };
            let kind = LandmarkKind::Change(words.to_owned());
            all.add(id, FramePos::new(change.at)?, kind);
        }
        for edge in edge_numbers_of(&roll)? {
            all.add(id, edge.at, LandmarkKind::EdgeNumber(edge.number));
        }
        for (_, note) in production.notes_of(id.as_str())? {
            let words = note.words.trim();
            if !words.is_empty() && words.chars().count() <= MARK_MOST {
                let kind = LandmarkKind::Mark(words.to_owned());
                all.add(id, FramePos::new(note.frame)?, kind);
            }
        }
    }
    for (roll, frame) in on_action::marked_frames(production)? {
        if let Some(id) = rolls.iter().find(|id| id.as_str() == roll) {
            let kind = LandmarkKind::Mark("the moment you marked".to_owned());
            all.add(id, FramePos::new(frame)?, kind);
        }
    }
    Ok(all)
}

/// Strong changes inside takes, by what the reading kept of every frame. Frames that
/// no scan shows part what is looked at, and beside a flash nothing is told.
fn changes_inside_takes(
    production: &Production,
    prints: &Workprints,
    roll: &str,
    flashes: &[(u32, u32)],
) -> Result<Vec<StrongChange>, ProductionError> {
    let seen = prints.light_and_change(roll)?;
    let mut found = Vec::new();
    for take in production.takes_of(roll)? {
        let before = |end: u32| seen.partition_point(|(frame, ..)| *frame < end);
        let of_take = &seen[before(take.first)..before(take.thrown)];
        for run in of_take.chunk_by(|a, b| a.0 + 1 == b.0) {
            let frames: Vec<SeenFrame> = run
                .iter()
                .map(|(_, level, change)| SeenFrame {
                    level: *level as f32,
                    change: *change as f32,
                })
                .collect();
            if let Some((first, ..)) = run.first() {
                found.extend(strong_changes(&frames, *first));
            }
        }
    }
    let beside_flash = |at: u32| {
        let near = |(first, thrown): &(u32, u32)| first.saturating_sub(1) <= at && at <= *thrown;
        flashes.iter().any(near)
    };
    found.retain(|change| !beside_flash(change.at));
    Ok(found)
}

/// What is seen where a take begins; a fade is seen nowhere in particular.
fn beginning(take: &TakeRecord) -> Result<Option<LandmarkKind>, ProductionError> {
    let slate = take.to_model()?.slate;
    Ok(match take.begins.as_str() {
        "fade" => None,
        "join" => Some(LandmarkKind::Join(None)),
        "cut" => Some(LandmarkKind::NewPicture(slate)),
        _ => Some(LandmarkKind::CameraStop(slate)),
    })
}

/// The shrinkage of the rolls on which it was measured.
pub(crate) fn shrinkages(
    production: &Production,
    rolls: &[RollId],
) -> Result<BTreeMap<RollId, Shrinkage>, ProductionError> {
    let mut all = BTreeMap::new();
    for id in rolls {
        if let Some(shrinkage) = roll_measures::shrinkage(&production.roll(id.as_str())?)? {
            all.insert(id.clone(), shrinkage);
        }
    }
    Ok(all)
}
