//! A frame of film as a camera on a copy stand exposes it.

use crate::light;
use crate::{Layer, SetCard};

/// How much light the parts of one frame get: 1 is the right exposure.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct LightOn {
    /// The ground where no letter lies.
    pub ground: f64,
    /// The letters.
    pub letters: f64,
    /// Whether letters keep the ground off the film, as those of a cel do; those exposed
    /// a second time add to it.
    pub cover: bool,
}

/// Another picture on the same frame, and its light.
#[derive(Debug, Clone, Copy)]
pub struct Also<'a> {
    /// 8-bit sRGB, three bytes a pixel, as large as the ground.
    pub rgb: &'a [u8],
    /// 1 is the right exposure.
    pub light: f64,
}

/// A picture of three bytes a pixel and where its top left corner lies. Unit: pixels.
#[derive(Debug, Clone, Copy)]
pub struct Ground<'a> {
    /// 8-bit sRGB, rows from the top.
    pub rgb: &'a [u8],
    /// Pixels across and down.
    pub size: (u32, u32),
    /// From the top left of the frame; what it leaves free is black.
    pub at: (i32, i32),
}

impl Layer {
    /// A cel without lettering.
    #[must_use]
    pub fn clear(width: u32, height: u32) -> Self {
        let pixels = width as usize * height as usize;
        Self {
            width,
            height,
            rgba: vec![0; pixels * 4],
            letters: vec![0; pixels],
            capital: 0,
            safe_rows: (0, height),
            types_on_paper: false,
        }
    }
}

/// Rows of a crawl that are drawn at once. Unit: pixels.
const TILE: u32 = 2048;
/// What is drawn beyond them, so that shadows of letters there are not cut off. Unit:
/// pixels.
const BEYOND: u32 = 96;

impl SetCard {
    /// The whole lettering as one layer, as tall as it is, for a picture so wide: what a
    /// crawl moves through it. A border stands still in the picture and is not part of it.
    /// At most `most` rows. Unit: pixels.
    #[must_use]
    pub fn draw_whole(&self, width: u32, most: u32) -> Layer {
        let scale = f64::from(width) / self.aspect;
        let height = (scale * self.full_height)
            .ceil()
            .clamp(1.0, f64::from(most.max(1))) as u32;
        let mut card = self.clone();
        card.look.manner.border = false;
        let mut whole = Layer::clear(width, 0);
        let tile = TILE.max(scale.ceil() as u32);
        let drawn = tile + 2 * BEYOND;
        let row = width as usize;
        for first in (0..height).step_by(tile as usize) {
            // The middle of what is drawn lies on the middle of the aperture.
            let in_middle = (f64::from(drawn) - scale) / 2.0;
            let from_top = (in_middle - f64::from(BEYOND) + f64::from(first)) / scale;
            let layer = card.draw(width, drawn, from_top);
            let rows = tile.min(height - first) as usize;
            let begin = BEYOND as usize * row;
            let end = begin + rows * row;
            whole
                .rgba
                .extend_from_slice(&layer.rgba[4 * begin..4 * end]);
            whole.letters.extend_from_slice(&layer.letters[begin..end]);
            (whole.capital, whole.types_on_paper) = (layer.capital, layer.types_on_paper);
        }
        whole.height = height;
        whole.safe_rows = (0, height);
        whole
    }
}

impl Layer {
    /// The stroke of the letters where it is thin: of all runs of letter across and down
    /// the one that a tenth of the letters' pixels do not reach. Unit: pixels; none
    /// without letters.
    #[must_use]
    pub fn thin_stroke(&self) -> Option<f64> {
        let (width, height) = (self.width as usize, self.height as usize);
        let is_letter = |x: usize, y: usize| self.letters[y * width + x] >= 128;
        let mut narrow = vec![u32::MAX; width * height];
        for y in 0..height {
            runs(
                width,
                |x| is_letter(x, y),
                |x, run| narrow[y * width + x] = run,
            );
        }
        for x in 0..width {
            runs(
                height,
                |y| is_letter(x, y),
                |y, run| {
                    let known = &mut narrow[y * width + x];
                    *known = run.min(*known);
                },
            );
        }
        let mut all: Vec<u32> = narrow.into_iter().filter(|run| *run < u32::MAX).collect();
        let tenth = all.len() / 10;
        let thin = (!all.is_empty()).then(|| *all.select_nth_unstable(tenth).1)?;
        Some(f64::from(thin))
    }
}

/// Tells each place that is in a run how long the run is.
fn runs(count: usize, is_in: impl Fn(usize) -> bool, mut tell: impl FnMut(usize, u32)) {
    let mut at = 0;
    while at < count {
        let begin = at;
        while at < count && is_in(at) {
            at += 1;
        }
        for place in begin..at {
            tell(place, (at - begin) as u32);
        }
        at += 1;
    }
}

