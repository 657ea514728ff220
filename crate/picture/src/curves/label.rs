//! Lettering of the curves: each line named at the line, nothing over anything else.

use super::plan::{Plan, Plot, on_axis};
use super::sample::{Curves, Panel, PanelKind, Sample, Series, member};
use crate::label::{ABOVE, BELOW};
use crate::sort_few::sort_few;
use crate::{Anchor, Area, Kind, Lettering, Tone, Words, width};
use outlean_rig::{Dimension, Lever, Quantity, Side, Station, Tip};
use outlean_rigfile::{Units, show};

/// One line of lettering in its place.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Label {
    pub(crate) text: String,
    pub(crate) x: f64,
    pub(crate) baseline: f64,
    pub(crate) anchor: Anchor,
    pub(crate) lettering: Lettering,
    pub(crate) tone: Tone,
    /// The box it fills.
    pub(crate) area: Area,
}

impl Label {
    pub(crate) fn new(
        text: String,
        (x, baseline): (f64, f64),
        anchor: Anchor,
        (lettering, tone): (Lettering, Tone),
        k: f64,
    ) -> Self {
        let style = lettering.style(tone, k);
        let across = width(&text, style.face, style.size);
        let left = match anchor {
            Anchor::Start => x,
            Anchor::Middle => x - 0.5 * across,
            Anchor::End => x - across,
        };
        let (top, bottom) = (baseline - ABOVE * style.size, baseline + BELOW * style.size);
        let area = Area::new(left, top, left + across, bottom);
        Self { text, x, baseline, anchor, lettering, tone, area }
    }

    /// The same label with the left top of its box elsewhere.
    fn moved_to(mut self, left: f64, top: f64) -> Self {
        let (dx, dy) = (left - self.area.left, top - self.area.top);
        self.x += dx;
        self.baseline += dy;
        self.area = Area::new(left, top, self.area.right + dx, self.area.bottom + dy);
        self
    }
}

/// What lettering in a panel must keep clear of.
#[derive(Clone, Debug, PartialEq)]
pub(crate) struct Clear {
    /// It must lie in here.
    pub(crate) bounds: Area,
    /// Other lettering.
    pub(crate) taken: Vec<Area>,
    /// The lines, px, each with x rising.
    pub(crate) lines: Vec<Vec<(f64, f64)>>,
    /// Level lines, px: the limits.
    pub(crate) levels: Vec<f64>,
    /// Upright lines, px: the balance lean.
    pub(crate) uprights: Vec<f64>,
}

impl Clear {
    /// Whether a box may stand there: within bounds, off all lettering.
    #[inline(never)]
    pub(crate) fn free(&self, area: Area, gap: f64) -> bool {
        let wide = area.grown(gap);
        self.bounds.holds(area) && !self.taken.iter().any(|other| wide.meets(*other))
    }

    /// How many lines of any kind run through a box.
    #[inline(never)]
    pub(crate) fn struck(&self, area: Area, gap: f64) -> usize {
        let wide = area.grown(gap);
        let level = self.levels.iter().filter(|y| wide.top < **y && **y < wide.bottom).count();
        let upright = self.uprights.iter().filter(|x| wide.left < **x && **x < wide.right).count();
        let through = |line: &&Vec<(f64, f64)>| {
            heights(line, wide.left, wide.right)
                .is_some_and(|(top, bottom)| top < wide.bottom && wide.top < bottom)
        };
        level + upright + self.lines.iter().filter(through).count()
    }
}

/// Least and greatest y of a line between two x; `None` where it has no point there.
#[inline(never)]
fn heights(line: &[(f64, f64)], from: f64, to: f64) -> Option<(f64, f64)> {
    let mut found: Option<(f64, f64)> = None;
    for pair in line.windows(2) {
        let &[(x0, y0), (x1, y1)] = pair else { continue };
        if x0 > to {
            break;
        }
        if x1 < from {
            continue;
        }
        let at = |x: f64| if x1 - x0 > 1e-9 { y0 + (y1 - y0) * ((x - x0) / (x1 - x0)) } else { y0 };
        let (a, b) = (at(from.max(x0).min(x1)), at(to.max(x0).min(x1)));
        let (top, bottom) = found.unwrap_or((a, a));
        found = Some((top.min(a).min(b), bottom.max(a).max(b)));
    }
    found
}

