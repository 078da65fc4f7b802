use super::*;
use proptest::prelude::*;

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

fn decide(part: &str, uncertainty: &str, rule: &str) -> Result<Decision, DecisionError> {
    let limits = Limits::parse(part).unwrap_or_else(|error| panic!("{error}"));
    Decision::new(&limits, size(uncertainty), DecisionRule::parse(rule)?, None)
}

// Three zones with g = U: 10.02 to 10.08 printed in an explanatory text on ISO 14253-1, the rest by hand.
#[test]
fn a_reading_between_the_zones_proves_nothing() {
    let decision = decide("10..10.1 mm", "0.02 mm", "ISO 14253-1:1998").unwrap();
    for (reading, verdict) in [
        ("10.02 mm", Verdict::Conforming),
        ("10.08 mm", Verdict::Conforming),
        ("10.080000001 mm", Verdict::Indeterminate),
        ("10.12 mm", Verdict::Indeterminate),
        ("10.120000001 mm", Verdict::NotConforming),
        ("9.98 mm", Verdict::Indeterminate),
        ("9.979 mm", Verdict::NotConforming),
    ] {
        assert_eq!(decision.judge(size(reading)), verdict, "{reading}");
    }
    assert_eq!(decide("10..10.1 mm", "0 mm", "simple").unwrap().judge(size("10.1 mm")), Verdict::Conforming);
}

// By hand: 0.825 times 1 pm is 1 pm drawn in; 0.5 times 3 pm is 1 pm drawn out. 10.0033 in steps of 0.001 mm
// is 10.004 mm.
#[test]
fn rounding_accepts_fewer() {
    let narrow = decide("1..1.1 mm", "0.000000001 mm", "ISO 14253-1").unwrap();
    assert_eq!(narrow.guard_band.picometres(), 1);
    let wide = decide("1..1.1 mm", "0.000000003 mm", "relaxed 0.5").unwrap();
    assert_eq!(wide.guard_band.picometres(), -1);
    let limits = Limits::parse("10..10.1 mm").unwrap();
    let rule = DecisionRule::Iso14253;
    let stepped = Decision::new(&limits, size("0.004 mm"), rule, Some(size("0.001 mm"))).unwrap();
    assert_eq!(stepped.acceptance.lower(), size("10.004 mm"));
    assert_eq!(stepped.acceptance.upper(), size("10.096 mm"));
}

#[test]
fn every_refusal_says_why() {
    for (part, uncertainty, rule, why) in [
        ("10..10.1 mm", "0.02 mm", "4:1", "is 2.50 times twice the uncertainty"),
        ("10..10.1 mm", "0.06 mm", "ISO 14253-1:1998", "use up the tolerance"),
        ("10..10.1 mm", "0 mm", "ISO 14253-1", "must be positive"),
        ("10..10.1 mm", "-1 mm", "simple", "must be zero or more"),
        ("10..10.1 mm", "0.01 mm", "stringent -1", "not -1"),
        ("10..10.1 mm", "0.01 mm", "relaxed NaN", "not NaN"),
        ("10..10.1 mm", "0.01 mm", "0:1", "not 0"),
        ("10..10.1 mm", "0.01 mm", "strict", "is not a decision rule"),
    ] {
        let text = decide(part, uncertainty, rule).unwrap_err().to_string();
        assert!(text.contains(why), "{text}");
    }
    // No whole hundredth lies from 10.001 to 10.002, and no guard band is at fault.
    let narrow = Limits::parse("10.001..10.002 mm").unwrap();
    let coarse = Decision::new(&narrow, Size::ZERO, DecisionRule::Simple, Some(size("0.01 mm")));
    assert_eq!(
        coarse.unwrap_err().to_string(),
        "no step of 0.01 mm lies within 10.001..10.002 mm. Fix: use a finer resolution"
    );
    let used_up = Decision::new(&narrow, size("0.001 mm"), DecisionRule::Iso14253, Some(size("0.01 mm")));
    assert!(used_up.unwrap_err().to_string().contains("use up the tolerance"));
    // 0.1 = 4 · 2 · 0.0125 exactly.
    assert!(decide("10..10.1 mm", "0.0125 mm", "4:1").is_ok());
}

#[test]
fn a_ratio_is_read_with_or_without_spaces() {
    for text in ["4:1", "4 : 1", "4: 1", " 4 :1 "] {
        assert_eq!(DecisionRule::parse(text), Ok(DecisionRule::Ratio(4.0)), "{text}");
    }
    for text in ["4:2", "4:", ":1", "4:1:1", "4::1", "4:11"] {
        assert!(DecisionRule::parse(text).is_err(), "{text}");
    }
}

proptest! {
    // A part whose true size is within U of its reading is good if accepted, and bad if rejected.
    #[test]
    fn three_zones_prove_what_they_say(
        lower in -1_000_000i64..1_000_000,
        tolerance in 0i64..1_000,
        uncertainty in 1i64..400,
        reading in -2_000i64..3_000,
        off in -1.0..1.0f64,
    ) {
        let pm = Size::from_picometres;
        let limits = Limits::between(pm(lower), pm(lower + tolerance))?;
        let Ok(decision) = Decision::new(&limits, pm(uncertainty), DecisionRule::Iso14253Whole, None) else {
            return Ok(());
        };
        let measured = lower + reading;
        let part = pm(measured + (off * uncertainty as f64) as i64);
        match decision.judge(pm(measured)) {
            Verdict::Conforming => prop_assert!(limits.accepts(part)),
            Verdict::NotConforming => prop_assert!(!limits.accepts(part)),
            Verdict::Indeterminate => {}
        }
    }

    #[test]
    fn rules_read_back(ratio in 0.1..100.0f64) {
        for rule in [DecisionRule::Ratio(ratio), DecisionRule::Stringent(ratio), DecisionRule::Relaxed(ratio)] {
            prop_assert_eq!(DecisionRule::parse(&rule.name()), Ok(rule));
        }
    }

    #[test]
    fn no_text_panics(text in "\\PC*") {
        let _ = DecisionRule::parse(&text);
    }
}
