//! The range that holds 95 of 100, also where several readings are possible.

/// Of a normal distribution 95 of 100 lie within so many standard deviations.
pub(crate) const NORMAL_95: f64 = 1.96;

/// One reading of several.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Part {
    /// Its share of belief.
    pub(crate) share: f64,
    /// How far its middle lies from the one that is told. Unit: frames.
    pub(crate) off: f64,
    /// Its standard deviation. Unit: frames.
    pub(crate) deviation: f64,
}

/// Half the range about the one that is told that holds 95 of 100 over all of them.
pub(crate) fn half_range(parts: &[Part]) -> f64 {
    let sum: f64 = parts.iter().map(|part| part.share).sum();
    let inside = |half: f64| -> f64 {
        let each = parts.iter().map(|part| {
            let deviation = part.deviation.max(1e-9);
            let below = |edge: f64| portion((edge - part.off) / deviation);
            part.share * (below(half) - below(-half))
        });
        each.sum::<f64>() / sum
    };
    let far = parts
        .iter()
        .map(|part| part.off.abs() + 6.0 * part.deviation);
    let (mut low, mut high) = (0.0, far.fold(0.0, f64::max));
    for _ in 0..50 {
        let middle = 0.5 * (low + high);
        if inside(middle) < 0.95 {
            low = middle;
        } else {
            high = middle;
        }
    }
    high
}

/// The share of a normal distribution below z, within 1e-7 (Abramowitz and Stegun 26.2.17).
fn portion(z: f64) -> f64 {
    let t = 1.0 / (1.0 + 0.231_641_9 * z.abs());
    let sum = t
        * (0.319_381_530
            + t * (-0.356_563_782
                + t * (1.781_477_937 + t * (-1.821_255_978 + t * 1.330_274_429))));
    let tail = (-0.5 * z * z).exp() / (2.0 * std::f64::consts::PI).sqrt() * sum;
    if z > 0.0 { 1.0 - tail } else { tail }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_reading_has_the_usual_range() {
        let one = Part {
            share: 1.0,
            off: 0.0,
            deviation: 2.0,
        };
        assert!((half_range(&[one]) - 2.0 * NORMAL_95).abs() < 1e-3);
    }

    #[test]
    fn a_second_reading_is_inside_when_it_is_likely() {
        let of = |share, off| Part {
            share,
            off,
            deviation: 1.0,
        };
        let unlikely = half_range(&[of(0.99, 0.0), of(0.01, 100.0)]);
        assert!((2.0..2.1).contains(&unlikely), "{unlikely}");
        let likely = half_range(&[of(0.8, 0.0), of(0.2, 100.0)]);
        assert!((100.0..103.0).contains(&likely), "{likely}");
    }
}
