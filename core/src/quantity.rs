//! Quantities: what a number means, its dimension, and its inch and metric shop units.
//!
//! Each side computes in a consistent system of its own: inch in inches, pounds-force, minutes, degrees
//! Fahrenheit and pounds, metric in millimetres, newtons, minutes, degrees Celsius and kilograms. So a body
//! needs no unit factors, and serves both sides. A shop unit is a multiple of the consistent one:
//! `base = reading * scale`.

use crate::error::excerpt;

/// What fixes the unit of every bare number that goes in or comes out.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
#[repr(usize)]
pub enum Units {
    /// Inches, feet per minute, pounds-force, horsepower, degrees Fahrenheit.
    Inch = 0,
    /// Millimetres, metres per minute, newtons, kilowatts, degrees Celsius.
    Metric = 1,
}

impl Units {
    /// Both sides, in the order of their discriminants.
    pub const ALL: [Units; 2] = [Units::Inch, Units::Metric];

    /// `inch` or `metric`.
    pub const fn name(self) -> &'static str {
        match self {
            Units::Inch => "inch",
            Units::Metric => "metric",
        }
    }
}

/// Exponents of length, force, time, temperature and mass.
///
/// Mass stands beside force as a base of its own, since a shop weighs and pushes but seldom accelerates; a
/// formula that does both declares the constant that joins them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Dimension(pub [i8; 5]);

/// The inch base unit in metric base units: in, lbf, min, °F, lb in mm, N, min, K, kg. All exact.
const INCH_BASE: [f64; 5] = [25.4, 4.448_221_615_260_5, 1.0, 1.0 / 1.8, 0.453_592_37];

/// A shop unit, as a multiple of the consistent unit of its own side.
#[derive(Clone, Copy, PartialEq, Debug)]
pub struct Unit {
    /// How the unit is written: `ft/min`.
    pub label: &'static str,
    /// Other spellings that text may use.
    pub spellings: &'static [&'static str],
    /// `base = reading * scale`.
    pub scale: f64,
}

impl Unit {
    /// A reading in this unit, in base units of its side.
    #[inline(always)]
    pub const fn to_base(&self, reading: f64) -> f64 {
        reading * self.scale
    }

    /// A number in base units of this side, as a reading in this unit.
    #[inline(always)]
    pub const fn from_base(&self, base: f64) -> f64 {
        base / self.scale
    }

    /// Whether a number in base units is finite and stays so as a reading in this unit.
    #[inline(always)]
    pub(crate) const fn can_tell(&self, base: f64) -> bool {
        let largest = if self.scale < 1.0 { (f64::MAX * self.scale).next_down() } else { f64::MAX };
        base.abs() <= largest
    }

    fn is_written(&self, text: &str) -> bool {
        self.label == text || self.spellings.contains(&text)
    }
}

/// One row of the table of quantities.
#[derive(PartialEq, Debug)]
pub struct Kind {
    /// Name of the Rust type.
    pub name: &'static str,
    /// Its dimension.
    pub dimension: Dimension,
    /// The inch and the metric shop unit.
    pub units: [Unit; 2],
    /// The inch reading at the metric zero: 32 for temperatures, else 0.
    pub origin: f64,
}

/// Why text is no reading of a quantity.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
pub enum ReadingError {
    /// There is no number at the start, or one that is too large, if only in the unit of the other side.
    #[error("`{text}` does not begin with a finite number")]
    Number {
        /// The text as given.
        text: String,
    },
    /// A number without a unit.
    #[error("`{text}` needs a unit: {expected}")]
    NoUnit {
        /// The text as given.
        text: String,
        /// The units that this quantity is given in.
        expected: String,
    },
    /// A unit that is not one of this quantity.
    #[error("`{unit}` is no unit of this quantity: use {expected}")]
    Unit {
        /// The unit as given.
        unit: String,
        /// The units that this quantity is given in.
        expected: String,
    },
}

impl Kind {
    /// The shop unit of a side.
    #[inline(always)]
    pub const fn unit(&self, units: Units) -> &Unit {
        &self.units[units as usize]
    }

