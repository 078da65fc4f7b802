//! The law at many frequencies: where it is searched for the depth at a speed.
use super::complex::Complex;
use super::law::{Law, lag};
use super::structure::{Structure, hertz};

/// How far below and above the modes chatter is looked for, as shares of their frequencies.
const BELOW: f64 = 0.02;
const ABOVE: f64 = 10.0;
/// Frequencies evenly over the whole range, by ratio.
const EVEN: usize = 400;
/// Frequencies on each side of a mode, for each tenfold distance from it.
const PER_DECADE: i32 = 60;
/// The nearest to a mode, as a share of its half-width, and at least as a share of its frequency.
const NEAREST: f64 = 0.03;
const MIN_NEAREST: f64 = 1e-12;
/// So many tenfold distances lead from the nearest beyond any other mode of a tool.
const DECADES: i32 = 20;
/// Parts of a step of a measured response.
const PARTS: usize = 4;
/// Halvings that find a frequency as exactly as floats can.
const HALVINGS: usize = 60;
/// More lobes than these within a step are not told apart: the shallowest depth of the step holds.
const DENSE: f64 = 8.0;
/// The golden section.
const GOLDEN: f64 = 0.618_033_988_749_894_8;

/// A frequency with the eigenvalues there, in the order of the branches that they belong to.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Node {
    /// In hertz.
    pub(super) frequency: f64,
    eigenvalues: [Complex; 2],
    /// In mm, infinite where no steady vibration exists.
    pub(super) depths: [f64; 2],
    /// In turns.
    pub(super) lags: [f64; 2],
}

/// A steady vibration at a speed.
#[derive(Clone, Copy, PartialEq, Debug)]
pub(super) struct Onset {
    /// In mm.
    pub(super) depth: f64,
    /// In hertz.
    pub(super) frequency: f64,
    /// Whole waves between two edges.
    pub(super) lobe: f64,
}

/// A law, what vibrates, and the nodes between which it is searched.
#[derive(Clone, PartialEq, Debug)]
pub(super) struct Nodes {
    law: Law,
    structure: Structure,
    teeth: f64,
    pub(super) nodes: Vec<Node>,
}

impl Nodes {
    pub(super) fn new(law: Law, structure: Structure, teeth: u32) -> Nodes {
        let mut frequencies = match &structure {
            Structure::Modes(modes) => {
                around(&modes.iter().map(|mode| mode.hertz()).collect::<Vec<_>>(), |k| modes[k].damping_ratio)
            }
            Structure::Measured(points) => {
                parts(&points.iter().map(|point| hertz(point.frequency)).collect::<Vec<_>>())
            }
        };
        let mut made = Nodes { law, structure, teeth: f64::from(teeth), nodes: Vec::new() };
        made.fill(&mut frequencies);
        // Ends of branches and shallowest depths become nodes, so that between nodes the depth rises or falls.
        let mut extra = made.ends();
        frequencies.append(&mut extra);
        made.fill(&mut frequencies);
        let mut extra = made.valleys();
        frequencies.append(&mut extra);
        made.fill(&mut frequencies);
        made
    }

    fn fill(&mut self, frequencies: &mut Vec<f64>) {
        frequencies.sort_unstable_by(f64::total_cmp);
        frequencies.dedup();
        let mut nodes: Vec<Node> = Vec::with_capacity(frequencies.len());
        for &frequency in frequencies.iter() {
            let mut eigenvalues = self.law.eigenvalues(&self.structure, frequency);
            if let Some(Node { eigenvalues: [a, b], .. }) = nodes.last() {
                let [c, d] = eigenvalues;
                if apart(*a, c) + apart(*b, d) > apart(*a, d) + apart(*b, c) {
                    eigenvalues = [d, c];
                }
            }
            let depths = eigenvalues.map(|one| self.law.depth(one));
            nodes.push(Node { frequency, eigenvalues, depths, lags: eigenvalues.map(lag) });
        }
        self.nodes = nodes;
    }

    /// Depth and lag of a branch at a frequency, near one of its nodes.
    fn at(&self, frequency: f64, like: &Node, branch: usize) -> (f64, f64) {
        let like = like.eigenvalues[branch];
        let [a, b] = self.law.eigenvalues(&self.structure, frequency);
        let eigenvalue = if apart(like, b) < apart(like, a) { b } else { a };
        (self.law.depth(eigenvalue), lag(eigenvalue))
    }