/// Least and greatest x of a line between two y; `None` where it has no point there.
fn breadths(line: &[(f64, f64)], from: f64, to: f64) -> Option<(f64, f64)> {
    let inside = line.iter().filter(|(_, y)| (from..=to).contains(y));
    inside.fold(None, |found, (x, _)| {
        let (left, right) = found.unwrap_or((*x, *x));
        Some((left.min(*x), right.max(*x)))
    })
}

/// All still lettering, and what the values at the cursor must keep clear of in each panel.
pub(crate) fn still(
    curves: &Curves,
    plan: &Plan,
    units: Units,
    revealed: bool,
    words: &Words,
) -> (Vec<Label>, Vec<Clear>) {
    let mut labels = scales(curves, plan, revealed, words);
    let mut clears = Vec::new();
    for plot in &plan.plots {
        let last = plan.plots.last() == Some(plot);
        let panel = curves.panel(plot.kind);
        let mut clear = Clear {
            bounds: Area::new(
                plot.area.left + 2.0,
                plot.area.top - 2.0,
                plot.area.right,
                plot.area.bottom - 1.0,
            ),
            taken: Vec::new(),
            lines: Vec::new(),
            levels: Vec::new(),
            uprights: Vec::new(),
        };
        let mut inner = Vec::new();
        if revealed {
            let place = |sample: &Sample| (plan.x_at(sample.at), plot.y_at(sample.value));
            let pieces = panel.series.iter().flat_map(|series| &series.pieces);
            clear.lines = pieces.map(|piece| piece.iter().map(place).collect()).collect();
            let limits = panel.allowables.iter().map(|one| one.value);
            clear.levels = limits.filter(|value| on_axis(panel, *value)).map(|v| plot.y_at(v)).collect();
            clear.uprights = shown_balance(curves).map(|lean| plan.x_at(lean)).collect();
            let mut room = Room { curves, plan, plot, panel, words, clear: &mut clear, labels: &mut inner };
            room.lines();
            room.limits(units);
            room.falls();
            if last {
                room.balance();
            }
        } else if plan.plots.first() == Some(plot) {
            let middle = (0.5 * (plot.area.left + plot.area.right), 0.5 * (plot.area.top + plot.area.bottom));
            let style = (Lettering::Title, Tone::Quiet);
            inner.push(Label::new(
                words.say("curves.veiled").to_owned(),
                middle,
                Anchor::Middle,
                style,
                plan.k,
            ));
        }
        labels.append(&mut inner);
        clears.push(clear);
    }
    labels.retain(|label| plan.all.holds(label.area));
    (labels, clears)
}

/// The balance leans worth a mark: not those at the very ends of the leans shown.
pub(crate) fn shown_balance(curves: &Curves) -> impl Iterator<Item = f64> {
    let edge = 0.5 * outlean_rigfile::DEG;
    curves.balance.iter().copied().filter(move |lean| curves.from + edge < *lean && *lean < curves.to - edge)
}

