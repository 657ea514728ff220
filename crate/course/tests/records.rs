//! Records: read, migrated, put together, written, whatever is in them.

use outlean_course::{
    AllowedInRecord as Allowed, Aside, Attempt, Cell, Gathered, Learner, RECORD_BYTES, Reason, Record, Score,
    class, class_csv, csv, read_record,
};
use proptest::prelude::*;

fn attempt(time: u64, question: &str, seed: u64, share: f64) -> Attempt {
    Attempt {
        time,
        lesson: "01-lean".into(),
        question: question.into(),
        lesson_version: "5f".into(),
        seed,
        response: "2.7 kN".into(),
        mark: Score { share, verdict: if share >= 1.0 { "right" } else { "other" }.into() },
        seconds: Some(40),
        hints: None,
        objective: "Estimate a leg.".into(),
    }
}

fn record(attempts: Vec<Attempt>) -> Record {
    Record::new(Learner("Ines".into()), attempts, Vec::new())
}

#[test]
fn a_file_of_the_first_version_is_brought_up_and_nothing_invented() {
    let read = read_record(include_str!("records/first-version.json")).unwrap();
    assert_eq!(read.learner, Learner("Ines B.".into()));
    assert_eq!(read.attempts.len(), 2);
    let [right, wrong] = [&read.attempts[0], &read.attempts[1]];
    assert_eq!(right.mark, Score { share: 1.0, verdict: "right".into() });
    assert_eq!(wrong.mark, Score { share: 0.0, verdict: "other".into() });
    for each in &read.attempts {
        assert_eq!((each.seconds, each.hints), (None, None));
        assert_eq!((each.objective.as_str(), each.lesson_version.as_str()), ("", ""));
    }
    let [aside] = read.aside.as_slice() else { panic!("{:?}", read.aside) };
    assert_eq!(aside.why, Reason::new("right", "\"maybe\"", Allowed::YesNo));
    assert!(aside.raw.contains("1700000200"), "kept whole: {}", aside.raw);
    // Written, it is of the present version, and says the same.
    let file = read.file();
    assert!(file.starts_with(r#"{"format":"outlean-record","version":2,"#), "{file}");
    assert_eq!(read_record(&file).unwrap(), read);
}

#[test]
fn what_is_damaged_stands_aside_with_the_reason() {
    let whole = record(vec![attempt(1000, "leg", 1, 0.5)]).file();
    for (from, to, reason) in [
        (r#""time":1000"#, r#""time":-1"#, Reason::new("time", "-1", Allowed::Whole(253_402_300_799))),
        (r#""time":1000"#, r#""time":1.5"#, Reason::new("time", "1.5", Allowed::Whole(253_402_300_799))),
        (r#""share":0.5"#, r#""share":1.01"#, Reason::new("share", "1.01", Allowed::Share)),
        (r#""verdict":"other""#, r#""verdict":"<b>""#, Reason::new("verdict", "\"<b>\"", Allowed::Word(24))),
        (r#""seed":1"#, r#""seeds":1"#, Reason::new("seed", "", Allowed::Whole((1 << 53) - 1))),
        (r#""hints":null"#, r#""hints":"no""#, Reason::new("hints", "\"no\"", Allowed::Whole(4_294_967_295))),
        (r#""hints":null"#, r#""note":3"#, Reason::new("note", "3", Allowed::NoSuchField)),
        (r#""lesson":"01-lean""#, r#""lesson":" ""#, Reason::new("lesson", "\" \"", Allowed::Name(80))),
    ] {
        assert!(whole.contains(from));
        let read = read_record(&whole.replace(from, to)).unwrap();
        assert!(read.attempts.is_empty());
        assert_eq!(read.aside.len(), 1);
        assert_eq!(read.aside[0].why, reason);
        assert!(read.aside[0].raw.contains("2.7 kN"));
        assert_eq!(read_record(&read.file()).unwrap(), read, "what stands aside is written and read");
    }
}

#[test]
fn what_is_no_record_is_refused_by_field() {
    let whole = record(vec![]).file();
    for (text, field, allowed) in [
        (String::new(), "file", Allowed::Json),
        ("[".repeat(100_000), "file", Allowed::Json),
        ("[]".into(), "file", Allowed::Object),
        (whole.replace("outlean-record", "other"), "format", Allowed::Format),
        (whole.replace("\"version\":2", "\"version\":3"), "version", Allowed::Version(2)),
        (whole.replace("\"version\":2", "\"version\":0"), "version", Allowed::Version(2)),
        (whole.replace("\"Ines\"", "\"\""), "learner", Allowed::Name(60)),
        (whole.replace("\"attempts\":[]", "\"attempts\":{}"), "attempts", Allowed::List),
        (whole.replace("\"aside\":[]", "\"aside\":[],\"more\":1"), "more", Allowed::NoSuchField),
        (
            whole.replace("\"attempts\":[]", &format!("\"attempts\":[0{}]", ",0".repeat(50_000))),
            "attempts",
            Allowed::Items(50_000),
        ),
        (" ".repeat(16_000_001), "file", Allowed::Bytes(16_000_000)),
    ] {
        let why = read_record(&text).unwrap_err().0;
        assert_eq!((why.field.as_str(), why.allowed), (field, allowed));
    }
}

#[test]
fn of_two_that_contradict_one_another_none_is_lost() {
    let (one, two) = (attempt(5, "leg", 1, 0.0), attempt(5, "leg", 1, 1.0));
    let merged = record(vec![one.clone()]).merged(record(vec![two.clone()])).unwrap();
    assert_eq!((merged.attempts.len(), merged.aside.len()), (1, 1));
    assert_eq!(merged.aside[0].why, Reason::new("time", "5", Allowed::Once));
    assert_eq!(merged, record(vec![two]).merged(record(vec![one])).unwrap());
    let other = Record::new(Learner("Mo".into()), vec![], vec![]);
    assert_eq!(merged.merged(other).unwrap_err().0, Learner("Mo".into()));
}

#[test]
fn no_cell_runs_as_a_formula() {
    let mut wild = attempt(951_782_400, "leg", 1, 0.5);
    wild.response = "=HYPERLINK(\"x\")".into();
    wild.objective = "a, b".into();
    wild.lesson_version = " \u{a0}@x".into();
    wild.lesson = "\n-1".into();
    let said = csv(&[record(vec![wild])]);
    let row = said.split_once("\r\n").unwrap().1;
    assert_eq!(
        row,
        "Ines,2000-02-29T00:00:00Z,\"'\n-1\",leg,\"a, b\",\"' \u{a0}@x\",1,\"'=HYPERLINK(\"\"x\"\")\",0.5,other,40,\r\n"
    );
}

#[test]
fn a_class_side_by_side() {
    let (ines, mo) = (Learner("Ines".into()), Learner("Mo".into()));
    let mut guy = attempt(9000, "guy", 1, 1.0);
    guy.objective = "Estimate a guy.".into();
    let first = [attempt(100, "leg", 1, 1.0), attempt(300, "leg", 2, 0.0)];
    let table = class(&[(&mo, &[guy]), (&ines, &first[..1]), (&ines, &first[1..])]);
    assert_eq!(table.objectives, ["Estimate a guy.", "Estimate a leg."]);
    assert_eq!(table.learners.iter().map(|row| &row.learner).collect::<Vec<_>>(), [&ines, &mo]);
    let leg = table.learners[0].cells[1].unwrap();
    assert_eq!((leg.attempts, leg.share, leg.last), (2, 0.5, 300));
    assert_eq!(table.learners[0].cells[0], None);
    assert_eq!(table.learners[1].cells[0].unwrap().last, 9000);
}

#[test]
fn a_share_is_read_in_whole_per_cent() {
    let percent = |share| Cell { attempts: 8, share, last: 0 }.percent();
    assert_eq!([0.0, 2.0 / 3.0, 0.625, 0.875, 0.995, 1.0].map(percent), [0, 67, 63, 88, 100, 100]);
    let near = [0.797, 0.7999, 0.799_999_999_999_999_9, 0.8].map(percent);
    assert_eq!(near, [79, 79, 80, 80], "what does not pass stands below the mark");
}

#[test]
fn files_come_in_any_order_and_one_that_comes_twice_counts_once() {
    let mut other = attempt(200, "guy", 1, 0.5);
    other.objective = "=a, guy".into();
    let one = record(vec![attempt(100, "leg", 1, 1.0)]);
    let two = record(vec![attempt(100, "leg", 1, 1.0), other.clone()]);
    let mo = Record::new(Learner("Mo".into()), vec![other], vec![]);
    let gathered = |files: &[&Record]| {
        let mut all = Gathered::default();
        for file in files {
            assert_eq!(all.add((*file).clone()), Ok(vec![]));
        }
        all
    };
    let all = gathered(&[&one, &mo, &two, &one]);
    assert_eq!(all, gathered(&[&two, &mo]));
    assert_eq!(all.records().map(|record| record.attempts.len()).collect::<Vec<_>>(), [2, 1]);
    assert_eq!(class_csv(&all.table()), "learner,\"'=a, guy\",Estimate a leg.\r\nInes,0.5,1\r\nMo,0.5,\r\n");
    // What contradicts is told, once; what stood aside before is told with each file that has it.
    let mut all = all;
    let mut other = record(vec![attempt(100, "leg", 1, 0.0)]);
    assert_eq!(all.add(other.clone()), Ok(vec![Reason::new("time", "100", Allowed::Once)]));
    assert_eq!(all.add(other.clone()), Ok(vec![]));
    other.aside.push(Aside { raw: "x".into(), why: Reason::new("seed", "x", Allowed::Json) });
    assert_eq!(all.add(other.clone()), Ok(vec![Reason::new("seed", "x", Allowed::Json)]));
    assert_eq!(all.add(other), Ok(vec![Reason::new("seed", "x", Allowed::Json)]));
}

/// Each bound of a file from both sides: its length, its lists, how deep they stand in one another.
#[test]
fn a_file_is_as_long_and_as_deep_as_may_be_and_no_more() {
    let whole = record(vec![]).file();
    let told = |text: &str| read_record(text).map_err(|why| (why.0.field, why.0.allowed)).err();
    let padded = |bytes: usize| whole.clone() + &" ".repeat(bytes - whole.len());
    assert_eq!(told(&padded(RECORD_BYTES)), None);
    let bytes = Allowed::Bytes(RECORD_BYTES as u64);
    assert_eq!(told(&padded(RECORD_BYTES + 1)), Some(("file".into(), bytes)));
    let listed = |count: usize| {
        whole.replace("\"attempts\":[]", &format!("\"attempts\":[{}0]", "0,".repeat(count - 1)))
    };
    assert_eq!(told(&listed(50_000)), None);
    assert_eq!(told(&listed(50_001)), Some(("attempts".into(), Allowed::Items(50_000))));
    // Two stand around it: the file and its list.
    let deep = |levels: usize| {
        whole.replace(
            "\"attempts\":[]",
            &format!("\"attempts\":[{}{}]", "[".repeat(levels - 2), "]".repeat(levels - 2)),
        )
    };
    assert_eq!(told(&deep(127)), None);
    assert_eq!(told(&deep(128)), Some(("file".into(), Allowed::Json)));
}

/// What a class may have at most, from both sides; what is refused changes nothing.
#[test]
fn a_class_has_as_many_learners_answers_and_objectives_as_may_be_and_no_more() {
    let of =
        |who: usize, attempts: Vec<Attempt>| Record::new(Learner(format!("{who}")), attempts, Vec::new());
    let answers = |count: u64, about: &dyn Fn(u64) -> String| -> Vec<Attempt> {
        (0..count).map(|time| Attempt { objective: about(time), ..attempt(time, "leg", 1, 1.0) }).collect()
    };
    let refused = |class: &mut Gathered, record: Record| {
        let before = class.clone();
        let why = class.add(record).unwrap_err();
        assert_eq!(*class, before);
        (why.field, why.value, why.allowed)
    };
    let mut class = Gathered::default();
    assert!((0..500).all(|who| class.add(of(who, vec![])).is_ok()));
    assert!(class.add(of(7, answers(1, &|_| "lean".into()))).is_ok(), "of one who is there already");
    assert_eq!(refused(&mut class, of(500, vec![])), ("learners".into(), "501".into(), Allowed::Items(500)));
    let mut class = Gathered::default();
    assert!((0..4).all(|who| class.add(of(who, answers(50_000, &|_| String::new()))).is_ok()));
    let one_more = (("attempts").into(), "200001".into(), Allowed::Items(200_000));
    assert_eq!(refused(&mut class, of(4, answers(1, &|_| String::new()))), one_more);
    assert_eq!(class.add(of(3, answers(50_000, &|_| String::new()))), Ok(vec![]), "twice counts once");
    let mut class = Gathered::default();
    assert!(class.add(of(0, answers(1_000, &|time| time.to_string()))).is_ok());
    let one_more = ("objectives".into(), "1001".into(), Allowed::Items(1_000));
    assert_eq!(refused(&mut class, of(1, answers(1, &|_| "another".into()))), one_more);
}

fn attempts() -> impl Strategy<Value = Vec<Attempt>> {
    let share = prop_oneof![Just(0.0), Just(0.5), Just(1.0)];
    let one = (0..4_u64, "[ab]", 0..3_u64, share)
        .prop_map(|(time, question, seed, share)| attempt(time, &question, seed, share));
    prop::collection::vec(one, 0..12)
}

fn some_record() -> impl Strategy<Value = Record> {
    let aside = prop::collection::vec(
        ("[a-c\"\\\\]{0,3}", 0..3_u64)
            .prop_map(|(raw, most)| Aside { raw, why: Reason::new("seed", "x", Allowed::Whole(most)) }),
        0..4,
    );
    (attempts(), aside).prop_map(|(attempts, aside)| Record::new(Learner("Ines".into()), attempts, aside))
}

proptest! {
    #[test]
    fn putting_together_is_a_union((a, b, c) in (some_record(), some_record(), some_record())) {
        let plus = |a: &Record, b: &Record| a.clone().merged(b.clone()).unwrap();
        prop_assert_eq!(plus(&a, &b), plus(&b, &a));
        prop_assert_eq!(plus(&plus(&a, &b), &c), plus(&a, &plus(&b, &c)));
        prop_assert_eq!(plus(&a, &a), a.clone());
        // Nothing that was said is gone: it is an attempt or stands aside.
        let all = plus(&a, &b);
        for each in a.attempts.iter().chain(&b.attempts) {
            let raw = serde_json::to_string(each).unwrap();
            prop_assert!(all.attempts.contains(each) || all.aside.iter().any(|aside| aside.raw == raw));
        }
        prop_assert!(a.aside.iter().chain(&b.aside).all(|each| all.aside.contains(each)));
    }

    #[test]
    fn what_is_written_is_read(record in some_record()) {
        prop_assert_eq!(read_record(&record.file()).unwrap(), record);
    }

    #[test]
    fn no_text_is_a_panic(text in ".{0,200}", at in 0..400_usize, with in "[\\[\\]{}0-9\":,a-z]{0,4}") {
        let _ = read_record(&text);
        let mut file = record(vec![attempt(1, "leg", 1, 1.0)]).file();
        file.insert_str(at.min(file.len()), &with);
        if let Ok(read) = read_record(&file) {
            prop_assert_eq!(read_record(&read.file()).unwrap(), read);
        }
    }
}
