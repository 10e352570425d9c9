//! How well breaks were found, against a list of known ones.
//!
//! The rule, so that anyone can count again: a cut is found when a detection
//! lies within one frame of it, and each detection serves one cut. A gradual
//! change is found when a detection lies from one frame before its start to
//! one after its end; more of them there are no false alarms. Detections
//! within one frame of a change that is listed but not scored are left out.
//! All others are false alarms.

use crate::InspectError;

/// How far a detection may lie from what it finds. Unit: frames.
const NEAR: u32 = 1;

/// What kind of change a person saw.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KnownKind {
    /// From one frame to the next: `start` is the first frame after.
    Cut,
    /// Over several frames, `start` to `end`.
    Gradual,
    /// Listed, but neither to be found nor a false alarm.
    Unscored,
}

/// A change that a person saw in a clip.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownChange {
    /// Name of the clip's file.
    pub file: String,
    /// Cuts with the same name here are counted together.
    pub group: String,
    /// Kind of change.
    pub kind: KnownKind,
    /// First frame of it, from 0.
    pub start: u32,
    /// Last frame of it; `start` for a cut.
    pub end: u32,
}

/// A clip with what is known of it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct KnownClip {
    /// Name of the clip's file.
    pub file: String,
    /// Group it is counted in.
    pub group: String,
    /// Its changes; empty for a clip of one shot.
    pub changes: Vec<KnownChange>,
}

/// Counts of hits, misses and false alarms; they may be added up.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Tally {
    /// Cuts found.
    pub cuts_hit: u32,
    /// Cuts there are.
    pub cuts: u32,
    /// Gradual changes found.
    pub gradual_hit: u32,
    /// Gradual changes there are.
    pub gradual: u32,
    /// Detections where nothing is.
    pub false_alarms: u32,
}

/// Precision, recall and their harmonic mean. Range: 0 to 1 each.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Rates {
    /// Share of the detections that are right; 1 when there is none.
    pub precision: f64,
    /// Share of the changes that are found; 1 when there is none.
    pub recall: f64,
    /// 2·P·R ÷ (P + R); 0 when both are 0.
    pub f1: f64,
}

impl Tally {
    /// Rates over cuts alone.
    pub fn cut_rates(&self) -> Rates {
        rates(self.cuts_hit, self.cuts, self.false_alarms)
    }

    /// Rates over cuts and gradual changes.
    pub fn rates(&self) -> Rates {
        rates(
            self.cuts_hit + self.gradual_hit,
            self.cuts + self.gradual,
            self.false_alarms,
        )
    }
}

impl std::ops::AddAssign for Tally {
    fn add_assign(&mut self, other: Self) {
        self.cuts_hit += other.cuts_hit;
        self.cuts += other.cuts;
        self.gradual_hit += other.gradual_hit;
        self.gradual += other.gradual;
        self.false_alarms += other.false_alarms;
    }
}

fn rates(hit: u32, there: u32, wrong: u32) -> Rates {
    let share = |part: u32, whole: u32| {
        if whole == 0 {
            1.0
        } else {
            f64::from(part) / f64::from(whole)
        }
    };
    let (precision, recall) = (share(hit, hit + wrong), share(hit, there));
    let sum = precision + recall;
    let f1 = if sum > 0.0 {
        2.0 * precision * recall / sum
    } else {
        0.0
    };
    Rates {
        precision,
        recall,
        f1,
    }
}

