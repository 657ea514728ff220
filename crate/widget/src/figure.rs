//! One figure in the page: a state, its pictures, and what the page asks of them.

use crate::action::Action;
use crate::canvas::{CanvasPainter, Told};
use crate::chart_backend::ChartCanvas;
use crate::message;
use crate::state::{Motion, State};
use crate::told;
use crate::view::view;
use crate::working::working;
use outlean_picture::curves::{Chart, Curves, Grip, Options, PanelKind, Panels};
use outlean_picture::{
    FrontView, FrontViewInput, HandleState, Inks, Polygon, PolygonInput, Scene, Show, SideView,
    SideViewInput, Subject, Words, front_view, paint, parts_past, polygon, side_view,
};
use outlean_rig::{
    Case, FARTHEST_BACK, FARTHEST_OUT, Fault, Interval, Lever, Limit, Part, Rig, Scatter, Station,
    WorkingRange,
};
use outlean_rigfile::{Units, first_guy, key_of, show};
use wasm_bindgen::prelude::*;

/// A frame that can be leaned, for `<outlean-rig>`.
#[wasm_bindgen]
pub struct RigFigure {
    state: State,
    words: Words,
    inks: Inks,
    fault: Option<Fault>,
    side: Option<SideView>,
    front: Option<FrontView>,
    polygon: Option<Polygon>,
    chart: Option<Chart>,
    bands: bool,
    /// The texts of what was painted last.
    texts: String,
}

#[wasm_bindgen]
impl RigFigure {
    /// A figure of `rig` (SI, by the keys of the field table), in `words` (templates by key).
    ///
    /// # Errors
    ///
    /// What is wrong with the rig.
    #[wasm_bindgen(constructor)]
    pub fn new(rig: &JsValue, words: &JsValue) -> Result<RigFigure, JsValue> {
        let words = message::words(words);
        let state =
            State::new(message::rig(rig)?).map_err(|fault| explained(&fault, Units::Metric, &words))?;
        Ok(Self {
            state,
            words,
            inks: Inks::LIGHT,
            fault: None,
            side: None,
            front: None,
            polygon: None,
            chart: None,
            bands: false,
            texts: String::new(),
        })
    }

    /// Does an action and says what it changed, in the flags of `Change::flags`.
    ///
    /// # Errors
    ///
    /// Names a kind that is not known.
    pub fn act(&mut self, kind: &str, key: &str, value: f64, word: &str) -> Result<u32, JsValue> {
        let action =
            Action::of(kind, key, value, word).ok_or_else(|| format!("there is no action `{kind}`"))?;
        Ok(self.done(action))
    }

    /// Shows another rig, and says what it changed.
    ///
    /// # Errors
    ///
    /// What is wrong with an object that is no rig.
    pub fn load(&mut self, rig: &JsValue) -> Result<u32, JsValue> {
        let rig = Box::new(message::rig(rig)?);
        Ok(self.done(Action::Load { rig }))
    }

    /// Shows another rig as a step that can be taken back, and says what it changed.
    ///
    /// # Errors
    ///
    /// What is wrong with an object that is no rig.
    pub fn show(&mut self, rig: &JsValue) -> Result<u32, JsValue> {
        let rig = Box::new(message::rig(rig)?);
        Ok(self.done(Action::Show { rig }))
    }

    /// Whether something moves and ticks are wanted.
    pub fn moving(&self) -> bool {
        self.state.moving()
    }

    /// What the page shows of it in words.
    pub fn view(&self) -> JsValue {
        told::view(&view(&self.state, &self.words))
    }

    /// The working behind a number of the readings, by its key there; `undefined` where there is none.
    pub fn working(&self, key: &str) -> JsValue {
        working(&self.state, &self.words, key)
            .map_or(JsValue::UNDEFINED, |working| told::working(&working, &self.words, self.state.units()))
    }

    /// The rig as it is, SI, by the keys of the field table.
    pub fn rig(&self) -> JsValue {
        message::plain_rig(self.state.rig())
    }

    /// Why the last action changed nothing, in words; empty where it did.
    pub fn fault(&self) -> String {
        self.fault.map(|fault| explained(&fault, self.state.units(), &self.words)).unwrap_or_default()
    }

    /// The colours of the page, by token name.
    #[wasm_bindgen(js_name = setInks)]
    pub fn set_inks(&mut self, colours: &JsValue) {
        self.inks = Inks::read(|token| message::text(colours, token).unwrap_or_default());
    }

