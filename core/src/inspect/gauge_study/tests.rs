use super::*;

fn study(
    readings: &[f64],
    [parts, appraisers, trials]: [usize; 3],
    options: &StudyOptions,
) -> Result<GaugeStudy, GaugeStudyError> {
    gauge_study(&StudyData { readings, parts, appraisers, trials }, options)
}

// Two parts by two appraisers in two trials, worked by hand: cells 1, 2, 5, 8; trials half a unit to either side.
#[test]
fn a_small_study_is_as_worked_by_hand() {
    let readings = [0.5, 1.5, 1.5, 2.5, 4.5, 5.5, 7.5, 8.5];
    let made =
        study(&readings, [2, 2, 2], &StudyOptions::default()).unwrap_or_else(|error| panic!("{error}"));
    // Parts 1.5 and 6.5, appraisers 3 and 5, all 4: SS 4 · 2 · 2.5², 4 · 2 · 1², 2 · 4 · ½², 8 · ½².
    let squares: Vec<_> = made.table.iter().map(|row| row.ss).collect();
    assert_eq!(squares, [50.0, 8.0, 2.0, 2.0, 62.0]);
    let freedom: Vec<_> = made.table.iter().map(|row| row.df).collect();
    assert_eq!(freedom, [1.0, 1.0, 1.0, 4.0, 7.0]);
    assert_eq!([made.repeatability.variance, made.interaction.variance], [0.5, 0.75]);
    assert_eq!([made.appraiser.variance, made.part.variance], [1.5, 12.0]);
    assert_eq!(made.mean, 4.0);
    let pooled = StudyOptions { pool_interaction: true, ..StudyOptions::default() };
    let pooled = study(&readings, [2, 2, 2], &pooled).unwrap_or_else(|error| panic!("{error}"));
    assert_eq!([pooled.repeatability.variance, pooled.interaction.variance], [0.8, 0.0]);
    assert_eq!(pooled.table.len(), 4);
}

#[test]
fn large_readings_keep_the_digits_in_which_they_differ() {
    let small = [0.5, 1.5, 1.5, 2.5, 4.5, 5.5, 7.5, 8.5];
    let large = small.map(|reading| reading + 1e12);
    let [small, large] = [small, large].map(|readings| study(&readings, [2, 2, 2], &StudyOptions::default()));
    assert_eq!(small.map(|made| made.table).ok(), large.map(|made| made.table).ok());
}

#[test]
fn a_gauge_without_variation_is_not_judged() {
    let readings = [1.0, 1.0, 1.0, 1.0, 3.0, 3.0, 3.0, 3.0];
    let options = StudyOptions::default();
    assert_eq!(study(&readings, [2, 2, 2], &options), Err(GaugeStudyError::TrialsAgree));
    // Trials that agree show no repeatability, though the appraisers differ.
    let appraisers = [1.0, 1.0, 1.1, 1.1, 3.0, 3.0, 3.3, 3.3];
    assert_eq!(study(&appraisers, [2, 2, 2], &options), Err(GaugeStudyError::TrialsAgree));
    let pooled = StudyOptions { pool_interaction: true, ..options };
    assert_eq!(study(&readings, [2, 4, 1], &pooled), Err(GaugeStudyError::TrialsAgree));
    assert!(study(&appraisers, [2, 4, 1], &pooled).is_ok());
    assert_eq!(study(&[2.0; 8], [2, 2, 2], &StudyOptions::default()), Err(GaugeStudyError::NoVariation));
}

#[test]
fn many_ratios_have_the_tails_of_one() {
    use crate::statistics::f_above;
    for (above, below) in [(9.0, 18.0), (2.0, 18.0), (18.0, 60.0), (1.0, 1.0), (199.0, 400.0)] {
        let tail = batch::Tail::new(above, below);
        for ratios in
            [[1e-300, 1e-6, 0.01, 0.3, 0.7, 0.95, 1.0, 1.05], [1.3, 2.0, 5.0, 40.0, 1e3, 1e6, 1e12, 1e20]]
        {
            for (ratio, p) in ratios.iter().zip(tail.above(&ratios)) {
                let exact = f_above(*ratio, above, below);
                assert!((p - exact).abs() <= 1e-12 * exact, "{above} {below} {ratio:e}: {p:e} {exact:e}");
            }
        }
        let odd = [0.0, f64::INFINITY, f64::NAN, -0.0, 1.0, 1.0, 1.0, 1.0];
        assert_eq!(tail.above(&odd)[..2], [1.0, 0.0]);
        assert!(tail.above(&odd)[2].is_nan());
    }
}

