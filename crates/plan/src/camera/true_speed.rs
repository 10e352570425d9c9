//! The camera's true speed, from what is in the picture.

use super::camera_error::{CameraError, within};
use super::figures::figure;
use super::opened_sum::OpenedSum;

/// A speed seen in the picture, with how far it may be off.
#[derive(Debug, Clone, PartialEq)]
pub struct SpeedSeen {
    /// The way: `lamp flicker`, `turntable`, `pendulum`.
    pub way: &'static str,
    /// Unit: frames a second.
    pub speed: f64,
    /// It lies within as much of it. Unit: frames a second.
    pub error: f64,
    /// Other speeds that would look the same.
    pub also: Vec<SpeedSeen>,
    /// The sum.
    pub sums: Vec<OpenedSum>,
}

/// Bands of light that pass through the picture of a lamp on alternating current.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FlickerSeen {
    /// The mains. Unit: hertz. Range: 15 to 400.
    pub mains_hz: f64,
    /// How far the mains may be off. Unit: hertz. Range: 0 to 5.
    pub mains_error_hz: f64,
    /// Bands that passed one place of the picture, or times that it went dark.
    pub bands: f64,
    /// How far the count may be off. Unit: bands.
    pub bands_error: f64,
    /// Frames over which they were counted. Range: 2 to 1,000,000.
    pub frames: f64,
    /// What the camera is set to. Unit: frames a second.
    pub set: f64,
}

/// A turntable in the picture.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct TurntableSeen {
    /// Turns a minute. Range: 1 to 200.
    pub turns_a_minute: f64,
    /// How far the turntable may be off. Unit: per cent. Range: 0 to 20.
    pub error_percent: f64,
    /// Whole turns counted. Range: over 0.
    pub turns: f64,
    /// Frames over which they were counted.
    pub frames: f64,
    /// How far the count of frames may be off. Unit: frames.
    pub frames_error: f64,
}

/// A pendulum in the picture: a small weight on a long thread.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PendulumSeen {
    /// From where the thread is held to the middle of the weight. Unit: millimetres.
    /// Range: 20 to 50,000.
    pub length_mm: f64,
    /// How far that may be off. Unit: millimetres.
    pub length_error_mm: f64,
    /// How far it swings to one side. Unit: degrees. Range: 0 to 60.
    pub swing_degrees: f64,
    /// Swings there and back.
    pub swings: f64,
    /// Frames over which they were counted.
    pub frames: f64,
    /// How far the count of frames may be off. Unit: frames.
    pub frames_error: f64,
    /// Gravity. Unit: metres a second squared. [`PendulumSeen::GRAVITY`] is usual.
    pub gravity: f64,
}

impl PendulumSeen {
    /// Standard gravity, ISO 80000-3; at the equator 0.3 % less, at the poles 0.3 % more.
    pub const GRAVITY: f64 = 9.806_65;
}

/// No more than this off the speed set is looked at. Unit: share of it.
const NEAR: f64 = 0.25;

fn counted(what: &'static str, found: f64, least: f64) -> Result<f64, CameraError> {
    let hint = "count over as long a run as there is: the longer, the surer";
    within(what, found, (least, 1e6), hint)
}

fn may_be_off(what: &'static str, found: f64) -> Result<f64, CameraError> {
    within(
        what,
        found,
        (0.0, 1e5),
        "say how far it may be off, such as 1",
    )
}

