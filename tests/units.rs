//! Text in every unit, against the definitions of the units.
use tenths::quantity::*;
use tenths::{Quantity, Units, UnitsError};

/// The SI Brochure, 9th edition: prefixes in table 7, minute, hour, degree, litre and tonne in table 8. From memory.
const SI: &str = "SI Brochure";
/// NIST SP 811, appendix B: 1 in = 25.4 mm, 1 lb = 0.453 592 37 kg, 1 lbf = 4.448 221 615 260 5 N, 1 hp = 550 ft·lbf/s,
/// 1 PS = 75 kgf·m/s, 1 kgf = 9.806 65 N, 16 oz = 1 lb. From memory; the figures below are ratios of these definitions in
/// rational arithmetic, and agree with pint.
const SP811: &str = "NIST SP 811";

/// A quantity, the side that it is read on, the text, the nearest number to its exact value there, and the source.
#[rustfmt::skip]
const READINGS: &[(&Kind, Units, &str, f64, &str)] = &[
    (Length::KIND, Units::Metric, "3 m", 3000.0, SI),
    (Length::KIND, Units::Metric, "0.29 m", 290.0, SI),
    (Length::KIND, Units::Metric, "1.5 m", 1500.0, SI),
    (Length::KIND, Units::Inch, "1.27 m", 50.0, SI),
    (Length::KIND, Units::Inch, "2.54 cm", 1.0, SI),
    (Length::KIND, Units::Metric, "2.9 cm", 29.0, SI),
    (Length::KIND, Units::Metric, "5 µm", 0.005, SI),
    (Length::KIND, Units::Inch, "254 µm", 0.01, SI),
    (Length::KIND, Units::Inch, "12 ft", 144.0, SP811),
    (Length::KIND, Units::Metric, "10 ft", 3048.0, SP811),
    (Length::KIND, Units::Inch, "3 thou", 0.003, SP811),
    (Length::KIND, Units::Metric, "5 thou", 0.127, SP811),
    (Length::KIND, Units::Metric, "50 µin", 0.00127, SP811),
    (RoughnessRa::KIND, Units::Metric, "0.0008 mm", 0.8, SI),
    (RoughnessRa::KIND, Units::Metric, "25 nm", 0.025, SI),
    (RoughnessRa::KIND, Units::Inch, "0.000032 in", 32.0, SP811),
    (RoughnessRa::KIND, Units::Inch, "25.4 nm", 1.0, SP811),
    (RoughnessRz::KIND, Units::Metric, "0.0008 mm", 0.8, SI),
    (RoughnessRz::KIND, Units::Metric, "25 nm", 0.025, SI),
    (RoughnessRz::KIND, Units::Inch, "0.000032 in", 32.0, SP811),
    (RoughnessRz::KIND, Units::Inch, "25.4 nm", 1.0, SP811),
    (SurfaceSpeed::KIND, Units::Metric, "30 m/s", 1800.0, SI),
    (SurfaceSpeed::KIND, Units::Inch, "30.48 m/s", 6000.0, SP811),
    (SurfaceSpeed::KIND, Units::Inch, "100 ft/s", 6000.0, SP811),
    (SurfaceSpeed::KIND, Units::Inch, "60.96 m/min", 200.0, SP811),
    (SurfaceSpeed::KIND, Units::Metric, "6500 sfpm", 1981.2, SP811),
    (FeedRate::KIND, Units::Metric, "20 m/min", 20000.0, SI),
    (FeedRate::KIND, Units::Metric, "200 mm/s", 12000.0, SI),
    (FeedRate::KIND, Units::Metric, "1.1 m/s", 66000.0, SI),
    (FeedRate::KIND, Units::Inch, "25.4 cm/min", 10.0, SP811),
    (FeedRate::KIND, Units::Inch, "2 in/s", 120.0, SP811),
    (FeedRate::KIND, Units::Inch, "10 ft/min", 120.0, SP811),
    (FeedRate::KIND, Units::Metric, "10 IPM", 254.0, SP811),
    (SpindleSpeed::KIND, Units::Metric, "1 rev/s", 60.0, SI),
    (SpindleSpeed::KIND, Units::Inch, "1 rev/s", 60.0, SI),
    (SpindleSpeed::KIND, Units::Inch, "1500 RPM", 1500.0, SI),
    (Area::KIND, Units::Metric, "1.1 cm²", 110.0, SI),
    (Area::KIND, Units::Metric, "0.29 m²", 290000.0, SI),
    (Area::KIND, Units::Inch, "6.4516 cm²", 1.0, SP811),
    (Area::KIND, Units::Inch, "2 ft²", 288.0, SP811),
    (Volume::KIND, Units::Metric, "1100 mm³", 1.1, SI),
    (Volume::KIND, Units::Metric, "0.29 L", 290.0, SI),
    (Volume::KIND, Units::Metric, "0.29 m³", 290000.0, SI),
    (Volume::KIND, Units::Inch, "16387.064 mm³", 1.0, SP811),
    (Volume::KIND, Units::Inch, "2 ft³", 3456.0, SP811),
    (RemovalRate::KIND, Units::Metric, "1100 mm³/min", 1.1, SI),
    (RemovalRate::KIND, Units::Metric, "100 mm³/s", 6.0, SI),
    (RemovalRate::KIND, Units::Metric, "2 cm³/s", 120.0, SI),
    (RemovalRate::KIND, Units::Metric, "0.29 L/min", 290.0, SI),
    (RemovalRate::KIND, Units::Inch, "0.5 in³/s", 30.0, SP811),
    (RemovalRate::KIND, Units::Inch, "16.387064 cm³/s", 60.0, SP811),
    (SawingRate::KIND, Units::Metric, "1100 mm²/min", 11.0, SI),
    (SawingRate::KIND, Units::Inch, "645.16 mm²/min", 1.0, SP811),
    (Force::KIND, Units::Metric, "1.1 kN", 1100.0, SI),
    (Force::KIND, Units::Metric, "29 daN", 290.0, SI),
    (Force::KIND, Units::Metric, "2 kgf", 19.6133, SP811),
    (Force::KIND, Units::Inch, "1.1 kip", 1100.0, SP811),
    (Force::KIND, Units::Inch, "8 ozf", 0.5, SP811),
    (Force::KIND, Units::Metric, "1 lbf", 4.4482216152605, SP811),
    (Force::KIND, Units::Inch, "1 kN", 224.8089430997105, SP811),
    (Torque::KIND, Units::Metric, "1100 N·mm", 1.1, SI),
    (Torque::KIND, Units::Metric, "29 N·cm", 0.29, SI),
    (Torque::KIND, Units::Metric, "1.1 kN·m", 1100.0, SI),
    (Torque::KIND, Units::Metric, "2.9 daN·m", 29.0, SI),
    (Torque::KIND, Units::Metric, "2 kgf·m", 19.6133, SP811),
    (Torque::KIND, Units::Metric, "2 kgf·cm", 0.196133, SP811),
    (Torque::KIND, Units::Inch, "90 lbf·in", 7.5, SP811),
    (Torque::KIND, Units::Inch, "96 ozf·in", 0.5, SP811),
    (Torque::KIND, Units::Metric, "1 ft-lb", 1.3558179483314003, SP811),
    (Torque::KIND, Units::Metric, "1 in-lb", 0.1129848290276167, SP811),
    (Stress::KIND, Units::Metric, "2900 kPa", 2.9, SI),
    (Stress::KIND, Units::Metric, "5000000 Pa", 5.0, SI),
    (Stress::KIND, Units::Metric, "210 GPa", 210000.0, SI),
    (Stress::KIND, Units::Metric, "2.9 bar", 0.29, SI),
    (Stress::KIND, Units::Metric, "2 kgf/mm²", 19.6133, SP811),
    (Stress::KIND, Units::Metric, "2 kgf/cm²", 0.196133, SP811),
    (Stress::KIND, Units::Inch, "36 ksi", 36000.0, SP811),
    (Stress::KIND, Units::Inch, "29 Mpsi", 29000000.0, SP811),
    (Stress::KIND, Units::Metric, "1 psi", 0.006894757293168362, SP811),
    (Stress::KIND, Units::Metric, "50 ksi", 344.73786465841806, SP811),
    (Modulus::KIND, Units::Metric, "210000 MPa", 210.0, SI),
    (Modulus::KIND, Units::Metric, "2.9e11 Pa", 290.0, SI),
    (Modulus::KIND, Units::Metric, "20000 kgf/mm²", 196.133, SP811),
    (Modulus::KIND, Units::Inch, "29e6 psi", 29.0, SP811),
    (Modulus::KIND, Units::Inch, "29000 ksi", 29.0, SP811),
    (Modulus::KIND, Units::Metric, "30 Msi", 206.84271879505084, SP811),
    (Power::KIND, Units::Metric, "750 W", 0.75, SI),
    (Power::KIND, Units::Metric, "10 PS", 7.3549875, SP811),
    (Power::KIND, Units::Metric, "1 hp", 0.7456998715822702, SP811),
    (Power::KIND, Units::Inch, "15 kW", 20.11533134392542, SP811),
    (UnitPower::KIND, Units::Metric, "3 J/mm³", 0.05, SI),
    (UnitPower::KIND, Units::Metric, "1 hp/(in³/min)", 0.04550539813491118, SP811),
    (Temperature::KIND, Units::Inch, "20 ℃", 68.0, SP811),
    (Temperature::KIND, Units::Inch, "37.7 C", 99.86, SP811),
    (Temperature::KIND, Units::Metric, "98.6 F", 37.0, SP811),
    (Temperature::KIND, Units::Metric, "-40 deg F", -40.0, SP811),
    (TemperatureDifference::KIND, Units::Metric, "20 °C", 20.0, SI),
    (TemperatureDifference::KIND, Units::Inch, "20 °C", 36.0, SP811),
    (TemperatureDifference::KIND, Units::Metric, "90 °F", 50.0, SP811),
    (ExpansionCoefficient::KIND, Units::Metric, "11.7 10⁻⁶/K", 11.7e-6, SI),
    (ExpansionCoefficient::KIND, Units::Metric, "11.7 µm/(m·K)", 11.7e-6, SI),
    (ExpansionCoefficient::KIND, Units::Inch, "6.5 µin/(in·°F)", 6.5e-6, SP811),
    (ExpansionCoefficient::KIND, Units::Inch, "18 ppm/K", 10e-6, SP811),
    (Mass::KIND, Units::Metric, "290 g", 0.29, SI),
    (Mass::KIND, Units::Metric, "1.1 t", 1100.0, SI),
    (Mass::KIND, Units::Inch, "8 oz", 0.5, SP811),
    (Mass::KIND, Units::Metric, "1 lb", 0.45359237, SP811),
    (Density::KIND, Units::Metric, "7850 kg/m³", 7.85, SI),
    (Density::KIND, Units::Metric, "7.85 t/m³", 7.85, SI),
    (Density::KIND, Units::Metric, "1 lb/in³", 27.67990471020312, SP811),
    (Density::KIND, Units::Inch, "864 lb/ft³", 0.5, SP811),
    (MassPerLength::KIND, Units::Metric, "1250 g/m", 1.25, SI),
    (MassPerLength::KIND, Units::Metric, "0.002 kg/mm", 2.0, SI),
    (MassPerLength::KIND, Units::Inch, "0.25 lb/in", 3.0, SP811),
    (PricePerLength::KIND, Units::Inch, "0.5 per inch", 6.0, SP811),
    (PricePerLength::KIND, Units::Metric, "0.004 1/mm", 4.0, SI),
    (PricePerMass::KIND, Units::Inch, "125 per cwt", 1.25, SP811),
    (PricePerMass::KIND, Units::Metric, "1250 per tonne", 1.25, SI),
    (Time::KIND, Units::Metric, "0.5 h", 30.0, SI),
    (Time::KIND, Units::Inch, "30 s", 0.5, SI),
    (Time::KIND, Units::Metric, "1.1 h", 66.0, SI),
    (Time::KIND, Units::Metric, "600 ms", 0.01, SI),
    (Angle::KIND, Units::Metric, "30 arcmin", 0.5, SI),
    (Angle::KIND, Units::Metric, "18 arcsec", 0.005, SI),
    (Angle::KIND, Units::Metric, "0.1 rad", 5.729577951308232, SI),
    (Angle::KIND, Units::Inch, "5 mrad", 0.2864788975654116, SI),
    (Frequency::KIND, Units::Metric, "1.5 kHz", 1500.0, SI),
    (Stiffness::KIND, Units::Metric, "12 N/µm", 12000.0, SI),
    (Stiffness::KIND, Units::Metric, "5000 N/m", 5.0, SI),
    (Stiffness::KIND, Units::Inch, "57 klbf/in", 57000.0, SP811),
    (Stiffness::KIND, Units::Metric, "1 lbf/in", 0.17512683524647638, SP811),
    (Compliance::KIND, Units::Metric, "2 µm/N", 0.002, SI),
    (Compliance::KIND, Units::Metric, "1 m/N", 1000.0, SI),
    (Compliance::KIND, Units::Inch, "30 µin/lbf", 0.00003, SP811),
    (Curvature::KIND, Units::Metric, "50 1/m", 0.05, SI),
    (Curvature::KIND, Units::Inch, "1000 1/m", 25.4, SP811),
    (Acceleration::KIND, Units::Metric, "2500 mm/s²", 2.5, SI),
    (Acceleration::KIND, Units::Inch, "10 ft/s²", 120.0, SP811),
    (Acceleration::KIND, Units::Inch, "2.54 m/s²", 100.0, SP811),
    (HeatCapacity::KIND, Units::Metric, "0.0036 J/(mm³·K)", 3.6, SI),
    (HeatCapacity::KIND, Units::Metric, "3600 kJ/(m³·K)", 3.6, SI),
    (Diffusivity::KIND, Units::Metric, "0.84 cm²/s", 84.0, SI),
    (Diffusivity::KIND, Units::Metric, "0.000013 m²/s", 13.0, SI),
    (Ratio::KIND, Units::Metric, "29 %", 0.29, SI),
    (Ratio::KIND, Units::Inch, "12.5%", 0.125, SI),
    (HourlyRate::KIND, Units::Metric, "1.1 1/min", 66.0, SI),
];

