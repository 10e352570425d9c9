//! sRGB and the light it stands for (IEC 61966-2-1).

use std::sync::OnceLock;

/// Steps of the table from light back to sRGB; fine enough that every 8-bit level
/// comes back as itself.
const STEPS: usize = 16_384;

pub(crate) struct Tables {
    linear: [f32; 256],
    srgb: Vec<u8>,
}

impl Tables {
    /// Light of an 8-bit level, 0 to 1.
    pub(crate) fn linear(&self, level: u8) -> f32 {
        self.linear[usize::from(level)]
    }

    /// The 8-bit level of some light; more than white is white.
    pub(crate) fn srgb(&self, light: f32) -> u8 {
        let at = (light.clamp(0.0, 1.0) * (STEPS - 1) as f32 + 0.5) as usize;
        self.srgb[at.min(STEPS - 1)]
    }
}

/// The tables, made once.
pub(crate) fn tables() -> &'static Tables {
    static TABLES: OnceLock<Tables> = OnceLock::new();
    TABLES.get_or_init(|| {
        let mut linear = [0.0; 256];
        for (level, light) in linear.iter_mut().enumerate() {
            *light = decoded(level as f64 / 255.0) as f32;
        }
        let srgb = (0..STEPS)
            .map(|step| (encoded(step as f64 / (STEPS - 1) as f64) * 255.0).round() as u8)
            .collect();
        Tables { linear, srgb }
    })
}

/// A factor of light that makes sense: not below nothing, and finite.
pub(crate) fn factor(given: f64) -> f32 {
    if given.is_finite() {
        given.clamp(0.0, 64.0) as f32
    } else {
        1.0
    }
}

/// IEC 61966-2-1, 5.2.
fn decoded(value: f64) -> f64 {
    if value <= 0.040_45 {
        value / 12.92
    } else {
        ((value + 0.055) / 1.055).powf(2.4)
    }
}

fn encoded(light: f64) -> f64 {
    if light <= 0.003_130_8 {
        light * 12.92
    } else {
        1.055 * light.powf(1.0 / 2.4) - 0.055
    }
}

/// Relative luminance as WCAG 2 has it, from levels of sRGB.
pub(crate) fn luminance(rgb: &[u8]) -> f32 {
    let tables = tables();
    0.2126 * tables.linear(rgb[0]) + 0.7152 * tables.linear(rgb[1]) + 0.0722 * tables.linear(rgb[2])
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_level_comes_back() {
        for level in 0..=255 {
            assert_eq!(tables().srgb(tables().linear(level)), level);
        }
    }

    #[test]
    fn luminance_of_mid_grey_is_that_of_the_standard() {
        // sRGB 119 is the usual example of 18.4 % grey.
        assert!((luminance(&[119, 119, 119]) - 0.184).abs() < 0.001);
        assert!((luminance(&[255, 255, 255]) - 1.0).abs() < 1e-5);
    }
}
