//! How the frames of a strip slant, told by their frame lines.

use super::across::Lie;
use super::layout::Layout;
use super::light::BoxLight;
use crate::grey::GreyPicture;

/// Rows looked at from hole to hole.
const ROWS: usize = 24;
/// Rows beside a frame line with which it is compared.
const BESIDE: usize = 2;
/// From so much on a slant is another one. Unit: degrees.
const ANOTHER: f32 = 2.5;
/// How far a frame line may lie from where the gauge has it. Unit: rows.
const OFF: usize = 3;

impl Lie {
    /// The slants the frames may have: at which the light goes up and down most along the
    /// strip, and, where that is another one, at which its frame lines stand out most. A
    /// dark picture with streaks may mislead either.
    pub(super) fn slants(
        &self,
        photo: GreyPicture<'_>,
        light: &BoxLight,
        layout: &Layout,
    ) -> Vec<(f32, f32)> {
        let by_light = self.slant_by(|lie| lie.up_and_down(photo, light, layout));
        let by_lines = self.slant_by(|lie| {
            let lines = lie.frame_lines(photo, light, layout);
            lines.into_iter().fold(0.0, f32::max)
        });
        let far = (by_light.0 - by_lines.0)
            .abs()
            .max((by_light.1 - by_lines.1).abs());
        if far < ANOTHER {
            vec![by_light]
        } else {
            vec![by_light, by_lines]
        }
    }

    /// The slant at which most is seen.
    fn slant_by(&self, seen: impl Fn(&Self) -> f32) -> (f32, f32) {
        let mut best = (0.0, (0.0, 0.0));
        let steps = |n: i16, of: f32| (-n..=n).map(move |d| f32::from(d) * of);
        // First all frames alike, then how they fan out, then both more finely.
        let searches: [(i16, f32, i16, f32); 3] =
            [(14, 1.0, 0, 0.0), (2, 0.7, 7, 2.0), (2, 0.5, 3, 0.6)];
        let mut lie = self.clone();
        for (n, of, fan, fan_of) in searches {
            let from = best.1;
            for (d, f) in steps(n, of).flat_map(|d| steps(fan, fan_of).map(move |f| (d, f))) {
                lie.slant = (from.0 + d, from.1 + f);
                let (far, fanned) = (lie.slant.0 / 14.0, lie.slant.1 / 14.0);
                let likely = 1.0 - 0.15 * (far * far + fanned * fanned);
                let score = seen(&lie) * likely;
                if score > best.0 {
                    best = (score, lie.slant);
                }
            }
        }
        best.1
    }

    /// How much the light goes up and down along the strip, all frames laid on each other.
    fn up_and_down(&self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> f32 {
        let means = self.rows(photo, light, layout);
        let mean = means.iter().sum::<f32>() / means.len().max(1) as f32;
        means.iter().map(|m| (m - mean) * (m - mean)).sum()
    }

    /// The mean light of each row, over a frame.
    fn rows(&self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> Vec<f32> {
        let all = usize::try_from(layout.holes_a_frame).unwrap_or(1) * ROWS;
        (0..all)
            .map(|row| self.row(row, photo, light, layout))
            .collect()
    }

    /// How much a frame line stands out where the gauge has it, all frames laid on each
    /// other, for each hole that may be the first of a frame. Unit: shares of the light box.
    pub(super) fn frame_lines(
        &self,
        photo: GreyPicture<'_>,
        light: &BoxLight,
        layout: &Layout,
    ) -> Vec<f32> {
        let a_frame = usize::try_from(layout.holes_a_frame).unwrap_or(1);
        let all = a_frame * ROWS;
        let means = self.rows(photo, light, layout);
        let gap = layout.holes_a_frame as f32 - layout.picture.1;
        let wide = ((gap * ROWS as f32).round() as usize).max(1);
        let mean = |first: usize, rows: usize| {
            (0..rows).map(|row| means[(first + row) % all]).sum::<f32>() / rows as f32
        };
        let stands_out = |first: usize| {
            let line = layout.middle.1 + 0.5 * layout.holes_a_frame as f32 + first as f32;
            let middle = (line * ROWS as f32).round() as usize + all - wide / 2 - OFF;
            let at = |off: usize| {
                let from = middle + off;
                let line = mean(from, wide);
                let (above, below) = (
                    mean(from - BESIDE - 1, BESIDE),
                    mean(from + wide + 1, BESIDE),
                );
                // Darker than both, or, on a negative, lighter than both.
                (above.min(below) - line).max(line - above.max(below))
            };
            (0..=2 * OFF).map(at).fold(0.0, f32::max)
        };
        (0..a_frame).map(stands_out).collect()
    }

    /// The mean light across the pictures, so many rows behind each first hole.
    fn row(&self, row: usize, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> f32 {
        let within = row as f32 / ROWS as f32;
        let half = layout.picture.0 / 2.0;
        let (mut sum, mut count) = (0.0, 0_u32);
        let firsts = (self.ends.0..self.ends.1).filter(|n| n.rem_euclid(layout.holes_a_frame) == 0);
        for number in firsts {
            for share in layout.clear_of_holes {
                let place = (number as f32 + within, layout.middle.0 + share * half);
                if let Some(seen) = self.seen(place, photo, light) {
                    sum += seen;
                    count += 1;
                }
            }
        }
        sum / count.max(1) as f32
    }
}
