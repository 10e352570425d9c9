//! What lenses take in and where it is sharp.

use onestrand_film::Gauge;
use onestrand_plan::camera::{
    self as plan, CircleChoice, CloseUpAsked, Depth, DepthAsked, FieldAsked, FramingAsked, Reach,
    usual_circle,
};
use serde::Deserialize;
use utoipa::IntoParams;

use super::opened::{figure, metres, opened, plate};
use super::said;
use crate::ProductionError;
use crate::documents::{
    CameraCloseUpDocument, CameraDepthDocument, CameraFieldDocument, CameraFramingDocument,
    CameraReachDocument, CameraSizeDocument,
};
use crate::throw::round;

/// A lens, to know what it takes in.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraFieldRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// How far it is, such as `3m`.
    pub distance: Option<String>,
}

/// Two of view, lens and distance.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraFramingRequest {
    /// The gauge.
    pub gauge: String,
    /// `long`, `full`, `medium`, `medium close`, `close` or `extreme close`.
    pub size: Option<String>,
    /// The height that fills the picture instead of a size, such as `65cm`.
    pub height: Option<String>,
    /// The lens. Unit: millimetres.
    pub lens_mm: Option<f64>,
    /// How far the person is, such as `3m`.
    pub distance: Option<String>,
    /// How high the person is; `1.7m` when not said.
    pub person: Option<String>,
}

/// A lens, its stop and its focus.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraDepthRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The stop.
    pub stop: f64,
    /// What it is focused on, such as `3m`.
    pub distance: String,
    /// The spot that passes for a point; the gauge's usual one when not said. Unit:
    /// millimetres.
    pub circle_mm: Option<f64>,
    /// The nearest mark on the lens, such as `1.2m`.
    pub nearest: Option<String>,
}

/// Close-up lenses before a lens.
#[derive(Debug, Clone, Default, PartialEq, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
pub struct CameraCloseUpRequest {
    /// The gauge.
    pub gauge: String,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The powers, such as `3` or `1 2`. Unit: dioptres.
    pub dioptres: String,
    /// What the lens is set to, such as `2m`; infinity when not said.
    pub focus: Option<String>,
}

/// What a lens takes in.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_field(request: &CameraFieldRequest) -> Result<CameraFieldDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let asked = FieldAsked {
        image: gauge.spec().camera,
        lens_mm: request.lens_mm,
        distance_mm: said::maybe(request.distance.as_deref(), said::length_mm)?,
    };
    let found = plan::field_of_view(&asked)?;
    let value = found.value;
    let across = figure(value.across_degrees, 1);
    let mut plates = vec![
        plate("across the picture", across.clone(), "° across"),
        plate("upright", figure(value.upright_degrees, 1), "° upright"),
    ];
    let mut text = format!("{} mm lens: {across}° across", figure(asked.lens_mm, 1));
    if let Some(([wide, high], far)) = value.field_mm.zip(asked.distance_mm) {
        // Both sides to as many places as the wider has.
        let places = metres(wide).split('.').nth(1).map_or(0, str::len);
        let field = format!("{} × {:.places$}", metres(wide), high / 1000.0);
        text.push_str(&format!(", {field} m at {} m", metres(far)));
        plates.insert(0, plate("field at the distance", field, "m in the picture"));
    }
    Ok(CameraFieldDocument {
        gauge: gauge.to_string(),
        image_mm: image_mm(gauge),
        lens_mm: asked.lens_mm,
        across_degrees: round(value.across_degrees, 3),
        upright_degrees: round(value.upright_degrees, 3),
        diagonal_degrees: round(value.diagonal_degrees, 3),
        field_mm: value.field_mm.map(|both| both.map(|mm| round(mm, 1))),
        focused_mm: value.focused_mm.map(|both| both.map(|mm| round(mm, 1))),
        opened: opened(&found, plates, text),
    })
}

fn image_mm(gauge: Gauge) -> [f64; 2] {
    let image = gauge.spec().camera;
    [image.width_um, image.height_um].map(|um| f64::from(um) / 1000.0)
}

/// Which lens, which distance, or which view of a standing person.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] unless just two of view, lens
/// and distance are said, and for what cannot be.
pub fn camera_framing(
    request: &CameraFramingRequest,
) -> Result<CameraFramingDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let person = said::maybe(request.person.as_deref(), said::length_mm)?;
    let asked = FramingAsked {
        image: gauge.spec().camera,
        person_mm: person.unwrap_or(1_700.0),
        size: said::maybe(request.size.as_deref(), said::size)?,
        height_mm: said::maybe(request.height.as_deref(), said::length_mm)?,
        lens_mm: request.lens_mm,
        distance_mm: said::maybe(request.distance.as_deref(), said::length_mm)?,
    };
    let found = plan::framing(&asked)?;
    let value = &found.value;
    let (lens, far) = (figure(value.lens_mm, 1), metres(value.distance_mm));
    let size = value.size.word();
    let plates = vec![
        plate("distance", far.clone(), "m from the lens"),
        plate("lens", lens.clone(), "mm lens"),
        plate(
            "height shown",
            metres(value.field_mm[1]),
            format!("m of the person, {size}"),
        ),
    ];
    let text = format!("{size}: {lens} mm lens, {far} m");
    let sizes = value.sizes.iter().map(|one| CameraSizeDocument {
        size: one.size.word().to_owned(),
        lens_mm: round(one.lens_mm, 2),
        distance_mm: round(one.distance_mm, 1),
    });
    Ok(CameraFramingDocument {
        gauge: gauge.to_string(),
        lens_mm: round(value.lens_mm, 3),
        distance_mm: round(value.distance_mm, 1),
        field_mm: value.field_mm.map(|mm| round(mm, 1)),
        person_mm: asked.person_mm,
        size: size.to_owned(),
        edges_mm: value.edges_mm.map(|mm| round(mm, 1)),
        sizes: sizes.collect(),
        opened: opened(&found, plates, text),
    })
}

