//! Deviations and tolerances of metric threads, in micrometres.
//!
//! Source of every row: ISO 965-1:1998, tables 1 to 5, from memory; the medium classes of coarse threads were held
//! against reprints of limit tables. All tolerances are numbers of the R40 series, and neighbouring grades lie
//! four steps apart, which the tests below hold them to.

/// What depends on the pitch alone. Zero stands where the standard has no figure.
pub(super) struct PitchRow {
    /// Pitch.
    pub pitch: i64,
    /// Fundamental deviation of position G; that of H is zero.
    pub internal: i64,
    /// Amount by which positions e, f and g lie below the basic profile; h lies at it.
    pub external: [i64; 3],
    /// Tolerances of the minor diameter of internal threads, grades 4 to 8.
    pub minor: [i64; 5],
    /// Tolerances of the major diameter of external threads, grades 4, 6 and 8.
    pub major: [i64; 3],
}

/// Tolerances of the pitch diameter for nominal diameters above `over` and up to `up_to`.
pub(super) struct PitchDiameterRow {
    pub over: i64,
    pub up_to: i64,
    /// Pitch.
    pub pitch: i64,
    /// Internal threads, grades 4 to 8.
    pub internal: [i64; 5],
    /// External threads, grades 3 to 9.
    pub external: [i64; 7],
}

const fn pitch(pitch: i64, internal: i64, external: [i64; 3], minor: [i64; 5], major: [i64; 3]) -> PitchRow {
    PitchRow { pitch, internal, external, minor, major }
}

const fn zone(over: i64, up_to: i64, pitch: i64, internal: [i64; 5], external: [i64; 7]) -> PitchDiameterRow {
    PitchDiameterRow { over, up_to, pitch, internal, external }
}

/// By pitch.
pub(super) static PITCHES: &[PitchRow] = &[
    pitch(200, 17, [0, 0, 17], [38, 0, 0, 0, 0], [36, 56, 0]),
    pitch(250, 18, [0, 0, 18], [45, 56, 0, 0, 0], [42, 67, 0]),
    pitch(300, 18, [0, 0, 18], [53, 67, 85, 0, 0], [48, 75, 0]),
    pitch(350, 19, [0, 34, 19], [63, 80, 100, 0, 0], [53, 85, 0]),
    pitch(400, 19, [0, 34, 19], [71, 90, 112, 0, 0], [60, 95, 0]),
    pitch(450, 20, [0, 35, 20], [80, 100, 125, 0, 0], [63, 100, 0]),
    pitch(500, 20, [50, 36, 20], [90, 112, 140, 180, 0], [67, 106, 0]),
    pitch(600, 21, [53, 36, 21], [100, 125, 160, 200, 0], [80, 125, 0]),
    pitch(700, 22, [56, 38, 22], [112, 140, 180, 224, 0], [90, 140, 0]),
    pitch(750, 22, [56, 38, 22], [118, 150, 190, 236, 0], [90, 140, 0]),
    pitch(800, 24, [60, 38, 24], [125, 160, 200, 250, 315], [95, 150, 236]),
    pitch(1000, 26, [60, 40, 26], [150, 190, 236, 300, 375], [112, 180, 280]),
    pitch(1250, 28, [63, 42, 28], [170, 212, 265, 335, 425], [132, 212, 335]),
    pitch(1500, 32, [67, 45, 32], [190, 236, 300, 375, 475], [150, 236, 375]),
    pitch(1750, 34, [71, 48, 34], [212, 265, 335, 425, 530], [170, 265, 425]),
    pitch(2000, 38, [71, 52, 38], [236, 300, 375, 475, 600], [180, 280, 450]),
    pitch(2500, 42, [80, 58, 42], [280, 355, 450, 560, 710], [212, 335, 530]),
    pitch(3000, 48, [85, 63, 48], [315, 400, 500, 630, 800], [236, 375, 600]),
    pitch(3500, 53, [90, 70, 53], [355, 450, 560, 710, 900], [265, 425, 670]),
    pitch(4000, 60, [95, 75, 60], [375, 475, 600, 750, 950], [300, 475, 750]),
    pitch(4500, 63, [100, 80, 63], [425, 530, 670, 850, 1060], [315, 500, 800]),
    pitch(5000, 71, [106, 85, 71], [450, 560, 710, 900, 1120], [335, 530, 850]),
    pitch(5500, 75, [112, 90, 75], [475, 600, 750, 950, 1180], [355, 560, 900]),
    pitch(6000, 80, [118, 95, 80], [500, 630, 800, 1000, 1250], [375, 600, 950]),
    pitch(8000, 100, [140, 118, 100], [630, 800, 1000, 1250, 1600], [450, 710, 1180]),
];

