//! The dubbing chart, filled from the film.

use onestrand_sheets::{
    CueAnchor, CueShape, CueStanding, DubColumn, DubCue, DubEcho, DubShot, DubbingChart, LevelPoint,
};

use super::{DubSheetsToPrint, db, frame_on_paper, outlines, played};
use crate::documents::{CueDocument, CueStateWord, HoldsToWord, PieceOnChartDocument};
use crate::{ProductionError, small_picture};

/// A picture for so much film. Unit: parts of a foot; a picture as tall as it needs to be
/// to be seen takes about half a foot of the chart.
const PICTURES_A_FOOT: u32 = 2;
/// Most pictures of one shot: more are not looked at.
const MOST_PICTURES: u32 = 12;
/// How large a picture is fetched. Unit: pixels.
const SIZE: (u16, u16) = (120, 90);

pub(super) fn sheet(all: &mut DubSheetsToPrint) -> Result<DubbingChart, ProductionError> {
    let mut shots = Vec::new();
    for piece in all.dub.pieces.clone() {
        shots.push(shot(all, &piece)?);
    }
    let columns = all.dub.columns.iter();
    Ok(DubbingChart {
        head: all.head.clone(),
        true_speed: all.true_speed,
        is_measured: !all.dub.mix.speed.trim().is_empty(),
        lead: all.dub.lead.and_then(|lead| i32::try_from(lead).ok()),
        frames: all.dub.frames,
        feet_a_sheet: DubbingChart::USUAL_FEET,
        shots,
        columns: columns
            .map(|known| DubColumn {
                name: known.column.name.clone(),
                cues: cues(all, known.id),
            })
            .collect(),
        echoes: echoes(all),
        moves: played::moves(all),
        hands: all.dub.hands.hands,
        remarks: remarks(all),
    })
}

fn shot(
    all: &mut DubSheetsToPrint,
    piece: &PieceOnChartDocument,
) -> Result<DubShot, ProductionError> {
    let mut pictures = Vec::new();
    if let Some(roll) = &piece.roll {
        let a_foot = all.head.gauge.spec().frames_per_foot;
        for frame in looked_at(piece.frames, a_foot / PICTURES_A_FOOT) {
            let found = all.prints.picture(roll, piece.first + frame)?;
            // A picture that cannot be read leaves its place empty; the sheet is still of use.
            pictures.extend(found.and_then(|jpeg| small_picture(&jpeg, SIZE).ok()));
        }
    }
    let from = frame_on_paper(piece.at);
    Ok(DubShot {
        name: piece.position.to_string(),
        action: piece.says.clone(),
        from,
        to: from.saturating_add(piece.frames),
        pictures,
    })
}

/// Which frames of a piece are shown, evenly spread: each in the middle of its part.
fn looked_at(frames: u32, every: u32) -> impl Iterator<Item = u32> {
    let count = match frames {
        0 => 0,
        frames => (frames / every.max(1)).clamp(1, MOST_PICTURES),
    };
    let place = move |nth: u32| {
        let twice = u64::from(count) * 2;
        let middle = u64::from(frames) * (u64::from(nth) * 2 + 1) / twice;
        u32::try_from(middle).unwrap_or(u32::MAX)
    };
    (0..count).map(place)
}

/// The cues of a column, and where those without a place might go.
fn cues(all: &DubSheetsToPrint, column: i64) -> Vec<DubCue> {
    let of_column = all.dub.cues.iter().filter(|cue| cue.cue.column == column);
    let mut found = Vec::new();
    for cue in of_column {
        let standing = match cue.state {
            CueStateWord::Orphan => CueStanding::Orphan,
            _ => CueStanding::Held,
        };
        found.push(drawn(all, cue, cue.at, standing));
        // Only the best: a chart with every chance on it cannot be read.
        if let (CueStateWord::Orphan, false, Some(best)) =
            (cue.state, cue.cue.left, cue.proposals.first())
        {
            found.push(drawn(all, cue, best.at, CueStanding::Proposed));
        }
    }
    found.sort_by_key(|cue| (cue.from, cue.to));
    found
}

