//! Writing into a rig file loses nothing: every comment stays, and every byte that is not the value written.

#![expect(clippy::expect_used, reason = "a test that cannot read its files has failed")]

use outlean_rigfile::{EditError, JOB, choices, edit, fields, guys_in, read, with_guy, without_guy};
use proptest::prelude::*;
use std::fs;
use std::path::Path;
use toml::{Table, Value};

/// Rig files as people write them: headings, tables in braces, keys with dots.
fn files() -> Vec<String> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/right");
    let mut files: Vec<_> = fs::read_dir(folder)
        .expect("the folder is there")
        .map(|entry| fs::read_to_string(entry.expect("readable").path()).expect("readable"))
        .collect();
    files.sort();
    files.push(
        "lean = '1 in 3'\nlegs = {length = '4.6 m', lashing_below_tip = '0.5 m', weight = '4.1 kg/m'}\n\
         feet = { spread = '1.4 m' }\nload.mass = '260 kg'\nline = { path = 'hung' }\nguy = [{ setback = '6 m' }]\n"
            .to_owned(),
    );
    files.push("lean = \"18 deg\"\n[legs.left]\nlength = \"4 m\"\n[legs.right]\nlength = \"4 m\"\n[[guy]]\n[[guy]]\nsetback = \"6 m\"".to_owned());
    files
}

/// A file with a comment of its own on every line and between lines, and with either end of lines.
fn commented(text: &str, crlf: bool) -> String {
    let mut all = String::new();
    for (number, line) in text.lines().enumerate() {
        let beside = if line.trim().is_empty() { "" } else { "  " };
        all += &format!("{line}{beside}# [{number}] = \"x\" é\n");
        if number % 3 == 0 {
            all += &format!("\t# alone, {number}\n\n");
        }
    }
    if crlf { all.replace('\n', "\r\n") } else { all }
}

fn comments(text: &str) -> Vec<&str> {
    text.lines().filter_map(comment).collect()
}

/// The comment of a line; what looks like one within quotes is none.
fn comment(line: &str) -> Option<&str> {
    let (mut quote, mut escaped) = (None, false);
    for (at, letter) in line.char_indices() {
        match (quote, letter) {
            _ if escaped => escaped = false,
            (Some('"'), '\\') => escaped = true,
            (Some(open), letter) if letter == open => quote = None,
            (None, '"' | '\'') => quote = Some(letter),
            (None, '#') => return line.get(at..),
            _ => {}
        }
    }
    None
}

/// The value at a key, as another reader of TOML finds it.
fn at<'a>(table: &'a Table, key: &str) -> Option<&'a Value> {
    let mut names = key.split('.');
    let mut value = table.get(names.next()?)?;
    for name in names {
        value = match value {
            Value::Array(all) => all.get(name.parse::<usize>().ok()?)?,
            value => value.get(name)?,
        };
    }
    Some(value)
}

/// Every key of a rig file whose guys are the first two.
fn keys() -> Vec<String> {
    let fields = fields().map(|spec| spec.key).chain(choices().map(|spec| spec.key));
    let all = fields.chain(JOB.iter().map(|field| field.key)).chain(["title", "guy.N.name", "plan.place"]);
    all.flat_map(|key| {
        let guys = if key.starts_with("guy.") { 2 } else { 1 };
        (0..guys).map(move |guy: u8| key.replace('N', &guy.to_string()))
    })
    .collect()
}

