//! Whose camera: every shot of the reels looked at, and put together.

use std::collections::BTreeMap;
use std::path::PathBuf;
use std::sync::Arc;

use onestrand_intake::Cancel;
use onestrand_provenance::{
    CamerasFound, SURE, ScanPicture, ShotPlace, ShotSeen, Side, find_cameras,
};
use onestrand_store::Workprints;

use super::order;
use super::pictures::fetch;
use super::reels::{FamilyReels, Reel, SHORTEST};
use crate::documents::{
    FamilyCamera, FamilyDocument, FamilyOtherwise, FamilyShot, FamilyStock, FamilyThing,
};
use crate::{ProductionError, Progress};

/// Frames looked at of each shot.
const FRAMES: u32 = 12;

/// A shot of a workprint: folder, roll and its pictures' name, first frame and first after.
type ShotKey = (PathBuf, String, String, u32, u32);

/// What shots that were looked at lately show of their cameras.
#[derive(Debug, Default)]
pub struct FamilyMemory {
    shots: BTreeMap<ShotKey, Arc<ShotSeen>>,
}

/// A shot that was looked at.
pub(super) struct Looked {
    pub(super) reel: usize,
    pub(super) first: u32,
    pub(super) thrown: u32,
    /// It follows the shot before it on the film, without a join.
    pub(super) follows: bool,
    pub(super) seen: Arc<ShotSeen>,
}

/// Looks at every shot of the reels at full size, and puts them together by camera, by stock
/// and in order.
///
/// # Errors
/// [`ProductionError::Unfit`] without reels, those of the scans,
/// [`ProductionError::Stopped`].
pub fn look_at_family(
    reels: &FamilyReels,
    memory: &mut FamilyMemory,
    cancel: &Cancel,
    progress: &mut dyn Progress,
) -> Result<FamilyDocument, ProductionError> {
    let reels = reels.clone().are_there()?;
    let all: usize = reels.reels.iter().map(|reel| long(reel).count()).sum();
    let total = all as u64 * u64::from(FRAMES);
    progress.begin("looking at the gates", Some(total));
    let (mut looked, mut done, mut too_short) = (Vec::new(), 0, 0);
    for (number, reel) in reels.reels.iter().enumerate() {
        too_short += reel.takes.len() - long(reel).count();
        let mut told = |frames: u64| {
            done += frames;
            progress.at(done);
        };
        looked.extend(shots_of(number, reel, memory, cancel, &mut told)?);
    }
    Ok(document(&reels, &looked, too_short))
}

/// The takes that are long enough to be looked at, each with whether it follows the one
/// before it without a join.
fn long(reel: &Reel) -> impl Iterator<Item = (u32, u32, bool)> + '_ {
    let follows = |begins: &str| matches!(begins, "camera_stop");
    let all = reel
        .takes
        .iter()
        .map(move |t| (t.first, t.thrown, follows(&t.begins)));
    all.filter(|(first, thrown, _)| thrown - first >= SHORTEST)
}

/// The frames looked at of a shot: its first, its last, and some between.
fn wanted(first: u32, thrown: u32) -> Vec<u32> {
    let long = thrown - first;
    let many = FRAMES.min(long);
    let at = |n: u32| first + n * (long - 1) / (many - 1);
    (0..many).map(at).collect()
}

fn shots_of(
    number: usize,
    reel: &Reel,
    memory: &mut FamilyMemory,
    cancel: &Cancel,
    told: &mut dyn FnMut(u64),
) -> Result<Vec<Looked>, ProductionError> {
    let prints = Workprints::open(&reel.dir)?;
    let identity = prints.identity(&reel.record.name)?.unwrap_or_default();
    let key = |first, thrown| {
        (
            reel.dir.clone(),
            reel.record.name.clone(),
            identity.clone(),
            first,
            thrown,
        )
    };
    let fresh: Vec<(u32, u32)> = long(reel)
        .map(|(first, thrown, _)| (first, thrown))
        .filter(|&(first, thrown)| !memory.shots.contains_key(&key(first, thrown)))
        .collect();
    told((long(reel).count() - fresh.len()) as u64 * u64::from(FRAMES));
    let mut keep = |(first, thrown), pictures: &[ScanPicture]| {
        // A shot of which the scan shows too few frames is passed over.
        if let Ok(seen) = ShotSeen::of(pictures) {
            memory.shots.insert(key(first, thrown), Arc::new(seen));
        }
    };
    look(reel, &fresh, cancel, told, &mut keep)?;
    let shots = long(reel).filter_map(|(first, thrown, follows)| {
        Some(Looked {
            reel: number,
            first,
            thrown,
            follows,
            seen: Arc::clone(memory.shots.get(&key(first, thrown))?),
        })
    });
    Ok(shots.collect())
}

/// Takes a shot, first frame and first after, with its pictures.
type KeepShot<'a> = &'a mut dyn FnMut((u32, u32), &[ScanPicture]);

/// Fetches the frames of shots in one go and hands each shot's pictures on.
fn look(
    reel: &Reel,
    shots: &[(u32, u32)],
    cancel: &Cancel,
    told: &mut dyn FnMut(u64),
    keep: KeepShot<'_>,
) -> Result<(), ProductionError> {
    let frames = shots.iter().enumerate();
    let frames = frames.flat_map(|(n, &(a, b))| wanted(a, b).into_iter().map(move |f| (n, f)));
    let (shot_of, frames): (Vec<usize>, Vec<u32>) = frames.unzip();
    let mut held: (usize, Vec<ScanPicture>) = (0, Vec::new());
    let mut sink = |place: usize, picture: ScanPicture| {
        if cancel.is_cancelled() {
            return Err(ProductionError::Stopped);
        }
        if shot_of[place] != held.0 {
            keep(shots[held.0], &held.1);
            held = (shot_of[place], Vec::new());
        }
        held.1.push(picture);
        told(1);
        Ok(())
    };
    if frames.is_empty() {
        return Ok(());
    }
    fetch(reel, &frames, cancel, &mut sink)?;
    keep(shots[held.0], &held.1);
    if cancel.is_cancelled() {
        return Err(ProductionError::Stopped);
    }
    Ok(())
}

