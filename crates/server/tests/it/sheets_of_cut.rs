//! The sheets of a version: looked at, as a PDF, as a table; the change list too.

use serde_json::{Value, json};

use crate::served::{Bench, film};

/// Lays frames of a roll in, in front of all else of a version.
fn lay_in(bench: &Bench, cut: &str, revision: u64, (roll, first, after): (&str, u32, u32)) {
    let piece = json!({ "kind": "shot", "roll": roll, "in": first, "out": after });
    let change = json!({ "change": "insert", "at": 0, "piece": piece });
    let change = json!({ "film_change": "change_cut", "cut": cut, "cut_change": change });
    let key = format!("{cut} {roll} {first}");
    bench.change(&key, revision, &change).ok();
}

/// `v1` shows frames of R1; `v2` those of R2 in front of them.
fn two_versions() -> Bench {
    let bench = Bench::new();
    lay_in(&bench, "v1", 3, ("R1", 100, 200));
    let begin = json!({ "film_change": "new_cut", "cut": "v2", "from": "v1" });
    bench.change("second", 4, &begin).ok();
    lay_in(&bench, "v2", 5, ("R2", 40, 76));
    bench
}

fn look(bench: &Bench, rest: &str) -> Value {
    bench.window.get(&film(rest)).ok()
}

#[test]
fn a_change_list_is_looked_at_printed_and_kept_as_a_table() {
    let bench = two_versions();
    let list = look(&bench, "cuts/v2/sheets/change-list?from=v1");
    assert_eq!(list["file_name"], "v1-to-v2-change-list.pdf");
    assert_eq!(list["pages"], 1);
    assert_eq!(list["proved"], false, "a roll on paper is never proved");
    let page = bench
        .window
        .get(&film("cuts/v2/sheets/change-list/pages/1?from=v1"));
    assert_eq!(page.header("content-type"), Some("image/svg+xml"));
    let pdf = bench
        .window
        .get(&film("cuts/v2/sheets/change-list/pdf?from=v1"));
    assert!(pdf.body.starts_with(b"%PDF"));
    let table = bench
        .window
        .get(&film("cuts/v2/sheets/change-list/csv?from=v1"));
    let text = String::from_utf8(table.body).expect("text");
    let rows: Vec<&str> = text.lines().skip(1).collect();
    assert_eq!(rows, ["1,0+0,0,insert,36,R2,40,76,,0+0,0,36,"]);
}

#[test]
fn a_change_list_needs_two_versions_that_are_there() {
    let bench = two_versions();
    for (rest, status) in [
        ("cuts/v2/sheets/change-list", 400),
        ("cuts/v2/sheets/change-list/csv", 400),
        ("cuts/v2/sheets/change-list?from=v9", 404),
        ("cuts/v9/sheets/change-list/csv?from=v1", 404),
    ] {
        bench.window.get(&film(rest)).refused(status);
    }
}

#[test]
fn the_sheets_of_a_version_are_tables_but_for_the_pull_list() {
    let bench = two_versions();
    for (sheet, row) in [
        ("cutting-sheet", "R2,40,76"),
        ("lined-sheet", "1,R2,40,76,"),
    ] {
        let table = bench
            .window
            .get(&film(&format!("cuts/v2/sheets/{sheet}/csv")));
        let text = String::from_utf8(table.body).expect("text");
        assert!(text.contains(row), "{text}");
    }
    let pull = bench.window.get(&film("cuts/v2/sheets/pull-list/csv"));
    assert_eq!(pull.refused(422), "production.unfit");
    bench
        .window
        .get(&film("cuts/v2/sheets/no-sheet/csv"))
        .refused(404);
}

#[test]
fn a_version_that_is_refused_is_printed_for_notes_and_not_to_cut_by() {
    let bench = two_versions();
    // The same frames twice.
    lay_in(&bench, "v2", 6, ("R1", 150, 160));
    let page = bench
        .window
        .get(&film("cuts/v2/sheets/lined-sheet/pages/1"));
    assert_eq!(page.status, 200);
    for sheet in ["cutting-sheet", "pull-list", "change-list"] {
        let refused = bench
            .window
            .get(&film(&format!("cuts/v2/sheets/{sheet}?from=v1")));
        assert_eq!(refused.refused(409), "production.cut_refused", "{sheet}");
    }
    bench
        .window
        .get(&film("cuts/v2/sheets/lined-sheet/csv"))
        .is_table();
}