    /// The base unit of the inch side in base units of the metric side.
    pub const fn inch_size(&self) -> f64 {
        let (mut up, mut down, mut k) = (1.0, 1.0, 0);
        while k < INCH_BASE.len() {
            let mut exponent = self.dimension.0[k];
            while exponent > 0 {
                up *= INCH_BASE[k];
                exponent -= 1;
            }
            while exponent < 0 {
                down *= INCH_BASE[k];
                exponent += 1;
            }
            k += 1;
        }
        up / down
    }

    /// A number in base units of `units`, in metric base units.
    pub const fn metric_of(&self, base: f64, units: Units) -> f64 {
        match units {
            Units::Inch => (base - self.origin) * self.inch_size(),
            Units::Metric => base,
        }
    }

    /// A number in metric base units, in base units of `units`.
    pub const fn base_in(&self, metric: f64, units: Units) -> f64 {
        match units {
            Units::Inch => metric / self.inch_size() + self.origin,
            Units::Metric => metric,
        }
    }

    /// Reads text such as `200 ft/min` or `1 7/16 in` and gives the number in shop units of `units`.
    ///
    /// A reading already on the side of `units` comes through unchanged.
    ///
    /// # Errors
    /// [`ReadingError`] where there is no number, no unit, or a unit of another quantity. Quantities without
    /// a unit (ratios, counts, money) take the bare number.
    pub fn read(&self, text: &str, units: Units) -> Result<f64, ReadingError> {
        let trimmed = text.trim();
        let read = number(trimmed).filter(|(value, _)| value.is_finite());
        let (value, rest) = read.ok_or_else(|| ReadingError::Number { text: excerpt(text) })?;
        let label = rest.trim_start();
        let side = Units::ALL.into_iter().find(|&side| self.unit(side).is_written(label));
        match side {
            _ if self.unit(units).is_written(label) => Ok(value),
            Some(side) => {
                let metric = self.metric_of(self.unit(side).to_base(value), side);
                let value = self.unit(units).from_base(self.base_in(metric, units));
                // A number near the end of the range may have none on the other side.
                value.is_finite().then_some(value).ok_or_else(|| ReadingError::Number { text: excerpt(text) })
            }
            None if label.is_empty() => {
                Err(ReadingError::NoUnit { text: excerpt(text), expected: self.labels() })
            }
            None => Err(ReadingError::Unit { unit: excerpt(label), expected: self.labels() }),
        }
    }

    fn labels(&self) -> String {
        match self.units.map(|unit| unit.label) {
            ["", _] => "a plain number".into(),
            [inch, metric] if inch == metric => inch.into(),
            [inch, metric] => format!("{inch} or {metric}"),
        }
    }
}

/// The number at the start of a text, a decimal, `7/16` or `1 7/16`, and the rest of the text.
fn number(text: &str) -> Option<(f64, &str)> {
    let (number, rest) = text.split_at(number_length(text));
    let value = number.parse::<f64>().ok()?;
    if !number.bytes().all(|b| b.is_ascii_digit()) {
        return Some((value, rest));
    }
    if let Some((under, rest)) = rest.strip_prefix('/').and_then(whole) {
        return Some((value / under, rest));
    }
    let fraction = rest.strip_prefix([' ', '-']).and_then(|part| {
        let (over, rest) = whole(part)?;
        let (under, rest) = whole(rest.strip_prefix('/')?)?;
        Some((value + over / under, rest))
    });
    Some(fraction.unwrap_or((value, rest)))
}

/// The digits at the start of a text, if there are any, and the rest of it.
fn whole(text: &str) -> Option<(f64, &str)> {
    let end = text.bytes().take_while(u8::is_ascii_digit).count();
    let (digits, rest) = text.split_at(end);
    Some((digits.parse().ok()?, rest))
}

/// How many bytes at the start of a text are a decimal number: one pass, whatever the text.
fn number_length(text: &str) -> usize {
    let bytes = text.as_bytes();
    let digits = |from: usize| from + bytes[from..].iter().take_while(|b| b.is_ascii_digit()).count();
    let sign = |from: usize| from + usize::from(matches!(bytes.get(from), Some(b'+' | b'-')));
    let mut end = digits(sign(0));
    if bytes.get(end) == Some(&b'.') {
        end = digits(end + 1);
    }
    if matches!(bytes.get(end), Some(b'e' | b'E')) {
        let from = sign(end + 1);
        let exponent = digits(from);
        if exponent > from {
            end = exponent;
        }
    }
    end
}