fn plain(value: &Value) -> String {
    value.as_str().map_or_else(|| value.to_string(), str::to_owned)
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(600))]

    #[test]
    fn one_value_changes_and_no_other_byte(
        file in 0..files().len(), key in 0..keys().len(), crlf in any::<bool>(), to in "[ -~é½]{0,12}",
    ) {
        let (text, key) = (commented(&files()[file], crlf), &keys()[key]);
        let before: Table = text.parse().expect("it is TOML");
        let made = edit(&text, key, Some(&to));
        // Guys are added one after the other.
        if key.starts_with("guy.1") && before.get("guy").is_none() {
            prop_assert_eq!(made, Err(EditError::NoPlace));
            return Ok(());
        }
        let made = made.map_err(|why| TestCaseError::fail(format!("{key} in\n{text}{why:?}")))?;
        let after: Table = made.parse().map_err(|why| TestCaseError::fail(format!("{why}\n{made}")))?;
        let yes = ["yes", "true"].contains(&to.trim());
        let wanted = if choices().any(|spec| key.ends_with(spec.key) && spec.options.contains(&"yes")) && yes {
            "true".to_owned()
        } else {
            to.clone()
        };
        prop_assert_eq!(at(&after, key).map(plain), Some(wanted));
        prop_assert_eq!(comments(&made), comments(&text));
        if let Some(old) = at(&before, key) {
            // What was before the value and after it is there to the byte.
            let old_lines: Vec<&str> = text.split('\n').collect();
            let new_lines: Vec<&str> = made.split('\n').collect();
            prop_assert_eq!(old_lines.len(), new_lines.len());
            let differ: Vec<_> = old_lines.iter().zip(&new_lines).filter(|(a, b)| a != b).collect();
            prop_assert!(differ.len() <= 1, "{:?}", differ);
            let back = edit(&made, key, Some(&plain(old))).expect("it is there");
            prop_assert_eq!(back.len().abs_diff(text.len()) <= 2, true, "{} beside {}", back, text);
            prop_assert_eq!(comments(&back), comments(&text));
        } else {
            // What was added can be taken out again, and then it is as it was.
            let start = made.bytes().zip(text.bytes()).take_while(|(a, b)| a == b).count();
            let end = text.len() - start;
            prop_assert_eq!(made.get(made.len() - end..).map(str::len), Some(end));
            prop_assert!(text.ends_with(made.get(made.len() - end..).unwrap_or_default()));
            let back = edit(&made, key, None).expect("it is there");
            prop_assert_eq!(comments(&back), comments(&text));
            // Its heading stays, where it brought one.
            if !made.get(start..made.len() - end).unwrap_or_default().contains(['[', '{']) {
                prop_assert_eq!(back, text);
            }
        }
    }

    #[test]
    fn what_is_taken_out_takes_no_comment_with_it(file in 0..files().len(), key in 0..keys().len(), crlf in any::<bool>()) {
        let (text, key) = (commented(&files()[file], crlf), &keys()[key]);
        let before: Table = text.parse().expect("it is TOML");
        let made = edit(&text, key, None).map_err(|why| TestCaseError::fail(format!("{key} in\n{text}{why:?}")))?;
        let after: Table = made.parse().map_err(|why| TestCaseError::fail(format!("{why}\n{made}")))?;
        prop_assert_eq!(at(&after, key), None);
        prop_assert_eq!(comments(&made), comments(&text));
        if at(&before, key).is_none() {
            prop_assert_eq!(made, text);
        }
    }

    #[test]
    fn nothing_panics(text in "[a-z.\\[\\]{}='\", #\n]{0,60}", key in "(guy\\.[0-9]\\.)?[a-z_.]{0,20}") {
        let _ = edit(&text, &key, Some("4 m"));
        let _ = edit(&text, &key, None);
    }
}

