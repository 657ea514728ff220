//! The inputs of a case as a rig.

use super::Trouble;
use arrayvec::ArrayVec;
use outlean_rig::{
    Guy, LeanIs, Leg, Line, Load, MAX_GUYS, Operation, Pair, Path, Point, Rig, Rope, Side, Stretch,
};
use serde_json::Value;

/// How the outputs of a case were computed.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Analysis {
    /// Rigid legs, one working guy.
    Determinate,
    /// Legs and guys that stretch.
    Elastic,
}

/// A case set up.
pub(super) struct SetUp {
    pub(super) rig: Rig,
    /// How many of its guys, the first ones, are aft guys; the fore guy, if any, follows.
    pub(super) aft_guys: usize,
    /// Tension of the load line as the case gives it, N.
    pub(super) load: f64,
    /// What its parts give, in an elastic case.
    pub(super) stretch: Option<Stretch>,
    /// What was read and left out, for people to see.
    pub(super) notes: Vec<String>,
}

pub(super) fn analysis(case: &Value) -> Result<Analysis, Trouble> {
    let value = case.get("inputs").and_then(|inputs| inputs.get("analysis"));
    match value.and_then(Value::as_str) {
        Some("determinate") => Ok(Analysis::Determinate),
        Some("elastic") => Ok(Analysis::Elastic),
        _ => Err(Trouble::at("inputs.analysis", value, "\"determinate\" or \"elastic\"")),
    }
}

pub(super) fn read(case: &Value) -> Result<SetUp, Trouble> {
    let elastic = analysis(case)? == Analysis::Elastic;
    let inputs = Reader { value: case.get("inputs"), path: "inputs".into() };
    let mut notes = Vec::new();
    let load = inputs.number("load_line_tension_N")?;
    let mut rig = Rig::new(
        inputs.number("leg_length_m")?,
        inputs.number("spread_m")?,
        inputs.number("lean_deg")?.to_radians(),
        0.0,
    );
    let weight_per_metre = inputs.number("leg_weight_N_per_m")?;
    rig.legs = Pair::both(Leg { weight_per_metre, ..rig.legs.left });
    rig.load = Load {
        side_angle: inputs.number("load_side_angle_deg")?.to_radians(),
        ..Load::hanging(load / outlean_rig::G)
    };
    (rig.line, rig.case.operation) = line(&inputs.inside("haul"))?;

    let mut guys: Vec<(Reader, Guy)> = Vec::new();
    let aft = inputs.inside("aft_guys");
    match aft.value {
        None | Some(Value::Null) => {}
        Some(Value::Array(list)) => {
            for (i, guy) in list.iter().enumerate() {
                let reader = Reader { value: Some(guy), path: format!("{}[{i}]", aft.path) };
                let anchor = reader.point("anchor_m")?;
                guys.push((reader, Guy::to(anchor)));
            }
        }
        other => return Err(Trouble::at(&aft.path, other, "a list of guys")),
    }
    let aft_guys = guys.len();
    let fore = inputs.inside("fore_guy");
    if !matches!(fore.value, None | Some(Value::Null)) {
        let anchor = fore.point("anchor_m")?;
        guys.push((fore, Guy::to(anchor)));
    }
    if guys.len() > MAX_GUYS {
        let found = guys.len().to_string();
        return Err(Trouble::new(
            "inputs.aft_guys",
            &found,
            &format!("at most {MAX_GUYS} guys with the fore guy"),
        ));
    }
    let mut stretch = None;
    if elastic {
        let leg_stiffness = inputs.number("leg_EA_N")?;
        stretch = Some(Stretch { leg_stiffness, ropes: ArrayVec::new(), lean_is: LeanIs::Cut });
    }
    for (reader, mut guy) in guys {
        let pretension = reader.value.and_then(|guy| guy.get("pretension_N")).and_then(Value::as_f64);
        if let Some(stretch) = &mut stretch {
            guy.pretension = pretension.unwrap_or(0.0);
            let give = reader.get("slack_m").and_then(Value::as_f64).unwrap_or(0.0);
            // No more ropes than guys, and those are counted above.
            let _ = stretch.ropes.try_push(Rope { stiffness: reader.number("EA_N")?, give });
        } else if pretension.is_some_and(|pretension| pretension > 0.0) {
            notes.push(format!("{}.pretension_N left out: a determinate case has none", reader.path));
        }
        rig.guys.push(guy);
    }

    const READ: [&str; 10] = [
        "analysis",
        "leg_length_m",
        "spread_m",
        "lean_deg",
        "leg_weight_N_per_m",
        "load_line_tension_N",
        "load_side_angle_deg",
        "haul",
        "aft_guys",
        "fore_guy",
    ];
    // Stretch plays no part in a determinate case.
    const NOT_NEEDED: [&str; 1] = ["leg_EA_N"];
    for key in inputs.value.and_then(Value::as_object).into_iter().flat_map(|map| map.keys()) {
        if !READ.contains(&key.as_str()) && !NOT_NEEDED.contains(&key.as_str()) {
            notes.push(format!("inputs.{key} is not a key that this program knows: not read"));
        }
    }
    Ok(SetUp { rig, aft_guys, load, stretch, notes })
}