/// A role in a formula: a number in metric base units, and its row of the table.
pub trait Quantity: Copy + 'static {
    /// The row of the table.
    const KIND: &'static Kind;
    /// What the body of a formula computes with: a bare `f64`, or for [`Size`](crate::Size) the exact size.
    type Bare: Copy;
    /// Whether the body computes on exact sizes.
    const EXACT: bool = false;

    /// From a number in metric base units.
    fn from_metric(metric: f64) -> Self;
    /// The number in metric base units.
    fn metric(self) -> f64;
    /// What a body sees of a typed (metric) value.
    fn bare(self) -> Self::Bare;
    /// What a body sees of a number in base units of `units`.
    fn bare_of(base: f64, units: Units) -> Self::Bare;

    /// From a reading in the shop unit of `units`.
    fn new_in(reading: f64, units: Units) -> Self {
        Self::from_metric(Self::KIND.metric_of(Self::KIND.unit(units).to_base(reading), units))
    }
    /// The reading in the shop unit of `units`.
    fn in_units(self, units: Units) -> f64 {
        Self::KIND.unit(units).from_base(Self::KIND.base_in(self.metric(), units))
    }
}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident $dimension:tt { $($inch:tt)* } $({ $($metric:tt)* })? $(origin $origin:literal)?;)*) => {
        $(quantities!(@fill [$(#[$doc])*] $name $dimension [0.0 $(+ $origin)?] { $($inch)* } $({ $($metric)* })?);)*
        /// Every row of the table.
        pub static KINDS: &[&Kind] = &[$(<$name as Quantity>::KIND),*];
    };
    (@fill $doc:tt $name:ident $dimension:tt $origin:tt { $new:ident $($unit:tt)* }) => {
        quantities!(@type $doc $name $dimension $origin { $new $($unit)* } { $new $($unit)* });
        impl $name {
            #[doc = concat!("From a plain reading in the shop unit of both sides.")]
            pub const fn $new(reading: f64) -> Self {
                Self(<Self as Quantity>::KIND.units[1].to_base(reading))
            }
        }
    };
    (@fill $doc:tt $name:ident $dimension:tt $origin:tt { $inch:ident $($iu:tt)* } { $metric:ident $($mu:tt)* }) => {
        quantities!(@type $doc $name $dimension $origin { $inch $($iu)* } { $metric $($mu)* });
        impl $name {
            /// From a reading in the inch shop unit.
            pub const fn $inch(reading: f64) -> Self {
                let kind = <Self as Quantity>::KIND;
                Self(kind.metric_of(kind.units[0].to_base(reading), Units::Inch))
            }
            /// From a reading in the metric shop unit.
            pub const fn $metric(reading: f64) -> Self {
                Self(<Self as Quantity>::KIND.units[1].to_base(reading))
            }
        }
    };
    (@type [$($doc:tt)*] $name:ident [$l:literal $f:literal $t:literal $k:literal $m:literal] [$origin:expr]
        $({ $new:ident $label:literal $(| $spelling:literal)* = $scale:expr })*) => {
        $($doc)*
        #[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
        pub struct $name(f64);
        impl Quantity for $name {
            const KIND: &'static Kind = &Kind {
                name: stringify!($name),
                dimension: Dimension([$l, $f, $t, $k, $m]),
                units: [$(Unit { label: $label, spellings: &[$($spelling),*], scale: $scale }),*],
                origin: $origin,
            };
            type Bare = f64;
            #[inline(always)]
            fn from_metric(metric: f64) -> Self { Self(metric) }
            #[inline(always)]
            fn metric(self) -> f64 { self.0 }
            #[inline(always)]
            fn bare(self) -> f64 { self.0 }
            #[inline(always)]
            fn bare_of(base: f64, _: Units) -> f64 { base }
        }
        impl $name {
            /// The number in metric base units, where a constant is wanted.
            #[doc(hidden)]
            pub const fn base(self) -> f64 { self.0 }
        }
    };
}

quantities! {
    // name         mm N min K kg  { inch constructor, label | other spellings, scale } { metric likewise }
    /// Length, depth, chip load, feed per revolution, scallop height.
    Length          [1 0 0 0 0]    { inches "in" | "\"" | "inch" = 1.0 } { millimetres "mm" = 1.0 };
    /// Arithmetic mean roughness Ra.
    RoughnessRa     [1 0 0 0 0]    { microinches "µin" | "μin" | "uin" = 1e-6 } { micrometres "µm" | "μm" | "um" = 1e-3 };
    /// Mean peak-to-valley roughness Rz.
    RoughnessRz     [1 0 0 0 0]    { microinches "µin" | "μin" | "uin" = 1e-6 } { micrometres "µm" | "μm" | "um" = 1e-3 };
    /// Surface speed of a cut; also Taylor's C, at one minute of life.
    SurfaceSpeed    [1 0 -1 0 0]   { feet_per_minute "ft/min" | "sfm" = 12.0 } { metres_per_minute "m/min" = 1000.0 };
    /// Feed rate of a table, slide or tool.
    FeedRate        [1 0 -1 0 0]   { inches_per_minute "in/min" | "ipm" = 1.0 } { millimetres_per_minute "mm/min" = 1.0 };
    /// Spindle speed.
    SpindleSpeed    [0 0 -1 0 0]   { rev_per_minute "rev/min" | "rpm" | "1/min" = 1.0 };
    /// Area.
    Area            [2 0 0 0 0]    { square_inches "in²" | "in^2" | "in2" = 1.0 } { square_millimetres "mm²" | "mm^2" | "mm2" = 1.0 };
    /// Volume.
    Volume          [3 0 0 0 0]    { cubic_inches "in³" | "in^3" | "in3" = 1.0 } { cubic_centimetres "cm³" | "cm^3" | "cm3" = 1000.0 };
    /// Volume of metal removed in unit time.
    RemovalRate     [3 0 -1 0 0]   { cubic_inches_per_minute "in³/min" | "in^3/min" | "in3/min" = 1.0 } { cubic_centimetres_per_minute "cm³/min" | "cm^3/min" | "cm3/min" = 1000.0 };
    /// Area sawn in unit time.
    SawingRate      [2 0 -1 0 0]   { square_inches_per_minute "in²/min" | "in^2/min" | "in2/min" = 1.0 } { square_centimetres_per_minute "cm²/min" | "cm^2/min" | "cm2/min" = 100.0 };
    /// Force.
    Force           [0 1 0 0 0]    { pounds_force "lbf" = 1.0 } { newtons "N" = 1.0 };
    /// Torque.
    Torque          [1 1 0 0 0]    { pound_feet "lbf·ft" | "lbf*ft" | "lbf ft" | "ft·lbf" | "ft lbf" | "ft-lbf" = 12.0 } { newton_metres "N·m" | "N*m" | "N m" | "Nm" = 1000.0 };
    /// Stress, pressure, specific cutting force.
    Stress          [-2 1 0 0 0]   { psi "psi" = 1.0 } { megapascals "MPa" | "N/mm²" | "N/mm^2" | "N/mm2" = 1.0 };
    /// Modulus of elasticity.
    Modulus         [-2 1 0 0 0]   { million_psi "10⁶ psi" | "10^6 psi" | "Mpsi" = 1e6 } { gigapascals "GPa" = 1000.0 };
    /// Power.
    Power           [1 1 -1 0 0]   { horsepower "hp" = 396_000.0 } { kilowatts "kW" = 6e7 };
    /// Power for unit removal rate.
    UnitPower       [-2 1 0 0 0]   { horsepower_per_cubic_inch_per_minute "hp/(in³/min)" | "hp/(in^3/min)" | "hp/(in3/min)" = 396_000.0 } { kilowatts_per_cubic_centimetre_per_minute "kW/(cm³/min)" | "kW/(cm^3/min)" | "kW/(cm3/min)" = 6e4 };
    /// Temperature.
    Temperature     [0 0 0 1 0]    { fahrenheit "°F" | "degF" = 1.0 } { celsius "°C" | "degC" = 1.0 } origin 32.0;
    /// Difference of temperatures.
    TemperatureDifference [0 0 0 1 0] { fahrenheit "°F" | "degF" = 1.0 } { kelvin "K" = 1.0 };
    /// Coefficient of linear expansion.
    ExpansionCoefficient [0 0 0 -1 0] { per_fahrenheit "1/°F" | "1/degF" = 1.0 } { per_kelvin "1/K" = 1.0 };
    /// Mass.
    Mass            [0 0 0 0 1]    { pounds "lb" = 1.0 } { kilograms "kg" = 1.0 };
    /// Density.
    Density         [-3 0 0 0 1]   { pounds_per_cubic_inch "lb/in³" | "lb/in^3" | "lb/in3" = 1.0 } { grams_per_cubic_centimetre "g/cm³" | "g/cm^3" | "g/cm3" = 1e-6 };
    /// Time.
    Time            [0 0 1 0 0]    { minutes "min" = 1.0 };
    /// Angle, in degrees in a body too, so that 90 stays 90.
    Angle           [0 0 0 0 0]    { degrees "°" | "deg" | "degree" | "degrees" = 1.0 };
    /// Ratio.
    Ratio           [0 0 0 0 0]    { new "" = 1.0 };
    /// Count of teeth, parts, edges.
    Count           [0 0 0 0 0]    { new "" = 1.0 };
    /// Money, in the currency of the caller.
    Money           [0 0 0 0 0]    { new "" = 1.0 };
    /// Money for an hour, as machines and labour are charged.
    HourlyRate      [0 0 -1 0 0]   { per_hour "1/h" | "1/hr" | "1/hour" | "/h" | "per hour" = 1.0 / 60.0 };
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn text_is_a_number_and_a_unit() {
        let speed = |text: &str| SurfaceSpeed::KIND.read(text, Units::Inch);
        assert_eq!(speed(" 200 ft/min "), Ok(200.0));
        assert_eq!(speed("2e2ft/min"), Ok(200.0));
        assert_eq!(speed("-.5 sfm"), Ok(-0.5));
        // 1 m = 1 / 0.3048 ft.
        assert!((speed("60.96 m/min").unwrap() - 200.0).abs() < 1e-12);
        assert_eq!(Temperature::KIND.read("100 °C", Units::Inch), Ok(212.0));
        assert_eq!(Count::KIND.read("4", Units::Metric), Ok(4.0));
    }

    #[test]
    fn fractions_are_read() {
        let length = |text: &str| Length::KIND.read(text, Units::Inch);
        for (text, value) in [("7/16 in", 0.4375), ("1 7/16 in", 1.4375), ("1-7/16\"", 1.4375)] {
            assert_eq!(length(text), Ok(value), "{text}");
        }
        // Units may begin with a number over a stroke, or follow one.
        assert_eq!(SpindleSpeed::KIND.read("500 1/min", Units::Inch), Ok(500.0));
        assert_eq!(ExpansionCoefficient::KIND.read("12e-6 1/K", Units::Metric), Ok(12e-6));
        for text in ["1/0 in", "1.5/2 in", "1 7/ in", "1 7 in", "1/-2 in", "1/2"] {
            assert!(length(text).is_err(), "{text}");
        }
    }

    #[test]
    fn other_text_is_refused_with_what_would_be_right() {
        let told = |text: &str| Length::KIND.read(text, Units::Inch).unwrap_err().to_string();
        assert_eq!(told("12"), "`12` needs a unit: in or mm");
        assert_eq!(told("12 N"), "`N` is no unit of this quantity: use in or mm");
        for text in ["", "in", ".", "-", "e5 in", "nan in", "inf mm", "1e400 in"] {
            assert_eq!(told(text), format!("`{text}` does not begin with a finite number"));
        }
    }

    #[test]
    fn a_number_too_large_for_the_other_side_is_refused() {
        assert_eq!(Length::KIND.read("1e308 in", Units::Inch), Ok(1e308));
        assert!(Length::KIND.read("1e308 in", Units::Metric).is_err());
    }

    #[test]
    fn long_text_takes_one_pass_and_a_short_message() {
        let text = "1".repeat(4_000_000);
        let error = Length::KIND.read(&text, Units::Inch).unwrap_err().to_string();
        assert!(error.len() < 300, "{} bytes", error.len());
        assert!(Length::KIND.read(&("5 ".to_string() + &text), Units::Inch).is_err());
    }
}