/// By diameter, then by pitch.
pub(super) static PITCH_DIAMETERS: &[PitchDiameterRow] = &[
    zone(990, 1400, 200, [40, 0, 0, 0, 0], [24, 30, 38, 48, 0, 0, 0]),
    zone(990, 1400, 250, [45, 56, 0, 0, 0], [26, 34, 42, 53, 0, 0, 0]),
    zone(990, 1400, 300, [48, 60, 75, 0, 0], [28, 36, 45, 56, 0, 0, 0]),
    zone(1400, 2800, 200, [42, 0, 0, 0, 0], [25, 32, 40, 50, 0, 0, 0]),
    zone(1400, 2800, 250, [48, 60, 0, 0, 0], [28, 36, 45, 56, 0, 0, 0]),
    zone(1400, 2800, 350, [53, 67, 85, 0, 0], [32, 40, 50, 63, 80, 0, 0]),
    zone(1400, 2800, 400, [56, 71, 90, 0, 0], [34, 42, 53, 67, 85, 0, 0]),
    zone(1400, 2800, 450, [60, 75, 95, 0, 0], [36, 45, 56, 71, 90, 0, 0]),
    zone(2800, 5600, 350, [56, 71, 90, 0, 0], [34, 42, 53, 67, 85, 0, 0]),
    zone(2800, 5600, 500, [63, 80, 100, 125, 0], [38, 48, 60, 75, 95, 0, 0]),
    zone(2800, 5600, 600, [71, 90, 112, 140, 0], [42, 53, 67, 85, 106, 0, 0]),
    zone(2800, 5600, 700, [75, 95, 118, 150, 0], [45, 56, 71, 90, 112, 0, 0]),
    zone(2800, 5600, 750, [75, 95, 118, 150, 0], [45, 56, 71, 90, 112, 0, 0]),
    zone(2800, 5600, 800, [80, 100, 125, 160, 200], [48, 60, 75, 95, 118, 150, 190]),
    zone(5600, 11200, 750, [85, 106, 132, 170, 0], [50, 63, 80, 100, 125, 0, 0]),
    zone(5600, 11200, 1000, [95, 118, 150, 190, 236], [56, 71, 90, 112, 140, 180, 224]),
    zone(5600, 11200, 1250, [100, 125, 160, 200, 250], [60, 75, 95, 118, 150, 190, 236]),
    zone(5600, 11200, 1500, [112, 140, 180, 224, 280], [67, 85, 106, 132, 170, 212, 265]),
    zone(11200, 22400, 1000, [100, 125, 160, 200, 250], [60, 75, 95, 118, 150, 190, 236]),
    zone(11200, 22400, 1250, [112, 140, 180, 224, 280], [67, 85, 106, 132, 170, 212, 265]),
    zone(11200, 22400, 1500, [118, 150, 190, 236, 300], [71, 90, 112, 140, 180, 224, 280]),
    zone(11200, 22400, 1750, [125, 160, 200, 250, 315], [75, 95, 118, 150, 190, 236, 300]),
    zone(11200, 22400, 2000, [132, 170, 212, 265, 335], [80, 100, 125, 160, 200, 250, 315]),
    zone(11200, 22400, 2500, [140, 180, 224, 280, 355], [85, 106, 132, 170, 212, 265, 335]),
    zone(22400, 45000, 1000, [106, 132, 170, 212, 0], [63, 80, 100, 125, 160, 200, 250]),
    zone(22400, 45000, 1500, [125, 160, 200, 250, 315], [75, 95, 118, 150, 190, 236, 300]),
    zone(22400, 45000, 2000, [140, 180, 224, 280, 355], [85, 106, 132, 170, 212, 265, 335]),
    zone(22400, 45000, 3000, [170, 212, 265, 335, 425], [100, 125, 160, 200, 250, 315, 400]),
    zone(22400, 45000, 3500, [180, 224, 280, 355, 450], [106, 132, 170, 212, 265, 335, 425]),
    zone(22400, 45000, 4000, [190, 236, 300, 375, 475], [112, 140, 180, 224, 280, 355, 450]),
    zone(22400, 45000, 4500, [200, 250, 315, 400, 500], [118, 150, 190, 236, 300, 375, 475]),
    zone(45000, 90000, 1500, [132, 170, 212, 265, 335], [80, 100, 125, 160, 200, 250, 315]),
    zone(45000, 90000, 2000, [150, 190, 236, 300, 375], [90, 112, 140, 180, 224, 280, 355]),
    zone(45000, 90000, 3000, [180, 224, 280, 355, 450], [106, 132, 170, 212, 265, 335, 425]),
    zone(45000, 90000, 4000, [200, 250, 315, 400, 500], [118, 150, 190, 236, 300, 375, 475]),
    zone(45000, 90000, 5000, [212, 265, 335, 425, 530], [125, 160, 200, 250, 315, 400, 500]),
    zone(45000, 90000, 5500, [224, 280, 355, 450, 560], [132, 170, 212, 265, 335, 425, 530]),
    zone(45000, 90000, 6000, [236, 300, 375, 475, 600], [140, 180, 224, 280, 355, 450, 560]),
    zone(90000, 180000, 2000, [160, 200, 250, 315, 400], [95, 118, 150, 190, 236, 300, 375]),
    zone(90000, 180000, 3000, [190, 236, 300, 375, 475], [112, 140, 180, 224, 280, 355, 450]),
    zone(90000, 180000, 4000, [212, 265, 335, 425, 530], [125, 160, 200, 250, 315, 400, 500]),
    zone(90000, 180000, 6000, [250, 315, 400, 500, 630], [150, 190, 236, 300, 375, 475, 600]),
    zone(90000, 180000, 8000, [280, 355, 450, 560, 710], [170, 212, 265, 335, 425, 530, 670]),
    zone(180000, 355000, 3000, [212, 265, 335, 425, 530], [125, 160, 200, 250, 315, 400, 500]),
    zone(180000, 355000, 4000, [236, 300, 375, 475, 600], [140, 180, 224, 280, 355, 450, 560]),
    zone(180000, 355000, 6000, [265, 335, 425, 530, 670], [160, 200, 250, 315, 400, 500, 630]),
    zone(180000, 355000, 8000, [300, 375, 475, 600, 750], [180, 224, 280, 355, 450, 560, 710]),
];

