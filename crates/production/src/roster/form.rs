//! The roster of a shelf: every film is a team, all do the same steps.

use onestrand_plan::{Found, PlanError, Roster, RosterTeam, read_roster, read_sessions};

use super::planned::planned;
use super::{USUAL_SLOT, refused};
use crate::ProductionError;
use crate::documents::{
    RosterDocument, RosterFilmWords, RosterForm, RosterStepWords, RosterThingWords,
};

/// What cutting waits for.
const SCAN_PROVED: &str = "scan proved";

/// A film of the shelf, as the roster needs it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct RosterFilm {
    /// Its name in addresses.
    pub film: String,
    /// Its title.
    pub title: String,
    /// Whether there are scans of it, and all of them are proved complete.
    pub proved: bool,
}

/// A roster to begin with: a bench, a splicer, a projector; ten sessions; the steps from
/// the first look to the showing, with hours that are only a beginning.
#[must_use]
pub fn usual_roster() -> RosterForm {
    let things = ["bench", "splicer", "projector"];
    let step = |step: &str, hours: &str, needs: &[&str], after_proof: bool| RosterStepWords {
        step: step.to_owned(),
        hours: hours.to_owned(),
        sitting: String::new(),
        needs: needs.iter().map(|need| (*need).to_owned()).collect(),
        after_proof,
    };
    RosterForm {
        sessions: 10,
        hours: "2:30".to_owned(),
        things: things
            .map(|thing| RosterThingWords {
                thing: thing.to_owned(),
                count: 1,
            })
            .to_vec(),
        steps: vec![
            step("view", "0:30", &["projector"], false),
            step("log", "1:00", &[], false),
            step("break down", "1:00", &["bench"], true),
            step("cut", "1:30", &["bench", "splicer"], true),
            step("splice", "1:00", &["splicer"], true),
            step("project", "0:30", &["projector"], false),
        ],
        films: Vec::new(),
        apart: Vec::new(),
    }
}

/// Plans a roster for the films of a shelf.
///
/// # Errors
/// [`ProductionError::Roster`] with everything that is wrong, each at its place: `step 3`
/// for the steps of the form.
pub fn plan_shelf(
    form: &RosterForm,
    films: &[RosterFilm],
) -> Result<RosterDocument, ProductionError> {
    let mut problems = Vec::new();
    let mut steps = Vec::new();
    for (number, step) in (1_usize..).zip(&form.steps) {
        match step_of(step) {
            Ok(read) => steps.push((step.after_proof, read)),
            Err(error) => problems.extend(error.problems().iter().map(|found| Found {
                line: None,
                place: format!("step {number}"),
                message: found.message.clone(),
            })),
        }
    }
    let sessions = sessions_of(form).unwrap_or_else(|found| {
        problems.push(found);
        Vec::new()
    });
    if !problems.is_empty() {
        return Err(refused(PlanError::Problems { problems }));
    }
    let names = names_of(films);
    let words = |film: &str| form.films.iter().find(|words| words.film == film);
    let mut teams = Vec::new();
    for (film, name) in films.iter().zip(&names) {
        let words = words(&film.film);
        if words.is_some_and(|words| words.left_out) {
            continue;
        }
        teams.push(RosterTeam {
            name: name.clone(),
            steps: steps
                .iter()
                .map(|(after_proof, step)| waiting(step, *after_proof, film, words))
                .collect(),
        });
    }
    let name_of = |one: &String| {
        let at = films.iter().position(|film| film.film == *one)?;
        let is_in = teams.iter().any(|team| team.name == names[at]);
        is_in.then(|| names[at].clone())
    };
    // Whoever was left out or has gone from the shelf shares nobody with anybody.
    let apart = form
        .apart
        .iter()
        .map(|group| group.iter().filter_map(name_of).collect());
    let apart = apart
        .filter(|group: &Vec<String>| group.len() > 1)
        .collect();
    let things = form.things.iter().map(|thing| onestrand_plan::RosterThing {
        name: thing.thing.clone(),
        count: thing.count,
    });
    let roster = Roster {
        things: things.collect(),
        teams,
        sessions,
        apart,
    };
    planned(&roster, USUAL_SLOT)
}

