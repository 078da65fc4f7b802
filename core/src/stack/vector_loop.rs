//! Vector loops in the plane: lengths and angles that close, of which two are unknown.
//!
//! Whoever measures around a section of an assembly, from part to part, comes back to where he began. The two equations
//! of that, along and across, give two lengths or angles for all the others.
use super::error::UnknownFault;
use super::function::{Function, Input, in_order};
use super::loop_part::LoopPart;
use super::propagation::Propagation;
use super::{MAX_INPUTS, StackError};
use crate::error::excerpt;
use crate::math::{cos_degrees, sin_degrees};

/// The greatest count of vectors in a loop.
const MAX_LINKS: usize = 256;
/// Steps after which a loop does not close: Newton's method doubles the digits with each.
const STEPS: usize = 60;

/// Where the name of a part stands.
#[derive(Clone, Copy, PartialEq, Debug)]
enum TermSource {
    Nothing,
    Input(usize),
    Unknown(usize),
}

/// A part whose name was looked up.
#[derive(Clone, Copy, PartialEq, Debug)]
struct Term {
    offset: f64,
    scale: f64,
    source: TermSource,
}

/// Vectors head to tail that close, with two unknowns.
///
/// A length or an angle is a number, a name, or a sum of the two such as `180 - phi` or `0.5 d`. Angles are in degrees
/// from the direction of the first axis toward the second, and a name may stand at several vectors.
///
/// ```
/// use tenths::stack::{Input, VectorLoop};
/// // A roller clutch: from the centre up the hub and the roller, across, and back along the ring.
/// let mut clutch = VectorLoop::new();
/// clutch.unknown("phi", 5.0)?.unknown("b", 4.0)?;
/// clutch.link("a", "90")?.link("c", "90")?.link("b", "0")?.link("e", "270 - phi")?.link("c", "90 - phi")?;
/// let angle = clutch.propagate("phi", vec![
///     Input::new("a", 27.645, 0.0125, -0.0125),
///     Input::new("c", 11.43, 0.01, -0.01),
///     Input::new("e", 50.8, 0.0125, -0.0125),
/// ])?;
/// assert_eq!(format!("{:.4}", angle.nominal()?), "7.0184");
/// # Ok::<(), tenths::stack::StackError>(())
/// ```
#[derive(Clone, PartialEq, Debug, Default)]
pub struct VectorLoop {
    unknowns: Vec<(String, f64)>,
    links: Vec<[LoopPart; 2]>,
}

/// One unknown of a loop as a function of its inputs.
#[derive(Clone, PartialEq, Debug)]
pub struct LoopUnknown {
    links: Vec<[Term; 2]>,
    guesses: [f64; 2],
    output: usize,
}

impl VectorLoop {
    /// A loop without vectors.
    pub fn new() -> VectorLoop {
        VectorLoop::default()
    }

    /// Names an unknown, of which a loop has two, with a guess near its value: of several solutions the one near the
    /// guesses is found.
    ///
    /// # Errors
    /// [`StackError::Unknown`] for a third unknown, a name that cannot stand in a length or an angle or was given
    /// before, or a guess that is not finite.
    pub fn unknown(&mut self, name: &str, guess: f64) -> Result<&mut VectorLoop, StackError> {
        let refuse = |fault| Err(StackError::Unknown { name: name.into(), fault });
        if self.unknowns.len() == 2 {
            return refuse(UnknownFault::Third);
        }
        if LoopPart::parse(name).ok() != Some(LoopPart::named(name)) {
            return refuse(UnknownFault::NotAName);
        }
        if self.unknowns.iter().any(|(known, _)| known == name) {
            return refuse(UnknownFault::GivenTwice);
        }
        if !guess.is_finite() {
            return refuse(UnknownFault::Guess(guess));
        }
        self.unknowns.push((name.into(), guess));
        Ok(self)
    }

