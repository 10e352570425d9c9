//! A new film made from a template, or like another one: its habits without its film.

use onestrand_store::{Act, Production};

use crate::bench_habits::{BenchSetUp, SETTING as BENCH, SetUpBench};
use crate::documents::{SceneWords, TemplateDocument};
use crate::error::unfit;
use crate::script::{STOCK, ScriptChange, ScriptChangeKind, stock_for_load, stock_of};
use crate::sign_limits::SETTING as SIGN_LIMITS;
use crate::{NewCut, ProductionError};

/// What is taken over of another film, by the names under which it is kept.
const TAKEN_OVER: [&str; 3] = [BENCH, STOCK, SIGN_LIMITS];
/// The first version of a film that begins with one.
const FIRST_VERSION: &str = "v1";

/// A template of ours.
struct Template {
    name: &'static str,
    title: &'static str,
    words: &'static str,
    gauge: &'static str,
    speed: &'static str,
    /// The usual join of its first version; none where nothing is to be cut.
    join: Option<&'static str>,
    pins: u32,
    /// Film shot before the action is in order and after it. Unit: frames a take.
    run_up: u32,
    /// Whether a script is begun, with one scene that is still empty.
    script: bool,
}

const STORY: Template = Template {
    name: "three-roll-story",
    title: "Three-roll Super 8 story",
    words: "A story of an evening, shot on three cartridges, cut on twelve pins, joined by tape.",
    gauge: "super8",
    speed: "18",
    join: Some("tape"),
    pins: 12,
    run_up: 24,
    script: true,
};

const TEMPLATES: [Template; 5] = [
    STORY,
    Template {
        name: "cut-in-camera",
        title: "One roll, cut in the camera",
        words: "Shot in the order in which it is shown: no run-up, and nothing for the splicer \
                unless something goes wrong.",
        pins: 4,
        run_up: 0,
        ..STORY
    },
    Template {
        name: "class-two-rolls",
        title: "Class film on two rolls",
        words: "A team of a class: two cartridges, eight pins, tape, a script to fill in. For \
                bench and splicer see the class roster.",
        pins: 8,
        run_up: 18,
        ..STORY
    },
    Template {
        name: "sixteen-cement",
        title: "16 mm, joined with cement",
        words: "Hundred-foot loads at 24 frames a second; each join eats frames of both shots.",
        gauge: "16",
        speed: "24",
        join: Some("cement"),
        pins: 24,
        ..STORY
    },
    Template {
        name: "club-reel",
        title: "Club reel, scan only",
        words: "Old reels to be looked at and copied. No version is begun: say of each roll that \
                it is scan only when you bring it in.",
        gauge: "regular8",
        speed: "16",
        join: None,
        pins: 12,
        run_up: 0,
        script: false,
    },
];

/// The templates there are.
#[must_use]
pub fn templates() -> Vec<TemplateDocument> {
    let one = |template: &Template| TemplateDocument {
        template: template.name.to_owned(),
        title: template.title.to_owned(),
        words: template.words.to_owned(),
        gauge: template.gauge.to_owned(),
        speed: template.speed.to_owned(),
        join: template.join.map(str::to_owned),
        pins: template.pins,
        run_up: template.run_up,
        script: template.script,
    };
    TEMPLATES.iter().map(one).collect()
}

/// Gives a film that was just begun what a template has.
///
/// # Errors
/// [`ProductionError::Unfit`] for a template that there is not, [`ProductionError::Store`].
pub fn lay_template(production: &mut Production, name: &str) -> Result<(), ProductionError> {
    let template = TEMPLATES.iter().find(|template| template.name == name);
    let template = template.ok_or_else(|| no_template(name))?;
    let bench = BenchSetUp {
        pins: template.pins,
        ..BenchSetUp::default()
    };
    let (words, act) = SetUpBench { bench }.act()?;
    production.act(&words, &act)?;
    // As much as a roll of its gauge usually holds.
    let load = stock_of(production)?.load;
    let act = stock_for_load(production, load, template.run_up)?;
    production.act("the stock of the template", &act)?;
    if template.script {
        let scene = SceneWords::default();
        let empty = ScriptChange {
            id: None,
            after: None,
            to: ScriptChangeKind::Scene { scene },
        };
        let (words, act) = empty.act(production)?;
        production.act(&words, &act)?;
    }
    match template.join {
        Some(join) => begin_version(production, join),
        None => Ok(()),
    }
}