/// Reads a step as a row of a table is read, so that hours are told of in the same words.
fn step_of(step: &RosterStepWords) -> Result<onestrand_plan::RosterStep, PlanError> {
    let mut table = csv::Writer::from_writer(Vec::new());
    let _header = table.write_record(["team", "step", "hours", "needs", "sitting"]);
    let needs = step.needs.join(";");
    let _row = table.write_record(["film", &step.step, &step.hours, &needs, &step.sitting]);
    let text = String::from_utf8(table.into_inner().unwrap_or_default()).unwrap_or_default();
    let teams = read_roster(&text, USUAL_SLOT)?.roster.teams;
    let read = teams.into_iter().flat_map(|team| team.steps).next();
    read.map(|step| onestrand_plan::RosterStep { line: None, ..step })
        .ok_or_else(|| PlanError::Problems {
            problems: vec![Found {
                line: None,
                place: String::new(),
                message: "says nothing; leave it out".to_owned(),
            }],
        })
}

fn sessions_of(form: &RosterForm) -> Result<Vec<u16>, Found> {
    let one = read_sessions(&form.hours, USUAL_SLOT);
    match one.as_deref() {
        Ok([slots]) => Ok(vec![*slots; usize::from(form.sessions)]),
        _ => Err(Found {
            line: None,
            place: "sessions".to_owned(),
            message: format!(
                "cannot read {:?} as the hours of a session, such as 2:30",
                form.hours
            ),
        }),
    }
}

fn waiting(
    step: &onestrand_plan::RosterStep,
    after_proof: bool,
    film: &RosterFilm,
    words: Option<&RosterFilmWords>,
) -> onestrand_plan::RosterStep {
    let mut step = step.clone();
    if after_proof {
        SCAN_PROVED.clone_into(&mut step.waits_for);
        step.from = match film.proved {
            true => Some(1),
            false => words.and_then(|words| words.proved_from),
        };
    }
    step
}

/// Titles; where two films have the same one, with the name of the folder.
fn names_of(films: &[RosterFilm]) -> Vec<String> {
    let same = |title: &str| {
        let alike = films
            .iter()
            .filter(|film| film.title.trim() == title.trim());
        alike.count() > 1
    };
    films
        .iter()
        .map(|film| match same(&film.title) {
            true => format!("{} ({})", film.title.trim(), film.film),
            false => film.title.trim().to_owned(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn films(proved: &[bool]) -> Vec<RosterFilm> {
        let one = |(at, proved): (usize, &bool)| RosterFilm {
            film: format!("film-{at}"),
            title: "Untitled".to_owned(),
            proved: *proved,
        };
        proved.iter().enumerate().map(one).collect()
    }

    #[test]
    fn no_film_is_cut_whose_scan_is_not_proved() {
        let mut form = usual_roster();
        form.films.push(RosterFilmWords {
            film: "film-2".to_owned(),
            left_out: false,
            proved_from: Some(3),
        });
        let plan = plan_shelf(&form, &films(&[true, false, true, false])).expect("a plan");
        let first_cut = |team: &str| {
            let mut turns = plan.turns.iter();
            turns
                .find(|turn| turn.team == team && turn.step == "cut")
                .map(|turn| turn.session)
        };
        // Proved ones begin at once, whatever was said of them before.
        assert!(first_cut("Untitled (film-0)").is_some_and(|at| at < 3));
        assert!(first_cut("Untitled (film-2)").is_some());
        assert_eq!(first_cut("Untitled (film-1)"), None);
        let waits = plan
            .waiting
            .iter()
            .filter(|one| one.waits_for == SCAN_PROVED);
        assert_eq!(waits.count(), 8);
        let later = plan_shelf(&form, &films(&[true, false, false])).expect("a plan");
        let cut = later.turns.iter().filter(|turn| turn.step == "cut");
        let cut: Vec<_> = cut.map(|turn| (turn.team.as_str(), turn.session)).collect();
        assert_eq!(cut[1], ("Untitled (film-2)", 3));
    }

    #[test]
    fn everything_in_the_form_is_told_at_its_place() {
        let mut form = usual_roster();
        form.hours = "long".to_owned();
        form.steps[1].hours = "soon".to_owned();
        let error = plan_shelf(&form, &films(&[true])).expect_err("two things");
        let ProductionError::Roster { source } = error else {
            panic!("{error}")
        };
        let places: Vec<&str> = source.problems().iter().map(|f| f.place.as_str()).collect();
        assert_eq!(places, ["step 2", "sessions"]);
    }

    #[test]
    fn a_shelf_without_films_says_so() {
        let error = plan_shelf(&usual_roster(), &[]).expect_err("nobody");
        assert!(error.details().to_string().contains("there is no team"));
    }
}
