//! Strokes that were heard, laid to frames that are marked.

use onestrand_dub::SyncLimit;
use onestrand_film::{Fps, FramePos};
use onestrand_hearing::{Onset, StrokeFit, Strokes, claps, fit_strokes, onsets};
use onestrand_store::Production;

use super::ear::InTheEar;
use super::lay_strokes::{Laid, Place, lay_each, lay_row};
use super::{rounded, unheard};
use crate::ProductionError;
use crate::documents::{
    ColumnWords, CueWords, SoundWords, StrokeDocument, StrokeFitDocument, StrokesDocument,
};
use crate::dub::kept::Kept;
use crate::dub::mix_kept::{mix_of, speed_of};
use crate::dub::version::Version;
use crate::error::unfit;

/// The most ways that are offered.
const OFFERED: usize = 4;
/// The most frames that may be marked for one sound.
const MOST_MARKS: usize = 200;
/// So many choices of strokes are gone through one by one; beyond, only strokes that follow
/// one another are tried.
const MOST_CHOICES: f64 = 3e6;

/// The marked frames, and what is laid to them.
#[derive(Debug, Clone)]
pub(super) struct MarksAsked {
    pub(super) speed: Fps,
    pub(super) marks: Vec<Place>,
    /// The cue as it begins; what fits says where.
    pub(super) cue: CueWords,
    /// Which cue is laid anew.
    pub(super) id: Option<i64>,
    pub(super) cut: String,
}

impl MarksAsked {
    pub(super) fn of(
        production: &Production,
        sound: i64,
        cut: &str,
        marks: &[u32],
        (column, cue): (i64, Option<i64>),
    ) -> Result<Self, ProductionError> {
        let version = Version::of(production, cut)?;
        let mut frames = marks.to_vec();
        frames.sort_unstable();
        frames.dedup();
        if frames.is_empty() || frames.len() > MOST_MARKS {
            return Err(unfit(
                format!("{} frames are marked", frames.len()),
                "mark the frames at which something strikes, from one to two hundred",
            ));
        }
        if let Some(beyond) = frames.iter().find(|at| **at >= version.frames()) {
            return Err(unfit(
                format!(
                    "{cut} has {} frames, {beyond} is none of them",
                    version.frames()
                ),
                "mark a frame of the version",
            ));
        }
        Kept::<ColumnWords>::one(production, column)?;
        let words = match cue {
            Some(id) => Kept::<CueWords>::one(production, id)?.words,
            None => CueWords {
                name: Kept::<SoundWords>::one(production, sound)?.words.name,
                ..CueWords::default()
            },
        };
        Ok(Self {
            speed: speed_of(production, &mix_of(production)?)?,
            marks: frames.iter().map(|at| Place::of(&version, *at)).collect(),
            cue: CueWords {
                column,
                sound: Some(sound),
                ..words
            },
            id: cue,
            cut: cut.to_owned(),
        })
    }
}

pub(super) fn strokes(
    heard: &InTheEar,
    sound: &SoundWords,
    asked: &MarksAsked,
) -> Result<StrokesDocument, ProductionError> {
    let ear = heard.heard()?;
    let found = onsets(ear).map_err(|why| unheard(&why))?;
    let laid = Laid {
        sound,
        asked,
        strokes: found.iter().map(|one| heard.sample(one.seconds)).collect(),
        rate: f64::from(heard.rate),
        play: f64::from(sound.play) / 1e6,
    };
    let fits = if asked.marks.len() == 1 {
        let sharp = claps(ear).map_err(|why| unheard(&why))?;
        let order = sharp.iter().filter_map(|clap| {
            let same = |one: &Onset| one.seconds.total_cmp(&clap.seconds).is_eq();
            let which = found.iter().position(same)?;
            Some((which, clap.times_louder))
        });
        let order: Vec<(usize, f64)> = order.take(OFFERED).collect();
        if order.is_empty() {
            return Err(no_stroke());
        }
        order.iter().map(|one| clap(&laid, *one)).collect()
    } else {
        ways(&found, &laid)?
    };
    Ok(StrokesDocument {
        heard: found
            .iter()
            .map(|one| StrokeDocument {
                seconds: rounded(heard.in_sound(one.seconds), 3),
                strength: rounded(one.strength, 2),
            })
            .collect(),
        fits,
        half_frame_ms: rounded(500.0 / asked.speed.as_f64(), 1),
        noticed_early_ms: SyncLimit::NOTICED.early_ms,
        noticed_late_ms: SyncLimit::NOTICED.late_ms,
    })
}

fn no_stroke() -> ProductionError {
    unfit(
        "no stroke is heard in it".to_owned(),
        "listen to a part in which something strikes",
    )
}

/// A single stroke on a single frame: a clap, a slate.
fn clap(laid: &Laid<'_>, (which, louder): (usize, f64)) -> StrokeFitDocument {
    StrokeFitDocument {
        strokes: vec![which + 1],
        off_ms: vec![0.0],
        worst_ms: 0.0,
        holds: true,
        one_piece: true,
        times_louder: Some(rounded(louder, 1)),
        cues: vec![lay_row(laid, &[which], laid.begins_with(which))],
    }
}

/// Ways to lay several, those in a row and any others, best first.
fn ways(found: &[Onset], laid: &Laid<'_>) -> Result<Vec<StrokeFitDocument>, ProductionError> {
    let heard: Vec<f64> = laid
        .strokes
        .iter()
        .map(|at| *at as f64 / laid.rate)
        .collect();
    let marks: Result<Vec<FramePos>, _> = laid
        .asked
        .marks
        .iter()
        .map(|mark| FramePos::new(u32::try_from(mark.at).unwrap_or(0)))
        .collect();
    let marks = marks?;
    let fit = |which| {
        fit_strokes(&heard, laid.play, &marks, laid.asked.speed, which, OFFERED)
            .map_err(|why| unheard(&why))
    };
    let mut fits = fit(Strokes::InARow)?;
    if choices(found.len(), marks.len()) <= MOST_CHOICES {
        for one in fit(Strokes::Any)? {
            if !fits.iter().any(|known| known.strokes == one.strokes) {
                fits.push(one);
            }
        }
    }
    let square = |fit: &StrokeFit| fit.off_ms.iter().map(|ms| ms * ms).sum::<f64>();
    fits.sort_by(|a, b| square(a).total_cmp(&square(b)));
    fits.truncate(OFFERED);
    Ok(fits.iter().map(|one| way(laid, one)).collect())
}

fn way(laid: &Laid<'_>, fit: &StrokeFit) -> StrokeFitDocument {
    let one_piece = fit.strokes.windows(2).all(|two| two[1] == two[0] + 1);
    StrokeFitDocument {
        strokes: fit.strokes.iter().map(|which| which + 1).collect(),
        off_ms: fit.off_ms.iter().map(|ms| rounded(*ms, 1)).collect(),
        worst_ms: rounded(fit.worst_ms, 1),
        holds: fit.holds(),
        one_piece,
        times_louder: None,
        cues: if one_piece {
            vec![lay_row(laid, &fit.strokes, fit.begins_seconds)]
        } else {
            lay_each(laid, &fit.strokes)
        },
    }
}

/// How many ways there are to choose so many of so many.
fn choices(of: usize, so_many: usize) -> f64 {
    let few = so_many.min(of.saturating_sub(so_many));
    (0..few)
        .map(|nth| (of - nth) as f64 / (nth + 1) as f64)
        .product()
}
