//! Light given to a picture at full size.

use crate::points::LOG_EXPOSURE_PER_POINT;
use crate::{LightError, Points, Transfer};

/// What becomes of each number of each colour.
#[derive(Debug, Clone)]
pub struct LightTables {
    /// Red, green, blue.
    tables: [Vec<u16>; 3],
    /// First number of each colour that comes out at the top although it was below.
    blown_from: [u32; 3],
}

/// Numbers that met the top.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Blown {
    /// Numbers that would have gone above the top and were held there.
    pub numbers: u64,
    /// Numbers looked at.
    pub of: u64,
}

impl Blown {
    /// Both together.
    #[must_use]
    pub const fn and(self, other: Self) -> Self {
        Self {
            numbers: self.numbers + other.numbers,
            of: self.of + other.of,
        }
    }
}

const TOP: u16 = u16::MAX;

impl LightTables {
    /// Tables for points, and besides for all colours alike `more` light, as for flicker.
    ///
    /// Unit of `more`: log10 exposure.
    #[must_use]
    pub fn new(points: Points, more: f64, transfer: Transfer) -> Self {
        let logs = points
            .rgb()
            .map(|p| LOG_EXPOSURE_PER_POINT * f64::from(p) + more);
        // Flicker changes all colours alike, in every frame by another step.
        let red = table(logs[0], transfer);
        let of = |log: f64| match log.total_cmp(&logs[0]).is_eq() {
            true => red.clone(),
            false => table(log, transfer),
        };
        let (green, blue) = (of(logs[1]), of(logs[2]));
        let tables = [red, green, blue];
        let blown_from = std::array::from_fn(|colour| {
            if logs[colour] <= 0.0 {
                return u32::from(TOP) + 1;
            }
            let first = tables[colour].partition_point(|number| *number < TOP);
            // What was at the top already has lost nothing here.
            u32::try_from(first).unwrap_or(u32::MAX)
        });
        Self { tables, blown_from }
    }

    /// Gives the light to a picture of planes of 16 bits, low byte first, in the order
    /// green, blue, red (FFmpeg's `gbrp16le`), and counts what meets the top.
    ///
    /// # Errors
    /// [`LightError::PictureSize`]; then nothing is changed.
    pub fn apply(&self, planes: &mut [u8], width: u32, height: u32) -> Result<Blown, LightError> {
        let plane = plane_bytes(planes, width, height)?;
        let mut blown = Blown::default();
        for (bytes, colour) in planes.chunks_exact_mut(plane).zip(PLANE_ORDER) {
            blown = blown.and(self.apply_plane(bytes, colour));
        }
        Ok(blown)
    }

    fn apply_plane(&self, bytes: &mut [u8], colour: usize) -> Blown {
        let (table, from) = (&self.tables[colour], self.blown_from[colour]);
        let mut numbers = 0_u64;
        for number in bytes.chunks_exact_mut(2) {
            let was = u16::from_le_bytes([number[0], number[1]]);
            numbers += u64::from(u32::from(was) >= from && was < TOP);
            number.copy_from_slice(&table[usize::from(was)].to_le_bytes());
        }
        Blown {
            numbers,
            of: (bytes.len() / 2) as u64,
        }
    }

    /// The same on red, green and blue bytes, for a picture to look at.
    pub fn apply_bytes(&self, rgb: &mut [u8]) {
        for pixel in rgb.chunks_exact_mut(3) {
            for (byte, table) in pixel.iter_mut().zip(&self.tables) {
                let wide = usize::from(*byte) * 257;
                *byte = ((u32::from(table[wide]) + 128) / 257) as u8;
            }
        }
    }
}

/// Which colour each plane of `gbrp16le` is.
const PLANE_ORDER: [usize; 3] = [1, 2, 0];

/// Bytes of one plane, when the picture is as large as it is said to be.
pub(crate) fn plane_bytes(planes: &[u8], width: u32, height: u32) -> Result<usize, LightError> {
    let plane = width as usize * height as usize * 2;
    if planes.len() == plane * 3 && plane > 0 {
        return Ok(plane);
    }
    Err(LightError::PictureSize {
        found: planes.len() / 2,
        needed: plane / 2 * 3,
    })
}

fn table(log: f64, transfer: Transfer) -> Vec<u16> {
    let slope = 10_f64.powf(log);
    let top = f64::from(TOP);
    let is_same = log.abs() < 1e-9;
    (0..=TOP)
        .map(|number| {
            if is_same {
                return number;
            }
            let light = transfer.light(f64::from(number) / top) * slope;
            (transfer.number(light) * top).round().clamp(0.0, top) as u16
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn planes(green: u16, blue: u16, red: u16) -> Vec<u8> {
        [green, blue, red]
            .iter()
            .flat_map(|n| n.to_le_bytes().repeat(4))
            .collect()
    }

    fn at(planes: &[u8], plane: usize) -> u16 {
        u16::from_le_bytes([planes[plane * 8], planes[plane * 8 + 1]])
    }

    #[test]
    fn no_points_change_no_bit() {
        let all: Vec<u8> = (0..=TOP).flat_map(u16::to_le_bytes).collect();
        let mut picture = all.repeat(3);
        let tables = LightTables::new(Points::NONE, 0.0, Transfer::Television);
        let blown = tables.apply(&mut picture, 256, 256).expect("whole");
        assert_eq!(picture, all.repeat(3));
        assert_eq!(blown.numbers, 0);
    }

    /// Against the transfer's own formula, not by the table: each colour goes by its own.
    #[test]
    fn light_is_multiplied() {
        let points = Points::new(5, -3, 12).expect("in range");
        for transfer in [Transfer::Television, Transfer::Srgb, Transfer::Linear] {
            let mut picture = planes(20_000, 15_000, 25_000);
            let tables = LightTables::new(points, 0.0, transfer);
            tables.apply(&mut picture, 2, 2).expect("whole");
            let light = |n: u16| transfer.light(f64::from(n) / 65_535.0);
            let [red, green, blue] = points.slopes();
            for (plane, was, slope) in [(0, 20_000, green), (1, 15_000, blue), (2, 25_000, red)] {
                let ratio = light(at(&picture, plane)) / light(was);
                assert!(
                    (ratio / slope - 1.0).abs() < 2e-4,
                    "{transfer:?} {ratio} {slope}"
                );
            }
        }
    }

    #[test]
    fn what_meets_the_top_is_counted() {
        let mut picture = planes(60_000, 30_000, 65_535);
        let tables = LightTables::new(
            Points::new(12, 12, 12).expect("in range"),
            0.0,
            Transfer::Linear,
        );
        let blown = tables.apply(&mut picture, 2, 2).expect("whole");
        // Green doubles above the top; red was there before.
        assert_eq!(blown, Blown { numbers: 4, of: 12 });
        assert_eq!(at(&picture, 0), 65_535);
    }

    #[test]
    fn a_picture_of_another_size_is_refused_unchanged() {
        let mut picture = planes(1, 2, 3);
        let before = picture.clone();
        let tables = LightTables::new(
            Points::new(12, 0, 0).expect("in range"),
            0.0,
            Transfer::Srgb,
        );
        assert!(tables.apply(&mut picture, 3, 2).is_err());
        assert_eq!(picture, before);
    }
}
