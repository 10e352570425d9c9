//! Titles kept with a film, reckoned, drawn frame by frame, and planned for.

use onestrand_film::{Fps, Gauge};
use onestrand_production::documents::{
    ContrastRemedyDocument, ShootingWords, StandWords, TitleDocument, TitleGroundWord,
    TitleKindWord, TitleWords,
};
use onestrand_production::{
    Cancel, FilmChange, Meta, PlanAsked, Production, Quiet, TitleChange, TitleChangeKind,
    TitleFilm, TitleSheetsAsked, keep_for_title, plan_film, title_card, title_sheets, title_stand,
    titles_document, write_example_script, write_example_titles,
};

fn film(dir: &std::path::Path) -> Production {
    let meta = Meta {
        title: "Titles".to_owned(),
        gauge: Gauge::Super8,
        speed: Fps::EIGHTEEN,
    };
    Production::create(dir, &meta).expect("new")
}

fn change(
    production: &mut Production,
    id: Option<i64>,
    after: Option<i64>,
    to: TitleChangeKind,
) -> Result<(), String> {
    let change = FilmChange::Titles(Box::new(TitleChange { id, after, to }));
    let (words, act) = change.act(production).map_err(|e| e.to_string())?;
    production.act(&words, &act).map_err(|e| e.to_string())?;
    Ok(())
}

fn title(words: &str) -> TitleWords {
    TitleWords {
        words: words.to_owned(),
        ..TitleWords::default()
    }
}

fn put(production: &mut Production, title: TitleWords) -> Result<(), String> {
    let title = Box::new(title);
    change(production, None, None, TitleChangeKind::Title { title })
}

fn names(production: &Production) -> Vec<String> {
    let all = titles_document(production).expect("titles").titles;
    all.into_iter().map(|t| t.title.name).collect()
}

fn all(production: &Production) -> Vec<TitleDocument> {
    titles_document(production).expect("titles").titles
}

/// Story 10 of the house, and what the first and second stories say the titles need.
#[test]
fn the_titles_of_the_boat_stand_as_long_as_the_story_says() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    assert!(write_example_titles(&mut production).expect("written"));
    assert!(!write_example_titles(&mut production).expect("there already"));
    let titles = all(&production);
    let said = |t: &TitleDocument| (t.words, t.hold, t.whole, t.of_roll);
    assert_eq!(said(&titles[0]), (12, 126, 180, 204));
    assert_eq!(said(&titles[1]), (2, 45, 81, 105));
    assert_eq!(titles_document(&production).expect("titles").of_roll, 309);
    // The first story: with a script that says how long they are, the plan is the same;
    // a title that stands longer, or is shot twice, takes more.
    write_example_script(&mut production).expect("written");
    let frames = |production: &Production| {
        let asked = PlanAsked::default();
        let plan = plan_film(production, &asked, &Cancel::new(), &mut Quiet);
        let plan = plan.expect("a plan");
        (plan.takes, plan.frames)
    };
    let (takes, before) = frames(&production);
    let mut longer = titles[1].title.clone();
    longer.shooting.after += 10;
    longer.shooting.takes = 2;
    let to = TitleChangeKind::Title {
        title: Box::new(longer),
    };
    change(&mut production, Some(titles[1].id), None, to).expect("kept");
    assert_eq!(frames(&production), (takes + 1, before + 10 + 115));
    // One that no setup is named after is planned for all the same.
    put(&mut production, title("Later that day")).expect("kept");
    assert_eq!(
        frames(&production),
        (takes + 2, before + 10 + 115 + 45 + 24)
    );
}

