//! A programme worked out: reels, times, throw, what is changed when.

use std::collections::BTreeSet;

use onestrand_cut::TrialCut;
use onestrand_film::{
    FeetFrames, Fps, Frames, Gauge, HallLength, ReelsAtHand, RunningTime, Throw, ToWind,
};
use onestrand_store::Production;

use super::told::told;
use crate::documents::{
    ProgrammeDocument, ProgrammeForm, ProgrammeReelDocument, ProgrammeRow, ProgrammeThrowDocument,
};
use crate::error::unfit;
use crate::throw::round;
use crate::{ProductionError, strand};

/// More rows are no evening.
const MOST_ROWS: usize = 200;
/// The longest reel there is. Unit: feet.
const LONGEST_REEL: u32 = 6_000;

/// A version as a programme shows it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ShownFilm {
    /// The film's title.
    pub title: String,
    /// The version.
    pub cut: String,
    /// Its gauge.
    pub gauge: Gauge,
    /// Its own speed.
    pub speed: Fps,
    /// Its length.
    pub frames: Frames,
    /// The rolls it is cut from.
    pub rolls: Vec<String>,
}

/// The version of a film that a programme shows; the newest when none is said.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version,
/// [`ProductionError::Unfit`] when there is none at all.
pub fn shown_film(production: &Production, cut: &str) -> Result<ShownFilm, ProductionError> {
    let said = Some(cut.trim()).filter(|cut| !cut.is_empty());
    let newest = production.cut_names()?.pop();
    let name = said.map(str::to_owned).or(newest).ok_or_else(|| {
        unfit(
            "it has no version that could be shown".to_owned(),
            "cut the film first",
        )
    })?;
    let cut = strand::cut(production, &name)?;
    let meta = production.meta();
    Ok(ShownFilm {
        title: meta.title.clone(),
        gauge: meta.gauge,
        speed: meta.speed,
        frames: cut.frames(),
        rolls: rolls(&cut),
        cut: name,
    })
}

/// The rolls that a cut shows, each once, by name.
fn rolls(cut: &TrialCut) -> Vec<String> {
    let spans = cut.pieces().iter().filter_map(|piece| piece.span());
    let names: BTreeSet<String> = spans.map(|span| span.roll.to_string()).collect();
    names.into_iter().collect()
}

/// Works a programme out. `find` gives the version that a row asks for; what it cannot give
/// is told beside that row.
///
/// # Errors
/// [`ProductionError::Unfit`], [`ProductionError::Unit`] for a form that makes no sense.
pub fn plan_programme(
    form: &ProgrammeForm,
    find: &mut dyn FnMut(&ProgrammeRow) -> Result<ShownFilm, ProductionError>,
) -> Result<ProgrammeDocument, ProductionError> {
    fits(form)?;
    let mut parts = Vec::with_capacity(form.rows.len());
    for row in &form.rows {
        parts.push(part(row, find)?);
    }
    let reels = on_reels(form, &mut parts)?;
    let throws = throws(form, &parts)?;
    Ok(told(form, &parts, reels, throws))
}

fn fits(form: &ProgrammeForm) -> Result<(), ProductionError> {
    if form.rows.len() > MOST_ROWS {
        return Err(unfit(
            format!("a programme has at most {MOST_ROWS} rows"),
            "make two of it",
        ));
    }
    if form.reel_feet == 0 || form.reel_feet > LONGEST_REEL {
        return Err(unfit(
            format!("a reel of {} ft is none", form.reel_feet),
            "say what the largest reel of your machine takes, such as 400",
        ));
    }
    let leader = form.leader_feet.saturating_mul(2);
    if leader >= form.reel_feet || form.spacing_feet >= form.reel_feet {
        return Err(unfit(
            "leader and spacing leave no room for film".to_owned(),
            "say less of them, or a larger reel",
        ));
    }
    if form.changeover_seconds > 3_600 {
        return Err(unfit(
            "an hour to thread a reel".to_owned(),
            "say how many seconds it takes, such as 90",
        ));
    }
    Ok(())
}

