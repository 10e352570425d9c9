//! The copy stand: where the artwork lies, and how much of it is on the film.

use onestrand_film::Aperture;

use crate::title_error::{TitleError, within};

/// What is settled on a copy stand.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum StandBy {
    /// The width of what the camera takes in. Unit: millimetres on the artwork.
    Width(f64),
    /// From the lens to the artwork. Unit: millimetres.
    Distance(f64),
}

/// Camera, lens and what is settled.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StandAsked {
    /// The gate of the camera, measured or of its gauge.
    pub gate: Aperture,
    /// What the projector shows of it.
    pub shown: Aperture,
    /// The lens. Unit: millimetres. Range: 1 to 2,000.
    pub lens_mm: f64,
    /// What is settled.
    pub by: StandBy,
    /// Part of what is shown in which lettering is safe. Range: 0.5 to 1.
    pub safe: f64,
    /// The nearest mark on the lens, as engraved: from the film. Unit: millimetres.
    pub closest_mm: Option<f64>,
}

/// Lettering keeps within 80 per cent of what is shown: the older recommendation of the
/// SMPTE (RP 27.3) for titles; the newer (ST 2046-1) has 90. Both from memory.
pub const SAFE: f64 = 0.8;

/// A copy stand set up. All lengths in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Stand {
    /// Size on the film against size on the artwork.
    pub magnification: f64,
    /// From the lens, or the close-up lens before it, to the artwork.
    pub subject_mm: f64,
    /// From the film to the artwork, the lens taken as thin.
    pub film_to_subject_mm: f64,
    /// From the lens to the film.
    pub image_mm: f64,
    /// What the lens is set to; none at infinity.
    pub focus_mm: Option<f64>,
    /// Light lost because the lens is drawn out: open by as much. Unit: stops.
    pub exposure_stops: f64,
    /// What the camera takes in, wide and high.
    pub field_mm: [f64; 2],
    /// What of it is shown.
    pub shown_mm: [f64; 2],
    /// What of that is safe for lettering.
    pub safe_mm: [f64; 2],
}

/// Width and height of an aperture. Unit: millimetres.
#[must_use]
pub fn aperture_mm(aperture: Aperture) -> [f64; 2] {
    [aperture.width_um, aperture.height_um].map(|um| f64::from(um) / 1000.0)
}

pub(crate) fn lens_fits(lens_mm: f64) -> Result<f64, TitleError> {
    let hint = "the focal length stands on the front of the lens, such as 25 mm";
    within("the lens in mm", lens_mm, (1.0, 2_000.0), hint)
}

/// The field of a lens on the copy stand, both ways.
///
/// Source: the thin lens. Size m = gate ÷ field; artwork to lens f (1 + 1/m); lens to film
/// f (1 + m); light (1 + m)² times as much, 2 log2(1 + m) stops.
///
/// # Errors
/// [`TitleError::OutOfRange`] for what no stand is, [`TitleError::TooNear`] where the lens
/// cannot be focused so near, with the close-up lens that would do it.
///
/// ```
/// # use onestrand_film::{Aperture, Gauge};
/// # use onestrand_title::{SAFE, StandAsked, StandBy, copy_stand};
/// let gate = Aperture { width_um: 5_690, height_um: 4_220, source: "measured" };
/// let shown = Gauge::Super8.spec().shown;
/// let by = StandBy::Width(240.0);
/// let asked = StandAsked { gate, shown, lens_mm: 25.0, by, safe: SAFE, closest_mm: None };
/// let stand = copy_stand(&asked)?;
/// assert_eq!(format!("{:.1}", stand.subject_mm), "1079.5");
/// assert!(copy_stand(&StandAsked { closest_mm: Some(1_500.0), ..asked }).is_err());
/// # Ok::<(), onestrand_title::TitleError>(())
/// ```
pub fn copy_stand(asked: &StandAsked) -> Result<Stand, TitleError> {
    let lens = lens_fits(asked.lens_mm)?;
    let [gate, _] = aperture_mm(asked.gate);
    let magnification = match asked.by {
        StandBy::Width(width) => gate / width_fits(width)?,
        StandBy::Distance(distance) => {
            let hint =
                "measure from the lens to the artwork; it lies further off than the lens is long";
            let least = lens * 1.01;
            let far = within("the distance in mm", distance, (least, 20_000.0), hint)?;
            lens / (far - lens)
        }
    };
    let subject = lens * (1.0 + 1.0 / magnification);
    let image = lens * (1.0 + magnification);
    if let Some(closest) = asked.closest_mm {
        reaches(lens, subject, image, closest)?;
    }
    stand_of(asked, magnification, subject, Some(subject))
}