#[test]
fn titles_are_named_moved_and_taken_away_and_all_of_it_comes_back() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let main = TitleWords {
        kind: TitleKindWord::Main,
        ..title("The landing")
    };
    put(&mut production, main).expect("kept");
    put(&mut production, title("Later")).expect("kept");
    put(&mut production, title("Much later")).expect("kept");
    assert_eq!(names(&production), ["M", "T1", "T2"]);
    let ids: Vec<i64> = all(&production).iter().map(|t| t.id).collect();
    change(
        &mut production,
        Some(ids[2]),
        Some(0),
        TitleChangeKind::Moved,
    )
    .expect("moved");
    assert_eq!(names(&production), ["T2", "M", "T1"]);
    change(&mut production, Some(ids[0]), None, TitleChangeKind::Gone).expect("gone");
    assert_eq!(names(&production), ["T2", "T1"]);
    let taken = TitleWords {
        name: "t1".to_owned(),
        ..title("again")
    };
    let refused = put(&mut production, taken).expect_err("a name twice");
    assert!(refused.contains("T1"), "{refused}");
    production.undo().expect("undone");
    production.undo().expect("undone");
    assert_eq!(names(&production), ["M", "T1", "T2"]);
    // Room between two runs out when one is put between again and again.
    for n in 0..40 {
        let named = TitleWords {
            name: format!("B{n}"),
            ..title("between")
        };
        let to = TitleChangeKind::Title {
            title: Box::new(named),
        };
        change(&mut production, None, Some(ids[0]), to).expect("kept");
    }
    let now = names(&production);
    assert_eq!((now[0].as_str(), now[1].as_str()), ("M", "B39"));
    assert_eq!(now[40..], ["B0", "T1", "T2"]);
}

#[test]
fn a_card_in_the_cut_is_held_against_its_sheet() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    write_example_titles(&mut production).expect("written");
    let sheet = "position,roll,in,out,slate,join,note\n1,card,0,180,,,M\n2,card,0,40,,,E\n\
                 3,card,0,20,,,T9\n";
    let path = dir.path().join("v1.csv");
    std::fs::write(&path, sheet).expect("written");
    onestrand_production::import_cut(&mut production, &path, "v1", onestrand_cut::JoinKind::Tape)
        .expect("brought in");
    let document = titles_document(&production).expect("titles");
    let agrees = |t: &TitleDocument| t.stands.iter().map(|s| (s.position, s.agrees)).collect();
    let main: Vec<(usize, bool)> = agrees(&document.titles[0]);
    let end: Vec<(usize, bool)> = agrees(&document.titles[1]);
    assert_eq!((main, end), (vec![(1, true)], vec![(2, false)]));
    assert!(
        document.titles[1]
            .problems
            .iter()
            .any(|p| p.what.contains("40 frames") && p.what.contains("81")),
        "{:?}",
        document.titles[1].problems
    );
    assert_eq!(document.without_title, ["T9"]);
}

/// The mean light of a picture, 0 to 255.
fn mean(picture: &[u8]) -> f64 {
    picture.iter().map(|b| f64::from(*b)).sum::<f64>() / picture.len() as f64
}

#[test]
fn a_title_is_film_before_it_is_shot() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let mut words = title("The Ten-Past Boat");
    words.ground.light = 18;
    words.shooting = ShootingWords {
        hold: Some(20),
        before: 6,
        after: 4,
        fade_in: 3,
        letters_out: 2,
        ..ShootingWords::default()
    };
    let film = TitleFilm::draw(&production, &words, 320).expect("drawn");
    assert_eq!((film.size(), film.count()), ((320, 242), 30));
    let light: Vec<f64> = (0..30).map(|n| mean(&film.frame(n))).collect();
    assert!(light[0] < light[1] && light[1] < light[2] && light[2] < light[3]);
    assert!(
        (light[3] - light[5]).abs() < 1e-9,
        "the ground alone stands still"
    );
    assert!(light[6] > light[5], "the lettering drops");
    assert_eq!(film.frame(6), film.frame(25));
    assert!(light[26] < light[25] && light[27] < light[26] && light[28] < light[27]);
    assert_eq!(film.frame(28), film.frame(29));
    // The artwork does not darken when the cel with the lettering drops: its corner stays.
    assert_eq!(film.frame(5)[..300], film.frame(6)[..300]);
    let card = title_card(&production, &words).expect("a card");
    assert_eq!(card.frames, 30);
    let runs: Vec<(u32, u32)> = card.runs.iter().map(|r| (r.frames, r.picture)).collect();
    assert_eq!(
        runs,
        [
            (1, 0),
            (1, 1),
            (1, 2),
            (3, 3),
            (20, 6),
            (1, 26),
            (1, 27),
            (2, 3)
        ]
    );
    words.shooting.blank_cel = false;
    let bare = TitleFilm::draw(&production, &words, 320).expect("drawn");
    assert_ne!(
        bare.frame(5)[..300],
        bare.frame(6)[..300],
        "without it, it does"
    );
}