#[test]
fn ratings_that_all_agree_by_chance_have_no_kappa() {
    let made = attribute_agreement(&[0; 12], [3, 2, 2], &[], 0.95);
    assert!(made.is_ok_and(|made| made.all.kappa.is_nan() && made.scores[0].percent_repeated == 100.0));
    let refused = attribute_agreement(&[0; 12], [3, 2, 2], &[0, 0], 0.95);
    assert_eq!(refused, Err(GaugeStudyError::References { parts: 3, got: 2 }));
}

#[test]
fn a_confidence_next_to_one_has_an_interval() {
    let rated =
        attribute_agreement(&[0, 0, 1, 1, 0, 1, 1, 1, 0, 0, 0, 1], [3, 2, 2], &[], 1.0 - f64::EPSILON / 2.0);
    let interval = rated.unwrap_or_else(|error| panic!("{error}")).all.interval;
    assert!(interval.iter().all(|end| end.is_finite()) && interval[0] < interval[1], "{interval:?}");
}

#[test]
fn pooling_is_offered_where_it_helps() {
    let of = |method, appraisers| {
        let options = StudyOptions {
            method,
            pool_interaction: method == StudyMethod::AverageRange,
            ..StudyOptions::default()
        };
        study(&[1.0, 2.0, 4.0, 3.0], [4 / appraisers, appraisers, 1], &options).unwrap_err().to_string()
    };
    let pool = "one trial cannot separate repeatability from interaction. Fix: measure each part twice, or pool the interaction";
    let twice = "one trial shows no repeatability. Fix: measure each part twice or more";
    assert_eq!(of(StudyMethod::Anova, 2), pool);
    for (method, appraisers) in
        [(StudyMethod::Anova, 1), (StudyMethod::AverageRange, 2), (StudyMethod::Nested, 2)]
    {
        assert_eq!(of(method, appraisers), twice);
    }
}

#[test]
fn faults_are_told_in_the_words_of_the_call() {
    let line = |x: &[f64], y: &[f64]| regression(x, y, 0.95).unwrap_err().to_string();
    assert_eq!(
        line(&[1.0, 2.0], &[1.0, 2.0, 3.0]),
        "x has 2 values and y has 3; expected the same number of both"
    );
    assert_eq!(
        line(&[2.0; 3], &[1.0, 2.0, 3.0]),
        "all x are equal, so there is no line. Fix: take points over a range of x"
    );
    assert!(
        line(&[1.0, f64::NAN, 2.0], &[1.0; 3]).starts_with("x of point 2 must be a finite number, not NaN")
    );
    assert!(
        line(&[1.0, 2.0, 3.0], &[1.0, 2.0, f64::INFINITY])
            .starts_with("y of point 3 must be a finite number")
    );
    let linearity = |references: &[f64], readings: &[f64]| {
        gauge_linearity(references, readings, 0.95).unwrap_err().to_string()
    };
    assert_eq!(
        linearity(&[1.0, 2.0], &[1.0, 2.0, 3.0]),
        "2 references and 3 readings were given; expected a reference for each reading"
    );
    assert_eq!(
        linearity(&[1.0; 4], &[1.0, 2.0, 3.0, 4.0]),
        "all references are equal, so there is no line. Fix: measure references over the range of the gauge"
    );
    assert!(
        linearity(&[1.0, f64::NAN], &[1.0, 2.0]).starts_with("reference 2 must be a finite number, not NaN")
    );
    let zone = |references: &[f64], accepted: &[f64]| {
        attribute_zone(references, accepted, Some(1.5), None).unwrap_err().to_string()
    };
    assert_eq!(
        zone(&[1.0, 2.0], &[0.0, 1.0, 1.0]),
        "2 references and 3 shares were given; expected a share for each reference"
    );
    assert!(zone(&[1.0, f64::INFINITY], &[0.0, 1.0]).starts_with("reference 2 must be a finite number"));
}

#[test]
fn each_reference_has_the_bias_of_its_own_readings() {
    let references = [4.0, 2.0, -0.0, 4.0, 0.0, 2.0];
    let made = gauge_linearity(&references, &[4.1, 2.2, 0.1, 4.3, -0.2, 2.1], 0.95)
        .unwrap_or_else(|error| panic!("{error}"));
    let own = [(0.0, [0.1, -0.2]), (2.0, [2.2, 2.1]), (4.0, [4.1, 4.3])];
    let own = own.map(|(reference, readings)| {
        gauge_bias(&readings, reference, 0.95).unwrap_or_else(|error| panic!("{error}"))
    });
    assert_eq!(made.biases, own);
}

