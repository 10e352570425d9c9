-- A production file of form 9, written out from one that the program of that
-- form had made: a screenplay of one scene, and nothing else.
PRAGMA user_version = 9;
BEGIN TRANSACTION;
CREATE TABLE production (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    title TEXT NOT NULL,
    gauge TEXT NOT NULL,
    speed TEXT NOT NULL,
    created TEXT NOT NULL,
    revision INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO production VALUES(1,'Saved by form 9','super8','18','2026-11-26T21:28:46Z',1);
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
, inspection TEXT NOT NULL DEFAULT '{}') STRICT;
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
    flash_stops REAL, looked INTEGER NOT NULL DEFAULT 0 CHECK (looked IN (0, 1)), pin INTEGER CHECK (pin > 0),
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
INSERT INTO journal VALUES(1,'2026-11-26T21:28:46Z','script brought in from s9.fountain','{"act":"put_script","id":1,"part":{"place":0,"part":{"kind":"scene","number":"1","heading":"INT. SHED - DAY","actions":[{"name":"1a","text":"Ida mends the bell.","speaker":null},{"name":"1b","text":"It rings.","speaker":"IDA"}],"note":""}}}','{"act":"put_script","id":1,"part":null}','done');
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
CREATE TABLE note (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    roll TEXT NOT NULL,
    frame INTEGER NOT NULL CHECK (frame >= 0),
    words TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
    made TEXT NOT NULL
) STRICT;
CREATE TABLE kept_key (
    key TEXT PRIMARY KEY,
    line INTEGER NOT NULL REFERENCES journal (seq),
    revision INTEGER NOT NULL,
    at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO kept_key VALUES('#1',1,1,'2026-11-26T21:28:46Z');
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
, hub_mm TEXT) STRICT;
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
CREATE TABLE bench_line (
    number INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
    line TEXT NOT NULL
) STRICT;
CREATE TABLE script (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
INSERT INTO script VALUES(1,'scene',0,'{"kind":"scene","number":"1","heading":"INT. SHED - DAY","actions":[{"name":"1a","text":"Ida mends the bell.","speaker":null},{"name":"1b","text":"It rings.","speaker":"IDA"}],"note":""}');
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('script',1);
INSERT INTO sqlite_sequence VALUES('journal',1);
CREATE INDEX journal_state ON journal (state, seq);
CREATE INDEX note_place ON note (roll, frame, id);
CREATE INDEX kept_key_revision ON kept_key (revision);
CREATE INDEX script_order ON script (kind, place, id);
COMMIT;
