//! How the pixels of a full-size frame lie in memory.

use std::fmt;

/// A layout of pixels that frames are delivered in.
///
/// Named as FFmpeg names it. All planes lie one after another, rows without
/// padding; samples wider than 8 bits are little-endian.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct PixelLayout(&'static Entry);

#[derive(Debug, PartialEq, Eq, Hash)]
struct Entry {
    name: &'static str,
    bits: u32,
    shape: Shape,
}

#[derive(Debug, PartialEq, Eq, Hash)]
enum Shape {
    /// So many samples a pixel, side by side or in planes.
    Full(u32),
    /// One plane of luma and two of colour, halved by shifting right, and
    /// perhaps a full plane of transparency.
    Subsampled { across: u32, down: u32, alpha: u32 },
}

/// Source: FFmpeg's libavutil/pixfmt.h, where each name is described.
const TABLE: &[Entry] = &[
    full("gray", 8, 1),
    full("gray10le", 10, 1),
    full("gray12le", 12, 1),
    full("gray14le", 14, 1),
    full("gray16le", 16, 1),
    full("ya8", 8, 2),
    full("ya16le", 16, 2),
    full("rgb24", 8, 3),
    full("rgba", 8, 4),
    full("rgb48le", 16, 3),
    full("rgba64le", 16, 4),
    full("gbrp", 8, 3),
    full("gbrp9le", 9, 3),
    full("gbrp10le", 10, 3),
    full("gbrp12le", 12, 3),
    full("gbrp14le", 14, 3),
    full("gbrp16le", 16, 3),
    full("gbrap", 8, 4),
    full("gbrap10le", 10, 4),
    full("gbrap12le", 12, 4),
    full("gbrap16le", 16, 4),
    halved("yuv420p", 8, 1, 1, 0),
    halved("yuv422p", 8, 1, 0, 0),
    halved("yuv444p", 8, 0, 0, 0),
    halved("yuvj420p", 8, 1, 1, 0),
    halved("yuvj422p", 8, 1, 0, 0),
    halved("yuvj444p", 8, 0, 0, 0),
    halved("yuv411p", 8, 2, 0, 0),
    halved("yuv420p10le", 10, 1, 1, 0),
    halved("yuv422p10le", 10, 1, 0, 0),
    halved("yuv444p10le", 10, 0, 0, 0),
    halved("yuv420p12le", 12, 1, 1, 0),
    halved("yuv422p12le", 12, 1, 0, 0),
    halved("yuv444p12le", 12, 0, 0, 0),
    halved("yuv420p16le", 16, 1, 1, 0),
    halved("yuv422p16le", 16, 1, 0, 0),
    halved("yuv444p16le", 16, 0, 0, 0),
    halved("yuva420p", 8, 1, 1, 1),
    halved("yuva422p", 8, 1, 0, 1),
    halved("yuva444p", 8, 0, 0, 1),
    halved("yuva422p10le", 10, 1, 0, 1),
    halved("yuva444p10le", 10, 0, 0, 1),
    halved("yuva444p12le", 12, 0, 0, 1),
    halved("yuva444p16le", 16, 0, 0, 1),
];

const fn full(name: &'static str, bits: u32, samples: u32) -> Entry {
    Entry {
        name,
        bits,
        shape: Shape::Full(samples),
    }
}

const fn halved(name: &'static str, bits: u32, across: u32, down: u32, alpha: u32) -> Entry {
    Entry {
        name,
        bits,
        shape: Shape::Subsampled {
            across,
            down,
            alpha,
        },
    }
}

impl PixelLayout {
    /// The layout of this FFmpeg name, if it is in the table.
    #[must_use]
    pub fn from_name(name: &str) -> Option<Self> {
        TABLE.iter().find(|entry| entry.name == name).map(Self)
    }

