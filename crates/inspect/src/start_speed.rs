//! How fast the camera ran when a frame was over-exposed.

/// The speed at which the camera ran while a frame was taken that is `stops`
/// over the frames of the settled take, which it took at `settled` frames a
/// second. Unit: frames a second.
///
/// A camera that comes to speed holds its shutter open longer, in the same
/// proportion as it runs slower: one stop over is half the speed.
///
/// # Examples
/// ```
/// use onestrand_inspect::speed_at_start;
/// // 1.2 stops over: open 2.30 times as long, so 7.8 frames a second of 18.
/// assert!((speed_at_start(1.2, 18.0) - 7.835).abs() < 0.001);
/// ```
#[must_use]
pub fn speed_at_start(stops: f32, settled: f64) -> f64 {
    settled / f64::from(stops).exp2()
}