/// Titles, numbers of the axes, numbers of the rule, and where everything holds.
fn scales(curves: &Curves, plan: &Plan, revealed: bool, words: &Words) -> Vec<Label> {
    let (k, t) = (plan.k, plan.t);
    let note = (Lettering::Note, Tone::Quiet);
    let mut labels: Vec<Label> = Vec::new();
    let mut add = |label: Label| {
        if plan.all.holds(label.area) && !labels.iter().any(|other| other.area.meets(label.area)) {
            labels.push(label);
        }
    };
    let every = |apart: f64, need: f64| [1, 2, 5].into_iter().find(|n| apart * f64::from(*n) >= need);

    let scale = plan.scale;
    let numbered = scale.every(plan.x_at(plan.span.0 + scale.fine) - plan.sides.0, plan.number_room());
    for stroke in scale.strokes(plan.span).filter(|stroke| stroke % numbered == 0) {
        let (x, text) = (plan.x_at(f64::from(stroke) * scale.fine), scale.number(stroke));
        let y = plan.rule + super::plan::BAND * k + 14.5 * t;
        add(Label::new(text, (x, y), Anchor::Middle, note, k));
    }
    for plot in &plan.plots {
        let title = match plot.kind {
            PanelKind::Legs => "curves.legs",
            PanelKind::Guys => "curves.guys",
        };
        let title = words.fill(title, &[("unit", plot.axis.unit_name())]);
        let x = (plot.area.left - 22.0 * k).max(0.0);
        add(Label::new(title, (x, plot.title), Anchor::Start, (Lettering::Title, Tone::Ink), k));
        if !revealed {
            continue;
        }
        let apart = plot.y_at(0.0) - plot.y_at(plot.axis.step);
        let every_ticks = every(apart, 13.0 * t).unwrap_or(5) as usize;
        for (value, text) in plot.axis.ticks().step_by(every_ticks) {
            let at = (plot.area.left - 7.0 * k, plot.y_at(value) + 4.0 * t);
            add(Label::new(text, at, Anchor::End, note, k));
        }
    }
    if let Some(baseline) = plan.strip {
        for (from, to, inside) in plan.stretches(curves) {
            let key = match (inside, curves.ranges.is_empty(), curves.lever) {
                (true, _, Lever::Lean) => "curves.working_range",
                (true, ..) => "curves.all_hold",
                (false, true, Lever::Lean) => "curves.no_working_range",
                (false, true, _) => "curves.none_hold",
                (false, false, _) => "curves.outside",
            };
            let label =
                Label::new(words.say(key).to_owned(), (0.5 * (from + to), baseline), Anchor::Middle, note, k);
            if label.area.left >= from + 4.0 && label.area.right <= to - 4.0 {
                add(label);
            }
        }
    }
    labels
}

/// Finds seats for the lettering within one panel.
struct Room<'a> {
    curves: &'a Curves,
    plan: &'a Plan,
    plot: &'a Plot,
    panel: &'a Panel,
    words: &'a Words,
    clear: &'a mut Clear,
    labels: &'a mut Vec<Label>,
}

