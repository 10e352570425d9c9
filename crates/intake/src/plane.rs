//! The small grey plane on which a frame is measured.

use std::fmt;

/// A frame as 192 × 144 grey levels, whatever the shape of the original.
///
/// The shape is fixed, so that every measure costs the same and a threshold
/// means the same on every scan; a scan wider than 4:3 is squeezed, which no
/// difference between neighbours notices. Levels are full range: black 0,
/// white 255, also when the file stores 16 to 235. Filtered by area, so that
/// grain averages out instead of flickering.
#[derive(Clone, PartialEq, Eq)]
pub struct Plane(Vec<u8>);

impl Plane {
    /// Pixels across.
    pub const WIDTH: usize = 192;
    /// Pixels down.
    pub const HEIGHT: usize = 144;
    /// Bytes in a plane: one a pixel, row by row from the top.
    pub const BYTES: usize = Self::WIDTH * Self::HEIGHT;

    /// A plane from its bytes, or nothing when their number is not [`Plane::BYTES`].
    #[must_use]
    pub fn from_bytes(bytes: Vec<u8>) -> Option<Self> {
        (bytes.len() == Self::BYTES).then_some(Self(bytes))
    }

    /// All levels, row by row from the top.
    #[must_use]
    pub fn bytes(&self) -> &[u8] {
        &self.0
    }

    /// The bytes themselves, giving the plane away.
    #[must_use]
    pub fn into_bytes(self) -> Vec<u8> {
        self.0
    }

    /// The fingerprint of the levels, by which exact access knows the frame again.
    #[must_use]
    pub fn hash(&self) -> PlaneHash {
        PlaneHash::of(&self.0)
    }
}

impl fmt::Debug for Plane {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "Plane({})", self.hash())
    }
}

/// The first 64 bits of the BLAKE3 hash of a [`Plane`].
///
/// Wide enough to tell the frames of a roll apart, no seal against forgery.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct PlaneHash(u64);

impl PlaneHash {
    pub(crate) fn of(bytes: &[u8]) -> Self {
        let hash = blake3::hash(bytes);
        let mut first = [0; 8];
        first.copy_from_slice(&hash.as_bytes()[..8]);
        Self(u64::from_le_bytes(first))
    }

    /// The bits, for storing.
    #[must_use]
    pub fn to_bits(self) -> u64 {
        self.0
    }

    /// A hash stored before.
    #[must_use]
    pub fn from_bits(bits: u64) -> Self {
        Self(bits)
    }
}

impl fmt::Display for PlaneHash {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{:016x}", self.0)
    }
}
