//! The colours of the themes, held against what the style sheet says of them: contrast on paper, and how far apart the
//! inks of forces stay for every eye.
//!
//! Contrast: WCAG 2.2, relative luminance and contrast ratio. Distance: CIEDE2000 (CIE 142-2001; Sharma, Wu and Dalal,
//! Color Research and Application 30, 2005, whose test data hold it below). Colour vision: Machado, Oliveira and
//! Fernandes, IEEE Transactions on Visualization and Computer Graphics 15, 2009, at full severity; as a second opinion
//! Viénot, Brettel and Mollon, Color Research and Application 24, 1999, which has no tritanopia.

#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    reason = "a test"
)]

use core::f64::consts::PI;
use libm::{atan2, cos, exp, fabs, hypot, pow, sin, sqrt};

type Triple = [f64; 3];
type Matrix = [Triple; 3];

const USUAL: Matrix = [[1.0, 0.0, 0.0], [0.0, 1.0, 0.0], [0.0, 0.0, 1.0]];

/// Machado 2009, severity 1.0, on linear sRGB.
const PROTAN: Matrix =
    [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]];
const DEUTAN: Matrix =
    [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]];
const TRITAN: Matrix =
    [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]];

/// Viénot 1999, the three steps of the paper in one, on linear sRGB.
const PROTAN_1999: Matrix = [[0.11238, 0.88762, 0.0], [0.11238, 0.88762, 0.0], [0.00401, -0.00401, 1.0]];
const DEUTAN_1999: Matrix = [[0.29275, 0.70725, 0.0], [0.29275, 0.70725, 0.0], [-0.02234, 0.02234, 1.0]];

const FORCES: [&str; 4] = ["--push", "--pull", "--load", "--ground"];

fn times(matrix: &Matrix, v: Triple) -> Triple {
    matrix.map(|[a, b, c]| a * v[0] + b * v[1] + c * v[2])
}

/// Linear sRGB of `#RRGGBB`.
fn linear(hex: &str) -> Triple {
    let channel = |at: usize| {
        let value = f64::from(u8::from_str_radix(&hex[at..at + 2], 16).unwrap()) / 255.0;
        if value <= 0.04045 { value / 12.92 } else { pow((value + 0.055) / 1.055, 2.4) }
    };
    assert!(hex.len() == 7 && hex.starts_with('#'), "{hex} is a colour");
    [channel(1), channel(3), channel(5)]
}

/// The contrast ratio of two colours.
fn contrast(a: &str, b: &str) -> f64 {
    let light = |hex| times(&[[0.2126, 0.7152, 0.0722]; 3], linear(hex))[0] + 0.05;
    let (a, b) = (light(a), light(b));
    a.max(b) / a.min(b)
}

/// CIE L*a*b* of linear sRGB, white point D65.
fn lab(rgb: Triple) -> Triple {
    const XYZ: Matrix = [
        [0.4124564, 0.3575761, 0.1804375],
        [0.2126729, 0.7151522, 0.0721750],
        [0.0193339, 0.1191920, 0.9503041],
    ];
    let f = |t: f64| if t > 216.0 / 24389.0 { libm::cbrt(t) } else { (24389.0 / 27.0 * t + 16.0) / 116.0 };
    let [x, y, z] = times(&XYZ, rgb.map(|c| c.clamp(0.0, 1.0)));
    let (x, y, z) = (f(x / 0.95047), f(y), f(z / 1.08883));
    [116.0 * y - 16.0, 500.0 * (x - y), 200.0 * (y - z)]
}

