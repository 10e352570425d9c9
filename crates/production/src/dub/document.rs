//! The sound of a film, laid to a version, as a document.

use onestrand_film::{SoundTrack, Sureness};
use onestrand_store::Production;

use super::hands::hands;
use super::kept::Kept;
use super::laid::Laying;
use super::mix_kept::{mix_of, speed_of};
use super::version::Version;
use crate::ProductionError;
use crate::documents::{
    ColumnDocument, ColumnWords, CueDocument, CueWords, DubDocument, JoinHeardDocument, MixWords,
    PassDocument, PassWords, SoundDocument, SoundWords,
};

/// The sound of a film as it stands in a version.
///
/// # Errors
/// [`ProductionError::Store`] when there is no such version, or it cannot be read.
pub fn dub_document(production: &Production, cut: &str) -> Result<DubDocument, ProductionError> {
    let mix = mix_of(production)?;
    let speed = speed_of(production, &mix)?;
    let version = Version::of(production, cut)?;
    let sounds = Kept::<SoundWords>::all(production)?;
    let kept_cues = Kept::<CueWords>::all(production)?;
    let (lead, lead_source) = lead_of(production, &mix);
    let joins = version.placed.joins();
    let laying = Laying {
        version: &version,
        sounds: &sounds,
        speed,
        lead,
        joins: joins.clone(),
        marks: Laying::marks(production)?,
    };
    let sound_documents = sound_documents(production, &sounds, &kept_cues);
    let mut cues: Vec<CueDocument> = kept_cues
        .iter()
        .map(|kept| laying.document(kept.clone()))
        .collect();
    cues.sort_by_key(|cue| (cue.at, cue.id));
    let columns: Vec<ColumnDocument> = Kept::<ColumnWords>::all(production)?
        .into_iter()
        .map(|kept| ColumnDocument {
            id: kept.id,
            column: kept.words,
        })
        .collect();
    let heard_joins = lead.map(|lead| {
        joins.iter().map(move |at| JoinHeardDocument {
            at: *at,
            heard_at: onestrand_dub::heard_at(*at, lead),
        })
    });
    let mut document = DubDocument {
        revision: production.revision()?.number(),
        cut: version.name.clone(),
        frames: version.frames(),
        speed: speed.to_string(),
        lead,
        lead_source,
        joins: heard_joins.map(Iterator::collect).unwrap_or_default(),
        hands: hands(&columns, &cues, mix.hands),
        pieces: version.pieces,
        columns,
        cues,
        sounds: sound_documents,
        mix,
        passes: passes(production)?,
        heard: String::new(),
    };
    document.heard = fingerprint(&document);
    Ok(document)
}

fn passes(production: &Production) -> Result<Vec<PassDocument>, ProductionError> {
    let kept = Kept::<PassWords>::all(production)?;
    let one = |Kept { id, words, .. }| PassDocument { id, pass: words };
    Ok(kept.into_iter().map(one).collect())
}

fn sound_documents(
    production: &Production,
    sounds: &[Kept<SoundWords>],
    cues: &[Kept<CueWords>],
) -> Vec<SoundDocument> {
    let folder = super::sounds_folder(production);
    let one = |kept: &Kept<SoundWords>| SoundDocument {
        id: kept.id,
        milliseconds: milliseconds(&kept.words),
        used: cues
            .iter()
            .filter(|cue| cue.words.sound == Some(kept.id))
            .count(),
        missing: !crate::kept_files::is_there(&folder, &kept.words.kept),
        sound: kept.words.clone(),
    };
    sounds.iter().map(one).collect()
}

/// The sounds of a film.
///
/// # Errors
/// [`ProductionError::Store`] when they cannot be read.
pub fn sound_list(production: &Production) -> Result<Vec<SoundDocument>, ProductionError> {
    let sounds = Kept::<SoundWords>::all(production)?;
    let cues = Kept::<CueWords>::all(production)?;
    Ok(sound_documents(production, &sounds, &cues))
}

/// How far the sound lies ahead on the film's gauge, and where that is from. A figure that
/// is only a suggestion is not used unasked.
fn lead_of(production: &Production, mix: &MixWords) -> (Option<i64>, String) {
    let track = if mix.optical {
        SoundTrack::Optical
    } else {
        SoundTrack::Magnetic
    };
    let gauge = production.meta().gauge;
    let Some(lead) = gauge.sound_leads(track).next() else {
        let none = format!("no {track} track is known on this gauge");
        return (None, none);
    };
    let said = format!("{} ({})", lead.source, lead.sureness.word());
    let frames = (lead.sureness != Sureness::Suggestion).then(|| i64::from(lead.frames));
    (frames, said)
}

/// How long a sound is as it is played. Unit: thousandths of a second, rounded.
fn milliseconds(sound: &SoundWords) -> u64 {
    let over = u128::from(sound.facts.samples) * 1_000_000_000;
    let under = u128::from(sound.facts.rate.max(1)) * u128::from(sound.play.max(1));
    u64::try_from((over + under / 2) / under).unwrap_or(u64::MAX)
}

/// Changes whenever anything that is heard does.
fn fingerprint(document: &DubDocument) -> String {
    let mut heard = blake3::Hasher::new();
    let heard_of_cues = document
        .cues
        .iter()
        .map(|cue| (cue.id, cue.at, cue.frames, cue.state as u8, &cue.cue));
    for cue in heard_of_cues {
        let (id, at, frames, state, words) = cue;
        heard.update(&id.to_le_bytes());
        heard.update(&at.to_le_bytes());
        heard.update(&frames.to_le_bytes());
        heard.update(&[state]);
        heard.update(&serde_json::to_vec(words).unwrap_or_default());
    }
    for column in &document.columns {
        heard.update(&column.id.to_le_bytes());
        heard.update(&serde_json::to_vec(&column.column).unwrap_or_default());
    }
    for sound in &document.sounds {
        heard.update(&sound.id.to_le_bytes());
        heard.update(&serde_json::to_vec(&sound.sound).unwrap_or_default());
    }
    heard.update(&document.frames.to_le_bytes());
    heard.update(
        &serde_json::to_vec(&document.joins.iter().map(|j| j.at).collect::<Vec<_>>())
            .unwrap_or_default(),
    );
    heard.update(&serde_json::to_vec(&document.mix).unwrap_or_default());
    heard.update(document.speed.as_bytes());
    heard.finalize().to_hex()[..16].to_owned()
}
