//! The choices of a rig that people make by word: where the line runs, what it is doing, what holds the feet.

use crate::fields::{Whose, line, split_key};
use crate::gear_choices::GEAR_CHOICES;
use outlean_rig::{
    Connection, Ground, LeanIs, Line, LineName, Operation, Path, Point, Rig, Scenario, SecondLine, Side,
    Stage,
};

/// One row of the table. See [`choices`].
#[derive(Debug)]
pub struct ChoiceSpec {
    /// Its name; `guy.N.…` stands for every guy.
    pub key: &'static str,
    /// The words to choose from.
    pub options: &'static [&'static str],
    pub(crate) get: fn(&Rig, u8) -> Option<&'static str>,
    pub(crate) set: fn(&mut Rig, u8, &str) -> Option<()>,
}

/// A choice of a rig, found by its key with [`choice`].
#[derive(Clone, Copy, Debug)]
pub struct ChoiceRef {
    /// Its row.
    pub spec: &'static ChoiceSpec,
    /// Whose it is.
    pub whose: Whose,
}

/// Why a choice was not made.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ChoiceError {
    /// It is none of the options. Holds the one spelled most like it.
    NoSuchOption {
        /// An option spelled like it.
        nearest: Option<&'static str>,
    },
    /// The rig has no such guy.
    Absent,
}

/// The choice of that key, if there is one.
///
/// ```
/// use outlean_rig::{Path, Rig};
/// use outlean_rigfile::choice;
/// let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
/// let path = choice("line.path").unwrap();
/// path.set(&mut rig, "straight back").unwrap();
/// assert_eq!(path.get(&rig), Some("straight back"));
/// assert!(path.set(&mut rig, "sideways").is_err());
/// ```
#[must_use]
pub fn choice(key: &str) -> Option<ChoiceRef> {
    let (whose, name) = split_key(key)?;
    let spec = choices().find(|spec| spec.key == name.as_ref())?;
    Some(ChoiceRef { spec, whose })
}

impl ChoiceRef {
    /// The word that holds now; `None` if the rig has no such guy.
    #[must_use]
    pub fn get(&self, rig: &Rig) -> Option<&'static str> {
        (self.spec.get)(rig, self.whose.number(rig)?)
    }

    /// Makes the choice.
    ///
    /// A line that goes on after the head keeps its haul point from path to path, turned ahead of the foot
    /// line where it runs over the front and behind it where it runs straight back. A path that had none
    /// gets one on the level at the setback of the first guy behind, else two legs' lengths back. A tackle
    /// begins with three parts.
    ///
    /// # Errors
    ///
    /// No such option, or no such guy; the rig is then as it was.
    pub fn set(&self, rig: &mut Rig, word: &str) -> Result<(), ChoiceError> {
        let number = self.whose.number(rig).ok_or(ChoiceError::Absent)?;
        let Some(option) = self.spec.options.iter().find(|option| **option == word) else {
            let nearest = crate::nearest(word, self.spec.options.iter().copied());
            return Err(ChoiceError::NoSuchOption { nearest });
        };
        (self.spec.set)(rig, number, option).ok_or(ChoiceError::Absent)
    }
}

/// The words for a path.
const PATHS: &[&str] = &[
    "hung",
    "straight back",
    "redirected at left foot",
    "redirected at right foot",
    "redirected mid-base",
    "redirected on ledger",
    "over the front",
    "tackle at head",
    "not over head",
];

const fn path_word(path: &Path) -> &'static str {
    match path {
        Path::Hung => "hung",
        Path::StraightBack { .. } => "straight back",
        Path::RedirectedAtFoot { foot: Side::Left, .. } => "redirected at left foot",
        Path::RedirectedAtFoot { foot: Side::Right, .. } => "redirected at right foot",
        Path::RedirectedMidBase { .. } => "redirected mid-base",
        Path::RedirectedOnLedger { .. } => "redirected on ledger",
        Path::OverTheFront { .. } => "over the front",
        Path::TackleAtHead { .. } => "tackle at head",
        Path::NotOverHead => "not over head",
    }
}