fn line(haul: &Reader<'_>) -> Result<(Line, Operation), Trouble> {
    let path = match haul.text("mode")? {
        "static_hang" => Path::Hung,
        "direct" => Path::StraightBack { to: haul.point("haul_point_m")? },
        "redirect" => {
            let to = haul.point("haul_point_m")?;
            match haul.text("redirect_at")? {
                "left_foot" => Path::RedirectedAtFoot { foot: Side::Left, to },
                "right_foot" => Path::RedirectedAtFoot { foot: Side::Right, to },
                "mid_base" => Path::RedirectedMidBase { to },
                _ => return Err(haul.wrong("redirect_at", "\"left_foot\", \"right_foot\" or \"mid_base\"")),
            }
        }
        _ => return Err(haul.wrong("mode", "\"static_hang\", \"direct\" or \"redirect\"")),
    };
    let operation = match haul.text("operation")? {
        "hold" => Operation::Holding,
        "raise" => Operation::Raising,
        "lower" => Operation::Lowering,
        _ => return Err(haul.wrong("operation", "\"hold\", \"raise\" or \"lower\"")),
    };
    // An efficiency is needed only where a line moves over that pulley.
    let moves = operation != Operation::Holding && !matches!(path, Path::Hung);
    let turned = matches!(path, Path::RedirectedAtFoot { .. } | Path::RedirectedMidBase { .. });
    let efficiency = |key: &str, needed: bool| match haul.get(key) {
        None | Some(Value::Null) if !needed => Ok(1.0),
        _ => haul.number(key),
    };
    let line = Line {
        pulley_efficiency: efficiency("head_pulley_efficiency", moves)?,
        redirect_efficiency: efficiency("redirect_efficiency", moves && turned)?,
        ..Line::along(path)
    };
    Ok((line, operation))
}

/// A place in a case, and its name for messages.
struct Reader<'a> {
    value: Option<&'a Value>,
    path: String,
}

impl<'a> Reader<'a> {
    fn get(&self, key: &str) -> Option<&'a Value> {
        self.value.and_then(|value| value.get(key))
    }

    fn wrong(&self, key: &str, wanted: &str) -> Trouble {
        Trouble::at(&format!("{}.{key}", self.path), self.get(key), wanted)
    }

    fn inside(&self, key: &str) -> Self {
        Self { value: self.get(key), path: format!("{}.{key}", self.path) }
    }

    fn number(&self, key: &str) -> Result<f64, Trouble> {
        self.get(key).and_then(Value::as_f64).ok_or_else(|| self.wrong(key, "a number"))
    }

    fn text(&self, key: &str) -> Result<&'a str, Trouble> {
        self.get(key).and_then(Value::as_str).ok_or_else(|| self.wrong(key, "a word"))
    }

    fn point(&self, key: &str) -> Result<Point, Trouble> {
        let list = self.get(key).and_then(Value::as_array).map(Vec::as_slice);
        if let Some([x, y, z]) = list
            && let (Some(x), Some(y), Some(z)) = (x.as_f64(), y.as_f64(), z.as_f64())
        {
            return Ok(Point::new(x, y, z));
        }
        Err(self.wrong(key, "three numbers [x, y, z]"))
    }
}
