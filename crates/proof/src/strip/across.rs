//! How a strip lies across its row of holes: which side, how wide, how slanting.

use onestrand_film::{Gauge, HolePlace};

use super::curve::Curve;
use super::light::BoxLight;
use super::line::smooth;
use crate::grey::GreyPicture;

/// From the edge of 35 mm film to the middle of a hole, from memory: the table of gauges
/// has no figure. Unit: micrometres.
const NEAR_EDGE_UM: u32 = 3_400;

/// A gauge's measures with the way from hole to hole as one.
#[derive(Debug)]
pub(super) struct Layout {
    pub(super) holes_a_frame: i32,
    /// From the middle of the hole to the near and the far edge of the strip.
    near: f32,
    far: f32,
    /// From the middle of the hole to the middle of the picture, across and along.
    middle: (f32, f32),
    /// Width and height of the picture in the camera.
    picture: (f32, f32),
    /// From hole to hole, in sides of a hole: least and most that is believed.
    pub(super) spacing: (f32, f32),
}

impl Layout {
    pub(super) fn of(gauge: Gauge) -> Self {
        let spec = gauge.spec();
        let strip = &spec.strip;
        let four = strip.place == HolePlace::FourBothEdges;
        let holes_a_frame = if four { 4 } else { 1 };
        let step = spec.pitch_um as f32 / holes_a_frame as f32;
        let um = |um: u32| um as f32 / step;
        let hole = strip.hole_um.map(|(w, h)| (um(w), um(h)));
        let near = match (strip.place, strip.edge_um, hole) {
            (HolePlace::CentreOnFrameLine, ..) => um(strip.width_um) / 2.0,
            (_, Some(edge), Some((width, _))) => um(edge) + width / 2.0,
            (_, None, _) | (.., None) => um(NEAR_EDGE_UM),
        };
        let left = um(strip.picture_left_um);
        let along = match strip.place {
            HolePlace::BesidePicture => 0.0,
            // Four holes a frame: the frame line lies between two.
            HolePlace::FourBothEdges => 1.5,
            _ => 0.5,
        };
        let spacing = hole.map_or((1.6, 9.0), |(w, h)| {
            let sides = 1.0 / (w * h).sqrt();
            (0.62 * sides, 1.7 * sides)
        });
        Self {
            holes_a_frame,
            near,
            far: um(strip.width_um) - near,
            middle: (left + um(spec.camera.width_um) / 2.0 - near, along),
            picture: (um(spec.camera.width_um), um(spec.camera.height_um)),
            spacing,
        }
    }
}

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
    slant: (f32, f32),
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
            lie.find_slant(photo, light, layout);
            both.push((edges, lie));
        }
        both.sort_by(|a, b| b.0.total_cmp(&a.0));
        let clear = both.len() == 2 && both[0].0 > both[1].0 + 0.12;
        both.truncate(if clear { 1 } else { 2 });
        both.into_iter().map(|(_, lie)| lie).collect()
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
    fn seen(
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

    /// Finds the slant at which the frame lines stand out most.
    fn find_slant(&mut self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) {
        let mut best = (0.0, (0.0, 0.0));
        let steps = |n: i16, of: f32| (-n..=n).map(move |d| f32::from(d) * of);
        // First all frames alike, then how they fan out, then both more finely.
        let searches: [(i16, f32, i16, f32); 3] =
            [(14, 1.0, 0, 0.0), (2, 0.7, 7, 2.0), (2, 0.5, 3, 0.6)];
        for (n, of, fan, fan_of) in searches {
            let from = best.1;
            for (d, f) in steps(n, of).flat_map(|d| steps(fan, fan_of).map(move |f| (d, f))) {
                self.slant = (from.0 + d, from.1 + f);
                let far = self.slant.0 / 14.0;
                let fanned = self.slant.1 / 14.0;
                let likely = 1.0 - 0.15 * (far * far + fanned * fanned);
                let score = self.frame_lines(photo, light, layout) * likely;
                if score > best.0 {
                    best = (score, self.slant);
                }
            }
        }
        self.slant = best.1;
    }

    /// How much the light goes up and down along the strip, all frames laid on each
    /// other.
    fn frame_lines(&self, photo: GreyPicture<'_>, light: &BoxLight, layout: &Layout) -> f32 {
        const ROWS: i16 = 24;
        let half = layout.picture.0 / 2.0;
        let mut means = Vec::new();
        for row in 0..ROWS {
            let within = f32::from(row) / f32::from(ROWS) * layout.holes_a_frame as f32;
            let (mut sum, mut count) = (0.0, 0);
            for number in self.ends.0..self.ends.1 {
                for share in [-0.85, -0.5, 0.0, 0.5, 0.85] {
                    let across = layout.middle.0 + share * half;
                    let place = (number as f32 + within, across);
                    if let Some(seen) = self.seen(place, photo, light) {
                        sum += seen;
                        count += 1;
                    }
                }
            }
            means.push(sum / (count.max(1)) as f32);
        }
        let mean = means.iter().sum::<f32>() / means.len() as f32;
        means.iter().map(|m| (m - mean) * (m - mean)).sum()
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
