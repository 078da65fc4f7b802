//! The limits of stability of `tests/published/chatter.csv`, which come from outside the project.
use tenths::cutting::chatter::{ChatterCut, Engagement, Stability, VibrationMode};
use tenths::quantity::*;
use tenths::{Quantity, Units};

const LIMITS: &str = include_str!("published/chatter.csv");

fn read<Q: Quantity>(text: &str) -> Q {
    Q::new_in(Q::KIND.read(text, Units::Metric).unwrap(), Units::Metric)
}

/// `922 Hz 1340 N/mm 0.011 0`: a direction stands last where there is one.
fn mode(text: &str) -> VibrationMode {
    let words: Vec<&str> = text.split_whitespace().collect();
    let mode = VibrationMode::new(
        read(&words[..2].join(" ")),
        read(&words[2..4].join(" ")),
        words[4].parse().unwrap(),
    );
    words.get(5).map_or(mode, |angle| mode.in_direction(Angle::degrees(angle.parse().unwrap())))
}

fn engagement(text: &str) -> Engagement {
    let words: Vec<&str> = text.split_whitespace().collect();
    let number = |place: usize| words[place].parse().unwrap();
    match words[0] {
        "turning" => Engagement::Continuous { force_angle: Angle::degrees(number(1)) },
        _ => Engagement::Milling {
            entry_angle: Angle::degrees(number(1)),
            exit_angle: Angle::degrees(number(2)),
            radial_force_ratio: number(3),
        },
    }
}

#[test]
fn limits_are_those_published() {
    let mut lines = 0;
    for line in LIMITS.lines().filter(|line| !line.starts_with('#')) {
        let [id, modes, force, teeth, engaged, speed, depth, within, _, _] =
            line.split(';').collect::<Vec<_>>().try_into().unwrap();
        let cut = ChatterCut {
            specific_cutting_force: read(force),
            teeth: teeth.parse().unwrap(),
            engagement: engagement(engaged),
            units: Units::Metric,
        };
        let modes: Vec<_> = modes.split(", ").map(mode).collect();
        let stability = Stability::of_modes(&modes, &cut).unwrap();
        let got = match speed {
            "critical" => stability.critical_depth,
            n => stability.depth(SpindleSpeed::rev_per_minute(n.parse().unwrap())).unwrap(),
        };
        let (got, depth, within) =
            (got.metric(), read::<Length>(depth).metric(), within.parse::<f64>().unwrap());
        assert!((got / depth - 1.0).abs() <= within, "{id}: {got} mm, not {depth} mm");
        lines += 1;
    }
    assert!(lines >= 31, "{lines}");
}
