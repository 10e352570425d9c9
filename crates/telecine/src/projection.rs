//! The roll shown, file frame by file frame.

use std::collections::VecDeque;

use crate::chance::GrainTable;
use crate::{Chance, Roll, Shown, Transfer};

/// What coding adds, for tests that code nothing: noise that is new on every
/// file frame, also where the film frame is the same.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Coding {
    /// Standard deviation in levels.
    pub noise: f32,
}

/// One frame of the file.
#[derive(Debug, Clone)]
pub struct FileFrame {
    /// What it shows: the truth.
    pub shown: Shown,
    /// Levels, 0 to 255, row by row from the top.
    pub levels: Vec<f32>,
}

/// The file frames of a transfer, in order.
#[derive(Debug)]
pub struct Projection<'a> {
    roll: &'a Roll,
    truth: std::vec::IntoIter<Shown>,
    coding: Coding,
    noise: GrainTable,
    number: u64,
    drawn: VecDeque<(u32, Vec<f32>)>,
}

impl<'a> Projection<'a> {
    /// Shows `roll` as `transfer` says.
    #[must_use]
    pub fn new(roll: &'a Roll, transfer: &Transfer, coding: Coding) -> Self {
        Self {
            roll,
            truth: transfer.truth(roll.frames()).into_iter(),
            coding,
            noise: GrainTable::new(31),
            number: 0,
            drawn: VecDeque::new(),
        }
    }

    fn film_frame(&mut self, frame: u32) -> &[f32] {
        if let Some(at) = self.drawn.iter().position(|(number, _)| *number == frame) {
            return &self.drawn[at].1;
        }
        if self.drawn.len() == 4 {
            self.drawn.pop_front();
        }
        self.drawn.push_back((frame, self.roll.frame(frame)));
        &self.drawn[self.drawn.len() - 1].1
    }

    fn mixed(&mut self, shown: &Shown) -> Vec<f32> {
        let (width, height) = self.roll.size();
        let mut levels = vec![0.0; width * height];
        for &(frame, weight) in &shown.weights {
            for (level, film) in levels.iter_mut().zip(self.film_frame(frame)) {
                *level += weight * film;
            }
        }
        if self.coding.noise > 0.0 {
            let mut chance = Chance::of(0xC0DE, self.number);
            for row in levels.chunks_exact_mut(width) {
                for (level, noise) in row.iter_mut().zip(self.noise.run(width, &mut chance)) {
                    *level += noise * self.coding.noise;
                }
            }
        }
        levels
    }
}

impl Iterator for Projection<'_> {
    type Item = FileFrame;

    fn next(&mut self) -> Option<FileFrame> {
        let shown = self.truth.next()?;
        let levels = self.mixed(&shown);
        self.number += 1;
        Some(FileFrame { shown, levels })
    }
}

/// Levels as bytes, rounded.
#[must_use]
pub fn levels(levels: &[f32]) -> Vec<u8> {
    levels
        .iter()
        .map(|level| level.round().clamp(0.0, 255.0) as u8)
        .collect()
}
