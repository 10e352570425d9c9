//! What is written on a reel, its leaders and its can: one record, so that they
//! cannot disagree, on the screen or on paper.

use onestrand_sheets::{ReelLabel, ReelLies};

use crate::documents::ReelLabelsDocument;

/// All that is known of a made-up reel. An empty text was not said.
#[derive(Debug, Clone)]
pub(crate) struct ReelCard {
    /// The production.
    pub(crate) title: String,
    /// The films on it in words: `v2`, or `v2, no. 1 to 12`.
    pub(crate) films: Vec<String>,
    /// Which reel, of how many.
    pub(crate) number: usize,
    pub(crate) of: usize,
    pub(crate) gauge: &'static str,
    pub(crate) speed: String,
    /// As they were said; nothing is made up.
    pub(crate) sound: String,
    pub(crate) picture: String,
    pub(crate) lies: String,
    pub(crate) owner: String,
    pub(crate) date: String,
    /// Films alone, without leaders.
    pub(crate) films_footage: String,
    pub(crate) films_clock: String,
    /// With leaders.
    pub(crate) footage: String,
    /// What it is wound on.
    pub(crate) reel: String,
}

impl ReelCard {
    /// The same for the printed form.
    pub(crate) fn on_paper(&self) -> ReelLabel {
        let count = |n: usize| u32::try_from(n).unwrap_or(u32::MAX);
        ReelLabel {
            title: self.title.clone(),
            films: self.films.join(" · "),
            number: Some((count(self.number), count(self.of))),
            what: format!("{}, {} f/s", self.gauge, self.speed),
            sound: self.sound.clone(),
            picture: self.picture.clone(),
            lies: match self.lies.as_str() {
                "heads" => ReelLies::HeadsOut,
                "tails" => ReelLies::TailsOut,
                _ => ReelLies::NotSaid,
            },
            owner: self.owner.trim().to_owned(),
            date: self.date.trim().to_owned(),
            length: self.films_footage.clone(),
            clock: self.films_clock.clone(),
            with_leaders: self.footage.clone(),
            reel: self.reel.clone(),
            joins: String::new(),
        }
    }

    /// The lines for each place.
    pub(crate) fn labels(&self) -> ReelLabelsDocument {
        let which = format!("reel {} of {}", self.number, self.of);
        let sound = or(&self.sound, "sound not said");
        let picture = or(&self.picture, "colour or black and white not said");
        let what = format!("{}, {} f/s, {sound}", self.gauge, self.speed);
        let length = format!("{}, {}", self.films_footage, self.films_clock);
        let mut reel = vec![
            self.title.clone(),
            self.films.join(" · "),
            which.clone(),
            what.clone(),
            length.clone(),
            format!("camera original, {picture}"),
            self.lies_words(),
        ];
        reel.extend(self.whose());
        let leader = |end: &str| {
            vec![
                end.to_owned(),
                self.title.clone(),
                self.films.join(" · "),
                which.clone(),
                what.clone(),
                length.clone(),
            ]
        };
        let mut head_leader = leader("HEAD");
        head_leader.push("START, a cross on the frame".to_owned());
        let mut can = reel.clone();
        can.insert(
            6,
            format!("on {}, {} with leaders", self.reel, self.footage),
        );
        ReelLabelsDocument {
            reel,
            head_leader,
            tail_leader: leader("TAIL"),
            can,
        }
    }

    fn lies_words(&self) -> String {
        match self.lies.as_str() {
            "heads" => "HEADS OUT".to_owned(),
            "tails" => "TAILS OUT".to_owned(),
            _ => "heads or tails out: look, and write it here".to_owned(),
        }
    }

    fn whose(&self) -> Vec<String> {
        let whose = [self.owner.trim(), self.date.trim()];
        let said: Vec<&str> = whose.into_iter().filter(|word| !word.is_empty()).collect();
        match said.is_empty() {
            true => Vec::new(),
            false => vec![said.join(", ")],
        }
    }
}

fn or<'a>(said: &'a str, usual: &'a str) -> &'a str {
    match said.is_empty() {
        true => usual,
        false => said,
    }
}
