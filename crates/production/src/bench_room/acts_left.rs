//! The acts still to be done, as the hand reads them.

use std::collections::BTreeMap;

use onestrand_bench::{Deed, Film, Laid, Next, WorkLeft, WorkStep};
use onestrand_film::FrameName;

use super::cards::Cards;
use super::made_acts::is_of_made;
use super::room::{Room, Work};
use super::words::{frame, frames, shot};
use crate::documents::{BenchActDocument, FrameRefDocument, SpanDocument};

/// What the acts are told with.
pub(super) struct Acts<'a> {
    pub(super) room: &'a Room,
    pub(super) work: &'a Work,
    pub(super) cards: &'a Cards<'a>,
    /// Acts done so far, by kind.
    pub(super) done: BTreeMap<&'static str, u64>,
}

/// How many acts are told with their frame cards: those one looks ahead to.
const WITH_CARDS: usize = 12;

impl Acts<'_> {
    /// All that is left, in order.
    pub(super) fn all(&self, left: &WorkLeft) -> Vec<BenchActDocument> {
        let mut of = self.done.clone();
        for step in &left.steps {
            *of.entry(step.deed.code()).or_default() += 1;
        }
        let mut at = self.done.clone();
        let told = left.steps.iter().enumerate().map(|(i, step)| {
            let number = at.entry(step.deed.code()).or_default();
            *number += 1;
            let counted = (*number, of.get(step.deed.code()).copied().unwrap_or(0));
            self.one(&left.steps, i, counted)
        });
        told.collect()
    }

    fn one(&self, steps: &[WorkStep], index: usize, (number, of): (u64, u64)) -> BenchActDocument {
        let step = &steps[index];
        let positions = step.strip.and_then(|s| self.work.positions(s));
        let (what, tick) = self.made_what(step).unwrap_or_else(|| self.what(step));
        let pin = match &step.deed {
            Deed::Hang { pin, .. } => Some(*pin),
            _ => step.from_pin,
        };
        let (roll, at) = match &step.deed {
            Deed::Mount { roll } => (Some(roll.to_string()), None),
            Deed::Cut { roll, before: at } | Deed::Wind { roll, to: at } => {
                (Some(roll.to_string()), Some(at.index()))
            }
            Deed::Hang { frame, .. } => (Some(frame.roll.to_string()), None),
            _ => (step.film.as_ref().and_then(roll_of), None),
        };
        let card = match (&step.deed, step.strip) {
            (Deed::Cut { before, .. }, Some(strip)) if index < WITH_CARDS && !is_of_made(step) => {
                let pin = self.goes(steps, index);
                self.cards.of(self.room, self.work, (strip, *before), pin)
            }
            _ => None,
        };
        let opens = matches!(step.deed, Deed::Unjoin { .. } | Deed::UnjoinOther { .. });
        let named = |name: &FrameName, laid: Laid| match opens {
            true => self.was_named(name),
            false => self.named(name, laid),
        };
        BenchActDocument {
            act: step.deed.code().to_owned(),
            number,
            of,
            title: self
                .made_title(step)
                .unwrap_or_else(|| self.title(step, positions)),
            what,
            destroys: destroys(step),
            tick: tick.to_owned(),
            then: self.then(steps, index),
            roll,
            frame: at,
            wind: step.wind,
            position: positions.map(|p| p.0),
            last_position: positions.map(|p| p.1),
            span: step.film.as_ref().and_then(span),
            pin,
            join: match &step.deed {
                Deed::Join { kind, .. } => Some(kind.word().to_owned()),
                _ => step.opens.map(|kind| kind.word().to_owned()),
            },
            outgoing: step.outgoing.as_ref().map(|f| named(f, step.outgoing_laid)),
            incoming: step
                .incoming
                .as_ref()
                .map(|f| named(f, laid_by(&step.deed))),
            card,
            from_join: is_of_made(step)
                .then(|| self.counted_from_join(step))
                .flatten(),
        }
    }

    fn named(&self, name: &FrameName, laid: Laid) -> FrameRefDocument {
        let strip = self.work.strip_of(&name.roll, name.frame.index());
        FrameRefDocument {
            roll: name.roll.to_string(),
            frame: name.frame.index(),
            position: strip.and_then(|s| self.work.positions(s)).map(|p| p.0),
            laid: laid.code().to_owned(),
        }
    }

    /// The pin that the strip of a cut will hang on; none when it goes on the reel.
    fn goes(&self, steps: &[WorkStep], index: usize) -> Option<u32> {
        let strip = steps[index].strip;
        let after = steps[index..].iter().filter(|s| s.strip == strip);
        after
            .map(|s| &s.deed)
            .find_map(|deed| match deed {
                Deed::Hang { pin, .. } => Some(Some(*pin)),
                Deed::Join { .. } => Some(None),
                _ => None,
            })
            .flatten()
    }

    fn title(&self, step: &WorkStep, positions: Option<(usize, usize)>) -> String {
        let for_shot = positions.map(|p| format!(", for {}", shot(p)));
        let for_shot = for_shot.unwrap_or_default();
        let take = step.film.as_ref().and_then(|f| self.take(f));
        match &step.deed {
            Deed::Mount { roll } => format!("Put {roll} on the rewinds"),
            Deed::Unmount => "Take the roll off".to_owned(),
            Deed::Wind { roll, .. } => format!("Wind {roll} through to its tail"),
            Deed::Cut { roll, .. } => match take {
                Some(take) => format!("Roll {roll}, take {take}{for_shot}"),
                None => format!("Roll {roll}{for_shot}"),
            },
            Deed::Hang { pin, .. } => match positions {
                Some(p) => format!("Hang {} on pin {pin}", shot(p)),
                None => format!("Hang it on pin {pin}"),
            },
            Deed::Join { next, .. } => match (next, positions) {
                (Next::TailLeader, _) => "Join the tail leader".to_owned(),
                (_, Some((1, _))) => format!("Join {} to the head leader", shot((1, 1))),
                (_, Some((first, _))) => format!("Join {} | {first}", first - 1),
                (_, None) => "Join it on".to_owned(),
            },
            Deed::Open { join } => self.opened(*join),
            _ => step.deed.code().to_owned(),
        }
    }

    /// `Open 8 | 9`: which join of the reel, by the positions it had when it was made.
    fn opened(&self, join: usize) -> String {
        let reel = self.room.log.state().reel();
        let at = |link: Option<&onestrand_bench::Link>| match link.map(|l| &l.film) {
            Some(Film::Roll { roll, begin, end }) => format!("{roll}·{begin} to {}", end - 1),
            Some(Film::Other { position, .. }) => shot((*position, *position)),
            None => "leader".to_owned(),
        };
        let before = join.checked_sub(1).and_then(|i| reel.get(i));
        format!("Open the join {} | {}", at(before), at(reel.get(join)))
    }

    fn take(&self, film: &Film) -> Option<String> {
        let Film::Roll { roll, begin, .. } = film else {
            return None;
        };
        let takes = self.cards.strand.takes_of(roll);
        let take = takes
            .iter()
            .rfind(|t| t.span.range.begin().index() <= *begin)?;
        Some(take.slate.as_ref()?.to_string())
    }

    /// What to do, and what the button says when it is done.
    fn what(&self, step: &WorkStep) -> (String, &'static str) {
        match &step.deed {
            Deed::Mount { roll } => {
                let stands = self.room.log.state().stands(roll);
                let how = match stands {
                    0 => "heads out, its head to the take-up side".to_owned(),
                    at => format!("as it was left, {} at the splicer", frame(roll, at)),
                };
                (format!("Put {roll} on, {how}."), "Roll is on")
            }
            Deed::Unmount => (
                "Wind what is left back on its reel, and put it in its can.".to_owned(),
                "Rewinds are empty",
            ),
            Deed::Wind { roll, to } => (
                format!(
                    "Wind it through, all {}; it is worked from its tail.",
                    roll_frames(to.index(), roll)
                ),
                "Wound through",
            ),
            Deed::Cut { roll, before } => (
                format!("Cut on the line before {}.", frame(roll, before.index())),
                "Cut made",
            ),
            Deed::Hang { pin, .. } => (
                format!("Hang it on pin {pin}, head up, and let it touch nothing."),
                "It hangs",
            ),
            Deed::Join { next, kind, .. } => {
                let what = match (next, step.from_pin) {
                    (Next::TailLeader, _) => "Join the tail leader with ".to_owned(),
                    (Next::Other { .. }, _) => "Lead it to the reel and join it with ".to_owned(),
                    (_, Some(pin)) => format!("Take it off pin {pin} and join it with "),
                    (_, None) => "Lead it straight to the reel and join it with ".to_owned(),
                };
                (format!("{what}{}.", kind.word()), "Join made")
            }
            Deed::Open { join: 0 } => ("Open the join of the head leader.".to_owned(), "Join open"),
            Deed::Open { join } => (
                format!("Wind the reel to its join {join} and open it."),
                "Join open",
            ),
            _ => (String::new(), "Done"),
        }
    }

    /// What comes of a cut at once.
    fn then(&self, steps: &[WorkStep], index: usize) -> Option<String> {
        let parts = matches!(
            steps[index].deed,
            Deed::Cut { .. } | Deed::Unjoin { .. } | Deed::UnjoinOther { .. }
        );
        if !parts {
            return None;
        }
        let strip = steps[index].strip;
        let next = steps.get(index + 1)?;
        match &next.deed {
            Deed::Cut { .. } if next.strip == strip => None,
            Deed::Lead => {
                Some("Then what lies before it is led on with its head leader.".to_owned())
            }
            Deed::Hang { pin, .. } => Some(format!("Then it hangs on pin {pin}.")),
            Deed::Join { .. } => {
                let position = next.strip.and_then(|s| self.work.positions(s))?.0;
                let joined = match position {
                    1 => "Then it is joined to the head leader".to_owned(),
                    p => format!("Then join {} | {p}", p - 1),
                };
                let follow = steps[index + 2..]
                    .iter()
                    .take_while(|s| matches!(s.deed, Deed::Join { .. }))
                    .filter_map(|s| Some((self.work.positions(s.strip?)?.0, s.from_pin?)));
                let follow: Vec<(usize, u32)> = follow.collect();
                Some(match follow.as_slice() {
                    [] => format!("{joined}."),
                    [(shot, pin)] => format!("{joined}, and shot {shot} comes off pin {pin}."),
                    many => format!(
                        "{joined}, and shots {} come off pins {}.",
                        listed(many.iter().map(|m| m.0.to_string())),
                        listed(many.iter().map(|m| m.1.to_string()))
                    ),
                })
            }
            _ => None,
        }
    }
}

