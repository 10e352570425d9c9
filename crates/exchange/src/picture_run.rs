//! Runs of numbered pictures, and how a reference names them.

use onestrand_film::Fps;
use serde_json::{Value, json};

use crate::counting::decimal;
use crate::media::{percent_decoded, percent_encoded};
use crate::place_in_file::{Node, Object};
use crate::schema;

/// A run of numbered pictures without a gap: `quay/frame0001.png` and those after it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct PictureRun {
    /// The folder they lie in, without those above it.
    pub folder: String,
    /// What stands before the number.
    pub prefix: String,
    /// What stands after it, with the ending.
    pub suffix: String,
    /// The number of the first.
    pub first: u32,
    /// The least digits of a number.
    pub digits: usize,
}

impl PictureRun {
    /// The run that these names are, in their order; nothing where a number is
    /// left out, or where they are no numbered pictures.
    #[must_use]
    pub fn of(folder: &str, names: &[&str]) -> Option<Self> {
        let first = names.first()?;
        let runs = groups(first).into_iter().rev().filter_map(|(from, to)| {
            Some(Self {
                folder: folder.to_owned(),
                prefix: first[..from].to_owned(),
                suffix: first[to..].to_owned(),
                first: first[from..to].parse().ok()?,
                digits: to - from,
            })
        });
        let is_all = |run: &Self| {
            let numbers = run.first..=u32::MAX;
            let mut all = names.iter().zip(numbers);
            all.all(|(name, number)| *name == run.name_of(number))
        };
        runs.filter(|_| names.len() > 1).find(is_all)
    }

    fn name_of(&self, number: u32) -> String {
        let Self {
            prefix,
            suffix,
            digits,
            ..
        } = self;
        format!("{prefix}{number:0digits$}{suffix}")
    }

    /// The reference that names it. Pictures have no rate of their own: they are
    /// counted at the film's speed.
    pub(crate) fn put_into(&self, reference: &mut Value, speed: Fps) {
        let base = match self.folder.as_str() {
            "" => String::new(),
            folder => format!("{}/", percent_encoded(folder)),
        };
        reference["target_url_base"] = json!(base);
        reference["name_prefix"] = json!(percent_encoded(&self.prefix));
        reference["name_suffix"] = json!(percent_encoded(&self.suffix));
        reference["start_frame"] = json!(self.first);
        reference["frame_step"] = json!(1);
        reference["rate"] = json!(speed.as_f64());
        reference["frame_zero_padding"] = json!(self.digits);
        reference["missing_frame_policy"] = json!("error");
    }
}

/// Where digits stand in a name.
fn groups(name: &str) -> Vec<(usize, usize)> {
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (at, _) in name.bytes().enumerate().filter(|(_, b)| b.is_ascii_digit()) {
        match found.last_mut() {
            Some((_, to)) if *to == at => *to = at + 1,
            _ => found.push((at, at + 1)),
        }
    }
    found
}

/// A run of pictures as somebody's file names it.
#[derive(Debug, Clone)]
pub(crate) struct NamedRun {
    folder: String,
    prefix: String,
    suffix: String,
    digits: i64,
    /// The number of the first picture of the reference.
    first: i64,
    /// From one picture to the next.
    pub(crate) step: i64,
    /// Pictures a second, as the reference counts them.
    pub(crate) rate: Option<Fps>,
}

impl NamedRun {
    /// What a reference names, where it names a run of pictures.
    pub(crate) fn of(media: &Object<'_>) -> Option<Self> {
        if media.kind() != schema::kind(schema::PICTURES) {
            return None;
        }
        let text = |field| percent_decoded(&media.text(field).unwrap_or_default());
        let number = |field| media.field(field).and_then(Node::number);
        let whole = |field, usual| number(field).map_or(usual, |n: f64| n.round() as i64);
        let base = text("target_url_base");
        let folder = base
            .trim_end_matches(['/', '\\'])
            .rsplit(['/', '\\'])
            .next();
        Some(Self {
            folder: folder.unwrap_or_default().to_owned(),
            prefix: text("name_prefix"),
            suffix: text("name_suffix"),
            digits: whole("frame_zero_padding", 0),
            first: whole("start_frame", 1),
            step: whole("frame_step", 1),
            rate: number("rate").and_then(|rate| decimal(rate).parse().ok()),
        })
    }

    /// How many pictures of a run lie before the first that is named here, if it
    /// names pictures of that run.
    pub(crate) fn begins_in(&self, run: &PictureRun) -> Option<i64> {
        let is_there = self.folder.is_empty() || self.folder == run.folder;
        // Without leading zeros nobody says how many digits a number has.
        let is_counted = self.digits <= 1 || usize::try_from(self.digits) == Ok(run.digits);
        let is_named = self.prefix == run.prefix && self.suffix == run.suffix;
        (is_there && is_counted && is_named).then(|| self.first - i64::from(run.first))
    }

    /// The name of its first picture, for whoever looks for it.
    pub(crate) fn first_name(&self) -> String {
        let digits = usize::try_from(self.digits).unwrap_or(0).min(12);
        let name = format!("{}{:0digits$}{}", self.prefix, self.first, self.suffix);
        match self.folder.as_str() {
            "" => name,
            folder => format!("{folder}/{name}"),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_run_is_known_by_all_its_names() {
        let run = |names: &[&str]| PictureRun::of("quay", names);
        let found = run(&["R1_0099.v2.dpx", "R1_0100.v2.dpx", "R1_0101.v2.dpx"]);
        let found = found.expect("a run");
        assert_eq!(
            (found.prefix.as_str(), found.suffix.as_str()),
            ("R1_", ".v2.dpx")
        );
        assert_eq!((found.first, found.digits), (99, 4));
        let grows = run(&["f9.png", "f10.png"]).expect("without zeros");
        assert_eq!((grows.first, grows.digits), (9, 1));
        assert_eq!(run(&["f1.png", "f3.png"]), None, "a number is left out");
        assert_eq!(run(&["a.png", "b.png"]), None);
        assert_eq!(run(&["f1.png"]), None, "one picture is no run");
        assert_eq!(run(&["f09.png", "f10.tif"]), None);
    }
}
