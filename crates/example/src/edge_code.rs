//! A frame's own number, printed in its frame line so that a machine can read it.
//!
//! Forty-eight light and dark blocks stand in the black bar under the picture,
//! like a printed edge number. A test reads them to prove that a picture is
//! the frame it claims to be. From left to right, first bit highest:
//!
//! | blocks | meaning |
//! |---|---|
//! | 0–7 | sync word [`SYNC_HEAD`] |
//! | 8–11 | roll, 0 to 15 |
//! | 12–25 | frame, 0 to 16,383 |
//! | 26–41 | CRC-16 of roll and frame |
//! | 42–47 | sync word [`SYNC_TAIL`] |
//!
//! All sizes are in parts of the picture, so any size of picture carries the
//! same code. The reader looks for the blocks a few pixels about where they
//! belong (gate weave), judges light against dark by the picture's own values
//! (fog, exposure) and believes nothing whose sync words and check fail.

/// Blocks of one code.
pub const BLOCKS: usize = 48;
/// Highest roll number a code can hold.
pub const MAX_ROLL: u8 = 15;
/// Highest frame number a code can hold.
pub const MAX_FRAME: u32 = (1 << 14) - 1;
/// The eight blocks every code begins with.
pub const SYNC_HEAD: u64 = 0b1101_0011;
/// The six blocks every code ends with.
pub const SYNC_TAIL: u64 = 0b01_0110;

/// Height of one black bar as a part of the frame's pitch.
///
/// Source: Super 8 pitch 4.234 mm, camera gate 4.01 mm high (gauge table of the
/// project); the rest is shared by the bars above and below.
pub const BAR: f64 = (1.0 - 4.01 / 4.234) / 2.0;

// Left edge of the first block and width of a block, in parts of the width.
const CODE_LEFT: f64 = 0.05;
const BLOCK_WIDTH: f64 = 0.9 / BLOCKS as f64;
// Height of a block in parts of the pitch: 7 of 480 lines.
const BLOCK_HEIGHT: f64 = 7.0 / 480.0;
// How far the reader looks about the place where the code belongs, pixels.
const WEAVE: i32 = 5;
// Least difference of light and dark blocks, code values of 255.
const LEAST_CONTRAST: f32 = 24.0;

/// Where one block stands, in pixels: left, top, right, bottom (half-open).
#[must_use]
pub fn block_rect(index: usize, width: u32, height: u32) -> (u32, u32, u32, u32) {
    let (w, h) = (f64::from(width), f64::from(height));
    let left = w * (CODE_LEFT + BLOCK_WIDTH * index as f64);
    let right = w * (CODE_LEFT + BLOCK_WIDTH * (index + 1) as f64);
    let middle = h * (1.0 - BAR / 2.0);
    let half = h * BLOCK_HEIGHT / 2.0;
    (
        left.round() as u32,
        (middle - half).round() as u32,
        right.round() as u32,
        (middle + half).round() as u32,
    )
}

/// The blocks of a frame's number; bit 47 is the leftmost block, 1 is light.
///
/// Roll and frame beyond [`MAX_ROLL`] and [`MAX_FRAME`] are cut to their low bits.
#[must_use]
pub fn code_word(roll: u8, frame: u32) -> u64 {
    let payload = (u64::from(roll & MAX_ROLL) << 14) | u64::from(frame & MAX_FRAME);
    (SYNC_HEAD << 40) | (payload << 22) | (u64::from(crc16(payload)) << 6) | SYNC_TAIL
}

/// Reads the number back from a code word; `None` when sync or check is wrong.
#[must_use]
pub fn decode_word(word: u64) -> Option<(u8, u32)> {
    let payload = (word >> 22) & 0x3_FFFF;
    let roll = (payload >> 14) as u8;
    let frame = (payload & u64::from(MAX_FRAME)) as u32;
    (code_word(roll, frame) == word).then_some((roll, frame))
}

/// Reads the frame number from a plane of luma, one byte a pixel.
///
/// `stride`: bytes from one line to the next. Gives roll and frame, or `None`
/// when no sound code is found, or the plane is shorter than it should be.
#[must_use]
pub fn read_edge_code(luma: &[u8], width: u32, height: u32, stride: usize) -> Option<(u8, u32)> {
    let plane = Plane {
        bytes: luma,
        stride,
        step: 1,
        width,
        height,
    };
    read(&plane)
}

/// Reads the frame number from an RGB24 picture.
///
/// `stride`: bytes from one line to the next. See [`read_edge_code`].
#[must_use]
pub fn read_edge_code_rgb(rgb: &[u8], width: u32, height: u32, stride: usize) -> Option<(u8, u32)> {
    // The blocks are grey, so green alone stands for luma.
    let plane = Plane {
        bytes: rgb.get(1..)?,
        stride,
        step: 3,
        width,
        height,
    };
    read(&plane)
}

/// Prints a frame number into an RGB24 picture whose lower bar is already dark.
pub(crate) fn print(
    rgb: &mut [u8],
    step: usize,
    size: (u32, u32),
    number: (u8, u32),
    ink: [u8; 3],
) {
    let (width, height) = size;
    let word = code_word(number.0, number.1);
    for index in 0..BLOCKS {
        if word >> (BLOCKS - 1 - index) & 1 == 0 {
            continue;
        }
        let (left, top, right, bottom) = block_rect(index, width, height);
        for y in top..bottom.min(height) {
            for x in left..right.min(width) {
                let at = (y as usize * width as usize + x as usize) * step;
                rgb[at..at + 3].copy_from_slice(&ink);
            }
        }
    }
}