impl FlickerSeen {
    /// The speeds that would make such bands, the nearest to the speed set first.
    ///
    /// A lamp goes dark twice in each turn of the mains. The camera sees the difference
    /// between that and the nearest multiple of its own speed: bands a frame = |2 ×
    /// mains ÷ speed − k|, so speed = 2 × mains ÷ (k ± bands a frame).
    ///
    /// # Errors
    /// [`CameraError::OutOfRange`] for counts that cannot be,
    /// [`CameraError::NoSuchBands`] where no speed within a quarter of that set does it.
    pub fn speed(&self) -> Result<SpeedSeen, CameraError> {
        let hint = "the mains are 50 Hz in most of the world, 60 Hz in the Americas";
        within("the mains in hertz", self.mains_hz, (15.0, 400.0), hint)?;
        within(
            "the error of the mains in hertz",
            self.mains_error_hz,
            (0.0, 5.0),
            hint,
        )?;
        counted("the frames counted", self.frames, 2.0)?;
        may_be_off("the error of the bands", self.bands_error)?;
        let hint = "a band every two frames is the most that a picture can show";
        let most = self.frames / 2.0;
        within("the bands counted", self.bands, (0.0, most), hint)?;
        let hint = "the speed stands on the camera, such as 18";
        within("the speed set", self.set, (1.0, 200.0), hint)?;
        let mut all = self.all();
        let apart = |speed: f64| (speed - self.set).abs();
        all.sort_by(|a, b| apart(a.speed).total_cmp(&apart(b.speed)));
        let none = CameraError::NoSuchBands {
            set: self.set,
            bands: self.bands,
            frames: self.frames,
        };
        let mut seen = all.iter().map(|one| self.seen(one));
        let first = seen.next().ok_or(none)?;
        Ok(SpeedSeen {
            also: seen.collect(),
            ..first
        })
    }

    fn seen(&self, one: &Alias) -> SpeedSeen {
        SpeedSeen {
            way: "lamp flicker",
            speed: one.speed,
            error: one.error,
            also: Vec::new(),
            sums: vec![self.sum(one)],
        }
    }

    fn all(&self) -> Vec<Alias> {
        let (light, a_frame) = (2.0 * self.mains_hz, self.bands / self.frames);
        let count_error = self.bands_error / self.frames;
        let most = (light / self.set / (1.0 - NEAR)).ceil() + 1.0;
        let each = (0..=most as u32).flat_map(|k| [-1.0, 1.0].map(|sign| (f64::from(k), sign)));
        let made = each.filter_map(|(k, sign)| {
            let pulses = k + sign * a_frame;
            // Without bands the two signs are one.
            let once = sign > 0.0 || a_frame > 0.0;
            (pulses > 0.0 && once).then(|| {
                let speed = light / pulses;
                let count = speed * count_error / pulses;
                let mains = speed * self.mains_error_hz / self.mains_hz;
                Alias {
                    k,
                    sign,
                    speed,
                    error: count + mains,
                }
            })
        });
        made.filter(|one| (one.speed / self.set - 1.0).abs() <= NEAR)
            .collect()
    }

    fn sum(&self, found: &Alias) -> OpenedSum {
        let sign = if found.sign < 0.0 { "−" } else { "+" };
        OpenedSum {
            what: "speed by the lamp",
            formula: "2 × mains ÷ (k ± bands ÷ frames)",
            figures: format!(
                "2 × {} ÷ ({} {sign} {} ÷ {})",
                figure(self.mains_hz, 2),
                figure(found.k, 0),
                figure(self.bands, 2),
                figure(self.frames, 0)
            ),
            comes: with_error(found.speed, found.error),
            source: "a lamp on the mains goes dark twice a turn; the camera sees |2 × mains − k × speed|",
        }
    }
}

#[derive(Debug, Clone, Copy)]
struct Alias {
    k: f64,
    sign: f64,
    speed: f64,
    error: f64,
}

/// `17.98 ± 0.05 f/s`.
pub(crate) fn with_error(speed: f64, error: f64) -> String {
    format!("{} ± {} f/s", figure(speed, 3), figure(error, 3))
}

