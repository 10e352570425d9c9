-- A production file of form 10, written out from one that the program of that
-- form had made: a title, and nothing else.
PRAGMA user_version = 10;
BEGIN TRANSACTION;
CREATE TABLE bench_line (
    number INTEGER PRIMARY KEY,
    at TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
    line TEXT NOT NULL
) STRICT;
CREATE TABLE cut (
    name TEXT PRIMARY KEY,
    usual_join TEXT NOT NULL,
    note TEXT NOT NULL,
    made TEXT NOT NULL
) STRICT;
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
CREATE TABLE journal (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    words TEXT NOT NULL,
    act TEXT NOT NULL,
    inverse TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'dropped'))
) STRICT;
INSERT INTO "journal" VALUES(1,'2026-11-27T01:20:49Z','title M','{"act":"all","acts":[{"act":"put_title","id":1,"title":{"place":0,"body":"{\"name\":\"M\",\"kind\":\"main\",\"words\":\"The Ten-Past Boat\",\"lettering\":{\"design\":\"brush\",\"letter_height\":null,\"across\":\"centre\",\"down\":\"middle\",\"outline\":null,\"shadow\":null,\"plate\":false,\"dark\":false,\"face\":\"\"},\"ground\":{\"kind\":\"plain\",\"light\":0,\"picture\":\"\",\"frame\":\"\",\"darker\":0},\"shooting\":{\"hold\":null,\"before\":0,\"after\":0,\"fade_in\":0,\"fade_out\":0,\"letters_in\":0,\"letters_out\":0,\"crawl\":0,\"dissolve_to\":\"\",\"dissolve\":0,\"art_move\":null,\"blank_cel\":true,\"exposed_twice\":false,\"single_frame\":false,\"takes\":1},\"note\":\"\"}"}}]}','{"act":"all","acts":[{"act":"put_title","id":1,"title":null}]}','done');
CREATE TABLE kept_key (
    key TEXT PRIMARY KEY,
    line INTEGER NOT NULL REFERENCES journal (seq),
    revision INTEGER NOT NULL,
    at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO "kept_key" VALUES('k1',1,1,'2026-11-27T01:20:49Z');
CREATE TABLE note (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    roll TEXT NOT NULL,
    frame INTEGER NOT NULL CHECK (frame >= 0),
    words TEXT NOT NULL,
    writer TEXT NOT NULL DEFAULT '',
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
CREATE TABLE production (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    title TEXT NOT NULL,
    gauge TEXT NOT NULL,
    speed TEXT NOT NULL,
    created TEXT NOT NULL,
    revision INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO "production" VALUES(1,'Saved by form 10','super8','18','2026-11-27T01:20:00Z',1);
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
CREATE TABLE script (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    kind TEXT NOT NULL,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
CREATE TABLE setting (
    name TEXT PRIMARY KEY,
    value TEXT NOT NULL
) STRICT;
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
CREATE TABLE title (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    place INTEGER NOT NULL,
    body TEXT NOT NULL
) STRICT;
INSERT INTO "title" VALUES(1,0,'{"name":"M","kind":"main","words":"The Ten-Past Boat","lettering":{"design":"brush","letter_height":null,"across":"centre","down":"middle","outline":null,"shadow":null,"plate":false,"dark":false,"face":""},"ground":{"kind":"plain","light":0,"picture":"","frame":"","darker":0},"shooting":{"hold":null,"before":0,"after":0,"fade_in":0,"fade_out":0,"letters_in":0,"letters_out":0,"crawl":0,"dissolve_to":"","dissolve":0,"art_move":null,"blank_cel":true,"exposed_twice":false,"single_frame":false,"takes":1},"note":""}');
CREATE INDEX journal_state ON journal (state, seq);
CREATE INDEX note_place ON note (roll, frame, id);
CREATE INDEX kept_key_revision ON kept_key (revision);
CREATE INDEX script_order ON script (kind, place, id);
CREATE INDEX title_order ON title (place, id);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('title',1);
INSERT INTO "sqlite_sequence" VALUES('journal',1);
COMMIT;
