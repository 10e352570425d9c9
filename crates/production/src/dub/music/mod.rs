//! Music fitted to the picture: whole bars for a sequence, joins on beats, bars lifted.

mod handles;
mod lifted;
mod proposed;

use onestrand_dub::{BeatMap, DubError, LengthAsked, frames_per_beat, joins_on_beats, music_fit};
use onestrand_store::Production;

use super::kept::Kept;
use super::mix_kept::{mix_of, speed_of};
use crate::ProductionError;
use crate::documents::{
    BeatPlaceDocument, BeatsWords, CueDocument, CueStateWord, DubDocument, EndOnBarDocument,
    JoinMovedDocument, JoinOnMusicDocument, JoinsOnBeatsDocument, MusicAsked, MusicDocument,
    SoundWords,
};
use crate::error::unfit;
use handles::Sequence;
use lifted::lifted;
use proposed::Proposing;

/// A music where it is laid.
struct Laid<'a> {
    dub: &'a DubDocument,
    cue: &'a CueDocument,
    sound: &'a SoundWords,
    beats: &'a BeatsWords,
    /// The projector. Unit: frames a second.
    speed: f64,
}

impl Laid<'_> {
    /// Running frames for a sample of the sound, a fraction.
    fn frame(&self, sample: f64) -> f64 {
        self.cue.at as f64 + (sample - self.cue.cue.from as f64) / self.samples_a_frame()
    }

    /// Samples of the sound, as it is kept, that one frame takes.
    fn samples_a_frame(&self) -> f64 {
        f64::from(self.sound.facts.rate) * f64::from(self.sound.play) / 1e6 / self.speed
    }

    /// The tempo as it is played. Unit: beats a minute.
    fn bpm(&self) -> f64 {
        f64::from(self.beats.tempo) / 1e3 * f64::from(self.sound.play) / 1e6
    }

    /// The beats from a running frame on.
    fn map(&self, head: u32) -> Result<BeatMap, DubError> {
        let places = self.beats.at.iter();
        BeatMap::heard(
            places
                .map(|sample| self.frame(*sample as f64) - f64::from(head))
                .collect(),
            self.beats.first_bar as usize,
            self.beats.in_a_bar,
            frames_per_beat(self.speed, self.bpm())?,
        )
    }

    /// Whole bars up to where the cue stops playing, counted from bar 1.
    fn bars(&self) -> i64 {
        let over = self.cue.cue.to.unwrap_or(self.sound.facts.samples);
        let heard = self.beats.at.iter().filter(|at| **at < over).count();
        let beats = heard.saturating_sub(self.beats.first_bar as usize) as i64;
        beats / i64::from(self.beats.in_a_bar.max(1))
    }
}

/// Music beside the picture of a version, and what could be done so that both come out
/// together. Nothing is changed.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version or cue;
/// [`ProductionError::Unfit`] where the cue has no place or its sound no beat, with the next
/// step.
pub fn music_beside(
    production: &Production,
    cut: &str,
    asked: &MusicAsked,
) -> Result<MusicDocument, ProductionError> {
    let dub = super::dub_document(production, cut)?;
    let (cue, sound, beats) = music_of(production, &dub, asked.cue)?;
    let laid = Laid {
        cue: &cue,
        sound: &sound,
        beats: &beats,
        speed: speed_of(production, &mix_of(production)?)?.as_f64(),
        dub: &dub,
    };
    let (from, to) = sequence_of(&laid, asked)?;
    let sequence = Sequence::of(production, cut, (from, to))?;
    let map = laid.map(sequence.at).map_err(no_sum)?;
    let now = i64::from(sequence.frames);
    let wanted = asked.wanted.map_or(now, i64::from);
    let (shortest, longest) = sequence.lengths();
    let length = LengthAsked {
        wanted,
        shortest,
        longest,
    };
    let proposing = Proposing::of(production, &sequence)?;
    let beats_to = |frames: i64| map.beats_at(frames as f64) - map.beats_at(0.0);
    let inner = inner(&sequence, &map, &proposing)?;
    Ok(MusicDocument {
        cut: cut.to_owned(),
        cue: cue.id,
        from,
        to,
        at: sequence.at,
        frames: sequence.frames,
        beats: rounded(beats_to(now), 2),
        speed: dub.speed.clone(),
        bpm: rounded(laid.bpm(), 3),
        in_a_bar: beats.in_a_bar,
        frames_a_beat: rounded(map.frames_a_beat(), 3),
        frames_a_beat_nominal: rounded(
            frames_per_beat(production.meta().speed.as_f64(), laid.bpm()).map_err(no_sum)?,
            3,
        ),
        wanted: counted(wanted),
        wanted_beats: rounded(beats_to(wanted), 2),
        shortest: counted(shortest),
        longest: counted(longest),
        beat_places: beat_places(&map, now.max(wanted)),
        joins: joins(&sequence, &map),
        end_off: rounded(end_off(&map, now), 2),
        end: end(&sequence, &map, &length, (&proposing, laid.speed))?,
        inner,
        lift: lifted(&laid, &map, sequence.at, wanted),
    })
}

