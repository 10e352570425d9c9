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
    let share = height as f32 / PLANE_HEIGHT as f32;
    let mut plane = Vec::with_capacity(PLANE_WIDTH * PLANE_HEIGHT);
    for y in 0..PLANE_HEIGHT {
        let (from, until) = (y as f32 * share, (y + 1) as f32 * share);
        let mut row = vec![0.0; width];
        for line in from as usize..(until.ceil() as usize).min(height) {
            let part = until.min(line as f32 + 1.0) - from.max(line as f32);
            let line = &luma[line * width..][..width];
            row.iter_mut()
                .zip(line)
                .for_each(|(sum, level)| *sum += part * level);
        }
        let levels = shrunk(&row, PLANE_WIDTH).into_iter();
        plane.extend(levels.map(|level| (level / share).round() as u8));
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
