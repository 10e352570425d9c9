-- A production file of form 5, written out from one that the program of that
-- form had made: a roll on paper, a run of it, a reel it is wound on.
PRAGMA user_version = 5;
BEGIN TRANSACTION;
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
INSERT INTO "journal" VALUES(1,'2026-11-26T10:14:41Z','R1 on paper','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"super8","film_speed":"18","base":"not-known","fit":"project","wind":null,"frames":3600,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"runs":[]},"scans":[]}}','{"act":"put_roll","name":"R1","roll":null}','done');
INSERT INTO "journal" VALUES(2,'2026-11-26T10:14:41Z','a run of R1 through the viewer on 2026-03-03','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"super8","film_speed":"18","base":"not-known","fit":"project","wind":null,"frames":3600,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"runs":[{"number":1,"on":"2026-03-03","through":"viewer","by":"Ida","note":"the join at the head is weak"}]},"scans":[]}}','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"super8","film_speed":"18","base":"not-known","fit":"project","wind":null,"frames":3600,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"runs":[]},"scans":[]}}','done');
INSERT INTO "journal" VALUES(3,'2026-11-26T10:14:41Z','what is wound on club reel','{"act":"put_reel","name":"club reel","reel":{"kind":"reel","feet":50,"across_mm":"75","lies":"not-known","kept_in":"","accession":"","note":"","wound":[{"roll":"R1","span":null}]}}','{"act":"put_reel","name":"club reel","reel":null}','done');
CREATE TABLE kept_key (
    key TEXT PRIMARY KEY,
    line INTEGER NOT NULL REFERENCES journal (seq),
    revision INTEGER NOT NULL,
    at TEXT NOT NULL
) STRICT, WITHOUT ROWID;
INSERT INTO "kept_key" VALUES('#1',1,1,'2026-11-26T10:14:41Z');
INSERT INTO "kept_key" VALUES('#2',2,2,'2026-11-26T10:14:41Z');
INSERT INTO "kept_key" VALUES('#3',3,3,'2026-11-26T10:14:41Z');
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
INSERT INTO "production" VALUES(1,'Saved by form 5','super8','18','2026-11-26T10:14:41Z',3);
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
INSERT INTO "reel" VALUES('club reel','reel',50,'75','not-known','','','','[{"roll":"R1","span":null}]');
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
INSERT INTO "roll" VALUES('R1','super8','18','not-known','project',NULL,3600,0,NULL,NULL,NULL,NULL,'{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"runs":[{"number":1,"on":"2026-03-03","through":"viewer","by":"Ida","note":"the join at the head is weak"}]}');
CREATE TABLE scan (
    roll TEXT NOT NULL REFERENCES roll (name) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
    part INTEGER NOT NULL,
    paths TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    blake3 TEXT NOT NULL,
    facts TEXT NOT NULL,
    PRIMARY KEY (roll, part)
) STRICT, WITHOUT ROWID;
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
CREATE INDEX journal_state ON journal (state, seq);
CREATE INDEX note_place ON note (roll, frame, id);
CREATE INDEX kept_key_revision ON kept_key (revision);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('journal',3);
COMMIT;
