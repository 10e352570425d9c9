//! Photographs of strips on a light box, drawn with known truth.

use image::codecs::jpeg::JpegEncoder;
use image::{ExtendedColorType, ImageReader};
use onestrand_film::Gauge;

use crate::chance::Chance;
use crate::strip::Strip;

/// How a photograph is taken.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Taken {
    pub(crate) gauge: Gauge,
    /// Holes along both edges, as 16 mm has them too.
    pub(crate) both_edges: bool,
    pub(crate) size: (usize, usize),
    /// Turn of the strip. Unit: degrees.
    pub(crate) turn: f32,
    /// Seen from the other side.
    pub(crate) mirrored: bool,
    /// How much smaller the far end is, across and along.
    pub(crate) tilt: (f32, f32),
    /// How far its middle is bent aside, in lengths of the strip.
    pub(crate) curl: f32,
    /// Unit: pixels.
    pub(crate) blur: f32,
    /// Unit: levels.
    pub(crate) noise: f32,
    pub(crate) hand: bool,
    pub(crate) gamma: f32,
    /// Of 100.
    pub(crate) quality: u8,
}

impl Taken {
    pub(crate) fn plainly(gauge: Gauge) -> Self {
        Self {
            gauge,
            both_edges: false,
            size: (1600, 1200),
            turn: 0.0,
            mirrored: false,
            tilt: (0.0, 0.0),
            curl: 0.0,
            blur: 0.5,
            noise: 1.0,
            hand: false,
            gamma: 1.0,
            quality: 92,
        }
    }

    pub(crate) fn by_chance(gauge: Gauge, frames: usize, chance: &mut Chance) -> Self {
        Self {
            gauge,
            both_edges: false,
            size: if frames > 20 {
                (4000, 3000)
            } else {
                (2000, 1500)
            },
            turn: chance.between(0.0, 360.0),
            mirrored: chance.share() < 0.4,
            tilt: (chance.between(-0.12, 0.12), chance.between(-0.12, 0.12)),
            curl: chance.between(-0.03, 0.03),
            blur: chance.between(0.4, 1.6),
            noise: chance.between(1.0, 4.0),
            hand: chance.share() < 0.5,
            gamma: chance.between(0.75, 1.3),
            quality: 70 + chance.below(25) as u8,
        }
    }
}

/// A photograph in grey, and which frames of the strip nothing lies over.
pub(crate) struct Photograph {
    pub(crate) size: (usize, usize),
    pub(crate) levels: Vec<u8>,
    pub(crate) open: Vec<bool>,
}

/// Both ends and the radius of a finger or a palm. Unit: pixels.
type Part = ((f32, f32), (f32, f32), f32);

/// What lies over the strip. Unit: pixels.
struct Hand {
    /// Ends and radius of fingers and palm.
    parts: Vec<Part>,
}

impl Hand {
    /// A hand that comes from the side of the photograph and reaches to a place.
    fn reaching((x, y): (f32, f32), size: (f32, f32), finger: f32, chance: &mut Chance) -> Self {
        let from = if chance.share() < 0.5 { 0.0 } else { size.0 };
        let (dx, dy) = (from - x, chance.between(-0.3, 0.3) * size.1);
        let length = dx.hypot(dy).max(1.0);
        let (dx, dy) = (dx / length, dy / length);
        let mut parts = Vec::new();
        for n in 0..2 {
            let aside = (n as f32 - 0.5) * 2.1 * finger;
            let tip = (x - dy * aside, y + dx * aside);
            let root = (tip.0 + dx * 7.0 * finger, tip.1 + dy * 7.0 * finger);
            parts.push((tip, root, finger));
        }
        let palm = (x + dx * 9.0 * finger, y + dy * 9.0 * finger);
        let arm = (x + dx * length * 1.5, y + dy * length * 1.5);
        parts.push((palm, arm, 3.0 * finger));
        Self { parts }
    }

    fn covers(&self, x: f32, y: f32) -> bool {
        self.parts.iter().any(|&(a, b, radius)| {
            let (vx, vy) = (b.0 - a.0, b.1 - a.1);
            let t = ((x - a.0) * vx + (y - a.1) * vy) / (vx * vx + vy * vy).max(1.0);
            let t = t.clamp(0.0, 1.0);
            (x - a.0 - t * vx).hypot(y - a.1 - t * vy) <= radius
        })
    }
}

/// Where a place of the photograph is on the strip.
struct Camera {
    centre: (f32, f32),
    scale: f32,
    sin_cos: (f32, f32),
    taken: Taken,
    strip: (f32, f32),
}

impl Camera {
    fn of(taken: Taken, strip: &Strip<'_>, chance: &mut Chance) -> Self {
        let (w, h) = (taken.size.0 as f32, taken.size.1 as f32);
        let (sin, cos) = taken.turn.to_radians().sin_cos();
        let (long, wide) = (strip.length(), strip.width());
        let reach = (
            (long * sin.abs() + wide * cos.abs()),
            (long * cos.abs() + wide * sin.abs()),
        );
        let fit = (0.86 * w / reach.0).min(0.86 * h / reach.1);
        // No nearer than a frame of a quarter of the picture.
        let scale = fit.min(h / (4.5 * strip.pitch())) * 0.95;
        let centre = (
            w / 2.0 + chance.between(-0.02, 0.02) * w,
            h / 2.0 + chance.between(-0.02, 0.02) * h,
        );
        Self {
            centre,
            scale,
            sin_cos: (sin, cos),
            taken,
            strip: (wide, long),
        }
    }

