//! The table of quantities, and what a row of it says.
use super::factor::Factor;
use crate::error::excerpt;
use std::str::FromStr;

/// What fixes the unit of every bare number that goes in or comes out.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, tenths_macros::Choice)]
#[repr(usize)]
pub enum Units {
    /// Inches, feet per minute, pounds-force, horsepower, degrees Fahrenheit.
    Inch = 0,
    /// Millimetres, metres per minute, newtons, kilowatts, degrees Celsius.
    Metric = 1,
}

impl Units {
    /// Reads `inch` or `metric`, or the unit of length of either, `in` or `mm`.
    ///
    /// # Errors
    /// [`UnitsError`] for any other text.
    pub fn parse(text: &str) -> Result<Units, UnitsError> {
        let is_meant = |units: &Units| [units.name(), units.length_label()].contains(&text.trim());
        let found = Units::ALL.into_iter().find(is_meant);
        found.ok_or_else(|| UnitsError { text: excerpt(text) })
    }

    pub(super) const fn other(self) -> Units {
        match self {
            Units::Inch => Units::Metric,
            Units::Metric => Units::Inch,
        }
    }
}

impl FromStr for Units {
    type Err = UnitsError;

    /// As [`Units::parse`].
    fn from_str(text: &str) -> Result<Units, UnitsError> {
        Units::parse(text)
    }
}

/// Text that names neither side.
#[derive(Clone, PartialEq, Eq, Debug, thiserror::Error)]
#[error("`{text}` is not a system of units; expected `inch` or `in`, `metric` or `mm`")]
pub struct UnitsError {
    /// The text as given.
    pub text: String,
}

/// Exponents of length, force, time, temperature and mass.
///
/// Mass stands beside force as a base of its own, since a shop weighs and pushes but seldom accelerates; a
/// formula that does both declares the constant that joins them.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Dimension(pub [i8; 5]);

/// The inch base unit in metric base units: in, lbf, min, °F, lb in mm, N, min, K, kg. All exact: the international
/// inch and pound, and a pound-force of 9.80665 m/s².
const INCH_BASE: [Factor; 5] = [
    Factor::of(&[254, 10]),
    Factor::of(&[44_482_216_152_605, 10_000_000_000_000]),
    Factor::ONE,
    Factor::of(&[5, 9]),
    Factor::of(&[45_359_237, 100_000_000]),
];

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
    pub(crate) const fn can_represent(&self, base: f64) -> bool {
        let largest = if self.scale < 1.0 { (f64::MAX * self.scale).next_down() } else { f64::MAX };
        base.abs() <= largest
    }

    pub(super) fn is_written(&self, text: &str) -> bool {
        self.label == text || self.spellings.contains(&text)
    }
}

/// A unit that text may give beside the shop units.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct OtherUnit {
    /// How the unit is written: `m`.
    pub label: &'static str,
    /// Other spellings that text may use.
    pub spellings: &'static [&'static str],
    /// The unit in the inch and in the metric shop unit.
    pub to: [Factor; 2],
}

impl OtherUnit {
    /// `times` the shop unit of `side`, where the inch shop unit is `across` metric ones.
    const fn new(
        side: Units,
        label: &'static str,
        spellings: &'static [&'static str],
        times: Factor,
        across: Factor,
    ) -> Self {
        let to = match side {
            Units::Inch => [times, times.times(across)],
            Units::Metric => [times.times(across.inverse()), times],
        };
        OtherUnit { label, spellings, to }
    }

    pub(super) fn is_written(&self, text: &str) -> bool {
        self.label == text || self.spellings.contains(&text)
    }
}

/// One row of the table of quantities.
#[derive(Debug)]
pub struct Kind {
    /// Name of the Rust type.
    pub name: &'static str,
    /// Its dimension.
    pub dimension: Dimension,
    /// The inch and the metric shop unit.
    pub units: [Unit; 2],
    /// The inch reading at the metric zero: 32 for temperatures, else 0.
    pub origin: f64,
    /// The inch shop unit in metric ones.
    pub across: Factor,
    /// What else text may be in.
    pub others: &'static [OtherUnit],
}

impl PartialEq for Kind {
    /// No two rows of the table have the same name.
    fn eq(&self, other: &Kind) -> bool {
        self.name == other.name
    }
}

