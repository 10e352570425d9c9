//! Close-up lenses before the taking lens.

use onestrand_film::Aperture;

use super::camera_error::{CameraError, distance_fits, lens_fits, within};
use super::field_of_view::size_mm;
use super::figures::{figure, mm};
use super::opened_sum::{OpenedSum, Reckoned};

/// Close-up lenses before a taking lens.
#[derive(Debug, Clone, PartialEq)]
pub struct CloseUpAsked {
    /// The part of the frame that is to be filled.
    pub image: Aperture,
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// The close-up lenses, one before the other. Unit: dioptres. Range: together over
    /// 0 to 50.
    pub dioptres: Vec<f64>,
    /// What the taking lens is set to; infinity where none. Unit: millimetres.
    pub focus_mm: Option<f64>,
}

/// What a close-up lens makes of it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct CloseUp {
    /// All of them together. Unit: dioptres.
    pub dioptres: f64,
    /// From the close-up lens to what is sharp. Unit: millimetres.
    pub subject_mm: f64,
    /// Size on the film against size in life.
    pub magnification: f64,
    /// Width and height of what fills the picture. Unit: millimetres.
    pub field_mm: [f64; 2],
}

/// Where to lay what is filmed, and how much of it fills the picture.
///
/// Source: the light leaves the close-up lens as if it came from where the taking lens
/// is set to, so 1 ÷ subject = power + 1 ÷ focus, and the size on the film is the
/// image distance of the taking lens over the subject distance.
///
/// # Errors
/// [`CameraError::Unsaid`] without a close-up lens, [`CameraError::OutOfRange`] for
/// powers that are not over 0 to 50 dioptres together or a lens or focus that cannot be.
///
/// ```
/// # use onestrand_film::Gauge;
/// # use onestrand_plan::camera::{CloseUpAsked, close_up};
/// let image = Gauge::Super8.spec().shown;
/// let asked = CloseUpAsked { image, lens_mm: 25.0, dioptres: vec![1.0, 2.0], focus_mm: None };
/// let found = close_up(&asked)?.value;
/// assert_eq!(format!("{:.1}", found.subject_mm), "333.3");
/// assert!(close_up(&CloseUpAsked { dioptres: vec![], ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn close_up(asked: &CloseUpAsked) -> Result<Reckoned<CloseUp>, CameraError> {
    let lens = lens_fits(asked.lens_mm)?;
    if asked.dioptres.is_empty() {
        return Err(CameraError::Unsaid {
            message: "no close-up lens is said",
            hint: "say its power in dioptres, such as 3; of several before each other, all",
        });
    }
    let hint = "the power stands on the rim, such as +3";
    let power = within(
        "the power of the close-up lenses in dioptres",
        asked.dioptres.iter().sum(),
        (0.05, 50.0),
        hint,
    )?;
    let focus = asked.focus_mm.map(distance_fits).transpose()?;
    if let Some(focus) = focus {
        super::field_of_view::far_enough(focus, lens)?;
    }
    let subject = 1000.0 / (power + focus.map_or(0.0, |focus| 1000.0 / focus));
    // A lens set to infinity stands its focal length from the film.
    let image_distance = focus.map_or(lens, |focus| lens * focus / (focus - lens));
    let magnification = image_distance / subject;
    let value = CloseUp {
        dioptres: power,
        subject_mm: subject,
        magnification,
        field_mm: size_mm(asked.image).map(|side| side / magnification),
    };
    let sums = sums(asked, &value, image_distance);
    let [wide, high] = size_mm(asked.image);
    let taken = vec![
        format!(
            "{} × {} mm of the frame are filled: {}",
            figure(wide, 2),
            figure(high, 2),
            asked.image.source
        ),
        "measured from the close-up lens, which stands close before the other".to_owned(),
        "a close-up lens asks for no more light; a lens drawn out asks for (1 + size)² (optics, from memory)".to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}

fn sums(asked: &CloseUpAsked, found: &CloseUp, image_distance: f64) -> Vec<OpenedSum> {
    let powers: Vec<String> = asked.dioptres.iter().map(|d| figure(*d, 2)).collect();
    let mut all = Vec::new();
    if powers.len() > 1 {
        all.push(OpenedSum {
            what: "power",
            formula: "powers of lenses before each other add up",
            figures: powers.join(" + "),
            comes: format!("+{}", figure(found.dioptres, 2)),
            source: "optics of thin lenses, from memory",
        });
    }
    let power = figure(found.dioptres, 2);
    let under = match asked.focus_mm {
        Some(focus) => format!("({power} + 1 ÷ {})", figure(focus / 1000.0, 3)),
        None => power,
    };
    let [wide, high] = size_mm(asked.image);
    all.push(OpenedSum {
        what: "to the subject",
        formula: "1 ÷ (power + 1 ÷ focus in metres); at infinity 1 ÷ power",
        figures: format!("1 ÷ {under} m"),
        comes: mm(found.subject_mm),
        source: "thin lenses",
    });
    all.push(OpenedSum {
        what: "size on the film",
        formula: "image distance ÷ subject distance; at infinity lens ÷ subject distance",
        figures: format!(
            "{} ÷ {}",
            figure(image_distance, 2),
            figure(found.subject_mm, 1)
        ),
        comes: format!("{} of life", figure(found.magnification, 4)),
        source: "thin lenses",
    });
    all.push(OpenedSum {
        what: "field",
        formula: "picture ÷ size on the film",
        figures: format!(
            "{} and {} ÷ {}",
            figure(wide, 2),
            figure(high, 2),
            figure(found.magnification, 4)
        ),
        comes: format!(
            "{} × {}",
            figure(found.field_mm[0], 1),
            mm(found.field_mm[1])
        ),
        source: "similar triangles",
    });
    all
}
