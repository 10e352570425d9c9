//! Small helps for moving paper: easing and swinging.

/// 0 before `from`, 1 after `to`, softly between.
pub(crate) fn ease(from: f32, to: f32, at: f32) -> f32 {
    let part = ((at - from) / (to - from)).clamp(0.0, 1.0);
    part * part * (3.0 - 2.0 * part)
}

/// 1 between `from` and `to`, softly rising and falling over `soft` frames.
pub(crate) fn bump(from: f32, to: f32, soft: f32, at: f32) -> f32 {
    ease(from - soft, from, at) * (1.0 - ease(to, to + soft, at))
}

/// The way from `a` to `b` at `part`.
pub(crate) fn mix(a: f32, b: f32, part: f32) -> f32 {
    a + (b - a) * part
}

/// The way between two places.
pub(crate) fn mix2(a: (f32, f32), b: (f32, f32), part: f32) -> (f32, f32) {
    (mix(a.0, b.0, part), mix(a.1, b.1, part))
}
