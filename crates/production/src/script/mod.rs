//! The film before it is shot: its script as it is kept, what is planned and what it
//! takes, what was shot of it.

mod at_work;
mod changes;
mod drawn;
mod export;
mod import;
mod kept;
mod letters;
mod photographs;
mod plan_checks;
mod plan_documents;
mod plan_film;
mod report;
mod stock;
mod wild;
mod words;

pub use changes::{ScriptChange, ScriptChangeKind};
pub use export::{export_script, export_wild_sounds};
pub use import::{import_script, import_script_text};
pub use photographs::{keep_photograph, photograph};
pub use plan_film::{PlanAsked, PlanWork, plan_film};
pub use stock::stock_for_load;

pub(crate) use at_work::setup_name_fits;
pub(crate) use drawn::NG;
pub(crate) use photographs::photograph_in;
pub(crate) use stock::{SET_MAY_GO, STOCK, stock_of};

use onestrand_store::Production;

use crate::ProductionError;
use crate::documents::ScriptDocument;

/// The shooting script of a film, with what covers what.
///
/// # Errors
/// [`ProductionError::Store`] when it cannot be read.
pub fn script_document(production: &Production) -> Result<ScriptDocument, ProductionError> {
    let kept = kept::KeptScript::read(production)?;
    let stock = stock::stock_of(production)?;
    let takes = drawn::takes_drawn(production)?;
    let shot = drawn::takes_by_setup(&takes);
    let script = kept.model();
    let mut planned = kept.model();
    crate::titles::plan_titles(production, &mut planned)?;
    let gauge = production.meta().gauge;
    let coverage = |c: &onestrand_plan::Coverage| plan_documents::coverage_document(c);
    Ok(ScriptDocument {
        revision: production.revision()?.number(),
        scenes: kept.scene_documents(),
        setups: kept.setup_documents(&planned, production.meta().speed, &stock, &shot)?,
        wild_sounds: kept.wild_sound_documents(),
        floor_plans: kept.floor_plan_documents(gauge),
        recces: kept.recce_documents(),
        load_footage: gauge
            .footage(onestrand_film::Frames::new(stock.load)?)
            .into(),
        planned: coverage(&onestrand_plan::planned_coverage(&script)),
        shot: (!takes.is_empty()).then(|| coverage(&onestrand_plan::coverage(&script, &shot))),
        problems: plan_documents::problems(production, &script, &stock)?,
        takes,
        set_may_go: crate::kept_list::read(production, SET_MAY_GO)?,
        stock,
    })
}
