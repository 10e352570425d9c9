//! Music and rights as a form.

use onestrand_typeset::Printed;

use super::furniture::{admit_missing, dub_form, time_words};
use super::lists::{Cell, ColumnRecord, ListRecord, print};
use crate::dub::{MusicList, MusicRow, RightsStanding};
use crate::forms::record::Figure;
use crate::{SheetError, words};

/// What the form calls itself.
const FORM: &str = "Music and rights";

/// Prints a list of music and rights, with its pages to look at.
///
/// # Errors
/// [`SheetError::Form`] when the form cannot be set.
pub fn print_music_list(list: &MusicList) -> Result<Printed, SheetError> {
    print(FORM, &record(list))
}

impl RightsStanding {
    /// Every standing, in the order of the boxes on paper, with its word.
    pub const ALL: [(Self, &'static str); 5] = [
        (Self::NotKnown, "not known"),
        (Self::Asked, "asked"),
        (Self::Granted, "granted"),
        (Self::NotNeeded, "not needed"),
        (Self::Refused, "refused"),
    ];

    /// The standing as a word.
    #[must_use]
    pub fn word(self) -> &'static str {
        let mut all = Self::ALL.iter();
        all.find(|(one, _)| *one == self)
            .map_or("", |(_, word)| word)
    }

    /// Whether the piece may be shown as it stands.
    #[must_use]
    pub const fn is_clear(self) -> bool {
        matches!(self, Self::Granted | Self::NotNeeded)
    }
}

/// Where it is nothing that stands on paper may be taken for advice.
const NOT_ADVICE: &str = "Two rights lie in a recorded piece: that of whoever wrote it and that of \
whoever recorded it. Terms, schools' exceptions and fees differ from country to country, and a \
showing on a site or at a festival is another use than one at home. Ask the society that collects \
for authors where you show it, or a lawyer; this list only keeps what you were told.";

fn record(list: &MusicList) -> ListRecord {
    let mut form = dub_form(
        &list.head,
        FORM,
        "whose it is, and what was agreed",
        &["people"],
    );
    let counted = |count: usize| u32::try_from(count).unwrap_or(u32::MAX);
    let open = list
        .rows
        .iter()
        .filter(|row| !(row.work.is_clear() && row.recorded.is_clear()));
    form.figures = vec![
        Figure::counted(counted(list.rows.len()), "piece", "pieces"),
        Figure::new(words::count(counted(open.count())), "still to be cleared"),
    ];
    form.foot =
        vec!["Keep every letter with this list: what is not in writing is not agreed.".to_owned()];
    form.got = "What this list is";
    form.assumptions = vec![NOT_ADVICE.to_owned()];
    let said = list.rows.iter().flat_map(|row| {
        let of = [&row.title, &row.written_by, &row.played_by, &row.agreed];
        of.into_iter()
            .chain([&row.ask_for_work, &row.ask_for_recording])
    });
    let said: Vec<&str> = said.map(String::as_str).collect();
    admit_missing(&mut form, &said);
    ListRecord {
        form,
        before: Vec::new(),
        columns: vec![
            ColumnRecord::words("title, written by, played by", 0.0),
            ColumnRecord::words("from", 27.0),
            ColumnRecord::words("heard in the film", 28.0),
            ColumnRecord::words("right in the work", 31.0),
            ColumnRecord::words("in the recording", 31.0),
            ColumnRecord::words("agreed", 26.0),
        ],
        rows: list.rows.iter().map(|one| row(list, one)).collect(),
        none: "No music is laid yet.",
        blank: list.blank_rows.min(200),
        boxes: Vec::new(),
    }
}

fn row(list: &MusicList, row: &MusicRow) -> Vec<Cell> {
    let by = |what: &str, who: &str| match words::plain(who).as_str() {
        "" => format!("{what} …………"),
        who => format!("{what} {who}"),
    };
    let used = row.used.iter().map(|(from, to)| {
        format!(
            "{}–{}, {}",
            words::count(*from),
            words::count(to.saturating_sub(1)),
            time_words(to.saturating_sub(*from), list.head.speed)
        )
    });
    let standing = |standing: RightsStanding, ask: &str| Cell::Boxes {
        // Where nobody need be asked there is nobody to name.
        lines: match (standing, words::plain(ask).as_str()) {
            (RightsStanding::NotNeeded, "") => Vec::new(),
            (_, "") => vec!["ask …………".to_owned()],
            (_, whom) => vec![format!("ask {whom}")],
        },
        words: RightsStanding::ALL.iter().map(|(_, word)| *word).collect(),
        ticked: RightsStanding::ALL
            .iter()
            .position(|(one, _)| *one == standing),
    };
    vec![
        Cell::Words {
            lines: vec![
                words::plain(&row.title),
                by("written by", &row.written_by),
                by("played by", &row.played_by),
            ],
        },
        Cell::words(words::plain(&row.recording)),
        Cell::Words {
            lines: used.collect(),
        },
        standing(row.work, &row.ask_for_work),
        standing(row.recorded, &row.ask_for_recording),
        Cell::words(words::plain(&row.agreed)),
    ]
}
