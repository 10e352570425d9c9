//! Logs that others have written, and sheets about rolls as tables.

use serde_json::{Value, json};

use crate::served::{Answer, Bench, film};

const LOG: &str =
    "roll,slate,take,in,out,action\nR1,3,1,0,100,she waits\nR1,3,2,100,250,once more\n";

fn bring(bench: &Bench, log: &str, query: &str) -> Answer {
    let target = film(&format!("log?name=log.csv{query}"));
    let request = bench.window.request("POST", &target);
    request.body("text/csv", log.as_bytes()).send()
}

fn takes(bench: &Bench) -> Vec<Value> {
    let log = bench.window.get(&film("rolls/R1")).ok();
    log["takes"].as_array().expect("takes").clone()
}

#[test]
fn a_log_is_looked_at_first_and_brought_in_when_it_is_kept() {
    let bench = Bench::new();
    let would = bring(&bench, LOG, "").ok();
    assert_eq!(
        (&would["takes"], &would["rolls"]),
        (&json!(2), &json!(["R1"]))
    );
    assert_eq!(takes(&bench).len(), 0, "nothing is kept by looking");
    bring(&bench, LOG, "&keep=true").ok();
    let kept = takes(&bench);
    let slates: Vec<_> = kept
        .iter()
        .map(|t| (&t["setup"], &t["take"], &t["in"]))
        .collect();
    let three = json!("3");
    assert_eq!(
        slates,
        [
            (&three, &json!(1), &json!(0)),
            (&three, &json!(2), &json!(100))
        ]
    );
}

#[test]
fn every_problem_of_a_log_is_told_at_once_and_nothing_is_kept() {
    let bench = Bench::new();
    let bad = "roll,slate,take,in,out\nR9,3,1,0,10\nR1,3,1,50,40\nR1,3,x,60,70\n";
    let refused = bring(&bench, bad, "&keep=true");
    assert_eq!(refused.refused(422), "production.import");
    let problems = refused.document()["details"]["problems"].clone();
    let lines: Vec<u64> = problems
        .as_array()
        .expect("problems")
        .iter()
        .map(|p| p["line"].as_u64().expect("a line"))
        .collect();
    assert_eq!(lines, [2, 3, 4]);
    assert_eq!(takes(&bench).len(), 0);
    assert_eq!(
        bring(&bench, LOG, "&counted=miles").refused(400),
        "server.unreadable"
    );
}

#[test]
fn a_sheet_about_rolls_is_a_table_too_and_comes_in_again_as_it_went_out() {
    let bench = Bench::new();
    bring(&bench, LOG, "&keep=true").ok();
    let before = takes(&bench);
    let table = bench.window.get(&film("sheets/log-sheet/csv?roll=R1"));
    table.is_table();
    let text = String::from_utf8(table.body.clone()).expect("text");
    assert!(text.contains("she waits"), "{text}");
    bring(&bench, &text, "&keep=true").ok();
    let slates =
        |takes: &[Value]| -> Vec<Value> { takes.iter().map(|t| t["action"].clone()).collect() };
    assert_eq!(slates(&takes(&bench)), slates(&before));
    for sheet in ["trim-labels", "inspection-sheet", "scan-sheet"] {
        bench
            .window
            .get(&film(&format!("sheets/{sheet}/csv")))
            .is_table();
    }
    bench.window.get(&film("sheets/no-sheet/csv")).refused(404);
}

impl Answer {
    pub(crate) fn is_table(&self) {
        assert_eq!(self.status, 200);
        assert_eq!(self.header("content-type"), Some("text/csv; charset=utf-8"));
        let named = self.header("content-disposition").unwrap_or_default();
        assert!(named.contains(".csv"), "{named}");
    }
}
