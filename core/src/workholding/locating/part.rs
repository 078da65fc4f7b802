//! A part on its locators.
use super::contact::{Clamp, Locator, direction, finite};
use super::error::{LocatingError, MAX_CLAMPED, MAX_LOCATORS};
use super::freedom::{FreeMotion, free_motions};
use super::matrix::Matrix;
use super::seating::seating;
use super::shift::{opening, sensitivities};
use crate::Units;
use crate::math::vector::Vector;
use std::fmt;
use tenths_macros::Object;

/// What locators hold of a part, what they leave, and whether clamps seat it.
///
/// Caution: geometry alone holds no part. Locators that stop every motion do not replace clamping force: see the
/// safety of the clamps, and follow the data of the makers of machine and workholding.
///
/// ```
/// use tenths::workholding::{Locating, Locator};
/// use tenths::Units;
/// let mut locators = Locator::plane([[0.0, 0.0, 0.0], [100.0, 0.0, 0.0], [50.0, 80.0, 0.0]])?;
/// locators.extend(Locator::line([20.0, 0.0, 10.0], [80.0, 0.0, 10.0], [0.0, 1.0, 0.0])?);
/// let part = Locating::new(&locators, &[], None, Units::Metric)?;
/// assert_eq!(part.held, 5);
/// assert_eq!(part.free[0].words, "slides along x");
/// # Ok::<(), tenths::workholding::LocatingError>(())
/// ```
#[derive(Clone, PartialEq, Debug, Object)]
#[object(summary, restore)]
pub struct Locating {
    /// How many of the six motions are stopped: the rank of the locator matrix. A motion counts as free where its
    /// resistance is less than a millionth of the firmest one's, with lengths in parts of the farthest locator's distance.
    pub held: usize,
    /// How many locators more there are than motions that they stop.
    pub redundant: usize,
    /// The motions that stay, slides first; empty where the part is located.
    pub free: Vec<FreeMotion>,
    /// How firmly the least stopped motion is stopped, as a share of the firmest. Near zero the locators stand so that a small
    /// error moves the part far; zero without locators.
    #[pure]
    pub firmness: f64,
    /// Whether there is a balance in which the clamps press the part on every locator, weight and cutting forces aside; absent
    /// without clamps.
    pub seats: Option<bool>,
    /// The force on each locator in the balance in which the least pressed one bears most, in the unit of the clamps' forces;
    /// empty without clamps or balance.
    #[pure]
    pub forces: Vec<f64>,
    /// The places of locators, from 0, that the part can stay off: friction, or another locator, can carry the clamps'
    /// forces in their stead. Press the part on them before clamping.
    pub loose: Vec<usize>,
    /// The coefficient of friction at locators and clamps.
    #[pure]
    pub friction: f64,
    /// The locators, with normals of length 1.
    pub locators: Vec<Locator>,
    /// The clamps, with directions of length 1.
    pub clamps: Vec<Clamp>,
    /// The units of the positions.
    pub units: Units,
}

impl Locating {
    /// Judges locators, and clamps where there are any, without friction where none is given. Positions are in `units`,
    /// about any origin.
    ///
    /// # Errors
    /// [`LocatingError`] for numbers that are not finite, directions without length, and too many locators or clamps.
    pub fn new(
        locators: &[Locator],
        clamps: &[Clamp],
        friction: Option<f64>,
        units: Units,
    ) -> Result<Locating, LocatingError> {
        if locators.len() > MAX_LOCATORS {
            return Err(LocatingError::TooMany { count: locators.len() });
        }
        if !clamps.is_empty() && (locators.len() > MAX_CLAMPED || clamps.len() > MAX_CLAMPED) {
            return Err(LocatingError::TooManyClamped { locators: locators.len(), clamps: clamps.len() });
        }
        let friction = friction.unwrap_or(0.0);
        if !(0.0..=5.0).contains(&friction) {
            return Err(LocatingError::Friction { value: friction });
        }
        let locators = checked(locators, Locator::checked)?;
        let clamps = checked(clamps, Clamp::checked)?;
        let matrix = Matrix::new(&locators);
        let held = matrix.stopped().count();
        let seating = match clamps.is_empty() {
            true => None,
            false => Some(seating(&matrix, &locators, &clamps, friction)?),
        };
        let seats = seating.as_ref().map(|seating| seating.seats);
        let (forces, loose) = seating.map_or((vec![], vec![]), |seating| (seating.forces, seating.loose));
        Ok(Locating {
            held,
            redundant: locators.len() - held,
            free: free_motions(&matrix, units),
            firmness: matrix.firmness(),
            seats,
            forces,
            loose,
            friction,
            locators,
            clamps,
            units,
        })
    }

    /// How a point of the part moves in x, y and z when each locator is off by its error along its normal: positive where it
    /// stands farther into the part. To the first order, so errors must be small beside the distances of the locators.
    ///
    /// # Errors
    /// [`LocatingError`] where the count of errors is another, where a free motion moves the point, or where there are
    /// redundant locators.
    pub fn shift(&self, errors: &[f64], at: Vector) -> Result<Vector, LocatingError> {
        if errors.len() != self.locators.len() {
            return Err(LocatingError::Errors { locators: self.locators.len(), errors: errors.len() });
        }
        for (place, &value) in errors.iter().enumerate() {
            finite(&[value, 0.0, 0.0], || format!("the error of locator {place}"))?;
        }
        let most = errors.iter().fold(0.0_f64, |most, one| most.max(one.abs()));
        let mut moved = [0.0; 3];
        for (coordinate, moved) in moved.iter_mut().enumerate() {
            let mut along = [0.0; 3];
            along[coordinate] = 1.0;
            let shares = self.sensitivities(at, along)?;
            let sum: f64 = shares.iter().zip(errors).map(|(share, error)| share * error).sum();
            // What is left of parts that cancel is rounding.
            *moved = if sum.abs() <= 1e-13 * most { 0.0 } else { sum };
        }
        Ok(moved)
    }

    /// How far a point moves along a direction for each unit of error of each locator: the sensitivities of the locators as
    /// contributors to a stack.
    ///
    /// # Errors
    /// As [`Locating::shift`].
    pub fn sensitivities(&self, at: Vector, along: Vector) -> Result<Vec<f64>, LocatingError> {
        finite(&at, || "the position of the feature".into())?;
        let along = direction(&along, || "the direction of the shift".into())?;
        let matrix = Matrix::new(&self.locators);
        let wanted = matrix.row(&at, &along);
        sensitivities(&matrix, &wanted, || opening(&self.free, &at, &along))
    }
}

fn checked<T>(
    given: &[T],
    check: impl Fn(&T, usize) -> Result<T, LocatingError>,
) -> Result<Vec<T>, LocatingError> {
    given.iter().enumerate().map(|(place, one)| check(one, place)).collect()
}

impl fmt::Display for Locating {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.held {
            6 => write!(f, "located")?,
            held => write!(f, "{held} of 6 motions stopped, the part ")
                .and_then(|()| write!(f, "{}", list(&self.free)))?,
        }
        match self.redundant {
            0 => {}
            1 => write!(f, ", 1 locator too many")?,
            many => write!(f, ", {many} locators too many")?,
        }
        match self.seats {
            Some(true) => write!(f, ", seated by its clamps"),
            Some(false) => write!(f, ", not seated by its clamps"),
            None => Ok(()),
        }
    }
}

fn list(motions: &[FreeMotion]) -> String {
    motions.iter().map(|one| one.words.as_str()).collect::<Vec<_>>().join(", ")
}