    /// The layout in which a file's own `pix_fmt` is delivered: itself where it
    /// is in the table, else the listed one that holds at least as many bits
    /// and as fine a colour.
    ///
    /// ```
    /// # use onestrand_intake::PixelLayout;
    /// assert_eq!(PixelLayout::nearest("yuv422p10le").name(), "yuv422p10le");
    /// assert_eq!(PixelLayout::nearest("rgb48be").name(), "rgb48le");
    /// assert_eq!(PixelLayout::nearest("never heard of").name(), "rgb48le");
    /// ```
    #[must_use]
    pub fn nearest(pix_fmt: &str) -> Self {
        if let Some(own) = Self::from_name(pix_fmt) {
            return own;
        }
        // The same samples in the other byte order: nothing is lost.
        let other_order = pix_fmt
            .strip_suffix("be")
            .and_then(|stem| Self::from_name(&format!("{stem}le")));
        let stand_in = match pix_fmt {
            "monob" | "monow" => "gray",
            "gray9le" | "gray9be" => "gray10le",
            "nv12" | "nv21" | "yuv410p" | "uyyvyy411" => "yuv420p",
            "yuyv422" | "uyvy422" | "yvyu422" | "nv16" | "nv20le" | "yuv440p" => "yuv444p",
            "yuvj440p" => "yuvj444p",
            "yuvj411p" => "yuvj422p",
            "p010le" | "p010be" | "yuv420p9le" | "yuv420p9be" => "yuv420p10le",
            "p016le" | "yuv420p14le" | "yuv420p14be" => "yuv420p16le",
            "yuv422p9le" | "yuv422p9be" | "y210le" | "p210le" => "yuv422p10le",
            "yuv422p14le" | "yuv422p14be" => "yuv422p16le",
            "yuv444p9le" | "yuv444p9be" | "yuv440p10le" => "yuv444p10le",
            "yuv440p12le" => "yuv444p12le",
            "yuv444p14le" | "yuv444p14be" => "yuv444p16le",
            "bgr24" | "bgr0" | "rgb0" | "0rgb" | "0bgr" | "bgr8" | "rgb8" | "rgb565le"
            | "rgb555le" => "rgb24",
            "bgra" | "argb" | "abgr" | "pal8" => "rgba",
            "bgra64le" | "bgra64be" => "rgba64le",
            _ => "rgb48le",
        };
        other_order
            .or_else(|| Self::from_name(stand_in))
            .expect("every stand-in is in the table")
    }

    /// FFmpeg's name of the layout.
    #[must_use]
    pub fn name(self) -> &'static str {
        self.0.name
    }

    /// Bits of a sample that count, 8 to 16.
    #[must_use]
    pub fn bits(self) -> u32 {
        self.0.bits
    }

    /// Whether there is no colour in it.
    #[must_use]
    pub fn is_gray(self) -> bool {
        matches!(self.0.shape, Shape::Full(1 | 2))
    }

    /// Bytes of one frame of `width` × `height` pixels; odd sides round the
    /// colour planes up, as FFmpeg does.
    #[must_use]
    pub fn frame_bytes(self, width: u32, height: u32) -> u64 {
        let (w, h) = (u64::from(width), u64::from(height));
        let samples = match self.0.shape {
            Shape::Full(samples) => w * h * u64::from(samples),
            Shape::Subsampled {
                across,
                down,
                alpha,
            } => {
                let part = |length: u64, shift: u32| (length + (1 << shift) - 1) >> shift;
                w * h * u64::from(1 + alpha) + 2 * part(w, across) * part(h, down)
            }
        };
        samples * if self.0.bits > 8 { 2 } else { 1 }
    }

    /// The planes of one frame in order, each as bytes in a line and lines.
    ///
    /// ```
    /// # use onestrand_intake::PixelLayout;
    /// let layout = PixelLayout::from_name("yuv420p10le").expect("in the table");
    /// assert_eq!(layout.planes(6, 4), [(12, 4), (6, 2), (6, 2)]);
    /// ```
    #[must_use]
    pub fn planes(self, width: u32, height: u32) -> Vec<(usize, usize)> {
        let (w, h) = (width as usize, height as usize);
        let sample = if self.0.bits > 8 { 2 } else { 1 };
        match self.0.shape {
            // Of the layouts without halved colour only these lie in planes.
            Shape::Full(samples) if self.0.name.starts_with("gb") => {
                vec![(w * sample, h); samples as usize]
            }
            Shape::Full(samples) => vec![(w * samples as usize * sample, h)],
            Shape::Subsampled {
                across,
                down,
                alpha,
            } => {
                let part = |length: usize, shift: u32| length.div_ceil(1 << shift);
                let colour = (part(w, across) * sample, part(h, down));
                let mut planes = vec![(w * sample, h), colour, colour];
                planes.extend((0..alpha).map(|_| (w * sample, h)));
                planes
            }
        }
    }

    /// All layouts of the table.
    pub fn all() -> impl Iterator<Item = Self> {
        TABLE.iter().map(Self)
    }
}

impl fmt::Display for PixelLayout {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.0.name)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn bytes_of_frames_by_hand() {
        let bytes = |name, w, h| PixelLayout::from_name(name).unwrap().frame_bytes(w, h);
        assert_eq!(bytes("gray", 5, 3), 15);
        assert_eq!(bytes("yuv420p", 5, 3), 15 + 2 * 3 * 2);
        assert_eq!(bytes("yuv422p10le", 5, 3), (15 + 2 * 3 * 3) * 2);
        assert_eq!(bytes("yuv411p", 9, 1), 9 + 2 * 3);
        assert_eq!(bytes("rgb48le", 5, 3), 90);
        assert_eq!(bytes("gbrap16le", 5, 3), 120);
        assert_eq!(bytes("yuva444p16le", 5, 3), 120);
        for layout in PixelLayout::all() {
            let planes = layout.planes(9, 7);
            let sum: usize = planes.iter().map(|(line, lines)| line * lines).sum();
            assert_eq!(sum as u64, layout.frame_bytes(9, 7), "{layout}");
        }
    }
}