struct Plane<'a> {
    bytes: &'a [u8],
    stride: usize,
    step: usize,
    width: u32,
    height: u32,
}

impl Plane<'_> {
    fn value(&self, x: i32, y: i32) -> f32 {
        let x = x.clamp(0, self.width as i32 - 1) as usize;
        let y = y.clamp(0, self.height as i32 - 1) as usize;
        f32::from(self.bytes[y * self.stride + x * self.step])
    }

    fn is_whole(&self) -> bool {
        let (w, h) = (self.width as usize, self.height as usize);
        w >= BLOCKS * 4
            && h >= 64
            && self.stride >= w * self.step
            && self.bytes.len() > (h - 1) * self.stride + (w - 1) * self.step
    }
}

fn read(plane: &Plane<'_>) -> Option<(u8, u32)> {
    if !plane.is_whole() {
        return None;
    }
    // Nearest places first: most frames are found at once.
    let mut places: Vec<(i32, i32)> = (-WEAVE..=WEAVE)
        .flat_map(|dy| (-WEAVE..=WEAVE).map(move |dx| (dx, dy)))
        .collect();
    places.sort_by_key(|(dx, dy)| dx * dx + dy * dy);
    places.into_iter().find_map(|place| read_at(plane, place))
}

/// Tries to read the code moved by `(dx, dy)` pixels.
fn read_at(plane: &Plane<'_>, (dx, dy): (i32, i32)) -> Option<(u8, u32)> {
    let mut values = [0.0_f32; BLOCKS];
    for (index, value) in values.iter_mut().enumerate() {
        *value = block_value(plane, index, dx, dy);
    }
    let word = judge(&values)?;
    decode_word(word).or_else(|| decode_word(judge_on_slopes(&values, word)))
}

/// Light against dark, each block among its twenty neighbours.
///
/// Light leaks in unevenly, so one limit for the whole code will not do; twenty
/// blocks always hold both, since the longest run of one kind is shorter.
fn judge(values: &[f32; BLOCKS]) -> Option<u64> {
    let mut word = 0_u64;
    for index in 0..BLOCKS {
        let first = index.saturating_sub(10).min(BLOCKS - 21);
        let near = &values[first..first + 21];
        let low = near.iter().copied().fold(f32::MAX, f32::min);
        let high = near.iter().copied().fold(f32::MIN, f32::max);
        if high - low < LEAST_CONTRAST {
            return None;
        }
        word = word << 1 | u64::from(values[index] > f32::midpoint(low, high));
    }
    Some(word)
}

/// Judges again along a slope of light and a slope of dark, where a leak is
/// steeper than the code's own contrast.
fn judge_on_slopes(values: &[f32; BLOCKS], first: u64) -> u64 {
    let mut word = first;
    for _ in 0..4 {
        let light = slope(values, word, 1);
        let dark = slope(values, word, 0);
        let (Some(light), Some(dark)) = (light, dark) else {
            return word;
        };
        word = values.iter().enumerate().fold(0, |word, (index, value)| {
            let x = index as f32;
            let limit = f32::midpoint(light.0 + light.1 * x, dark.0 + dark.1 * x);
            word << 1 | u64::from(*value > limit)
        });
    }
    word
}

/// Straight line through the blocks of one kind: value at block 0, and by block.
fn slope(values: &[f32; BLOCKS], word: u64, kind: u64) -> Option<(f32, f32)> {
    let of_kind = || {
        values
            .iter()
            .enumerate()
            .filter(move |(index, _)| word >> (BLOCKS - 1 - index) & 1 == kind)
            .map(|(index, value)| (index as f32, *value))
    };
    let count = of_kind().count() as f32;
    if count < 4.0 {
        return None;
    }
    let mean_x = of_kind().map(|(x, _)| x).sum::<f32>() / count;
    let mean_v = of_kind().map(|(_, v)| v).sum::<f32>() / count;
    let spread = of_kind().map(|(x, _)| (x - mean_x).powi(2)).sum::<f32>();
    let both = of_kind()
        .map(|(x, v)| (x - mean_x) * (v - mean_v))
        .sum::<f32>();
    let by_block = both / spread.max(1.0);
    Some((mean_v - by_block * mean_x, by_block))
}

/// Mean of the inner part of a block.
fn block_value(plane: &Plane<'_>, index: usize, dx: i32, dy: i32) -> f32 {
    let (left, top, right, bottom) = block_rect(index, plane.width, plane.height);
    let trim_x = ((right - left) / 4) as i32;
    let trim_y = ((bottom - top) / 4) as i32;
    let (mut sum, mut count) = (0.0, 0.0);
    for y in top as i32 + trim_y..bottom as i32 - trim_y {
        if y + dy >= plane.height as i32 {
            continue;
        }
        for x in left as i32 + trim_x..right as i32 - trim_x {
            sum += plane.value(x + dx, y + dy);
            count += 1.0;
        }
    }
    if count > 0.0 { sum / count } else { 0.0 }
}

/// CRC-16 of the 18 bits of a number.
///
/// Polynomial x¹⁶ + x¹² + x⁵ + 1, start all ones (ITU-T V.41 polynomial; from
/// memory).
fn crc16(payload: u64) -> u16 {
    let mut crc = 0xFFFF_u16;
    for bit in (0..18).rev() {
        let carry = (crc >> 15) ^ ((payload >> bit) & 1) as u16;
        crc <<= 1;
        if carry == 1 {
            crc ^= 0x1021;
        }
    }
    crc
}

#[cfg(test)]
mod tests;