pub(crate) fn width_fits(width: f64) -> Result<f64, TitleError> {
    let hint = "the width of the artwork that the camera is to take in, such as 240 mm";
    within("the width of the field in mm", width, (2.0, 5_000.0), hint)
}

/// The stand for a size on the film and a distance that were found elsewhere, through a
/// close-up lens. `asked.by` and `asked.closest_mm` are not looked at.
///
/// # Errors
/// [`TitleError::OutOfRange`] for a lens, a safe part or sizes that cannot be.
pub fn stand_of(
    asked: &StandAsked,
    magnification: f64,
    subject_mm: f64,
    focus_mm: Option<f64>,
) -> Result<Stand, TitleError> {
    let lens = lens_fits(asked.lens_mm)?;
    let hint = "80 for titles is usual: the part of what is shown that is safe, in per cent";
    let safe = within("the safe part", asked.safe, (0.5, 1.0), hint)?;
    let hint = "take a longer or a shorter lens";
    let m = within("the size on the film", magnification, (1e-4, 100.0), hint)?;
    let image = m * subject_mm;
    let on_art = |aperture| aperture_mm(aperture).map(|side| side / m);
    let shown = on_art(asked.shown);
    Ok(Stand {
        magnification: m,
        subject_mm,
        film_to_subject_mm: subject_mm + image,
        image_mm: image,
        focus_mm,
        exposure_stops: 2.0 * (image / lens).log2(),
        field_mm: on_art(asked.gate),
        shown_mm: shown,
        safe_mm: shown.map(|side| side * safe),
    })
}

/// The powers in which close-up lenses are sold. Unit: dioptres. Common practice, from
/// memory.
const POWERS: [f64; 7] = [0.25, 0.5, 1.0, 2.0, 3.0, 4.0, 10.0];

/// From the lens to the nearest thing it focuses on, of the nearest mark, which counts
/// from the film: u + f u/(u − f) = mark.
fn nearest_subject(lens: f64, mark: f64) -> f64 {
    let root = (mark * mark - 4.0 * mark * lens).max(0.0).sqrt();
    f64::midpoint(mark, root)
}

/// The usual close-up lens, or two of them, behind which a lens whose nearest mark is so far
/// from the film reaches artwork so far from the lens. Empty where none does. Lengths in
/// millimetres, powers in dioptres.
#[must_use]
pub fn close_up_reaching(lens_mm: f64, subject_mm: f64, closest_mm: f64) -> Vec<f64> {
    powers_for(subject_mm, nearest_subject(lens_mm, closest_mm))
}

fn reaches(lens: f64, subject: f64, image: f64, closest: f64) -> Result<(), TitleError> {
    let hint = "the nearest mark counts from the film, such as 1.2m";
    let least = 4.0 * lens;
    let closest = within("the nearest mark in mm", closest, (least, 1e5), hint)?;
    if subject + image >= closest - 1e-9 {
        return Ok(());
    }
    Err(TitleError::TooNear {
        nearest_mm: closest,
        wanted_mm: subject + image,
        close_up: close_up_reaching(lens, subject, closest),
    })
}

/// The usual close-up lens, or two of them, through which a lens that focuses from
/// `nearest` to infinity reaches `subject`. Empty where none does.
fn powers_for(subject: f64, nearest: f64) -> Vec<f64> {
    // Through power D the artwork is sharp from 1/(D + 1/nearest) to 1/D.
    let (least, most) = (1000.0 / subject - 1000.0 / nearest, 1000.0 / subject);
    let does = |power: f64| (least - 1e-9..=most + 1e-9).contains(&power);
    let single = POWERS.iter().map(|one| vec![*one]);
    let double = POWERS
        .iter()
        .flat_map(|one| POWERS.iter().map(move |two| vec![*one, *two]))
        .filter(|two| two[0] < two[1]);
    let mut found: Vec<Vec<f64>> = single
        .chain(double)
        .filter(|all| does(all.iter().sum()))
        .collect();
    // Of those that reach, the one that leaves the lens most play to both sides.
    let middle = f64::midpoint(least, most);
    let play = |all: &Vec<f64>| (all.iter().sum::<f64>() - middle).abs();
    found.sort_by(|a, b| (a.len().cmp(&b.len())).then(play(a).total_cmp(&play(b))));
    found.into_iter().next().unwrap_or_default()
}

