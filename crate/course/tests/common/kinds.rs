//! Templates of every kind, on the invented frame of larch poles.

use super::leg_with_line;
use outlean_course::{
    BuildStep, ChooseTemplate, Claim, Condition, FaultsTemplate, Ground, Item, OrderTemplate, Planted, Put,
    SetTemplate, Span, Statement, Template, Text, Vary,
};
use outlean_rig::Rig;
use outlean_rigfile::{DEG, Units};

pub fn claim(words: &str) -> Claim {
    Claim::read(words).unwrap_or_else(|why| panic!("{words}: {why:?}"))
}

pub fn rig() -> Rig {
    leg_with_line().rig
}

fn spans() -> Vec<Span> {
    let span = |vary| if let Vary::Number(span) = vary { Some(span) } else { None };
    leg_with_line().vary.into_iter().filter_map(span).collect()
}

fn says(text: &str) -> Text {
    Text::read(text).unwrap_or_else(|why| panic!("{text}: {why:?}"))
}

pub fn statement(text: &str, words: &str) -> Statement {
    Statement { says: says(text), ground: Ground::Claim(claim(words)), because: None }
}

pub fn choose() -> ChooseTemplate {
    ChooseTemplate {
        id: "larch-choose".into(),
        rig: rig(),
        vary: spans(),
        statements: vec![
            statement(
                "With {load.mass} on the line, the left leg carries more.",
                "compression of the left leg > compression of the right leg",
            ),
            statement(
                "The right leg carries more.",
                "compression of the right leg > compression of the left leg",
            ),
            statement("The aft guy is the one that works.", "the aft guy works"),
            statement("The fore guy is the one that works.", "the fore guy works"),
            statement("Farther out, the aft guy eases.", "tension of the aft guy falls with lean"),
            statement("The guy carries over 2 kN.", "tension of the aft guy > 2 kN"),
            Statement {
                says: says("The lashing's strength is in no table."),
                ground: Ground::Fact { holds: true, source: "common practice".into() },
                because: None,
            },
        ],
        one: false,
    }
}

pub fn choose_one() -> ChooseTemplate {
    let mut template = choose();
    template.id = "larch-choose-one".into();
    template.one = true;
    template.statements.truncate(2);
    template.statements.push(statement(
        "Both legs carry the same.",
        "compression of the left leg = compression of the right leg",
    ));
    template
}

pub fn step(id: &str, after: &[&str]) -> BuildStep {
    let after = after.iter().map(|name| (*name).to_owned()).collect();
    BuildStep { id: id.into(), says: format!("Do {id}."), after, because: None }
}

pub fn order() -> OrderTemplate {
    OrderTemplate {
        id: "larch-order".into(),
        steps: vec![
            step("lash", &[]),
            step("sling", &["lash"]),
            step("guys", &["lash"]),
            step("raise", &["guys", "sling"]),
            step("pickets", &[]),
            step("lean", &["raise", "pickets"]),
        ],
    }
}

pub fn item(text: &str, words: &str) -> Item {
    Item { says: says(text), sound: claim(words), because: None }
}

fn planted(put: Put) -> Planted {
    Planted { set: vec![put] }
}

pub fn faults() -> FaultsTemplate {
    FaultsTemplate {
        id: "larch-faults".into(),
        rig: rig(),
        vary: spans(),
        items: vec![
            item("Aft guy anchored {aft.setback} back.", "aft.setback >= height of the head"),
            item("Feet {feet.spread} apart.", "feet.spread >= 0.3 × height of the head"),
            item("Leaning {lean}.", "lean <= 40 deg"),
            item("Lashing {legs.lashing_below_tip} below the tips.", "legs.lashing_below_tip >= 0.3 m"),
        ],
        faults: vec![
            planted(Put::Number("aft.setback".into(), 2.5)),
            planted(Put::Number("feet.spread".into(), 0.7)),
            planted(Put::Number("lean".into(), 52.0 * DEG)),
            planted(Put::Number("legs.lashing_below_tip".into(), 0.1)),
        ],
        least: 0,
        most: 3,
    }
}

pub fn set() -> SetTemplate {
    let condition = |words: &str| Condition { claim: claim(words), says: words.into() };
    let span = |field: &str, least, most, step| Span {
        field: field.into(),
        least,
        most,
        step,
        units: Units::Metric,
    };
    SetTemplate {
        id: "larch-set".into(),
        rig: rig(),
        vary: spans(),
        until: vec![condition("reach >= 2.6 m"), condition("tension of the aft guy <= 2.4 kN")],
        may: vec![span("lean", 10.0 * DEG, 45.0 * DEG, DEG), span("aft.setback", 4.0, 12.0, 0.25)],
    }
}

/// One of each kind, and both forms of a choice.
pub fn all() -> Vec<Template> {
    vec![
        Template::Estimate(leg_with_line()),
        Template::Choose(choose()),
        Template::Choose(choose_one()),
        Template::Order(order()),
        Template::Faults(faults()),
        Template::Set(set()),
    ]
}