#[test]
fn a_rig_that_is_written_into_is_read_with_that_value_and_no_other() {
    let text = fs::read_to_string(Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/right/quarry-lip.toml"))
        .expect("readable");
    let (before, _) = read(&text);
    let mut wanted = before.expect("a rig");
    let made = edit(&text, "feet.friction", Some("0.45")).expect("there is a place");
    wanted.rig.feet.friction = Some(0.45);
    assert_eq!(read(&made).0, Some(wanted));
}

/// The edge taken out key by key leaves its heading and its comments, and there is none any more.
#[test]
fn a_table_whose_keys_are_all_taken_out_says_nothing() {
    let text = commented(
        "lean = '19 deg'\nlegs = { length = '4.6 m', lashing_below_tip = '0.5 m', weight = '4.1 kg/m' }\n\
         feet = { spread = '1.4 m' }\nload = { mass = '260 kg' }\nline = { path = 'hung' }\n[edge]\nahead = '0.6 m'\nlevel = '0.2 m'\n",
        false,
    );
    assert!(read(&text).0.is_some_and(|file| file.rig.edge.is_some()));
    let without = ["edge.ahead", "edge.level"]
        .iter()
        .fold(text.clone(), |text, key| edit(&text, key, None).expect("it can go"));
    let (file, problems) = read(&without);
    assert!(problems.is_empty() && file.is_some_and(|file| file.rig.edge.is_none()), "{without}");
    assert_eq!(comments(&without), comments(&text));
    let again =
        edit(&edit(&without, "edge.level", Some("0.2 m")).expect("there"), "edge.ahead", Some("0.6 m"));
    assert!(read(&again.expect("there")).0.is_some_and(|file| file.rig.edge.is_some()));
}

#[test]
fn what_cannot_be_written_is_refused() {
    assert_eq!(edit("lean = '3 deg'", "leen", Some("1 m")), Err(EditError::NoSuchKey));
    assert_eq!(edit("lean = '3 deg'", "guy.9.setback", Some("1 m")), Err(EditError::NoSuchKey));
    assert_eq!(edit("lean = ", "lean", Some("1 m")), Err(EditError::NotToml));
    assert_eq!(edit("legs = 3", "legs.length", Some("1 m")), Err(EditError::NoPlace));
    assert_eq!(edit("", "guy.1.setback", Some("1 m")), Err(EditError::NoPlace));
}

/// A number stays bare and quotes stay as they are; a flag is one.
#[test]
fn it_is_written_as_it_was() {
    let text = "[line]\nparts = 3\nsling = '0.4 m'\n[feet]\npinned = false\n";
    assert_eq!(edit(text, "line.parts", Some("4")).expect("there"), text.replace('3', "4"));
    assert_eq!(edit(text, "line.sling", Some("0.5 m")).expect("there"), text.replace("0.4", "0.5"));
    assert_eq!(edit(text, "feet.pinned", Some("yes")).expect("there"), text.replace("false", "true"));
    assert_eq!(edit(text, "line.sling", Some("it's")).expect("there"), text.replace("'0.4 m'", "\"it's\""));
}

/// What is read of every guy, by the name that stands for all of them.
fn guys(text: &str) -> Vec<Value> {
    let table: Table = text.parse().expect("it is TOML");
    table.get("guy").and_then(Value::as_array).cloned().unwrap_or_default()
}

/// The lines of a text that hold a comment of their own.
fn alone(text: &str) -> Vec<&str> {
    text.lines().filter(|line| line.trim_start().starts_with('#')).collect()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    #[test]
    fn a_guy_that_is_added_is_taken_out_again_without_a_trace(
        file in 0..files().len(), crlf in any::<bool>(), newline in any::<bool>(),
    ) {
        let text = commented(&files()[file], crlf);
        let text = if newline { text } else { text.trim_end().to_owned() };
        let (more, number) = with_guy(&text).expect("there is room");
        prop_assert_eq!(number, guys(&text).len());
        prop_assert_eq!(guys(&more).len(), number + 1);
        prop_assert!(comments(&more) == comments(&text));
        // What is said of it afterwards goes with it.
        let said = edit(&more, &format!("guy.{number}.ahead"), Some("5 m")).expect("there is a place");
        prop_assert_eq!(guys(&said).last().and_then(|guy| guy.get("ahead")).map(plain), Some("5 m".to_owned()));
        for more in [more, said] {
            let back = without_guy(&more, number).expect("it is there");
            prop_assert_eq!(back.trim_end(), text.trim_end());
        }
    }

    #[test]
    fn a_guy_that_is_taken_out_takes_no_other_with_it(file in 0..files().len(), number in 0_usize..3, crlf in any::<bool>()) {
        let text = commented(&files()[file], crlf);
        let before = guys(&text);
        let made = without_guy(&text, number);
        if number >= before.len() {
            prop_assert_eq!(made, Err(EditError::NoPlace));
            return Ok(());
        }
        let made = made.expect("it is there");
        let mut left = before;
        left.remove(number);
        prop_assert_eq!(guys(&made), left);
        let mut others: Table = text.parse().expect("it is TOML");
        let mut rest: Table = made.parse().expect("it is TOML");
        others.remove("guy");
        rest.remove("guy");
        prop_assert_eq!(rest, others);
        // Every byte before it and after it is there.
        let start = made.bytes().zip(text.bytes()).take_while(|(a, b)| a == b).count();
        prop_assert!(text.ends_with(made.get(start..).expect("between letters")), "{}", made);
    }

    #[test]
    fn guys_never_panic(text in "[a-z.\\[\\]{}='\", #\n]{0,60}|\\[\\[guy\\]\\][a-z.\\[\\]{}='\", #\n]{0,40}", number in 0_usize..9) {
        let _ = (with_guy(&text), without_guy(&text, number));
    }
}

/// Comments on lines of their own before a guy and after it stay, one beside its values goes with it.
#[test]
fn a_guy_goes_with_what_is_written_beside_it_alone() {
    let text = "lean = '18 deg'\n# the aft one\n[[guy]] # to the oak\nsetback = '6 m' # taped\n\n# the fore one\n[[guy]]\nahead = '5 m'\n# and the rest\n[limits]\n";
    let made = without_guy(text, 0).expect("it is there");
    assert_eq!(
        made,
        "lean = '18 deg'\n# the aft one\n\n# the fore one\n[[guy]]\nahead = '5 m'\n# and the rest\n[limits]\n"
    );
    assert_eq!(alone(&made), alone(text));
}

#[test]
fn guys_in_braces_go_and_come_too() {
    let text = "guy = [\n  { setback = '6 m' }, # aft\n  { ahead = '5 m' },\n]\n";
    assert_eq!(without_guy(text, 0), Ok("guy = [\n  # aft\n  { ahead = '5 m' },\n]\n".to_owned()));
    assert_eq!(with_guy("guy = []\n"), Ok(("guy = [ { }]\n".to_owned(), 0)));
    assert_eq!(
        with_guy("guy = [{ setback = '6 m' }]"),
        Ok(("guy = [{ setback = '6 m' }, { }]".to_owned(), 1))
    );
}

#[test]
fn there_are_no_more_guys_than_a_rig_may_have() {
    let six = "[[guy]]\nsetback = '6 m'\n".repeat(6);
    assert_eq!(with_guy(&six), Err(EditError::NoPlace));
    // One too many is taken out all the same.
    let seven = format!("{six}[[guy]]\nahead = '5 m'\n");
    assert_eq!(
        without_guy(&seven, 0),
        Ok(format!("{}[[guy]]\nahead = '5 m'\n", "[[guy]]\nsetback = '6 m'\n".repeat(5)))
    );
    assert_eq!(without_guy(&seven, 6), Ok(six));
    assert_eq!(without_guy("guy = 3", 0), Err(EditError::NoPlace));
    assert_eq!(with_guy("guy = 3"), Err(EditError::NoPlace));
    assert_eq!(with_guy("guy = "), Err(EditError::NotToml));
    assert_eq!(guys_in("[[guy]]\n"), 1);
}
