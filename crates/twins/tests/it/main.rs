//! Takes laid beside each other, drawn ones and real ones.

mod drawn;
mod example_takes;
mod marks;
mod match_points;
mod planted;
mod real_clips;
mod retake;
mod same_take;