/// From where to where it is sharp.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_depth(request: &CameraDepthRequest) -> Result<CameraDepthDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let own = |mm| CircleChoice {
        mm,
        source: "as it was said",
    };
    let asked = DepthAsked {
        lens_mm: request.lens_mm,
        stop: request.stop,
        circle: request.circle_mm.map_or(usual_circle(gauge), own),
        distance_mm: said::length_mm(&request.distance)?,
        nearest_mm: said::maybe(request.nearest.as_deref(), said::length_mm)?,
    };
    let found = plan::depth_of_field(&asked)?;
    let value = found.value;
    let (plates, text) = depth_words(&asked, &value);
    Ok(CameraDepthDocument {
        gauge: gauge.to_string(),
        lens_mm: asked.lens_mm,
        stop: asked.stop,
        focus_mm: round(asked.distance_mm, 1),
        circle_mm: asked.circle.mm,
        exact: reach(&value.exact),
        depth_mm: value.depth_mm.map(|mm| round(mm, 1)),
        table: reach(&value.table),
        opened: opened(&found, plates, text),
    })
}

fn reach(reach: &Reach) -> CameraReachDocument {
    CameraReachDocument {
        hyperfocal_mm: round(reach.hyperfocal_mm, 2),
        near_mm: round(reach.near_mm, 2),
        far_mm: reach.far_mm.map(|mm| round(mm, 2)),
    }
}

fn depth_words(
    asked: &DepthAsked,
    found: &Depth,
) -> (Vec<crate::documents::CameraPlateDocument>, String) {
    let near = metres(found.exact.near_mm);
    let hyper = metres(found.exact.hyperfocal_mm);
    let (far, far_words) = match found.exact.far_mm {
        Some(far) => (metres(far), "m at the furthest"),
        None => ("∞".to_owned(), "far: sharp to infinity"),
    };
    let to = match found.exact.far_mm {
        Some(_) => format!("{far} m"),
        None => "infinity".to_owned(),
    };
    let text = format!(
        "{} mm at f/{}, focus {} m: sharp from {near} m to {to}",
        figure(asked.lens_mm, 1),
        figure(asked.stop, 1),
        metres(asked.distance_mm)
    );
    let plates = vec![
        plate("near limit", near, "m at the nearest"),
        plate("far limit", far, far_words),
        plate("hyperfocal distance", hyper, "m hyperfocal"),
    ];
    (plates, text)
}

/// Where to lay what is filmed through close-up lenses, and how much fills the picture.
///
/// # Errors
/// [`ProductionError::Unit`], [`ProductionError::Camera`] for what cannot be.
pub fn camera_closeup(
    request: &CameraCloseUpRequest,
) -> Result<CameraCloseUpDocument, ProductionError> {
    let gauge: Gauge = request.gauge.parse()?;
    let asked = CloseUpAsked {
        image: gauge.spec().shown,
        lens_mm: request.lens_mm,
        dioptres: said::numbers(&request.dioptres, "3, or 1 2")?,
        focus_mm: said::maybe(request.focus.as_deref(), said::length_mm)?,
    };
    let found = plan::close_up(&asked)?;
    let value = found.value;
    let power = figure(value.dioptres, 2);
    let subject = figure(value.subject_mm, 0);
    let field = value.field_mm.map(|mm| figure(mm, 0));
    let plates = vec![
        plate("to the subject", subject.clone(), "mm to the subject"),
        plate(
            "field",
            field.join(" × "),
            "mm fill the picture on the screen",
        ),
        plate("close-up lens", format!("+{power}"), "dioptres"),
    ];
    let text = format!(
        "close-up lens +{power} on {} mm: {subject} mm away, {} mm fill the picture",
        figure(asked.lens_mm, 1),
        field.join(" × ")
    );
    let camera_field_mm = image_mm(gauge).map(|mm| round(mm / value.magnification, 1));
    Ok(CameraCloseUpDocument {
        gauge: gauge.to_string(),
        lens_mm: asked.lens_mm,
        dioptres: round(value.dioptres, 3),
        subject_mm: round(value.subject_mm, 1),
        magnification: round(value.magnification, 5),
        field_mm: value.field_mm.map(|mm| round(mm, 1)),
        camera_field_mm,
        opened: opened(&found, plates, text),
    })
}
