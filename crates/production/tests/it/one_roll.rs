//! A film with one roll that has been read, and what its cut is laid of.

use std::path::{Path, PathBuf};

use onestrand_film::{Fps, Gauge};
use onestrand_intake::Cancel;
use onestrand_production::{AddRoll, Meta, Production, Quiet, add_roll};
use onestrand_store::PieceRecord;

/// A real clip with camera stops.
pub(crate) fn clip() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("../../tests/media/video/camera_stops_b.mp4")
}

pub(crate) fn meta() -> Meta {
    Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    }
}

/// R1 out of one file.
pub(crate) fn request(file: &Path) -> AddRoll {
    AddRoll {
        roll: "R1".to_owned(),
        files: vec![file.to_owned()],
        gauge: None,
        film_speed: None,
        base: "not-known".to_owned(),
        measured: None,
        shrinkage: None,
        wind: None,
        fit: "project".to_owned(),
    }
}

/// A film whose one roll has been read out of a file.
pub(crate) fn read_once(dir: &Path, file: &Path) -> Production {
    let mut production = Production::create(&dir.join("film"), &meta()).expect("new");
    add_roll(&mut production, &request(file), &Cancel::new(), &mut Quiet).expect("read");
    production
}

/// A piece of R1.
pub(crate) fn shot(first: u32, thrown: u32) -> PieceRecord {
    PieceRecord {
        kind: "shot".to_owned(),
        roll: Some("R1".to_owned()),
        first: Some(first),
        thrown: Some(thrown),
        frames: None,
        title: None,
        setup: None,
        take: None,
        join: None,
        effect: None,
        note: String::new(),
    }
}