/// Counts the detections of one clip against its known changes.
///
/// # Examples
/// ```
/// use onestrand_inspect::score::{KnownChange, KnownKind, tally};
/// let cut = KnownChange {
///     file: "a.mov".into(), group: "main".into(), kind: KnownKind::Cut, start: 50, end: 50,
/// };
/// let found = tally(&[51, 80], &[cut]);
/// assert_eq!((found.cuts_hit, found.false_alarms), (1, 1));
/// ```
pub fn tally(detections: &[u32], known: &[KnownChange]) -> Tally {
    let mut left: Vec<u32> = detections.to_vec();
    left.sort_unstable();
    let mut tally = Tally {
        cuts_hit: take_hits(&mut left, known),
        cuts: count(known, KnownKind::Cut),
        gradual: count(known, KnownKind::Gradual),
        ..Tally::default()
    };
    for change in known.iter().filter(|c| c.kind == KnownKind::Gradual) {
        let before = left.len();
        left.retain(|&at| !covers(change, at));
        tally.gradual_hit += u32::from(left.len() < before);
    }
    left.retain(|&at| {
        !known
            .iter()
            .any(|c| c.kind == KnownKind::Unscored && covers(c, at))
    });
    tally.false_alarms = left.len() as u32;
    tally
}

/// Gives each cut the earliest free detection near it; in order of time this
/// serves as many cuts as any other way of giving.
fn take_hits(left: &mut Vec<u32>, known: &[KnownChange]) -> u32 {
    let mut cuts: Vec<&KnownChange> = known.iter().filter(|c| c.kind == KnownKind::Cut).collect();
    cuts.sort_by_key(|cut| cut.start);
    let mut hits = 0;
    for cut in cuts {
        if let Some(place) = left.iter().position(|&at| covers(cut, at)) {
            left.remove(place);
            hits += 1;
        }
    }
    hits
}

fn covers(change: &KnownChange, at: u32) -> bool {
    (change.start.saturating_sub(NEAR)..=change.end + NEAR).contains(&at)
}

fn count(known: &[KnownChange], kind: KnownKind) -> u32 {
    known.iter().filter(|change| change.kind == kind).count() as u32
}

/// Reads a list of known changes: a head line, then rows of
/// `file,type,start,end,scored,group,note`.
///
/// `cut` and `jump` are cuts; `dissolve`, `fade` and `wipe` are gradual; a row
/// of type `none` says that the clip is one shot; rows with `scored` 0 and
/// other types are neither to be found nor false alarms. Clips come in the
/// order of their first rows.
///
/// # Errors
/// [`InspectError::TruthRow`] for the first row that cannot be understood.
pub fn known_clips(table: &str) -> Result<Vec<KnownClip>, InspectError> {
    let mut clips: Vec<KnownClip> = Vec::new();
    for (index, row) in table.lines().enumerate().skip(1) {
        if row.trim().is_empty() {
            continue;
        }
        let (one_shot, change) = known_row(row).map_err(|problem| InspectError::TruthRow {
            line: index + 1,
            problem,
        })?;
        if !clips.iter().any(|clip| clip.file == change.file) {
            clips.push(KnownClip {
                file: change.file.clone(),
                group: change.group.clone(),
                changes: Vec::new(),
            });
        }
        if let Some(clip) = clips
            .iter_mut()
            .find(|clip| clip.file == change.file && !one_shot)
        {
            clip.changes.push(change);
        }
    }
    Ok(clips)
}

/// One row: whether it only says "one shot", and the change.
fn known_row(row: &str) -> Result<(bool, KnownChange), &'static str> {
    let columns: Vec<&str> = row.splitn(7, ',').map(str::trim).collect();
    let [file, kind, start, end, scored, group, ..] = columns[..] else {
        return Err("fewer than six columns");
    };
    let frame = |text: &str| {
        text.parse::<u32>()
            .map_err(|_| "start and end must be whole frame numbers")
    };
    let (start, end) = (frame(start)?, frame(end)?);
    if end < start {
        return Err("the end lies before the start");
    }
    let kind_of_change = match (scored, kind) {
        ("1", "cut" | "jump") => KnownKind::Cut,
        ("1", "dissolve" | "fade" | "wipe") => KnownKind::Gradual,
        ("0" | "1", _) => KnownKind::Unscored,
        _ => return Err("scored must be 0 or 1"),
    };
    let change = KnownChange {
        file: file.into(),
        group: group.into(),
        kind: kind_of_change,
        start,
        end,
    };
    Ok((kind == "none", change))
}

#[cfg(test)]
mod tests;