    /// Where branches begin and end: the last frequencies with a steady vibration.
    fn ends(&self) -> Vec<f64> {
        let mut ends = vec![];
        for pair in self.nodes.windows(2) {
            for branch in 0..2 {
                let [first, second] = [0, 1].map(|k| pair[k].depths[branch].is_finite());
                if first == second {
                    continue;
                }
                let (valid, other) = if first { (&pair[0], &pair[1]) } else { (&pair[1], &pair[0]) };
                let (mut inside, mut outside) = (valid.frequency, other.frequency);
                for _ in 0..HALVINGS {
                    let middle = 0.5 * (inside + outside);
                    match self.at(middle, valid, branch).0.is_finite() {
                        true => inside = middle,
                        false => outside = middle,
                    }
                }
                ends.push(inside);
            }
        }
        ends
    }

    /// The frequencies of the shallowest depths.
    fn valleys(&self) -> Vec<f64> {
        let mut valleys = vec![];
        for three in self.nodes.windows(3) {
            for branch in 0..2 {
                let [before, middle, after] = [0, 1, 2].map(|k| three[k].depths[branch]);
                if !(middle.is_finite() && middle <= before && middle <= after) {
                    continue;
                }
                let (mut low, mut high) = (three[0].frequency, three[2].frequency);
                let depth = |frequency| self.at(frequency, &three[1], branch).0;
                for _ in 0..HALVINGS {
                    let inner = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
                    match depth(inner[0]) <= depth(inner[1]) {
                        true => high = inner[1],
                        false => low = inner[0],
                    }
                }
                valleys.push(0.5 * (low + high));
            }
        }
        valleys
    }

    /// The shallowest of all vibrations and its frequency.
    pub(super) fn shallowest(&self) -> Option<(f64, f64)> {
        let all = self.nodes.iter().flat_map(|node| node.depths.map(|depth| (depth, node.frequency)));
        all.filter(|(depth, _)| depth.is_finite()).min_by(|a, b| a.0.total_cmp(&b.0))
    }

    /// The shallowest vibration at a spindle speed in rev/min.
    pub(super) fn onset(&self, spindle_speed: f64) -> Option<Onset> {
        let tooth_frequency = self.teeth * spindle_speed / 60.0;
        let waves = |frequency: f64, lag: f64| frequency / tooth_frequency - lag;
        let mut best: Option<Onset> = None;
        for (pair, branch) in self.steps() {
            let [low, high] = pair;
            let (depths, lags) =
                ([low, high].map(|node| node.depths[branch]), [low, high].map(|node| node.lags[branch]));
            let shallow = depths[0].min(depths[1]);
            if best.is_some_and(|best| shallow >= best.depth) {
                continue;
            }
            let ends = [waves(low.frequency, lags[0]), waves(high.frequency, lags[1])];
            let (first, last) = (ends[0].min(ends[1]).ceil().max(0.0), ends[0].max(ends[1]).floor());
            let crosses = first <= last;
            if !crosses {
                continue;
            }
            // Infinite counts are dense too, and have no difference.
            let are_few = last - first < DENSE;
            if !are_few {
                let node = if depths[0] <= depths[1] { low } else { high };
                best = Some(Onset { depth: shallow, frequency: node.frequency, lobe: first });
                continue;
            }
            let mut lobe = first;
            while lobe <= last {
                let missing = |frequency, lag| waves(frequency, lag) - lobe;
                let (frequency, depth) =
                    self.solve(pair, branch, |frequency, _, lag| missing(frequency, lag));
                if depth.is_finite() && best.is_none_or(|best| depth < best.depth) {
                    best = Some(Onset { depth, frequency, lobe });
                }
                lobe += 1.0;
            }
        }
        best
    }

    /// Where a branch has this depth in mm: frequencies in hertz, and lags.
    pub(super) fn at_depth(&self, depth: f64) -> Vec<(f64, f64)> {
        let mut found = vec![];
        for (pair, branch) in self.steps() {
            let [low, high] = pair.map(|node| node.depths[branch] - depth);
            if (low < 0.0) != (high < 0.0) {
                let (frequency, _) = self.solve(pair, branch, |_, at, _| at - depth);
                found.push((frequency, self.at(frequency, pair[0], branch).1));
            }
        }
        found
    }

