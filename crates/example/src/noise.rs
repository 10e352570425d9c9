//! Chance that always falls the same way: every number is worked out from its
//! place alone, so a frame looks the same whoever paints it and when.

/// Mixes a whole number into another that looks random.
///
/// The constants are those of the widely used "splitmix" finisher, from memory.
pub(crate) fn hash(value: u64) -> u64 {
    let mut z = value.wrapping_add(0x9E37_79B9_7F4A_7C15);
    z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
    z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
    z ^ (z >> 31)
}

/// A number of [0, 1) from two places.
pub(crate) fn unit(seed: u64, index: u64) -> f32 {
    (hash(hash(seed) ^ index) >> 40) as f32 / (1_u64 << 24) as f32
}

/// A number of [-1, 1) from two places.
pub(crate) fn signed(seed: u64, index: u64) -> f32 {
    unit(seed, index) * 2.0 - 1.0
}

/// A smooth wandering of [-1, 1] along `at`, new about every whole step.
pub(crate) fn wander(seed: u64, at: f32) -> f32 {
    let floor = at.floor();
    let part = at - floor;
    let ease = part * part * (3.0 - 2.0 * part);
    let index = floor as i64 as u64;
    let a = signed(seed, index);
    let b = signed(seed, index.wrapping_add(1));
    a + (b - a) * ease
}
