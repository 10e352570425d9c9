//! Measuring planes of painted frames, scaled as a reading scales them: by
//! area.

use onestrand_inspect::{PLANE_HEIGHT, PLANE_WIDTH};

/// A plane from RGB24 pixels of any size: BT.601 luma (ITU-R BT.601-7, 2.5.1),
/// each plane pixel the mean of the area it covers.
pub(crate) fn plane_of(rgb: &[u8], width: usize, height: usize) -> Vec<u8> {
    let luma: Vec<f32> = rgb
        .chunks_exact(3)
        .map(|p| 0.299 * f32::from(p[0]) + 0.587 * f32::from(p[1]) + 0.114 * f32::from(p[2]))
        .collect();
    let narrow: Vec<f32> = luma
        .chunks_exact(width)
        .flat_map(|row| shrunk(row, PLANE_WIDTH))
        .collect();
    let columns = (0..PLANE_WIDTH).map(|x| {
        let column: Vec<f32> = (0..height).map(|y| narrow[y * PLANE_WIDTH + x]).collect();
        shrunk(&column, PLANE_HEIGHT)
    });
    let mut plane = vec![0; PLANE_WIDTH * PLANE_HEIGHT];
    for (x, column) in columns.enumerate() {
        for (y, level) in column.iter().enumerate() {
            plane[y * PLANE_WIDTH + x] = level.round() as u8;
        }
    }
    plane
}

/// A row of values shrunk to `to` values, each the mean of what it covers.
fn shrunk(row: &[f32], to: usize) -> Vec<f32> {
    let share = row.len() as f32 / to as f32;
    let mean = |place: usize| {
        let (from, until) = (place as f32 * share, (place + 1) as f32 * share);
        let cells = from as usize..(until.ceil() as usize).min(row.len());
        let part = |x: usize| (until.min(x as f32 + 1.0) - from.max(x as f32)).max(0.0);
        cells.map(|x| row[x] * part(x)).sum::<f32>() / share
    };
    (0..to).map(mean).collect()
}
