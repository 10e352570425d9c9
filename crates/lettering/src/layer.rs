//! Lettering as pixels, and lettering laid over a ground.

use crate::light;

/// Lettering ready to be laid over a picture: straight (not premultiplied) sRGB
/// with alpha, and beside it how far each pixel belongs to the letters
/// themselves, without outline, shadow, plate and border.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Layer {
    pub(crate) width: u32,
    pub(crate) height: u32,
    pub(crate) rgba: Vec<u8>,
    pub(crate) letters: Vec<u8>,
    pub(crate) capital: u32,
    pub(crate) safe_rows: (u32, u32),
    /// Whether a plate would be a slip of paper with black letters on it.
    pub(crate) types_on_paper: bool,
}

impl Layer {
    /// Pixels across.
    #[must_use]
    pub fn width(&self) -> u32 {
        self.width
    }

    /// Pixels down.
    #[must_use]
    pub fn height(&self) -> u32 {
        self.height
    }

    /// Rows from the top, four bytes a pixel: red, green, blue, alpha; straight.
    #[must_use]
    pub fn rgba(&self) -> &[u8] {
        &self.rgba
    }

    /// Rows from the top, one byte a pixel: how far it belongs to a letter.
    #[must_use]
    pub fn letters(&self) -> &[u8] {
        &self.letters
    }

    /// Height of a capital. Unit: pixels.
    #[must_use]
    pub fn capital_height(&self) -> u32 {
        self.capital
    }
}

/// The layer over a ground of the same size, mixed in linear light as light on a
/// screen mixes. `ground_rgb` is 8-bit sRGB, three bytes a pixel, rows from the
/// top. `ground_light` multiplies the light of the ground (0.5 is one stop
/// darker), `letter_light` is how much of the lettering shows (0 to 1), so that a
/// fade is a row of calls.
///
/// # Panics
/// When the ground has another size than the layer.
#[must_use]
pub fn laid_over(
    ground_rgb: &[u8],
    layer: &Layer,
    ground_light: f64,
    letter_light: f64,
) -> Vec<u8> {
    assert_eq!(
        ground_rgb.len() * 4,
        layer.rgba.len() * 3,
        "the ground is as large as the layer"
    );
    let ground_light = light::factor(ground_light);
    let shows = letter_light.clamp(0.0, 1.0) as f32;
    let tables = light::tables();
    let untouched: Vec<u8> = (0..=255_u8)
        .map(|level| tables.srgb(tables.linear(level) * ground_light))
        .collect();
    let mut out = Vec::with_capacity(ground_rgb.len());
    for (ground, over) in ground_rgb.chunks_exact(3).zip(layer.rgba.chunks_exact(4)) {
        if over[3] == 0 {
            out.extend(ground.iter().map(|level| untouched[usize::from(*level)]));
            continue;
        }
        let covers = f32::from(over[3]) / 255.0 * shows;
        for (below, above) in ground.iter().zip(&over[..3]) {
            let below = tables.linear(*below) * ground_light;
            let mixed = below + (tables.linear(*above) - below) * covers;
            out.push(tables.srgb(mixed));
        }
    }
    out
}
