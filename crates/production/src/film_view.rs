//! A film as the page shows it: read, never changed.

use onestrand_cut::TrialCut;
use onestrand_film::{
    Fps, Frames, Gauge, GaugeSpec, HolePlace, RunningTime, SoundTrack, StripGeometry, Sureness,
};
use onestrand_signs::SignRecord;
use onestrand_store::{CutRecord, NoteRecord, Production, StoreError, TakeRecord, Workprints};

use crate::answers::answers;
use crate::changes_seen::start_speed;
use crate::check_cut::{Seen, WaysNow, check_of};
use crate::documents::{
    CutChange, CutDocument, CutHeadDocument, GaugeDocument, HoleDocument, JoinRowDocument,
    LoggedTakeDocument, NoteDocument, PictureDocument, PieceDocument, ProductionDocument,
    RollLogDocument, RollReport, SignDocument, SizeDocument, TakeEnds, TakeWords,
};
use crate::light_of_rolls::LightOfRolls;
use crate::on_action::KnownTwins;
use crate::sign_limits::{roll_report, sign_limits};
use crate::{ProductionError, strand};

/// A production: what it is, its rolls, its versions, its notes.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn production_document(
    production: &Production,
    prints: &Workprints,
) -> Result<ProductionDocument, ProductionError> {
    let meta = production.meta();
    Ok(ProductionDocument {
        revision: production.revision()?.number(),
        title: meta.title.clone(),
        gauge: gauge_document(meta.gauge),
        speed: meta.speed.to_string(),
        dir: production.dir().display().to_string(),
        rolls: crate::roll::rolls_with(production, prints)?,
        reels: crate::reels::list_reels(production)?,
        cuts: cut_heads(production)?,
        sign_limits: sign_limits(production)?,
        titles: crate::titles::title_pictures(production)?,
        notes: production.notes()?.into_iter().map(note_document).collect(),
        notices: production.notices().to_vec(),
        undo: production.next_undo()?,
        redo: production.next_redo()?,
    })
}

/// A gauge, so that film can be drawn to scale.
#[must_use]
pub fn gauge_document(gauge: Gauge) -> GaugeDocument {
    let spec: &GaugeSpec = gauge.spec();
    let mm = |um: u32| f64::from(um) / 1_000.0;
    let place = match spec.strip.place {
        HolePlace::BesidePicture => "beside_picture",
        HolePlace::CentreOnFrameLine => "centre_on_frame_line",
        HolePlace::FourBothEdges => "four_both_edges",
        _ => "edge_on_frame_line",
    };
    GaugeDocument {
        gauge: spec.code.to_owned(),
        name: spec.name.to_owned(),
        frames_per_foot: spec.frames_per_foot,
        pitch_mm: mm(spec.pitch_um),
        width_mm: mm(spec.strip.width_um),
        picture: PictureDocument {
            w: mm(spec.camera.width_um),
            h: mm(spec.camera.height_um),
            left: mm(spec.strip.picture_left_um),
        },
        shown: SizeDocument {
            w: mm(spec.shown.width_um),
            h: mm(spec.shown.height_um),
        },
        hole: hole(&spec.strip),
        place: place.to_owned(),
        magnetic_lead: magnetic_lead(gauge),
        load: spec.load.map(|(frames, _)| frames),
        load_words: spec.load.map(|(_, words)| words.to_owned()),
    }
}

/// The usual lead of a magnetic stripe, where it is more than a suggestion.
fn magnetic_lead(gauge: Gauge) -> Option<u32> {
    let lead = gauge.sound_leads(SoundTrack::Magnetic).next()?;
    let is_known = lead.sureness != Sureness::Suggestion;
    u32::try_from(lead.frames).ok().filter(|_| is_known)
}

/// A hole for drawing, where its size and place are known.
fn hole(strip: &StripGeometry) -> Option<HoleDocument> {
    let mm = |um: u32| f64::from(um) / 1_000.0;
    let (w, h) = strip.hole_um?;
    Some(HoleDocument {
        w: mm(w),
        h: mm(h),
        edge: mm(strip.edge_um?),
        radius: mm(strip.radius_um.unwrap_or(0)),
    })
}

fn cut_heads(production: &Production) -> Result<Vec<CutHeadDocument>, ProductionError> {
    let meta = production.meta();
    let mut heads = Vec::new();
    for name in production.cut_names()? {
        let record = production.cut(&name)?;
        let cut = record.to_model()?;
        heads.push(CutHeadDocument {
            cut: name,
            pieces: cut.pieces().len(),
            frames: cut.frames().count(),
            footage: meta.gauge.footage(cut.frames()).into(),
            clock: RunningTime::of(cut.frames(), meta.speed).to_string(),
            usual_join: record.usual_join,
            made: record.made,
            note: record.note,
        });
    }
    Ok(heads)
}

fn note_document((id, note): (i64, NoteRecord)) -> NoteDocument {
    NoteDocument {
        id,
        roll: note.roll,
        frame: note.frame,
        words: note.words,
        writer: note.writer,
        made: note.made,
    }
}

/// A roll with its log and what its reading found.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn roll_log(
    production: &Production,
    prints: &Workprints,
    name: &str,
) -> Result<RollLogDocument, ProductionError> {
    let roll = production.roll(name)?;
    let speed: Fps = roll.film_speed.parse()?;
    Ok(RollLogDocument {
        revision: production.revision()?.number(),
        roll: crate::roll::document(production, prints, &roll)?,
        inspection: crate::inspect_roll::inspection_document(production, &roll)?,
        film_speed: roll.film_speed,
        measured: roll.measured,
        shrinkage: roll.shrinkage,
        wind: roll.wind,
        takes: production
            .takes_of(name)?
            .into_iter()
            .map(|take| logged_take(take, speed))
            .collect(),
        report: roll_report(production, prints, name)?,
        not_kept: not_kept(prints, name)?,
    })
}

