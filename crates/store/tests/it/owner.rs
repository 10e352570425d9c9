//! One owner, a safe copy, and jobs that are known after a kill.

use onestrand_film::{Fps, Gauge};
use onestrand_store::{Act, JobKind, JobState, Meta, Production, StoreError};

pub(crate) fn meta() -> Meta {
    Meta {
        title: "A \"quoted\" film; DROP TABLE take".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    }
}

#[test]
fn a_production_is_made_once_and_owned_once() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    assert!(matches!(
        Production::open(&film),
        Err(StoreError::NoProduction { .. })
    ));
    let first = Production::create(&film, &meta()).expect("a new production");
    assert!(matches!(
        Production::open(&film),
        Err(StoreError::Owned { .. })
    ));
    assert!(matches!(
        Production::create(&film, &meta()),
        Err(StoreError::AlreadyThere { .. })
    ));
    drop(first);
    let again = Production::open(&film).expect("free again");
    assert_eq!(again.meta(), &meta());
    assert!(!film.join("production.db.part").exists());
}

#[test]
fn a_backup_is_made_while_it_is_open_and_can_be_opened() {
    let dir = tempfile::tempdir().expect("a folder");
    let film = dir.path().join("film");
    let mut production = Production::create(&film, &meta()).expect("a new production");
    let act = Act::PutCut {
        name: "v1".to_owned(),
        cut: None,
    };
    production.act("nothing at all", &act).expect("kept");
    let copy = dir.path().join("copy");
    std::fs::create_dir(&copy).expect("a folder");
    Production::backup(&film, &copy.join("production.db")).expect("a backup");
    let restored = Production::open(&copy).expect("the backup opens");
    assert_eq!(restored.meta(), &meta());
    assert_eq!(restored.revision().expect("a revision").number(), 1);
    let nowhere = dir.path().join("nowhere");
    assert!(Production::backup(&nowhere, &dir.path().join("x")).is_err());
    assert!(!dir.path().join("x").exists());
}

#[test]
fn a_damaged_file_is_told_and_left_alone() {
    let dir = tempfile::tempdir().expect("a folder");
    drop(Production::create(dir.path(), &meta()).expect("a new production"));
    let path = dir.path().join("production.db");
    let mut bytes = std::fs::read(&path).expect("the file");
    for byte in bytes.iter_mut().skip(4096).step_by(7) {
        *byte ^= 0xa5;
    }
    std::fs::write(&path, &bytes).expect("written");
    let problem = Production::open(dir.path()).expect_err("damaged");
    assert!(
        ["store.damaged", "store.sql"].contains(&problem.code()),
        "{problem}"
    );
    assert_eq!(std::fs::read(&path).expect("the file"), bytes);
}

#[test]
fn a_job_whose_process_ended_is_interrupted() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = Production::create(dir.path(), &meta()).expect("a new production");
    let left = production
        .begin_job(JobKind::Read, "read R1", "{}")
        .expect("kept");
    let done = production
        .begin_job(JobKind::Read, "read R2", "{}")
        .expect("kept");
    production.job_progress(left, 120, 3600).expect("kept");
    production
        .end_job(done, JobState::Done, None)
        .expect("kept");
    drop(production);
    let production = Production::open(dir.path()).expect("open again");
    let waiting = production.interrupted_jobs().expect("jobs");
    assert_eq!(waiting.len(), 1);
    assert_eq!(
        (waiting[0].id, waiting[0].done, waiting[0].total),
        (left, 120, 3600)
    );
    assert_eq!(production.job(done).expect("a job").state, JobState::Done);
}
