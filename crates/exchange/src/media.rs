//! Which roll a clip shows, and what its counts count.

use onestrand_film::{Fps, RollId};

use crate::counting::{Range, Time, decimal, whole};
use crate::film::{RollOnFile, ScanFile};
use crate::picture_run::NamedRun;
use crate::place_in_file::Object;
use crate::reader::Reader;

/// How a clip's counts become film frames of a roll.
#[derive(Debug, Clone)]
pub(crate) struct Counted {
    pub(crate) roll: RollId,
    /// Frames of the roll.
    pub(crate) frames: u32,
    /// The rate at which a count is a frame of the scan, which is a film frame.
    pub(crate) file_rate: Option<Fps>,
    /// Whether the media itself says that it counts at the film's speed, so that
    /// another rate can be reckoned over.
    pub(crate) at_speed: bool,
    /// The count that is the head of the roll.
    pub(crate) origin: i64,
}

/// What a media reference names.
struct Named<'f> {
    roll: &'f RollOnFile,
    /// The scan it names by its file; none when it names the roll itself.
    file: Option<&'f ScanFile>,
    /// Frames of the roll before the first that the reference names.
    before: i64,
    /// The rate at which it counts pictures, where it names a run of them.
    rate: Option<Fps>,
}

impl Counted {
    /// The film frame of a time, without a word about it.
    pub(crate) fn quietly(&self, time: Time, speed: Fps) -> Option<i64> {
        let frame = if time.is_at(speed) || self.file_rate.is_some_and(|rate| time.is_at(rate)) {
            time.whole()
        } else if self.at_speed {
            whole(time.frames_at(speed))
        } else {
            None
        };
        frame.map(|frame| frame - self.origin)
    }
}

/// The reference a clip uses: the active one of several, or the only one.
pub(crate) fn active<'a>(clip: &Object<'a>) -> Option<Object<'a>> {
    if let Some(several) = clip.object("media_references") {
        let key = clip.text("active_media_reference_key");
        let key = key.filter(|key| !key.is_empty());
        return several.object(key.as_deref().unwrap_or(crate::schema::ONLY_MEDIA));
    }
    clip.object("media_reference")
}

impl<'f> Reader<'f> {
    /// The roll a clip shows and how it counts, or nothing and a problem.
    pub(crate) fn counted(
        &mut self,
        clip: &Object<'_>,
        media: Option<&Object<'_>>,
        place: &str,
    ) -> Option<Counted> {
        let named = self.named(clip, media, place)?;
        let line = clip.line();
        if let Some(file) = named.file
            && !(file.frame_for_frame && named.roll.scans.len() == 1)
        {
            let text = format!(
                "{} does not show {} one film frame a file frame, so its counts name no film \
                 frames: write a version out with `onestrand exchange` and cut with that",
                file.name, named.roll.roll
            );
            self.problem(line, place, text);
            return None;
        }
        let speed = self.film.speed;
        let run = media.and_then(NamedRun::of);
        if let Some(run) = run.filter(|run| run.step != 1) {
            let text = format!(
                "it shows only each picture no. {} of {}: name all of them there",
                run.step, named.roll.roll
            );
            self.problem(line, place, text);
            return None;
        }
        let available = media.and_then(|m| Range::of(m.field("available_range")?));
        let file_rate = named.rate.or(named.file.and_then(|file| file.rate));
        let mut counted = Counted {
            roll: named.roll.roll.clone(),
            frames: named.roll.frames.count(),
            file_rate,
            at_speed: available.is_some_and(|range| range.start.is_at(speed)),
            origin: 0,
        };
        let begins = available.map(|range| range.start);
        if let Some(begins) = begins.filter(|begins| begins.value.abs() > f64::EPSILON) {
            counted.origin = counted.quietly(begins, speed)?;
            let text = format!(
                "its film begins at {} there; that is taken as the head of {}",
                decimal(begins.value),
                counted.roll
            );
            self.remark(line, place, text);
        }
        if named.before != 0 {
            counted.origin -= named.before;
            let text = format!(
                "its first picture there is frame {} of {}",
                named.before, counted.roll
            );
            self.remark(line, place, text);
        }
        Some(counted)
    }