    /// Adds a vector by its length and the angle of its direction.
    ///
    /// # Errors
    /// [`StackError::LoopPart`] for a text that is not a number, a name or a sum of the two, and
    /// [`StackError::HowMany`] for more than 256 vectors.
    pub fn link(&mut self, length: &str, angle: &str) -> Result<&mut VectorLoop, StackError> {
        if self.links.len() == MAX_LINKS {
            let need = format!("a loop has at most {MAX_LINKS}");
            return Err(StackError::HowMany { what: "vectors", need, got: MAX_LINKS + 1 });
        }
        let link = [LoopPart::parse(length)?, LoopPart::parse(angle)?];
        self.links.push(link);
        Ok(self)
    }

    /// The names that are not unknowns, in the order in which they first stand: the inputs.
    pub fn inputs(&self) -> Vec<&str> {
        let mut names: Vec<&str> = Vec::new();
        for name in self.links.iter().flatten().filter_map(|part| part.name.as_deref()) {
            if !names.contains(&name) && !self.unknowns.iter().any(|(unknown, _)| unknown == name) {
                names.push(name);
            }
        }
        names
    }

    /// The unknowns and their guesses.
    pub fn unknowns(&self) -> &[(String, f64)] {
        &self.unknowns
    }

    /// Length and angle of each vector, as [`VectorLoop::link`] reads them.
    pub fn links(&self) -> Vec<[String; 2]> {
        self.links.iter().map(|link| link.each_ref().map(ToString::to_string)).collect()
    }

    /// Whether a name stands at an angle.
    pub fn is_angle(&self, name: &str) -> bool {
        self.links.iter().any(|[_, angle]| angle.name.as_deref() == Some(name))
    }

    /// Both unknowns, in the order in which they were named, for inputs in the order of [`VectorLoop::inputs`].
    ///
    /// # Errors
    /// [`StackError::HowMany`] for another count of inputs and as [`VectorLoop::solve_for`], [`StackError::Undefined`]
    /// where the loop does not close from the guesses.
    pub fn solve(&self, inputs: &[f64]) -> Result<[f64; 2], StackError> {
        let function = self.solve_for(self.unknowns.first().map_or("", |(name, _)| name))?;
        let names = self.inputs();
        if names.len() != inputs.len() {
            let (count, given) = (names.len(), inputs.len());
            let need = format!("the loop has {count}");
            return Err(StackError::HowMany { what: "inputs", need, got: given });
        }
        let told = || names.iter().zip(inputs).map(|(name, value)| format!("{} = {value}", excerpt(name)));
        function.close(inputs).ok_or_else(|| StackError::Undefined {
            at: told().collect::<Vec<_>>().join(", "),
            reason: function.why_undefined(inputs),
        })
    }

    /// An unknown as a function of the inputs, in the order of [`VectorLoop::inputs`].
    ///
    /// # Errors
    /// [`StackError::HowMany`] and [`StackError::Unknown`] where there are not two unknowns that both stand in the loop, and
    /// [`StackError::UnknownName`] for a name that is not one of them.
    pub fn solve_for(&self, unknown: &str) -> Result<LoopUnknown, StackError> {
        let [(one, first), (other, second)] = &self.unknowns[..] else {
            let count = self.unknowns.len();
            let need = "a loop in the plane has two".into();
            return Err(StackError::HowMany { what: "unknowns", need, got: count });
        };
        let names = [one.as_str(), other.as_str()];
        let used = |name: &str| self.links.iter().flatten().any(|part| part.name.as_deref() == Some(name));
        if let Some(name) = names.iter().find(|name| !used(name)) {
            return Err(StackError::Unknown { name: (*name).into(), fault: UnknownFault::Unused });
        }
        let output = names
            .iter()
            .position(|name| *name == unknown)
            .ok_or_else(|| StackError::UnknownName { name: unknown.into(), known: names.join(", ") })?;
        let inputs = self.inputs();
        let term = |part: &LoopPart| {
            let place = |names: &[&str]| names.iter().position(|name| Some(*name) == part.name.as_deref());
            let source = match (place(&names), place(&inputs)) {
                (Some(unknown), _) => TermSource::Unknown(unknown),
                (None, Some(input)) => TermSource::Input(input),
                (None, None) => TermSource::Nothing,
            };
            Term { offset: part.offset, scale: part.scale, source }
        };
        let links = self.links.iter().map(|[length, angle]| [term(length), term(angle)]).collect();
        Ok(LoopUnknown { links, guesses: [*first, *second], output })
    }

