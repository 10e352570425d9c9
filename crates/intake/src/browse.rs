//! The size of browsing pictures.

use crate::Ratio;

/// Size of a browsing picture in pixels, both even.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct BrowseSize {
    /// Pixels across, 2 to 960.
    pub width: u32,
    /// Pixels down, 2 to 720.
    pub height: u32,
}

impl BrowseSize {
    /// The widest a browsing picture gets.
    pub const WIDTH_MOST: u32 = 960;
    /// The tallest a browsing picture gets.
    pub const HEIGHT_MOST: u32 = 720;

    /// The largest size within 960×720 that shows square pixels and enlarges
    /// in neither direction.
    pub(crate) fn fit(width: u32, height: u32, aspect: Ratio) -> Self {
        let (mut w, mut h) = (f64::from(width), f64::from(height));
        let stretch = aspect.num as f64 / aspect.den as f64;
        if stretch > 1.0 {
            h /= stretch;
        } else {
            w *= stretch;
        }
        let scale = (f64::from(Self::WIDTH_MOST) / w)
            .min(f64::from(Self::HEIGHT_MOST) / h)
            .min(1.0);
        // A hair is added so that 720.0 does not become 718 by rounding down.
        let even = |length: f64| ((length * scale + 0.01) as u32 / 2 * 2).max(2);
        Self {
            width: even(w),
            height: even(h),
        }
    }

    /// The same for frames woven of two fields: the height a multiple of four, so
    /// that the halved colour has as many lines of either field.
    pub(crate) fn woven(self) -> Self {
        Self {
            width: self.width,
            height: (self.height / 4 * 4).max(4),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: Ratio = Ratio { num: 1, den: 1 };

    #[test]
    fn browsing_sizes() {
        let fit = |w, h, aspect| {
            let size = BrowseSize::fit(w, h, aspect);
            (size.width, size.height)
        };
        assert_eq!(fit(1440, 1080, SQUARE), (960, 720));
        assert_eq!(fit(640, 480, SQUARE), (640, 480));
        assert_eq!(fit(4096, 3112, SQUARE), (946, 720));
        assert_eq!(fit(1920, 1080, SQUARE), (960, 540));
        assert_eq!(fit(720, 576, Ratio { num: 16, den: 15 }), (720, 540));
        assert_eq!(fit(720, 480, Ratio { num: 8, den: 9 }), (640, 480));
        assert_eq!(fit(33, 35, SQUARE), (32, 34));
        assert_eq!(fit(60_000, 32, SQUARE), (960, 2));
    }
}
