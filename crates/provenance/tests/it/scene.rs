//! Drawn scenes that move: soft shapes and a texture, in colour.

use crate::chance::Chance;

/// A soft shape that wanders.
struct Shape {
    at: (f32, f32),
    speed: (f32, f32),
    size: (f32, f32),
    tone: [f32; 3],
}

/// A scene of one shot. Places are shares of the picture, 0 to 1.
pub(crate) struct Scene {
    ground: [f32; 3],
    slope: (f32, f32),
    shapes: Vec<Shape>,
    texture: [(f32, f32, f32); 4],
    pan: (f32, f32),
}

impl Scene {
    pub(crate) fn new(chance: &mut Chance) -> Self {
        let tone = |chance: &mut Chance| {
            let light = chance.between(25.0, 215.0);
            [0, 1, 2].map(|_| light + chance.between(-25.0, 25.0))
        };
        let is_still = chance.below(5) == 0;
        let pace = if is_still { 0.0 } else { 0.02 };
        let shape = |chance: &mut Chance| Shape {
            at: (chance.share(), chance.share()),
            speed: (chance.between(-pace, pace), chance.between(-pace, pace)),
            size: (chance.between(0.04, 0.3), chance.between(0.04, 0.4)),
            tone: tone(chance),
        };
        let shapes = (0..chance.below(6) + 4).map(|_| shape(chance)).collect();
        let wave = |chance: &mut Chance| {
            (
                chance.between(-150.0, 150.0),
                chance.between(-150.0, 150.0),
                chance.between(1.0, 6.0),
            )
        };
        Self {
            ground: tone(chance),
            slope: (chance.between(-60.0, 60.0), chance.between(-60.0, 60.0)),
            shapes,
            texture: [0; 4].map(|_| wave(chance)),
            pan: (
                chance.between(-pace, pace),
                chance.between(-pace / 2.0, pace / 2.0),
            ),
        }
    }

    /// The light of a place at a time, in levels.
    pub(crate) fn light(&self, x: f32, y: f32, time: f32) -> [f32; 3] {
        let (x, y) = (x + self.pan.0 * time, y + self.pan.1 * time);
        let slope = self.slope.0 * (x - 0.5) + self.slope.1 * (y - 0.5);
        let waves = self
            .texture
            .iter()
            .map(|&(a, b, strong)| (a * x + b * y).sin() * strong);
        let texture: f32 = waves.sum();
        let mut light = self.ground.map(|g| g + slope);
        for shape in &self.shapes {
            let dx = (x - shape.at.0 - shape.speed.0 * time) / shape.size.0;
            let dy = (y - shape.at.1 - shape.speed.1 * time) / shape.size.1;
            let far = (dx * dx + dy * dy).sqrt();
            let cover = ((1.0 - far) * 12.0 + 0.5).clamp(0.0, 1.0);
            light
                .iter_mut()
                .zip(shape.tone)
                .for_each(|(l, t)| *l += (t - *l) * cover);
        }
        light.map(|l| (l + texture).clamp(2.0, 250.0))
    }
}