    /// Paints the side view, `width` by `height` CSS pixels of `ratio` device pixels each, with strokes and type scaled
    /// by `k`. `handle` and `anchor`, at the aft holdfast, are `rest`, `hover`, `focus` or `dragged`. Gives what a canvas
    /// is told: for each thing which, how many numbers, the numbers, as `www/paint.js` has it; so do the other two.
    #[wasm_bindgen(js_name = paintSide)]
    pub fn paint_side(
        &mut self,
        width: f64,
        height: f64,
        ratio: f64,
        k: f64,
        handle: &str,
        anchor: &str,
    ) -> Vec<f64> {
        let state = &self.state;
        let over = over(state);
        let unmarked = unmarked_range(state.range());
        let subject = subject(state, &self.words, &over, (width, height, k));
        let input = SideViewInput {
            of: if state.veiled() { Subject { range: &unmarked, ..subject } } else { subject },
            show: shown(state, k),
            handle: handle_state(handle),
            // From the back row it would be one thing too many.
            anchor: (k < outlean_picture::PROJECTOR).then(|| handle_state(anchor)),
            tipping: fallen(state),
            seats: self.side.as_ref().map(|side| &side.seats),
        };
        let side = side_view(&input);
        let told = self.painted(&side.scene, ratio);
        self.side = Some(side);
        self.sent(told)
    }

    /// Paints the frame from behind. `beside` draws it and its forces to the scales of the side view; `handle` as for
    /// that, of a foot.
    #[wasm_bindgen(js_name = paintFront)]
    pub fn paint_front(
        &mut self,
        width: f64,
        height: f64,
        ratio: f64,
        k: f64,
        handle: &str,
        beside: bool,
    ) -> Vec<f64> {
        let state = &self.state;
        let side = self.side.as_ref().filter(|_| beside);
        let over = over(state);
        let front = front_view(&FrontViewInput {
            of: subject(state, &self.words, &over, (width, height, k)),
            scale: side.map(|side| side.scale),
            force_scale: side.map(|side| side.force_scale),
            // Beside the side view there is no room for them.
            show: if beside { Show { ground_forces: false, ..shown(state, k) } } else { shown(state, k) },
            handle: handle_state(handle),
            tipping: fallen(state),
            seats: self.front.as_ref().map(|front| &front.seats),
        });
        let told = self.painted(&front.scene, ratio);
        self.front = Some(front);
        self.sent(told)
    }

    /// Paints the forces on the head, tail to head; nothing while forces are hidden. `beside` draws them to the scale of
    /// the side view where they fit.
    #[wasm_bindgen(js_name = paintForces)]
    pub fn paint_forces(&mut self, width: f64, height: f64, ratio: f64, k: f64, beside: bool) -> Vec<f64> {
        let state = &self.state;
        if state.veiled() {
            return self.sent(Told::cleared(width, height, ratio));
        }
        let over = over(state);
        let polygon = polygon(&PolygonInput {
            of: subject(state, &self.words, &over, (width, height, k)),
            px_per_newton: self.side.as_ref().filter(|_| beside).map(|side| side.scale * side.force_scale),
            seats: self.polygon.as_ref().map(|polygon| &polygon.seats),
        });
        let told = self.painted(&polygon.scene, ratio);
        self.polygon = Some(polygon);
        self.sent(told)
    }

    /// The texts that go with what was painted last, each ended by a line feed.
    pub fn texts(&self) -> String {
        self.texts.clone()
    }

    /// Where the handle stands on the side view, x and y; the corner before it was painted.
    pub fn handle(&self) -> Vec<f64> {
        let (x, y) = self.side.as_ref().map_or((0.0, 0.0), |side| side.handle);
        vec![x, y]
    }

    /// Where the handle at the aft holdfast stands on the side view, x and y; empty where there is none.
    pub fn anchor(&self) -> Vec<f64> {
        self.side.as_ref().and_then(|side| side.anchor).map_or_else(Vec::new, |(x, y)| vec![x, y])
    }

    /// The setback, m, at which that handle would stand at a place on the side view.
    #[wasm_bindgen(js_name = setbackAt)]
    pub fn setback_at(&self, x: f64, y: f64) -> f64 {
        self.side.as_ref().map_or(f64::NAN, |side| side.setback_at(x, y))
    }

    /// Where the handle at a foot stands on the front view, x and y; the corner before it was painted.
    pub fn foot(&self) -> Vec<f64> {
        let (x, y) = self.front.as_ref().map_or((0.0, 0.0), |front| front.handle);
        vec![x, y]
    }

