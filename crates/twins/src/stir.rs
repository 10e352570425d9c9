//! How much is going on at each frame of a take.

use crate::framing::Window;
use crate::movement::TakeMovement;
use crate::tracks::WindowLight;

/// Change is looked at over so many frames before and after.
const REACH: usize = 2;
/// Frames to each side over which it is evened out: the halves of a step.
const EVEN: usize = 3;
/// The frame that so many do not exceed has all the movement of the take: a
/// single one may be a flash.
const MOST: f32 = 0.95;

/// Movement of each frame against the most of the take. Range: 0 to 1.
pub(crate) fn stir(take: &TakeMovement) -> Vec<f32> {
    let light = WindowLight::of(take, Window::WHOLE, 1);
    let raw = light.lengths_of_change(REACH);
    let even = |at: usize| {
        let near = &raw[at.saturating_sub(EVEN)..(at + EVEN + 1).min(raw.len())];
        near.iter().sum::<f32>() / near.len() as f32
    };
    let even: Vec<f32> = (0..raw.len()).map(even).collect();
    let mut sorted = even.clone();
    sorted.sort_by(f32::total_cmp);
    let most = sorted[((sorted.len() - 1) as f32 * MOST) as usize];
    let share = |s: f32| if most > 0.0 { (s / most).min(1.0) } else { 0.0 };
    even.into_iter().map(share).collect()
}
