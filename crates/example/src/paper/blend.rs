//! Laying colour through a cut-out: the inner loops of the paper table.
//!
//! All colours are premultiplied RGBA, so one rule serves clear sheets and the
//! table itself: new = colour · cover + old · (1 − cover).

use tiny_skia::{Mask, Pixmap, Transform};

/// Whole pixels: left and top of a cut-out on the table.
pub(super) type Corner = (i32, i32);

/// The part of a cut-out that falls on the table, row by row.
struct Overlap {
    /// First column and row of the table, and how many.
    x: usize,
    y: usize,
    wide: usize,
    tall: usize,
    /// First column and row of the cut-out.
    from_x: usize,
    from_y: usize,
}

impl Overlap {
    fn new(table: (u32, u32), piece: (u32, u32), corner: Corner) -> Option<Self> {
        let left = corner.0.max(0);
        let top = corner.1.max(0);
        let right = (corner.0 + piece.0 as i32).min(table.0 as i32);
        let bottom = (corner.1 + piece.1 as i32).min(table.1 as i32);
        (right > left && bottom > top).then(|| Self {
            x: left as usize,
            y: top as usize,
            wide: (right - left) as usize,
            tall: (bottom - top) as usize,
            from_x: (left - corner.0) as usize,
            from_y: (top - corner.1) as usize,
        })
    }
}

/// Mixes one pixel in; `cover` 0 to 255.
#[inline]
fn mix(old: &mut [u8], new: [u8; 4], cover: u32) {
    for (old, new) in old.iter_mut().zip(new) {
        let new = u32::from(new).wrapping_mul(cover);
        let kept = u32::from(*old).wrapping_mul(255_u32.wrapping_sub(cover));
        let sum = new.wrapping_add(kept).wrapping_add(127);
        // Division by 255, exact for sums up to 255²; nothing wraps.
        *old = (sum.wrapping_add(sum >> 8).wrapping_add(1) >> 8) as u8;
    }
}

/// Lays one even colour through a mask; `rgb` opaque, thinned by `cover`.
pub(super) fn even(table: &mut Pixmap, mask: &Mask, corner: Corner, rgb: [u8; 3], cover: u8) {
    let size = (table.width(), table.height());
    let Some(part) = Overlap::new(size, (mask.width(), mask.height()), corner) else {
        return;
    };
    let colour = [rgb[0], rgb[1], rgb[2], 255];
    let cover = u32::from(cover);
    let stride = size.0 as usize * 4;
    let data = table.data_mut();
    for row in 0..part.tall {
        let cuts =
            &mask.data()[(part.from_y + row) * mask.width() as usize + part.from_x..][..part.wide];
        let line = &mut data[(part.y + row) * stride + part.x * 4..][..part.wide * 4];
        for (pixel, cut) in line.chunks_exact_mut(4).zip(cuts) {
            if *cut != 0 {
                mix(pixel, colour, (u32::from(*cut) * cover + 127) / 255);
            }
        }
    }
}

/// Lays a repeating tile through a mask.
///
/// `back` brings a place of the table into the measure of the tile. The tile's
/// side is a power of two.
pub(super) fn tiled(
    table: &mut Pixmap,
    mask: &Mask,
    corner: Corner,
    tile: &Pixmap,
    back: Transform,
) {
    let size = (table.width(), table.height());
    let Some(part) = Overlap::new(size, (mask.width(), mask.height()), corner) else {
        return;
    };
    let side = tile.width() as usize;
    let wrap = side as i32 - 1;
    let paper = tile.data();
    let fixed = |value: f32| (value * 65536.0) as i64 as i32;
    let (step_u, step_v) = (fixed(back.sx), fixed(back.ky));
    let stride = size.0 as usize * 4;
    let data = table.data_mut();
    for row in 0..part.tall {
        let cuts =
            &mask.data()[(part.from_y + row) * mask.width() as usize + part.from_x..][..part.wide];
        let line = &mut data[(part.y + row) * stride + part.x * 4..][..part.wide * 4];
        let (x, y) = (part.x as f32 + 0.5, (part.y + row) as f32 + 0.5);
        let mut u = fixed(back.sx * x + back.kx * y + back.tx);
        let mut v = fixed(back.ky * x + back.sy * y + back.ty);
        for (pixel, cut) in line.chunks_exact_mut(4).zip(cuts) {
            if *cut != 0 {
                let at = (((v >> 16) & wrap) as usize * side + ((u >> 16) & wrap) as usize) * 4;
                let colour = &paper[at..at + 4];
                if *cut == 255 {
                    pixel.copy_from_slice(colour);
                } else {
                    mix(
                        pixel,
                        [colour[0], colour[1], colour[2], 255],
                        u32::from(*cut),
                    );
                }
            }
            u = u.wrapping_add(step_u);
            v = v.wrapping_add(step_v);
        }
    }
}

/// Lays a prepared picture.
pub(super) fn picture(table: &mut Pixmap, top: &Pixmap, corner: Corner) {
    let size = (table.width(), table.height());
    let Some(part) = Overlap::new(size, (top.width(), top.height()), corner) else {
        return;
    };
    let stride = size.0 as usize * 4;
    let top_stride = top.width() as usize * 4;
    let data = table.data_mut();
    for row in 0..part.tall {
        let from =
            &top.data()[(part.from_y + row) * top_stride + part.from_x * 4..][..part.wide * 4];
        let line = &mut data[(part.y + row) * stride + part.x * 4..][..part.wide * 4];
        for (old, new) in line.chunks_exact_mut(4).zip(from.chunks_exact(4)) {
            match new[3] {
                0 => {}
                255 => old.copy_from_slice(new),
                cover => {
                    let rest = 255 - u32::from(cover);
                    for (old, new) in old.iter_mut().zip(new) {
                        *old = new.saturating_add(((u32::from(*old) * rest + 127) / 255) as u8);
                    }
                }
            }
        }
    }
}
