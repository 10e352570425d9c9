//! The digital finish, made beside the page.

use std::path::{Path as FilePath, PathBuf};
use std::sync::Arc;

use axum::Json;
use axum::extract::{Path, State};
use onestrand_production::{
    FinishRequest, FinishWork, MixAsked, MixSaid, MixSet, ProductionError, Progress,
    TreatmentChoice, finish_parts, finish_words, write_mix,
};
use serde::{Deserialize, Serialize};
use utoipa::ToSchema;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::desk::Desk;
use crate::house::House;
use crate::jobs::{Job, JobDocument};
use crate::places::plain_name;
use crate::problem::{ProblemDocument, ServerError, away};
use crate::reading::beside;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new().routes(routes!(make))
}

/// What a finish is coded in.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
#[serde(rename_all = "snake_case")]
pub(crate) enum FinishFor {
    /// To be kept: FFV1 in Matroska.
    Keeping,
    /// To be worked on by others: ProRes in a MOV file.
    Others,
    /// To be shown: H.264 in MP4.
    Showing,
}

impl FinishFor {
    const fn end(self) -> &'static str {
        match self {
            Self::Keeping => "mkv",
            Self::Others => "mov",
            Self::Showing => "mp4",
        }
    }
}

/// A finish that is to be made.
#[derive(Debug, Clone, PartialEq, Eq, Serialize, Deserialize, ToSchema)]
pub(crate) struct FinishForm {
    /// The version.
    cut: String,
    /// What it is for.
    purpose: FinishFor,
    /// The folder it is to lie in, one that was chosen.
    folder: String,
    /// Its name there, without the end.
    name: String,
    /// Frames a second of the file, as a speed is written; the film's own where nothing is
    /// said.
    file_rate: Option<String>,
    /// Whether every planned frame is shown, also what the strip has lost.
    whole: bool,
    /// Whether its sound is mixed for it.
    sound: bool,
    /// Whether titles that are not photographed stand black instead of drawn.
    black_cards: bool,
    /// What is done to the pictures.
    treat: TreatmentChoice,
    /// Whether a list of all frames is written beside it.
    list: bool,
    /// Whether captions are written beside it.
    captions: bool,
}

/// Begins to make a finish; the end of the work says what it shows. Stopped, it goes on
/// where it was when the same is asked for again.
#[utoipa::path(post, path = "/api/films/{film}/finish", tag = "finish", operation_id = "make_finish",
    params(("film" = String, Path)), request_body = FinishForm,
    responses((status = 200, body = JobDocument), (status = "default", body = ProblemDocument)))]
async fn make(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Json(form): Json<FinishForm>,
) -> Result<Json<JobDocument>, ServerError> {
    away(move || {
        let desk = house.film(&film)?;
        let folder = house.places.inside(FilePath::new(&form.folder))?;
        let out = folder.join(format!("{}.{}", plain(&form.name)?, form.purpose.end()));
        if out.symlink_metadata().is_ok() {
            return Err(unfit(
                format!(
                    "something stands under that name already: {}",
                    out.display()
                ),
                "give the finish another name, or take the old one away first",
            ));
        }
        let _beginning = house.jobs.beginning();
        if house.jobs.makes(&desk.film, "finish") {
            return Err(unfit(
                "a finish of this film is being made".to_owned(),
                "wait for its end, or stop it; what is made of it stays made",
            ));
        }
        let words = format!("finishing {}", form.cut);
        let job = house.jobs.begin("finish", &desk.film, None, &words);
        let document = job.document();
        let running = Arc::clone(&job);
        beside("digital finish", &job, move || {
            finished(&desk, &form, &out, &running)
        });
        Ok(Json(document))
    })
    .await
}

fn finished(
    desk: &Desk,
    form: &FinishForm,
    out: &FilePath,
    job: &Arc<Job>,
) -> Result<(), ServerError> {
    let mut told = job.teller();
    let beside_it = |end: &str| out.with_extension(end);
    let mix = form.sound.then(|| finish_parts(out).with_extension("wav"));
    let _gone = Gone(mix.clone());
    if let Some(mix) = &mix {
        let set = {
            let production = desk.production();
            let asked = MixAsked {
                leader: Some(0),
                speed: Some(production.meta().speed.to_string()),
                ..MixAsked::default()
            };
            let said = MixSaid::of(&production, &form.cut, "");
            (MixSet::of(&production, &form.cut, &asked)?, said)
        };
        write_mix(&set.0, &set.1, mix, None, &job.cancel, &mut told)?;
    }
    let request = FinishRequest {
        file_rate: form.file_rate.clone(),
        whole: form.whole,
        sound: mix,
        black_cards: form.black_cards,
        treat: form.treat,
        list: form.list.then(|| beside_it("frames.csv")),
        captions: form.captions.then(|| beside_it("vtt")),
        ..FinishRequest::plain(&form.cut, out)
    };
    let work = {
        let production = desk.production();
        FinishWork::gather(&production, &request, &job.cancel, &mut told)?
    };
    let mut made = work.make(&job.cancel, &mut told)?;
    if let Some(sound) = &mut made.sound {
        // Its file was made for this alone, and goes.
        sound.path = "mixed for it".to_owned();
    }
    told.note(&finish_words(&made));
    Ok(())
}

/// The mix of a finish goes when it is in it, or was not needed.
struct Gone(Option<PathBuf>);

impl Drop for Gone {
    fn drop(&mut self) {
        if let Some(path) = &self.0 {
            let _not_there = std::fs::remove_file(path);
        }
    }
}

fn unfit(message: String, hint: &str) -> ServerError {
    ProductionError::Unfit {
        message,
        hint: hint.to_owned(),
    }
    .into()
}

/// A name of one file, not a way to another.
fn plain(name: &str) -> Result<&str, ServerError> {
    plain_name(name).ok_or_else(|| {
        unfit(
            format!("{name:?} cannot be the name of a file"),
            "give it a short name, without a slash and not beginning with a dot",
        )
    })
}
