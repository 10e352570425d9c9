//! Which lens and distance gives which view of a standing person.

use onestrand_film::Aperture;

use super::camera_error::{CameraError, distance_fits, lens_fits, within};
use super::field_of_view::{far_enough, image_taken, size_mm};
use super::figures::{figure, metres};
use super::opened_sum::{OpenedSum, Reckoned};

/// How much of a standing person is in the picture.
///
/// The heights are common practice, from memory, and no standard: shares of the
/// person's height that fill the picture from foot to head, with the usual air over
/// the head. Whoever frames otherwise says the height.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FramedSize {
    /// Small in the place: two and a half times the person's height.
    Long,
    /// From head to foot.
    Full,
    /// From the waist up.
    Medium,
    /// From the chest up.
    MediumClose,
    /// Head and shoulders.
    Close,
    /// Eyes and mouth.
    ExtremeClose,
}

impl FramedSize {
    /// Far to near.
    pub const ALL: [Self; 6] = [
        Self::Long,
        Self::Full,
        Self::Medium,
        Self::MediumClose,
        Self::Close,
        Self::ExtremeClose,
    ];

    /// What of a person one sees, as the slate has it.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Long => "long",
            Self::Full => "full",
            Self::Medium => "medium",
            Self::MediumClose => "medium close",
            Self::Close => "close",
            Self::ExtremeClose => "extreme close",
        }
    }

    /// Height of the picture. Unit: heights of the person.
    #[must_use]
    pub const fn share(self) -> f64 {
        match self {
            Self::Long => 2.5,
            Self::Full => 1.12,
            Self::Medium => 0.46,
            Self::MediumClose => 0.33,
            Self::Close => 0.23,
            Self::ExtremeClose => 0.1,
        }
    }

    /// Where the upper edge of the picture lies. Unit: heights of the person over the
    /// floor.
    const fn upper_edge(self) -> f64 {
        match self {
            Self::Long => 1.7,
            Self::Full => 1.06,
            Self::Medium => 1.04,
            Self::MediumClose => 1.03,
            Self::Close => 1.02,
            Self::ExtremeClose => 0.985,
        }
    }

    /// The size whose height is nearest, by how many times it is more or less.
    fn nearest(share: f64) -> Self {
        let apart = |size: Self| (size.share() / share).ln().abs();
        let by = |a: &Self, b: &Self| apart(*a).total_cmp(&apart(*b));
        Self::ALL.into_iter().min_by(by).unwrap_or(Self::Full)
    }
}

/// Two of what is shown, lens and distance make the third.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct FramingAsked {
    /// The picture in the camera.
    pub image: Aperture,
    /// The standing person. Unit: millimetres. Range: 300 to 3,000.
    pub person_mm: f64,
    /// The size wanted.
    pub size: Option<FramedSize>,
    /// The height of the picture wanted, instead of a size. Unit: millimetres.
    pub height_mm: Option<f64>,
    /// The lens. Unit: millimetres.
    pub lens_mm: Option<f64>,
    /// From the lens to the person. Unit: millimetres.
    pub distance_mm: Option<f64>,
}

/// Another size with the same lens, or at the same place.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct SizeAtHand {
    /// The size.
    pub size: FramedSize,
    /// Its lens. Unit: millimetres.
    pub lens_mm: f64,
    /// Its distance. Unit: millimetres.
    pub distance_mm: f64,
}

/// A lens, a place and what they show of a person.
#[derive(Debug, Clone, PartialEq)]
pub struct Framing {
    /// The lens. Unit: millimetres.
    pub lens_mm: f64,
    /// From the lens to the person. Unit: millimetres.
    pub distance_mm: f64,
    /// Width and height of what is shown there. Unit: millimetres.
    pub field_mm: [f64; 2],
    /// The size that comes nearest.
    pub size: FramedSize,
    /// Over the floor: the lower and the upper edge of the picture. Unit: millimetres.
    pub edges_mm: [f64; 2],
    /// All sizes: with the lens where the distance was wanted, at the place where the
    /// lens was.
    pub sizes: Vec<SizeAtHand>,
}

