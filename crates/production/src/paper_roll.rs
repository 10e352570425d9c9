//! Rolls known on paper only.

use onestrand_film::{Frames, RollId};
use onestrand_store::{Act, InspectionRecord, Production, RollRecord, Workprints};

use crate::ProductionError;
use crate::documents::RollDocument;
use crate::known_words::known;

/// A roll that nobody has scanned.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PaperRoll {
    /// Its name.
    pub roll: String,
    /// Its length. Unit: frames.
    pub frames: u32,
    /// Its gauge; the production's when not said.
    pub gauge: Option<String>,
    /// The base.
    pub base: String,
    /// What it is fit for.
    pub fit: String,
    /// The wind.
    pub wind: Option<String>,
}

/// Adds a roll known on paper only. It is never proved: nothing was counted.
///
/// # Errors
/// [`ProductionError::RollThere`], [`ProductionError::Unit`],
/// [`ProductionError::Unfit`], [`ProductionError::Store`].
pub fn add_paper_roll(
    production: &mut Production,
    paper: &PaperRoll,
) -> Result<RollDocument, ProductionError> {
    let roll = on_paper(production, paper)?;
    let name = roll.name.clone();
    if production.roll(&name).is_ok() {
        return Err(ProductionError::RollThere { roll: name });
    }
    let act = Act::PutRoll {
        name: name.clone(),
        roll: Some(Box::new(roll)),
    };
    production.act(&format!("{name} on paper"), &act)?;
    let prints = Workprints::open(production.dir())?;
    crate::roll::document(production, &prints, &production.roll(&name)?)
}

/// A roll of which nothing is known but its length and what is said of it.
pub(crate) fn on_paper(
    production: &Production,
    paper: &PaperRoll,
) -> Result<RollRecord, ProductionError> {
    let meta = production.meta();
    let gauge = match &paper.gauge {
        Some(text) => text.parse()?,
        None => meta.gauge,
    };
    let roll = RollRecord {
        name: RollId::new(&paper.roll)?.to_string(),
        gauge: gauge.to_string(),
        film_speed: meta.speed.to_string(),
        base: paper.base.clone(),
        fit: paper.fit.clone(),
        wind: paper.wind.clone(),
        frames: Frames::new(paper.frames)?.count(),
        missing: 0,
        expected: None,
        measured: None,
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    };
    known(roll.to_model())?;
    Ok(roll)
}
