//! A version becomes a file of the standard.

use onestrand_cut::{Piece, PieceKind};
use onestrand_film::{Fps, Span};
use serde_json::{Map, Value, json};

use crate::film::{Film, RollOnFile, Version};
use crate::media::percent_encoded;
use crate::{effects, note_marks, schema};

/// Writes a version of `film` as a file of the standard.
///
/// Every count is a count of film frames at the film's speed. The standard has
/// a rate as a decimal, so 50/3 stands there as 16.666666666666668; the exact
/// speed stands in our own words beside it, and counts are whole all the same.
#[must_use]
pub fn write(film: &Film, version: &Version) -> String {
    let pieces = version.cut.pieces().iter();
    let children: Vec<Value> = pieces
        .map(|piece| piece_object(film, version, piece))
        .collect();
    let track = json!({
        schema::SCHEMA: schema::TRACK,
        "metadata": {},
        "name": "picture",
        "source_range": null,
        "effects": [],
        "markers": [],
        "enabled": true,
        "children": children,
        "kind": "Video",
    });
    let root = json!({
        schema::SCHEMA: schema::VERSION,
        "metadata": { schema::OURS: head(film, version) },
        "name": version.name,
        "global_start_time": null,
        "tracks": {
            schema::SCHEMA: schema::STACK,
            "metadata": {},
            "name": "tracks",
            "source_range": null,
            "effects": [],
            "markers": [],
            "enabled": true,
            "children": [track],
        },
    });
    let mut text = format!("{root:#}");
    text.push('\n');
    text
}

fn head(film: &Film, version: &Version) -> Value {
    json!({
        "form": schema::FORM,
        "film": film.title,
        "gauge": film.gauge.to_string(),
        "speed": film.speed.to_string(),
        "usual_join": version.cut.usual_join().word(),
        "note": version.note,
    })
}

fn piece_object(film: &Film, version: &Version, piece: &Piece) -> Value {
    let speed = film.speed;
    let whole = |frames: onestrand_film::Frames| i64::from(frames.count());
    let effects: Vec<Value> = piece.effect.map(effects::written).into_iter().collect();
    let (schema, start, marks) = match &piece.kind {
        PieceKind::Shot(span) => {
            let marks = note_marks::written(&version.notes, span, speed);
            (schema::CLIP, i64::from(span.range.begin().index()), marks)
        }
        PieceKind::Card { .. } => (schema::CLIP, 0, Vec::new()),
        PieceKind::Leader(_) => (schema::GAP, 0, Vec::new()),
    };
    let mut object = json!({
        schema::SCHEMA: schema,
        "metadata": { schema::OURS: own_words(piece) },
        "name": name(piece),
        "source_range": range(time(start, speed), time(whole(piece.frames()), speed)),
        "effects": effects,
        "markers": marks,
        "enabled": true,
    });
    let media = match &piece.kind {
        PieceKind::Shot(span) => media(film, span),
        PieceKind::Card { title, .. } => reference(schema::NO_FILE, title, json!({}), Value::Null),
        PieceKind::Leader(_) => return object,
    };
    object["media_references"] = json!({ schema::ONLY_MEDIA: media });
    object["active_media_reference_key"] = json!(schema::ONLY_MEDIA);
    object
}

/// What only we know of a piece. Its frames are not among it: they stand once,
/// in the range, so that a trim made elsewhere is a trim.
fn own_words(piece: &Piece) -> Value {
    let mut words = Map::new();
    let kind = match &piece.kind {
        PieceKind::Shot(_) => "shot",
        PieceKind::Leader(_) => "leader",
        PieceKind::Card { .. } => "card",
    };
    words.insert("kind".to_owned(), json!(kind));
    if let PieceKind::Card { title, .. } = &piece.kind {
        words.insert("title".to_owned(), json!(title));
    }
    if let Some(slate) = &piece.slate {
        words.insert("slate".to_owned(), json!(slate.to_string()));
    }
    if let Some(join) = piece.join {
        words.insert("join".to_owned(), json!(join.word()));
    }
    if !piece.note.is_empty() {
        words.insert("note".to_owned(), json!(piece.note));
    }
    Value::Object(words)
}

/// What a person sees of it in another program.
fn name(piece: &Piece) -> String {
    match (&piece.slate, &piece.kind) {
        (Some(slate), _) => slate.to_string(),
        (None, PieceKind::Shot(span)) => span.first().to_string(),
        (None, PieceKind::Leader(_)) => "leader".to_owned(),
        (None, PieceKind::Card { title, .. }) => title.clone(),
    }
}

/// The roll, by the scan that shows it frame for frame at the film's own speed,
/// a film file or a run of pictures; without such a scan, the roll itself.
fn media(film: &Film, span: &Span) -> Value {
    let id = &span.roll;
    let Some(roll) = film.roll(id) else {
        let own = json!({ schema::OURS: { "roll": id.as_str() } });
        return reference(schema::NO_FILE, id.as_str(), own, Value::Null);
    };
    let frames = i64::from(roll.frames.count());
    let available = range(time(0, film.speed), time(frames, film.speed));
    let own = json!({ schema::OURS: roll_words(roll) });
    if let Some(file) = roll.own_file(film.speed) {
        let mut media = reference(schema::FILE, id.as_str(), own, available);
        media["target_url"] = json!(percent_encoded(&file.name));
        media
    } else if let Some(run) = roll.own_pictures() {
        let mut media = reference(schema::PICTURES, id.as_str(), own, available);
        run.put_into(&mut media, film.speed);
        media
    } else {
        reference(schema::NO_FILE, id.as_str(), own, available)
    }
}

fn roll_words(roll: &RollOnFile) -> Value {
    let scan = |scan: &crate::ScanFile| {
        json!({
            "file": scan.name,
            "pictures": scan.pictures,
            "rate": scan.rate.map(|rate| rate.to_string()),
            "film_frame_is_file_frame": scan.frame_for_frame,
        })
    };
    json!({
        "roll": roll.roll.as_str(),
        "counts": "film frames",
        "scans": roll.scans.iter().map(scan).collect::<Vec<_>>(),
    })
}

fn reference(schema: &str, name: &str, metadata: Value, available: Value) -> Value {
    json!({
        schema::SCHEMA: schema,
        "metadata": metadata,
        "name": name,
        "available_range": available,
        "available_image_bounds": null,
    })
}

/// So many frames at a speed, as the standard has it.
pub(crate) fn time(frames: i64, speed: Fps) -> Value {
    json!({
        schema::SCHEMA: schema::TIME,
        "rate": speed.as_f64(),
        // Counts stay below 2^53, so the decimal is the count.
        "value": frames as f64,
    })
}

pub(crate) fn range(start: Value, length: Value) -> Value {
    json!({
        schema::SCHEMA: schema::RANGE,
        "duration": length,
        "start_time": start,
    })
}