fn drawn(all: &DubSheetsToPrint, cue: &CueDocument, from: i64, standing: CueStanding) -> DubCue {
    let words = &cue.cue;
    DubCue {
        name: all.name_of(cue),
        from,
        to: from + i64::from(cue.frames),
        shape: match words.stroke {
            true => CueShape::Drop,
            false => CueShape::Block,
        },
        anchor: match words.start.to {
            HoldsToWord::Frame => CueAnchor::Frame,
            HoldsToWord::Join => CueAnchor::Join,
            HoldsToWord::Clock => CueAnchor::Clock,
        },
        standing,
        outline: outline(all, cue),
        level: level(cue, from),
        fade_in: words.fade_in.frames.min(cue.frames),
        fade_out: words.fade_out.frames.min(cue.frames),
        remark: words.note.clone(),
    }
}

/// The outline of the sound it plays; none where there is no file.
fn outline(all: &DubSheetsToPrint, cue: &CueDocument) -> Vec<f32> {
    let sound = all.sound(cue);
    let file = sound.and_then(|sound| all.files.get(&sound.id));
    match sound.zip(file) {
        Some((sound, file)) => outlines::outline(file, &sound.sound, cue, all.true_speed),
        None => Vec::new(),
    }
}

/// The level line of a cue: its own level and the line over it together.
fn level(cue: &CueDocument, from: i64) -> Vec<LevelPoint> {
    let words = &cue.cue;
    let point = |at: u32, tenths: i32| LevelPoint {
        frame: from + i64::from(at.min(cue.frames)),
        db: db(tenths),
    };
    if words.line.is_empty() && words.level != 0 {
        return vec![point(0, words.level)];
    }
    let handles = words.line.iter();
    handles
        .map(|handle| point(handle.at, words.level.saturating_add(handle.level)))
        .collect()
}

/// Where the joins are heard, with the cue that lies near.
fn echoes(all: &DubSheetsToPrint) -> Vec<DubEcho> {
    let near = |join: i64| {
        let mut placed = all.placed();
        let (cue, echo) = placed.find_map(|cue| {
            let echo = cue.echo.as_ref().filter(|echo| echo.join_at == join)?;
            Some((cue, echo))
        })?;
        let mut columns = all.dub.columns.iter();
        let column = columns.position(|known| known.id == cue.cue.column)?;
        let away = match echo.frames_away.abs() {
            0 => "on it".to_owned(),
            1 => "1 frame away".to_owned(),
            frames => format!("{frames} frames away"),
        };
        let said = format!("{}: {away}", all.name_of(cue));
        Some((column, said))
    };
    let joins = all.dub.joins.iter().filter(|join| join.heard_at >= 0);
    joins
        .map(|join| DubEcho {
            join_at: frame_on_paper(join.at),
            heard_at: frame_on_paper(join.heard_at),
            near: near(join.at),
        })
        .collect()
}

fn remarks(all: &DubSheetsToPrint) -> Vec<String> {
    let mut said = Vec::new();
    let orphan = |cue: &&CueDocument| cue.state == CueStateWord::Orphan;
    for cue in all.dub.cues.iter().filter(orphan) {
        let may = cue.proposals.first().map_or(String::new(), |best| {
            format!("; it might go to {}: {}", best.at, best.why)
        });
        let name = all.name_of(cue);
        said.push(format!(
            "{name} has no place, it held to {}{may}.",
            cue.holds
        ));
    }
    for cue in all.placed().filter(|cue| cue.short_by > 0) {
        let (name, frames) = (all.name_of(cue), cue.short_by);
        said.push(format!("{name} is over {frames} frames before its cue is."));
    }
    for sound in all.dub.sounds.iter().filter(|s| s.missing && s.used > 0) {
        said.push(format!("The file of {} is not there.", sound.sound.name));
    }
    said.push(match all.dub.lead {
        Some(_) => format!(
            "How far the sound lies ahead is from {}.",
            all.dub.lead_source
        ),
        None => format!("No echoes are drawn: {}.", all.dub.lead_source),
    });
    said
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn pictures_lie_evenly_and_inside_their_piece() {
        let of = |frames, every| looked_at(frames, every).collect::<Vec<_>>();
        assert_eq!(of(0, 36), Vec::<u32>::new());
        assert_eq!(of(1, 36), [0]);
        assert_eq!(of(72, 36), [18, 54]);
        for frames in 1..2_000 {
            let all = of(frames, 36);
            assert!(all.windows(2).all(|two| two[0] < two[1]), "{frames}");
            assert!(all.iter().all(|frame| *frame < frames), "{frames}");
        }
        assert_eq!(of(u32::MAX, 0).len(), 12);
    }
}
