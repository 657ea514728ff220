//! `outlean serve --watch`: a lesson that changes is built again, and open pages come to know.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic, reason = "so a test fails")]

mod common;

use std::fs;
use std::io::{BufRead, BufReader, Read, Write};
use std::net::TcpStream;
use std::path::Path;
use std::process::{Child, Command, Stdio};
use std::time::{Duration, Instant};

/// A server that goes when the test does.
struct Served(Child);

impl Drop for Served {
    fn drop(&mut self) {
        let _ = self.0.kill();
        let _ = self.0.wait();
    }
}

fn get(host: &str, path: &str) -> String {
    let mut stream = TcpStream::connect(host).expect("it listens");
    write!(stream, "GET {path} HTTP/1.1\r\nHost: {host}\r\nAccept-Encoding: gzip\r\n\r\n")
        .expect("it takes a request");
    let mut text = Vec::new();
    stream.read_to_end(&mut text).expect("it answers");
    String::from_utf8_lossy(&text).into_owned()
}

fn body(answer: &str) -> &str {
    answer.split_once("\r\n\r\n").map_or("", |(_, body)| body)
}

#[test]
fn a_lesson_that_changes_is_built_again_and_a_wrong_one_leaves_the_pages_as_they_were() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../..");
    let place = Path::new(env!("CARGO_TARGET_TMPDIR")).join("watch");
    let _ = fs::remove_dir_all(&place);
    let lesson = place.join("lessons/01-one");
    fs::create_dir_all(&lesson).expect("the folder can be made");
    for file in ["lesson.md", "rig.toml"] {
        let text = fs::read_to_string(root.join("crate/outlean/new-lesson").join(file)).expect("it is there");
        fs::write(lesson.join(file), text.replace("NAME", "01-one")).expect("writable");
    }
    let program = common::program(&place);
    fs::create_dir_all(place.join("site")).expect("the folder can be made");
    let mut served = Served(
        Command::new(env!("CARGO_BIN_EXE_outlean"))
            .args(["serve", "--port", "0", "--no-open", "--watch", "--dir"])
            .arg(place.join("site"))
            .arg("--lessons")
            .arg(place.join("lessons"))
            .arg("--assets")
            .arg(root.join("www"))
            .arg("--program")
            .arg(&program)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .expect("the program runs"),
    );
    let stdout = served.0.stdout.take().expect("it is piped");
    let address =
        BufReader::new(stdout).lines().map_while(Result::ok).find(|line| line.starts_with("http://"));
    let address = address.expect("it says where");
    let host = address.trim_start_matches("http://").trim_end_matches('/');
    let page = get(host, "/01-one/");
    assert!(body(&page).ends_with("<script type=\"module\" src=\"/~watch.js\"></script>\n"), "{page}");
    assert!(get(host, "/~watch.js").contains("location.reload()"));
    let number = || body(&get(host, "/~build")).to_owned();
    assert_eq!(number(), "0");

    let text = fs::read_to_string(lesson.join("lesson.md")).expect("it is there");
    let waited = |until: &dyn Fn() -> bool| {
        let start = Instant::now();
        while !until() && start.elapsed() < Duration::from_secs(60) {
            std::thread::sleep(Duration::from_millis(100));
        }
        until()
    };
    fs::write(lesson.join("lesson.md"), format!("{text}\n<b>raw</b>\n")).expect("writable");
    std::thread::sleep(Duration::from_secs(2));
    assert_eq!(number(), "0", "a wrong lesson is no new build");
    fs::write(lesson.join("lesson.md"), format!("{text}\nA sentence that was not there.\n"))
        .expect("writable");
    assert!(waited(&|| number() != "0"), "the build is told");
    assert!(get(host, "/01-one/").contains("A sentence that was not there."));
}

#[test]
fn what_watching_needs_is_asked_for() {
    let output =
        Command::new(env!("CARGO_BIN_EXE_outlean")).args(["serve", "--dir", ".", "--watch"]).output();
    let output = output.expect("the program runs");
    assert_eq!(output.status.code(), Some(2));
    let said = String::from_utf8_lossy(&output.stderr);
    assert!(said.contains("--lessons") && said.contains("--assets") && said.contains("--program"), "{said}");
}
