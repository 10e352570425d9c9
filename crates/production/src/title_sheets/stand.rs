//! The copy stand drawn.

use onestrand_sheets::{StandDrawing, StandLamp};

use super::TitleSheetsToPrint;
use super::exposed::sentence;
use crate::ProductionError;

pub(super) fn sheet(all: &TitleSheetsToPrint) -> Result<StandDrawing, ProductionError> {
    let field = all.field()?;
    let light = all.stand.light.as_ref();
    let lens = match field.dioptres > 0.0 {
        true => format!("{} mm lens, +{}", field.lens_mm, field.dioptres),
        false => format!("{} mm lens", field.lens_mm),
    };
    let plates = field.opened.plates.iter();
    // The frames on the sheet are few: of the light that of the corner is the one to see.
    let lit = light
        .into_iter()
        .flat_map(|light| light.opened.plates.iter())
        .filter(|plate| plate.label.contains("corner"));
    let taken = field.opened.taken.iter();
    let taken = taken.chain(
        light
            .into_iter()
            .flat_map(|light| light.opened.taken.iter()),
    );
    let mut remarks: Vec<String> = taken.map(|said| sentence(said)).collect();
    if let Some(glare) = light.and_then(|light| light.glare.as_ref()) {
        remarks.push(sentence(&glare.words));
    }
    Ok(StandDrawing {
        head: all.head.clone(),
        lens,
        subject_mm: field.subject_mm,
        film_to_subject_mm: field.film_to_subject_mm,
        field_mm: field.field_mm,
        shown_mm: field.shown_mm,
        sharp_mm: field.near_mm.map(|near| (near, field.far_mm)),
        lamps: light
            .map(|light| light.lamps_mm.iter().map(lamp).collect())
            .unwrap_or_default(),
        angle_degrees: light.map_or(0.0, |light| light.angle_degrees),
        lamp_distance_mm: light.map_or(0.0, |light| light.distance_mm),
        glass: all.stand.stand.glass,
        figures: plates
            .chain(lit)
            .map(|plate| {
                // What is measured stands below the figure, so that it takes one line.
                let count = plate.count.trim_end_matches(" mm").to_owned();
                let unit = if count == plate.count { "" } else { ", mm" };
                (count, format!("{}, {}{unit}", plate.label, plate.words))
            })
            .collect(),
        remarks,
    })
}

fn lamp([east, north, over]: &[f64; 3]) -> StandLamp {
    StandLamp {
        east: *east,
        north: *north,
        over: *over,
    }
}