/// The path that `word` names, for a line that runs along `now`.
fn path_of(rig: &Rig, now: Path, word: &str) -> Option<Path> {
    let to = now.haul_point().unwrap_or_else(|| usual_haul_point(rig));
    let ground = Ground::of(&rig.feet);
    let [ahead, left, up] = ground.paced(to);
    Some(match word {
        "hung" => Path::Hung,
        "straight back" => Path::StraightBack { to: ground.point(-ahead.abs(), left, up) },
        "redirected at left foot" => Path::RedirectedAtFoot { foot: Side::Left, to },
        "redirected at right foot" => Path::RedirectedAtFoot { foot: Side::Right, to },
        "redirected mid-base" => Path::RedirectedMidBase { to },
        "redirected on ledger" => Path::RedirectedOnLedger { to },
        "over the front" => Path::OverTheFront { to: ground.point(ahead.abs(), left, up) },
        "tackle at head" => {
            let parts = match now {
                Path::TackleAtHead { parts, .. } => parts,
                _ => 3,
            };
            Path::TackleAtHead { parts, to }
        }
        "not over head" => Path::NotOverHead,
        _ => return None,
    })
}

macro_rules! path {
    ($key:literal, $which:ident) => {
        ChoiceSpec {
            key: $key,
            options: PATHS,
            get: |rig, _| line(rig, LineName::$which).map(|line| path_word(&line.path)),
            set: |rig, _, word| {
                let now = line(rig, LineName::$which).map_or(Path::Hung, |line| line.path);
                let path = path_of(rig, now, word)?;
                match LineName::$which {
                    LineName::Main => rig.line.path = path,
                    LineName::Second => match &mut rig.second {
                        Some(second) => second.line.path = path,
                        None => {
                            rig.second =
                                Some(SecondLine { line: Line::along(path), share: 0.0, peak_factor: None });
                        }
                    },
                }
                Some(())
            },
        }
    };
}

/// Words for the things of a list, in its order.
const OPERATIONS: &[&str] = &["lowering", "holding", "raising"];
const STAGES: &[&str] = &["hanging clear", "at edge", "on tag lines"];
const CONNECTIONS: &[&str] = &["none", "hobble", "ledger"];
const ALL_CONNECTIONS: [Connection; 3] = [Connection::None, Connection::Hobble, Connection::Ledger];

/// The word for one of `all`.
pub(crate) fn word<T: PartialEq>(words: &[&'static str], all: &[T], one: T) -> Option<&'static str> {
    words.get(all.iter().position(|each| *each == one)?).copied()
}

/// The one of `all` that `said` is the word for.
pub(crate) fn meant<T: Copy>(words: &[&str], all: &[T], said: &str) -> Option<T> {
    all.get(words.iter().position(|word| *word == said)?).copied()
}

macro_rules! one_of {
    ($key:literal, $words:ident, $all:expr, $($place:tt)+) => {
        ChoiceSpec {
            key: $key,
            options: $words,
            get: |rig, _| word($words, &$all, rig.$($place)+),
            set: |rig, _, said| {
                rig.$($place)+ = meant($words, &$all, said)?;
                Some(())
            },
        }
    };
}
pub(crate) use one_of;

/// Words for a thing that is so or is not.
const YES_NO: &[&str] = &["yes", "no"];

const fn yes_no(yes: bool) -> &'static str {
    if yes { "yes" } else { "no" }
}

/// Every choice of a rig that people make by word.
pub fn choices() -> impl Iterator<Item = &'static ChoiceSpec> + Clone {
    CHOICES.iter().chain(GEAR_CHOICES)
}