    fn on_strip(&self, px: f32, py: f32) -> (f32, f32) {
        let (x, y) = (
            (px - self.centre.0) / self.scale,
            (py - self.centre.1) / self.scale,
        );
        // A projective map: what is far is smaller.
        let reach = self.strip.1.max(self.strip.0);
        let w = 1.0 + (self.taken.tilt.0 * x + self.taken.tilt.1 * y) / reach;
        let (x, y) = (x / w, y / w);
        let (sin, cos) = self.sin_cos;
        let (mut u, mut v) = (cos * x + sin * y, -sin * x + cos * y);
        if self.taken.curl.abs() > 1e-4 {
            // A bow: an arc with its middle beside the strip.
            let radius = self.strip.1 / (8.0 * self.taken.curl);
            let side = radius.signum();
            let angle = v.atan2((radius - u) * side);
            let far = (u - radius).hypot(v);
            (u, v) = (radius - side * far, radius.abs() * angle);
        }
        if self.taken.mirrored {
            u = -u;
        }
        (u + self.strip.0 / 2.0, v + self.strip.1 / 2.0)
    }
}

/// Photographs frames of film, given in order from the head.
pub(crate) fn photograph(frames: &[&[u8]], taken: Taken, chance: &mut Chance) -> Photograph {
    let strip = Strip::of(taken.gauge, taken.both_edges, frames);
    let camera = Camera::of(taken, &strip, chance);
    let (w, h) = taken.size;
    let hand = taken.hand.then(|| {
        let along = (chance.between(-0.35, 0.35)) * strip.length() * camera.scale;
        let (sin, cos) = camera.sin_cos;
        let at = (camera.centre.0 - sin * along, camera.centre.1 + cos * along);
        let finger = (0.35 * strip.width()).min(0.06 * strip.length()) * camera.scale;
        Hand::reaching(at, (w as f32, h as f32), finger, chance)
    });
    let slope = (chance.between(-0.15, 0.15), chance.between(-0.15, 0.15));
    let mut covered = vec![0_u32; frames.len()];
    let mut levels = vec![0.0_f32; w * h];
    for y in 0..h {
        for x in 0..w {
            let (fx, fy) = (x as f32, y as f32);
            let (u, v) = camera.on_strip(fx, fy);
            let mut through = strip.through(u, v);
            if hand.as_ref().is_some_and(|hand| hand.covers(fx, fy)) {
                if through.is_some() {
                    let frame = (v / strip.pitch()) as usize;
                    covered[frame.min(frames.len() - 1)] += 1;
                }
                through = Some(0.22 + 0.08 * ((fx + fy) / 90.0).sin());
            }
            let box_light =
                0.88 + slope.0 * (fx / w as f32 - 0.5) + slope.1 * (fy / h as f32 - 0.5)
                    - 0.1 * ((fx / w as f32 - 0.5).powi(2) + (fy / h as f32 - 0.5).powi(2));
            let seen = box_light * through.unwrap_or(1.0);
            levels[y * w + x] = 255.0 * seen.powf(taken.gamma);
        }
    }
    let levels = blurred(&levels, (w, h), taken.blur);
    let noisy: Vec<u8> = levels
        .iter()
        .map(|v| (v + taken.noise * chance.normal()).clamp(0.0, 255.0) as u8)
        .collect();
    let frame = (strip.pitch() * strip.width() * camera.scale * camera.scale) as u32;
    Photograph {
        size: taken.size,
        levels: coded(&noisy, taken.size, taken.quality),
        open: covered.iter().map(|&c| c * 20 < frame).collect(),
    }
}

fn blurred(levels: &[f32], (w, h): (usize, usize), radius: f32) -> Vec<f32> {
    let reach = (2.5 * radius).ceil() as usize;
    let weight = |d: f32| (-d * d / (2.0 * radius * radius)).exp();
    let weights: Vec<f32> = (0..=reach).map(|d| weight(d as f32)).collect();
    let sum = weights[0] + 2.0 * weights[1..].iter().sum::<f32>();
    let pass = |from: &[f32], step: usize, at: &dyn Fn(usize) -> (usize, usize)| {
        let mut to = vec![0.0; from.len()];
        for (i, out) in to.iter_mut().enumerate() {
            let (place, count) = at(i);
            let mut total = weights[0] * from[i];
            for (d, weight) in weights.iter().enumerate().skip(1) {
                let low = i - d.min(place) * step;
                let high = i + d.min(count - 1 - place) * step;
                total += weight * (from[low] + from[high]);
            }
            *out = total / sum;
        }
        to
    };
    let across = pass(levels, 1, &|i| (i % w, w));
    pass(&across, w, &|i| (i / w, h))
}

fn coded(levels: &[u8], (w, h): (usize, usize), quality: u8) -> Vec<u8> {
    let mut jpeg = Vec::new();
    JpegEncoder::new_with_quality(&mut jpeg, quality)
        .encode(levels, w as u32, h as u32, ExtendedColorType::L8)
        .expect("a picture is coded");
    let read = ImageReader::with_format(std::io::Cursor::new(jpeg), image::ImageFormat::Jpeg);
    read.decode().expect("and read").to_luma8().into_raw()
}
