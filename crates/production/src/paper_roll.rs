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
    let name = RollId::new(&paper.roll)?.to_string();
    let frames = Frames::new(paper.frames)?;
    let gauge = match &paper.gauge {
        Some(text) => text.parse()?,
        None => production.meta().gauge,
    };
    if production.roll(&name).is_ok() {
        return Err(ProductionError::RollThere { roll: name });
    }
    let roll = RollRecord {
        name: name.clone(),
        gauge: gauge.to_string(),
        film_speed: production.meta().speed.to_string(),
        base: paper.base.clone(),
        fit: paper.fit.clone(),
        wind: paper.wind.clone(),
        frames: frames.count(),
        missing: 0,
        expected: None,
        measured: None,
        shrinkage: None,
        proved_by: None,
        inspection: InspectionRecord::default(),
        scans: Vec::new(),
    };
    known(roll.to_model())?;
    let act = Act::PutRoll {
        name: name.clone(),
        roll: Some(Box::new(roll)),
    };
    production.act(&format!("{name} on paper"), &act)?;
    let prints = Workprints::open(production.dir())?;
    crate::roll::document(production, &prints, &production.roll(&name)?)
}
