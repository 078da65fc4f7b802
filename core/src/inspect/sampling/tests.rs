use super::*;

fn stage(sample_size: u64, accept: Option<u32>, reject: u32) -> SamplingStage {
    SamplingStage { sample_size, accept, reject }
}

fn own(stages: &[SamplingStage], lot: Option<u64>) -> Result<SamplingPlan, SamplingError> {
    SamplingPlan::of_stages(stages, lot, InspectionSeverity::Normal)
}

fn asked(
    lot: u64,
    aql: f64,
    severity: InspectionSeverity,
    kind: PlanKind,
) -> Result<SamplingPlan, SamplingError> {
    SamplingPlan::of_standard(&PlanRequest { severity, kind, ..PlanRequest::new(lot, aql) })
}

#[test]
fn what_was_not_seen_in_print_is_refused() {
    use InspectionSeverity::{Normal, Reduced, Tightened};
    let not_seen =
        |plan: Result<SamplingPlan, SamplingError>| matches!(plan, Err(SamplingError::NotSeen { .. }));
    assert!(not_seen(asked(1000, 1.0, Reduced, PlanKind::Single)));
    assert!(not_seen(asked(1000, 1.0, Normal, PlanKind::Double)));
    assert!(not_seen(asked(1000, 1.0, Tightened, PlanKind::Multiple)));
    assert!(not_seen(asked(1000, 0.40, Tightened, PlanKind::Single)));
    assert!(not_seen(asked(1000, 25.0, Tightened, PlanKind::Single)));
    // Code letter M.
    assert!(not_seen(asked(20_000, 1.0, Tightened, PlanKind::Single)));
    assert_eq!(asked(1000, 1.0, Tightened, PlanKind::Single).unwrap().accept, Some(1));
}

#[test]
fn messages_say_what_is_wrong_and_what_helps() {
    let told = |plan: Result<SamplingPlan, SamplingError>| plan.unwrap_err().to_string();
    assert_eq!(
        told(asked(1000, 1.2, InspectionSeverity::Normal, PlanKind::Single)),
        "an AQL of 1.2 % is not in the tables; expected e.g. 1 or 1.5"
    );
    assert!(
        told(asked(1000, f64::NAN, InspectionSeverity::Normal, PlanKind::Single)).contains("0.01 to 1000")
    );
    assert_eq!(
        told(asked(1, 1.0, InspectionSeverity::Normal, PlanKind::Single)),
        "a lot must have 2 to 1 000 000 000 pieces, not 1"
    );
    for (stages, lot, words) in [
        (vec![], None, "1 to 20 samples, not 0"),
        (vec![stage(0, Some(0), 1)], None, "1 to 1000000 pieces, not 0"),
        (vec![stage(50, Some(1), 2)], Some(40), "more than the lot of 40"),
        (vec![stage(50, Some(2), 2)], None, "must be below its rejection number"),
        (vec![stage(50, None, 2)], None, "must have an acceptance number"),
        (
            vec![stage(50, Some(1), 4), stage(50, Some(0), 4)],
            None,
            "must not be below those of the sample before",
        ),
        (
            vec![stage(50, Some(1), 5), stage(50, Some(3), 4)],
            None,
            "must not be below those of the sample before",
        ),
        (vec![stage(50, Some(1), 1001)], None, "1 to 1000, not 1001"),
    ] {
        let message = told(own(&stages, lot));
        assert!(message.contains(words), "{message}");
    }
    let plan = own(&[stage(50, Some(1), 2)], Some(500)).unwrap();
    let told = |p, model| plan.performance(p, model).unwrap_err().to_string();
    assert_eq!(
        told(1.5, LotModel::Binomial),
        "a fraction nonconforming must be from 0 to 1, not 1.5; 1 % is 0.01"
    );
    assert!(told(f64::NAN, LotModel::Poisson).contains("from 0 to 100, not NaN"));
    assert!(told(0.013, LotModel::Hypergeometric).contains("6.5 pieces"));
    assert_eq!(
        InspectionLevel::parse("IV").unwrap_err().to_string(),
        "`IV` is not an inspection level; expected S-1, S-2, S-3, S-4, I, II or III"
    );
}