/// One frame as it is exposed, mixed in linear light: ground, letters that lie `letters_at`
/// (the top left of the layer, in pixels from that of the frame, parts of a pixel count),
/// and what else was exposed on it.
///
/// # Panics
/// When a picture is not as large as it is said to be.
#[must_use]
pub fn exposed(
    ground: Ground<'_>,
    layer: &Layer,
    letters_at: (f64, f64),
    light_on: LightOn,
    also: Option<Also<'_>>,
) -> Vec<u8> {
    let (width, height) = (ground.size.0 as usize, ground.size.1 as usize);
    assert_eq!(ground.rgb.len(), width * height * 3, "the ground's size");
    let letters = Letters::new(layer, letters_at);
    let tables = light::tables();
    let (of_ground, of_letters) = (light_on.ground as f32, light_on.letters as f32);
    let plain: Vec<u8> = (0..=255_u8)
        .map(|level| tables.srgb(tables.linear(level) * of_ground))
        .collect();
    let mut out = Vec::with_capacity(ground.rgb.len());
    for y in 0..height {
        for x in 0..width {
            let below = pixel(&ground, x, y);
            let [red, green, blue, covers] = letters.at(x, y);
            let is_bare = covers <= 0.0 || of_letters <= 0.0;
            if is_bare && also.is_none() {
                out.extend(below.map(|level| plain[usize::from(level)]));
                continue;
            }
            let stays = match light_on.cover {
                true => (of_ground - covers * of_letters).max(0.0),
                false => of_ground,
            };
            for (channel, above) in [red, green, blue].into_iter().enumerate() {
                let mut mixed = tables.linear(below[channel]) * stays + above * of_letters;
                if let Some(also) = &also {
                    let other = also.rgb[(y * width + x) * 3 + channel];
                    mixed += tables.linear(other) * also.light as f32;
                }
                out.push(tables.srgb(mixed.min(1.0)));
            }
        }
    }
    out
}

fn pixel(ground: &Ground<'_>, x: usize, y: usize) -> [u8; 3] {
    let (width, height) = (i64::from(ground.size.0), i64::from(ground.size.1));
    let (x, y) = (
        x as i64 - i64::from(ground.at.0),
        y as i64 - i64::from(ground.at.1),
    );
    if !(0..width).contains(&x) || !(0..height).contains(&y) {
        return [0; 3];
    }
    let at = ((y * width + x) * 3) as usize;
    [ground.rgb[at], ground.rgb[at + 1], ground.rgb[at + 2]]
}

/// The lettering where it lies, in linear light times how far it covers.
struct Letters<'a> {
    layer: &'a Layer,
    whole: (i64, i64),
    part: (f32, f32),
}

impl<'a> Letters<'a> {
    fn new(layer: &'a Layer, at: (f64, f64)) -> Self {
        let (left, top) = (at.0.floor(), at.1.floor());
        Self {
            layer,
            whole: (left as i64, top as i64),
            part: ((at.0 - left) as f32, (at.1 - top) as f32),
        }
    }

    /// Red, green, blue, each times the cover, and the cover.
    fn at(&self, x: usize, y: usize) -> [f32; 4] {
        let (x, y) = (x as i64 - self.whole.0, y as i64 - self.whole.1);
        if self.part == (0.0, 0.0) {
            return self.whole_pixel(x, y);
        }
        let (right, down) = self.part;
        let mut sum = [0.0; 4];
        for (dx, dy, share) in [
            (0, 0, (1.0 - right) * (1.0 - down)),
            (1, 0, right * (1.0 - down)),
            (0, 1, (1.0 - right) * down),
            (1, 1, right * down),
        ] {
            if share > 0.0 {
                let one = self.whole_pixel(x - dx, y - dy);
                for (sum, one) in sum.iter_mut().zip(one) {
                    *sum += one * share;
                }
            }
        }
        sum
    }