/// CIEDE2000 between two colours in L*a*b*.
fn distance([l1, a1, b1]: Triple, [l2, a2, b2]: Triple) -> f64 {
    let seventh = |c: f64| sqrt(pow(c, 7.0) / (pow(c, 7.0) + pow(25.0, 7.0)));
    let grey = 1.0 + 0.5 * (1.0 - seventh((hypot(a1, b1) + hypot(a2, b2)) / 2.0));
    let (a1, a2) = (a1 * grey, a2 * grey);
    let (c1, c2) = (hypot(a1, b1), hypot(a2, b2));
    let hue = |a: f64, b: f64| {
        let h = if a == 0.0 && b == 0.0 { 0.0 } else { atan2(b, a) };
        if h < 0.0 { h + 2.0 * PI } else { h }
    };
    let (h1, h2) = (hue(a1, b1), hue(a2, b2));
    let coloured = c1 * c2 > 0.0;
    let turn = match h2 - h1 {
        _ if !coloured => 0.0,
        d if d > PI => d - 2.0 * PI,
        d if d < -PI => d + 2.0 * PI,
        d => d,
    };
    let h = match h1 + h2 {
        sum if !coloured => sum,
        sum if fabs(h1 - h2) <= PI => sum / 2.0,
        sum if sum < 2.0 * PI => sum / 2.0 + PI,
        sum => sum / 2.0 - PI,
    };
    let (l, c) = ((l1 + l2) / 2.0 - 50.0, (c1 + c2) / 2.0);
    let deg = PI / 180.0;
    let t = 1.0 - 0.17 * cos(h - 30.0 * deg) + 0.24 * cos(2.0 * h) + 0.32 * cos(3.0 * h + 6.0 * deg)
        - 0.20 * cos(4.0 * h - 63.0 * deg);
    let blue = (h / deg - 275.0) / 25.0;
    let turned = -sin(60.0 * deg * exp(-blue * blue)) * 2.0 * seventh(c);
    let light = (l2 - l1) / (1.0 + 0.015 * l * l / sqrt(20.0 + l * l));
    let chroma = (c2 - c1) / (1.0 + 0.045 * c);
    let shade = 2.0 * sqrt(c1 * c2) * sin(turn / 2.0) / (1.0 + 0.015 * c * t);
    sqrt(light * light + chroma * chroma + shade * shade + turned * chroma * shade)
}

/// The least distance between two of the colours for an eye.
fn least(colours: &[&str], eye: &Matrix) -> f64 {
    let seen: Vec<Triple> = colours.iter().map(|hex| lab(times(eye, linear(hex)))).collect();
    let pairs =
        seen.iter().enumerate().flat_map(|(i, a)| seen[i + 1..].iter().map(move |b| distance(*a, *b)));
    pairs.fold(f64::INFINITY, f64::min)
}

fn sheet() -> String {
    std::fs::read_to_string(concat!(env!("CARGO_MANIFEST_DIR"), "/../../www/tokens.css"))
        .expect("www/tokens.css")
}

/// The themes: how each begins in the sheet, and the least contrast of what says a force or is read.
const THEMES: [(&str, f64); 5] = [
    (":root,:host{", 4.5),
    ("[data-theme=dark],:host([data-theme=dark]){", 4.5),
    ("[data-theme=projector],:host([data-theme=projector]){", 7.0),
    ("[data-theme=sunlight],:host([data-theme=sunlight]){", 7.0),
    (":root:not([data-theme]){", 4.5),
];

/// The block of a theme.
fn block<'a>(sheet: &'a str, selector: &str) -> &'a str {
    sheet
        .split(selector)
        .nth(1)
        .and_then(|rest| rest.split('}').next())
        .unwrap_or_else(|| panic!("{selector}"))
}

fn value<'a>(block: &'a str, token: &str) -> &'a str {
    let (_, rest) = block.split_once(&format!("{token}:")).unwrap_or_else(|| panic!("no {token}"));
    rest.split(';').next().unwrap().trim()
}

/// The number that `text` begins with.
fn number(text: &str) -> Option<f64> {
    let end = text.find(|c: char| c != '.' && !c.is_ascii_digit()).unwrap_or(text.len());
    text[..end].parse().ok()
}

/// Every token with the contrast that the comment right after it claims.
fn claimed(block: &str) -> Vec<(&str, &str, f64)> {
    let tokens = block.split("--").skip(1).filter_map(|part| {
        let (name, rest) = part.split_once(":#")?;
        let (hex, rest) = rest.split_at_checked(6)?;
        let claim = number(rest.trim_start_matches(';').trim_start().strip_prefix("/*")?.trim_start())?;
        Some((name, hex, claim))
    });
    tokens.collect()
}