/// A row on its way.
pub(super) struct Part {
    pub(super) row: ProgrammeRow,
    pub(super) film: Option<(ShownFilm, Fps)>,
    pub(super) reel: Option<u32>,
    pub(super) before: &'static str,
    pub(super) problem: String,
}

fn part(
    row: &ProgrammeRow,
    find: &mut dyn FnMut(&ProgrammeRow) -> Result<ShownFilm, ProductionError>,
) -> Result<Part, ProductionError> {
    let mut part = Part {
        row: row.clone(),
        film: None,
        reel: None,
        before: "",
        problem: String::new(),
    };
    match row.what.as_str() {
        "interval" if row.minutes <= 600 => {}
        "interval" => part.problem = "an interval of more than ten hours".to_owned(),
        "film" => match find(row) {
            Ok(film) => {
                let said = row.speed.trim();
                let speed = match said.is_empty() {
                    true => Ok(film.speed),
                    false => said.parse::<Fps>(),
                };
                match speed {
                    Ok(speed) if film.frames.count() > 0 => part.film = Some((film, speed)),
                    Ok(_) => part.problem = format!("{} has no piece yet", film.cut),
                    Err(problem) => part.problem = problem.to_string(),
                }
            }
            Err(problem) => part.problem = problem.to_string(),
        },
        other => {
            return Err(unfit(
                format!("{other:?} is no row of a programme"),
                "say film or interval",
            ));
        }
    }
    Ok(part)
}

/// Films that may lie on one reel: nothing on the machine is changed between them.
fn alike(one: &Part, next: &Part) -> Result<(), &'static str> {
    let (Some((a, a_speed)), Some((b, b_speed))) = (&one.film, &next.film) else {
        return Err("next reel");
    };
    if a.gauge != b.gauge {
        return Err("other gauge");
    }
    if a_speed != b_speed {
        return Err("other speed");
    }
    match one
        .row
        .sound
        .trim()
        .eq_ignore_ascii_case(next.row.sound.trim())
    {
        true => Ok(()),
        false => Err("other sound"),
    }
}

fn feet(gauge: Gauge, feet: u32) -> Result<Frames, ProductionError> {
    Ok(gauge.frames_from_footage(FeetFrames::new(feet, 0))?)
}

/// Lays films that follow each other on as few reels as can be, the order kept; an interval
/// ends a reel.
fn on_reels(
    form: &ProgrammeForm,
    parts: &mut [Part],
) -> Result<Vec<ProgrammeReelDocument>, ProductionError> {
    let mut reels: Vec<ProgrammeReelDocument> = Vec::new();
    let mut at = 0;
    let mut before = "first reel";
    while at < parts.len() {
        if parts[at].film.is_none() {
            at += 1;
            continue;
        }
        let mut end = at + 1;
        let mut why = "next reel";
        while end < parts.len() {
            match alike(&parts[end - 1], &parts[end]) {
                Ok(()) => end += 1,
                Err(reason) => {
                    why = reason;
                    break;
                }
            }
        }
        lay(form, parts, at..end, before, &mut reels)?;
        before = why;
        at = end;
    }
    Ok(reels)
}