#[test]
fn text_reads_as_its_definition_says() {
    for (kind, units, text, expected, source) in READINGS {
        assert_eq!(kind.read(text, *units), Ok(*expected), "{text} of {}, {source}", kind.name);
    }
}

#[test]
fn every_other_unit_has_a_figure() {
    for kind in KINDS {
        for other in kind.others {
            let names = [&[other.label], other.spellings].concat();
            let is_of = |text: &str| {
                names.contains(&text.trim_start_matches(|c| "-.0123456789e".contains(c)).trim_start())
            };
            let is_known = READINGS.iter().any(|(of, _, text, ..)| of == kind && is_of(text));
            assert!(is_known, "no figure for {} of {}", other.label, kind.name);
        }
    }
}

#[test]
fn all_spellings_of_a_unit_mean_the_same() {
    for kind in KINDS {
        let shop = kind.units.iter().map(|unit| (unit.label, unit.spellings));
        for (label, spellings) in shop.chain(kind.others.iter().map(|unit| (unit.label, unit.spellings))) {
            for spelling in spellings {
                let about = format!("{spelling} of {}", kind.name);
                for (units, number) in
                    Units::ALL.into_iter().flat_map(|units| NUMBERS.map(|number| (units, number)))
                {
                    let read = |text: String| {
                        kind.read(&text, units).unwrap_or_else(|error| panic!("{about}: {error}"))
                    };
                    let expected = read(format!("{number} {label}"));
                    assert_eq!(read(format!("{number} {spelling}")), expected, "{about}");
                    // Digits would run together with those of `1/min`.
                    if !spelling.starts_with(|c: char| c.is_ascii_digit()) {
                        assert_eq!(read(format!("{number}{spelling}")), expected, "{about}");
                    }
                }
            }
        }
    }
}

