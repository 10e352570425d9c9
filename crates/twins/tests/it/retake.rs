//! A second take of pictures there are: slower or faster, closer, lit otherwise,
//! with grain of its own, and with the moment of every frame known.

/// Width of the planes retaken. Unit: pixels.
pub(crate) const WIDTH: usize = 192;
/// Height of the planes retaken. Unit: pixels.
pub(crate) const HEIGHT: usize = 144;

/// How a take differs from the pictures it is made of.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Retake {
    /// First moment. Unit: frames of the source.
    pub(crate) start: f32,
    /// Moments from frame to frame.
    pub(crate) speed: f32,
    /// How far the action hurries and delays. Unit: frames of the source.
    pub(crate) wavers: f32,
    /// Left, top and share of the sides of what it shows.
    pub(crate) view: (f32, f32, f32),
    /// Unit: stops.
    pub(crate) exposure: f32,
    /// Light from frame to frame. Unit: stops, spread.
    pub(crate) flicker: f32,
    /// Unit: levels, spread.
    pub(crate) grain: f32,
    /// Unit: pixels, spread.
    pub(crate) weave: f32,
    /// Mixes neighbouring pictures instead of taking the nearest.
    pub(crate) mixes: bool,
    pub(crate) seed: u64,
}

impl Retake {
    pub(crate) const PLAIN: Self = Self {
        start: 0.0,
        speed: 1.0,
        wavers: 0.0,
        view: (0.0, 0.0, 1.0),
        exposure: 0.0,
        flicker: 0.03,
        grain: 4.0,
        weave: 0.2,
        mixes: true,
        seed: 1,
    };

    /// The moment of a frame. Unit: frames of the source.
    pub(crate) fn moment(&self, frame: f32) -> f32 {
        self.start + self.speed * frame + self.wavers * (frame / 23.0 + self.seed as f32).sin()
    }

    /// The frame of a moment, by halving.
    pub(crate) fn frame_at(&self, moment: f32) -> f32 {
        let (mut low, mut high) = (-2000.0_f32, 6000.0);
        for _ in 0..50 {
            let middle = 0.5 * (low + high);
            if self.moment(middle) < moment {
                low = middle;
            } else {
                high = middle;
            }
        }
        0.5 * (low + high)
    }

    /// All frames whose moments the source has.
    pub(crate) fn planes(&self, source: &[&[u8]], most: usize) -> Vec<Vec<u8>> {
        let mut chance = Chance(self.seed);
        let mut planes = Vec::new();
        for frame in 0..most.min(source.len() * 2) {
            let moment = self.moment(frame as f32).max(0.0);
            if moment > source.len() as f32 - 1.0 {
                break;
            }
            planes.push(self.plane(source, moment, &mut chance));
        }
        planes
    }

    fn plane(&self, source: &[&[u8]], moment: f32, chance: &mut Chance) -> Vec<u8> {
        let moment = if self.mixes { moment } else { moment.round() };
        let (whole, part) = (moment.floor() as usize, moment.fract());
        let next = (whole + 1).min(source.len() - 1);
        let (left, top, share) = self.view;
        let (right, down) = (self.weave * chance.normal(), self.weave * chance.normal());
        // 2.2: levels are the light to the power of one over so much.
        let light = 2_f32.powf((self.exposure + self.flicker * chance.normal()) / 2.2);
        let mut plane = Vec::with_capacity(WIDTH * HEIGHT);
        for row in 0..HEIGHT {
            for column in 0..WIDTH {
                let x = left * WIDTH as f32 + (column as f32 + 0.5) * share - 0.5 + right * share;
                let y = top * HEIGHT as f32 + (row as f32 + 0.5) * share - 0.5 + down * share;
                let level = (1.0 - part) * between(source[whole], x, y)
                    + if part > 0.0 {
                        part * between(source[next], x, y)
                    } else {
                        0.0
                    };
                let level = level * light + self.grain * chance.normal();
                plane.push(level.round().clamp(0.0, 255.0) as u8);
            }
        }
        plane
    }
}

fn between(plane: &[u8], x: f32, y: f32) -> f32 {
    let x = x.clamp(0.0, WIDTH as f32 - 1.001);
    let y = y.clamp(0.0, HEIGHT as f32 - 1.001);
    let (column, row) = (x as usize, y as usize);
    let (right, down) = (x.fract(), y.fract());
    let at = |r: usize, c: usize| f32::from(plane[r * WIDTH + c]);
    let upper = at(row, column) + right * (at(row, column + 1) - at(row, column));
    let lower = at(row + 1, column) + right * (at(row + 1, column + 1) - at(row + 1, column));
    upper + down * (lower - upper)
}

/// Numbers by chance that are the same in every run.
#[derive(Debug, Clone)]
pub(crate) struct Chance(pub(crate) u64);

impl Chance {
    pub(crate) fn bits(&mut self) -> u64 {
        // splitmix64, after its public description.
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Range: 0 to 1.
    pub(crate) fn share(&mut self) -> f32 {
        (self.bits() >> 40) as f32 / (1_u64 << 24) as f32
    }

    /// Mean 0, spread 1: the sum of four shares of 16 bits is near enough to it.
    pub(crate) fn normal(&mut self) -> f32 {
        let bits = self.bits();
        let sum: u64 = (0..4).map(|n| (bits >> (16 * n)) & 0xffff).sum();
        (sum as f32 / 65_536.0 - 2.0) * 3_f32.sqrt()
    }
}
