//! Which way up a picture lies and from which side it is seen.

use crate::sketch::FINE;

/// How a picture lies beside the scan of its roll.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, PartialOrd, Ord, Hash)]
pub struct Way {
    /// Seen from the other side than the roll was scanned from.
    pub mirrored: bool,
    /// Turned by half.
    pub upside_down: bool,
}

impl Way {
    /// As the roll was scanned.
    pub const AS_SCANNED: Self = Self {
        mirrored: false,
        upside_down: false,
    };

    /// All four.
    pub const ALL: [Self; 4] = [
        Self::AS_SCANNED,
        Self {
            mirrored: true,
            upside_down: false,
        },
        Self {
            mirrored: false,
            upside_down: true,
        },
        Self {
            mirrored: true,
            upside_down: true,
        },
    ];

    /// Left and right change places.
    pub(crate) fn swaps_sides(self) -> bool {
        self.mirrored != self.upside_down
    }

    /// The cells of a sketch of any fineness, turned and mirrored; doing it twice
    /// gives the first again.
    pub(crate) fn cells(self, cells: &[i8]) -> Vec<i8> {
        let wide = wide(cells.len());
        let mut turned: Vec<i8> = Vec::with_capacity(cells.len());
        let rows = cells.chunks_exact(wide);
        let mut row_of = |row: &[i8]| {
            if self.swaps_sides() {
                turned.extend(row.iter().rev());
            } else {
                turned.extend(row);
            }
        };
        if self.upside_down {
            rows.rev().for_each(&mut row_of);
        } else {
            rows.for_each(&mut row_of);
        }
        turned
    }
}

/// Cells across of a sketch of so many.
fn wide(cells: usize) -> usize {
    let mut wide = FINE.0;
    while wide * (wide * FINE.1 / FINE.0) > cells && wide > 1 {
        wide /= 2;
    }
    wide
}