impl TurntableSeen {
    /// The speed by a turntable: frames × turns a minute ÷ (60 × turns).
    ///
    /// # Errors
    /// [`CameraError::OutOfRange`] for counts that cannot be.
    pub fn speed(&self) -> Result<SpeedSeen, CameraError> {
        let hint = "records run at 33⅓, 45 or 78 turns a minute";
        within(
            "the turns a minute",
            self.turns_a_minute,
            (1.0, 200.0),
            hint,
        )?;
        let hint = "a good turntable is within half a per cent";
        within(
            "the error of the turntable in per cent",
            self.error_percent,
            (0.0, 20.0),
            hint,
        )?;
        counted("the frames counted", self.frames, 2.0)?;
        counted("the turns counted", self.turns, 0.25)?;
        may_be_off("the error of the frames", self.frames_error)?;
        let speed = self.frames * self.turns_a_minute / (60.0 * self.turns);
        let off = self.frames_error / self.frames + self.error_percent / 100.0;
        let sum = OpenedSum {
            what: "speed by the turntable",
            formula: "frames × turns a minute ÷ (60 × turns)",
            figures: format!(
                "{} × {} ÷ (60 × {})",
                figure(self.frames, 1),
                figure(self.turns_a_minute, 3),
                figure(self.turns, 2)
            ),
            comes: with_error(speed, speed * off),
            source: "how far it may be off: frames miscounted ÷ frames, and the turntable's own",
        };
        Ok(SpeedSeen {
            way: "turntable",
            speed,
            error: speed * off,
            also: Vec::new(),
            sums: vec![sum],
        })
    }
}

impl PendulumSeen {
    /// The time of a swing there and back. Unit: seconds.
    ///
    /// Source: T = 2π √(l ÷ g) × (1 + θ² ÷ 16 + 11 θ⁴ ÷ 3072), θ the swing to one side;
    /// the first three terms of the series of the complete elliptic integral.
    #[must_use]
    pub fn swing_seconds(&self) -> f64 {
        let square = self.swing_degrees.to_radians().powi(2);
        let wide = 1.0 + square / 16.0 + 11.0 * square * square / 3072.0;
        2.0 * std::f64::consts::PI * (self.length_mm / 1000.0 / self.gravity).sqrt() * wide
    }

    /// The speed by a pendulum: frames ÷ (swings × time of a swing).
    ///
    /// # Errors
    /// [`CameraError::OutOfRange`] for lengths and counts that cannot be.
    pub fn speed(&self) -> Result<SpeedSeen, CameraError> {
        let hint = "measure from where the thread is held to the middle of the weight";
        within(
            "the pendulum's length in mm",
            self.length_mm,
            (20.0, 50_000.0),
            hint,
        )?;
        within(
            "the error of the length in mm",
            self.length_error_mm,
            (0.0, self.length_mm),
            hint,
        )?;
        let hint = "let it swing a little only: to 10 degrees there is hardly a difference";
        within(
            "the swing to one side in degrees",
            self.swing_degrees,
            (0.0, 60.0),
            hint,
        )?;
        let hint = "gravity is 9.78 at the equator and 9.83 at the poles";
        within("gravity in m/s²", self.gravity, (9.7, 9.9), hint)?;
        counted("the frames counted", self.frames, 2.0)?;
        counted("the swings counted", self.swings, 0.5)?;
        may_be_off("the error of the frames", self.frames_error)?;
        let swing = self.swing_seconds();
        let speed = self.frames / (self.swings * swing);
        let off = self.frames_error / self.frames + self.length_error_mm / self.length_mm / 2.0;
        let sums = vec![
            OpenedSum {
                what: "time of a swing",
                formula: "2π × √(length ÷ gravity) × (1 + θ² ÷ 16 + 11 θ⁴ ÷ 3072)",
                figures: format!(
                    "2π × √({} ÷ {}) with θ = {}°",
                    figure(self.length_mm / 1000.0, 4),
                    figure(self.gravity, 4),
                    figure(self.swing_degrees, 1)
                ),
                comes: format!("{} s", figure(swing, 4)),
                source: "a small weight on a thread; gravity as ISO 80000-3 has it unless said",
            },
            OpenedSum {
                what: "speed by the pendulum",
                formula: "frames ÷ (swings × time of a swing)",
                figures: format!(
                    "{} ÷ ({} × {})",
                    figure(self.frames, 1),
                    figure(self.swings, 2),
                    figure(swing, 4)
                ),
                comes: with_error(speed, speed * off),
                source: "how far it may be off: frames miscounted ÷ frames, and half the share by which the length may be",
            },
        ];
        Ok(SpeedSeen {
            way: "pendulum",
            speed,
            error: speed * off,
            also: Vec::new(),
            sums,
        })
    }
}