    /// An unknown with inputs that vary, given by their names in any order.
    ///
    /// # Errors
    /// As [`VectorLoop::solve_for`] and [`Propagation::new`]; and [`StackError::UnknownName`],
    /// [`StackError::AmbiguousName`] or [`StackError::Missing`] for an input that the loop does not have, one given
    /// twice, or one that is missing.
    pub fn propagate(
        &self,
        unknown: &str,
        inputs: Vec<Input>,
    ) -> Result<Propagation<LoopUnknown>, StackError> {
        let function = self.solve_for(unknown)?;
        let inputs = in_order(&self.inputs(), inputs, |_| None)?;
        Propagation::new(function, inputs)
    }
}

impl Term {
    fn value(&self, inputs: &[f64], unknowns: &[f64; 2]) -> f64 {
        match self.source {
            TermSource::Nothing => self.offset,
            TermSource::Input(input) => self.offset + self.scale * inputs[input],
            TermSource::Unknown(unknown) => self.offset + self.scale * unknowns[unknown],
        }
    }
}

impl LoopUnknown {
    /// Both unknowns for some inputs, where Newton's method closes the loop.
    fn close(&self, inputs: &[f64]) -> Option<[f64; 2]> {
        const RADIAN: f64 = std::f64::consts::PI / 180.0;
        let mut unknowns = self.guesses;
        let mut last = f64::INFINITY;
        for _ in 0..STEPS {
            let (mut gap, mut slopes, mut size) = ([0.0; 2], [[0.0; 2]; 2], 0.0);
            for [length, angle] in &self.links {
                let (long, turn) = (length.value(inputs, &unknowns), angle.value(inputs, &unknowns));
                let direction = [cos_degrees(turn), sin_degrees(turn)];
                size += long.abs();
                for axis in 0..2 {
                    gap[axis] += long * direction[axis];
                }
                if let TermSource::Unknown(unknown) = length.source {
                    for axis in 0..2 {
                        slopes[axis][unknown] += length.scale * direction[axis];
                    }
                }
                if let TermSource::Unknown(unknown) = angle.source {
                    let swing = angle.scale * RADIAN * long;
                    slopes[0][unknown] -= swing * direction[1];
                    slopes[1][unknown] += swing * direction[0];
                }
            }
            if !size.is_finite() {
                return None;
            }
            let determinant = slopes[0][0] * slopes[1][1] - slopes[0][1] * slopes[1][0];
            let step = [
                (gap[1] * slopes[0][1] - gap[0] * slopes[1][1]) / determinant,
                (gap[0] * slopes[1][0] - gap[1] * slopes[0][0]) / determinant,
            ];
            let open = gap[0].abs() + gap[1].abs();
            // Closed as far as rounding lets it, and no nearer by another step.
            if open <= 64.0 * f64::EPSILON * size && open >= 0.5 * last {
                return Some(unknowns);
            }
            if !(step[0].is_finite() && step[1].is_finite()) {
                return (open <= 64.0 * f64::EPSILON * size).then_some(unknowns);
            }
            last = open;
            unknowns = [unknowns[0] + step[0], unknowns[1] + step[1]];
        }
        None
    }
}

impl Function for LoopUnknown {
    fn evaluate(&self, inputs: &[&[f64]], values: &mut [f64]) -> Result<(), StackError> {
        if inputs.len() > MAX_INPUTS {
            let need = format!("a loop has at most {MAX_INPUTS}");
            return Err(StackError::HowMany { what: "inputs", need, got: inputs.len() });
        }
        let mut row = vec![0.0; inputs.len()];
        for (place, value) in values.iter_mut().enumerate() {
            for (to, column) in row.iter_mut().zip(inputs) {
                *to = column[place];
            }
            *value = self.close(&row).map_or(f64::NAN, |unknowns| unknowns[self.output]);
        }
        Ok(())
    }

    fn why_undefined(&self, _: &[f64]) -> Option<String> {
        Some("the loop does not close from these guesses".into())
    }
}
