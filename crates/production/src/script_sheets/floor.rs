//! The floor plans: centimetres down the drawing turned into metres up the page.

use onestrand_sheets::{FloorCamera, FloorLine, FloorMark, FloorPlan};

use super::{ScriptSheetsToPrint, sun_of_day};
use crate::documents::{FloorPlanDocument, FloorPlanWords, PlanCameraWords};

/// How far a wedge is drawn where nothing is before the camera. Unit: metres.
const REACH_LEAST: f64 = 1.5;
/// How much farther than what it looks at. Unit: of the distance.
const BEYOND: f64 = 1.15;

pub(super) fn plans(gathered: &ScriptSheetsToPrint) -> Vec<FloorPlan> {
    let all = gathered.script.floor_plans.iter();
    let here = all.filter(|one| gathered.is_about(&one.plan.scenes));
    here.map(|one| plan(gathered, one)).collect()
}

/// The same, with an empty plan where none was drawn, which says so.
pub(super) fn plans_or_empty(gathered: &ScriptSheetsToPrint) -> Vec<FloorPlan> {
    match plans(gathered) {
        none if none.is_empty() => vec![FloorPlan {
            head: gathered.head.clone(),
            of: String::new(),
            outlines: Vec::new(),
            line_of_action: None,
            marks: Vec::new(),
            cameras: Vec::new(),
            north: None,
            sun: Vec::new(),
            sun_from: String::new(),
        }],
        plans => plans,
    }
}

fn metres([x, y]: [i32; 2]) -> (f64, f64) {
    (f64::from(x) / 100.0, -f64::from(y) / 100.0)
}

fn plan(gathered: &ScriptSheetsToPrint, one: &FloorPlanDocument) -> FloorPlan {
    let words = &one.plan;
    let many = if words.scenes.len() == 1 {
        "scene"
    } else {
        "scenes"
    };
    let line = |points: &[[i32; 2]], name: &str| FloorLine {
        name: name.to_owned(),
        points: points.iter().map(|point| metres(*point)).collect(),
    };
    let (sun, sun_from) = sun_of_day::by_the_hour(words);
    // Where north lies is known once somebody said where the place is, or turned it.
    let known = words.latitude.is_some() || words.north != 0;
    FloorPlan {
        head: gathered.head.clone(),
        of: match words.scenes.is_empty() {
            true => words.name.clone(),
            false => format!("{}, {many} {}", words.name, words.scenes.join(", ")),
        },
        outlines: words
            .lines
            .iter()
            .map(|one| line(&one.points, &one.words))
            .collect(),
        line_of_action: words.line_of_action.map(|ends| line(&ends, "line")),
        marks: words
            .marks
            .iter()
            .map(|mark| FloorMark {
                name: mark.words.clone(),
                at: metres(mark.at),
                goes_to: mark.goes_to.map(metres),
            })
            .collect(),
        cameras: words
            .cameras
            .iter()
            .zip(&one.fields)
            .map(|(camera, field)| seen(words, camera, field.angle))
            .collect(),
        north: known.then(|| f64::from(words.north)),
        sun,
        sun_from,
    }
}

fn seen(plan: &FloorPlanWords, camera: &PlanCameraWords, angle: f64) -> FloorCamera {
    let tenths = camera.lens;
    FloorCamera {
        name: camera.setup.clone(),
        at: metres(camera.at),
        towards: f64::from(camera.looks),
        // Without a lens nobody knows the field: a line shows where it looks.
        field: angle.max(0.1),
        reach: reach(plan, camera, angle),
        lens: match (tenths, tenths.is_multiple_of(10)) {
            (0, _) => String::new(),
            (_, true) => format!("{} mm", tenths / 10),
            (_, false) => format!("{}.{} mm", tenths / 10, tenths % 10),
        },
    }
}

/// How far a camera looks: to the farthest mark that stands in its field, and a little
/// beyond.
fn reach(plan: &FloorPlanWords, camera: &PlanCameraWords, angle: f64) -> f64 {
    let (cx, cy) = metres(camera.at);
    let in_field = |&(x, y): &(f64, f64)| {
        let bearing = (x - cx).atan2(y - cy).to_degrees();
        let off = (bearing - f64::from(camera.looks)).rem_euclid(360.0);
        off.min(360.0 - off) <= angle.max(10.0) / 2.0
    };
    let marks = plan.marks.iter().map(|mark| metres(mark.at));
    let seen = marks.filter(in_field).map(|(x, y)| (x - cx).hypot(y - cy));
    let farthest = seen.fold(0.0, f64::max) * BEYOND;
    let across = f64::from(plan.width.min(plan.height)) / 100.0 / 2.0;
    match farthest > 0.0 {
        true => farthest.max(REACH_LEAST),
        false => across.max(REACH_LEAST),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::documents::PlanMarkWords;

    /// Down the drawing is down the page; up it is where a camera at 0 degrees looks.
    #[test]
    fn a_camera_reaches_to_what_stands_before_it() {
        assert_eq!(metres([150, 200]), (1.5, -2.0));
        let camera = PlanCameraWords {
            setup: "3".to_owned(),
            at: [600, 750],
            looks: 0,
            lens: 130,
        };
        let mut plan = FloorPlanWords {
            width: 1200,
            height: 800,
            marks: vec![PlanMarkWords {
                words: "Bram".to_owned(),
                at: [600, 300],
                goes_to: None,
            }],
            ..FloorPlanWords::default()
        };
        // 4.5 m before it, and a little beyond.
        assert!((reach(&plan, &camera, 24.0) - 4.5 * BEYOND).abs() < 1e-9);
        // Behind it nothing counts: half the smaller side of the place.
        plan.marks[0].at = [600, 790];
        assert!((reach(&plan, &camera, 24.0) - 4.0).abs() < 1e-9);
    }
}