// The three laws meet where they must: certainty at both ends, and a large lot is a process.
#[test]
fn laws_agree_where_they_must() {
    let plan = own(&[stage(50, Some(1), 4), stage(100, Some(3), 4)], Some(1_000_000)).unwrap();
    for model in LotModel::ALL {
        assert_eq!(plan.acceptance_probability(0.0, model).unwrap(), 1.0);
    }
    assert!(plan.acceptance_probability(1.0, LotModel::Binomial).unwrap() < 1e-100);
    assert_eq!(plan.acceptance_probability(1.0, LotModel::Hypergeometric).unwrap(), 0.0);
    let [binomial, lot] =
        [LotModel::Binomial, LotModel::Hypergeometric].map(|model| plan.performance(0.02, model).unwrap());
    assert!((binomial.acceptance_probability - lot.acceptance_probability).abs() < 1e-4);
    assert!((binomial.average_outgoing_quality - lot.average_outgoing_quality).abs() < 1e-5);
    let mut last = 1.0;
    for step in 1..100 {
        let chance = plan.acceptance_probability(0.01 * f64::from(step), LotModel::Binomial).unwrap();
        assert!(chance <= last);
        last = chance;
    }
    // By hand: all of a lot is inspected, so its nonconforming pieces never go out.
    let all = own(&[stage(10, Some(0), 1)], Some(10)).unwrap();
    assert_eq!(all.worst_outgoing(LotModel::Hypergeometric).unwrap().average_outgoing_quality, 0.0);
}

// By hand: with no nonconforming piece in n = 100, p (1 - p)^n is greatest at p = 1 / (n + 1).
#[test]
fn the_worst_quality_is_found() {
    let plan = own(&[stage(100, Some(0), 1)], None).unwrap();
    let worst = plan.worst_outgoing(LotModel::Binomial).unwrap();
    assert!((worst.fraction - 1.0 / 101.0).abs() < 1e-13, "{worst:?}");
    let poisson = plan.worst_outgoing(LotModel::Poisson).unwrap();
    assert!((poisson.fraction - 0.01).abs() < 1e-14, "{poisson:?}");
    let counted =
        own(&[stage(100, Some(0), 1)], Some(1000)).unwrap().worst_outgoing(LotModel::Hypergeometric).unwrap();
    // Of 1000 pieces, D C(1000 - D, 100) grows by (D + 1) / D (900 - D) / (1000 - D): up to D = 9.
    assert_eq!(counted.fraction, 0.009);
}

#[test]
fn samples_are_judged() {
    use LotVerdict::{Accepted, AcceptedBackToNormal, NextSample, Rejected};
    let double = own(&[stage(50, Some(1), 4), stage(50, Some(4), 5)], None).unwrap();
    for (found, verdict) in [
        (&[][..], NextSample),
        (&[1], Accepted),
        (&[2], NextSample),
        (&[4], Rejected),
        (&[3, 1], Accepted),
        (&[3, 2], Rejected),
    ] {
        assert_eq!(double.judge(found).unwrap(), verdict, "{found:?}");
    }
    for found in [&[1, 0][..], &[51], &[2, 0, 0]] {
        assert!(double.judge(found).is_err(), "{found:?}");
    }
    let reduced = own(&[stage(20, Some(1), 4)], None).unwrap();
    assert_eq!(reduced.judge(&[2]).unwrap(), AcceptedBackToNormal);
    // Multiple samples that accept nothing at first.
    let multiple = own(&[stage(8, None, 4), stage(8, Some(1), 5)], None).unwrap();
    assert_eq!(multiple.judge(&[0]).unwrap(), NextSample);
    let chance = multiple.acceptance_probability(0.0, LotModel::Binomial).unwrap();
    assert_eq!(chance, 1.0);
    // Nonconformities may be more than pieces.
    let counted = asked(8, 650.0, InspectionSeverity::Normal, PlanKind::Single).unwrap();
    assert_eq!(counted.judge(&[20]).unwrap(), Accepted);
}

#[test]
fn samples_are_read_from_text() {
    let parse = |text| SamplingPlan::parse(text, None, InspectionSeverity::Normal);
    let plan = parse(" 20/-/5,20/3/8 , 20/7/8").unwrap();
    assert_eq!(plan.stages, [stage(20, None, 5), stage(20, Some(3), 8), stage(20, Some(7), 8)]);
    assert_eq!((plan.kind, plan.samples().as_str()), (PlanKind::Multiple, "20/-/5, 20/3/8, 20/7/8"));
    for text in ["", "80", "80/2", "80/2/3/4", "80/2/3,", "80/-1/3", "1e3/2/3", "80/2/3; 80/4/5"] {
        assert!(matches!(parse(text), Err(SamplingError::Unknown { .. })), "{text}");
    }
    assert!(parse(&vec!["80/2/3"; 30].join(",")).unwrap_err().to_string().contains("1 to 20 samples"));
}

