//! Sounds of a film: brought in, drawn, heard alone and in the mix.

use std::sync::Arc;

use axum::Json;
use axum::body::Body;
use axum::extract::{DefaultBodyLimit, Path, Query, State};
use axum::http::header;
use axum::response::{IntoResponse, Response};
use futures_util::StreamExt;
use onestrand_intake::Cancel;
use onestrand_production::{
    LoudnessDocument, MixAsked, MixSet, ProductionError, Quiet, keep_sound, sound_added,
    sound_file, sounds_folder,
};
use onestrand_sound::{LoudnessMeter, RATE, SoundReader, Stripe};
use serde::{Deserialize, Serialize};
use tempfile::TempPath;
use tokio::io::AsyncWriteExt;
use utoipa::{IntoParams, ToSchema};
use utoipa_axum::router::OpenApiRouter;
use utoipa_axum::routes;

use crate::desk::KeptDocument;
use crate::house::House;
use crate::playing::Playing;
use crate::problem::{ProblemDocument, ServerError, away};

/// The longest piece of sound in one answer. Unit: samples; ten seconds.
const LONGEST: u64 = 10 * RATE as u64;
/// The widest outline.
const WIDEST: u32 = 16_384;

pub(super) fn router() -> OpenApiRouter<Arc<House>> {
    OpenApiRouter::new()
        .routes(routes!(add))
        .routes(routes!(peaks))
        .routes(routes!(alone))
        .routes(routes!(heard))
        .routes(routes!(loudness))
        // A sound of an hour is larger than any other thing that is sent.
        .layer(DefaultBodyLimit::disable())
}

/// The file that comes.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Incoming {
    /// Its name.
    name: String,
}

/// A sound that came.
#[derive(Debug, Clone, Serialize, ToSchema)]
struct SoundCame {
    /// Its number.
    id: i64,
    /// How many cues waited for it.
    cues: usize,
    /// How it was kept.
    kept: KeptDocument,
}

/// Brings a sound in: any kind that FFmpeg reads. It is written down as it comes.
#[utoipa::path(post, path = "/api/films/{film}/sounds", tag = "dub", operation_id = "add_sound",
    params(("film" = String, Path), Incoming),
    request_body(content = String, content_type = "application/octet-stream"),
    responses((status = 200, body = SoundCame), (status = "default", body = ProblemDocument)))]
async fn add(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(incoming): Query<Incoming>,
    body: Body,
) -> Result<Json<SoundCame>, ServerError> {
    let folder = {
        let desk = house.film(&film)?;
        let production = desk.production();
        sounds_folder(&production)
    };
    let half = come(&folder, body).await?;
    away(move || {
        let cancel = Cancel::new();
        let sound = keep_sound(&folder, &half, &incoming.name, &cancel, &mut Quiet)?;
        let desk = house.film(&film)?;
        let (id, cues, act) = sound_added(&desk.production(), &sound)?;
        let kept = desk.act(&format!("sound {}", sound.name), &act)?;
        let file = sound_file(&desk.production(), id)?;
        // Whoever listens next need not wait. What goes wrong is told to them then.
        tokio::task::spawn_blocking(move || file.make_ready());
        Ok(Json(SoundCame { id, cues, kept }))
    })
    .await
}

/// Writes a body into a file of its own in the folder; the file is gone when what is given
/// back goes, however it went.
async fn come(folder: &std::path::Path, body: Body) -> Result<TempPath, ServerError> {
    let wrong = |source: std::io::Error| crate::shelf::file("keep the sound", source, folder);
    tokio::fs::create_dir_all(folder).await.map_err(wrong)?;
    let place = tempfile::Builder::new()
        .prefix("arriving-")
        .suffix(".part")
        .tempfile_in(folder)
        .map_err(wrong)?;
    let (file, path) = place.into_parts();
    let mut file = tokio::fs::File::from_std(file);
    let mut pieces = body.into_data_stream();
    while let Some(piece) = pieces.next().await {
        let piece = piece.map_err(|e| ServerError::Unreadable { why: e.to_string() })?;
        file.write_all(&piece).await.map_err(wrong)?;
    }
    file.flush().await.map_err(wrong)?;
    Ok(path)
}

/// Which part of an outline.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Outline {
    /// The first sample, at 48 kHz and as it is played.
    first: u64,
    /// How many samples.
    count: u64,
    /// Into how many columns.
    width: u32,
}

fn octets(bytes: Vec<u8>) -> Response {
    ([(header::CONTENT_TYPE, "application/octet-stream")], bytes).into_response()
}

/// The outline of a sound: for each column the lowest and the highest as two signed bytes.
#[utoipa::path(get, path = "/api/films/{film}/sounds/{id}/peaks", tag = "dub", operation_id = "sound_peaks",
    params(("film" = String, Path), ("id" = i64, Path), Outline),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn peaks(
    State(house): State<Arc<House>>,
    Path((film, id)): Path<(String, i64)>,
    Query(part): Query<Outline>,
) -> Result<Response, ServerError> {
    away(move || {
        let file = {
            let desk = house.film(&film)?;
            let production = desk.production();
            sound_file(&production, id)?
        };
        let width = part.width.clamp(1, WIDEST) as usize;
        // Sums over samples stay far from what a number can hold.
        let (first, count) = (part.first.min(1 << 40), part.count.min(1 << 40));
        let columns = file.columns(first, count, width)?;
        let bytes = columns
            .into_iter()
            .flat_map(|(low, high)| [low as u8, high as u8]);
        Ok(octets(bytes.collect()))
    })
    .await
}

/// Which part of a sound.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct Part {
    /// The first sample at 48 kHz.
    first: u64,
    /// How many; at most ten seconds.
    count: u64,
}

