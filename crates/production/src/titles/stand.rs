//! The copy stand, told with its sum: the domain's stand and the plan's close-up lens and
//! depth of field put together.

use onestrand_film::{Aperture, Gauge};
use onestrand_plan::camera::{
    CircleChoice, CloseUpAsked, DepthAsked, close_up, depth_of_field, usual_circle,
};
use onestrand_title::{
    self as title, LETTER_RULES, LettersAsked, SAFE, Stand, StandAsked, StandBy, aperture_mm,
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened_sum::{mm, sum};
use super::stand_kept::gate;
use super::stand_opened::opened;
use crate::ProductionError;
use crate::camera::{figure, length_mm, numbers};
use crate::documents::{CameraSumDocument, TitleFieldDocument, TitleLettersDocument};
use crate::error::unfit;
use crate::throw::round;

/// Camera, lens and what is settled on the stand.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct TitleFieldRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// How wide the field on the artwork is. Unit: millimetres.
    pub width_mm: Option<f64>,
    /// Or how far the artwork lies from the lens, such as `1.2m`.
    pub distance: Option<String>,
    /// The gate as measured, such as `5.69x4.22`; the gauge's when not said. Unit:
    /// millimetres.
    pub gate: Option<String>,
    /// The spot that passes for a point; the gauge's usual one when not said. Unit:
    /// millimetres.
    pub circle_mm: Option<f64>,
    /// Close-up lenses before the lens, such as `3` or `1 2`. Unit: dioptres.
    pub dioptres: Option<String>,
    /// Behind them, what the lens is set to, such as `2m`; infinity when nothing else
    /// settles it.
    pub focus: Option<String>,
    /// The stop.
    pub stop: Option<f64>,
    /// The nearest mark on the lens, which counts from the film, such as `1.2m`.
    pub closest: Option<String>,
    /// The part of what is shown that is safe; 80 when not said. Unit: per cent.
    pub safe_percent: Option<f64>,
    /// From the screen to the last row, such as `5m`.
    pub last_row: Option<String>,
    /// Across the picture on the screen, such as `1.2m`.
    pub screen: Option<String>,
}

/// The field on the artwork, both ways, with what it asks of lens and light.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Title`], [`ProductionError::Camera`] for
/// what cannot be, [`ProductionError::Unfit`] where too little or too much is said.
pub fn title_field(request: &TitleFieldRequest) -> Result<TitleFieldDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let asked = asked(request, gauge)?;
    let set = set_up(request, &asked)?;
    let stand = set.stand;
    let circle = request.circle_mm.map(|mm| CircleChoice {
        mm,
        source: "as it was said",
    });
    let circle = circle.unwrap_or_else(|| usual_circle(gauge));
    let sharp = request.stop.map(|stop| sharp(&asked, &set, stop, circle));
    let sharp = sharp.transpose()?;
    let letters = letters(request, &stand)?;
    let opened = opened(&asked, &set, sharp.as_ref(), &letters);
    let both = |sides: [f64; 2]| sides.map(|side| round(side, 2));
    Ok(TitleFieldDocument {
        gauge: gauge.to_string(),
        gate_mm: aperture_mm(asked.gate),
        aperture_mm: aperture_mm(asked.shown),
        lens_mm: asked.lens_mm,
        dioptres: round(set.dioptres, 3),
        focus_mm: stand.focus_mm.map(|mm| round(mm, 1)),
        magnification: round(stand.magnification, 6),
        subject_mm: round(stand.subject_mm, 2),
        film_to_subject_mm: round(stand.film_to_subject_mm, 2),
        image_mm: round(stand.image_mm, 3),
        exposure_stops: round(stand.exposure_stops, 3),
        field_mm: both(stand.field_mm),
        shown_mm: both(stand.shown_mm),
        safe_mm: both(stand.safe_mm),
        safe_percent: round(asked.safe * 100.0, 1),
        near_mm: sharp.as_ref().map(|sharp| round(sharp.near, 1)),
        far_mm: sharp
            .as_ref()
            .and_then(|sharp| sharp.far)
            .map(|mm| round(mm, 1)),
        circle_mm: circle.mm,
        letters,
        opened,
    })
}

fn asked(request: &TitleFieldRequest, gauge: Gauge) -> Result<StandAsked, ProductionError> {
    let measured = gate(request.gate.as_deref().unwrap_or_default())?;
    let um = |mm: f64| (mm * 1000.0).round().min(1e6) as u32;
    let gate = measured.map(|(wide, high)| Aperture {
        width_um: um(wide).max(1),
        height_um: um(high).max(1),
        source: "as it was measured",
    });
    let distance = request.distance.as_deref().map(length_mm).transpose()?;
    let has_close_up = request.dioptres.is_some();
    let by = match (request.width_mm, distance) {
        (Some(width), None) => StandBy::Width(width),
        (None, Some(distance)) => StandBy::Distance(distance),
        // Behind a close-up lens the focus settles it; nobody reads this.
        (None, None) if has_close_up => StandBy::Distance(1_000.0),
        _ => {
            return Err(unfit(
                "the width of the field or the distance makes the other".to_owned(),
                "say one of them, such as a field of 240 mm; with a close-up lens neither",
            ));
        }
    };
    Ok(StandAsked {
        gate: gate.unwrap_or(gauge.spec().camera),
        shown: gauge.spec().shown,
        lens_mm: request.lens_mm,
        by,
        safe: request.safe_percent.map_or(SAFE, |percent| percent / 100.0),
        closest_mm: request.closest.as_deref().map(length_mm).transpose()?,
    })
}

