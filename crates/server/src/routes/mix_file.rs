//! The mix of a version as a file.

use std::sync::Arc;

use axum::body::Body;
use axum::extract::{Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use onestrand_intake::Cancel;
use onestrand_production::{MixAsked, MixSaid, MixSet, Quiet, sounds_folder, write_mix};
use serde::Deserialize;
use utoipa::IntoParams;
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::house::House;
use crate::problem::{ProblemDocument, ServerError, away};

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new().routes(routes!(mix))
}

/// Which file of the mix.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct WhichMix {
    /// The version.
    cut: String,
    /// One column of it alone, by its number.
    #[serde(default)]
    stem: Option<i64>,
}

/// The mix of a version, or a column of it, as a Broadcast Wave.
#[utoipa::path(get, path = "/api/films/{film}/dub/mix.wav", tag = "dub", operation_id = "dub_mix",
    params(("film" = String, Path), WhichMix),
    responses((status = 200, content_type = "audio/wav", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn mix(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(which): Query<WhichMix>,
) -> Result<Response, ServerError> {
    let (file, name) = away(move || {
        let (set, said, stem, folder) = {
            let desk = house.film(&film)?;
            let production = desk.production();
            let set = MixSet::of(&production, &which.cut, &MixAsked::default())?;
            let stem = match which.stem {
                None => None,
                Some(id) => Some(set.columns.iter().position(|c| *c == id).ok_or_else(|| {
                    ServerError::NotThere {
                        what: "column",
                        name: id.to_string(),
                    }
                })?),
            };
            let part = stem.map_or(String::new(), |nth| set.names[nth].clone());
            let said = MixSaid::of(&production, &which.cut, &part);
            (set, said, stem, sounds_folder(&production))
        };
        let wrong = |source: std::io::Error| ServerError::Unreadable {
            why: source.to_string(),
        };
        std::fs::create_dir_all(&folder).map_err(wrong)?;
        let place = tempfile::TempDir::new_in(&folder).map_err(wrong)?;
        let path = place.path().join("mix.wav");
        write_mix(&set, &said, &path, stem, &Cancel::new(), &mut Quiet)?;
        // The file stays readable when its name is gone.
        let file = std::fs::File::open(&path).map_err(wrong)?;
        let part = if said.part.is_empty() {
            "mix"
        } else {
            &said.part
        };
        let plain = format!("{}-{part}", said.cut);
        let plain = plain
            .chars()
            .map(|c| if c.is_ascii_alphanumeric() { c } else { '-' });
        Ok::<_, ServerError>((file, plain.collect::<String>()))
    })
    .await?;
    let stream = tokio_util::io::ReaderStream::new(tokio::fs::File::from_std(file));
    let headers = [
        (header::CONTENT_TYPE, "audio/wav".to_owned()),
        (
            header::CONTENT_DISPOSITION,
            format!("attachment; filename=\"{name}.wav\""),
        ),
    ];
    Ok((headers, Body::from_stream(stream)).into_response())
}
