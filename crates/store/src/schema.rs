//! The numbered forms of the production file. A form, once released, is never
//! edited; a new one is added behind it.

/// Each step brings the file from its index to the next number.
pub(crate) const STEPS: &[&str] = &[
    FORM_1, FORM_2, FORM_3, FORM_4, FORM_5, FORM_6, FORM_7, FORM_8, FORM_9, FORM_10, FORM_11,
];

/// The form this program writes.
pub(crate) fn newest() -> u32 {
    u32::try_from(STEPS.len()).unwrap_or(u32::MAX)
}

const FORM_1: &str = "
CREATE TABLE production (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    title TEXT NOT NULL,
    gauge TEXT NOT NULL,
    speed TEXT NOT NULL,
    created TEXT NOT NULL,
    revision INTEGER NOT NULL DEFAULT 0
) STRICT;

CREATE TABLE roll (
    name TEXT PRIMARY KEY,
    gauge TEXT NOT NULL,
    film_speed TEXT NOT NULL,
    base TEXT NOT NULL,
    fit TEXT NOT NULL,
    wind TEXT,
    frames INTEGER NOT NULL CHECK (frames >= 0),
    missing INTEGER NOT NULL DEFAULT 0,
    expected INTEGER,
    measured TEXT,
    shrinkage TEXT,
    proved_by TEXT
) STRICT;

CREATE TABLE scan (
    roll TEXT NOT NULL REFERENCES roll (name) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
    part INTEGER NOT NULL,
    paths TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    blake3 TEXT NOT NULL,
    facts TEXT NOT NULL,
    PRIMARY KEY (roll, part)
) STRICT, WITHOUT ROWID;

CREATE TABLE take (
    roll TEXT NOT NULL REFERENCES roll (name) DEFERRABLE INITIALLY DEFERRED,
    first INTEGER NOT NULL,
    thrown INTEGER NOT NULL CHECK (thrown > first),
    setup TEXT,
    take INTEGER,
    rating TEXT NOT NULL,
    size TEXT NOT NULL,
    camera_move TEXT NOT NULL,
    direction TEXT NOT NULL,
    action TEXT NOT NULL,
    note TEXT NOT NULL,
    begins TEXT NOT NULL,
    flash_frames INTEGER NOT NULL,
    flash_stops REAL,
    PRIMARY KEY (roll, first)
) STRICT, WITHOUT ROWID;

CREATE TABLE cut (
    name TEXT PRIMARY KEY,
    usual_join TEXT NOT NULL,
    note TEXT NOT NULL,
    made TEXT NOT NULL
) STRICT;

CREATE TABLE piece (
    cut TEXT NOT NULL REFERENCES cut (name) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
    position INTEGER NOT NULL,
    kind TEXT NOT NULL,
    roll TEXT,
    first INTEGER,
    thrown INTEGER,
    frames INTEGER,
    title TEXT,
    setup TEXT,
    take INTEGER,
    join_after TEXT,
    effect TEXT,
    note TEXT NOT NULL,
    PRIMARY KEY (cut, position)
) STRICT, WITHOUT ROWID;

CREATE TABLE journal (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    words TEXT NOT NULL,
    act TEXT NOT NULL,
    inverse TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'dropped'))
) STRICT;
CREATE INDEX journal_state ON journal (state, seq);

CREATE TABLE job (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    words TEXT NOT NULL,
    params TEXT NOT NULL,
    state TEXT NOT NULL,
    done INTEGER NOT NULL DEFAULT 0,
    total INTEGER NOT NULL DEFAULT 0,
    started TEXT NOT NULL,
    ended TEXT,
    problem TEXT
) STRICT;
";

/// Notes on frames, and the names of changes already kept.
///
/// A note names no roll by a foreign key: a roll that is taken away and brought
/// in again finds its notes where they were.
///
/// The keys have a table of their own and no column of the journal, because an
/// undo and a redo are changes too and have no line of their own; `line` is the
/// line that was written, undone or done again.
const FORM_2: &str = "
CREATE TABLE note (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    roll TEXT NOT NULL,
    frame INTEGER NOT NULL CHECK (frame >= 0),
    words TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
    made TEXT NOT NULL
) STRICT;
CREATE INDEX note_place ON note (roll, frame, id);

CREATE TABLE kept_key (
    key TEXT PRIMARY KEY,
    line INTEGER NOT NULL REFERENCES journal (seq),
    revision INTEGER NOT NULL,
    at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
CREATE INDEX kept_key_revision ON kept_key (revision);
";

/// Whether a person has looked at where a take begins.
const FORM_3: &str = "
ALTER TABLE take ADD COLUMN looked INTEGER NOT NULL DEFAULT 0 CHECK (looked IN (0, 1));
";

/// Pins of the trim bin, what the hand found on a roll, and what is wound on what.
///
/// The takes of an older file are hung in the order of their rolls, R2 before
/// R10 where the names are alike but for the number.
const FORM_4: &str = "
ALTER TABLE take ADD COLUMN pin INTEGER CHECK (pin > 0);
UPDATE take SET pin = hung.pin FROM (
    SELECT roll, first, ROW_NUMBER() OVER (ORDER BY length(roll), roll, first) AS pin FROM take
) AS hung WHERE take.roll = hung.roll AND take.first = hung.first;
ALTER TABLE roll ADD COLUMN inspection TEXT NOT NULL DEFAULT '{}';
CREATE TABLE reel (
    name TEXT PRIMARY KEY,
    kind TEXT NOT NULL,
    feet INTEGER,
    across_mm TEXT,
    lies TEXT NOT NULL,
    kept_in TEXT NOT NULL,
    accession TEXT NOT NULL,
    note TEXT NOT NULL,
    wound TEXT NOT NULL
) STRICT;
";

/// What a person has set for the whole production, such as limits of signs.
const FORM_5: &str = "
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
";

/// Hubs of reels, so that what goes on one's own can be worked out; and the ledger
/// of a roll holds more than runs from now on. What stands in it is left as it is:
/// an entry that does not say what it was is a run. The number alone keeps a program
/// away that would take every entry for one.
const FORM_6: &str = "
ALTER TABLE reel ADD COLUMN hub_mm TEXT;
";

/// The log of the bench. Its lines are added and never changed: what was done to film
/// cannot be undone. `writer` names the tablet that wrote it, if one did.
const FORM_7: &str = "
CREATE TABLE bench_line (
    number INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
    line TEXT NOT NULL
) STRICT;
";

/// Numbers read on the edge of a roll stand in its inspection from now on. No table
/// changes: the number keeps a program away that would drop them when it writes the
/// inspection anew.
const FORM_8: &str = "
UPDATE roll SET inspection = json_set(inspection, '$.edge', json('{\"step\":0,\"read\":[]}'));
";

/// The shooting script. A part is kept whole in `body`; what kind it is and where it
/// stands are columns, so that parts of one kind come in order.
const FORM_9: &str = "
CREATE TABLE script (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
CREATE INDEX script_order ON script (kind, place, id);
";

/// The titles of the film, each kept whole in `body`.
const FORM_10: &str = "
CREATE TABLE title (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
CREATE INDEX title_order ON title (place, id);
";

/// The sound of the film: sounds, columns and cues, each kept whole in `body`.
const FORM_11: &str = "
CREATE TABLE dub (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
CREATE INDEX dub_order ON dub (kind, place, id);
";
