//! Names of parts and limits, from the string file.

use crate::Words;
use outlean_rig::{Layout, Limit, Part, Rig, Side, Station, Tip};

/// The name of a guy: by where it stands, and with a number where several stand there.
#[must_use]
pub(crate) fn guy_name(words: &Words, rig: &Rig, layout: &Layout, number: u8) -> String {
    of_guy(words, rig, layout, number, "guy")
}

/// The name of the holdfast of a guy.
#[must_use]
pub(crate) fn holdfast_name(words: &Words, rig: &Rig, layout: &Layout, number: u8) -> String {
    of_guy(words, rig, layout, number, "holdfast")
}

/// What a guy is in a picture, by where it stands.
pub(crate) const fn guy_part(station: Station) -> &'static str {
    match station {
        Station::Aft => "aft guy",
        Station::Fore => "fore guy",
        Station::Side => "side guy",
    }
}

fn of_guy(words: &Words, rig: &Rig, layout: &Layout, number: u8, thing: &str) -> String {
    let Some(guy) = rig.guys.get(usize::from(number)) else { return words.say(thing).to_owned() };
    let station = Station::of(guy.anchor, layout);
    let fellows = || {
        rig.guys
            .iter()
            .enumerate()
            .filter(|(_, each)| each.rigged && Station::of(each.anchor, layout) == station)
    };
    let place = match station {
        Station::Aft => "aft",
        Station::Fore => "fore",
        Station::Side => "side",
    };
    if fellows().count() < 2 {
        return words.say(&format!("{thing}.{place}")).to_owned();
    }
    let before = fellows().take_while(|(i, _)| *i < usize::from(number)).count();
    words.fill(&format!("{thing}.{place}.numbered"), &[("number", &(before + 1).to_string())])
}

/// The name of a part.
#[must_use]
pub fn part_name(words: &Words, rig: &Rig, layout: &Layout, part: Part) -> String {
    let key = match part {
        Part::GuyRope(number) => return guy_name(words, rig, layout, number),
        Part::GuyHoldfast(number) => return holdfast_name(words, rig, layout, number),
        Part::Leg(Side::Left) => "leg.left",
        Part::Leg(Side::Right) => "leg.right",
        Part::MainLine => "line.main",
        Part::Sling => "sling",
        Part::Lashing => "lashing",
        Part::SecondLine => "line.second",
        Part::SecondSling => "sling.second",
        Part::HeadPulley => "pulley.head",
        Part::Connector => "connector",
        Part::RedirectPulley => "pulley.redirect",
        Part::HaulHoldfast => "holdfast.haul",
        Part::SecondPulley => "pulley.second",
        Part::SecondConnector => "connector.second",
        Part::SecondRedirect => "pulley.second_redirect",
        Part::SecondHoldfast => "holdfast.second",
        Part::Bearing(Side::Left) => "ground.left",
        Part::Bearing(Side::Right) => "ground.right",
        Part::Edge => "ground.edge",
        _ => "part",
    };
    words.say(key).to_owned()
}

/// What governs the end of a working range, named; `None` where nothing ends it.
#[must_use]
pub fn limit_name(words: &Words, rig: &Rig, layout: &Layout, limit: Limit) -> Option<String> {
    let key = match limit {
        Limit::Part(part) => return Some(part_name(words, rig, layout, part)),
        Limit::UprightStop => "limit.upright_stop",
        Limit::Tips(tip) => tip_key(tip),
        Limit::FootSlides(Side::Left) => "limit.slides.left",
        Limit::FootSlides(Side::Right) => "limit.slides.right",
        Limit::ClearReach => "limit.clear_reach",
        Limit::Headroom => "limit.headroom",
        Limit::Stretch => "limit.stretch",
        Limit::ExtraLean => "limit.extra_lean",
        Limit::NoGeometry => "limit.no_geometry",
        _ => return None,
    };
    Some(words.say(key).to_owned())
}

/// The key of the words for a way of tipping.
#[must_use]
pub const fn tip_key(tip: Tip) -> &'static str {
    match tip {
        Tip::Forward => "tips.forward",
        Tip::Back => "tips.back",
        Tip::Left => "tips.left",
        Tip::Right => "tips.right",
    }
}