#[test]
fn a_line_through_equal_values_explains_no_variance() {
    let flat = regression(&[1.0, 2.0, 3.0], &[5.0; 3], 0.95).unwrap_or_else(|error| panic!("{error}"));
    assert!(flat.slope == 0.0 && flat.r_squared.is_nan());
}

#[test]
fn a_batch_refuses_a_reading_that_is_not_finite() {
    for value in [f64::NAN, f64::INFINITY] {
        let mut readings: Vec<_> = (0..80).map(|k| f64::from(k * k % 7)).collect();
        readings[41] = value;
        let data = StudyData { readings: &readings, parts: 2, appraisers: 2, trials: 2 };
        let refused = gauge_studies(&data, &StudyOptions::default()).map_err(|error| error.to_string());
        assert!(refused.is_err_and(|error| error.starts_with("reading 42 must be a finite number")));
    }
}

#[test]
fn a_batch_refuses_a_study_that_shows_no_gauge() {
    let sound = [0.5, 1.5, 1.5, 2.5, 4.5, 5.5, 7.5, 8.5];
    let of = |second: [f64; 8]| {
        let readings = [sound, second].concat();
        let data = StudyData { readings: &readings, parts: 2, appraisers: 2, trials: 2 };
        gauge_studies(&data, &StudyOptions::default())
            .map_or_else(|error| error.to_string(), |_| String::new())
    };
    assert_eq!(of(sound), "");
    assert!(of([1.0; 8]).starts_with("study 2: the readings do not vary"));
    assert!(
        of([1.0, 1.0, 1.1, 1.1, 3.0, 3.0, 3.3, 3.3]).starts_with("study 2: all trials agree on every part")
    );
    assert!(of(sound.map(|x| 1e300 * x)).starts_with("study 2: the readings are too large to work with"));
}

#[test]
fn readings_too_large_to_work_with_are_refused() {
    let large = [0.5, 1.5, 1.5, 2.5, 4.5, 5.5, 7.5, 8.5].map(|x| 1e300 * x);
    for method in [StudyMethod::Anova, StudyMethod::Nested, StudyMethod::AverageRange] {
        let made = study(&large, [2, 2, 2], &StudyOptions { method, ..StudyOptions::default() });
        assert_eq!(made, Err(GaugeStudyError::TooLarge { what: "readings" }));
    }
    assert_eq!(gauge_bias(&large, 1.0, 0.95), Err(GaugeStudyError::TooLarge { what: "readings" }));
    let values = Err(GaugeStudyError::TooLarge { what: "values" });
    assert_eq!(regression(&large[..3], &[1.0, 2.0, 3.0], 0.95).map(|line| line.slope), values);
    assert_eq!(regression(&[1.0, 2.0, 3.0], &large[..3], 0.95).map(|line| line.slope), values);
}

#[test]
fn readings_of_one_master_that_agree_show_no_bias_error() {
    assert_eq!(gauge_bias(&[5.1; 5], 5.0, 0.95), Err(GaugeStudyError::NoVariation));
    let linearity = |readings: &[f64]| {
        gauge_linearity(&[5.0, 5.0, 6.0, 6.0], readings, 0.95)
            .map_or_else(|error| error.to_string(), |_| String::new())
    };
    assert!(linearity(&[5.1, 5.1, 6.0, 6.0]).starts_with("all trials agree on every part"));
    // At one reference they may agree.
    assert_eq!(linearity(&[5.1, 5.1, 6.0, 6.1]), "");
    let once = gauge_linearity(&[5.0, 6.0, 7.0], &[5.0, 6.1, 7.0], 0.95).unwrap_err().to_string();
    assert_eq!(once, "each reference needs 2 or more readings; that of 5 has one");
}

// Four parts and two appraisers, who agree on three parts: kappa 7/15, with an interval beyond 1 by the jackknife.
#[test]
fn no_interval_of_kappa_is_beyond_full_agreement() {
    let made = attribute_agreement(&[0, 0, 0, 0, 1, 1, 0, 1], [4, 2, 1], &[], 0.95);
    let all = made.unwrap_or_else(|error| panic!("{error}")).all;
    assert!((all.kappa - 7.0 / 15.0).abs() < 1e-12, "{}", all.kappa);
    let half = 1.959_963_984_540_054 * all.standard_error;
    assert!(all.kappa + half > 1.0);
    assert!((all.interval[0] - (all.kappa - half)).abs() < 1e-12, "{:?}", all.interval);
    assert_eq!(all.interval[1], 1.0);
}
