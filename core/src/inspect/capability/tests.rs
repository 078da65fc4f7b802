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
