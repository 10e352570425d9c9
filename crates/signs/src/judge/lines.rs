//! Upright lines followed along the roll.

use super::track::{another_picture, at_a_stop, frame_outside, parts, path, range, stops_crossed};
use crate::limits::SignLimits;
use crate::record::{SignRecord, Take};
use crate::sign::{LineRun, LineTone, Place, Sign, SignKind};
use crate::upright_lines::UprightLine;
use onestrand_inspect::PLANE_WIDTH;
use std::ops::Range;

/// A line may stand this far from where it stood. Unit: pixels of the plane.
const WANDERS: f32 = 1.6;
/// Frames over which a line may be lost.
const LOST: usize = 6;
/// Frames by which two parts of one line may overlap: half hidden, it looks
/// fainter, and is followed apart for a while.
const OVERLAP: usize = 12;
/// Frames in which a part of a line must be seen.
const SHORTEST: usize = 5;
/// Share of its frames in which a line is seen.
const SEEN: f32 = 0.6;
/// Frames by which an end may miss a camera stop.
const NEAR: usize = 5;

/// One line, as far as it was followed.
#[derive(Debug, Clone)]
struct Track {
    span: Range<usize>,
    x: f32,
    places: Vec<(usize, UprightLine)>,
    /// Frames in which it was hidden.
    hidden: usize,
}

impl Track {
    fn contrast(&self) -> f32 {
        let sum: f32 = self
            .places
            .iter()
            .map(|(_, line)| line.contrast.abs())
            .sum();
        sum / self.places.len() as f32
    }

    /// Whether another part may be of the same line: things that pass before it
    /// hide some of its height, but grain is fainter by far.
    fn is_like(&self, contrast: f32) -> bool {
        (0.25..4.0).contains(&(contrast / self.contrast()))
    }

    /// Whether another line is about as strong as this.
    fn is_as_strong(&self, contrast: f32) -> bool {
        let lately = self.places.iter().rev().take(12);
        let (sum, number) = lately.fold((0.0, 0.0), |(sum, number), (_, line)| {
            (sum + line.contrast.abs(), number + 1.0)
        });
        let ratio = contrast * number / sum;
        (0.4..2.5).contains(&ratio)
    }

    /// Whether it runs through the whole height: no band shows in half of the
    /// frames that it is not there.
    fn is_whole(&self) -> bool {
        (0..u8::BITS).all(|band| {
            let lacks = |line: &UprightLine| line.lacking >> band & 1 == 1;
            let lacking = self.places.iter().filter(|(_, line)| lacks(line)).count();
            2 * lacking < self.places.len()
        })
    }

    fn takes_in(&mut self, at: usize, line: UprightLine) {
        self.span.end = at + 1;
        self.x += 0.3 * (line.x - self.x);
        self.places.push((at, line));
    }
}

pub(super) fn of_roll(record: &SignRecord, takes: &[Take], limits: &SignLimits) -> Vec<Sign> {
    merged(tracks(record), takes)
        .iter()
        .filter_map(|track| sign(record, takes, track, limits))
        .collect()
}

/// All lines of the roll, followed from frame to frame.
fn tracks(record: &SignRecord) -> Vec<Track> {
    let mut open: Vec<Track> = Vec::new();
    let mut ended = Vec::new();
    for (at, frame) in record.frames.iter().enumerate() {
        let is_lost = |track: &mut Track| at > track.span.end + LOST;
        ended.extend(open.extract_if(.., is_lost));
        for &line in frame.lines.iter().filter(|line| line.contrast.abs() > 0.0) {
            let of_same_tone = open.iter_mut().filter(|track| {
                let tone = track.places[0].1.contrast;
                tone * line.contrast > 0.0
                    && track.is_as_strong(line.contrast.abs())
                    && (track.x - line.x).abs() < WANDERS
                    && track.span.end <= at
            });
            let nearest =
                of_same_tone.min_by(|a, b| (a.x - line.x).abs().total_cmp(&(b.x - line.x).abs()));
            match nearest {
                Some(track) => track.takes_in(at, line),
                None => open.push(Track {
                    span: at..at + 1,
                    x: line.x,
                    places: vec![(at, line)],
                    hidden: 0,
                }),
            }
        }
    }
    ended.extend(open);
    ended
}

