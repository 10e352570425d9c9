//! What may be kept of a sound, a column, a cue, and what is a slip of the finger.

use onestrand_film::Fps;
use onestrand_store::Production;

use super::kept::Kept;
use crate::ProductionError;
use crate::change_acts::text_fits;
use crate::documents::{
    AnchorWords, ColumnWords, CueWords, HoldsToWord, PassWords, RightsWords, SoundWords,
};
use crate::error::unfit;

/// No level lies further from 0 than this. Unit: tenths of a decibel.
const LOUDEST: i32 = 240;
/// Below this nothing is heard.
const SOFTEST: i32 = -1200;
/// A cue is at most this long. Unit: frames, ten hours at 24.
const LONGEST: u32 = 24 * 36_000;

pub(super) fn level_fits(what: &str, tenths: i32) -> Result<(), ProductionError> {
    if (SOFTEST..=LOUDEST).contains(&tenths) {
        return Ok(());
    }
    Err(unfit(
        format!("{what} is {} dB", f64::from(tenths) / 10.0),
        "write a level between -120 and +24 dB",
    ))
}

pub(super) fn column_fits(
    production: &Production,
    id: Option<i64>,
    column: &ColumnWords,
) -> Result<(), ProductionError> {
    if column.name.trim().is_empty() {
        return Err(unfit(
            "a column without a name".to_owned(),
            "write what is heard in it: voice, river, music",
        ));
    }
    text_fits("column", &column.name)?;
    text_fits("tape", &column.tape)?;
    for (what, tenths) in [
        ("the level of the column", column.gain),
        ("lows", column.lows),
        ("presence", column.presence),
        ("highs", column.highs),
    ] {
        level_fits(what, tenths)?;
    }
    if column.low_cut.is_some_and(|hz| !(10..=2000).contains(&hz)) {
        return Err(unfit(
            "the lows are cut between 10 and 2,000 Hz".to_owned(),
            "write 80 for a voice",
        ));
    }
    if let Some(press) = column.compressor
        && !((-600..=0).contains(&press.threshold)
            && (10..=200).contains(&press.ratio)
            && (0..=240).contains(&press.make_up))
    {
        return Err(unfit(
            "such a compressor cannot be made".to_owned(),
            "a threshold from -60 to 0 dB, 1 to 20 to 1, up to 24 dB given back",
        ));
    }
    let Some(ducked) = column.ducked else {
        return Ok(());
    };
    if Some(ducked.under) == id {
        return Err(unfit(
            format!("{} cannot go down for itself", column.name),
            "choose the column that is to be heard above it",
        ));
    }
    let others = Kept::<ColumnWords>::all(production)?;
    let under = others.iter().find(|kept| kept.id == ducked.under);
    let Some(under) = under else {
        return Err(unfit(
            "the column it goes down for is not there".to_owned(),
            "choose another",
        ));
    };
    if under.words.ducked.is_some_and(|its| Some(its.under) == id) {
        return Err(unfit(
            format!("{} goes down for this one already", under.words.name),
            "let only one of them go down",
        ));
    }
    level_fits(
        "how far it goes down",
        i32::try_from(ducked.by).unwrap_or(i32::MAX),
    )
}

/// Most faults that are kept of one pass: more are none that anybody wrote down.
const MOST_FAULTS: usize = 500;

pub(super) fn pass_fits(pass: &PassWords) -> Result<(), ProductionError> {
    if pass.pass.trim().is_empty() {
        return Err(unfit(
            "a pass without a number".to_owned(),
            "number it as it is told: 1, 2, or rehearsal",
        ));
    }
    text_fits("pass", &pass.pass)?;
    text_fits("version", &pass.cut)?;
    if !pass.speed.trim().is_empty() {
        let _readable: Fps = pass.speed.trim().replace(',', ".").parse()?;
    }
    if pass.faults.len() > MOST_FAULTS {
        return Err(unfit(
            format!("{} faults in one pass", pass.faults.len()),
            "give the pass up, and write down what matters",
        ));
    }
    pass.faults
        .iter()
        .try_for_each(|fault| text_fits("fault", &fault.what))
}

