//! A roll of film: scenes, and what the stock and the camera lay over them.

use crate::Chance;
use crate::chance::GrainTable;
use crate::ground::{Ground, oval};

/// What is seen for some frames. Lengths on the picture are shares of its width.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Scene {
    /// A still camera; figures walk.
    Walk,
    /// The camera turns, by this share of the width a frame.
    Pan(f32),
    /// A still camera, and nothing moves.
    Still,
    /// A title card.
    Title,
    /// Black film.
    Black,
    /// Clear film.
    Clear,
}

/// What film lays over its scenes, new on every frame.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Look {
    /// Standard deviation of the grain in mid-tones, in levels of a picture of
    /// the size that is drawn; a quarter of it on black and clear film.
    pub grain: f32,
    /// Specks of dust on a frame, on average.
    pub dust: f32,
    /// Standard deviation of the weave, in shares of the width, either way.
    pub weave: f32,
    /// Standard deviation of the exposure, as a share.
    pub flicker: f32,
}

impl Look {
    /// Super 8 reversal in fair state, at the size of a measuring plane.
    pub const FAIR: Self = Self {
        grain: 1.2,
        dust: 1.5,
        weave: 0.0015,
        flicker: 0.012,
    };
    /// Nothing is laid over the scenes.
    pub const NONE: Self = Self {
        grain: 0.0,
        dust: 0.0,
        weave: 0.0,
        flicker: 0.0,
    };
}

/// A roll whose every frame can be drawn by its number.
#[derive(Debug, Clone)]
pub struct Roll {
    size: (usize, usize),
    look: Look,
    seed: u64,
    grain: GrainTable,
    scenes: Vec<Drawn>,
}

#[derive(Debug, Clone)]
struct Drawn {
    scene: Scene,
    from: u32,
    until: u32,
    ground: Ground,
    figures: Vec<Figure>,
}

#[derive(Debug, Clone)]
struct Figure {
    at: (f32, f32),
    pace: f32,
    height: f32,
    tone: f32,
    phase: f32,
}

impl Roll {
    /// A roll of scenes with their lengths in frames, drawn at `size` pixels.
    #[must_use]
    pub fn new(size: (usize, usize), look: Look, seed: u64, scenes: &[(Scene, u32)]) -> Self {
        let mut from = 0;
        let drawn = (0_u64..).zip(scenes).map(|(number, &(scene, frames))| {
            let mut chance = Chance::of(seed, 1_000_000 + number);
            let begins = from;
            from += frames;
            let ground = match scene {
                Scene::Black => Ground::plain(size, 7.0),
                Scene::Clear => Ground::plain(size, 244.0),
                Scene::Title => Ground::title(size, &mut chance),
                _ => Ground::place(size, &mut chance),
            };
            let walkers = if scene == Scene::Walk { 3 } else { 0 };
            Drawn {
                scene,
                from: begins,
                until: from,
                ground,
                figures: (0..walkers).map(|_| figure(size, &mut chance)).collect(),
            }
        });
        Self {
            scenes: drawn.collect(),
            size,
            look,
            seed,
            grain: GrainTable::new(seed),
        }
    }

    /// Frames on the roll.
    #[must_use]
    pub fn frames(&self) -> u32 {
        self.scenes.last().map_or(0, |scene| scene.until)
    }

    /// Pixels across and down.
    #[must_use]
    pub fn size(&self) -> (usize, usize) {
        self.size
    }

    /// The scene a frame lies in.
    #[must_use]
    pub fn scene(&self, frame: u32) -> Option<Scene> {
        self.drawn(frame).map(|drawn| drawn.scene)
    }

    fn drawn(&self, frame: u32) -> Option<&Drawn> {
        self.scenes.iter().find(|scene| frame < scene.until)
    }

    /// A frame in levels, 0 to 255, row by row from the top; beyond the end of
    /// the roll nothing but black.
    #[must_use]
    pub fn frame(&self, number: u32) -> Vec<f32> {
        let Some(drawn) = self.drawn(number) else {
            return vec![0.0; self.size.0 * self.size.1];
        };
        let mut chance = Chance::of(self.seed, u64::from(number));
        let width = self.size.0 as f32;
        let weave = self.look.weave * width;
        let mut at = (chance.bell() * weave, chance.bell() * weave);
        let since = (number - drawn.from) as f32;
        if let Scene::Pan(pace) = drawn.scene {
            at.0 += (since - (drawn.until - drawn.from) as f32 / 2.0) * pace * width;
        }
        let mut levels = drawn.ground.seen(self.size, at);
        for figure in &drawn.figures {
            figure.draw(&mut levels, self.size, since, at);
        }
        self.lay_over(&mut levels, &mut chance);
        levels
    }

