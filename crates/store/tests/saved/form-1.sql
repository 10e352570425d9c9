-- A production file of form 1, written out from one that the program of that
-- form had made: two rolls, three cuts brought in, one taken back. Only the
-- folder of the scan is another.
PRAGMA user_version = 1;
BEGIN TRANSACTION;
CREATE TABLE cut (
    name TEXT PRIMARY KEY,
    usual_join TEXT NOT NULL,
    note TEXT NOT NULL,
    made TEXT NOT NULL
) STRICT;
INSERT INTO "cut" VALUES('v1','tape','','2026-11-25T16:04:06Z');
INSERT INTO "cut" VALUES('v2','tape','','2026-11-25T16:04:06Z');
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
INSERT INTO "job" VALUES(1,'read','read R2','{"roll":"R2","files":["/films/R2.mkv"],"gauge":null,"film_speed":null,"base":"not-known","measured":null,"shrinkage":null,"wind":null,"fit":"project"}','done',0,0,'2026-11-25T16:04:05Z','2026-11-25T16:04:06Z',NULL);
CREATE TABLE journal (
    seq INTEGER PRIMARY KEY AUTOINCREMENT,
    at TEXT NOT NULL,
    words TEXT NOT NULL,
    act TEXT NOT NULL,
    inverse TEXT NOT NULL,
    state TEXT NOT NULL CHECK (state IN ('done', 'undone', 'dropped'))
) STRICT;
INSERT INTO "journal" VALUES(1,'2026-11-25T16:04:05Z','R1 on paper','{"act":"put_roll","name":"R1","roll":{"name":"R1","gauge":"super8","film_speed":"18","base":"not-known","fit":"project","wind":null,"frames":3600,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"scans":[]}}','{"act":"put_roll","name":"R1","roll":null}','done');
INSERT INTO "journal" VALUES(2,'2026-11-25T16:04:06Z','bring in R2','{"act":"all","acts":[{"act":"put_roll","name":"R2","roll":{"name":"R2","gauge":"super8","film_speed":"18","base":"not-known","fit":"project","wind":null,"frames":54,"missing":0,"expected":null,"measured":null,"shrinkage":null,"proved_by":null,"scans":[{"paths":["/films/R2.mkv"],"bytes":413961,"blake3":"728f24c98d30661f18ad499aa146049082db8756ecfed0b3e3a262a1f24e5f44","facts":{"frames":54,"rate":"18","width":320,"height":240,"coding":"ffv1 yuv420p"}}]}},{"act":"put_takes","roll":"R2","takes":[{"roll":"R2","first":0,"thrown":54,"setup":null,"take":null,"rating":"none","size":"","camera_move":"","direction":"","action":"","note":"","begins":"roll_start","flash_frames":0,"flash_stops":null}]}]}','{"act":"all","acts":[{"act":"put_takes","roll":"R2","takes":[]},{"act":"put_roll","name":"R2","roll":null}]}','done');
INSERT INTO "journal" VALUES(3,'2026-11-25T16:04:06Z','bring in cut v1','{"act":"put_cut","name":"v1","cut":{"usual_join":"tape","note":"","made":"2026-11-25T16:04:06Z","pieces":[{"kind":"shot","roll":"R1","first":200,"thrown":360,"note":""},{"kind":"shot","roll":"R1","first":0,"thrown":150,"note":""}]}}','{"act":"put_cut","name":"v1","cut":null}','done');
INSERT INTO "journal" VALUES(4,'2026-11-25T16:04:06Z','bring in cut v2','{"act":"put_cut","name":"v2","cut":{"usual_join":"tape","note":"","made":"2026-11-25T16:04:06Z","pieces":[{"kind":"shot","roll":"R1","first":10,"thrown":60,"note":""}]}}','{"act":"put_cut","name":"v2","cut":null}','done');
INSERT INTO "journal" VALUES(5,'2026-11-25T16:04:06Z','bring in cut v3','{"act":"put_cut","name":"v3","cut":{"usual_join":"tape","note":"","made":"2026-11-25T16:04:06Z","pieces":[{"kind":"shot","roll":"R1","first":10,"thrown":60,"note":""}]}}','{"act":"put_cut","name":"v3","cut":null}','undone');
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
INSERT INTO "piece" VALUES('v1',0,'shot','R1',200,360,NULL,NULL,NULL,NULL,NULL,NULL,'');
INSERT INTO "piece" VALUES('v1',1,'shot','R1',0,150,NULL,NULL,NULL,NULL,NULL,NULL,'');
INSERT INTO "piece" VALUES('v2',0,'shot','R1',10,60,NULL,NULL,NULL,NULL,NULL,NULL,'');
CREATE TABLE production (
    id INTEGER PRIMARY KEY CHECK (id = 1),
    title TEXT NOT NULL,
    gauge TEXT NOT NULL,
    speed TEXT NOT NULL,
    created TEXT NOT NULL,
    revision INTEGER NOT NULL DEFAULT 0
) STRICT;
INSERT INTO "production" VALUES(1,'Saved by form 1','super8','18','2026-11-25T16:04:05Z',8);
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
INSERT INTO "roll" VALUES('R1','super8','18','not-known','project',NULL,3600,0,NULL,NULL,NULL,NULL);
INSERT INTO "roll" VALUES('R2','super8','18','not-known','project',NULL,54,0,NULL,NULL,NULL,NULL);
CREATE TABLE scan (
    roll TEXT NOT NULL REFERENCES roll (name) ON DELETE CASCADE DEFERRABLE INITIALLY DEFERRED,
    part INTEGER NOT NULL,
    paths TEXT NOT NULL,
    bytes INTEGER NOT NULL,
    blake3 TEXT NOT NULL,
    facts TEXT NOT NULL,
    PRIMARY KEY (roll, part)
) STRICT, WITHOUT ROWID;
INSERT INTO "scan" VALUES('R2',0,'["/films/R2.mkv"]',413961,'728f24c98d30661f18ad499aa146049082db8756ecfed0b3e3a262a1f24e5f44','{"frames":54,"rate":"18","width":320,"height":240,"coding":"ffv1 yuv420p"}');
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
INSERT INTO "take" VALUES('R2',0,54,NULL,NULL,'none','','','','','','roll_start',0,NULL);
CREATE INDEX journal_state ON journal (state, seq);
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('journal',5);
INSERT INTO "sqlite_sequence" VALUES('job',1);
COMMIT;