pub(super) fn sound_fits(
    production: &Production,
    sound: &SoundWords,
) -> Result<(), ProductionError> {
    if sound.name.trim().is_empty() {
        return Err(unfit(
            "a sound without a name".to_owned(),
            "write what is heard: bell, river",
        ));
    }
    text_fits("sound", &sound.name)?;
    text_fits("note", &sound.note)?;
    let RightsWords {
        author,
        holder,
        performer,
        label,
        licence,
        ..
    } = &sound.rights;
    for words in [author, holder, performer, label, licence] {
        text_fits("rights", words)?;
    }
    if !(100_000..=10_000_000).contains(&sound.play) {
        return Err(unfit(
            "a sound is played from a tenth of its speed to ten times".to_owned(),
            "write 1.0152 for a tape that ran 1.5 % slow",
        ));
    }
    if let Some(round) = sound.round
        && !(round.from < round.to
            && round.to <= sound.facts.samples
            && round.crossed <= round.to - round.from
            && round.crossed <= round.from)
    {
        return Err(unfit(
            "the loop does not lie inside the sound".to_owned(),
            "it goes back from a later place to an earlier, and there must be as much sound before it as is crossed",
        ));
    }
    let folder = super::sounds_folder(production);
    if !crate::kept_files::is_there(&folder, &sound.kept) {
        return Err(unfit(
            format!("there is no kept sound {}", sound.kept),
            "bring the sound in again",
        ));
    }
    Ok(())
}

pub(super) fn cue_fits(production: &Production, cue: &CueWords) -> Result<(), ProductionError> {
    Kept::<ColumnWords>::one(production, cue.column)?;
    let sound = cue
        .sound
        .map(|id| Kept::<SoundWords>::one(production, id))
        .transpose()?;
    cue_itself_fits(cue)?;
    if let Some(sound) = &sound {
        let all = sound.words.facts.samples;
        let to = cue.to.unwrap_or(all);
        if cue.from >= to || to > all {
            return Err(unfit(
                format!("{} has no sound between those two places", sound.words.name),
                "begin it before it ends",
            ));
        }
        if cue.looped && sound.words.round.is_none() {
            return Err(unfit(
                format!("{} has no loop", sound.words.name),
                "find its seam first",
            ));
        }
    }
    anchor_fits(production, &cue.start)?;
    cue.end
        .as_ref()
        .map_or(Ok(()), |end| anchor_fits(production, end))
}

/// What can be said of a cue without the rest of the film.
pub(super) fn cue_itself_fits(cue: &CueWords) -> Result<(), ProductionError> {
    text_fits("cue", &cue.name)?;
    text_fits("words", &cue.speech)?;
    text_fits("note", &cue.note)?;
    level_fits("the level of the cue", cue.level)?;
    for point in &cue.line {
        level_fits("a handle of the level line", point.level)?;
    }
    if cue.line.windows(2).any(|two| two[0].at >= two[1].at) {
        return Err(unfit(
            "two handles of the level line stand on one frame, or in the wrong order".to_owned(),
            "move one of them",
        ));
    }
    if !(-100..=100).contains(&cue.balance) {
        return Err(unfit(
            "the balance lies between -100 and 100".to_owned(),
            "0 is the middle",
        ));
    }
    let lengths = [
        cue.frames.unwrap_or(0),
        cue.fade_in.frames,
        cue.fade_out.frames,
    ];
    if lengths.iter().any(|frames| *frames > LONGEST) {
        return Err(unfit(
            "a cue longer than ten hours".to_owned(),
            "write frames: 126 at 18 frames a second are seven seconds",
        ));
    }
    if cue.frames == Some(0) {
        return Err(unfit(
            "a cue of no frames".to_owned(),
            "give it one at least",
        ));
    }
    Ok(())
}

fn anchor_fits(production: &Production, anchor: &AnchorWords) -> Result<(), ProductionError> {
    if anchor.offset.unsigned_abs() > LONGEST || anchor.frame > LONGEST {
        return Err(unfit(
            "a place more than ten hours away".to_owned(),
            "write frames",
        ));
    }
    let named = !anchor.roll.is_empty();
    match anchor.to {
        HoldsToWord::Clock => Ok(()),
        // A join before leader or a card is known by its place in the version alone.
        HoldsToWord::Join if !named => Ok(()),
        HoldsToWord::Frame | HoldsToWord::Join => {
            let _known = production.roll(&anchor.roll)?;
            Ok(())
        }
    }
}