const NUMBERS: [&str; 3] = ["12.7", "7", "1 7/16"];

// A conversion there and back is off by one rounding each way at most.
#[test]
fn converted_numbers_come_back() {
    for kind in KINDS {
        for units in Units::ALL {
            for spelling in kind.spellings() {
                for number in [0.1, 0.29, 1.1, 7.0, 12.7, 1e-5, 123_456.789] {
                    let there = kind.read(&format!("{number:e} {spelling}"), units).unwrap();
                    let back = format!("{there:e} {}", kind.unit(units).label);
                    let again = kind.read(&back, units).unwrap();
                    assert_eq!(again, there, "{number} {spelling} of {}", kind.name);
                    for other in Units::ALL {
                        let direct = kind.read(&format!("{number:e} {spelling}"), other).unwrap();
                        let by = kind.read(&back, other).unwrap();
                        let near = 4e-16 * direct.abs().max(kind.origin);
                        assert!(
                            (by - direct).abs() <= near,
                            "{number} {spelling} of {}: {by}, {direct}",
                            kind.name
                        );
                    }
                }
            }
        }
    }
}

// Hundredths, most of which no float holds.
#[test]
fn short_decimals_come_out_short() {
    for k in 1..1000 {
        let text = format!("{}.{:02}", k / 100, k % 100);
        let read = |kind: &Kind, unit: &str| kind.read(&format!("{text} {unit}"), Units::Metric);
        assert_eq!(read(Length::KIND, "m"), Ok(f64::from(10 * k)), "{text} m");
        assert_eq!(read(Force::KIND, "kN"), Ok(f64::from(10 * k)), "{text} kN");
        assert_eq!(read(Time::KIND, "h"), Ok(f64::from(6 * k) / 10.0), "{text} h");
    }
}

