//! One value a pixel.

/// A plane of coverage, 0 to 255, rows from the top.
#[derive(Debug, Clone)]
pub(crate) struct Plane {
    pub(crate) width: usize,
    pub(crate) height: usize,
    pub(crate) values: Vec<u8>,
}

/// Columns and rows that hold something, half-open.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) struct Part {
    pub(crate) left: usize,
    pub(crate) top: usize,
    pub(crate) right: usize,
    pub(crate) bottom: usize,
}

impl Part {
    /// The part and so much around it, within the plane.
    pub(crate) fn grown(self, by: usize, width: usize, height: usize) -> Self {
        Self {
            left: self.left.saturating_sub(by),
            top: self.top.saturating_sub(by),
            right: (self.right + by).min(width),
            bottom: (self.bottom + by).min(height),
        }
    }
}

impl Plane {
    pub(crate) fn empty(width: usize, height: usize) -> Self {
        Self {
            width,
            height,
            values: vec![0; width * height],
        }
    }

    /// The value at a place; nothing lies outside.
    pub(crate) fn at(&self, x: isize, y: isize) -> u8 {
        if x < 0 || y < 0 || x as usize >= self.width || y as usize >= self.height {
            return 0;
        }
        self.values[y as usize * self.width + x as usize]
    }

    /// Calls with the place and the value of each pixel of a part.
    pub(crate) fn each(&mut self, part: Part, mut change: impl FnMut(usize, usize, &mut u8)) {
        for y in part.top..part.bottom {
            let row = &mut self.values[y * self.width..][part.left..part.right];
            for (x, value) in row.iter_mut().enumerate() {
                change(part.left + x, y, value);
            }
        }
    }

    /// The plane softened within a part: boxes of `radius` laid over it so many
    /// times, across and down. Outside the part it is empty.
    pub(crate) fn softened(&self, part: Part, radius: usize, times: usize) -> Self {
        let mut out = Self::empty(self.width, self.height);
        let (across, down) = (part.right - part.left, part.bottom - part.top);
        if across == 0 || down == 0 {
            return out;
        }
        let mut cut: Vec<u8> = (part.top..part.bottom)
            .flat_map(|y| &self.values[y * self.width..][part.left..part.right])
            .copied()
            .collect();
        let mut other = vec![0; cut.len()];
        for _ in 0..times {
            soften_across(&cut, &mut other, across, radius);
            soften_down(&other, &mut cut, across, radius);
        }
        for (y, row) in cut.chunks_exact(across).enumerate() {
            let to = (part.top + y) * self.width + part.left;
            out.values[to..to + across].copy_from_slice(row);
        }
        out
    }
}

fn soften_across(from: &[u8], to: &mut [u8], width: usize, radius: usize) {
    let count = (2 * radius + 1) as u32;
    for (from, to) in from.chunks_exact(width).zip(to.chunks_exact_mut(width)) {
        let mut sum: u32 = from.iter().take(radius).map(|v| u32::from(*v)).sum();
        for x in 0..width {
            sum += from.get(x + radius).map_or(0, |v| u32::from(*v));
            if x > radius {
                sum -= u32::from(from[x - radius - 1]);
            }
            to[x] = ((sum + count / 2) / count) as u8;
        }
    }
}

fn soften_down(from: &[u8], to: &mut [u8], width: usize, radius: usize) {
    let count = (2 * radius + 1) as u32;
    let height = from.len() / width;
    let row = |y: usize| &from[y * width..][..width];
    let mut sums = vec![0_u32; width];
    for y in 0..radius.min(height) {
        add(&mut sums, row(y));
    }
    for y in 0..height {
        if y + radius < height {
            add(&mut sums, row(y + radius));
        }
        if y > radius {
            for (sum, value) in sums.iter_mut().zip(row(y - radius - 1)) {
                *sum -= u32::from(*value);
            }
        }
        for (to, sum) in to[y * width..][..width].iter_mut().zip(&sums) {
            *to = ((*sum + count / 2) / count) as u8;
        }
    }
}

fn add(sums: &mut [u32], row: &[u8]) {
    for (sum, value) in sums.iter_mut().zip(row) {
        *sum += u32::from(*value);
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn softening_is_the_mean_of_the_box_counted_plainly() {
        let (width, height, radius) = (13_usize, 9_usize, 2_isize);
        let mut plane = Plane::empty(width, height);
        let part = Part {
            left: 0,
            top: 0,
            right: width,
            bottom: height,
        };
        plane.each(part, |x, y, value| *value = (x * 37 + y * 91) as u8);
        let soft = plane.softened(part, radius as usize, 1);
        for y in 0..height as isize {
            for x in 0..width as isize {
                let mut sum = 0.0;
                for down in -radius..=radius {
                    let across: f64 = (-radius..=radius)
                        .map(|across| f64::from(plane.at(x + across, y + down)))
                        .sum();
                    sum += across / 5.0;
                }
                // Each of the two passes rounds once.
                assert!((f64::from(soft.at(x, y)) - sum / 5.0).abs() <= 1.01);
            }
        }
    }
}
