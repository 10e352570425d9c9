//! Titles as they are lettered.

use onestrand_film::FrameName;
use onestrand_lettering::{Across, CardAsked, Design, Down, SetCard, set};
use onestrand_store::{Production, Workprints};

use super::field::Field;
use super::kept::KeptTitle;
use super::reckoned::Shop;
use super::stand_kept::stand_of;
use crate::ProductionError;
use crate::documents::{
    CardDesignDocument, LettersAcrossWord, LettersDownWord, StandWords, TitleGroundWord, TitleWords,
};

/// The card designs there are.
pub(super) fn designs() -> Vec<CardDesignDocument> {
    let one = |design: Design| CardDesignDocument {
        word: design.word().to_owned(),
        name: design.name().to_owned(),
        about: design.about().to_owned(),
    };
    Design::ALL.into_iter().map(one).collect()
}

/// Changes whenever the pictures of a title do.
pub(super) fn fingerprint(
    production: &Production,
    title: &TitleWords,
    stand: &StandWords,
) -> Result<String, ProductionError> {
    let mut all = serde_json::to_vec(title).unwrap_or_default();
    all.extend(serde_json::to_vec(stand).unwrap_or_default());
    if title.shooting.dissolve > 0 {
        let next = KeptTitle::named(production, &title.shooting.dissolve_to)?;
        all.extend(serde_json::to_vec(&next.map(|kept| kept.title)).unwrap_or_default());
    }
    if let (TitleGroundWord::Frame, Ok(frame)) =
        (title.ground.kind, title.ground.frame.parse::<FrameName>())
    {
        let prints = Workprints::open(production.dir())?;
        let pictures = prints.identity(frame.roll.as_str())?;
        all.extend(pictures.unwrap_or_default().bytes());
    }
    // A newer program may letter otherwise: a picture kept by the page is not shown then.
    all.extend(env!("CARGO_PKG_VERSION").bytes());
    Ok(blake3::hash(&all).to_hex()[..16].to_owned())
}

/// The same, for whoever keeps pictures of titles by it.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn title_pictures_name(
    production: &Production,
    title: &TitleWords,
) -> Result<String, ProductionError> {
    fingerprint(production, title, &stand_of(production)?)
}

/// The lettering of a title, set for the field of the stand.
pub(super) fn set_title(
    production: &Production,
    title: &TitleWords,
    shop: &Shop<'_>,
) -> Result<SetCard, ProductionError> {
    Ok(set(&card_asked(production, title, shop)?)?)
}

/// How tall the lettering of a crawl is. Unit: picture heights. Nothing where it does not
/// crawl, or cannot be set: that is told elsewhere.
pub(super) fn crawl_high(
    production: &Production,
    title: &TitleWords,
    shop: &Shop<'_>,
) -> Option<f64> {
    if title.shooting.crawl == 0 {
        return None;
    }
    let card = set_title(production, title, shop).ok()?;
    Some(card.full_height())
}

pub(super) fn card_asked(
    production: &Production,
    title: &TitleWords,
    shop: &Shop<'_>,
) -> Result<CardAsked, ProductionError> {
    let letters = &title.lettering;
    let design: Design = letters.design.parse()?;
    let face = match letters.face.as_str() {
        "" => None,
        name => Some(super::pictures::kept_file(production, name)?),
    };
    let field = Field::of(shop)?;
    Ok(CardAsked {
        safe: f64::from(shop.stand.safe) / 100.0,
        letter_height: letters.letter_height.map(|n| f64::from(n) / 1000.0),
        across: match letters.across {
            LettersAcrossWord::Left => Across::Left,
            LettersAcrossWord::Centre => Across::Centre,
            LettersAcrossWord::Right => Across::Right,
        },
        down: match letters.down {
            LettersDownWord::Top => Down::Top,
            LettersDownWord::Middle => Down::Middle,
            LettersDownWord::Low => Down::Low,
        },
        outline: letters.outline,
        shadow: letters.shadow,
        plate: letters.plate,
        dark_on_light: letters.dark,
        face,
        crawl: title.shooting.crawl > 0,
        ..CardAsked::new(title.words.clone(), design, field.aperture_mm)
    })
}
