//! The holes of a draft along its axis.
use super::allowances::allowances;
use super::feature::Feature;
use super::kinds::has_kind;
use super::layout::{AxialHole, RUN_OUT};
use super::route::Route;
use crate::{Size, Units};
use serde_json::json;

impl<'r> Route<'r> {
    /// Drills a hole, and taps it where it is a thread.
    pub(super) fn hole(&mut self, hole: &AxialHole<'r>) {
        let threaded = hole.thread.is_some().then(|| self.designation(hole));
        let given =
            hole.name.map(Into::into).or_else(|| threaded.as_ref().map(|thread| format!("thread {thread}")));
        let name = given.unwrap_or_else(|| format!("hole {}", hole.feature + 1));
        let bored = if threaded.is_some() { format!("hole of {name}") } else { name.clone() };
        let bore = self.characteristic("bore", &bored, &hole.text, hole.roughness);
        if threaded.is_some() {
            self.inspected_by("pin gauges; the thread by go and no-go plug gauges");
        }
        let deep = hole.asked.map(|asked| {
            let name = format!("depth of {name}");
            self.characteristic("depth", &name, &asked.text, None)
        });
        let whole = self.layout.length.limits.upper();
        let through = hole.bore.nominal().to_float(self.request.units);
        let breakthrough: f64 = format!("{:.3}", 0.3 * through).parse().unwrap_or(through);
        // A close hole is drilled smaller, then reamed.
        let is_close = hole.thread.is_none() && self.is_close(hole) && has_kind("ream");
        let mut drill = match is_close {
            true => {
                let under = self.before_reaming(hole);
                json!({"kind": "drill", "tool": {"diameter": self.text(under)}})
            }
            false => json!({"kind": "drill", "makes": [bore]}),
        };
        match (hole.depth, &hole.thread) {
            (None, _) => {
                drill["depth"] = self.text(whole).into();
                drill["breakthrough"] = breakthrough.into();
            }
            (Some(depth), Some(_)) => drill["depth"] = self.text(depth).into(),
            (Some(_), None) if is_close => drill["makes"] = json!([deep]),
            (Some(_), None) => drill["makes"] = json!([bore, deep]),
        }
        self.operation(
            drill,
            "holes follow the outside, from the deepest to the largest, while the end runs true",
        );
        if is_close {
            let mut ream = json!({"kind": "ream", "makes": [bore]});
            if hole.depth.is_none() {
                ream["breakthrough"] = breakthrough.into();
            }
            self.operation(ream, "reamed after its drill, for the size and the finish asked for");
        }
        let Some(thread) = &hole.thread else { return };
        let mut tap =
            json!({"kind": "tap", "makes": deep.into_iter().collect::<Vec<_>>(), "thread": threaded});
        if hole.depth.is_none() {
            let over =
                thread.thread_pitch().checked_mul(RUN_OUT - 1).and_then(|over| whole.checked_add(over));
            tap["travel"] = self.text(over.unwrap_or(whole)).into();
        }
        self.operation(tap, "tapped right after its drill");
    }

    /// The thread of a hole as the request has it.
    fn designation(&self, hole: &AxialHole<'_>) -> String {
        match &self.request.features[hole.feature] {
            Feature::ThreadFeature(own) => own.thread.clone(),
            _ => String::new(),
        }
    }

    /// Whether a hole is closer or finer than a drill leaves it: common practice, no source.
    fn is_close(&self, hole: &AxialHole<'_>) -> bool {
        let own = allowances(self.request.units);
        hole.bore.tolerance() < own.close || hole.roughness.is_some_and(|ra| ra <= own.fine)
    }

    /// The drill before a reamer, which leaves about 0.2 mm, above 10 mm 0.3 mm, in steps of 0.1 mm or .001 in: common
    /// practice, no source.
    fn before_reaming(&self, hole: &AxialHole<'_>) -> Size {
        let left = if hole.bore.nominal() > Size::from_picometres(10_000_000_000) { 300 } else { 200 };
        let step = match self.request.units {
            Units::Inch => Size::from_picometres(25_400_000),
            Units::Metric => Size::from_picometres(100_000_000),
        };
        let under = hole.bore.middle().checked_sub(Size::from_picometres(left * 1_000_000));
        under.and_then(|under| under.round_down(step).ok()).unwrap_or(hole.bore.lower())
    }
}
