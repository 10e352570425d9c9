//! FFmpeg missing, too old, odd, stuck; and the guard around every child.

use std::ffi::OsString;
use std::io::Write;
use std::ops::ControlFlow;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::time::Duration;

use onestrand_intake::process::{Launch, Limits};
use onestrand_intake::{Cancel, Ffmpeg, ReadOptions, Source, read};

use crate::media::{ffmpeg, folder, make, opened, pattern};

/// A little shell program. Written by a shell of its own: were it ever open
/// for writing in this process, a fork elsewhere could keep it from starting.
fn script(folder: &Path, name: &str, body: &str) -> PathBuf {
    let path = folder.join(name);
    let mut shell = Command::new("sh")
        .args(["-c", "cat > \"$1\" && chmod +x \"$1\"", "sh"])
        .arg(&path)
        .stdin(Stdio::piped())
        .spawn()
        .unwrap();
    shell
        .stdin
        .take()
        .unwrap()
        .write_all(format!("#!/bin/sh\n{body}\n").as_bytes())
        .unwrap();
    assert!(shell.wait().unwrap().success());
    path
}

#[test]
fn programs_are_found_and_judged() {
    let dir = folder();
    let probe = ffmpeg().ffprobe_path().to_owned();
    let judge = |program: &Path| {
        let error = Ffmpeg::at(program, &probe).unwrap_err();
        assert!(error.hint().len() > 20);
        error.code()
    };
    assert_eq!(
        judge(Path::new("no-such-program-here")),
        "intake.program_missing"
    );
    assert_eq!(judge(&dir.path().join("nothing")), "intake.program_missing");
    let old = script(dir.path(), "old", "echo 'ffmpeg version 4.4.2 Copyright'");
    assert_eq!(judge(&old), "intake.program_too_old");
    let odd = script(dir.path(), "odd", "echo hello; exit 0");
    assert_eq!(judge(&odd), "intake.program_unknown");
    let plain = dir.path().join("plain");
    std::fs::write(&plain, b"no program").unwrap();
    assert_eq!(judge(&plain), "intake.start_failed");
    let endless = script(dir.path(), "endless", "yes");
    assert_eq!(judge(&endless), "intake.limit_reached");
    let new = script(dir.path(), "new", "echo 'ffmpeg version 99.3 Copyright'");
    assert_eq!(
        Ffmpeg::at(&new, &probe).unwrap().version().to_string(),
        "99.3"
    );
}

#[test]
fn a_stuck_ffmpeg_is_given_up() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 2)),
        &dir.path().join("a.mkv"),
    );
    let body = "case \"$1\" in -version) echo 'ffmpeg version 6.0';; *) exec sleep 600;; esac";
    let stuck = script(dir.path(), "stuck", body);
    let stuck = Ffmpeg::at(&stuck, ffmpeg().ffprobe_path()).unwrap();
    let source = opened(&file);
    let options = ReadOptions {
        patience: Duration::from_millis(300),
        ..ReadOptions::default()
    };
    let error = read(&stuck, &source, &options, &Cancel::new(), &mut |_| {
        ControlFlow::Continue(())
    })
    .unwrap_err();
    assert_eq!(error.code(), "intake.stalled");
    let lever = Cancel::new();
    lever.cancel();
    let error = read(
        &stuck,
        &source,
        &ReadOptions::default(),
        &lever,
        &mut |_| ControlFlow::Continue(()),
    )
    .unwrap_err();
    assert_eq!(error.code(), "intake.cancelled");
}

#[test]
fn an_ffmpeg_that_fails_is_told_in_its_words() {
    let dir = folder();
    let file = make(
        &format!("{} -c:v ffv1", pattern("64x48", "18", 2)),
        &dir.path().join("a.mkv"),
    );
    let body = "case \"$1\" in -version) echo 'ffmpeg version 6.0';; *) echo '[error] out of luck' >&2; exit 3;; esac";
    let failing = Ffmpeg::at(
        &script(dir.path(), "failing", body),
        ffmpeg().ffprobe_path(),
    )
    .unwrap();
    let read_with = |ffmpeg: &Ffmpeg, source: &Source| {
        read(
            ffmpeg,
            source,
            &ReadOptions::default(),
            &Cancel::new(),
            &mut |_| ControlFlow::Continue(()),
        )
    };
    let error = read_with(&failing, &opened(&file)).unwrap_err();
    assert_eq!(error.code(), "intake.no_frames");
    assert!(error.to_string().contains("out of luck"), "{error}");
}

fn words(arguments: &[&str]) -> Vec<OsString> {
    arguments.iter().map(OsString::from).collect()
}

#[test]
fn a_dropped_child_is_dead() {
    let running = Launch::new(
        Path::new("/bin/sh"),
        words(&["-c", "exec sleep 600"]),
        Limits::pipes_only(),
    );
    let running = running.start().unwrap();
    let proc = PathBuf::from(format!("/proc/{}", running.id()));
    assert!(proc.exists());
    drop(running);
    assert!(!proc.exists());
}

#[test]
fn a_child_that_only_talks_can_write_no_file() {
    let dir = folder();
    let file = dir.path().join("written");
    let command = format!("read go; echo something > '{}'", file.display());
    let write = |limits: Limits| {
        let mut running = Launch::new(Path::new("/bin/sh"), words(&["-c", &command]), limits)
            .fed()
            .start()
            .unwrap();
        running.take_stdin().unwrap().write_all(b"go\n").unwrap();
        running.wait().unwrap().is_success()
    };
    assert!(!write(Limits::pipes_only()));
    assert_eq!(std::fs::read(&file).unwrap_or_default(), b"");
    assert!(write(Limits::writes_a_file()));
    assert_eq!(std::fs::read(&file).unwrap(), b"something\n");
}

#[test]
fn an_encoder_can_be_fed_and_its_failure_read() {
    let dir = folder();
    let out = dir.path().join("fed.mkv");
    let mut arguments = words(&[
        "-nostdin", "-v", "error", "-f", "rawvideo", "-pix_fmt", "gray", "-s", "64x48", "-i",
        "pipe:0",
    ]);
    arguments.extend(words(&["-c:v", "ffv1"]));
    arguments.push(out.clone().into());
    let mut running = Launch::new(
        ffmpeg().ffmpeg_path(),
        arguments.clone(),
        Limits::writes_a_file(),
    )
    .fed()
    .start()
    .unwrap();
    let mut stdin = running.take_stdin().unwrap();
    for level in 0..5_u8 {
        stdin.write_all(&vec![level; 64 * 48]).unwrap();
    }
    drop(stdin);
    let ended = running.wait().unwrap();
    assert!(ended.is_success(), "{ended:?}");
    assert_eq!(crate::media::bare_count(&out), 5);
    // The file exists now; without -y the encoder refuses.
    let ended = Launch::new(ffmpeg().ffmpeg_path(), arguments, Limits::writes_a_file())
        .start()
        .unwrap()
        .wait()
        .unwrap();
    assert!(!ended.is_success());
    let error = ended.into_error(7);
    assert_eq!(error.code(), "intake.child_failed");
    assert!(
        error.to_string().contains("after 7 frames") && error.to_string().contains("exists"),
        "{error}"
    );
}
