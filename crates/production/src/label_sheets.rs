//! Labels of reels on paper, out of the make-up of the reels.

use std::path::Path;

use onestrand_film::{RollId, RunningTime};
use onestrand_sheets::{self as forms, Head, Paper, ReelLabel, ReelLabels, ReelLies};
use onestrand_store::Production;

use crate::error::unfit;
use crate::finish::rolls_of;
use crate::gather_sheets::roll_state;
use crate::print_sheets::write_whole;
use crate::reel_plan::{footage_words, planned};
use crate::{PrintedSheet, ProductionError, ReelPlanRequest, strand};

/// Labels for every reel of a make-up; set without the production.
#[derive(Debug)]
pub struct ReelLabelsToPrint {
    labels: ReelLabels,
    name: String,
}

/// Gathers the labels of all reels that a make-up fills.
///
/// # Errors
/// [`ProductionError::Unfit`] when the reels do not take the films, and what
/// [`reel_plan`](crate::reel_plan()) refuses.
pub fn gather_reel_labels(
    production: &Production,
    request: &ReelPlanRequest,
    letter: bool,
) -> Result<ReelLabelsToPrint, ProductionError> {
    let (plan, cards) = planned(production, request)?;
    if cards.is_empty() {
        return Err(unfit(
            plan.problem,
            "labels are printed once the films fit on reels",
        ));
    }
    let mut rolls: Vec<RollId> = Vec::new();
    for name in &request.cuts {
        for roll in rolls_of(&strand::cut(production, name)?) {
            if !rolls.contains(&roll) {
                rolls.push(roll);
            }
        }
    }
    let states = rolls
        .iter()
        .map(|id| roll_state(id, &production.roll(id.as_str())?));
    let head = Head {
        title: production.meta().title.clone(),
        version: request.cuts.join(" · "),
        gauge: production.meta().gauge,
        speed: production.meta().speed,
        joins: Vec::new(),
        rolls: states.collect::<Result<_, ProductionError>>()?,
        paper: if letter { Paper::Letter } else { Paper::A4 },
    };
    Ok(ReelLabelsToPrint {
        name: format!(
            "{}-reel-labels.pdf",
            crate::gather_sheets::file_word(&head.version)
        ),
        labels: ReelLabels {
            head,
            reels: cards.iter().map(|card| card.on_paper()).collect(),
        },
    })
}

impl ReelLabelsToPrint {
    /// Sets the form and writes it to a new file.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`], [`ProductionError::Unfit`] when the file is there
    /// already, [`ProductionError::File`].
    pub fn write(&self, path: &Path) -> Result<(), ProductionError> {
        if path.exists() {
            return Err(unfit(
                format!("{} is there already", path.display()),
                "name a new file",
            ));
        }
        write_whole(path, &self.print()?.pdf)
    }

    /// Sets the form.
    ///
    /// # Errors
    /// [`ProductionError::Sheets`].
    pub fn print(&self) -> Result<PrintedSheet, ProductionError> {
        let forms::Printed { pdf, pages, .. } = forms::print_reel_labels(&self.labels)?;
        Ok(PrintedSheet {
            sheet: "reel-labels",
            file_name: self.name.clone(),
            pdf,
            pages,
        })
    }
}

/// The labels of one version with nothing said but how it lies. Where no list of
/// reels takes it, one label with lines to write on.
pub(crate) fn labels_of_cut(
    production: &Production,
    cut: &onestrand_cut::TrialCut,
    name: &str,
    lies: ReelLies,
) -> Vec<ReelLabel> {
    let lies_word = match lies {
        ReelLies::NotSaid => None,
        ReelLies::HeadsOut => Some("heads".to_owned()),
        ReelLies::TailsOut => Some("tails".to_owned()),
    };
    let request = ReelPlanRequest {
        cuts: vec![name.to_owned()],
        lies: lies_word,
        ..ReelPlanRequest::default()
    };
    let cards = planned(production, &request).map(|(_, cards)| cards);
    match cards.as_deref() {
        Ok([_, ..]) => cards
            .unwrap_or_default()
            .iter()
            .map(|c| c.on_paper())
            .collect(),
        _ => vec![unfilled(production, cut, name, lies)],
    }
}

fn unfilled(
    production: &Production,
    cut: &onestrand_cut::TrialCut,
    name: &str,
    lies: ReelLies,
) -> ReelLabel {
    let (gauge, speed) = (production.meta().gauge, production.meta().speed);
    ReelLabel {
        title: production.meta().title.clone(),
        films: name.to_owned(),
        what: format!("{}, {speed} f/s", gauge.spec().name),
        lies,
        length: footage_words(gauge, cut.frames()),
        clock: RunningTime::of(cut.frames(), speed).to_string(),
        ..ReelLabel::default()
    }
}