/// The cue, its sound and the beats of it.
fn music_of(
    production: &Production,
    dub: &DubDocument,
    id: i64,
) -> Result<(CueDocument, SoundWords, BeatsWords), ProductionError> {
    let Some(cue) = dub.cues.iter().find(|cue| cue.id == id) else {
        return Err(onestrand_store::StoreError::NotFound {
            what: "cue",
            name: id.to_string(),
        }
        .into());
    };
    if cue.state == CueStateWord::Orphan {
        return Err(unfit(
            format!("{} has no place in {}", cue.cue.name, dub.cut),
            "lay it first",
        ));
    }
    let Some(sound) = cue.cue.sound else {
        return Err(unfit(
            format!("{} plays no sound", cue.cue.name),
            "give it its music on its card",
        ));
    };
    let sound = Kept::<SoundWords>::one(production, sound)?.words;
    if cue.cue.looped {
        return Err(unfit(
            format!("{} goes round, and its bars shift each time", sound.name),
            "let it play once",
        ));
    }
    let Some(beats) = sound.beats.clone().filter(|beats| !beats.at.is_empty()) else {
        return Err(unfit(
            format!("no beat of {} is known", sound.name),
            "listen for its beat on the card of the sound, and keep it",
        ));
    };
    Ok((cue.clone(), sound, beats))
}

/// The first and the last piece, counted from 1.
fn sequence_of(laid: &Laid<'_>, asked: &MusicAsked) -> Result<(usize, usize), ProductionError> {
    let pieces = &laid.dub.pieces;
    let showing = |at: i64| {
        let piece = pieces.iter().rfind(|piece| piece.at <= at.max(0));
        piece.map_or(1, |piece| piece.position)
    };
    let from = asked.from.unwrap_or_else(|| showing(laid.cue.at));
    let end = laid.cue.at + i64::from(laid.cue.frames) - 1;
    let to = asked.to.unwrap_or_else(|| showing(end).max(from));
    if (1..=to).contains(&from) && to <= pieces.len() {
        return Ok((from, to));
    }
    Err(unfit(
        format!("{} has no pieces {from} to {to}", laid.dub.cut),
        "choose the first and the last piece that the music is for",
    ))
}

fn beat_places(map: &BeatMap, frames: i64) -> Vec<BeatPlaceDocument> {
    let in_a_bar = i64::from(map.in_a_bar());
    let first = map.beats_at(0.0).ceil() as i64;
    let last = map.beats_at(frames as f64).floor() as i64 + in_a_bar;
    let one = |beat: i64| BeatPlaceDocument {
        at: rounded(map.place(beat), 3),
        bar: (beat >= 0 && beat % in_a_bar == 0).then_some(beat / in_a_bar + 1),
    };
    (first..=last).map(one).collect()
}

fn joins(sequence: &Sequence, map: &BeatMap) -> Vec<JoinOnMusicDocument> {
    let one = |(after, at): (usize, i64)| JoinOnMusicDocument {
        after,
        at,
        beats: rounded(map.beats_at(at as f64) - map.beats_at(0.0), 2),
        off: rounded(map.off_beat(at), 2),
    };
    sequence.inner_joins().map(one).collect()
}

fn end_off(map: &BeatMap, frames: i64) -> f64 {
    let bars = map.beats_at(frames as f64) / f64::from(map.in_a_bar());
    let off = |bar: f64| frames as f64 - map.bar(bar as i64);
    let (behind, ahead) = (off(bars.floor()), off(bars.floor() + 1.0));
    if behind.abs() <= ahead.abs() {
        behind
    } else {
        ahead
    }
}

fn end(
    sequence: &Sequence,
    map: &BeatMap,
    length: &LengthAsked,
    (proposing, speed): (&Proposing<'_>, f64),
) -> Result<Option<EndOnBarDocument>, ProductionError> {
    let Some(fit) = music_fit(map, length) else {
        return Ok(None);
    };
    let moved = fit.frames - i64::from(sequence.frames);
    let proposal = match moved {
        0 => None,
        by => Some(proposing.ending(by)?),
    };
    Ok(Some(EndOnBarDocument {
        frames: counted(fit.frames),
        beats: rounded(fit.beats, 2),
        bar: fit.bar,
        moved,
        off: rounded(fit.off, 2),
        off_seconds: rounded(fit.off / speed, 3),
        proposal,
    }))
}

fn inner(
    sequence: &Sequence,
    map: &BeatMap,
    proposing: &Proposing<'_>,
) -> Result<Option<JoinsOnBeatsDocument>, ProductionError> {
    let plan = joins_on_beats(&sequence.pieces(), map);
    if plan.moved == 0 {
        return Ok(None);
    }
    let by: Vec<i64> = plan.joins.iter().map(|join| join.by).collect();
    let seen = sequence.inner_joins().map(|(after, _)| after);
    let joins: Vec<JoinMovedDocument> = seen
        .map(|after| {
            let join = &plan.joins[after - sequence.from];
            JoinMovedDocument {
                after,
                by: join.by,
                on_beat: join.on_beat,
            }
        })
        .collect();
    Ok(Some(JoinsOnBeatsDocument {
        moved: plan.moved,
        off_beat: joins.iter().filter(|join| !join.on_beat).count(),
        joins,
        proposal: proposing.inside(&by)?,
    }))
}

fn no_sum(why: DubError) -> ProductionError {
    unfit(why.to_string(), why.hint())
}

fn counted(frames: i64) -> u32 {
    u32::try_from(frames.max(0)).unwrap_or(u32::MAX)
}

fn rounded(value: f64, digits: i32) -> f64 {
    let ten = 10_f64.powi(digits);
    (value * ten).round() / ten
}
