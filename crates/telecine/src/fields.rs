//! Interlaced files: two fields in a frame, one a moment after the other.

/// Which field is older.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FieldOrder {
    /// The lines 0, 2, 4, … are older.
    TopFirst,
    /// The lines 1, 3, 5, … are older.
    BottomFirst,
}

impl FieldOrder {
    /// Where the lines of the `number`th field begin: 0 for the top field.
    #[must_use]
    pub fn first_line(self, number: u64) -> usize {
        let is_odd = number % 2 == 1;
        usize::from(is_odd == (self == Self::TopFirst))
    }
}

/// The lines of one field of a picture `width` across.
#[must_use]
pub fn field_of<T: Copy>(picture: &[T], width: usize, first_line: usize) -> Vec<T> {
    let rows = picture.chunks_exact(width).skip(first_line).step_by(2);
    rows.flatten().copied().collect()
}

/// A frame from the pictures of its older and its newer field.
#[must_use]
pub fn weave<T: Copy>(older: &[T], newer: &[T], width: usize, order: FieldOrder) -> Vec<T> {
    let newer_line = order.first_line(1);
    let rows = older.chunks_exact(width).zip(newer.chunks_exact(width));
    rows.enumerate()
        .flat_map(|(line, (old, new))| if line % 2 == newer_line { new } else { old })
        .copied()
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn woven_lines_come_from_their_fields() {
        let (older, newer) = ([1_u8; 8], [2_u8; 8]);
        assert_eq!(
            weave(&older, &newer, 2, FieldOrder::TopFirst),
            [1, 1, 2, 2, 1, 1, 2, 2]
        );
        let bottom = weave(&older, &newer, 2, FieldOrder::BottomFirst);
        assert_eq!(bottom, [2, 2, 1, 1, 2, 2, 1, 1]);
        assert_eq!(field_of(&bottom, 2, 1), [1, 1, 1, 1]);
    }
}
