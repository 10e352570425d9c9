//! Which parts of a film were changed when, so that a change made against an
//! older state is refused only where that state is no longer true.

use std::collections::{BTreeMap, BTreeSet};

use onestrand_store::{Lately, Touched};

/// A part of a film that a change touches, and that another window may show.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum FilmPart {
    /// A roll itself.
    Roll(String),
    /// The division of a roll into takes, and all that is said of them.
    Takes(String),
    /// What is said of one take, by its roll and first frame.
    Take(String, u32),
    /// A version.
    Cut(String),
    /// A note.
    Note(i64),
    /// Some notes, not known which.
    Notes,
    /// A reel or can.
    Reel(String),
    /// What is said of the film for its archive box.
    Accession,
    /// From where on signs are told.
    SignLimits,
    /// The user's word on questions.
    Answers,
    /// Which takes show the same action.
    Twins,
    /// The log of the bench.
    Bench,
    /// A part of the script, by its number.
    Script(i64),
    /// The stock that is planned with.
    Stock,
    /// A title, by its number.
    Title(i64),
    /// The copy stand and the hall.
    CopyStand,
    /// A part of the sound, by its number.
    Dub(i64),
    /// How the sound is mixed.
    Mix,
    /// The light of the shots.
    Light,
}

impl FilmPart {
    /// Whether a change of one may have changed what the other shows.
    fn meets(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::Takes(a), Self::Take(b, _)) | (Self::Take(a, _), Self::Takes(b)) => a == b,
            (Self::Notes, Self::Note(_)) | (Self::Note(_), Self::Notes) => true,
            (a, b) => a == b,
        }
    }
}

/// When each part of a film was changed last, as far back as it is known: so a
/// change made against an older state is refused only where that state is no
/// longer true, or where nobody can tell.
#[derive(Debug, Clone, Default)]
pub struct LastTouched {
    known_after: u64,
    at: BTreeMap<FilmPart, u64>,
}

impl LastTouched {
    /// What a production that was just opened tells of its last changes: who
    /// made one of them may still have a window open on an older state.
    #[must_use]
    pub fn of(lately: &Lately) -> Self {
        let mut last = Self {
            known_after: lately.after.number(),
            at: BTreeMap::new(),
        };
        for (revision, touched) in lately.touched.iter().rev() {
            last.note(parts_touched(touched), revision.number());
        }
        last
    }

    /// These parts were changed by the change that made this revision.
    pub fn note(&mut self, parts: impl IntoIterator<Item = FilmPart>, revision: u64) {
        for part in parts {
            self.at.insert(part, revision);
        }
    }

    /// Whether any of these parts has changed since a revision.
    #[must_use]
    pub fn since(&self, revision: u64, parts: &[FilmPart]) -> bool {
        let later =
            |(part, at): (&FilmPart, &u64)| *at > revision && parts.iter().any(|p| p.meets(part));
        (revision < self.known_after && !parts.is_empty()) || self.at.iter().any(later)
    }
}

/// The parts that an act of the store touches.
#[must_use]
pub fn parts_touched(touched: &BTreeSet<Touched>) -> Vec<FilmPart> {
    let one = |touched: &Touched| match touched {
        Touched::Roll(name) => FilmPart::Roll(name.clone()),
        Touched::Takes(roll) => FilmPart::Takes(roll.clone()),
        Touched::Cut(name) => FilmPart::Cut(name.clone()),
        Touched::Reel(name) => FilmPart::Reel(name.clone()),
        Touched::Setting(name) if name == crate::answers::SETTING => FilmPart::Answers,
        Touched::Setting(name) if name == crate::archive::ACCESSION => FilmPart::Accession,
        Touched::Setting(name) if name == crate::on_action::MOMENTS => FilmPart::Twins,
        Touched::Setting(name)
            if name == crate::script::STOCK || name == crate::script::SET_MAY_GO =>
        {
            FilmPart::Stock
        }
        Touched::Setting(name) if name == crate::titles::STAND => FilmPart::CopyStand,
        Touched::Setting(name) if name == crate::dub::MIX => FilmPart::Mix,
        Touched::Setting(name) if name == crate::light::CARD => FilmPart::Light,
        Touched::Setting(_) => FilmPart::SignLimits,
        Touched::Bench => FilmPart::Bench,
        Touched::Script(id) => FilmPart::Script(*id),
        Touched::Title(id) => FilmPart::Title(*id),
        Touched::Dub(id) => FilmPart::Dub(*id),
        _ => FilmPart::Notes,
    };
    touched.iter().map(one).collect()
}

#[cfg(test)]
mod tests {
    use onestrand_store::Revision;

    use super::*;

    fn take(first: u32) -> FilmPart {
        FilmPart::Take("R1".to_owned(), first)
    }

    #[test]
    fn a_change_is_stale_only_where_its_own_part_moved_on() {
        let mut last = LastTouched::default();
        last.note([take(402), FilmPart::Cut("v1".to_owned())], 8);
        assert!(last.since(7, &[take(402)]));
        assert!(!last.since(8, &[take(402)]));
        assert!(!last.since(0, &[take(546)]));
        assert!(!last.since(0, &[FilmPart::Cut("v2".to_owned())]));
    }

    #[test]
    fn of_what_is_not_known_nothing_is_taken_for_granted() {
        let cut = |name: &str| BTreeSet::from([Touched::Cut(name.to_owned())]);
        let last = LastTouched::of(&Lately {
            after: Revision::new(5),
            touched: vec![(Revision::new(7), cut("v1")), (Revision::new(6), cut("v2"))],
        });
        let v = |name: &str| [FilmPart::Cut(name.to_owned())];
        assert!(last.since(6, &v("v1")) && !last.since(7, &v("v1")));
        assert!(!last.since(6, &v("v2")));
        assert!(!last.since(5, &v("v3")) && last.since(4, &v("v3")));
        // A new note touches nothing that anybody has seen.
        assert!(!last.since(0, &[]));
    }

    #[test]
    fn the_takes_of_a_roll_hold_each_of_them() {
        let mut last = LastTouched::default();
        last.note([FilmPart::Takes("R1".to_owned())], 5);
        assert!(last.since(4, &[take(402)]));
        assert!(!last.since(4, &[FilmPart::Take("R2".to_owned(), 402)]));
        last.note([take(9)], 6);
        assert!(last.since(5, &[FilmPart::Takes("R1".to_owned())]));
        last.note([FilmPart::Notes], 7);
        assert!(last.since(6, &[FilmPart::Note(3)]));
    }
}