    fn whole_pixel(&self, x: i64, y: i64) -> [f32; 4] {
        let (width, height) = (i64::from(self.layer.width), i64::from(self.layer.height));
        if !(0..width).contains(&x) || !(0..height).contains(&y) {
            return [0.0; 4];
        }
        let at = ((y * width + x) * 4) as usize;
        let covers = f32::from(self.layer.rgba[at + 3]) / 255.0;
        if covers <= 0.0 {
            return [0.0; 4];
        }
        let tables = light::tables();
        let of = |channel: usize| tables.linear(self.layer.rgba[at + channel]) * covers;
        [of(0), of(1), of(2), covers]
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn layer() -> Layer {
        // One white letter of one pixel in the middle of three by three.
        let mut rgba = vec![0; 36];
        rgba[16..20].copy_from_slice(&[255, 255, 255, 255]);
        let mut letters = vec![0; 9];
        letters[4] = 255;
        Layer {
            width: 3,
            height: 3,
            rgba,
            letters,
            capital: 1,
            safe_rows: (0, 3),
            types_on_paper: false,
        }
    }

    const GREY: [u8; 27] = [128; 27];

    fn frame(at: (f64, f64), light: LightOn) -> Vec<u8> {
        let ground = Ground {
            rgb: &GREY,
            size: (3, 3),
            at: (0, 0),
        };
        let all = exposed(ground, &layer(), at, light, None);
        all.chunks(3).map(|p| p[0]).collect()
    }

    const WHOLE: LightOn = LightOn {
        ground: 1.0,
        letters: 1.0,
        cover: true,
    };

    #[test]
    fn a_letter_covers_the_ground_and_moves_by_parts_of_a_pixel() {
        let still = frame((0.0, 0.0), WHOLE);
        assert_eq!((still[4], still[0]), (255, 128));
        let down = frame((0.0, 1.0), WHOLE);
        assert_eq!((down[4], down[7]), (128, 255));
        let between = frame((0.0, 0.5), WHOLE);
        assert_eq!(between[4], between[7]);
        assert!(between[4] > 128 && between[4] < 255);
        let out = frame((9.0, -9.0), WHOLE);
        assert!(out.iter().all(|level| *level == 128));
    }

    #[test]
    fn a_crawl_is_drawn_whole_as_it_is_drawn_in_pictures() {
        let mut asked = crate::CardAsked::new(
            ["Ida", "Tom", "the ferryman", "and all the others"]
                .join("\n\n\n")
                .repeat(4),
            crate::Design::Plain,
            (5.31, 4.01),
        );
        asked.crawl = true;
        let card = crate::set(&asked).expect("set");
        assert!(card.full_height() > 2.0);
        let (width, height) = (531, 401);
        let whole = card.draw_whole(width, 60_000);
        assert_eq!(whole.height(), (401.0 * card.full_height()).ceil() as u32);
        for picture in 0..2_u32 {
            let one = card.draw(width, height, f64::from(picture));
            let from = (picture * height * width) as usize;
            let of_whole = &whole.letters()[from..from + one.letters().len()];
            let off = |(a, b): (&u8, &u8)| u64::from(a.abs_diff(*b));
            let apart: u64 = one.letters().iter().zip(of_whole).map(off).sum();
            let ink: u64 = one.letters().iter().map(|a| u64::from(*a)).sum();
            assert!(ink > 0 && apart * 200 < ink, "{apart} of {ink}");
        }
        assert_eq!(card.draw_whole(width, 50).height(), 50);
    }

    #[test]
    fn the_thin_stroke_is_that_of_the_narrow_side() {
        let mut bar = Layer::clear(40, 30);
        for y in 5..25 {
            for x in 10..13 {
                bar.letters[y * 40 + x] = 255;
            }
        }
        assert_eq!(bar.thin_stroke(), Some(3.0));
        assert_eq!(Layer::clear(4, 4).thin_stroke(), None);
    }

    #[test]
    fn light_is_halved_by_a_stop_and_second_exposures_add() {
        let dark = frame(
            (0.0, 0.0),
            LightOn {
                ground: 0.5,
                letters: 0.5,
                cover: true,
            },
        );
        // 128 is 0.216 of the light; half of it is 92 in sRGB (IEC 61966-2-1).
        assert_eq!(dark[0], 92);
        assert_eq!(dark[4], 188);
        let none = frame(
            (0.0, 0.0),
            LightOn {
                ground: 1.0,
                letters: 0.0,
                cover: false,
            },
        );
        assert!(none.iter().all(|level| *level == 128));
        let half = |cover| {
            frame(
                (0.0, 0.0),
                LightOn {
                    ground: 1.0,
                    letters: 0.5,
                    cover,
                },
            )[4]
        };
        assert!(half(false) > half(true), "what is not covered adds");
    }

    #[test]
    fn another_picture_comes_over_it_and_the_bench_is_black() {
        let ground = Ground {
            rgb: &GREY,
            size: (3, 3),
            at: (1, 0),
        };
        let other = [255; 27];
        let also = Some(Also {
            rgb: &other,
            light: 0.25,
        });
        let bare = LightOn {
            ground: 1.0,
            letters: 0.0,
            cover: false,
        };
        let shown = exposed(ground, &layer(), (0.0, 0.0), bare, also);
        // A quarter of the light is 137 in sRGB; on top of the grey it is more.
        assert_eq!(shown[0], 137);
        assert!(shown[3] > 137);
    }
}