/// A stand with what is before its lens.
pub(super) struct SetUp {
    pub(super) stand: Stand,
    pub(super) dioptres: f64,
    /// The sums of the close-up lens.
    pub(super) close_up: Vec<CameraSumDocument>,
}

fn set_up(request: &TitleFieldRequest, asked: &StandAsked) -> Result<SetUp, ProductionError> {
    let Some(powers) = request.dioptres.as_deref() else {
        return Ok(SetUp {
            stand: title::copy_stand(asked)?,
            dioptres: 0.0,
            close_up: Vec::new(),
        });
    };
    let dioptres = numbers(powers, "3, or 1 2")?;
    let power: f64 = dioptres.iter().sum();
    let said = request.focus.as_deref().map(length_mm).transpose()?;
    let settled = request.width_mm.is_some() || request.distance.is_some();
    if settled && said.is_some() {
        return Err(unfit(
            "behind a close-up lens the focus makes field and distance".to_owned(),
            "say the focus, or the width, or the distance: one of them",
        ));
    }
    let focus_mm = match asked.by {
        _ if !settled => said,
        StandBy::Width(width) => title::focus_behind(asked.gate, asked.lens_mm, power, width)?,
        StandBy::Distance(far) => title::focus_behind_for(power, far)?,
    };
    // The plan's close-up lens reckons forward what was found backward here.
    let found = close_up(&CloseUpAsked {
        image: asked.gate,
        lens_mm: asked.lens_mm,
        dioptres,
        focus_mm,
    })?;
    let value = found.value;
    let stand = title::stand_of(asked, value.magnification, value.subject_mm, focus_mm)?;
    if let Some((closest, focus)) = asked.closest_mm.zip(focus_mm) {
        let from_film = focus + stand.image_mm;
        if from_film < closest {
            return Err(title::TitleError::TooNear {
                nearest_mm: closest,
                wanted_mm: from_film,
                close_up: title::close_up_reaching(asked.lens_mm, stand.subject_mm, closest),
            }
            .into());
        }
    }
    Ok(SetUp {
        stand,
        dioptres: value.dioptres,
        close_up: crate::camera::opened(&found, Vec::new(), String::new()).sums,
    })
}

/// From where to where it is sharp. Unit: millimetres.
pub(super) struct Sharp {
    pub(super) near: f64,
    pub(super) far: Option<f64>,
    pub(super) sums: Vec<CameraSumDocument>,
}

/// Far enough to be taken for infinity; the furthest the plan reckons with. Unit: mm.
const INFINITY_MM: f64 = 1e7;

fn sharp(
    asked: &StandAsked,
    set: &SetUp,
    stop: f64,
    circle: CircleChoice,
) -> Result<Sharp, ProductionError> {
    let focus = set.stand.focus_mm;
    let found = depth_of_field(&DepthAsked {
        lens_mm: asked.lens_mm,
        stop,
        circle,
        distance_mm: focus.unwrap_or(INFINITY_MM),
        nearest_mm: None,
    })?;
    let value = found.value.exact;
    let mut sums = crate::camera::opened(&found, Vec::new(), String::new()).sums;
    // Printed tables' short form is for things far away.
    sums.truncate(3);
    if set.dioptres == 0.0 {
        return Ok(Sharp {
            near: value.near_mm,
            far: value.far_mm,
            sums,
        });
    }
    let (near, far) = title::sharp_behind(value.near_mm, focus, set.dioptres);
    sums.push(sum(
        "sharp before the close-up lens",
        "1 ÷ (power + 1 ÷ limit in metres), for either limit",
        format!(
            "power {}, near limit {}",
            figure(set.dioptres, 2),
            mm(value.near_mm)
        ),
        format!("{} to {}", mm(near), far.map_or("infinity".to_owned(), mm)),
        "thin lenses: the power adds to either vergence",
    ));
    Ok(Sharp { near, far, sums })
}

fn letters(
    request: &TitleFieldRequest,
    stand: &Stand,
) -> Result<Vec<TitleLettersDocument>, ProductionError> {
    let (row, screen) = match (&request.last_row, &request.screen) {
        (Some(row), Some(screen)) => (row.parse()?, screen.parse()?),
        (None, None) => return Ok(Vec::new()),
        _ => {
            return Err(unfit(
                "letters for the last row want the row and the screen".to_owned(),
                "say both, such as a last row at 5m and a screen 1.2m wide",
            ));
        }
    };
    let rule = |rule: &title::LetterRule| {
        let found = title::letters(&LettersAsked {
            last_row: row,
            screen,
            shown_mm: stand.shown_mm,
            arc_minutes: rule.arc_minutes,
        })?;
        Ok(TitleLettersDocument {
            rule: rule.name.to_owned(),
            arc_minutes: rule.arc_minutes,
            on_screen_mm: round(found.on_screen_mm, 2),
            on_art_mm: round(found.on_art_mm, 2),
            of_height: round(found.of_height, 4),
            source: rule.source.to_owned(),
        })
    };
    LETTER_RULES.iter().map(rule).collect()
}