/// Which lens, which distance, or which view.
///
/// Source: the thin lens, size on the film ÷ size in life = lens ÷ (distance − lens),
/// so distance = lens × (1 + shown height ÷ image height).
///
/// # Errors
/// [`CameraError::Unsaid`] unless just two of view, lens and distance are said,
/// [`CameraError::OutOfRange`] for what cannot be.
///
/// ```
/// # use onestrand_film::Gauge;
/// # use onestrand_plan::camera::{FramedSize, FramingAsked, framing};
/// let image = Gauge::Super8.spec().camera;
/// let asked = FramingAsked {
///     image, person_mm: 1_700.0, size: Some(FramedSize::MediumClose), height_mm: None,
///     lens_mm: Some(25.0), distance_mm: None,
/// };
/// let found = framing(&asked)?.value;
/// assert_eq!(format!("{:.2}", found.distance_mm / 1000.0), "3.52");
/// assert!(framing(&FramingAsked { lens_mm: None, ..asked }).is_err());
/// # Ok::<(), onestrand_plan::camera::CameraError>(())
/// ```
pub fn framing(asked: &FramingAsked) -> Result<Reckoned<Framing>, CameraError> {
    let hint = "a grown person is about 1.7 m high";
    let person = within(
        "the person's height in mm",
        asked.person_mm,
        (300.0, 3_000.0),
        hint,
    )?;
    let image_high = size_mm(asked.image)[1];
    let wanted = wanted_height(asked, person)?;
    let (lens, distance) = match (wanted, asked.lens_mm, asked.distance_mm) {
        (Some(height), Some(lens), None) => {
            let lens = lens_fits(lens)?;
            (lens, distance_fits(lens * (1.0 + height / image_high))?)
        }
        (Some(height), None, Some(distance)) => {
            let distance = distance_fits(distance)?;
            (lens_fits(distance / (1.0 + height / image_high))?, distance)
        }
        (None, Some(lens), Some(distance)) => {
            let (lens, distance) = (lens_fits(lens)?, distance_fits(distance)?);
            far_enough(distance, lens)?;
            (lens, distance)
        }
        _ => {
            return Err(CameraError::Unsaid {
                message: "two of view, lens and distance make the third",
                hint: "say just two, such as a medium close view with a lens of 25 mm",
            });
        }
    };
    let by_distance = asked.distance_mm.is_some() && asked.lens_mm.is_none();
    let value = view(asked, (lens, distance), person, by_distance);
    let sums = sums(&value, image_high, person, asked);
    let taken = vec![
        image_taken(asked.image),
        format!(
            "a person {} high, upright, the lens level with the middle of what is shown",
            metres(person)
        ),
        "how much of a person each size shows is common practice, from memory, and no standard"
            .to_owned(),
    ];
    Ok(Reckoned { value, sums, taken })
}

/// How high the picture is to be at the person.
fn wanted_height(asked: &FramingAsked, person: f64) -> Result<Option<f64>, CameraError> {
    let said = match (asked.size, asked.height_mm) {
        (Some(_), Some(_)) => {
            return Err(CameraError::Unsaid {
                message: "a size and a height are both said",
                hint: "say one of them: the height is for whoever frames otherwise",
            });
        }
        (Some(size), None) => Some(size.share() * person),
        (None, height) => height,
    };
    let hint = "say the height that fills the picture, such as 65cm";
    said.map(|height| within("the height shown in mm", height, (1.0, 1e6), hint))
        .transpose()
}

fn view(
    asked: &FramingAsked,
    (lens, distance): (f64, f64),
    person: f64,
    by_distance: bool,
) -> Framing {
    let [wide, high] = size_mm(asked.image);
    let scale = (distance - lens) / lens;
    let shown = high * scale;
    let size = asked
        .size
        .unwrap_or_else(|| FramedSize::nearest(shown / person));
    let sizes = FramedSize::ALL.into_iter().map(|size| {
        let times = 1.0 + size.share() * person / high;
        let (lens_mm, distance_mm) = match by_distance {
            true => (distance / times, distance),
            false => (lens, lens * times),
        };
        SizeAtHand {
            size,
            lens_mm,
            distance_mm,
        }
    });
    Framing {
        lens_mm: lens,
        distance_mm: distance,
        field_mm: [wide * scale, shown],
        size,
        edges_mm: edges(size, shown, person),
        sizes: sizes.collect(),
    }
}

/// Where the edges of the picture lie: air over the head as the size has it, and the
/// person in the middle where all of them is small in it.
fn edges(size: FramedSize, shown: f64, person: f64) -> [f64; 2] {
    let air = (size.upper_edge() - 1.0) * shown / size.share();
    let upper = person + air;
    [upper - shown, upper]
}

fn sums(found: &Framing, image_high: f64, person: f64, asked: &FramingAsked) -> Vec<OpenedSum> {
    let height = found.field_mm[1];
    let (lens, far) = (
        figure(found.lens_mm, 2),
        figure(found.distance_mm / 1000.0, 3),
    );
    let mut all = Vec::new();
    if let Some(size) = asked.size {
        all.push(OpenedSum {
            what: "height shown",
            formula: "share of a person that the size shows × their height",
            figures: format!(
                "{} ({}) × {}",
                figure(size.share(), 2),
                size.word(),
                metres(person)
            ),
            comes: metres(height),
            source: "common practice, from memory: say the height where you frame otherwise",
        });
    }
    let (high, image) = (figure(height, 1), figure(image_high, 2));
    all.push(match (asked.lens_mm, asked.distance_mm) {
        (Some(_), None) => OpenedSum {
            what: "distance",
            formula: "lens × (1 + height shown ÷ height of the image)",
            figures: format!("{lens} × (1 + {high} ÷ {image})"),
            comes: metres(found.distance_mm),
            source: THIN,
        },
        (None, _) => OpenedSum {
            what: "lens",
            formula: "distance ÷ (1 + height shown ÷ height of the image)",
            figures: format!("{far} m ÷ (1 + {high} ÷ {image})"),
            comes: format!("{} mm", figure(found.lens_mm, 1)),
            source: THIN,
        },
        (Some(_), Some(_)) => OpenedSum {
            what: "height shown",
            formula: "height of the image × (distance − lens) ÷ lens",
            figures: format!(
                "{image} × ({} − {lens}) ÷ {lens}",
                figure(found.distance_mm, 0)
            ),
            comes: metres(height),
            source: THIN,
        },
    });
    all
}

const THIN: &str = "thin lens: size on the film ÷ size in life = lens ÷ (distance − lens)";
