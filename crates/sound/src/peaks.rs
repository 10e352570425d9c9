//! The outline of a sound: for every 256 samples the lowest and the highest.

/// Samples in a bucket.
pub const BUCKET: usize = 256;

/// What the saved form begins with.
const MARK: &[u8; 8] = b"OSPEAKS1";

/// The outline of a sound at 48 kHz, all its channels together.
#[derive(Debug, Clone, Default, PartialEq)]
pub struct Peaks {
    /// Lowest and highest of each bucket. Unit: 1/32767 of full scale.
    buckets: Vec<(i16, i16)>,
    open: Option<(f32, f32, usize)>,
}

fn short(sample: f32) -> i16 {
    (sample.clamp(-1.0, 1.0) * 32_767.0).round() as i16
}

impl Peaks {
    /// Takes samples in; what is no number counts as silence, channels side by side.
    pub fn add(&mut self, samples: &[f32], channels: usize) {
        for frame in samples.chunks(channels.max(1)) {
            let (low, high) = frame
                .iter()
                .map(|s| if s.is_finite() { *s } else { 0.0 })
                .fold((f32::MAX, f32::MIN), |(l, h), s| (l.min(s), h.max(s)));
            let (lowest, highest, count) = self.open.unwrap_or((low, high, 0));
            let bucket = (lowest.min(low), highest.max(high), count + 1);
            if bucket.2 == BUCKET {
                self.buckets.push((short(bucket.0), short(bucket.1)));
                self.open = None;
            } else {
                self.open = Some(bucket);
            }
        }
    }

    /// The sound is over.
    pub fn finish(&mut self) {
        if let Some((low, high, _)) = self.open.take() {
            self.buckets.push((short(low), short(high)));
        }
    }

    /// How many buckets there are.
    #[must_use]
    pub fn buckets(&self) -> usize {
        self.buckets.len()
    }

    /// The highest that any sample is from 0. Unit: of full scale.
    #[must_use]
    pub fn peak(&self) -> f64 {
        let far = |b: &(i16, i16)| b.0.unsigned_abs().max(b.1.unsigned_abs());
        f64::from(self.buckets.iter().map(far).max().unwrap_or(0)) / 32_767.0
    }

    /// The outline from one sample to another, in so many columns: lowest and highest of
    /// each, in 1/127 of full scale. A column that lies behind the end is nothing.
    #[must_use]
    pub fn columns(&self, first: u64, count: u64, width: usize) -> Vec<(i8, i8)> {
        let bucket = BUCKET as u64;
        let mut columns = Vec::with_capacity(width);
        for nth in 0..width as u64 {
            let from = first + count * nth / width as u64;
            let to = (first + count * (nth + 1) / width as u64).max(from + 1);
            let from = usize::try_from(from / bucket).unwrap_or(usize::MAX);
            let to = usize::try_from(to.div_ceil(bucket)).unwrap_or(usize::MAX);
            let here = self
                .buckets
                .get(from.min(self.buckets.len())..to.min(self.buckets.len()));
            let both = here.unwrap_or(&[]).iter();
            let both = both.fold(None, |both: Option<(i16, i16)>, b| {
                Some(both.map_or(*b, |(l, h)| (l.min(b.0), h.max(b.1))))
            });
            let small = |s: i16| (f32::from(s) / 32_767.0 * 127.0).round() as i8;
            columns.push(both.map_or((0, 0), |(low, high)| (small(low), small(high))));
        }
        columns
    }

    /// As it is saved beside its sound.
    #[must_use]
    pub fn to_bytes(&self) -> Vec<u8> {
        let mut bytes = MARK.to_vec();
        for (low, high) in &self.buckets {
            bytes.extend_from_slice(&low.to_le_bytes());
            bytes.extend_from_slice(&high.to_le_bytes());
        }
        bytes
    }

    /// What [`Peaks::to_bytes`] saved; nothing when it is something else.
    #[must_use]
    pub fn from_bytes(bytes: &[u8]) -> Option<Self> {
        let (chunks, rest) = bytes.strip_prefix(MARK)?.as_chunks::<4>();
        if !rest.is_empty() {
            return None;
        }
        let one = |c: &[u8; 4]| {
            let (low, high) = ([c[0], c[1]], [c[2], c[3]]);
            (i16::from_le_bytes(low), i16::from_le_bytes(high))
        };
        Some(Self {
            buckets: chunks.iter().map(one).collect(),
            open: None,
        })
    }
}
