//! Linear chains: a closing dimension that is a sum of dimensions, each times its sensitivity.
use super::StackError;
use super::correlation::Correlation;
use super::decimal::{Sensitivity, Sum};
use super::distribution::Distribution;
use super::moments::Cumulants;
use crate::size::nearest_ratio;
use crate::{Limits, LimitsError, Size, Units};
use tenths_macros::{Object, accessors};

/// A dimension in a chain.
#[derive(Clone, PartialEq, Debug)]
pub struct Contributor {
    /// Its name, which others may share.
    pub name: String,
    /// Its limits. Both may be the same: a shim, a basic dimension.
    pub limits: Limits,
    /// What a unit more of it adds to the closing dimension: 1, -1, 0.5 for a radius of a diameter.
    pub sensitivity: f64,
    /// How many pieces like it, each of its own size, stand in the chain.
    pub count: u32,
    /// How it spreads.
    pub distribution: Distribution,
}

impl Contributor {
    /// One piece that adds its whole size, with a normal distribution.
    pub fn new(name: impl Into<String>, limits: Limits) -> Contributor {
        Contributor {
            name: name.into(),
            limits,
            sensitivity: 1.0,
            count: 1,
            distribution: Distribution::NORMAL,
        }
    }

    /// With another sensitivity.
    pub fn sensitivity(self, sensitivity: f64) -> Contributor {
        Contributor { sensitivity, ..self }
    }

    /// So many pieces.
    pub fn count(self, count: u32) -> Contributor {
        Contributor { count, ..self }
    }

    /// With another distribution.
    pub fn distribution(self, distribution: Distribution) -> Contributor {
        Contributor { distribution, ..self }
    }

    /// Whether the arithmetic takes it.
    pub(crate) fn check(&self) -> Result<(), StackError> {
        let Contributor { name, sensitivity, count, distribution, .. } = self;
        let name = || name.clone();
        if Sensitivity::new(*sensitivity).is_none() {
            return Err(StackError::Sensitivity { name: name(), sensitivity: *sensitivity });
        }
        if !(1..=1_000_000).contains(count) {
            return Err(StackError::Count { name: name(), count: u64::from(*count) });
        }
        match distribution.fault() {
            Some(fault) => {
                Err(StackError::Distribution { name: name(), distribution: distribution.name(), fault })
            }
            None => Ok(()),
        }
    }

    /// The middle of the limits, rounded once.
    pub(crate) fn middle(&self, units: Units) -> f64 {
        let (lower, upper) = (self.limits.lower().picometres(), self.limits.upper().picometres());
        nearest_ratio(i128::from(lower) + i128::from(upper), 2 * units.picometres())
    }

    /// Half the tolerance.
    pub(crate) fn half(&self, units: Units) -> f64 {
        nearest_ratio(i128::from(self.limits.tolerance().picometres()), 2 * units.picometres())
    }

    /// Half the tolerance times the size of the sensitivity.
    pub(crate) fn share(&self, units: Units) -> f64 {
        self.sensitivity.abs() * self.half(units)
    }

    pub(crate) fn cumulants(&self, units: Units) -> Cumulants {
        let one = self.distribution.cumulants(self.middle(units), self.half(units));
        one.placed(0.0, self.sensitivity).times(f64::from(self.count))
    }
}

/// A chain of dimensions, which its closing dimension is the sum of.
///
/// ```
/// use tenths::stack::{Contributor, Stack};
/// use tenths::{Limits, Size, Units};
/// let mut gap = Stack::new(Units::Inch);
/// gap.add(Contributor::new("housing", Limits::parse("2.000 ±.005 in")?))?
///     .add(Contributor::new("shaft", Limits::parse("1.990 ±.003 in")?).sensitivity(-1.0))?;
/// assert_eq!(gap.worst_case()?.lower(), Size::parse("0.002 in")?);
/// assert!((gap.rss()?.tolerance - 0.005_830_95).abs() < 1e-8);
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
#[derive(Clone, PartialEq, Debug)]
pub struct Stack {
    units: Units,
    contributors: Vec<Contributor>,
    pub(crate) correlation: Correlation,
}

/// A mean and a half band about it, in the unit of the stack.
#[derive(Clone, Copy, PartialEq, Debug, Object)]
#[object(accessors, tuple)]
pub struct Band {
    /// The mean of the closing dimension.
    pub mean: f64,
    /// What it lies within of the mean, either way.
    pub tolerance: f64,
    /// Whether that reaches beyond the worst case, which no parts within their limits can do.
    pub exceeds_worst_case: bool,
    pub(crate) units: Units,
}