/// What an older program did not keep when it read a roll, and a new reading has.
/// Nothing without a workprint, for then all of it is made anew.
pub(crate) fn not_kept(prints: &Workprints, roll: &str) -> Result<Vec<String>, StoreError> {
    let Some(info) = prints.info(roll)? else {
        return Ok(Vec::new());
    };
    let kept: serde_json::Value = serde_json::from_str(&info.report).unwrap_or_default();
    let judged_by = prints.signs(roll)?;
    let is_there = [
        ("transfer", kept["transfer"].is_object()),
        ("breaks", kept["breaks"].is_array()),
        (
            "signs",
            judged_by.is_some_and(|record| SignRecord::from_bytes(&record).is_some()),
        ),
    ];
    let lacking = is_there.iter().filter(|(_, there)| !there);
    Ok(lacking.map(|(what, _)| (*what).to_owned()).collect())
}

/// A report as it is kept; the older form held the signs alone.
pub(crate) fn report(text: &str) -> RollReport {
    let signs_alone = || {
        let signs: Vec<SignDocument> = serde_json::from_str(text).unwrap_or_default();
        RollReport {
            signs,
            ..RollReport::default()
        }
    };
    serde_json::from_str(text).unwrap_or_else(|_| signs_alone())
}

fn logged_take(take: TakeRecord, speed: Fps) -> LoggedTakeDocument {
    LoggedTakeDocument {
        start_speed: take
            .flash_stops
            .map(|stops| start_speed(stops as f32, speed)),
        looked: take.looked,
        pin: take.pin.unwrap_or_default(),
        first: take.first,
        thrown: take.thrown,
        begins: take.begins,
        flash_frames: take.flash_frames,
        flash_stops: take.flash_stops,
        words: TakeWords {
            setup: take.setup,
            take: take.take,
            rating: take.rating,
            size: take.size,
            camera_move: take.camera_move,
            direction: take.direction,
            action: take.action,
            note: take.note,
        },
    }
}

/// A version, ready to be drawn.
///
/// # Errors
/// [`ProductionError::Store`].
pub fn cut_document(production: &Production, name: &str) -> Result<CutDocument, ProductionError> {
    let record = production.cut(name)?;
    let cut = record.to_model()?;
    drawn(production, name, &record, &cut, false)
}

/// A version as it would stand after a change that is not kept.
///
/// # Errors
/// [`ProductionError::Store`] when the change does not fit,
/// [`ProductionError::Unfit`] when it cannot be read.
pub fn try_cut(
    production: &Production,
    name: &str,
    change: &CutChange,
) -> Result<CutDocument, ProductionError> {
    let record = production.cut(name)?;
    let change = change.to_model()?;
    let (cut, _) = record
        .to_model()?
        .apply(&change)
        .map_err(StoreError::Refused)?;
    drawn(production, name, &record, &cut, true)
}

fn drawn(
    production: &Production,
    name: &str,
    record: &CutRecord,
    cut: &TrialCut,
    on_trial: bool,
) -> Result<CutDocument, ProductionError> {
    let meta = production.meta();
    let strand = strand::strand(production)?;
    let rules = strand::rules(production);
    let answered = answers(production)?;
    let known = KnownTwins::of(production)?;
    let seen = Seen {
        strand: &strand,
        rules: &rules,
        meta,
        answered: &answered,
        known: &known,
        light: &LightOfRolls::of(production),
    };
    let joins = onestrand_cut::JoinKind::ALL
        .into_iter()
        .map(|kind| {
            let row = rules.table.row(kind);
            JoinRowDocument {
                join: kind.to_string(),
                out_tail: row.bite.out_tail.into(),
                in_head: row.bite.in_head.into(),
                scar_out: row.scar.out_tail.into(),
                scar_in: row.scar.in_head.into(),
                shortest: row.shortest,
            }
        })
        .collect();
    let (check, ways_later) = check_of(name, cut, &seen, WaysNow::OfFew);
    Ok(CutDocument {
        cut: name.to_owned(),
        revision: production.revision()?.number(),
        on_trial,
        usual_join: cut.usual_join().to_string(),
        note: record.note.clone(),
        made: record.made.clone(),
        frames: cut.frames().count(),
        footage: meta.gauge.footage(cut.frames()).into(),
        clock: RunningTime::of(cut.frames(), meta.speed).to_string(),
        pieces: pieces(cut, &strand),
        check,
        ways_later,
        joins,
    })
}

pub(crate) fn pieces(cut: &TrialCut, strand: &onestrand_cut::Strand) -> Vec<PieceDocument> {
    let starts: Vec<Frames> = cut.starts();
    let all = cut.pieces();
    let one = |index: usize| {
        let piece = &all[index];
        let take = piece.span().and_then(|s| strand.take_at(&s.first()));
        let next = all.get(index + 1).and_then(onestrand_cut::Piece::span);
        let runs_on = piece
            .span()
            .zip(next)
            .is_some_and(|(a, b)| a.roll == b.roll && a.range.end() == b.range.begin());
        PieceDocument {
            piece: piece.into(),
            starts_at: starts[index].count(),
            action: take.map(|t| t.action.clone()).unwrap_or_default(),
            logged: take.and_then(|t| t.slate.as_ref()).map(ToString::to_string),
            take: take.map(|t| TakeEnds {
                first: t.span.range.begin().index(),
                thrown: t.span.range.end().index(),
            }),
            runs_on,
        }
    };
    (0..all.len()).map(one).collect()
}