    /// The spread, m, at which that handle would stand at a place on the front view.
    #[wasm_bindgen(js_name = spreadAt)]
    pub fn spread_at(&self, x: f64, y: f64) -> f64 {
        self.front.as_ref().map_or(f64::NAN, |front| front.spread_at(x, y))
    }

    /// The lean, rad, at which the handle would stand at a place on the side view.
    #[wasm_bindgen(js_name = leanAt)]
    pub fn lean_at(&self, x: f64, y: f64) -> f64 {
        self.side.as_ref().map_or(f64::NAN, |side| side.lean_at(x, y))
    }

    /// Whether the rig has what curves can run over: `lean`, `setback` of the aft guy, `spread` of the feet, `haul`
    /// direction.
    #[wasm_bindgen(js_name = curvesOffer)]
    pub fn curves_offer(&self, over: &str) -> bool {
        lever(self.state.rig(), over).is_some()
    }

    /// Whether the curves have uncertainty bands, of [`Scatter::USUAL`].
    #[wasm_bindgen(js_name = setBands)]
    pub fn set_bands(&mut self, bands: bool) {
        self.bands = bands;
    }

    /// Draws a few more of the rigs that the uncertainty bands are of; whether there were any left to draw. What is drawn is seen
    /// when the curves are painted next.
    #[wasm_bindgen(js_name = drawBands)]
    pub fn draw_bands(&mut self) -> bool {
        self.chart.as_mut().is_some_and(|chart| chart.draw_bands(4))
    }

    /// Paints what stays of the curves while what they run `over` moves; over the lean where the rig has no such thing. To
    /// be called when rig, units, size or colours change, and over anything but the lean when that does. `panels` is
    /// `guys` for those alone, else both.
    ///
    /// # Errors
    ///
    /// What is wrong with a rig that has no curves.
    #[wasm_bindgen(js_name = paintCurves)]
    pub fn paint_curves(
        &mut self,
        width: f64,
        height: f64,
        ratio: f64,
        k: f64,
        panels: &str,
        over: &str,
    ) -> Result<Vec<f64>, JsValue> {
        let state = &self.state;
        let lever = lever(state.rig(), over).unwrap_or(Lever::Lean);
        let options = Options {
            width,
            height,
            k,
            units: state.units(),
            panels: if panels == "guys" { Panels::Only(PanelKind::Guys) } else { Panels::Both },
            revealed: !state.veiled(),
        };
        let known = |chart: &Chart| *chart.options() == options && chart.curves().lever == lever;
        let mut chart = match self.chart.take().filter(known) {
            Some(chart) => chart,
            None => {
                let curves = Curves::of(state.rig(), state.range(), lever)
                    .map_err(|fault| explained(&fault, state.units(), &self.words))?;
                // A lever is only asked for where there is one.
                let Some(curves) = curves else { return Ok(Vec::new()) };
                Chart::new(curves, options, &self.words)
            }
        };
        if self.bands != chart.banded() {
            let scatter = self.bands.then_some(Scatter::USUAL);
            let told = |fault| explained(&fault, state.units(), &self.words);
            chart.band(state.rig(), scatter).map_err(told)?;
        }
        let under = chart.under();
        let mut told = Told::cleared(under.width, under.height, ratio);
        paint(&under, &mut CanvasPainter::new(&mut told, ratio, &self.inks));
        // Writing down cannot fail.
        let _ = chart.lines(&self.inks, ChartCanvas::new(&mut told, (under.width, under.height), ratio));
        paint(&chart.over(), &mut CanvasPainter::new(&mut told, ratio, &self.inks));
        self.chart = Some(chart);
        Ok(self.sent(told))
    }

    /// Paints what moves over the curves: cursor, values, pointer. `grip` is whether the cursor is held.
    #[wasm_bindgen(js_name = paintCursor)]
    pub fn paint_cursor(&mut self, ratio: f64, held: bool) -> Vec<f64> {
        let Some(chart) = &self.chart else { return Vec::new() };
        let grip = if held { Grip::Dragged } else { Grip::Rest };
        let scene = chart.cursor(self.state.rig(), self.state.solution(), grip);
        let told = self.painted(&scene, ratio);
        self.sent(told)
    }

    /// What the curves run over, SI, at `x` CSS pixels from their left; NaN before they were painted.
    #[wasm_bindgen(js_name = curvesAt)]
    pub fn curves_at(&self, x: f64) -> f64 {
        self.chart.as_ref().map_or(f64::NAN, |chart| chart.value_at(x))
    }
}