#[test]
fn lots_add_points_to_the_score() {
    use InspectionSeverity::Normal;
    let points = |aql, found: u64| {
        asked(1000, aql, Normal, PlanKind::Single).unwrap().switching_points(&[found]).unwrap()
    };
    // 80 pieces, accepted on 2; with the next smaller AQL on 1.
    assert_eq!([0, 1, 2, 3].map(|found| points(1.0, found)), [Some(3), Some(3), Some(0), Some(0)]);
    assert_eq!([0, 1, 2].map(|found| points(0.65, found)), [Some(2), Some(2), Some(0)]);
    let own = own(&[stage(50, Some(1), 2)], None).unwrap();
    assert_eq!(own.switching_points(&[0]).unwrap(), None);
}

// A plan that was worked out for an AQL counts pieces, and is not one of a standard.
#[test]
fn a_plan_made_for_an_aql_is_not_one_of_a_standard() {
    let made = two_point_plan(1.0, 20.0, 0.05, 0.1).unwrap();
    assert_eq!(made.switching_points(&[0]).unwrap(), None);
    let coarse = two_point_plan(12.0, 40.0, 0.05, 0.1).unwrap();
    let refused = coarse.judge(&[9999]).unwrap_err().to_string();
    assert!(refused.ends_with("pieces, not 9999 nonconforming ones"), "{refused}");
    // By hand: 0.8³ = 0.512 is the last power of 0.8 above 0.5; Poisson's exp(-0.6) is 0.549.
    let zero = zero_acceptance_plan(None, Quality::Aql(20.0), 0.5).unwrap();
    assert_eq!(zero.sample_size, 3);
    assert!((zero.acceptance_at_aql().unwrap() - 0.512).abs() < 1e-12);
    assert_eq!(zero.switching_points(&[0]).unwrap(), None);
}

#[test]
fn counts_of_any_size_add_up() {
    let counted = SamplingPlan {
        aql: Some(15.0),
        code_letter: Some("J".into()),
        ..own(&[stage(50, Some(1), 4), stage(50, Some(4), 5)], None).unwrap()
    };
    assert_eq!(counted.switching_points(&[2, u64::MAX]).unwrap(), Some(0));
}

// A sample of a million pieces is the most; one quality and one risk are asked for, not two.
#[test]
fn a_quality_that_takes_too_many_pieces_is_refused_in_its_own_words() {
    let told = |quality| zero_acceptance_plan(None, quality, 0.05).unwrap_err().to_string();
    assert_eq!(
        told(Quality::Ltpd(1e-9)),
        "an LTPD of 0.000000001 % takes more than 1000000 pieces. Fix: set a higher LTPD, or allow a larger risk"
    );
    assert_eq!(
        told(Quality::Aql(1e-9)),
        "an AQL of 0.000000001 % takes more than 1000000 pieces. Fix: set a higher AQL, or allow a smaller risk"
    );
}

#[test]
fn plans_without_nonconforming_pieces() {
    // By hand: (99/100)^n of 0.95 at least is n = 5, (99/100)^6 is 0.9415.
    let plan = zero_acceptance_plan(None, Quality::Aql(1.0), 0.05).unwrap();
    assert_eq!((plan.sample_size, plan.accept, plan.reject), (5, Some(0), 1));
    // A lot of 50 at an AQL of 1 percent has no nonconforming piece, so none need be feared.
    assert_eq!(zero_acceptance_plan(Some(50), Quality::Aql(1.0), 0.05).unwrap().sample_size, 50);
    // An LTPD of less than a piece is one piece.
    assert_eq!(zero_acceptance_plan(Some(200), Quality::Ltpd(0.1), 0.5).unwrap().sample_size, 100);
    for (quality, risk) in [
        (Quality::Ltpd(0.0), 0.1),
        (Quality::Ltpd(100.0), 0.1),
        (Quality::Aql(f64::NAN), 0.1),
        (Quality::Ltpd(1.0), 0.0),
        (Quality::Ltpd(1.0), 1.0),
        (Quality::Aql(50.0), 0.05),
        (Quality::Ltpd(1e-9), 0.1),
    ] {
        assert!(zero_acceptance_plan(None, quality, risk).is_err(), "{quality:?} {risk}");
    }
    assert!(two_point_plan(2.0, 1.0, 0.05, 0.1).is_err());
}

#[test]
fn a_plan_comes_back_from_its_values() {
    use crate::object::{Object as _, Restored as _, Value};
    let plan = asked(1000, 1.0, InspectionSeverity::Normal, PlanKind::Single).unwrap();
    assert_eq!(SamplingPlan::restore(&plan.tell()), Some(plan.clone()));
    let mut told = plan.tell();
    for value in &mut told.values {
        if let Value::List(stages) = value {
            stages.clear();
        }
    }
    assert_eq!(SamplingPlan::restore(&told), None);
}
