//! A roll known on paper only is divided by hand, from its first frame on.

use onestrand_film::{Fps, Gauge};
use onestrand_production::{FilmChange, Meta, PaperRoll, Production, add_paper_roll};

fn break_at(production: &mut Production, frame: u32) -> Result<(), String> {
    let change = FilmChange::BreakAt {
        roll: "R1".to_owned(),
        frame,
    };
    let (words, act) = change.act(production).map_err(|e| e.to_string())?;
    production.act(&words, &act).map_err(|e| e.to_string())?;
    Ok(())
}

fn takes(production: &Production) -> Vec<(u32, u32)> {
    let takes = production.takes_of("R1").expect("takes");
    takes.iter().map(|t| (t.first, t.thrown)).collect()
}

#[test]
fn its_first_take_may_begin_at_its_first_frame() {
    let dir = tempfile::tempdir().expect("a folder");
    let meta = Meta {
        title: "The Ten-Past Boat".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    let mut production = Production::create(&dir.path().join("film"), &meta).expect("new");
    let paper = PaperRoll {
        roll: "R1".to_owned(),
        frames: 3600,
        gauge: None,
        base: "not-known".to_owned(),
        fit: "project".to_owned(),
        wind: None,
    };
    add_paper_roll(&mut production, &paper).expect("added");
    assert_eq!(takes(&production), []);
    break_at(&mut production, 0).expect("a take");
    assert_eq!(takes(&production), [(0, 3600)]);
    break_at(&mut production, 100).expect("a take");
    assert_eq!(takes(&production), [(0, 100), (100, 3600)]);
    let twice = break_at(&mut production, 0).expect_err("it begins there already");
    assert!(twice.contains("begins at R1·0 already"), "{twice}");
    let beyond = break_at(&mut production, 3600).expect_err("the roll has ended");
    assert!(beyond.contains("0 to 3599"), "{beyond}");
}