#[test]
fn a_crawl_comes_from_below_and_goes_out_at_the_top() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let mut words = title("Ida\nTom\nthe ferryman\nand the school on the landing");
    words.shooting.crawl = 200;
    let film = TitleFilm::draw(&production, &words, 160).expect("drawn");
    let (_, high) = film.size();
    let rows = |n: u32| {
        let frame = film.frame(n);
        let lit = |row: &[u8]| row.iter().any(|b| *b > 60);
        let rows: Vec<usize> = (0..high as usize)
            .filter(|y| lit(&frame[y * 480..(y + 1) * 480]))
            .collect();
        (rows.first().copied(), rows.last().copied())
    };
    assert_eq!(rows(0), (None, None), "nothing is in yet");
    let quarter = film.count() / 4;
    assert!(rows(quarter).0.expect("some") > rows(quarter + 5).0.expect("some"));
    assert_eq!(rows(film.count() - 1), (None, None), "nothing is left");
}

#[test]
fn what_cannot_be_lettered_or_laid_under_is_told_and_nothing_falls() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let told = |words: TitleWords| {
        let card = title_card(&production, &words).expect("told, not fallen");
        card.problems
            .into_iter()
            .map(|p| p.what)
            .collect::<Vec<_>>()
    };
    assert!(told(title(""))[0].contains("no words"));
    let long = vec!["word"; 400].join(" ");
    assert!(told(title(&long)).iter().any(|p| p.contains("400 words")));
    let wide = "Wort".repeat(60);
    assert!(!told(title(&wide)).is_empty());
    assert!(keep_for_title(&production, b"GIF89a").is_err());
    assert!(keep_for_title(&production, b"").is_err());
    // It begins like a picture, and ends too early.
    let cut_off = keep_for_title(&production, &[0xFF, 0xD8, 0xFF, 0xE0, 0, 16]).expect("kept");
    let mut corrupt = title("Over a picture");
    corrupt.ground.kind = TitleGroundWord::Picture;
    corrupt.ground.picture = cut_off;
    assert!(
        told(corrupt.clone()).iter().any(|p| p.contains("picture")),
        "{:?}",
        told(corrupt)
    );
    let mut face = title("Another face");
    face.lettering.face = keep_for_title(&production, b"OTTO and nothing more").expect("kept");
    assert!(told(face).iter().any(|p| p.contains("font")));
    let mut lost = title("Over a lost frame");
    lost.ground.kind = TitleGroundWord::Frame;
    lost.ground.frame = "R1·5".to_owned();
    assert!(told(lost).iter().any(|p| p.contains("R1")));
}