/// Lines that are lost behind something and come again at the same place in the
/// same take are one.
fn merged(tracks: Vec<Track>, takes: &[Take]) -> Vec<Track> {
    let mut whole: Vec<Track> = Vec::new();
    let long_enough = |track: &Track| track.places.len() >= SHORTEST;
    let mut tracks: Vec<Track> = tracks.into_iter().filter(long_enough).collect();
    tracks.sort_by_key(|track| track.span.start);
    for track in tracks {
        let same_take = |at: usize, other: usize| {
            takes
                .iter()
                .any(|take| take.span.contains(&at) && take.span.contains(&other))
        };
        let before = whole.iter_mut().rev().find(|before| {
            before.span.end <= track.span.start + OVERLAP
                && same_take(before.span.end - 1, track.span.start)
                && before.places[0].1.contrast * track.places[0].1.contrast > 0.0
                && (before.x - track.places[0].1.x).abs() < WANDERS
                && before.is_like(track.contrast())
        });
        match before {
            Some(before) => {
                before.hidden += track.span.start.saturating_sub(before.span.end);
                before.span.end = before.span.end.max(track.span.end);
                before.x = track.x;
                before.places.extend(track.places);
            }
            None => whole.push(track),
        }
    }
    whole
}

/// Whether the picture moved across while the line stayed, in any one take.
fn picture_went_by(
    record: &SignRecord,
    takes: &[Take],
    track: &Track,
    limits: &SignLimits,
) -> bool {
    parts(takes, &track.span).any(|part| {
        let went = range(path(record, part.clone()).iter().map(|at| at.0));
        let places = track.places.iter().filter(|(at, _)| part.contains(at));
        let wandered = range(places.map(|(_, line)| line.x));
        let enough = limits.stands_against / 100.0 * PLANE_WIDTH as f32;
        went >= enough && wandered < 0.4 * went
    })
}

/// Whether the line begins or ends so far from every stop that the take is seen
/// long enough without it. What begins a moment after a stop stood there before:
/// the light of the camera's start hid it.
fn ends_inside(takes: &[Take], track: &Track, limits: &SignLimits) -> bool {
    let near = limits.shortest_run as usize;
    [track.span.start, track.span.end]
        .iter()
        .any(|&at| at_a_stop(takes, at, near).is_none())
}

/// Whether the line moved as the picture did.
fn goes_with_picture(record: &SignRecord, takes: &[Take], track: &Track) -> bool {
    parts(takes, &track.span).any(|part| {
        let went = range(path(record, part.clone()).iter().map(|at| at.0));
        let places = track.places.iter().filter(|(at, _)| part.contains(at));
        let wandered = range(places.map(|(_, line)| line.x));
        wandered > WANDERS && wandered > 0.4 * went
    })
}

fn sign(record: &SignRecord, takes: &[Take], track: &Track, limits: &SignLimits) -> Option<Sign> {
    let seen = track.places.len() as f32 / (track.span.len() - track.hidden) as f32;
    let measure = 100.0 * track.contrast();
    let long = track.span.len() >= limits.shortest_run as usize;
    let hidden = 2 * track.hidden > track.span.len();
    if !long || hidden || seen < SEEN || measure < limits.scratch_above || !track.is_whole() {
        return None;
    }
    let ends = [track.span.start, track.span.end].map(|at| at_a_stop(takes, at, NEAR));
    let span = ends[0].unwrap_or(track.span.start)..ends[1].unwrap_or(track.span.end);
    if goes_with_picture(record, takes, track) {
        return None;
    }
    let proved = picture_went_by(record, takes, track, limits)
        || stops_crossed(takes, &span).any(|stop| another_picture(record, stop))
        || ends_inside(takes, track, limits);
    if !proved {
        return None;
    }
    let run = match ends {
        [Some(_), Some(_)] => LineRun::WithTheCamera,
        _ if stops_crossed(takes, &span).next().is_some() => LineRun::AcrossStops,
        _ => LineRun::WithinATake,
    };
    let strongest = track
        .places
        .iter()
        .max_by(|a, b| a.1.contrast.abs().total_cmp(&b.1.contrast.abs()))?;
    let x = track.places.iter().map(|(_, line)| line.x).sum::<f32>() / track.places.len() as f32;
    let outside = frame_outside(record, takes, &span);
    let tone = if strongest.1.contrast < 0.0 {
        LineTone::Dark
    } else {
        LineTone::Light
    };
    let mut sign = Sign::new(SignKind::Scratch, span, measure).beside(Some(strongest.0), outside);
    sign.place = Some(Place::Line {
        x: 100.0 * x / PLANE_WIDTH as f32,
        tone,
        run,
    });
    Some(sign)
}
