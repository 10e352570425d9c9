-- A production file of form 7, written out from one that the program of that
-- form had made: a roll of 16 mm on paper with a join found on it, a version of two
-- pieces that was put on the bench, one tick.
PRAGMA user_version = 7;
BEGIN TRANSACTION;
CREATE TABLE production (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    title TEXT NOT NULL,
    gauge TEXT NOT NULL,
    speed TEXT NOT NULL,
    created TEXT NOT NULL,
    revision INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO production VALUES(1,'Saved by form 7','16','24','2026-11-26T14:36:27Z',5);
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
INSERT INTO roll VALUES('R1','16','24','not-known','project',NULL,4000,0,NULL,NULL,NULL,NULL,'{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[{"frame":720,"kind":"cement","note":"neat"}],"half":null,"ledger":[]}');
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
INSERT INTO cut VALUES('v1','tape','','2026-11-26T14:36:27Z');
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
INSERT INTO piece VALUES('v1',0,'shot','R1',40,200,NULL,NULL,NULL,NULL,NULL,NULL,'');
INSERT INTO piece VALUES('v1',1,'shot','R1',400,520,NULL,NULL,NULL,NULL,NULL,NULL,'');
CREATE TABLE journal (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    words TEXT NOT NULL,
    act TEXT NOT NULL,
    inverse TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'dropped'))
) STRICT;
INSERT INTO journal VALUES(1,'2026-11-26T14:36:27Z','R1 on paper','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"16","film_speed":"24","base":"not-known","fit":"project","wind":null,"frames":4000,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"ledger":[]},"scans":[]}}','{"act":"put_roll","name":"R1","roll":null}','done');
INSERT INTO journal VALUES(2,'2026-11-26T14:36:27Z','a join before R1·720','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"16","film_speed":"24","base":"not-known","fit":"project","wind":null,"frames":4000,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[{"frame":720,"kind":"cement","note":"neat"}],"half":null,"ledger":[]},"scans":[]}}','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"16","film_speed":"24","base":"not-known","fit":"project","wind":null,"frames":4000,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"inspection":{"accession":"","lies":"","hundred_mm":null,"wound":null,"condition":{"picture":"","acid":"","vinegar":"","warping":"","perforations":"","scratches":"","fading":"","sound":"","by":"","note":""},"joins":[],"half":null,"ledger":[]},"scans":[]}}','done');
INSERT INTO journal VALUES(3,'2026-11-26T14:36:27Z','bring in cut v1','{"act":"put_cut","name":"v1","cut":{"usual_join":"tape","note":"","made":"2026-11-26T14:36:27Z","pieces":[{"kind":"shot","roll":"R1","first":40,"thrown":200,"note":""},{"kind":"shot","roll":"R1","first":400,"thrown":520,"note":""}]}}','{"act":"put_cut","name":"v1","cut":null}','done');
INSERT INTO journal VALUES(4,'2026-11-26T14:36:37Z','v1 goes on the bench','{"act":"write_bench","by":"","lines":["{\"line\":\"begin\",\"cut\":\"v1\",\"version\":{\"usual_join\":\"tape\",\"note\":\"\",\"made\":\"2026-11-26T14:36:37Z\",\"pieces\":[{\"kind\":\"shot\",\"roll\":\"R1\",\"first\":40,\"thrown\":200,\"note\":\"\"},{\"kind\":\"shot\",\"roll\":\"R1\",\"first\":400,\"thrown\":520,\"note\":\"\"}]},\"winding\":\"one_pass\",\"pins\":4,\"rolls\":[[\"R1\",4000]],\"order\":[{\"strip\":0,\"backward\":false},{\"strip\":1,\"backward\":false}],\"through\":[]}"]}','{"act":"write_bench","by":"","lines":["{\"line\":\"begin\",\"cut\":\"v1\",\"version\":{\"usual_join\":\"tape\",\"note\":\"\",\"made\":\"2026-11-26T14:36:37Z\",\"pieces\":[{\"kind\":\"shot\",\"roll\":\"R1\",\"first\":40,\"thrown\":200,\"note\":\"\"},{\"kind\":\"shot\",\"roll\":\"R1\",\"first\":400,\"thrown\":520,\"note\":\"\"}]},\"winding\":\"one_pass\",\"pins\":4,\"rolls\":[[\"R1\",4000]],\"order\":[{\"strip\":0,\"backward\":false},{\"strip\":1,\"backward\":false}],\"through\":[]}"]}','done');
INSERT INTO journal VALUES(5,'2026-11-26T14:36:37Z','R1 put on the rewinds','{"act":"write_bench","by":"","lines":["{\"line\":\"deed\",\"deed\":{\"happened\":\"mounted\",\"roll\":\"R1\"}}"]}','{"act":"write_bench","by":"","lines":["{\"line\":\"deed\",\"deed\":{\"happened\":\"mounted\",\"roll\":\"R1\"}}"]}','done');
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
INSERT INTO kept_key VALUES('#1',1,1,'2026-11-26T14:36:27Z');
INSERT INTO kept_key VALUES('#2',2,2,'2026-11-26T14:36:27Z');
INSERT INTO kept_key VALUES('#3',3,3,'2026-11-26T14:36:27Z');
INSERT INTO kept_key VALUES('#4',4,4,'2026-11-26T14:36:37Z');
INSERT INTO kept_key VALUES('#5',5,5,'2026-11-26T14:36:37Z');
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
INSERT INTO bench_line VALUES(1,'2026-11-26T14:36:37Z','','{"line":"begin","cut":"v1","version":{"usual_join":"tape","note":"","made":"2026-11-26T14:36:37Z","pieces":[{"kind":"shot","roll":"R1","first":40,"thrown":200,"note":""},{"kind":"shot","roll":"R1","first":400,"thrown":520,"note":""}]},"winding":"one_pass","pins":4,"rolls":[["R1",4000]],"order":[{"strip":0,"backward":false},{"strip":1,"backward":false}],"through":[]}');
INSERT INTO bench_line VALUES(2,'2026-11-26T14:36:37Z','','{"line":"deed","deed":{"happened":"mounted","roll":"R1"}}');
DELETE FROM sqlite_sequence;
INSERT INTO sqlite_sequence VALUES('journal',5);
CREATE INDEX journal_state ON journal (state, seq);
CREATE INDEX note_place ON note (roll, frame, id);
CREATE INDEX kept_key_revision ON kept_key (revision);
COMMIT;
