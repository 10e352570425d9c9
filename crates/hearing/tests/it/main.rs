//! The ear against sounds whose truth is planted.

mod laid;
mod made;
mod onsets_found;
mod strokes_fit;
mod tones;