    /// The steps between nodes on which a branch vibrates.
    fn steps(&self) -> impl Iterator<Item = ([&Node; 2], usize)> {
        self.nodes.windows(2).flat_map(|pair| {
            (0..2).filter_map(move |branch| {
                let vibrates = pair[0].depths[branch].is_finite() && pair[1].depths[branch].is_finite();
                vibrates.then(|| ([&pair[0], &pair[1]], branch))
            })
        })
    }

    /// Where a function of frequency, depth and lag changes its sign between two nodes, and the depth there.
    fn solve(&self, pair: [&Node; 2], branch: usize, of: impl Fn(f64, f64, f64) -> f64) -> (f64, f64) {
        let value = |node: &Node| of(node.frequency, node.depths[branch], node.lags[branch]);
        let (mut low, mut high) = ((pair[0].frequency, value(pair[0])), (pair[1].frequency, value(pair[1])));
        let mut found = (low.0, pair[0].depths[branch]);
        if low.1 == 0.0 {
            return found;
        }
        for turn in 0..HALVINGS {
            // A chord, and every third time the middle, so that neither end stays for long.
            let chord = low.0 - low.1 * (high.0 - low.0) / (high.1 - low.1);
            let inside = low.0 < chord && chord < high.0;
            let frequency = if turn % 3 == 2 || !inside { 0.5 * (low.0 + high.0) } else { chord };
            let (depth, lag) = self.at(frequency, pair[0], branch);
            let missing = of(frequency, depth, lag);
            found = (frequency, depth);
            if missing == 0.0 || high.0 - low.0 <= 1e-13 * frequency {
                break;
            }
            match (missing < 0.0) == (low.1 < 0.0) {
                true => low = (frequency, missing),
                false => high = (frequency, missing),
            }
        }
        found
    }

    /// The spindle speed in rev/min at which a vibration has so many whole waves between two edges.
    pub(super) fn spindle_speed(&self, frequency: f64, lag: f64, lobe: f64) -> f64 {
        60.0 * frequency / (self.teeth * (lobe + lag))
    }
}

/// How different two eigenvalues are, between 0 and 1.
fn apart(a: Complex, b: Complex) -> f64 {
    match (a.re.is_finite(), b.re.is_finite()) {
        (true, true) => (a - b).length() / (a.length() + b.length()),
        (one, other) => f64::from(u8::from(one != other)),
    }
}

/// Frequencies about modes: dense near each and even between.
fn around(modes: &[f64], damping: impl Fn(usize) -> f64) -> Vec<f64> {
    let least = BELOW * modes.iter().fold(f64::INFINITY, |least, one| least.min(*one));
    let greatest = ABOVE * modes.iter().fold(0.0_f64, |greatest, one| greatest.max(*one));
    let power = |base: f64, exponent: f64| crate::math::powf(base, exponent);
    let mut frequencies: Vec<f64> =
        (0..=EVEN).map(|k| least * power(greatest / least, k as f64 / EVEN as f64)).collect();
    for (k, mode) in modes.iter().enumerate() {
        let nearest = mode * (NEAREST * damping(k)).max(MIN_NEAREST);
        frequencies.push(*mode);
        for step in 0..DECADES * PER_DECADE {
            let distance = nearest * power(10.0, f64::from(step) / f64::from(PER_DECADE));
            if distance > greatest {
                break;
            }
            frequencies.extend([mode - distance, mode + distance]);
        }
    }
    frequencies.retain(|frequency| (least..=greatest).contains(frequency));
    frequencies
}

/// Frequencies of a measured response, and evenly between them.
fn parts(points: &[f64]) -> Vec<f64> {
    let within = |pair: &[f64]| {
        let (from, step) = (pair[0], (pair[1] - pair[0]) / PARTS as f64);
        std::array::from_fn::<f64, PARTS, _>(|k| from + k as f64 * step)
    };
    points.windows(2).flat_map(within).chain(points.last().copied()).collect()
}
