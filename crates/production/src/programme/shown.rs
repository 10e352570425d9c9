//! That a programme was shown, for the ledgers of the originals.

use crate::documents::{ProgrammeDocument, ProgrammeForm, ProgrammeRow};
use crate::{HandleRoll, ProductionError, ShownFilm};

/// A run of a roll that a showing was.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShownHandling {
    /// The film, by the name of its folder on the shelf.
    pub film: String,
    /// What is written into its ledger.
    pub handling: HandleRoll,
}

/// What is written down when a programme was shown: a run through the projector for each
/// roll that is on a film's reel, as often as the film stands in the programme.
///
/// # Errors
/// What `find` gives for a film that could be shown before.
pub fn handling_of_showing(
    form: &ProgrammeForm,
    plan: &ProgrammeDocument,
    (on, by): (&str, &str),
    find: &mut dyn FnMut(&ProgrammeRow) -> Result<ShownFilm, ProductionError>,
) -> Result<Vec<ShownHandling>, ProductionError> {
    let mut all: Vec<ShownHandling> = Vec::new();
    for row in plan.rows.iter().filter(|row| row.reel.is_some()) {
        let film = find(&row.asked)?;
        for roll in film.rolls {
            let known = all
                .iter_mut()
                .find(|one| one.film == row.asked.film && one.handling.roll == roll);
            match known {
                Some(one) => one.handling.times += 1,
                None => all.push(ShownHandling {
                    film: row.asked.film.clone(),
                    handling: HandleRoll {
                        roll,
                        kind: "run".to_owned(),
                        on: on.to_owned(),
                        through: "projector".to_owned(),
                        times: 1,
                        by: by.to_owned(),
                        note: note(form),
                    },
                }),
            }
        }
    }
    Ok(all)
}

fn note(form: &ProgrammeForm) -> String {
    let said = [form.title.trim(), form.place.trim()];
    let said: Vec<&str> = said.into_iter().filter(|words| !words.is_empty()).collect();
    match said.is_empty() {
        true => "shown in a programme".to_owned(),
        false => format!("shown: {}", said.join(", ")),
    }
}
