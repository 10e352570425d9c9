//! The Ten-Past March, written for this film: two bars of drum and bass, a tune
//! of eight bars, its answer of eight, and two bars to close, in D.

/// A note or a rest: how many beats, and the key (0 rests).
pub(super) type Step = (f64, u8);

/// The tune, bar by bar, from the third bar on; each bar has four beats.
pub(super) const TUNE: [&[Step]; 18] = [
    // The tune.
    &[(1.0, 69), (1.0, 74), (0.5, 74), (0.5, 76), (1.0, 78)],
    &[(1.0, 76), (0.5, 74), (0.5, 73), (1.0, 71), (1.0, 69)],
    &[(1.0, 71), (0.5, 67), (0.5, 69), (1.0, 71), (1.0, 74)],
    &[(1.5, 73), (0.5, 71), (2.0, 69)],
    &[(1.0, 69), (1.0, 74), (0.5, 74), (0.5, 76), (1.0, 78)],
    &[(1.0, 79), (0.5, 78), (0.5, 76), (1.0, 74), (1.0, 71)],
    &[(1.0, 69), (1.0, 78), (0.5, 76), (0.5, 74), (1.0, 73)],
    &[(3.0, 74), (1.0, 0)],
    // Its answer.
    &[(0.75, 78), (0.25, 79), (1.0, 81), (1.0, 78), (1.0, 74)],
    &[(0.75, 76), (0.25, 78), (1.0, 79), (1.0, 76), (1.0, 73)],
    &[(1.0, 74), (0.5, 71), (0.5, 73), (1.0, 74), (1.0, 67)],
    &[(1.5, 69), (0.5, 68), (2.0, 69)],
    &[(0.75, 78), (0.25, 79), (1.0, 81), (1.0, 78), (1.0, 74)],
    &[(1.0, 83), (0.5, 81), (0.5, 79), (1.0, 78), (1.0, 74)],
    &[(1.0, 69), (1.0, 78), (1.0, 76), (1.0, 73)],
    &[(2.0, 74), (0.5, 69), (0.5, 71), (1.0, 73)],
    // To close.
    &[(1.0, 74), (1.0, 81), (1.0, 78), (1.0, 81)],
    &[(1.0, 86), (1.0, 0), (2.0, 74)],
];

/// Chords, two a bar: each half of a bar has its bass on the beat and its chord
/// after it.
pub(super) const CHORDS: [[Chord; 2]; 20] = {
    use Chord::{A, D, G};
    [
        [D, D],
        [D, A],
        [D, D],
        [A, D],
        [G, G],
        [A, A],
        [D, D],
        [G, G],
        [D, A],
        [D, D],
        [D, D],
        [A, A],
        [G, G],
        [A, A],
        [D, D],
        [G, D],
        [D, A],
        [D, A],
        [D, D],
        [D, D],
    ]
};

/// A chord of the march.
#[derive(Clone, Copy)]
pub(super) enum Chord {
    /// On the first degree.
    D,
    /// On the fourth.
    G,
    /// On the fifth, with its seventh.
    A,
}

impl Chord {
    /// Its root in the bass, and what the other half of a bar takes instead.
    pub(super) fn bass(self) -> [u8; 2] {
        match self {
            Self::D => [38, 45],
            Self::G => [43, 38],
            Self::A => [45, 40],
        }
    }

    /// Its keys.
    pub(super) fn keys(self) -> &'static [u8] {
        match self {
            Self::D => &[62, 66, 69],
            Self::G => &[62, 67, 71],
            Self::A => &[61, 64, 67, 69],
        }
    }
}