fn document(reels: &FamilyReels, looked: &[Looked], too_short: usize) -> FamilyDocument {
    let seen: Vec<ShotSeen> = looked.iter().map(|l| l.seen.as_ref().clone()).collect();
    let found = find_cameras(&seen);
    let shots: Vec<FamilyShot> = looked
        .iter()
        .zip(&found.shots)
        .map(|(looked, place)| shot(&reels.reels[looked.reel], looked, place))
        .collect();
    let cameras: Vec<FamilyCamera> = (0..found.cameras.len())
        .map(|number| camera(number, &found, looked))
        .collect();
    let unseen = shots.iter().filter(|shot| shot.camera.is_none()).count();
    let (words, hint) = summed(&found, &shots, unseen);
    FamilyDocument {
        stocks: stocks(&found, &seen),
        noise: found.noise,
        unseen: count(unseen),
        too_short: count(too_short),
        shots,
        cameras,
        words,
        hint,
    }
}

pub(super) fn count(number: usize) -> u32 {
    u32::try_from(number).unwrap_or(u32::MAX)
}

pub(super) fn side(side: Side) -> &'static str {
    match side {
        Side::Left => "left",
        Side::Right => "right",
        Side::Top => "top",
        Side::Bottom => "bottom",
    }
}

fn shot(reel: &Reel, looked: &Looked, place: &ShotPlace) -> FamilyShot {
    let things = looked.seen.standing().iter().map(|thing| FamilyThing {
        side: side(thing.side),
        along: f64::from(thing.along),
        length: f64::from(thing.length),
    });
    FamilyShot {
        film: reel.film.clone(),
        roll: reel.record.name.clone(),
        first: looked.first,
        thrown: looked.thrown,
        camera: place.camera.map(count),
        probability: place.probability,
        sure: place.camera.is_some() && place.probability >= SURE,
        otherwise: place
            .otherwise
            .map(|(camera, probability)| FamilyOtherwise {
                camera: count(camera),
                probability,
            }),
        stock: place.stock.map(count),
        stock_probability: place.stock_probability,
        unseen: looked
            .seen
            .unseen()
            .map(|why| why.words())
            .unwrap_or_default(),
        things: things.collect(),
        fog_head: looked.seen.fog().at_head(),
        fog_tail: looked.seen.fog().at_tail(),
    }
}

fn camera(number: usize, found: &CamerasFound, looked: &[Looked]) -> FamilyCamera {
    let camera = &found.cameras[number];
    let line = |side: Side| {
        let points = camera.outline.points(side).into_iter().flatten();
        points
            .map(|(x, y, _)| [f64::from(x), f64::from(y)])
            .collect::<Vec<_>>()
    };
    let beside = match camera.nearest {
        Some(nearest) => format!(
            "; the nearest other gate lies {nearest:.1} thousandths of the picture's width off, two shots through one gate {:.1}",
            found.noise * std::f64::consts::SQRT_2
        ),
        None => String::new(),
    };
    let words = match camera.shots.len() {
        1 => format!("one shot alone has this outline{beside}"),
        many => format!(
            "{many} shots have this outline, {:.1} thousandths off it on the mean{beside}",
            camera.spread
        ),
    };
    FamilyCamera {
        shots: camera.shots.iter().map(|&s| count(s)).collect(),
        outline: Side::ALL.map(line).to_vec(),
        height: f64::from(camera.outline.height_share()) * 1_000.0,
        spread: camera.spread,
        nearest: camera.nearest,
        words,
        order: order::of_camera(&camera.shots, looked, found),
    }
}

fn stocks(found: &CamerasFound, seen: &[ShotSeen]) -> Vec<FamilyStock> {
    let of = |shots: &Vec<usize>| {
        let borders = shots.iter().filter_map(|&s| seen[s].stock()?.border);
        let many = borders.clone().count().max(1) as f64;
        let mut border = [0.0; 3];
        for one in borders {
            border
                .iter_mut()
                .zip(one)
                .for_each(|(sum, level)| *sum += f64::from(level) / many);
        }
        FamilyStock {
            shots: shots.iter().map(|&s| count(s)).collect(),
            border,
        }
    };
    found.stocks.iter().map(of).collect()
}

fn summed(found: &CamerasFound, shots: &[FamilyShot], unseen: usize) -> (String, String) {
    if unseen == shots.len() {
        return (
            "no scan shows the edge of the gate, so nothing can be said of the cameras".to_owned(),
            "have the reels scanned with some of the black border about the picture; most scanners can show it".to_owned(),
        );
    }
    let guessed = shots
        .iter()
        .filter(|s| s.camera.is_some() && !s.sure)
        .count();
    let cameras = match found.cameras.len() {
        1 => "all shots whose gate is seen went through one camera".to_owned(),
        many => format!("{many} gates were seen: so many cameras, as far as the shots show"),
    };
    let mut words = cameras;
    if guessed > 0 {
        words += &format!("; the place of {guessed} is a guess");
    }
    let hint = match unseen {
        0 => String::new(),
        1 => "one shot does not show its gate: it is left out".to_owned(),
        many => format!("{many} shots do not show their gates: they are left out"),
    };
    (words, hint)
}