/// Nominal diameter and pitch of the coarse series of ISO 261, from memory.
pub(super) static COARSE: &[(i64, i64)] = &[
    (1000, 250),
    (1100, 250),
    (1200, 250),
    (1400, 300),
    (1600, 350),
    (1800, 350),
    (2000, 400),
    (2200, 450),
    (2500, 450),
    (3000, 500),
    (3500, 600),
    (4000, 700),
    (4500, 750),
    (5000, 800),
    (6000, 1000),
    (7000, 1000),
    (8000, 1250),
    (9000, 1250),
    (10000, 1500),
    (11000, 1500),
    (12000, 1750),
    (14000, 2000),
    (16000, 2000),
    (18000, 2500),
    (20000, 2500),
    (22000, 2500),
    (24000, 3000),
    (27000, 3000),
    (30000, 3500),
    (33000, 3500),
    (36000, 4000),
    (39000, 4000),
    (42000, 4500),
    (45000, 4500),
    (48000, 5000),
    (52000, 5000),
    (56000, 5500),
    (60000, 5500),
    (64000, 6000),
    (68000, 6000),
];

#[cfg(test)]
mod tests {
    use super::*;

    /// The R40 series of preferred numbers, ISO 3, in hundredths.
    const R40: [i64; 40] = [
        100, 106, 112, 118, 125, 132, 140, 150, 160, 170, 180, 190, 200, 212, 224, 236, 250, 265, 280, 300,
        315, 335, 355, 375, 400, 425, 450, 475, 500, 530, 560, 600, 630, 670, 710, 750, 800, 850, 900, 950,
    ];

    /// The place of a tolerance in R40. Below 100 the table has whole numbers for those that end in a half.
    fn step(figure: i64) -> usize {
        let numbers = [1, 10, 100].iter().flat_map(|decade| R40.map(|number| number * decade));
        let place = numbers.enumerate().find(|(_, tenths)| (10 * figure - tenths).abs() <= 5);
        place.unwrap_or_else(|| panic!("{figure} is not in R40")).0
    }

    /// The steps from grade to grade, of those that have a figure. None stands after a gap.
    fn steps(grades: &[i64]) -> Vec<usize> {
        let given: Vec<usize> =
            grades.iter().take_while(|&&figure| figure > 0).map(|&figure| step(figure)).collect();
        assert!(grades[given.len()..].iter().all(|&figure| figure == 0), "{grades:?}");
        given.windows(2).map(|pair| pair[1] - pair[0]).collect()
    }

