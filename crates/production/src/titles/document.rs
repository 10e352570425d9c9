//! The titles of a film as a document.

use std::collections::BTreeMap;

use onestrand_cut::PieceKind;
use onestrand_store::Production;

use super::kept::KeptTitle;
use super::reckoned::{Reckoned, Shop};
use super::stand_kept::stand_of;
use crate::ProductionError;
use crate::documents::{
    StandWords, TitleDocument, TitlePicturesDocument, TitleProblemDocument, TitleStandsDocument,
    TitlesDocument,
};

/// The titles of a film by the names of their pictures.
pub(crate) fn title_pictures(
    production: &Production,
) -> Result<Vec<TitlePicturesDocument>, ProductionError> {
    let stand = stand_of(production)?;
    let shop = Shop::of(production, &stand)?;
    let one = |kept: KeptTitle| {
        let crawled = super::lettered::crawl_high(production, &kept.title, &shop);
        // A film is shown also where the stand is set up wrongly: that is told among the
        // titles.
        let reckoned = Reckoned::of(&kept.title, &shop, crawled);
        Ok(TitlePicturesDocument {
            id: kept.id,
            says: kept
                .title
                .words
                .lines()
                .next()
                .unwrap_or_default()
                .to_owned(),
            frames: reckoned.map_or(0, |reckoned| reckoned.whole),
            drawn: super::lettered::fingerprint(production, &kept.title, &stand)?,
            name: kept.title.name,
        })
    };
    KeptTitle::all(production)?.into_iter().map(one).collect()
}

/// A card in a version: which version, which position from 1, how long.
struct Standing {
    cut: String,
    position: usize,
    frames: u32,
}

/// All titles of a film, with what is reckoned of each.
///
/// # Errors
/// [`ProductionError::Store`] when it cannot be read.
pub fn titles_document(production: &Production) -> Result<TitlesDocument, ProductionError> {
    let stand = stand_of(production)?;
    let mut standing = standing(production)?;
    let newest = production.cut_names()?.pop();
    let photographed = photographed(production)?;
    let mut titles = Vec::new();
    for kept in KeptTitle::all(production)? {
        let name = kept.title.name.to_uppercase();
        let stands = standing.remove(&name).unwrap_or_default();
        let shot = photographed.get(&name).copied().unwrap_or(0);
        titles.push(title_document(production, kept, &stand, stands, shot)?);
    }
    let is_newest = |s: &Standing| Some(&s.cut) == newest.as_ref();
    let named = standing.into_iter();
    let without = named.filter(|(_, all)| all.iter().any(is_newest));
    Ok(TitlesDocument {
        revision: production.revision()?.number(),
        whole: titles.iter().map(|t| t.whole).sum(),
        of_roll: titles.iter().map(|t| t.of_roll).sum(),
        titles,
        without_title: without.map(|(name, _)| name).collect(),
        stand,
        designs: super::lettered::designs(),
        rules: super::reckoned::rules(),
    })
}

fn title_document(
    production: &Production,
    kept: KeptTitle,
    stand: &StandWords,
    stands: Vec<Standing>,
    photographed: usize,
) -> Result<TitleDocument, ProductionError> {
    let shop = Shop::of(production, stand)?;
    let reckoned = Reckoned::of(
        &kept.title,
        &shop,
        super::lettered::crawl_high(production, &kept.title, &shop),
    )
    // A stand that cannot be is told with each title, and can be mended.
    .unwrap_or_else(|why| Reckoned::none(&kept.title, &why));
    let whole = reckoned.whole;
    let stands: Vec<TitleStandsDocument> = stands
        .into_iter()
        .map(|s| TitleStandsDocument {
            agrees: s.frames == whole,
            cut: s.cut,
            position: s.position,
            frames: s.frames,
        })
        .collect();
    let mut problems = reckoned.problems;
    let others = stands.iter().filter(|s| !s.agrees);
    problems.extend(others.map(|s| TitleProblemDocument {
        what: format!(
            "at position {} of {} it stands for {} frames, and its sheet exposes {whole}",
            s.position, s.cut, s.frames
        ),
        next: format!(
            "let the card in {} stand for {whole}, or change the title",
            s.cut
        ),
        refused: false,
    }));
    Ok(TitleDocument {
        id: kept.id,
        words: reckoned.words,
        by_rule: reckoned.by_rule,
        hold: reckoned.hold,
        whole,
        of_roll: reckoned.of_roll,
        photographed,
        stands,
        problems,
        drawn: super::lettered::fingerprint(production, &kept.title, stand)?,
        title: kept.title,
    })
}

/// Cards in all versions, by the name of the title, in capitals.
fn standing(production: &Production) -> Result<BTreeMap<String, Vec<Standing>>, ProductionError> {
    let mut all: BTreeMap<String, Vec<Standing>> = BTreeMap::new();
    for cut in production.cut_names()? {
        let pieces = crate::strand::cut(production, &cut)?;
        for (nth, piece) in pieces.pieces().iter().enumerate() {
            if let PieceKind::Card { frames, title } = &piece.kind {
                all.entry(title.trim().to_uppercase())
                    .or_default()
                    .push(Standing {
                        cut: cut.clone(),
                        position: nth + 1,
                        frames: frames.count(),
                    });
            }
        }
    }
    Ok(all)
}

/// Takes that the log names after a title and does not call no good, by the name in
/// capitals.
fn photographed(production: &Production) -> Result<BTreeMap<String, usize>, ProductionError> {
    let mut all = BTreeMap::new();
    for take in production.takes()? {
        if let (Some(setup), true) = (take.setup, take.rating != crate::script::NG) {
            *all.entry(setup.to_uppercase()).or_default() += 1;
        }
    }
    Ok(all)
}