#[accessors]
impl Band {
    /// The mean less the tolerance.
    #[field]
    pub fn lower(&self) -> f64 {
        self.mean - self.tolerance
    }

    /// The mean plus the tolerance.
    #[field]
    pub fn upper(&self) -> f64 {
        self.mean + self.tolerance
    }

    /// The side whose unit the stack has.
    #[field]
    pub fn units(&self) -> Units {
        self.units
    }
}

/// The place of a contributor, or its name where no other has it.
#[derive(Clone, Copy, PartialEq, Debug)]
pub enum ContributorKey<'a> {
    /// Counted from zero, in the order in which they were added.
    Number(usize),
    /// Its name.
    Name(&'a str),
}

impl From<usize> for ContributorKey<'_> {
    fn from(number: usize) -> Self {
        ContributorKey::Number(number)
    }
}

impl<'a> From<&'a str> for ContributorKey<'a> {
    fn from(name: &'a str) -> Self {
        ContributorKey::Name(name)
    }
}

impl ContributorKey<'_> {
    /// Which of these names is meant.
    pub(crate) fn find<'n>(self, names: impl Iterator<Item = &'n str> + Clone) -> Result<usize, StackError> {
        let unknown = |name: String| StackError::UnknownName {
            name,
            known: names.clone().collect::<Vec<_>>().join(", "),
        };
        match self {
            ContributorKey::Number(number) if number < names.clone().count() => Ok(number),
            ContributorKey::Number(number) => Err(unknown(number.to_string())),
            ContributorKey::Name(name) => {
                let mut found = names.clone().enumerate().filter(|(_, known)| *known == name);
                match (found.next(), found.count()) {
                    (Some((number, _)), 0) => Ok(number),
                    (Some(_), others) => {
                        Err(StackError::AmbiguousName { name: name.into(), count: others + 1 })
                    }
                    (None, _) => Err(unknown(name.into())),
                }
            }
        }
    }
}

impl Stack {
    /// A chain without contributors, whose numbers are in inches or millimetres.
    pub fn new(units: Units) -> Stack {
        Stack { units, contributors: Vec::new(), correlation: Correlation::default() }
    }

    /// The side of every bare number that comes out.
    pub fn units(&self) -> Units {
        self.units
    }

    /// The contributors, in the order in which they were added.
    pub fn contributors(&self) -> &[Contributor] {
        &self.contributors
    }

    pub(crate) fn contributors_mut(&mut self) -> &mut [Contributor] {
        &mut self.contributors
    }

    /// Adds a contributor.
    ///
    /// # Errors
    /// [`StackError`] for a sensitivity, a count or a distribution out of range; nothing is added then.
    pub fn add(&mut self, contributor: Contributor) -> Result<&mut Stack, StackError> {
        contributor.check()?;
        self.contributors.push(contributor);
        Ok(self)
    }