/// What a lens must be set to behind close-up lenses, for a size on the film.
///
/// Source: behind power D the size is f (D s + 1) ÷ (s − f), the thin lens set to s; so
/// s = f (1 + m) ÷ (m − f D). `None` is infinity.
///
/// # Errors
/// [`TitleError::CloseUpTooStrong`] where the field is wider than the lens shows at
/// infinity; [`TitleError::OutOfRange`] for a lens or a width that cannot be.
pub fn focus_behind(
    gate: Aperture,
    lens_mm: f64,
    dioptres: f64,
    width_mm: f64,
) -> Result<Option<f64>, TitleError> {
    let lens = lens_fits(lens_mm)?;
    let [gate, _] = aperture_mm(gate);
    let size = gate / width_fits(width_mm)?;
    let at_infinity = lens * dioptres / 1000.0;
    let widest = gate / at_infinity;
    // A hundredth of a millimetre more than the widest is the widest.
    if (width_mm - widest).abs() < 0.01 {
        return Ok(None);
    }
    if size < at_infinity {
        return Err(TitleError::CloseUpTooStrong {
            dioptres,
            lens_mm: lens,
            widest_mm: widest,
            wanted_mm: width_mm,
            at_most: size * 1000.0 / lens,
        });
    }
    Ok(Some(lens * (1.0 + size) / (size - at_infinity)))
}

/// What a lens must be set to behind close-up lenses, for a distance from them.
///
/// # Errors
/// [`TitleError::OutOfRange`] for a distance beyond what the close-up lens shows at
/// infinity, 1 ÷ power.
pub fn focus_behind_for(dioptres: f64, subject_mm: f64) -> Result<Option<f64>, TitleError> {
    let furthest = 1000.0 / dioptres;
    let hint = "through a close-up lens the furthest is 1 metre ÷ its power";
    let most = (1.0, furthest + 0.05);
    let subject = within("the distance in mm", subject_mm, most, hint)?;
    let vergence = 1000.0 / subject - dioptres;
    Ok((vergence > 1e-6).then(|| 1000.0 / vergence))
}

/// From where to where it is sharp before close-up lenses, of a lens that is set to
/// `focus` and sharp from `near` on without them. All in millimetres.
///
/// Source: the close-up lens adds its power to the vergence of either limit; near and far
/// limit lie about the focus so that 1/near + 1/far = 2/focus, also where the far one lies
/// beyond infinity.
#[must_use]
pub fn sharp_behind(near_mm: f64, focus_mm: Option<f64>, dioptres: f64) -> (f64, Option<f64>) {
    let near = 1000.0 / near_mm;
    let far = focus_mm.map_or(0.0, |focus| 2000.0 / focus) - near;
    let before = |vergence: f64| 1000.0 / (vergence + dioptres);
    let far = Some(before(far)).filter(|far| *far > 0.0);
    (before(near), far)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_close_up_lens_named_does_it() {
        for (subject, nearest) in [(1_079.5, 1_200.0), (400.0, 1_500.0), (150.0, 900.0)] {
            let powers = powers_for(subject, nearest);
            let power: f64 = powers.iter().sum();
            assert!(!powers.is_empty(), "{subject}");
            let at_infinity = 1000.0 / power;
            let at_nearest = 1000.0 / (power + 1000.0 / nearest);
            assert!(
                at_nearest <= subject && subject <= at_infinity,
                "{powers:?}"
            );
        }
        assert!(powers_for(20.0, 60.0).is_empty());
    }

    #[test]
    fn the_nearest_mark_counts_from_the_film() {
        let near = nearest_subject(25.0, 1_000.0);
        let image = 25.0 * near / (near - 25.0);
        assert!((near + image - 1_000.0).abs() < 1e-9);
    }
}