    #[test]
    fn neighbouring_grades_are_four_steps_of_r40_apart() {
        let by_pitch = PITCHES.iter().map(|row| row.minor.as_slice());
        let internal = PITCH_DIAMETERS.iter().map(|row| row.internal.as_slice());
        let external = PITCH_DIAMETERS.iter().map(|row| row.external.as_slice());
        for row in by_pitch.chain(internal).chain(external) {
            assert!(steps(row).iter().all(|step| *step == 4), "{row:?}");
        }
        for row in PITCHES {
            // Grades 4, 6 and 8; grade 8 of 8 mm is one step more.
            let last = if row.pitch == 8000 { 9 } else { 8 };
            let steps = steps(&row.major);
            assert!(steps == [8] || steps == [8, last], "{}: {steps:?}", row.pitch);
        }
    }

    #[test]
    fn figures_rise_with_pitch() {
        let rise = |a: &[i64], b: &[i64]| a.iter().zip(b).all(|(a, b)| *a == 0 || a <= b);
        for pair in PITCHES.windows(2) {
            let (a, b) = (&pair[0], &pair[1]);
            assert!(a.pitch < b.pitch && a.internal <= b.internal, "{}", b.pitch);
            assert!(
                rise(&a.external, &b.external) && rise(&a.minor, &b.minor) && rise(&a.major, &b.major),
                "{}",
                b.pitch
            );
        }
        for pair in PITCH_DIAMETERS.windows(2).filter(|pair| pair[0].over == pair[1].over) {
            let (a, b) = (&pair[0], &pair[1]);
            assert!(a.pitch < b.pitch && a.up_to == b.up_to, "{} {}", b.over, b.pitch);
            assert!(rise(&a.external, &b.external), "{} {}", b.over, b.pitch);
            // The coarsest grades of fine pitches are missing.
            assert!(rise(&a.internal[..3], &b.internal[..3]), "{} {}", b.over, b.pitch);
        }
    }

    #[test]
    fn pitch_diameter_tolerances_rise_with_diameter() {
        for (k, a) in PITCH_DIAMETERS.iter().enumerate() {
            for b in PITCH_DIAMETERS[k..].iter().filter(|b| b.pitch == a.pitch && b.over > a.over) {
                assert!(
                    a.internal[0] <= b.internal[0] && a.external[2] <= b.external[2],
                    "{} {}",
                    b.over,
                    b.pitch
                );
            }
        }
        let mut ends: Vec<(i64, i64)> = PITCH_DIAMETERS.iter().map(|row| (row.over, row.up_to)).collect();
        ends.dedup();
        assert!(ends.windows(2).all(|pair| pair[0].1 == pair[1].0), "{ends:?}");
    }

    // The formulas of ISO 965-1, clause 13, from memory. The standard rounds them to R40, at times by a step.
    #[test]
    #[allow(clippy::disallowed_methods, reason = "a check by other means than the code under test")]
    fn figures_follow_the_formulas_of_the_standard() {
        let near = |figure: i64, formula: f64, within: f64| (figure as f64 / formula - 1.0).abs() < within;
        for row in PITCHES {
            let p = row.pitch as f64 / 1000.0;
            assert!(near(row.internal, 15.0 + 11.0 * p, 0.13), "{p}");
            let constants = [50.0, 30.0, 15.0];
            for (figure, constant) in row.external.iter().zip(constants).filter(|(figure, _)| **figure > 0) {
                assert!(near(*figure, constant + 11.0 * p, 0.13), "{p} {figure}");
            }
            let minor = if p <= 0.8 { 433.0 * p - 190.0 * p.powf(1.22) } else { 230.0 * p.powf(0.7) };
            assert!(row.minor[2] == 0 || near(row.minor[2], minor, 0.06), "{p}");
            assert!(near(row.major[1], 180.0 * p.powf(2.0 / 3.0) - 3.15 / p.sqrt(), 0.06), "{p}");
        }
        for row in PITCH_DIAMETERS {
            let (p, middle) = (row.pitch as f64 / 1000.0, ((row.over * row.up_to) as f64).sqrt() / 1000.0);
            let external = 90.0 * p.powf(0.4) * middle.powf(0.1);
            assert!(near(row.external[3], external, 0.06), "{} {p}", row.over);
            assert!(row.internal[2] == 0 || near(row.internal[2], 1.32 * external, 0.07), "{} {p}", row.over);
        }
    }

    #[test]
    fn every_coarse_pitch_has_tolerances() {
        assert!(COARSE.windows(2).all(|pair| pair[0].0 < pair[1].0 && pair[0].1 <= pair[1].1));
        for (diameter, pitch) in COARSE {
            let has = |row: &PitchDiameterRow| {
                row.over < *diameter && *diameter <= row.up_to && row.pitch == *pitch
            };
            assert!(PITCH_DIAMETERS.iter().any(has), "M{diameter}");
            assert!(PITCHES.iter().any(|row| row.pitch == *pitch), "M{diameter}");
        }
    }
}
