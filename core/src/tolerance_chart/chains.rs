//! The states of the faces, and the chains between them.
use super::chart::{Facing, OperationChart, Step};
use super::error::{ChartError, MAX_ENTRIES};
use std::collections::HashMap;

/// Two states, the left one first: what lies between them is the place of the second less that of the first.
pub(super) type Span = [usize; 2];

/// Distances between states, of which any two states are joined by one chain at most.
pub(super) struct Forest {
    /// For each state those beside it, and the distance between.
    neighbours: Vec<Vec<(usize, usize)>>,
    spans: Vec<Span>,
}

impl Forest {
    pub(super) fn new(states: usize) -> Forest {
        Forest { neighbours: vec![vec![]; states], spans: vec![] }
    }

    /// Adds a distance that the others do not give.
    pub(super) fn join(&mut self, span: Span) {
        let [left, right] = span;
        self.neighbours[left].push((right, self.spans.len()));
        self.neighbours[right].push((left, self.spans.len()));
        self.spans.push(span);
    }

    /// The distances that make up the one of a span, and whether each adds to it; `None` if nothing joins its ends.
    pub(super) fn chain(&self, [left, right]: Span) -> Option<Vec<(usize, bool)>> {
        // Walked from the right, so that the way back is from left to right.
        let mut came: Vec<Option<(usize, usize)>> = vec![None; self.neighbours.len()];
        let mut open = vec![right];
        while let Some(state) = open.pop() {
            if state == left {
                break;
            }
            for &(next, distance) in &self.neighbours[state] {
                if next != right && came[next].is_none() {
                    came[next] = Some((state, distance));
                    open.push(next);
                }
            }
        }
        let (mut chain, mut state) = (vec![], left);
        while state != right {
            let (next, distance) = came[state]?;
            chain.push((distance, self.spans[distance][0] == state));
            state = next;
        }
        Some(chain)
    }
}

/// The states of the faces of a chart, and what joins them.
pub(super) struct States {
    pub(super) count: usize,
    /// The working dimensions, those of the stock first.
    pub(super) working: Forest,
    pub(super) working_spans: Vec<Span>,
    /// For each cut the stock that it removes, if the face was there.
    pub(super) removals: Vec<Option<Span>>,
    /// For each dimension of the drawing.
    pub(super) drawing: Vec<Span>,
}

/// The states as they come about.
struct Builder<'a> {
    chart: &'a OperationChart,
    places: HashMap<&'a str, usize>,
    count: usize,
    /// The state that each face is in, if it is there.
    now: Vec<Option<usize>>,
}

impl Builder<'_> {
    fn place(&self, face: &str, what: impl Fn() -> String) -> Result<usize, ChartError> {
        let unknown = || ChartError::UnknownFace { what: what(), face: face.into() };
        self.places.get(face).copied().ok_or_else(unknown)
    }

    /// The places of two faces, which are two.
    fn pair(&self, face: &str, from: &str, what: impl Fn() -> String) -> Result<[usize; 2], ChartError> {
        let pair = [self.place(face, &what)?, self.place(from, &what)?];
        match pair[0] == pair[1] {
            true => Err(ChartError::Itself { what: what(), face: face.into() }),
            false => Ok(pair),
        }
    }

    /// The state of a face that is there.
    fn there(&self, place: usize, what: impl Fn() -> String) -> Result<usize, ChartError> {
        let face = &self.chart.faces[place].name;
        self.now[place].ok_or_else(|| ChartError::NotThere { what: what(), face: face.clone() })
    }

    /// A new state of a face.
    fn make(&mut self, place: usize) -> usize {
        self.now[place] = Some(self.count);
        self.count += 1;
        self.count - 1
    }

    /// The state of a face of the stock.
    fn given(&mut self, place: usize) -> usize {
        self.now[place].unwrap_or_else(|| self.make(place))
    }
}

/// States in the order of their faces from left to right.
fn span([face, from]: [usize; 2], [state, datum]: [usize; 2]) -> Span {
    if from < face { [datum, state] } else { [state, datum] }
}

fn bounded(what: &'static str, count: usize) -> Result<(), ChartError> {
    if count > MAX_ENTRIES { Err(ChartError::TooMany { what, count }) } else { Ok(()) }
}

impl States {
    pub(super) fn of(chart: &OperationChart) -> Result<States, ChartError> {
        bounded("faces", chart.faces.len())?;
        bounded("datums", chart.datums.len())?;
        bounded("stock dimensions", chart.stock.len())?;
        bounded("cuts", chart.cuts.len())?;
        bounded("drawing dimensions", chart.drawing.len())?;
        chart.check_sizes()?;
        let mut places = HashMap::new();
        for (place, face) in chart.faces.iter().enumerate() {
            if places.insert(face.name.as_str(), place).is_some() {
                return Err(ChartError::DuplicateFace { face: face.name.clone() });
            }
        }
        let mut builder = Builder { chart, places, count: 0, now: vec![None; chart.faces.len()] };
        let mut working = Forest::new(chart.faces.len() + chart.cuts.len());
        let mut working_spans = vec![];
        for face in &chart.datums {
            let place = builder.place(face, || "datum".into())?;
            builder.given(place);
        }
        for (k, stock) in chart.stock.iter().enumerate() {
            let what = || chart.describe(Step::Stock(k));
            let pair = builder.pair(&stock.face, &stock.from, what)?;
            let span = span(pair, pair.map(|place| builder.given(place)));
            if working.chain(span).is_some() {
                return Err(ChartError::OverDetermined { what: what() });
            }
            working.join(span);
            working_spans.push(span);
        }
        let mut removals = vec![];
        for (k, cut) in chart.cuts.iter().enumerate() {
            let what = || chart.describe(Step::Cut(k));
            let pair = builder.pair(&cut.face, &cut.from, what)?;
            let (datum, old) = (builder.there(pair[1], what)?, builder.now[pair[0]]);
            if cut.least_removal.is_negative() {
                return Err(ChartError::LeastRemoval { what: what(), least_removal: cut.least_removal });
            }
            if old.is_none() && cut.least_removal.is_positive() {
                return Err(ChartError::NewFace { what: what() });
            }
            let new = builder.make(pair[0]);
            let span = span(pair, [new, datum]);
            working.join(span);
            working_spans.push(span);
            removals.push(old.map(|old| match chart.faces[pair[0]].facing {
                Facing::Left => [old, new],
                Facing::Right => [new, old],
            }));
        }
        let mut drawing = vec![];
        for dimension in &chart.drawing {
            let what = || dimension.what();
            let pair = builder.pair(&dimension.face, &dimension.from, what)?;
            drawing.push(span(pair, [builder.there(pair[0], what)?, builder.there(pair[1], what)?]));
        }
        Ok(States { count: builder.count, working, working_spans, removals, drawing })
    }
}
