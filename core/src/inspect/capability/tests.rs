use super::*;

fn of(readings: &[f64], law: CapabilityLaw) -> Result<Capability, CapabilityError> {
    let limits = CapabilityLimits { lower: Some(-1.0), upper: Some(2.0) };
    capability(readings, limits, &CapabilityOptions { law, ..CapabilityOptions::default() })
}

// The skewness of n readings of which all but one are alike is √n, so that the gamma law has a shape of 4 / n.
#[test]
fn a_law_that_cannot_be_as_skewed_as_the_readings_is_refused() {
    let one_out = |count: usize| {
        let mut readings = vec![0.0; count];
        readings[count / 2] = 1.0;
        of(&readings, CapabilityLaw::Pearson)
    };
    assert!(one_out(3000).is_ok());
    assert_eq!(
        one_out(6400).unwrap_err().to_string(),
        "a skewness of 80 is too strong for the Pearson III law. Fix: look for single readings far out, or use another law"
    );
    // Two readings have no skewness. That of even ones is zero, and the law the normal one.
    assert_eq!(
        of(&[0.0, 1.0], CapabilityLaw::Pearson).unwrap_err().to_string(),
        "the Pearson III law needs 3 or more readings, not 2"
    );
    let even = [0.0, 1.0, 0.5, 0.25, 0.75];
    let [pearson, normal] =
        [CapabilityLaw::Pearson, CapabilityLaw::Normal].map(|law| of(&even, law).unwrap());
    assert!((pearson.ppk - normal.ppk).abs() < 1e-3 * normal.ppk, "{} {}", pearson.ppk, normal.ppk);
}

#[test]
fn readings_too_large_to_work_with_are_not_called_alike() {
    for readings in [[1e200, -1e200, 1e200], [1e308, -1e308, 1e308]] {
        assert_eq!(
            of(&readings, CapabilityLaw::Normal).unwrap_err().to_string(),
            "the readings are too large to work with. Fix: give them in a larger unit"
        );
    }
    assert_eq!(
        of(&[0.1 + 0.2; 3], CapabilityLaw::Normal).unwrap_err().to_string(),
        "all 3 readings are 0.3: without spread there is no capability. Fix: read with a finer resolution"
    );
}

fn refusal(limits: [Option<f64>; 2], change: impl FnOnce(&mut CapabilityOptions)) -> String {
    let mut options = CapabilityOptions::default();
    change(&mut options);
    let limits = CapabilityLimits { lower: limits[0], upper: limits[1] };
    let readings = [10.0, 10.01, 9.99, 10.02, 10.0, 9.98];
    capability(&readings, limits, &options).map_or_else(|error| error.to_string(), |_| String::new())
}

#[test]
fn a_subgroup_of_one_reading_is_not_dropped_in_silence() {
    let of = |sigma| {
        refusal([Some(9.9), Some(10.1)], |options| {
            (options.subgroups, options.sigma) = (Some(vec![2, 2, 1, 1]), sigma);
        })
    };
    assert_eq!(
        of(None),
        "subgroup 3 has one reading, and the rule 'mean range' needs subgroups of 2 or more readings. Fix: leave it out, or \
         use sigma='overall'"
    );
    assert!(of(Some(SigmaRule::Pooled)).starts_with("subgroup 3 has one reading"));
    // The deviation of all readings takes none from the subgroups.
    assert_eq!(of(Some(SigmaRule::Overall)), "");
}

#[test]
fn a_target_outside_the_limits_is_refused() {
    let of = |limits, target| refusal(limits, |options| options.target = Some(target));
    assert_eq!(of([Some(9.9), Some(10.1)], 99.0), "the target must be within the limits, not 99");
    assert_ne!(of([None, Some(10.1)], 10.2), "");
    for (limits, target) in [([Some(9.9), Some(10.1)], 10.1), ([None, Some(10.1)], 9.0)] {
        assert_eq!(of(limits, target), "");
    }
}

#[test]
fn readings_in_the_other_unit_are_noticed_with_one_limit_too() {
    let advice = |mean: f64, deviation: f64, lower: Option<f64>, upper: Option<f64>| {
        let readings = [-1.0, 0.5, 1.0, -0.5, 0.0, 1.5, -1.5, 0.2].map(|z| mean + deviation * z);
        let made = capability(&readings, CapabilityLimits { lower, upper }, &CapabilityOptions::default());
        made.unwrap_or_else(|error| panic!("{error}")).advice
    };
    // Diameters of 10 mm in inches against a limit in millimetres, and in millimetres against one in inches.
    assert_eq!(advice(10.0 / 25.4, 0.01 / 25.4, None, Some(10.1)), FAR_OFF);
    assert_eq!(advice(10.0 / 25.4, 0.01 / 25.4, Some(9.9), None), FAR_OFF);
    assert_eq!(advice(10.0, 0.01, None, Some(0.397)), FAR_OFF);
    // With a wide spread too, which leaves a Cpk of about 8.
    assert_eq!(advice(0.4, 0.3, None, Some(10.1)), FAR_OFF);
    // A Cpk of about 8, and a runout that is a fifth of what is allowed.
    assert_ne!(advice(10.0, 0.01, None, Some(10.3)), FAR_OFF);
    assert_ne!(advice(0.02, 0.005, None, Some(0.1)), FAR_OFF);
}

// By hand: 1 - exp(-x²) is x² - x⁴/2 + …, which is x² to sixteen digits at 1e-8.
#[test]
fn a_weibull_law_keeps_the_digits_of_its_lower_tail() {
    let law = law::Fitted::Weibull(1.0, 2.0);
    let [below, above] = law.tails(Some(1e-8), Some(1.0));
    assert!((below / 1e-16 - 1.0).abs() < 1e-12, "{below:e}");
    assert!((above * std::f64::consts::E - 1.0).abs() < 1e-14);
}