impl Room<'_> {
    fn take(&mut self, label: Label) {
        self.clear.taken.push(label.area);
        self.labels.push(label);
    }

    /// Where the widest stretch of the working range stands, or everything.
    fn widest(&self) -> (f64, f64) {
        let stretches = self.plan.stretches(self.curves);
        let inside = stretches.iter().filter(|(.., inside)| *inside);
        inside
            .max_by(|a, b| (a.1 - a.0).total_cmp(&(b.1 - b.0)))
            .map_or(self.plan.sides, |(from, to, _)| (*from, *to))
    }

    /// Every seat for a box `across` px wide between the sides of the panel: its left edge and what
    /// standing there costs.
    fn seats(&self, across: f64, wanted: f64) -> impl Iterator<Item = (f64, f64)> + use<> {
        let (from, to) = self.widest();
        let (left, right) = (self.clear.bounds.left + 2.0, self.clear.bounds.right - 2.0 - across);
        let step = 3.0 * self.plan.k;
        let count = libm::floor(((right - left) / step).clamp(-1.0, 4000.0)) as i32;
        (0..=count).map(move |i| {
            let x = left + f64::from(i) * step;
            let outside = if x >= from && x + across <= to { 0.0 } else { 45.0 };
            (x, outside + 0.12 * (x - wanted).abs())
        })
    }

    /// Names each line, above or below it, the upper of two above.
    fn lines(&mut self) {
        let series = &self.panel.series;
        let middle = |one: &Series| {
            let points = one.pieces.iter().flatten();
            let (sum, count) = points.fold((0.0, 0.0), |(sum, n), sample| (sum + sample.value, n + 1.0));
            sum / f64::max(count, 1.0)
        };
        let mut order: Vec<&Series> = series.iter().collect();
        sort_few(&mut order, |one| -middle(one));
        let kind = match self.panel.kind {
            PanelKind::Legs => Kind::Push,
            PanelKind::Guys => Kind::Pull,
        };
        let count = order.len();
        for (i, one) in order.into_iter().enumerate() {
            let text = name(self.curves, one.quantity, self.words);
            let style = (Lettering::Name, Tone::Of(kind));
            let label = Label::new(text, (0.0, 0.0), Anchor::Start, style, self.plan.k);
            let prefer_below = count > 1 && i + 1 == count;
            if let Some(label) = self.at_line(label, one, prefer_below) {
                self.take(label);
            }
        }
    }

    fn at_line(&self, label: Label, series: &Series, prefer_below: bool) -> Option<Label> {
        let gap = 4.0 * self.plan.k;
        let (across, high) = (label.area.right - label.area.left, label.area.bottom - label.area.top);
        let place = |sample: &Sample| (self.plan.x_at(sample.at), self.plot.y_at(sample.value));
        let own: Vec<Vec<(f64, f64)>> =
            series.pieces.iter().map(|piece| piece.iter().map(place).collect()).collect();
        let mut best: Option<(f64, Label)> = None;
        let mut offer = |x: f64, y: f64, cost: f64| {
            if best.as_ref().is_some_and(|(least, _)| *least <= cost) {
                return;
            }
            let here = label.clone().moved_to(x, y);
            if self.clear.free(here.area, 3.0) && self.clear.struck(here.area, 1.5) == 0 {
                best = Some((cost, here));
            }
        };
        for line in &own {
            let (Some(first), Some(last)) = (line.first(), line.last()) else { continue };
            for (x, cost) in self.seats(across, self.widest().0 + 8.0 * self.plan.k) {
                // A short line may have a longer name, as long as much of it lies along the line.
                let along = (x + across).min(last.0) - x.max(first.0);
                let Some((top, bottom)) = heights(line, x, x + across) else { continue };
                if along < 0.3 * across {
                    continue;
                }
                let cost = cost + 40.0 * (1.0 - along / across) + 1.5 * (bottom - top);
                offer(x, top - gap - high, cost + if prefer_below { 6.0 } else { 0.0 });
                offer(x, bottom + gap, cost + if prefer_below { 0.0 } else { 6.0 });
            }
            // Steep lines leave no room along them: beside them then, from the top down.
            let step = 4.0 * self.plan.k;
            let mut y = self.clear.bounds.top;
            while y + high < self.clear.bounds.bottom {
                if let Some((left, right)) = breadths(line, y, y + high) {
                    let far = |x: f64| 0.12 * (x - self.widest().0).abs() + 60.0;
                    offer(right + gap, y, far(right));
                    offer(left - gap - across, y, far(left) + 5.0);
                }
                y += step;
            }
        }
        best.map(|(_, label)| label)
    }

    /// Names each limit at its line; one that is off the scale is named at the top.
    fn limits(&mut self, units: Units) {
        let panel = self.panel;
        for one in &panel.allowables {
            let number = show(one.value, Dimension::Force, units).number;
            let Some(of) = member(one.part) else { continue };
            let level = self.plot.y_at(one.value);
            let shown = on_axis(panel, one.value);
            let alone = panel.series.len() == 1;
            let key = match (alone, shown) {
                (true, true) => "curves.allowable",
                (false, true) => "curves.allowable_of",
                (true, false) => "curves.allowable_off",
                (false, false) => "curves.allowable_of_off",
            };
            let text =
                self.words.fill(key, &[("name", &name(self.curves, of, self.words)), ("number", &number)]);
            let (lettering, tone) =
                if shown { (Lettering::Name, Tone::Ink) } else { (Lettering::Note, Tone::Quiet) };
            let label = Label::new(text, (0.0, 0.0), Anchor::Start, (lettering, tone), self.plan.k);
            let (across, high) = (label.area.right - label.area.left, label.area.bottom - label.area.top);
            let gap = 2.0 * self.plan.k;
            let tops = if shown {
                [(level - gap - high, 0.0), (level + gap + 1.0, 8.0)]
            } else {
                let top = self.plot.area.top + gap;
                [(top, 0.0), (top + high + gap, 10.0)]
            };
            let (from, to) = self.widest();
            let mut best: Option<(f64, Label)> = None;
            for (x, cost) in self.seats(across, from + 0.55 * (to - from)) {
                for (top, more) in tops {
                    let here = label.clone().moved_to(x, top);
                    let better = best.as_ref().is_none_or(|(least, _)| cost + more < *least);
                    if better && self.clear.free(here.area, 3.0) && self.clear.struck(here.area, 0.5) == 0 {
                        best = Some((cost + more, here));
                    }
                }
            }
            if let Some((_, label)) = best {
                self.take(label);
            }
        }
    }

    /// Says which way the frame tips where no line runs.
    fn falls(&mut self) {
        let curves = self.curves;
        for fall in &curves.falls {
            let key = match fall.tip {
                Some(Tip::Forward) => "curves.tips_forward",
                Some(Tip::Back) => "curves.tips_back",
                Some(Tip::Left) => "curves.tips_left",
                Some(Tip::Right) => "curves.tips_right",
                None => "curves.no_geometry",
            };
            let (from, to) = (self.plan.x_at(fall.from), self.plan.x_at(fall.to));
            let middle = (0.5 * (from + to), 0.5 * (self.plot.area.top + self.plot.area.bottom) + 4.0);
            let style = (Lettering::Note, Tone::Quiet);
            let label =
                Label::new(self.words.say(key).to_owned(), middle, Anchor::Middle, style, self.plan.k);
            let fits = label.area.left >= from + 3.0 && label.area.right <= to - 3.0;
            if fits && self.clear.free(label.area, 3.0) && self.clear.struck(label.area, 1.0) == 0 {
                self.take(label);
            }
        }
    }

    /// Names the balance lean at its mark, as high as there is room.
    fn balance(&mut self) {
        let curves = self.curves;
        for lean in shown_balance(curves) {
            let angle = show(lean, Dimension::Angle, Units::Metric).to_string();
            let text = self.words.fill("curves.balance_lean", &[("lean", &angle)]);
            let style = (Lettering::Note, Tone::Quiet);
            let label = Label::new(text, (0.0, 0.0), Anchor::Start, style, self.plan.k);
            let across = label.area.right - label.area.left;
            let x = self.plan.x_at(lean);
            let gap = 5.0 * self.plan.k;
            let mut top = self.plot.area.top + 2.0;
            'found: while top < self.plot.area.bottom {
                for left in [x + gap, x - gap - across] {
                    let here = label.clone().moved_to(left, top);
                    if self.clear.free(here.area, 3.0) && self.clear.struck(here.area, 2.0) == 0 {
                        self.take(here);
                        break 'found;
                    }
                }
                top += 4.0;
            }
        }
    }
}

/// What a line is called: "left leg", "each leg", "aft guy", and "aft guy 2" where there are several.
pub(crate) fn name(curves: &Curves, quantity: Quantity, words: &Words) -> String {
    match quantity {
        Quantity::LegCompression(_) if curves.legs_alike => words.say("curves.each_leg").to_owned(),
        Quantity::LegCompression(Side::Left) => words.say("curves.left_leg").to_owned(),
        Quantity::LegCompression(Side::Right) => words.say("curves.right_leg").to_owned(),
        Quantity::GuyTension(i) => {
            let station = curves.stations.get(usize::from(i)).copied().unwrap_or(Station::Side);
            let name = words.say(match station {
                Station::Aft => "curves.aft_guy",
                Station::Fore => "curves.fore_guy",
                Station::Side => "curves.side_guy",
            });
            let fellows =
                |until: usize| curves.stations.iter().take(until).filter(|s| **s == station).count();
            if fellows(curves.stations.len()) < 2 {
                return name.to_owned();
            }
            let number = (fellows(usize::from(i)) + 1).to_string();
            words.fill("curves.numbered", &[("name", name), ("number", &number)])
        }
        _ => String::new(),
    }
}