impl RigFigure {
    /// What a canvas is told to show a scene.
    fn painted(&self, scene: &Scene, ratio: f64) -> Told {
        let mut told = Told::cleared(scene.width, scene.height, ratio);
        paint(scene, &mut CanvasPainter::new(&mut told, ratio, &self.inks));
        told
    }

    /// Keeps the texts to be asked for.
    fn sent(&mut self, told: Told) -> Vec<f64> {
        self.texts = told.texts;
        told.numbers
    }

    fn done(&mut self, action: Action) -> u32 {
        let over = self.chart.as_ref().map(|chart| chart.curves().lever);
        // Curves do not hang on what they run over, as long as nothing else is set with it.
        let along = match &action {
            Action::Set { key, .. } | Action::SetStepped { key, .. } | Action::Step { key, .. } => match over
            {
                Some(Lever::Setback(_)) => key == "aft.setback",
                Some(Lever::Spread) => key == "feet.spread",
                _ => false,
            },
            _ => false,
        };
        let change = self.state.act(action);
        self.fault = change.fault;
        let moved = change.rig && !along || change.lean && !along && over != Some(Lever::Lean);
        if moved || change.units || change.veil {
            self.chart = None;
        }
        change.flags()
    }
}

/// What a figure shows, on a plate of that width, height and k.
fn subject<'a>(
    state: &'a State,
    words: &'a Words,
    over: &'a [Part],
    (width, height, k): (f64, f64, f64),
) -> Subject<'a> {
    Subject {
        rig: state.rig(),
        solution: state.solution(),
        range: state.range(),
        over,
        units: state.units(),
        words,
        width,
        height,
        k,
        grown: state.grown(),
    }
}

/// What curves of a rig run over, by its name in the page; `None` where the rig has no such thing.
fn lever(rig: &Rig, over: &str) -> Option<Lever> {
    let lever = match over {
        "setback" => Lever::Setback(first_guy(rig, Station::Aft)?),
        "spread" => Lever::Spread,
        "haul" => Lever::HaulDirection,
        _ => Lever::Lean,
    };
    lever.get(rig).map(|_| lever)
}

/// Parts past what they may carry; none while forces are hidden.
fn over(state: &State) -> Vec<Part> {
    if state.veiled() { Vec::new() } else { parts_past(state.rig(), state.solution()) }
}

/// Few things at once from the back row, and on a small plate.
fn shown(state: &State, k: f64) -> Show {
    let few = k >= outlean_picture::PROJECTOR;
    let small = k < 1.0;
    let show = if state.veiled() { Show::RIG_ALONE } else { Show::USUAL };
    Show { dimensions: !few, ground_forces: !few && !small && !state.veiled(), ..show }
}

fn handle_state(name: &str) -> HandleState {
    match name {
        "hover" => HandleState::Hover,
        "focus" => HandleState::Focus,
        "dragged" => HandleState::Dragged,
        _ => HandleState::Rest,
    }
}

/// How far the fall of a frame that tips has gone.
fn fallen(state: &State) -> Option<f64> {
    match state.motion() {
        Motion::Falling(fall) => Some(fall.progress()),
        Motion::Still | Motion::Sweeping(_) => None,
    }
}

/// A range that marks nothing on the arc: what is shown while a prediction is open.
fn unmarked_range(range: &WorkingRange) -> WorkingRange {
    let mut unmarked = range.clone();
    unmarked.intervals.clear();
    unmarked.intervals.push(Interval {
        from: FARTHEST_BACK,
        to: FARTHEST_OUT,
        from_limit: Limit::NotLookedFurther,
        to_limit: Limit::NotLookedFurther,
        from_case: Case::default(),
        to_case: Case::default(),
    });
    unmarked
}

/// A fault in words: the field, its value and what is allowed.
fn explained(fault: &Fault, units: Units, words: &Words) -> String {
    let Fault { field, value, allowed } = fault;
    let shown = |value: f64| show(value, field.dimension(), units).to_string();
    let key = format!("control.{}", key_of(*field).unwrap_or_default());
    let (value, least, most) = (shown(*value), shown(allowed.least), shown(allowed.most));
    let places = [("field", words.say(&key)), ("value", &value), ("least", &least), ("most", &most)];
    words.fill("fault.rig", &places)
}

/// The numbers of a rig's solution and, where asked for, of its working range, for programs that want no picture.
///
/// # Errors
///
/// What is wrong with an object that is no rig.
#[wasm_bindgen]
pub fn numbers(rig: &JsValue, with_range: bool) -> Result<Vec<f64>, JsValue> {
    Ok(crate::solved::all_numbers(&message::rig(rig)?, with_range))
}