    /// Dust, exposure and grain.
    fn lay_over(&self, levels: &mut [f32], chance: &mut Chance) {
        let (width, height) = (self.size.0 as f32, self.size.1 as f32);
        let specks = (self.look.dust * 2.0 * chance.unit() + 0.5) as u32;
        for _ in 0..specks {
            let at = (chance.unit() * width, chance.unit() * height);
            let reach = width * (0.003 + 0.006 * chance.unit());
            let tone = if chance.below(3) == 0 { 235.0 } else { 18.0 };
            oval(levels, self.size, at, (reach, reach * 1.3), tone);
        }
        let exposure = 1.0 + self.look.flicker * chance.bell();
        for row in levels.chunks_exact_mut(self.size.0) {
            let run = self.grain.run(self.size.0, chance);
            for (level, grain) in row.iter_mut().zip(run) {
                let lit = (*level * exposure).clamp(0.0, 255.0);
                let share = 0.25 + 3.0 * (lit / 255.0) * (1.0 - lit / 255.0);
                *level = (lit + grain * share * self.look.grain).clamp(0.0, 255.0);
            }
        }
    }
}

fn figure(size: (usize, usize), chance: &mut Chance) -> Figure {
    let (width, height) = (size.0 as f32, size.1 as f32);
    let pace = (0.003 + 0.008 * chance.unit()) * width;
    Figure {
        at: (chance.unit() * width, height * (0.5 + 0.3 * chance.unit())),
        pace: if chance.below(2) == 0 { pace } else { -pace },
        height: height * (0.25 + 0.25 * chance.unit()),
        tone: if chance.below(2) == 0 { 25.0 } else { 215.0 },
        phase: chance.unit() * 6.0,
    }
}

impl Figure {
    /// Walks to and fro, swinging arms and legs.
    fn draw(&self, levels: &mut [f32], size: (usize, usize), since: f32, woven: (f32, f32)) {
        let range = size.0 as f32;
        let along = (self.at.0 + self.pace * since).rem_euclid(2.0 * range);
        let along = if along > range {
            2.0 * range - along
        } else {
            along
        };
        let (x, y, h) = (along - woven.0, self.at.1 - woven.1, self.height);
        let swing = (since * 0.45 + self.phase).sin() * h * 0.15;
        oval(levels, size, (x, y), (h * 0.13, h * 0.28), self.tone);
        oval(
            levels,
            size,
            (x, y - h * 0.38),
            (h * 0.09, h * 0.11),
            230.0 - self.tone,
        );
        for side in [-1.0, 1.0] {
            let leg = (x + side * swing, y + h * 0.36);
            oval(levels, size, leg, (h * 0.06, h * 0.18), self.tone);
            let arm = (x - side * (swing + h * 0.12), y - h * 0.08);
            oval(levels, size, arm, (h * 0.05, h * 0.15), self.tone);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn apart(a: &[f32], b: &[f32]) -> f32 {
        let sum: f32 = a.iter().zip(b).map(|(a, b)| (a - b) * (a - b)).sum();
        sum / a.len() as f32
    }

    #[test]
    fn a_frame_is_the_same_whenever_it_is_drawn_and_unlike_its_neighbour() {
        let roll = Roll::new(
            (96, 72),
            Look::FAIR,
            3,
            &[(Scene::Still, 5), (Scene::Black, 5)],
        );
        assert_eq!(roll.frame(3), roll.frame(3));
        assert!(apart(&roll.frame(3), &roll.frame(2)) > 1.0);
        // Black film has grain too, but little.
        let dark = apart(&roll.frame(8), &roll.frame(7));
        assert!(dark > 0.05 && dark < 40.0, "{dark}");
    }

    #[test]
    fn nothing_laid_over_a_still_scene_leaves_it_still() {
        let roll = Roll::new(
            (96, 72),
            Look::NONE,
            3,
            &[(Scene::Still, 5), (Scene::Pan(0.01), 5)],
        );
        assert_eq!(roll.frame(1), roll.frame(2));
        assert!(apart(&roll.frame(6), &roll.frame(7)) > 1.0);
        assert_eq!(roll.frames(), 10);
    }
}