// Beyond what is kept exactly, within a few roundings.
#[test]
fn long_and_extreme_numbers_are_converted_too() {
    for (text, expected) in [
        ("1e300 m", 1e303),
        ("1e-300 m", 1e-297),
        ("1.00000000000000000000000000000000000000000000000001 m", 1000.0),
        ("25400000000000000000000000000000 in", 6.4516e32),
        ("5e-324 in", 125e-324),
    ] {
        let value = Length::KIND.read(text, Units::Metric).unwrap();
        assert!((value - expected).abs() <= 1e-15 * expected, "{text} is {value}");
    }
    assert!(Length::KIND.read("1e306 m", Units::Metric).is_err());
}

#[test]
fn a_side_is_read_from_its_name() {
    for units in Units::ALL {
        assert_eq!(Units::parse(units.name()), Ok(units));
        assert_eq!(format!(" {} ", units.name()).parse(), Ok(units));
    }
    assert_eq!(["in", "mm"].map(Units::parse), [Ok(Units::Inch), Ok(Units::Metric)]);
    for text in ["", "Inch", "cm", "imperial"] {
        assert_eq!(Units::parse(text), Err(UnitsError { text: text.into() }));
    }
    assert_eq!(
        Units::parse("si").unwrap_err().to_string(),
        "`si` is not a system of units; expected `inch` or `in`, `metric` or `mm`"
    );
}
