//! What a lens takes in.

use onestrand_film::Aperture;

use super::camera_error::{CameraError, distance_fits, lens_fits};
use super::figures::{degrees, figure, mm};
use super::opened_sum::{OpenedSum, Reckoned};

/// A lens before a gauge's camera image.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldAsked {
    /// The picture in the camera.
    pub image: Aperture,
    /// The lens. Unit: millimetres. Range: 1 to 2,000.
    pub lens_mm: f64,
    /// From the lens to what is shown, where it is said. Unit: millimetres.
    pub distance_mm: Option<f64>,
}

/// How much a lens takes in.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FieldOfView {
    /// Across the picture. Unit: degrees.
    pub across_degrees: f64,
    /// From foot to head. Unit: degrees.
    pub upright_degrees: f64,
    /// From corner to corner. Unit: degrees.
    pub diagonal_degrees: f64,
    /// Width and height of what is taken in at the distance, by image × distance ÷
    /// lens. Unit: millimetres.
    pub field_mm: Option<[f64; 2]>,
    /// The same for a lens that is focused there, by the thin lens: image ×
    /// (distance − lens) ÷ lens. Unit: millimetres.
    pub focused_mm: Option<[f64; 2]>,
}

/// Width and height of an image. Unit: millimetres.
pub(crate) fn size_mm(image: Aperture) -> [f64; 2] {
    [image.width_um, image.height_um].map(|um| f64::from(um) / 1000.0)
}

/// What is said of the image that was taken.
pub(crate) fn image_taken(image: Aperture) -> String {
    let [wide, high] = size_mm(image);
    format!(
        "the picture in the camera is {} × {} mm: {}",
        figure(wide, 2),
        figure(high, 2),
        image.source
    )
}

/// The angle over which a length of the image looks out. Unit: degrees.
pub(crate) fn angle(length_mm: f64, lens_mm: f64) -> f64 {
    2.0 * (length_mm / (2.0 * lens_mm)).atan().to_degrees()
}

/// How much a lens takes in, and how wide that is at a distance.
///
/// Source: angle = 2 arctan(d ÷ 2 f), for a lens at infinity.
///
/// # Errors
/// [`CameraError::OutOfRange`] for a lens outside 1 to 2,000 mm or a distance outside
/// 1 mm to 10 km, [`CameraError::TooNear`] within the focal length.
///
/// ```
/// # use onestrand_film::Gauge;
/// # use onestrand_plan::camera::{FieldAsked, field_of_view};
/// let image = Gauge::Super8.spec().camera;
/// let asked = FieldAsked { image, lens_mm: 9.0, distance_mm: Some(3_000.0) };
/// let found = field_of_view(&asked)?.value;
/// assert_eq!(format!("{:.2}", found.across_degrees), "35.66");
/// assert!(field_of_view(&FieldAsked { lens_mm: 0.0, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn field_of_view(asked: &FieldAsked) -> Result<Reckoned<FieldOfView>, CameraError> {
    let lens = lens_fits(asked.lens_mm)?;
    let [wide, high] = size_mm(asked.image);
    let diagonal = wide.hypot(high);
    let mut value = FieldOfView {
        across_degrees: angle(wide, lens),
        upright_degrees: angle(high, lens),
        diagonal_degrees: angle(diagonal, lens),
        field_mm: None,
        focused_mm: None,
    };
    let mut sums = vec![
        angle_sum("angle across", wide, lens),
        angle_sum("angle upright", high, lens),
        angle_sum("angle from corner to corner", diagonal, lens),
    ];
    if let Some(distance) = asked.distance_mm {
        far_enough(distance_fits(distance)?, lens)?;
        let far = [wide, high].map(|side| side * distance / lens);
        value.field_mm = Some(far);
        value.focused_mm = Some([wide, high].map(|side| side * (distance - lens) / lens));
        sums.push(OpenedSum {
            what: "field at the distance",
            formula: "image × distance ÷ lens",
            figures: format!(
                "{} × {} ÷ {} and {} × {} ÷ {}",
                figure(wide, 2),
                figure(distance, 0),
                figure(lens, 2),
                figure(high, 2),
                figure(distance, 0),
                figure(lens, 2)
            ),
            comes: format!("{} × {}", figure(far[0], 1), mm(far[1])),
            source: "similar triangles, for things far away against the lens",
        });
    }
    Ok(Reckoned {
        value,
        sums,
        taken: vec![image_taken(asked.image)],
    })
}

/// What lies within the focal length makes no picture.
pub(crate) fn far_enough(distance: f64, lens: f64) -> Result<(), CameraError> {
    if distance > lens {
        return Ok(());
    }
    // Twice the focal length is life size: nearer, no film lens is used.
    Err(CameraError::TooNear {
        distance_mm: distance,
        nearest_mm: 2.0 * lens,
        dioptres: 1000.0 / distance - 500.0 / lens,
    })
}

fn angle_sum(what: &'static str, length: f64, lens: f64) -> OpenedSum {
    OpenedSum {
        what,
        formula: "2 × arctan(length of the image ÷ (2 × lens))",
        figures: format!(
            "2 × arctan({} ÷ (2 × {}))",
            figure(length, 2),
            figure(lens, 2)
        ),
        comes: degrees(angle(length, lens)),
        source: "geometry of a lens set to infinity",
    }
}