#[test]
fn contrast_is_what_the_style_sheet_says() {
    let sheet = sheet();
    for (selector, _) in THEMES {
        let block = block(&sheet, selector);
        let paper = value(block, "--paper");
        let claims = claimed(block);
        assert!(claims.len() >= 7, "{selector} says its contrasts: {claims:?}");
        for (name, hex, claim) in claims {
            let found = contrast(&format!("#{hex}"), paper);
            assert!(fabs(found - claim) <= 0.0501, "{selector} --{name}: {found:.3}, not {claim}");
        }
    }
}

#[test]
fn forces_and_words_stand_out_from_the_paper_of_every_theme() {
    let sheet = sheet();
    for (selector, wanted) in THEMES {
        let block = block(&sheet, selector);
        for token in FORCES.iter().chain(&["--ink", "--ink-2", "--pencil"]) {
            let found = contrast(value(block, token), value(block, "--paper"));
            assert!(found >= wanted, "{selector} {token}: {found:.2}, at least {wanted}");
        }
        // What only has to be made out, not read.
        for token in ["--figure", "--out-hatch"] {
            let found = contrast(value(block, token), value(block, "--paper"));
            assert!(found >= 3.0, "{selector} {token}: {found:.2}");
        }
    }
}

#[test]
fn in_sunlight_nothing_that_is_drawn_is_fainter_than_print() {
    let sheet = sheet();
    let block = block(&sheet, "[data-theme=sunlight],:host([data-theme=sunlight]){");
    for token in ["--figure", "--out-hatch", "--rule"] {
        let wanted = if token == "--rule" { 4.5 } else { 7.0 };
        let found = contrast(value(block, token), "#FFFFFF");
        assert!(found >= wanted, "{token}: {found:.2}");
    }
    for tint in ["--paper", "--timber", "--earth", "--out-wash"] {
        assert_eq!(value(block, tint), "#FFFFFF", "{tint} washes out");
    }
}

#[test]
fn forces_stay_apart_for_every_eye() {
    let sheet = sheet();
    for (selector, _) in THEMES {
        let block = block(&sheet, selector);
        let inks = FORCES.map(|token| value(block, token));
        let (_, said) =
            block.split_once("least dE:").unwrap_or_else(|| panic!("{selector} says its distances"));
        for (eye, matrix, second) in [
            ("usual", USUAL, None),
            ("protan", PROTAN, Some(PROTAN_1999)),
            ("deutan", DEUTAN, Some(DEUTAN_1999)),
            ("tritan", TRITAN, None),
        ] {
            let (_, claim) = said.split_once(eye).unwrap();
            let held = |claim: &str, matrix: &Matrix, by: &str| {
                let (claim, found) = (number(claim).unwrap(), least(&inks, matrix));
                assert!(fabs(found - claim) <= 0.0501, "{selector} {eye}{by}: {found:.2}, not {claim}");
                assert!(found >= 15.0, "{selector} {eye}{by}: {found:.2} is too near");
            };
            held(claim.trim_start(), &matrix, "");
            if let Some(matrix) = second {
                held(claim.split_once('(').unwrap().1, &matrix, " (1999)");
            }
        }
    }
}

/// Sharma, Wu and Dalal 2005, table 1: pairs 1, 7, 17, 20, 25.
#[test]
fn the_distance_is_that_of_its_paper() {
    for (a, b, wanted) in [
        ([50.0, 2.6772, -79.7751], [50.0, 0.0, -82.7485], 2.0425),
        ([50.0, 0.0, 0.0], [50.0, -1.0, 2.0], 2.3669),
        ([50.0, 2.5, 0.0], [73.0, 25.0, -18.0], 27.1492),
        ([50.0, 2.5, 0.0], [50.0, 3.1736, 0.5854], 1.0),
        ([60.2574, -34.0099, 36.2677], [60.4626, -34.1751, 39.4387], 1.2644),
    ] {
        let found = distance(a, b);
        assert!(fabs(found - wanted) < 5e-5, "{found} for {wanted}");
    }
    assert!(fabs(contrast("#000000", "#FFFFFF") - 21.0) < 1e-9);
}
