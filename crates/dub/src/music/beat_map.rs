//! Where the beats of a music fall under a sequence of the picture.

use crate::DubError;
use crate::dub_error::positive;

/// Frames a beat at the true speed of the projector.
///
/// # Errors
/// [`DubError::NotPositive`].
pub fn frames_per_beat(true_speed: f64, beats_a_minute: f64) -> Result<f64, DubError> {
    let speed = positive("the speed of the projector", true_speed)?;
    Ok(60.0 * speed / positive("the tempo, in beats a minute,", beats_a_minute)?)
}

/// Where beats fall, counted in frames from the head of a sequence. Beat 0 begins bar 1;
/// what lies before it has negative numbers. Before the first beat that was heard, and behind
/// the last, the music is taken to go on at its tempo.
#[derive(Debug, Clone, PartialEq)]
pub struct BeatMap {
    places: Vec<f64>,
    first_bar: usize,
    in_a_bar: u32,
    beat: f64,
}

impl BeatMap {
    /// Even beats; bar 1 begins with the sequence.
    ///
    /// # Errors
    /// [`DubError::NotPositive`].
    pub fn even(true_speed: f64, tempo: f64, in_a_bar: u32) -> Result<Self, DubError> {
        Self::heard(vec![0.0], 0, in_a_bar, frames_per_beat(true_speed, tempo)?)
    }

    /// Beats as they were heard, in order, as frames from the head of the sequence; which of
    /// them begins bar 1; and how many frames a beat has where none was heard.
    ///
    /// # Errors
    /// [`DubError::NotPositive`] for beats that do not follow one another, too.
    pub fn heard(
        places: Vec<f64>,
        first_bar: usize,
        in_a_bar: u32,
        beat: f64,
    ) -> Result<Self, DubError> {
        positive("beats a bar", f64::from(in_a_bar))?;
        positive("frames a beat", beat)?;
        positive("the count of beats", places.len() as f64)?;
        for two in places.windows(2) {
            positive("the time from beat to beat", two[1] - two[0])?;
        }
        Ok(Self {
            places,
            first_bar,
            in_a_bar,
            beat,
        })
    }

    /// Beats a bar.
    #[must_use]
    pub const fn in_a_bar(&self) -> u32 {
        self.in_a_bar
    }

    /// Frames a beat where none was heard.
    #[must_use]
    pub const fn frames_a_beat(&self) -> f64 {
        self.beat
    }

    /// Where a beat falls. Unit: frames from the head of the sequence.
    #[must_use]
    pub fn place(&self, beat: i64) -> f64 {
        let nth = beat + self.first_bar as i64;
        let last = self.places.len() as i64 - 1;
        let known = self.places[nth.clamp(0, last) as usize];
        known + (nth - nth.clamp(0, last)) as f64 * self.beat
    }

    /// Where a bar ends and the next begins: 1 is the end of bar 1.
    #[must_use]
    pub fn bar(&self, bar: i64) -> f64 {
        self.place(bar * i64::from(self.in_a_bar))
    }

    /// How many beats have gone at a frame since bar 1 began.
    #[must_use]
    pub fn beats_at(&self, frame: f64) -> f64 {
        let last = self.places.len() - 1;
        let behind = self.places.partition_point(|place| *place <= frame);
        let (before, length) = match behind {
            0 => (0, self.beat),
            behind if behind > last => (last, self.beat),
            behind => (behind - 1, self.places[behind] - self.places[behind - 1]),
        };
        before as f64 + (frame - self.places[before]) / length - self.first_bar as f64
    }

    /// How far a frame lies behind the nearest beat; negative before it. Unit: frames.
    #[must_use]
    pub fn off_beat(&self, frame: i64) -> f64 {
        let at = frame as f64;
        let before = self.beats_at(at).floor() as i64;
        let off = |beat| at - self.place(beat);
        let (behind, ahead) = (off(before), off(before + 1));
        if behind.abs() <= ahead.abs() {
            behind
        } else {
            ahead
        }
    }
}