fn no_template(name: &str) -> ProductionError {
    let known: Vec<&str> = TEMPLATES.iter().map(|template| template.name).collect();
    unfit(
        format!("there is no template {name:?}"),
        &format!("take one of {}", known.join(", ")),
    )
}

fn begin_version(production: &mut Production, join: &str) -> Result<(), ProductionError> {
    let version = NewCut {
        cut: FIRST_VERSION.to_owned(),
        from: None,
        assembled: false,
        usual_join: Some(join.to_owned()),
        note: String::new(),
    };
    let (words, act) = version.act(production)?;
    Ok(production.act(&words, &act).map(|_| ())?)
}

/// Habits of a film that a new one may begin with.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Habits {
    settings: Vec<(&'static str, String)>,
    join: Option<String>,
}

/// The habits of a film: its bench, its stock, from where on signs are told, and the usual
/// join of its newest version. Nothing of its film.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn habits(production: &Production) -> Result<Habits, ProductionError> {
    let mut settings = Vec::new();
    for name in TAKEN_OVER {
        settings.extend(production.setting(name)?.map(|value| (name, value)));
    }
    let newest = production.cut_names()?.pop();
    let join = match newest {
        Some(name) => Some(production.cut(&name)?.usual_join),
        None => None,
    };
    Ok(Habits { settings, join })
}

/// Gives a film that was just begun the habits of another.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn take_over(production: &mut Production, habits: &Habits) -> Result<(), ProductionError> {
    for (name, value) in &habits.settings {
        let act = Act::PutSetting {
            name: (*name).to_owned(),
            value: Some(value.clone()),
        };
        production.act("as the other film has it", &act)?;
    }
    match &habits.join {
        Some(join) => begin_version(production, join),
        None => Ok(()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::{bench_set_up, new_production, script_document};
    use onestrand_store::Meta;

    fn film(dir: &std::path::Path, template: &super::Template) -> Production {
        let meta = Meta {
            title: "A film".to_owned(),
            gauge: template.gauge.parse().expect("a gauge"),
            speed: template.speed.parse().expect("a speed"),
        };
        new_production(dir, &meta).expect("a film")
    }

    #[test]
    fn every_template_can_be_laid_and_says_what_it_lays() {
        for template in &TEMPLATES {
            let dir = tempfile::tempdir().expect("a folder");
            let mut production = film(dir.path(), template);
            lay_template(&mut production, template.name).expect(template.name);
            assert_eq!(bench_set_up(&production).expect("kept").pins, template.pins);
            let stock = stock_of(&production).expect("kept");
            assert_eq!(stock.run_up, template.run_up, "{}", template.name);
            assert!(stock.load > 0, "{}", template.name);
            let scenes = script_document(&production).expect("a script").scenes.len();
            assert_eq!(scenes, usize::from(template.script));
            let names = production.cut_names().expect("versions");
            assert_eq!(names.is_empty(), template.join.is_none());
            if let Some(join) = template.join {
                assert_eq!(production.cut("v1").expect("v1").usual_join, join);
            }
        }
    }

    #[test]
    fn a_film_like_another_has_its_habits_and_not_its_film() {
        let dirs = [(); 2].map(|()| tempfile::tempdir().expect("a folder"));
        let mut first = film(dirs[0].path(), &TEMPLATES[3]);
        lay_template(&mut first, "sixteen-cement").expect("laid");
        let mut second = film(dirs[1].path(), &TEMPLATES[3]);
        take_over(&mut second, &habits(&first).expect("habits")).expect("taken over");
        assert_eq!(bench_set_up(&second).expect("kept").pins, 24);
        assert_eq!(second.cut("v1").expect("v1").usual_join, "cement");
        assert_eq!(script_document(&second).expect("a script").scenes.len(), 0);
        assert_eq!(
            habits(&second).expect("habits"),
            habits(&first).expect("habits")
        );
    }

    #[test]
    fn a_template_that_there_is_not_is_refused_by_name() {
        let dir = tempfile::tempdir().expect("a folder");
        let mut production = film(dir.path(), &STORY);
        let error = lay_template(&mut production, "feature").expect_err("none");
        assert!(error.to_string().contains("feature"));
        assert!(error.hint().contains("club-reel"));
    }
}