#[test]
fn every_sheet_of_the_titles_is_printed_and_a_cel_is_as_large_as_the_field() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let asked = TitleSheetsAsked::default();
    let out = dir.path().join("paper");
    let print = |production: &Production, only: Option<&str>, asked: &TitleSheetsAsked| {
        let printed = title_sheets(production, &out, only, asked, &Cancel::new(), &mut Quiet);
        printed.map(|printed| {
            let files = printed.files.into_iter();
            let name = |path: String| path.rsplit('/').next().expect("a name").to_owned();
            files.map(|file| name(file.path)).collect::<Vec<_>>()
        })
    };
    assert!(
        print(&production, Some("exposure-sheet"), &asked)
            .expect("none")
            .is_empty()
    );
    write_example_titles(&mut production).expect("written");
    let all = print(&production, None, &asked).expect("printed");
    assert_eq!(
        all,
        [
            "title-list.pdf",
            "stand-drawing.pdf",
            "field-chart.pdf",
            "field-chart.svg",
            "exposure-sheet-M.pdf",
            "cel-M.pdf",
            "cel-M.svg",
            "exposure-sheet-E.pdf",
            "cel-E.pdf",
            "cel-E.svg",
        ]
    );
    // The page with its crosses; the field of 240 by 166.2 mm lies in its middle.
    let svg = std::fs::read_to_string(out.join("cel-M.svg")).expect("a drawing");
    assert!(svg.contains("width=\"297.000mm\""), "{}", &svg[..200]);
    assert!(svg.contains("height=\"210.000mm\""), "{}", &svg[..200]);
    assert!(svg.contains("translate(28.500 21.891)"), "{}", &svg[..900]);
    let chart = std::fs::read_to_string(out.join("field-chart.svg")).expect("a chart");
    assert!(chart.starts_with("<svg"));
    let one = TitleSheetsAsked {
        title: Some("e".to_owned()),
        reversed: Some(true),
        ..asked.clone()
    };
    let cels = print(&production, Some("cel"), &one).expect("printed");
    assert_eq!(cels, ["cel-E.pdf", "cel-E.svg"]);
    let svg = std::fs::read_to_string(out.join("cel-E.svg")).expect("a drawing");
    assert!(svg.contains("fill=\"#000000\"") && svg.contains("fill=\"#ffffff\""));
    assert!(print(&production, Some("poster"), &asked).is_err());
    let none = TitleSheetsAsked {
        title: Some("T9".to_owned()),
        ..asked
    };
    assert!(print(&production, None, &none).is_err());
}

#[test]
fn a_lens_that_cannot_focus_so_near_is_told_and_the_close_up_lens_with_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let mut production = film(dir.path());
    let stand = StandWords {
        closest: "1500".to_owned(),
        ..StandWords::default()
    };
    change(
        &mut production,
        None,
        None,
        TitleChangeKind::Stand {
            stand: Box::new(stand),
        },
    )
    .expect("kept");
    let document = title_stand(&production).expect("told, not fallen");
    assert!(document.field.is_none());
    let problem = &document.problems[0];
    assert!(problem.refused && problem.next.contains('+'), "{problem:?}");
    // Cards are drawn all the same.
    TitleFilm::draw(&production, &title("The river"), 160).expect("drawn");
    let wrong = StandWords {
        width: "wide".to_owned(),
        ..StandWords::default()
    };
    let refused = change(
        &mut production,
        None,
        None,
        TitleChangeKind::Stand {
            stand: Box::new(wrong),
        },
    );
    assert!(refused.expect_err("no number").contains("wide"));
}

#[test]
fn a_crawl_is_measured_against_what_it_goes_over() {
    let dir = tempfile::tempdir().expect("a folder");
    let production = film(dir.path());
    let mut words = title("Ida\nTom\nthe ferryman\nand the school on the landing");
    words.shooting.crawl = 50;
    let measured = |words: &TitleWords| {
        let card = title_card(&production, words).expect("a card");
        card.contrast.expect("measured")
    };
    let on_black = measured(&words);
    assert!(on_black.enough, "{on_black:?}");
    words.ground.light = 70;
    let on_light = measured(&words);
    assert!(
        !on_light.enough && on_light.least_tenths < 20,
        "{on_light:?}"
    );
    // What is offered is enough when it is done; standing elsewhere is not offered.
    assert!(!on_light.remedies.is_empty(), "{on_light:?}");
    for one in on_light.remedies {
        let mut helped = words.clone();
        match one.remedy {
            ContrastRemedyDocument::Plate => helped.lettering.plate = true,
            ContrastRemedyDocument::OtherInk => helped.lettering.dark = true,
            ContrastRemedyDocument::Darken { tenths } => helped.ground.darker = tenths,
            ContrastRemedyDocument::Move { .. } => panic!("a crawl stands nowhere"),
        }
        assert!(measured(&helped).enough, "{}", one.words);
    }
}