fn samples(all: &[f32]) -> Vec<u8> {
    all.iter().flat_map(|sample| sample.to_le_bytes()).collect()
}

/// A piece of a sound alone, 32-bit floating point at 48 kHz, two channels side by side.
#[utoipa::path(get, path = "/api/films/{film}/sounds/{id}/heard", tag = "dub", operation_id = "sound_heard",
    params(("film" = String, Path), ("id" = i64, Path), Part),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn alone(
    State(house): State<Arc<House>>,
    Path((film, id)): Path<(String, i64)>,
    Query(part): Query<Part>,
) -> Result<Response, ServerError> {
    away(move || {
        let file = {
            let desk = house.film(&film)?;
            let production = desk.production();
            sound_file(&production, id)?
        };
        let mut reader = file.reader()?;
        let channels = reader.channels();
        let mut all = vec![0.0; part.count.min(LONGEST) as usize * channels];
        let first = part.first.min(1 << 40);
        reader
            .read(first, &mut all)
            .map_err(ProductionError::from)?;
        let both = all
            .chunks(channels)
            .flat_map(|frame| [frame[0], frame[channels - 1]]);
        Ok(octets(samples(&both.collect::<Vec<f32>>())))
    })
    .await
}

/// Which part of the mix, and how it is heard.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct HeardPart {
    /// The version.
    cut: String,
    /// The first sample at 48 kHz, counted from the first picture; below 0 in the leader.
    first: i64,
    /// How many; at most ten seconds.
    count: u64,
    /// The name of what is heard, from the document: with another the sound is another.
    #[serde(default)]
    heard: Option<String>,
    /// Through the stripe.
    #[serde(default)]
    through: bool,
    /// Columns heard alone, with commas between; all when empty.
    #[serde(default)]
    solo: String,
}

/// A piece of the mix, 32-bit floating point at 48 kHz, two channels side by side.
#[utoipa::path(get, path = "/api/films/{film}/dub/heard", tag = "dub", operation_id = "dub_heard",
    params(("film" = String, Path), HeardPart),
    responses((status = 200, content_type = "application/octet-stream", body = Vec<u8>), (status = "default", body = ProblemDocument)))]
async fn heard(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(part): Query<HeardPart>,
) -> Result<Response, ServerError> {
    away(move || {
        let solo = part.solo.split(',');
        let asked = MixAsked {
            alone: solo.filter_map(|id| id.trim().parse().ok()).collect(),
            ..MixAsked::default()
        };
        let set = || {
            let desk = house.film(&film)?;
            let production = desk.production();
            Ok(MixSet::of(&production, &part.cut, &asked)?)
        };
        let name = format!("{film}/{}/{}", part.cut, part.solo);
        let both = house
            .playing
            .with(&name, part.heard.clone(), set, |playing| {
                piece(playing, &part)
            })?;
        Ok(octets(samples(&both)))
    })
    .await
}

/// A piece of a mix that is being heard, in two channels.
fn piece(playing: &mut Playing, part: &HeardPart) -> Result<Vec<f32>, ProductionError> {
    let channels = playing.set.mix.channels;
    let count = part.count.min(LONGEST) as usize;
    let origin = playing.set.mix.sample_of(0);
    let first = origin.saturating_add(part.first.clamp(-(1 << 40), 1 << 40));
    let mut all = vec![0.0; count * channels];
    // What lies before the leader is silence.
    let before = usize::try_from(first.saturating_neg())
        .unwrap_or(0)
        .min(count);
    let from = u64::try_from(first).unwrap_or(0);
    let there = &mut all[before * channels..];
    let machine = playing.set.stripe.clone().filter(|_| part.through);
    if let Some(machine) = machine {
        let stripe = playing
            .stripe
            .get_or_insert_with(|| Stripe::new(machine, channels));
        let run = &mut playing.run;
        stripe.hear(from, there, &mut |first, into| run.render(first, into))?;
    } else {
        playing.run.render(from, there)?;
    }
    let both = all.chunks(channels);
    Ok(both
        .flat_map(|frame| [frame[0], frame[channels - 1]])
        .collect())
}

/// Which version.
#[derive(Debug, Clone, Deserialize, IntoParams)]
#[into_params(parameter_in = Query)]
struct OfVersion {
    /// The version.
    cut: String,
}

/// How loud the mix of a version is, to EBU R 128.
#[utoipa::path(get, path = "/api/films/{film}/dub/loudness", tag = "dub", operation_id = "dub_loudness",
    params(("film" = String, Path), OfVersion),
    responses((status = 200, body = LoudnessDocument), (status = "default", body = ProblemDocument)))]
async fn loudness(
    State(house): State<Arc<House>>,
    Path(film): Path<String>,
    Query(of): Query<OfVersion>,
) -> Result<Json<LoudnessDocument>, ServerError> {
    away(move || {
        let set = {
            let desk = house.film(&film)?;
            let production = desk.production();
            MixSet::of(&production, &of.cut, &MixAsked::default())?
        };
        let mut run = set.run()?;
        let channels = run.channels();
        let Some(mut meter) = LoudnessMeter::new(channels, RATE) else {
            return Err(ServerError::Unreadable {
                why: "no such channels".to_owned(),
            });
        };
        let mut piece = vec![0.0; RATE as usize * channels];
        let (mut at, all) = (0, set.mix.samples());
        while at < all {
            let count = (all - at).min(u64::from(RATE));
            let piece = &mut piece[..count as usize * channels];
            run.render(at, piece).map_err(ProductionError::from)?;
            meter.hear(piece);
            at += count;
        }
        Ok(Json(meter.done().into()))
    })
    .await
}
