//! The crate from outside: what a template can and cannot do.

use onestrand_typeset::{Job, TypesetError, pdf, print, typeset};

/// The remarks of a refused job in one text.
fn refusal(job: Job) -> String {
    let refused = pdf(job).expect_err("the job must be refused");
    assert_eq!(refused.code(), "typeset.template");
    assert!(!refused.hint().is_empty());
    refused.to_string()
}

#[test]
fn the_same_job_gives_the_same_bytes() {
    let job = Job::new(
        "a.typ",
        "#set text(font: \"Bitter\")\n= Pull list\n#lorem(300)",
    );
    let first = pdf(job.clone()).expect("a sound template");
    let second = pdf(job).expect("a sound template");
    assert!(first == second, "two runs of one job differ");
}

#[test]
fn the_pages_to_look_at_are_those_of_the_same_pdf() {
    let job = Job::new(
        "a.typ",
        "#set text(font: \"Bitter\")\n= Pull list\n#lorem(1500)",
    );
    let plain = typeset(job.clone()).expect("a sound template");
    let first = print(job.clone()).expect("a sound template");
    let second = print(job).expect("a sound template");
    assert!(first.pdf == plain.pdf, "looking changes the PDF");
    assert_eq!(first.pages.len(), plain.pages);
    assert!(plain.pages > 1);
    assert!(first.pages.iter().all(|page| page.starts_with("<svg ")));
    assert!(first.pages == second.pages, "two runs of one job differ");
    assert_ne!(first.pages[0], first.pages[1]);
}

#[test]
fn what_cannot_be_set_has_no_pages() {
    let refused = print(Job::new("a.typ", "#image(\"cat.png\")")).expect_err("no such picture");
    assert_eq!(refused.code(), "typeset.template");
}

#[test]
fn a_template_imports_another_and_reads_the_data() {
    let job = Job::new(
        "main.typ",
        "#import \"form.typ\": twice\n#for n in json(\"data.json\").counts [#twice(n)#pagebreak(weak: true)]",
    )
    .template("form.typ", "#let twice(n) = [#(2 * n)]")
    .data(br#"{"counts": [1, 2, 3]}"#.to_vec());
    let done = typeset(job).expect("both templates are there");
    assert_eq!(done.pages, 3);
}

#[test]
fn an_error_names_template_line_and_column() {
    let said = refusal(
        Job::new("main.typ", "#import \"form.typ\": *\n#broken()")
            .template("form.typ", "#let broken() = {\n  panic(\"no such row\")\n}"),
    );
    assert!(said.contains("form.typ:2:3"), "{said}");
    assert!(said.contains("no such row"), "{said}");
}

#[test]
fn unsound_data_are_an_error_and_not_a_crash() {
    let said = refusal(Job::new("main.typ", "#json(\"data.json\")").data(b"{\"a\": ".to_vec()));
    assert!(said.contains("data.json"), "{said}");
}

#[test]
fn files_of_the_machine_are_out_of_reach() {
    for wanted in ["/etc/hostname", "../../Cargo.toml", "Cargo.toml"] {
        let text: &'static str = Box::leak(format!("#read(\"{wanted}\")").into_boxed_str());
        refusal(Job::new("main.typ", text));
    }
}

#[test]
fn packages_are_out_of_reach() {
    let said = refusal(Job::new(
        "main.typ",
        "#import \"@preview/example:0.1.0\": *",
    ));
    assert!(said.contains("main.typ:1:"), "{said}");
}

#[test]
fn there_is_no_clock() {
    refusal(Job::new("main.typ", "#datetime.today().display()"));
}

#[test]
fn data_are_never_read_as_template() {
    let job = Job::new("main.typ", "#json(\"data.json\").title")
        .data(br##"{"title": "#panic() $x$ *bold* \\ <b>"}"##.to_vec());
    assert!(pdf(job).is_ok());
}

#[test]
fn a_face_that_is_not_built_in_is_a_warning() {
    let job = Job::new("main.typ", "#set text(font: \"Nowhere Sans\")\nword");
    let done = typeset(job).expect("it is set in another face");
    assert!(
        done.warnings
            .iter()
            .any(|said| said.text.contains("nowhere sans")),
        "{:?}",
        done.warnings
    );
}

#[test]
fn a_damaged_picture_is_an_error_with_its_place() {
    let mut job = Job::new("main.typ", "#image(\"picture-0.jpg\")");
    let name = job
        .picture(vec![0xff, 0xd8, 0xff, 0xe0, 0, 0])
        .expect("it begins like a JPEG");
    assert_eq!(name.as_str(), "picture-0.jpg");
    let refused = pdf(job).expect_err("there is no picture in it");
    let TypesetError::Template { remarks } = refused else {
        panic!("another error: {refused}");
    };
    assert!(remarks.iter().any(|one| one.place.is_some()), "{remarks:?}");
}