/// The choices of what the rig does.
const CHOICES: &[ChoiceSpec] = &[
    path!("line.path", Main),
    path!("second.path", Second),
    one_of!("line.operation", OPERATIONS, Operation::ALL, case.operation),
    ChoiceSpec {
        key: "lean_is",
        options: &["under load", "set before loading"],
        get: |rig, _| {
            Some(match rig.lean_is {
                LeanIs::UnderLoad => "under load",
                LeanIs::SetBefore | LeanIs::Cut => "set before loading",
            })
        },
        set: |rig, _, word| {
            rig.lean_is = match word {
                "under load" => LeanIs::UnderLoad,
                "set before loading" => LeanIs::SetBefore,
                _ => return None,
            };
            Some(())
        },
    },
    one_of!("load.stage", STAGES, Stage::ALL, case.stage),
    ChoiceSpec {
        key: "second.holds",
        options: &["its share", "the whole load"],
        get: |rig, _| {
            rig.second?;
            Some(match rig.case.scenario {
                Scenario::Shared => "its share",
                Scenario::MainLost => "the whole load",
            })
        },
        set: |rig, _, word| {
            rig.second?;
            rig.case.scenario = match word {
                "its share" => Scenario::Shared,
                "the whole load" => Scenario::MainLost,
                _ => return None,
            };
            Some(())
        },
    },
    one_of!("feet.connection", CONNECTIONS, ALL_CONNECTIONS, feet.connection),
    ChoiceSpec {
        key: "feet.pinned",
        options: YES_NO,
        get: |rig, _| Some(yes_no(rig.feet.pinned)),
        set: |rig, _, word| {
            rig.feet.pinned = word == "yes";
            Some(())
        },
    },
    ChoiceSpec {
        key: "feet.held_down",
        options: YES_NO,
        get: |rig, _| Some(yes_no(rig.feet.held_down)),
        set: |rig, _, word| {
            rig.feet.held_down = word == "yes";
            Some(())
        },
    },
    ChoiceSpec {
        key: "guy.N.rigged",
        options: YES_NO,
        get: |rig, number| rig.guys.get(usize::from(number)).map(|guy| yes_no(guy.rigged)),
        set: |rig, number, word| rig.guys.get_mut(usize::from(number)).map(|guy| guy.rigged = word == "yes"),
    },
];

/// Where a line that had no haul point is hauled to first.
fn usual_haul_point(rig: &Rig) -> Point {
    let ground = Ground::of(&rig.feet);
    let aft = rig.guys.iter().map(|guy| -ground.paced(guy.anchor)[0]).find(|setback| *setback > 0.0);
    let back = aft.unwrap_or(rig.legs.left.length + rig.legs.right.length);
    ground.point(-back, 0.0, 0.0)
}

#[cfg(test)]
mod tests {
    use super::*;
    use outlean_rig::Guy;

    #[test]
    fn every_choice_holds_what_it_is_set_to() {
        for spec in choices() {
            let choice = choice(&spec.key.replace('N', "0")).unwrap();
            let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
            rig.guys.push(Guy::to(Point::new(-6.0, 0.0, 0.0)));
            rig.second = Some(SecondLine { line: Line::hung(), share: 0.5, peak_factor: None });
            for option in spec.options {
                choice.set(&mut rig, option).unwrap();
                assert_eq!(choice.get(&rig), Some(*option), "{}", spec.key);
            }
            let before = rig.clone();
            assert!(choice.set(&mut rig, "otherwise").is_err());
            assert_eq!(rig, before);
        }
    }

    #[test]
    fn the_haul_point_stays_when_the_path_changes() {
        let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
        let path = choice("line.path").unwrap();
        path.set(&mut rig, "straight back").unwrap();
        assert_eq!(rig.line.path.haul_point(), Some(Point::new(-8.0, 0.0, 0.0)));
        rig.line.path = Path::StraightBack { to: Point::new(-7.0, 1.0, 0.5) };
        for word in ["redirected at left foot", "tackle at head", "redirected mid-base"] {
            path.set(&mut rig, word).unwrap();
            assert_eq!(rig.line.path.haul_point(), Some(Point::new(-7.0, 1.0, 0.5)), "{word}");
        }
        path.set(&mut rig, "over the front").unwrap();
        assert_eq!(rig.line.path.haul_point(), Some(Point::new(7.0, 1.0, 0.5)));
        path.set(&mut rig, "straight back").unwrap();
        assert_eq!(rig.line.path.haul_point(), Some(Point::new(-7.0, 1.0, 0.5)));
    }

    #[test]
    fn a_misspelt_option_is_answered_with_the_nearest() {
        let mut rig = Rig::new(4.0, 1.2, 0.3, 250.0);
        let refused = choice("line.path").unwrap().set(&mut rig, "straigt back");
        assert_eq!(refused, Err(ChoiceError::NoSuchOption { nearest: Some("straight back") }));
    }
}