    /// Correlates two normal contributors that occur once each, by their coefficient of correlation, from -1 to 1.
    ///
    /// # Errors
    /// [`StackError::NotCorrelatable`] for other contributors, [`StackError::NotPositive`] for a coefficient beyond 1;
    /// and where a place is unknown. Coefficients that contradict one another are found when the stack is evaluated.
    pub fn correlate<'a>(
        &mut self,
        one: impl Into<ContributorKey<'a>>,
        other: impl Into<ContributorKey<'a>>,
        coefficient: f64,
    ) -> Result<&mut Stack, StackError> {
        let places = [self.place(one)?, self.place(other)?];
        for contributor in places.map(|place| &self.contributors[place]) {
            if !contributor.distribution.is_normal() || contributor.count != 1 {
                return Err(StackError::NotCorrelatable { name: contributor.name.clone() });
            }
        }
        self.correlation.set(places[0], places[1], coefficient)?;
        Ok(self)
    }

    /// The coefficient of every pair of correlated contributors, by their places. A stack to which these contributors
    /// and these correlations are added in this order equals this one.
    pub fn correlations(&self) -> Vec<(usize, usize, f64)> {
        self.correlation.in_order()
    }

    /// Sets the standard deviations and correlations of some contributors by their covariance matrix, row by row, in
    /// squares of the unit of the stack. They become normal, with the means that they had.
    ///
    /// # Errors
    /// [`StackError::NotPositive`] for a matrix that is not symmetric and positive semidefinite, or not of their
    /// count; [`StackError::NotCorrelatable`] for a contributor that occurs more than once; nothing changes then.
    pub fn covariance(
        &mut self,
        places: &[ContributorKey],
        matrix: &[f64],
    ) -> Result<&mut Stack, StackError> {
        let mut changed = self.clone();
        let places: Vec<usize> = places.iter().map(|place| self.place(*place)).collect::<Result<_, _>>()?;
        let sigmas = super::correlation::sigmas(matrix, places.len())?;
        for (place, sigma) in places.iter().zip(&sigmas) {
            let contributor = &mut changed.contributors[*place];
            if contributor.count != 1 {
                return Err(StackError::NotCorrelatable { name: contributor.name.clone() });
            }
            let mean = contributor
                .distribution
                .cumulants(contributor.middle(self.units), contributor.half(self.units))
                .mean;
            contributor.distribution = Distribution::Process { mean, sigma: *sigma };
        }
        for (row, one) in places.iter().enumerate() {
            for (column, other) in places[..row].iter().enumerate() {
                let scale = sigmas[row] * sigmas[column];
                let coefficient = if scale > 0.0 { matrix[row * places.len() + column] / scale } else { 0.0 };
                changed.correlation.set(*one, *other, coefficient.clamp(-1.0, 1.0))?;
            }
        }
        changed.correlation.mixing()?;
        *self = changed;
        Ok(self)
    }

    /// The number of a contributor, from zero.
    ///
    /// # Errors
    /// [`StackError::UnknownName`] where there is none, [`StackError::AmbiguousName`] where several have the name.
    pub fn place<'a>(&self, place: impl Into<ContributorKey<'a>>) -> Result<usize, StackError> {
        place.into().find(self.contributors.iter().map(|one| one.name.as_str()))
    }

    /// The contributors, or an error where there are none.
    pub(crate) fn filled(&self) -> Result<&[Contributor], StackError> {
        if self.contributors.is_empty() { Err(StackError::NoContributors) } else { Ok(&self.contributors) }
    }

    /// The limits of the closing dimension for any parts within theirs, exact to the picometre and rounded outward
    /// where a sensitivity leaves part of one. The nominal size is that of the nominal sizes, to the nearest picometre.
    ///
    /// # Errors
    /// [`StackError::NoContributors`], [`StackError::OutOfRange`].
    pub fn worst_case(&self) -> Result<Limits, StackError> {
        let [lower, upper] = self.extremes()?;
        let nominal = self.sum(|one| [one.limits.nominal(); 2])?[0];
        let size = |picometres: i128| i64::try_from(picometres).map(Size::from_picometres);
        let size = |picometres| size(picometres).map_err(|_| StackError::OutOfRange);
        let (lower, upper, nominal) = (size(lower.floor())?, size(upper.ceil())?, size(nominal.nearest())?);
        let deviation = |limit: Size| limit.checked_sub(nominal).ok_or(StackError::OutOfRange);
        Limits::with_deviations(nominal, deviation(upper)?, deviation(lower)?).map_err(|error| match error {
            LimitsError::OutOfRange { .. } => StackError::OutOfRange,
            error => StackError::Limits { name: "closing dimension".into(), error },
        })
    }

    /// The exact least and greatest sum.
    pub(crate) fn extremes(&self) -> Result<[Sum; 2], StackError> {
        self.sum(|one| {
            let (lower, upper) = (one.limits.lower(), one.limits.upper());
            if one.sensitivity < 0.0 { [upper, lower] } else { [lower, upper] }
        })
    }

    fn sum(&self, sizes: impl Fn(&Contributor) -> [Size; 2]) -> Result<[Sum; 2], StackError> {
        let mut sums = [Sum::default(); 2];
        for one in self.filled()? {
            let name = || one.name.clone();
            let sensitivity = Sensitivity::new(one.sensitivity)
                .ok_or_else(|| StackError::Sensitivity { name: name(), sensitivity: one.sensitivity })?;
            for (sum, size) in sums.iter_mut().zip(sizes(one)) {
                sum.add(one.count, sensitivity, size.picometres());
            }
        }
        Ok(sums)
    }

    /// The sum of the middles of all limits, and half the worst case about it.
    pub(crate) fn worst_band(&self) -> Result<Band, StackError> {
        let [lower, upper] = self.extremes()?;
        let number = |twice: i128| {
            let within = twice.unsigned_abs() < 1 << 65;
            if within {
                Ok(nearest_ratio(twice, 2 * self.units.picometres()))
            } else {
                Err(StackError::OutOfRange)
            }
        };
        Ok(Band {
            mean: number(lower.floor() + upper.ceil())?,
            tolerance: number(upper.ceil() - lower.floor())?,
            exceeds_worst_case: false,
            units: self.units,
        })
    }
}
