//! What does not fit a floor plan or a visit.

use crate::ProductionError;
use crate::documents::FloorPlanWords;
use crate::error::unfit;

/// The largest place that is drawn: ten kilometres. Unit: centimetres.
const LARGEST: i32 = 1_000_000;
/// More than a person draws by hand.
const MOST_THINGS: usize = 1_000;

pub(super) fn floor_plan_fits(plan: &FloorPlanWords) -> Result<(), ProductionError> {
    let size = |cm: i32| (1..=LARGEST).contains(&cm);
    if !size(plan.width) || !size(plan.height) {
        return Err(unfit(
            "the place has no size, or is larger than ten kilometres".to_owned(),
            "say how wide and how deep it is in metres",
        ));
    }
    let points = plan
        .lines
        .iter()
        .map(|line| line.points.len())
        .sum::<usize>();
    if points + plan.cameras.len() + plan.marks.len() > MOST_THINGS {
        return Err(unfit(
            format!("more than {MOST_THINGS} points are drawn"),
            "draw a second plan for a part of the place",
        ));
    }
    let in_range = |angle: Option<i32>, most: i32| angle.is_none_or(|a| a.abs() <= most);
    if !in_range(plan.latitude, 90_000) || !in_range(plan.longitude, 180_000) {
        return Err(unfit(
            "there is no such place on earth".to_owned(),
            "latitude lies within 90 degrees, longitude within 180",
        ));
    }
    if plan.utc_offset.abs() > 14 * 60 {
        return Err(unfit(
            "no clock is that far from UTC".to_owned(),
            "say by how many hours your clock is ahead of UTC",
        ));
    }
    Ok(())
}
