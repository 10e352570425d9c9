//! How a strip lies across its row of holes: which side, how wide, how slanting.

use super::curve::Curve;
use super::layout::Layout;
use super::light::BoxLight;
use super::line::smooth;
use crate::grey::GreyPicture;

/// A row of holes with the strip beside it. Places in pixels of the reduced picture.
#[derive(Debug, Clone)]
pub(super) struct Lie {
    pub(super) curve: Curve,
    /// First and last hole that was found.
    pub(super) ends: (i32, i32),
    /// The strip's width as seen beside what its holes' distance says, in the middle and
    /// how much more at the end: the far end of a tilted strip is foreshortened otherwise.
    width: (f32, f32),
    /// How far the frames slant along the strip, for one across, in the middle and how
    /// much more at the end: seen from aside, frames fan out. Unit: degrees.
    pub(super) slant: (f32, f32),
}

impl Lie {
    /// How the strip may lie: mostly one way, both where its edges are not seen.
    pub(super) fn of(
        hits: &[(i32, f32, f32)],
        photo: GreyPicture<'_>,
        light: &BoxLight,
        layout: &Layout,
    ) -> Vec<Self> {
        let turned: Vec<_> = hits.iter().rev().map(|&(n, x, y)| (-n, x, y)).collect();
        let mut both = Vec::new();
        for hits in [hits, turned.as_slice()] {
            let (Some(curve), Some(first), Some(last)) = (smooth(hits), hits.first(), hits.last())
            else {
                continue;
            };
            let mut lie = Self {
                curve,
                ends: (first.0, last.0),
                width: (1.0, 0.0),
                slant: (0.0, 0.0),
            };
            let edges = lie.find_edges(photo, light, layout);
            both.push((edges, lie));
        }
        both.sort_by(|a, b| b.0.total_cmp(&a.0));
        let clear = both.len() == 2 && both[0].0 > both[1].0 + 0.12;
        both.truncate(if clear { 1 } else { 2 });
        let slanting = |(_, lie): (f32, Self)| {
            let slants = lie.slants(photo, light, layout);
            slants.into_iter().map(move |slant| Self {
                slant,
                ..lie.clone()
            })
        };
        both.into_iter().flat_map(slanting).collect()
    }

    /// The way across for one step along, at a number along the row.
    fn across(&self, number: f32) -> (f32, f32) {
        let step = self.curve.step(number);
        let half = (self.ends.1 - self.ends.0).max(1) as f32 / 2.0;
        let t = (number - self.ends.0 as f32) / half - 1.0;
        let width = self.width.0 + t * self.width.1;
        let slant = (self.slant.0 + t * self.slant.1).to_radians().tan() * width;
        (
            width * step.1 + slant * step.0,
            -width * step.0 + slant * step.1,
        )
    }

    fn place(&self, number: f32, across: f32) -> (f32, f32) {
        let (at, way) = (self.curve.at(number), self.across(number));
        (at.0 + across * way.0, at.1 + across * way.1)
    }

    /// Light at a place as a share of the light box.
    pub(super) fn seen(
        &self,
        (number, across): (f32, f32),
        photo: GreyPicture<'_>,
        light: &BoxLight,
    ) -> Option<f32> {
        let (x, y) = self.place(number, across);
        Some(photo.at(x, y)? / light.at(x, y))
    }

    /// The middle of what is seen along the whole row, at a distance across.
    fn usual(&self, across: f32, photo: GreyPicture<'_>, light: &BoxLight) -> Option<f32> {
        let between = (self.ends.0..self.ends.1).map(|number| number as f32 + 0.5);
        let mut seen: Vec<f32> = between
            .filter_map(|number| self.seen((number, across), photo, light))
            .collect();
        seen.sort_by(f32::total_cmp);
        seen.get(seen.len() / 2).copied()
    }

    /// Finds how wide the strip is seen to be. Gives how well both edges are seen: the
    /// light outside less that inside, at both.
    fn find_edges(&mut self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> f32 {
        let score = |lie: &Self| {
            let off = (lie.width.0 - 1.0).abs() + lie.width.1.abs();
            lie.edges(photo, light, layout) - 0.1 * off
        };
        let mut best = (f32::MIN, self.width);
        let mut tries = |lie: &mut Self, widths: &[(f32, f32)]| {
            for &width in widths {
                lie.width = width;
                let found = score(lie);
                if found > best.0 {
                    best = (found, lie.width);
                }
            }
            lie.width = best.1;
            best.0
        };
        let even: Vec<_> = (70..=116)
            .step_by(2)
            .map(|p| (p as f32 / 100.0, 0.0))
            .collect();
        let found = tries(self, &even);
        if found <= 0.15 {
            self.width = (1.0, 0.0);
            return found;
        }
        let width = self.width.0;
        let uneven: Vec<_> = (-8..=8).map(|p| (width, p as f32 / 50.0)).collect();
        tries(self, &uneven)
    }

    /// Light outside less light inside, at both edges.
    fn edges(&self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> f32 {
        let at = |across: f32| self.usual(across, photo, light);
        let (far, near) = (layout.far, -layout.near);
        let off = 0.09;
        let pairs = [
            (at(far + off), at(far - off)),
            (at(far + 2.5 * off), at(far - 2.5 * off)),
            (at(near - off), at(near + off)),
        ];
        let steps = pairs.iter().map(|pair| match pair {
            (Some(outside), Some(inside)) => (outside - inside).min(0.5),
            _ => 0.0,
        });
        steps.sum()
    }

    /// The middle of the picture that begins at a hole, and half its width and height
    /// as ways in the picture.
    pub(super) fn picture(
        &self,
        hole: f32,
        layout: &Layout,
    ) -> ((f32, f32), (f32, f32), (f32, f32)) {
        let number = hole + layout.middle.1;
        let (across, step) = (self.across(number), self.curve.step(number));
        let (w, h) = (layout.picture.0 / 2.0, layout.picture.1 / 2.0);
        (
            self.place(number, layout.middle.0),
            (across.0 * w, across.1 * w),
            (step.0 * h, step.1 * h),
        )
    }
}
