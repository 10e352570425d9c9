//! A production made, bare, from a template or like another.

use onestrand_production::{self as acts, Habits, Meta, Production, ProductionError};
use serde_json::json;

use crate::answer::Answer;
use crate::arguments::NewProduction;
use crate::commands::Outcome;

/// What a new film begins with.
#[derive(Default)]
struct Begins {
    gauge: Option<String>,
    speed: Option<String>,
    habits: Option<Habits>,
}

impl Begins {
    fn of(given: &NewProduction) -> Result<Self, ProductionError> {
        if let Some(dir) = &given.like {
            let other = Production::open(dir)?;
            return Ok(Self {
                gauge: Some(other.meta().gauge.to_string()),
                speed: Some(other.meta().speed.to_string()),
                habits: Some(acts::habits(&other)?),
            });
        }
        let Some(name) = &given.template else {
            return Ok(Self::default());
        };
        let known = acts::templates();
        let found = known.iter().find(|template| template.template == *name);
        let template = found.ok_or_else(|| {
            let names: Vec<&str> = known.iter().map(|one| one.template.as_str()).collect();
            ProductionError::Unfit {
                message: format!("there is no template {name:?}"),
                hint: format!("take one of {}", names.join(", ")),
            }
        })?;
        Ok(Self {
            gauge: Some(template.gauge.clone()),
            speed: Some(template.speed.clone()),
            habits: None,
        })
    }
}

pub(crate) fn new(given: NewProduction) -> Outcome {
    let begins = Begins::of(&given)?;
    let gauge = given.gauge.or(begins.gauge);
    let speed = given.speed.or(begins.speed);
    let meta = Meta {
        title: given.title,
        gauge: gauge.as_deref().unwrap_or("super8").parse()?,
        speed: speed.as_deref().unwrap_or("18").parse()?,
    };
    let dir = given.dir;
    let mut production = acts::new_production(&dir, &meta)?;
    if let Some(template) = &given.template {
        acts::lay_template(&mut production, template)?;
    }
    if let Some(habits) = &begins.habits {
        acts::take_over(&mut production, habits)?;
    }
    let document = json!({
        "dir": dir.display().to_string(),
        "title": meta.title,
        "gauge": meta.gauge.to_string(),
        "speed": meta.speed.to_string(),
        "template": given.template,
        "like": given.like.map(|other| other.display().to_string()),
    });
    let words = format!(
        "{}: {}, {} f/s. Next: onestrand roll add {} R1 SCAN --measured 50ft0",
        meta.title,
        meta.gauge.spec().name,
        meta.speed,
        dir.display()
    );
    Ok(Answer::yes(&document, words))
}
