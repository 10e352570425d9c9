//! The ear against sounds whose truth is planted.

mod beats_found;
mod laid;
mod made;
mod onsets_found;
mod real_sounds;
mod seams;
mod strokes_fit;
mod tones;
mod whatever_comes;