/// How a deed lays what it joins.
const fn laid_by(deed: &Deed) -> Laid {
    match deed {
        Deed::Join { laid, .. } => *laid,
        _ => Laid::Right,
    }
}

fn roll_frames(count: u32, roll: &impl std::fmt::Display) -> String {
    format!("{} of {roll}", frames(u64::from(count)))
}

/// `8 and 9`, `8, 9 and 11`.
fn listed(words: impl Iterator<Item = String>) -> String {
    let words: Vec<String> = words.collect();
    match words.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        _ => words.concat(),
    }
}

fn roll_of(film: &Film) -> Option<String> {
    match film {
        Film::Roll { roll, .. } => Some(roll.to_string()),
        Film::Other { .. } => None,
    }
}

/// The film of a length, as a span.
pub(super) fn span(film: &Film) -> Option<SpanDocument> {
    match film {
        Film::Roll { roll, begin, end } => Some(SpanDocument {
            roll: roll.to_string(),
            first: (*begin).into(),
            thrown: (*end).into(),
        }),
        Film::Other { .. } => None,
    }
}

/// What a deed destroys, said before it is done.
fn destroys(step: &WorkStep) -> Option<String> {
    match &step.deed {
        Deed::Cut { roll, before } => {
            let at = before.index();
            Some(format!(
                "Parts {} from {} for good: only a join brings them together again.",
                frame(roll, at.saturating_sub(1)),
                frame(roll, at)
            ))
        }
        Deed::Open { .. } | Deed::Unjoin { .. } | Deed::UnjoinOther { .. } => {
            Some(match step.spoils.is_empty() {
                true => "Opens a join; no frame is lost.".to_owned(),
                false => format!("Spoils {}: never to be shown again.", spoiled(step)),
            })
        }
        Deed::Join { kind, .. } if step.spoils.is_empty() => {
            let tape = onestrand_cut::JoinKind::Tape;
            (*kind != tape).then(|| "Scrapes leader only; no frame is lost.".to_owned())
        }
        Deed::Join { kind, .. } => Some(format!(
            "Spoils {} under the {} join: it cannot be shown again.",
            spoiled(step),
            kind.word()
        )),
        _ => None,
    }
}

/// The frames that a deed spoils: `R1·30 to 31 and R2·40`.
fn spoiled(step: &WorkStep) -> String {
    listed(step.spoils.iter().map(|(roll, range)| {
        let (first, last) = (range.begin().index(), range.last().index());
        match first == last {
            true => frame(roll, first),
            false => format!("{} to {last}", frame(roll, first)),
        }
    }))
}
