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
fn a_gauge_without_variation_tells_no_categories() {
    let readings = [1.0, 1.0, 1.0, 1.0, 3.0, 3.0, 3.0, 3.0];
    let made = study(&readings, [2, 2, 2], &StudyOptions::default());
    assert!(made.is_ok_and(|made| made.distinct_categories().is_none() && made.gauge.variance == 0.0));
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
fn a_batch_refuses_a_reading_that_is_not_finite() {
    for value in [f64::NAN, f64::INFINITY] {
        let mut readings: Vec<_> = (0..80).map(|k| f64::from(k * k % 7)).collect();
        readings[41] = value;
        let data = StudyData { readings: &readings, parts: 2, appraisers: 2, trials: 2 };
        let refused = gauge_studies(&data, &StudyOptions::default()).map_err(|error| error.to_string());
        assert!(refused.is_err_and(|error| error.starts_with("reading 42 must be a finite number")));
    }
}