fn lay(
    form: &ProgrammeForm,
    parts: &mut [Part],
    run: std::ops::Range<usize>,
    before: &'static str,
    reels: &mut Vec<ProgrammeReelDocument>,
) -> Result<(), ProductionError> {
    let Some((first, speed)) = parts[run.start].film.clone() else {
        return Ok(());
    };
    let gauge = first.gauge;
    // Leader at the head and as much at the tail.
    let leader = feet(gauge, form.leader_feet)?.count() * 2;
    let spacing = feet(gauge, form.spacing_feet)?;
    let takes = feet(gauge, form.reel_feet)?.count() - leader;
    // One that is longer than any reel is told, and lies on a reel of its own.
    let most = parts[run.clone()]
        .iter()
        .filter_map(|part| part.film.as_ref());
    let longest = most.map(|(film, _)| film.frames.count()).max().unwrap_or(0);
    let wind: Vec<ToWind> = parts[run.clone()]
        .iter()
        .filter_map(|part| part.film.as_ref())
        .map(|(film, _)| {
            let frames = Frames::new(film.frames.count().min(takes))?;
            Ok(ToWind { frames, spacing })
        })
        .collect::<Result<_, onestrand_film::UnitError>>()?;
    let at_hand = ReelsAtHand {
        plenty: Some(Frames::new(takes)?),
        single: Vec::new(),
    };
    let filled = at_hand.fill(&wind).unwrap_or_default();
    for (nth, one) in filled.iter().enumerate() {
        let number = u32::try_from(reels.len() + 1).unwrap_or(u32::MAX);
        let (mut long, mut shown, mut films) = (leader, 0_u32, Vec::new());
        for (place, index) in (one.first..one.thrown).enumerate() {
            let part = &mut parts[run.start + index];
            part.reel = Some(number);
            if place == 0 {
                part.before = if nth == 0 { before } else { "next reel" };
            } else {
                long += spacing.count();
            }
            if let Some((film, _)) = &part.film {
                if longest > takes && film.frames.count() > takes {
                    part.problem = format!(
                        "it is longer than a reel of {} ft takes with its leaders: make it up on several in the Screening room",
                        form.reel_feet
                    );
                }
                long += film.frames.count();
                shown += film.frames.count();
                films.push(title_of(part));
            }
        }
        reels.push(ProgrammeReelDocument {
            reel: number,
            gauge: gauge.to_string(),
            speed: speed.to_string(),
            films,
            footage: gauge.footage(Frames::new(long)?).into(),
            clock: RunningTime::of(Frames::new(shown)?, speed).to_string(),
        });
    }
    Ok(())
}

pub(super) fn title_of(part: &Part) -> String {
    match (part.row.title.trim(), &part.film) {
        ("", Some((film, _))) => film.title.clone(),
        ("", None) if part.row.what == "interval" => "interval".to_owned(),
        ("", None) => part.row.film.clone(),
        (title, _) => title.to_owned(),
    }
}