/// The inch shop unit in metric ones, for a dimension and the shop units in base units.
const fn across(dimension: Dimension, scales: &[Factor]) -> Factor {
    let inch = match scales {
        [inch, metric] => inch.times(metric.inverse()),
        _ => Factor::ONE,
    };
    let (mut size, mut k) = (inch, 0);
    while k < INCH_BASE.len() {
        let mut exponent = dimension.0[k];
        while exponent != 0 {
            let up = exponent > 0;
            size = size.times(if up { INCH_BASE[k] } else { INCH_BASE[k].inverse() });
            exponent -= if up { 1 } else { -1 };
        }
        k += 1;
    }
    size
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
                up *= INCH_BASE[k].nearest();
                exponent -= 1;
            }
            while exponent < 0 {
                down *= INCH_BASE[k].nearest();
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

/// A quantity that is kept as a float, unlike an exact size.
pub trait FloatQuantity: Quantity {}

macro_rules! quantities {
    ($($(#[$doc:meta])* $name:ident $dimension:tt { $($inch:tt)* } $({ $($metric:tt)* })?
        $(origin $origin:literal)? $(inch [$($inch_others:tt)*])? $(metric [$($metric_others:tt)*])?;)*) => {
        $(quantities!(@fill [$(#[$doc])*] $name $dimension
            [0.0 $(+ $origin)?] [$($($inch_others)*)?] [$($($metric_others)*)?] { $($inch)* } $({ $($metric)* })?);)*
        /// Every row of the table.
        pub static KINDS: &[&Kind] = &[$(<$name as Quantity>::KIND),*];
    };
    (@fill $doc:tt $name:ident $dimension:tt $origin:tt $io:tt $mo:tt { $new:ident $($unit:tt)* }) => {
        quantities!(@type $doc $name $dimension $origin $io $mo { $new $($unit)* } { $new $($unit)* });
        impl $name {
            #[doc = concat!("From a plain reading in the shop unit of both sides.")]
            pub const fn $new(reading: f64) -> Self {
                Self(<Self as Quantity>::KIND.units[1].to_base(reading))
            }
        }
    };
    (@fill $doc:tt $name:ident $dimension:tt $origin:tt $io:tt $mo:tt
        { $inch:ident $($iu:tt)* } { $metric:ident $($mu:tt)* }) => {
        quantities!(@type $doc $name $dimension $origin $io $mo { $inch $($iu)* } { $metric $($mu)* });
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
        [$($io:literal $(| $ios:literal)* = $io_up:literal $(/ $io_down:literal)?),* $(,)?]
        [$($mo:literal $(| $mos:literal)* = $mo_up:literal $(/ $mo_down:literal)?),* $(,)?]
        $({ $new:ident $label:literal $(| $spelling:literal)* = $up:literal $(/ $down:literal)? })*) => {
        $($doc)*
        #[derive(Clone, Copy, PartialEq, PartialOrd, Debug)]
        pub struct $name(f64);
        impl Quantity for $name {
            const KIND: &'static Kind = &{
                const DIMENSION: Dimension = Dimension([$l, $f, $t, $k, $m]);
                const SCALES: &[Factor] = &[$(Factor::of(&[$up $(, $down)?])),*];
                const ACROSS: Factor = across(DIMENSION, SCALES);
                const OTHERS: &[OtherUnit] = &[
                    $(OtherUnit::new(Units::Inch, $io, &[$($ios),*], Factor::of(&[$io_up $(, $io_down)?]), ACROSS),)*
                    $(OtherUnit::new(Units::Metric, $mo, &[$($mos),*], Factor::of(&[$mo_up $(, $mo_down)?]), ACROSS),)*
                ];
                Kind {
                    name: stringify!($name),
                    dimension: DIMENSION,
                    units: [$(Unit {
                        label: $label,
                        spellings: &[$($spelling),*],
                        scale: Factor::of(&[$up $(, $down)?]).nearest(),
                    }),*],
                    origin: $origin,
                    across: ACROSS,
                    others: OTHERS,
                }
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
        impl FloatQuantity for $name {}
        impl $name {
            /// The number in metric base units, where a constant is wanted.
            #[doc(hidden)]
            pub const fn base(self) -> f64 { self.0 }
        }
    };
}

quantities! {
    // name         mm N min K kg  { inch constructor, label | other spellings, scale } { metric: the same }
    // Then what else text may be in: inch [ label | other spellings = times the inch shop unit, … ] metric [ the same ].
    /// Length, depth, chip load, feed per revolution, scallop height.
    Length          [1 0 0 0 0]    { inches "in" | "\"" | "″" | "inch" | "inches" = 1 } { millimetres "mm" = 1 }
        inch ["ft" | "foot" | "feet" = 12, "thou" = 1 / 1000, "µin" | "μin" | "uin" = 1 / 1_000_000]
        metric ["m" = 1000, "cm" = 10, "µm" | "μm" | "um" = 1 / 1000];
    /// Arithmetic mean roughness Ra.
    RoughnessRa     [1 0 0 0 0]    { microinches "µin" | "μin" | "uin" = 1 / 1_000_000 } { micrometres "µm" | "μm" | "um" = 1 / 1000 }
        inch ["in" | "inch" = 1_000_000] metric ["mm" = 1000, "nm" = 1 / 1000];
    /// Mean peak-to-valley roughness Rz.
    RoughnessRz     [1 0 0 0 0]    { microinches "µin" | "μin" | "uin" = 1 / 1_000_000 } { micrometres "µm" | "μm" | "um" = 1 / 1000 }
        inch ["in" | "inch" = 1_000_000] metric ["mm" = 1000, "nm" = 1 / 1000];
    /// Surface speed of a cut; also Taylor's C, at one minute of life.
    SurfaceSpeed    [1 0 -1 0 0]   { feet_per_minute "ft/min" | "sfm" | "SFM" | "sfpm" | "SFPM" | "fpm" | "FPM" = 12 } { metres_per_minute "m/min" = 1000 }
        inch ["ft/s" = 60] metric ["m/s" = 60];
    /// Feed rate of a table, slide or tool.
    FeedRate        [1 0 -1 0 0]   { inches_per_minute "in/min" | "ipm" | "IPM" = 1 } { millimetres_per_minute "mm/min" = 1 }
        inch ["in/s" = 60, "ft/min" = 12] metric ["mm/s" = 60, "cm/min" = 10, "m/min" = 1000, "m/s" = 60_000];
    /// Spindle speed.
    SpindleSpeed    [0 0 -1 0 0]   { rev_per_minute "rev/min" | "rpm" | "RPM" | "r/min" | "1/min" | "min⁻¹" | "min^-1" = 1 }
        metric ["rev/s" | "r/s" | "rps" = 60];
    /// Area.
    Area            [2 0 0 0 0]    { square_inches "in²" | "in^2" | "in2" | "sq in" = 1 } { square_millimetres "mm²" | "mm^2" | "mm2" = 1 }
        inch ["ft²" | "ft^2" | "ft2" | "sq ft" = 144] metric ["cm²" | "cm^2" | "cm2" = 100, "m²" | "m^2" | "m2" = 1_000_000];
    /// Volume.
    Volume          [3 0 0 0 0]    { cubic_inches "in³" | "in^3" | "in3" | "cu in" = 1 } { cubic_centimetres "cm³" | "cm^3" | "cm3" | "cc" = 1000 }
        inch ["ft³" | "ft^3" | "ft3" | "cu ft" = 1728]
        metric ["mm³" | "mm^3" | "mm3" = 1 / 1000, "L" | "l" | "dm³" | "dm^3" | "dm3" = 1000, "m³" | "m^3" | "m3" = 1_000_000];
    /// Volume of metal removed in unit time.
    RemovalRate     [3 0 -1 0 0]   { cubic_inches_per_minute "in³/min" | "in^3/min" | "in3/min" = 1 } { cubic_centimetres_per_minute "cm³/min" | "cm^3/min" | "cm3/min" | "cc/min" = 1000 }
        inch ["in³/s" | "in^3/s" | "in3/s" = 60]
        metric ["mm³/min" | "mm^3/min" | "mm3/min" = 1 / 1000, "mm³/s" | "mm^3/s" | "mm3/s" = 60 / 1000,
                "cm³/s" | "cm^3/s" | "cm3/s" = 60, "L/min" | "l/min" | "dm³/min" | "dm^3/min" | "dm3/min" = 1000];
    /// Area sawn in unit time.
    SawingRate      [2 0 -1 0 0]   { square_inches_per_minute "in²/min" | "in^2/min" | "in2/min" = 1 } { square_centimetres_per_minute "cm²/min" | "cm^2/min" | "cm2/min" = 100 }
        metric ["mm²/min" | "mm^2/min" | "mm2/min" = 1 / 100];
    /// Force.
    Force           [0 1 0 0 0]    { pounds_force "lbf" = 1 } { newtons "N" = 1 }
        inch ["kip" | "kips" | "klbf" = 1000, "ozf" = 1 / 16] metric ["daN" = 10, "kN" = 1000, "kgf" | "kp" = 980_665 / 100_000];
    /// Torque.
    Torque          [1 1 0 0 0]    { pound_feet "lbf·ft" | "lbf*ft" | "lbf ft" | "lbf-ft" | "ft·lbf" | "ft*lbf" | "ft lbf" | "ft-lbf" | "lb·ft" | "lb*ft" | "lb ft" | "lb-ft" | "ft·lb" | "ft*lb" | "ft lb" | "ft-lb" = 12 }
                                   { newton_metres "N·m" | "N*m" | "N m" | "Nm" = 1000 }
        inch ["lbf·in" | "lbf*in" | "lbf in" | "lbf-in" | "in·lbf" | "in*lbf" | "in lbf" | "in-lbf" | "lb·in" | "lb*in" | "lb in" | "lb-in" | "in·lb" | "in*lb" | "in lb" | "in-lb" = 1 / 12,
              "ozf·in" | "ozf*in" | "ozf in" | "ozf-in" | "in·ozf" | "oz·in" | "oz*in" | "oz in" | "oz-in" | "in·oz" | "in oz" | "in-oz" = 1 / 192]
        metric ["N·mm" | "N*mm" | "N mm" | "Nmm" = 1 / 1000, "N·cm" | "N*cm" | "N cm" | "Ncm" = 1 / 100,
                "daN·m" | "daN*m" | "daN m" | "daNm" = 10, "kN·m" | "kN*m" | "kN m" | "kNm" = 1000,
                "kgf·m" | "kgf*m" | "kgf m" = 980_665 / 100_000, "kgf·cm" | "kgf*cm" | "kgf cm" = 980_665 / 10_000_000];
    /// Stress, pressure, specific cutting force.
    Stress          [-2 1 0 0 0]   { psi "psi" | "PSI" | "lbf/in²" | "lbf/in^2" | "lbf/in2" = 1 } { megapascals "MPa" | "N/mm²" | "N/mm^2" | "N/mm2" = 1 }
        inch ["ksi" | "KSI" | "kpsi" = 1000, "10⁶ psi" | "10^6 psi" | "Mpsi" | "Msi" = 1_000_000]
        metric ["Pa" | "N/m²" | "N/m^2" | "N/m2" = 1 / 1_000_000, "kPa" = 1 / 1000, "bar" = 1 / 10, "GPa" | "kN/mm²" | "kN/mm^2" | "kN/mm2" = 1000,
                "kgf/mm²" | "kgf/mm^2" | "kgf/mm2" = 980_665 / 100_000, "kgf/cm²" | "kgf/cm^2" | "kgf/cm2" = 980_665 / 10_000_000];
    /// Modulus of elasticity.
    Modulus         [-2 1 0 0 0]   { million_psi "10⁶ psi" | "10^6 psi" | "Mpsi" | "Msi" = 1_000_000 } { gigapascals "GPa" | "kN/mm²" | "kN/mm^2" | "kN/mm2" = 1000 }
        inch ["psi" | "PSI" | "lbf/in²" | "lbf/in^2" | "lbf/in2" = 1 / 1_000_000, "ksi" | "KSI" | "kpsi" = 1 / 1000]
        metric ["MPa" | "N/mm²" | "N/mm^2" | "N/mm2" = 1 / 1000, "Pa" | "N/m²" | "N/m^2" | "N/m2" = 1 / 1_000_000_000,
                "kgf/mm²" | "kgf/mm^2" | "kgf/mm2" = 980_665 / 100_000_000];
    /// Power.
    Power           [1 1 -1 0 0]   { horsepower "hp" | "HP" = 396_000 } { kilowatts "kW" = 60_000_000 }
        metric ["W" = 1 / 1000, "PS" = 73_549_875 / 100_000_000];
    /// Power for unit removal rate.
    UnitPower       [-2 1 0 0 0]   { horsepower_per_cubic_inch_per_minute "hp/(in³/min)" | "hp/(in^3/min)" | "hp/(in3/min)" | "hp·min/in³" | "hp*min/in^3" = 396_000 }
                                   { kilowatts_per_cubic_centimetre_per_minute "kW/(cm³/min)" | "kW/(cm^3/min)" | "kW/(cm3/min)" | "kW·min/cm³" | "kW*min/cm^3" = 60_000 }
        metric ["J/mm³" | "J/mm^3" | "J/mm3" | "W·s/mm³" | "W*s/mm^3" | "W/(mm³/s)" | "W/(mm^3/s)" | "W/(mm3/s)" | "GJ/m³" | "GJ/m^3" | "GJ/m3" = 1 / 60];
    /// Temperature.
    Temperature     [0 0 0 1 0]    { fahrenheit "°F" | "degF" | "deg F" | "℉" | "F" = 1 } { celsius "°C" | "degC" | "deg C" | "℃" | "C" = 1 } origin 32.0;
    /// Difference of temperatures.
    TemperatureDifference [0 0 0 1 0] { fahrenheit "°F" | "degF" | "deg F" | "℉" | "F" = 1 } { kelvin "K" | "°C" | "degC" | "deg C" | "℃" | "C" = 1 };
    /// Coefficient of linear expansion.
    ExpansionCoefficient [0 0 0 -1 0] { per_fahrenheit "1/°F" | "1/degF" | "/°F" | "/degF" | "in/(in·°F)" | "in/in/°F" = 1 }
                                   { per_kelvin "1/K" | "/K" | "K⁻¹" | "K^-1" | "1/°C" | "1/degC" | "/°C" | "/degC" | "m/(m·K)" | "mm/(mm·K)" = 1 }
        inch ["10⁻⁶/°F" | "×10⁻⁶/°F" | "10^-6/°F" | "ppm/°F" | "ppm/degF" | "µin/(in·°F)" | "μin/(in·°F)" | "µin/in/°F" | "μin/in/°F" = 1 / 1_000_000]
        metric ["10⁻⁶/K" | "×10⁻⁶/K" | "10^-6/K" | "ppm/K" | "µm/(m·K)" | "μm/(m·K)" | "µm/m/K" | "μm/m/K" | "um/m/K"
                | "10⁻⁶/°C" | "×10⁻⁶/°C" | "10^-6/°C" | "ppm/°C" | "ppm/degC" | "µm/(m·°C)" | "μm/(m·°C)" | "µm/m/°C" | "μm/m/°C" = 1 / 1_000_000];
    /// Mass.
    Mass            [0 0 0 0 1]    { pounds "lb" | "lbs" | "lbm" = 1 } { kilograms "kg" = 1 }
        inch ["oz" = 1 / 16] metric ["g" = 1 / 1000, "t" = 1000];
    /// Density.
    Density         [-3 0 0 0 1]   { pounds_per_cubic_inch "lb/in³" | "lb/in^3" | "lb/in3" = 1 }
                                   { grams_per_cubic_centimetre "g/cm³" | "g/cm^3" | "g/cm3" | "g/cc" | "kg/dm³" | "kg/dm^3" | "kg/dm3" | "kg/L" | "kg/l" | "t/m³" | "t/m^3" | "t/m3" = 1 / 1_000_000 }
        inch ["lb/ft³" | "lb/ft^3" | "lb/ft3" = 1 / 1728] metric ["kg/m³" | "kg/m^3" | "kg/m3" = 1 / 1000];
    /// Time.
    Time            [0 0 1 0 0]    { minutes "min" | "minute" | "minutes" = 1 }
        metric ["h" | "hr" | "hrs" | "hour" | "hours" = 60, "s" | "sec" | "second" | "seconds" = 1 / 60, "ms" = 1 / 60_000];
    /// Angle, in degrees in a body too, so that 90 stays 90.
    Angle           [0 0 0 0 0]    { degrees "°" | "deg" | "degree" | "degrees" = 1 }
        // A radian is 180/π degrees, here to 30 digits, far closer than a float.
        metric ["arcmin" = 1 / 60, "arcsec" = 1 / 3600, "rad" = 7_129_656_070_887_379 / 124_435_972_971_787,
                "mrad" = 7_129_656_070_887_379 / 124_435_972_971_787_000];
    /// Ratio.
    Ratio           [0 0 0 0 0]    { new "" = 1 } metric ["%" = 1 / 100];
    /// Count of teeth, parts, edges.
    Count           [0 0 0 0 0]    { new "" = 1 };
    /// Money, in the currency of the caller.
    Money           [0 0 0 0 0]    { new "" = 1 };
    /// Money for an hour, as machines and labour are charged.
    HourlyRate      [0 0 -1 0 0]   { per_hour "1/h" | "1/hr" | "1/hour" | "/h" | "/hr" | "/hour" | "per hour" = 1 / 60 }
        metric ["1/min" | "/min" | "per minute" = 60];
}
