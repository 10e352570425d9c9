//! Two takes under one framing, frame against frame.

use crate::course::Laid;
use crate::lattice::{Lattice, Way};
use crate::likeness::Likeness;
use crate::movement::TakeMovement;
use crate::search::{BEND, REACH, Search, Tried, WEIGHT};
use crate::tracks::{Track, WindowLight};

/// Frames over which quick change is looked at: it tells the moment more
/// closely, where there is any.
const QUICK: usize = 2;
/// Frames of steady movement that a take must have to be laid anywhere.
const FEWEST_MOVING: f32 = 12.0;
/// Speeds at which the same action is played again.
const PACES: [f32; 2] = [0.8, 1.25];
/// One pace has clearly more evidence than another: one chance in three thousand.
const CLEARLY: f32 = 8.0;
/// Of a longer take every second frame is laid on the other, or every third:
/// memory is bounded, and what lies between is told all the same.
const LONGEST: usize = 1200;
/// Frames to each side over which the steps of the way are made smooth.
const SMOOTH: usize = 6;

/// Two takes under one framing: every frame of the one, or every few when it is
/// long, against all frames of the other.
pub(crate) struct Pair {
    /// From one frame of the first take that is laid to the next.
    pub(crate) stride: usize,
    here: [Track; 2],
    there: [Track; 2],
    likeness: Likeness,
}

impl Pair {
    pub(crate) fn new(here: &TakeMovement, there: &TakeMovement, best: &Tried) -> Self {
        let stride = here.frames().max(there.frames()).div_ceil(LONGEST);
        let tracks = |take, window, stride| {
            let light = WindowLight::of(take, window, 1);
            [REACH, QUICK].map(|reach| light.changes(reach).every(stride))
        };
        let here = tracks(here, best.framing.first, stride);
        let there = tracks(there, best.framing.second, 1);
        let likeness = Likeness::of(&[(&here[0], &there[0]), (&here[1], &there[1])]);
        Self {
            stride,
            here,
            there,
            likeness,
        }
    }

    pub(crate) fn lattice(&self, pace: f32) -> Lattice {
        let weight = WEIGHT * self.stride as f32;
        self.likeness.lattice(pace, self.stride, weight)
    }

    /// Whether hardly anything moves, here and there.
    pub(crate) fn still(&self) -> [bool; 2] {
        let frames = |tracks: &[Track; 2], stride: usize| {
            tracks[0].steady((REACH / 2 / stride).max(1)) * stride as f32
        };
        [(&self.here, self.stride), (&self.there, 1)]
            .map(|(tracks, stride)| frames(tracks, stride) < FEWEST_MOVING)
    }

    /// What speaks for the other take run backwards: that is alike by chance.
    pub(crate) fn backwards(&self) -> f32 {
        let there = [0, 1].map(|n| self.there[n].backwards());
        let likeness = Likeness::of(&[(&self.here[0], &there[0]), (&self.here[1], &there[1])]);
        let weight = WEIGHT * self.stride as f32;
        let lattice = likeness.lattice(1.0, self.stride, weight);
        lattice.best_evidence(BEND)
    }

    /// A way made smooth, frame by frame. Unit of its places: frames of the
    /// other take.
    pub(crate) fn course(&self, way: &Way, uncertain: &[f64]) -> impl Iterator<Item = Laid> {
        let last = way.columns.len() - 1;
        let smooth = |n: usize| {
            // As many on either side, so that a straight way stays as it is.
            let near = n.min(last - n).min(SMOOTH);
            let columns = &way.columns[n - near..=n + near];
            let sum: f64 = columns.iter().map(|&c| f64::from(c)).sum();
            sum / columns.len() as f64
        };
        let smooth: Vec<f64> = (0..=last).map(smooth).collect();
        let uncertain = uncertain.to_vec();
        let stride = self.stride;
        (0..=last * stride).map(move |frame| {
            let (row, part) = (frame / stride, (frame % stride) as f64 / stride as f64);
            let between = |of: &[f64]| of[row] + part * (of[(row + 1).min(last)] - of[row]);
            Laid {
                place: between(&smooth),
                uncertain: between(&uncertain),
            }
        })
    }

    /// The best way about the pace of a first one, which leans to 1 where it can;
    /// or about the pace of the search, which does not but is coarse, when that
    /// has clearly more evidence.
    pub(crate) fn at_its_pace(
        &self,
        first: &Way,
        search: &Search<'_>,
        best: &Tried,
    ) -> Option<(f32, Lattice, Way)> {
        let about = |pace: f32| {
            let lattice = self.lattice(pace);
            let way = lattice.best_way(BEND)?;
            Some((pace, lattice, way))
        };
        let (own, sought) = (about(self.pace_of(first)), about(search.pace(best.framing)));
        match (own, sought) {
            (Some(own), Some(sought)) if sought.2.evidence > own.2.evidence + CLEARLY => {
                Some(sought)
            }
            (own, sought) => own.or(sought),
        }
    }

    /// The speed of a way on the whole, by least squares over what moves.
    fn pace_of(&self, way: &Way) -> f32 {
        let (mut weight, mut row_sum, mut column_sum) = (0.0_f64, 0.0, 0.0);
        let rows = || way.rows().zip(way.columns.iter().map(|&c| f64::from(c)));
        let moving = |row: usize| f64::from(self.here[0].moving[row]) + 0.01;
        for (row, column) in rows() {
            weight += moving(row);
            row_sum += moving(row) * row as f64;
            column_sum += moving(row) * column;
        }
        let (row_mean, column_mean) = (row_sum / weight, column_sum / weight);
        let (mut square, mut product) = (0.0, 0.0);
        for (row, column) in rows() {
            let off = row as f64 - row_mean;
            square += moving(row) * off * off;
            product += moving(row) * off * (column - column_mean);
        }
        // A dozen frames do not tell a speed.
        if way.columns.len() < 2 * SMOOTH || square <= 0.0 {
            return 1.0;
        }
        // A row is as far on as some columns.
        let pace = product / square / self.stride as f64;
        (pace as f32).clamp(PACES[0], PACES[1])
    }
}