    /// What the reference names, by our own words in it, by its file, by its
    /// name. Two that name different rolls are a problem.
    fn named(
        &mut self,
        clip: &Object<'_>,
        media: Option<&Object<'_>>,
        place: &str,
    ) -> Option<Named<'f>> {
        let film = self.film;
        let own = media.and_then(|m| m.ours()).and_then(|o| o.text("roll"));
        let run = media.and_then(NamedRun::of);
        let url = match &run {
            Some(run) => run.first_name(),
            None => media.and_then(|m| m.text("target_url")).unwrap_or_default(),
        };
        let name = media.and_then(|m| m.text("name")).unwrap_or_default();
        let by_name = |name: &str| {
            let id = RollId::new(name).ok()?;
            film.roll(&id)
        };
        let by_own = own.as_deref().and_then(by_name);
        let by_file = match &run {
            Some(run) => self.by_pictures(run),
            None => self.by_file(&url).map(|(roll, file)| (roll, file, 0)),
        };
        if let (Some(own), Some((other, ..))) = (by_own, by_file)
            && own.roll != other.roll
        {
            let text = format!(
                "its film is called {}, but {url} shows {}: link it to one of the two",
                own.roll, other.roll
            );
            self.problem(clip.line(), place, text);
            return None;
        }
        let before = by_file.map_or(0, |(.., before)| before);
        let file = by_file
            .map(|(_, file, _)| file)
            .filter(|_| by_own.is_none());
        if let Some(roll) = by_own.or(by_file.map(|(roll, ..)| roll)) {
            let rate = run.and_then(|run| run.rate).filter(|_| by_file.is_some());
            return Some(Named {
                roll,
                file,
                before,
                rate,
            });
        }
        // A file that is no scan of ours is not taken for one by its name.
        if let Some(roll) = by_name(&name).filter(|_| url.is_empty()) {
            return Some(Named {
                roll,
                file: None,
                before: 0,
                rate: None,
            });
        }
        let seen: Vec<&str> = [own.as_deref().unwrap_or(""), &url, &name]
            .into_iter()
            .filter(|words| !words.is_empty())
            .collect();
        let text = format!(
            "{}; there are: {}. Link it to the scan of a roll, or call its film by the roll's name",
            match seen.as_slice() {
                [] => "it names no film".to_owned(),
                [first, ..] => format!("no roll is known by “{first}”"),
            },
            film.roll_names()
        );
        self.problem(clip.line(), place, text);
        None
    }

    /// The roll whose scan is a run of pictures that a reference names, if exactly
    /// one has such a run, and where in it the reference begins.
    fn by_pictures(&self, named: &NamedRun) -> Option<(&'f RollOnFile, &'f ScanFile, i64)> {
        let film = self.film;
        let mut found = film.rolls.iter().flat_map(|roll| {
            let scans = roll.scans.iter();
            scans.filter_map(move |scan| Some((roll, scan, named.begins_in(scan.run.as_ref()?)?)))
        });
        let one = found.next()?;
        found.next().is_none().then_some(one)
    }

    /// The roll whose scan an address names, if exactly one has a file of that name.
    fn by_file(&self, url: &str) -> Option<(&'f RollOnFile, &'f ScanFile)> {
        let film = self.film;
        let last = url.rsplit(['/', '\\']).next()?;
        let decoded = percent_decoded(last);
        let mut found = film.rolls.iter().flat_map(|roll| {
            let scans = roll.scans.iter();
            scans
                .filter(|scan| scan.name == last || scan.name == decoded)
                .map(move |scan| (roll, scan))
        });
        let one = found.next()?;
        found.next().is_none().then_some(one)
    }
}

/// An address as the name of a file is written in it.
pub(crate) fn percent_encoded(name: &str) -> String {
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-._~".contains(&b);
    let one = |b: u8| match plain(b) {
        true => char::from(b).to_string(),
        false => format!("%{b:02X}"),
    };
    name.bytes().map(one).collect()
}

pub(crate) fn percent_decoded(text: &str) -> String {
    let bytes = text.as_bytes();
    let mut plain = Vec::with_capacity(bytes.len());
    let mut at = 0;
    while at < bytes.len() {
        let coded = (bytes[at] == b'%')
            .then(|| text.get(at + 1..at + 3))
            .flatten()
            .and_then(|digits| u8::from_str_radix(digits, 16).ok());
        plain.push(coded.unwrap_or(bytes[at]));
        at += if coded.is_some() { 3 } else { 1 };
    }
    String::from_utf8_lossy(&plain).into_owned()
}
