//! A version as it goes out and comes in, and the film it is cut from.

use onestrand_cut::TrialCut;
use onestrand_film::{Fps, FrameName, Frames, Gauge, RollId};

use crate::PictureRun;

/// The film a version belongs to: what a file has to fit.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Film {
    /// Its working title.
    pub title: String,
    /// Its gauge.
    pub gauge: Gauge,
    /// The speed it is shown at.
    pub speed: Fps,
    /// Its rolls.
    pub rolls: Vec<RollOnFile>,
}

/// A roll, and the files that show it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RollOnFile {
    /// The roll.
    pub roll: RollId,
    /// Frames on it.
    pub frames: Frames,
    /// Its scans in order along the roll; none for a roll known on paper.
    pub scans: Vec<ScanFile>,
}

/// One scan of a roll: a film file, or a run of numbered pictures.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ScanFile {
    /// The name of the file, without folders; of a run of pictures, of the first.
    pub name: String,
    /// Pictures, where it is a run of them; 1 for a film file.
    pub pictures: usize,
    /// How they are numbered, where no number is left out.
    pub run: Option<PictureRun>,
    /// Its own rate. Unit: file frames a second.
    pub rate: Option<Fps>,
    /// Whether file frame n shows film frame n of the roll, for every n, alone
    /// and from the first to the last.
    pub frame_for_frame: bool,
}

/// A note that fell on a film frame at a screening.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct FrameNote {
    /// The frame.
    pub frame: FrameName,
    /// What is noted.
    pub words: String,
    /// Who noted it; empty when nobody said.
    pub writer: String,
}

/// A version with everything that goes from hand to hand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Version {
    /// Its name.
    pub name: String,
    /// The user's note on it.
    pub note: String,
    /// Its pieces and its usual join.
    pub cut: TrialCut,
    /// Notes on frames that it shows.
    pub notes: Vec<FrameNote>,
}

impl Film {
    /// A roll by its name.
    pub(crate) fn roll(&self, id: &RollId) -> Option<&RollOnFile> {
        self.rolls.iter().find(|roll| roll.roll == *id)
    }

    /// The names of the rolls: `R1, R2, R3`.
    pub(crate) fn roll_names(&self) -> String {
        let names: Vec<&str> = self.rolls.iter().map(|r| r.roll.as_str()).collect();
        if names.is_empty() {
            return "none yet".to_owned();
        }
        names.join(", ")
    }
}

impl RollOnFile {
    /// Whether it goes out by its scan, which shows it frame for frame at a speed.
    #[must_use]
    pub fn stands_by_scan(&self, speed: Fps) -> bool {
        self.own_file(speed).is_some() || self.own_pictures().is_some()
    }

    /// The one film file whose frames are the film frames one by one at a speed,
    /// if the roll has no other scan.
    pub(crate) fn own_file(&self, speed: Fps) -> Option<&ScanFile> {
        let one = self.only_scan().filter(|one| one.pictures == 1);
        one.filter(|one| one.rate == Some(speed))
    }

    /// The one run of pictures that are the film frames one by one. Pictures have
    /// no rate of their own.
    pub(crate) fn own_pictures(&self) -> Option<&PictureRun> {
        self.only_scan()?.run.as_ref()
    }

    fn only_scan(&self) -> Option<&ScanFile> {
        match self.scans.as_slice() {
            [one] if one.frame_for_frame => Some(one),
            _ => None,
        }
    }
}
