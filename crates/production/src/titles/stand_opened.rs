//! The sums of the copy stand, opened.

use onestrand_film::Aperture;
use onestrand_title::{Stand, StandAsked, aperture_mm};

use super::opened_sum::{mm, sides, sum};
use super::stand::{SetUp, Sharp};
use crate::camera::{figure, plate, signed};
use crate::documents::{CameraOpenedDocument, CameraSumDocument, TitleLettersDocument};

pub(super) fn opened(
    asked: &StandAsked,
    set: &SetUp,
    sharp: Option<&Sharp>,
    letters: &[TitleLettersDocument],
) -> CameraOpenedDocument {
    let stand = &set.stand;
    let mut sums = match set.close_up.is_empty() {
        true => plain_sums(asked, stand),
        false => set.close_up.clone(),
    };
    sums.extend(field_sums(asked, stand));
    if let Some(sharp) = sharp {
        sums.extend(sharp.sums.iter().cloned());
    }
    for one in letters {
        sums.push(sum(
            "height of letters",
            "2 × last row × tan(arc ÷ 2); on the artwork × shown ÷ screen",
            format!(
                "{} minutes of arc, {}",
                figure(one.arc_minutes, 1),
                one.rule
            ),
            format!(
                "{} on the screen, {} on the artwork",
                mm(one.on_screen_mm),
                mm(one.on_art_mm)
            ),
            &one.source,
        ));
    }
    let distance = figure(stand.subject_mm, 1);
    let mut plates = vec![
        plate("distance", distance.clone(), "mm from the lens"),
        plate("field", sides(stand.field_mm, 1), "the camera takes in"),
        plate("shown", sides(stand.shown_mm, 1), "on the screen"),
        plate("safe", sides(stand.safe_mm, 1), "for lettering"),
        plate("light", signed(stand.exposure_stops, 2), "stops to open"),
    ];
    if let Some(sharp) = sharp {
        let far = sharp.far.map_or("∞".to_owned(), |mm| figure(mm, 0));
        plates.push(plate(
            "sharp",
            format!("{} to {far}", figure(sharp.near, 0)),
            "mm from the lens",
        ));
    }
    let before = match set.dioptres == 0.0 {
        true => String::new(),
        false => format!(" behind +{}", figure(set.dioptres, 2)),
    };
    let set_to = match stand.focus_mm {
        Some(_) if set.dioptres == 0.0 => String::new(),
        Some(focus) => format!(", set to {} m", figure(focus / 1000.0, 3)),
        None => ", set to infinity".to_owned(),
    };
    CameraOpenedDocument {
        plates,
        sums,
        taken: taken(asked),
        text: format!(
            "{} mm lens{before}{set_to}: artwork {distance} mm from the lens, field {}, safe {}, open {} stop",
            figure(asked.lens_mm, 1),
            sides(stand.field_mm, 1),
            sides(stand.safe_mm, 1),
            signed(stand.exposure_stops, 2)
        ),
    }
}

fn taken(asked: &StandAsked) -> Vec<String> {
    let named = |what: &str, aperture: Aperture| {
        format!(
            "{what} {}: {}",
            sides(aperture_mm(aperture), 2),
            aperture.source
        )
    };
    let safe = figure(asked.safe * 100.0, 0);
    vec![
        named("the gate of the camera is", asked.gate),
        named("the projector shows", asked.shown),
        format!("{safe} per cent of what is shown is safe: 80 for titles by SMPTE RP 27.3, 90 by the newer ST 2046-1, both from memory"),
        "the lens is taken as thin: set it by its ring, then look through the finder at a ruled card".to_owned(),
    ]
}

fn plain_sums(asked: &StandAsked, stand: &Stand) -> Vec<CameraSumDocument> {
    const THIN: &str = "thin lens";
    let [gate, _] = aperture_mm(asked.gate);
    let (lens, m) = (figure(asked.lens_mm, 2), figure(stand.magnification, 5));
    vec![
        sum(
            "size on the film",
            "gate ÷ field",
            format!("{} ÷ {}", figure(gate, 2), figure(stand.field_mm[0], 1)),
            m.clone(),
            "similar triangles",
        ),
        sum(
            "lens to artwork",
            "lens × (1 + 1 ÷ size)",
            format!("{lens} × (1 + 1 ÷ {m})"),
            mm(stand.subject_mm),
            THIN,
        ),
        sum(
            "lens to film",
            "lens × (1 + size)",
            format!("{lens} × (1 + {m})"),
            format!("{} mm", figure(stand.image_mm, 2)),
            THIN,
        ),
    ]
}

fn field_sums(asked: &StandAsked, stand: &Stand) -> Vec<CameraSumDocument> {
    let m = figure(stand.magnification, 5);
    let lens = figure(asked.lens_mm, 2);
    let over = |aperture: Aperture| format!("{} ÷ {m}", sides(aperture_mm(aperture), 2));
    vec![
        sum(
            "light lost",
            "2 × log2(lens to film ÷ lens)",
            format!("2 × log2({} ÷ {lens})", figure(stand.image_mm, 2)),
            format!("{} stop", signed(stand.exposure_stops, 2)),
            "light falls with the square of the distance from lens to film",
        ),
        sum(
            "field",
            "gate ÷ size",
            over(asked.gate),
            sides(stand.field_mm, 1),
            "similar triangles",
        ),
        sum(
            "shown",
            "projected aperture ÷ size",
            over(asked.shown),
            sides(stand.shown_mm, 1),
            asked.shown.source,
        ),
        sum(
            "safe for lettering",
            "shown × safe part",
            format!("{} × {}", sides(stand.shown_mm, 1), figure(asked.safe, 2)),
            sides(stand.safe_mm, 1),
            "SMPTE RP 27.3, from memory",
        ),
    ]
}