fn throws(
    form: &ProgrammeForm,
    parts: &[Part],
) -> Result<Vec<ProgrammeThrowDocument>, ProductionError> {
    let (lens, screen) = (form.lens_mm.trim(), form.screen.trim());
    if lens.is_empty() || screen.is_empty() {
        return Ok(Vec::new());
    }
    let lens_mm: f64 = lens.replace(',', ".").parse().map_err(|_| {
        unfit(
            format!("{lens:?} is no lens"),
            "write its focal length in millimetres, such as 20",
        )
    })?;
    let width: HallLength = screen.parse()?;
    let mut all: Vec<ProgrammeThrowDocument> = Vec::new();
    for (film, _) in parts.iter().filter_map(|part| part.film.as_ref()) {
        let gauge = film.gauge.to_string();
        if all.iter().any(|known| known.gauge == gauge) {
            continue;
        }
        let hall = Throw::for_width(film.gauge.spec().shown, lens_mm, width)?;
        all.push(ProgrammeThrowDocument {
            gauge,
            throw_m: format!("{:.2}", hall.distance_mm / 1000.0),
            high_mm: round(hall.height_mm, 0),
        });
    }
    Ok(all)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn film(title: &str, gauge: &str, frames: u32) -> ShownFilm {
        ShownFilm {
            title: title.to_owned(),
            cut: "v1".to_owned(),
            gauge: gauge.parse().expect("a gauge"),
            speed: "18".parse().expect("a speed"),
            frames: Frames::new(frames).expect("a length"),
            rolls: vec!["R1".to_owned()],
        }
    }

    fn row(what: &str, film: &str) -> ProgrammeRow {
        ProgrammeRow {
            what: what.to_owned(),
            film: film.to_owned(),
            minutes: 15,
            ..ProgrammeRow::default()
        }
    }

    fn planned(form: &ProgrammeForm) -> ProgrammeDocument {
        plan_programme(form, &mut |row| match row.film.as_str() {
            "boat" => Ok(film("The Ten-Past Boat", "super8", 2_652)),
            "old" => Ok(film("Prologue", "regular8", 144)),
            "long" => Ok(film("Long", "super8", 30_000)),
            _ => Err(unfit("there is no such film".to_owned(), "look")),
        })
        .expect("a programme")
    }

    /// Story 12 of the acceptance stories: v2 with ten feet of leader is 46 ft 60 fr, the
    /// 20 mm lens stands 4.54 m from a screen of 1.2 m.
    #[test]
    fn the_printed_figures_of_an_evening() {
        let mut form = ProgrammeForm {
            lens_mm: "20".to_owned(),
            screen: "1.2m".to_owned(),
            rows: vec![row("film", "boat")],
            ..ProgrammeForm::default()
        };
        // Ten feet in all: five at the head, five at the tail.
        form.leader_feet = 5;
        let plan = planned(&form);
        let reel = &plan.reels[0];
        assert_eq!((reel.footage.feet, reel.footage.frames), (46, 60));
        assert_eq!(plan.throws[0].throw_m, "4.54");
        assert_eq!(plan.rows[0].clock, "2:27");
    }

    #[test]
    fn what_differs_lies_on_another_reel_and_an_interval_hides_the_change() {
        let form = ProgrammeForm {
            rows: vec![
                row("film", "boat"),
                row("film", "boat"),
                row("film", "old"),
                row("interval", ""),
                row("film", "boat"),
                row("film", "nowhere"),
            ],
            ..ProgrammeForm::default()
        };
        let plan = planned(&form);
        let before: Vec<&str> = plan.rows.iter().map(|row| row.before.as_str()).collect();
        assert_eq!(
            before,
            ["first reel", "", "other gauge", "", "next reel", ""]
        );
        assert_eq!((plan.reels.len(), plan.changes), (3, 2));
        // 147.33 s twice, 90 s to thread, 8 s, 15 min; the last change is in the interval.
        let begins: Vec<&str> = plan.rows.iter().map(|row| row.begins.as_str()).collect();
        assert_eq!(begins, ["0:00", "2:27", "6:25", "6:33", "21:33", "24:00"]);
        assert!(plan.rows[5].problem.contains("no such film"));
    }

    #[test]
    fn films_fill_as_few_reels_as_can_be_and_one_too_long_is_told() {
        let mut form = ProgrammeForm {
            reel_feet: 100,
            rows: vec![row("film", "boat"); 5],
            ..ProgrammeForm::default()
        };
        // 7,200 frames less 1,440 of leader: two films of 2,652 and 144 of spacing.
        let plan = planned(&form);
        let reels: Vec<usize> = plan.reels.iter().map(|reel| reel.films.len()).collect();
        assert_eq!(reels, [2, 2, 1]);
        form.rows.push(row("film", "long"));
        assert!(
            planned(&form).rows[5]
                .problem
                .contains("longer than a reel of 100 ft")
        );
    }

    #[test]
    fn a_form_that_makes_no_sense_is_refused() {
        let of = |change: fn(&mut ProgrammeForm)| {
            let mut form = ProgrammeForm::default();
            form.rows.push(row("film", "boat"));
            change(&mut form);
            plan_programme(&form, &mut |_| Ok(film("x", "super8", 9)))
        };
        assert!(of(|_| {}).is_ok());
        assert!(of(|form| form.reel_feet = 0).is_err());
        assert!(of(|form| form.leader_feet = 200).is_err());
        assert!(of(|form| form.rows[0].what = "speech".to_owned()).is_err());
        assert!(
            of(|form| form.lens_mm = "long".to_owned()).is_ok(),
            "no screen is said"
        );
        assert!(
            of(|form| {
                form.lens_mm = "long".to_owned();
                form.screen = "1.2m".to_owned();
            })
            .is_err()
        );
        let strange = of(|form| form.rows[0].speed = "fast".to_owned()).expect("told beside it");
        assert!(!strange.rows[0].problem.is_empty());
    }
}
