use super::*;
use crate::limits::Limits;

const PLAN: &str = include_str!("../../../examples/plans/jig_rest_pin.json");

fn plan() -> Plan {
    Plan::from_json(PLAN).unwrap_or_else(|error| panic!("{error}"))
}

fn size(text: &str) -> Size {
    Size::parse(text).unwrap_or_else(|error| panic!("{error}"))
}

fn readings(list: &[(u32, &str)]) -> ReadingTable {
    let mut table = ReadingTable::new();
    for (number, text) in list {
        table.add(*number, MeasuredValue::parse(text).unwrap_or_else(|error| panic!("{text}: {error}")));
    }
    table
}

/// A good reading of every characteristic of the demo plan.
const GOOD: [(u32, &str); 6] = [
    (1, "1.760 in"),
    (2, "go entered, no-go refused"),
    (3, ".433 in"),
    (4, "0.508 in"),
    (5, "0.201 in"),
    (6, ".400 in"),
];

fn judged(list: &[(u32, &str)]) -> FirstArticle {
    FirstArticle::new(&plan(), &readings(list), &FirstArticleOptions::default()).unwrap()
}

/// With the reading of one characteristic in the place of the good one.
fn with(number: u32, text: &str) -> FirstArticle {
    let list: Vec<_> = GOOD.map(|(known, good)| (known, if known == number { text } else { good })).into();
    judged(&list)
}

#[test]
fn a_part_with_every_reading_good_is_accepted() {
    let made = judged(&GOOD);
    assert!(made.accepted() && made.missing.is_empty() && made.surplus.is_empty(), "{made}");
    let line = &made.verdicts[0];
    assert_eq!((line.number, line.piece, line.verdict), (1, 1, Some(Verdict::Conforming)));
    // 1.750 ±.010 in: a reading of 1.760 in is at the limit, which is good, and uses all of the tolerance.
    assert_eq!(
        (line.deviation, line.beyond, line.share),
        (Some(size("0.01 in")), Some(Size::ZERO), Some(1.0))
    );
    assert_eq!(made.verdicts[1].gauged.as_deref(), Some("go entered, no-go refused"));
    assert_eq!(made.verdicts[1].share, None);
    assert_eq!(made.not_judged, ["No. 2: roughness Ra at most 32 µin"]);
    assert_eq!(made.to_string(), "first article of Rest pin of a drill jig: accepted, 6 of 6 conforming");
}

#[test]
fn a_picometre_beyond_a_limit_is_rejected() {
    let made = with(1, "44.704000001 mm");
    assert!(!made.accepted());
    let line = &made.verdicts[0];
    assert_eq!((line.verdict, line.beyond), (Some(Verdict::NotConforming), Some(Size::from_picometres(1))));
    assert!(line.share.unwrap() > 1.0 && line.share.unwrap() < 1.000_001);
    assert!(with(1, "44.704 mm").accepted() && with(1, "44.196 mm").accepted());
    assert!(!with(1, "44.195999999 mm").accepted());
}

#[test]
fn gauges_reject_and_leave_open() {
    for (did, verdict) in [
        ("go entered, no-go refused", Verdict::Conforming),
        ("go refused, no-go refused", Verdict::NotConforming),
        ("go entered, no-go entered", Verdict::NotConforming),
        ("go refused", Verdict::NotConforming),
        ("no-go entered", Verdict::NotConforming),
        ("go entered", Verdict::Indeterminate),
        ("no-go refused", Verdict::Indeterminate),
    ] {
        let made = with(2, did);
        assert_eq!(made.verdicts[1].verdict, Some(verdict), "{did}");
        assert_eq!(made.accepted(), verdict == Verdict::Conforming, "{did}");
    }
}

#[test]
fn missing_and_surplus_readings_are_reported() {
    let made = judged(&GOOD[..5]);
    assert!(!made.accepted());
    assert_eq!(made.missing, [6]);
    assert_eq!(made.verdicts[5].verdict, None);
    let mut list = GOOD.to_vec();
    list.push((9, "1 in"));
    let made = judged(&list);
    assert!(made.accepted());
    assert_eq!(made.surplus, [9]);
    // Nothing at all is the form to fill in.
    let form = judged(&[]);
    assert!(!form.accepted() && form.missing == [1, 2, 3, 4, 5, 6] && form.verdicts.len() == 6);
}

#[test]
fn several_pieces_need_every_reading() {
    let mut list: Vec<_> = GOOD.iter().chain(&GOOD).copied().collect();
    let made = judged(&list);
    assert!(made.accepted() && made.pieces == 2 && made.verdicts.len() == 12);
    assert_eq!((made.verdicts[1].number, made.verdicts[1].piece), (1, 2));
    list.pop();
    let made = judged(&list);
    assert!(!made.accepted() && made.missing == [6]);
    let three = FirstArticleOptions { pieces: Some(3), ..FirstArticleOptions::default() };
    let made = FirstArticle::new(&plan(), &readings(&GOOD), &three).unwrap();
    assert!(!made.accepted() && made.missing == [1, 2, 3, 4, 5, 6] && made.verdicts.len() == 18);
    let one = FirstArticleOptions { pieces: Some(1), ..FirstArticleOptions::default() };
    let error = FirstArticle::new(&plan(), &readings(&list), &one).unwrap_err().to_string();
    assert!(error.contains("characteristic 1 has a reading for piece 2, but pieces is 1"), "{error}");
}

// ISO 14253-1:1998: the whole uncertainty of 0.002 in is kept from each limit of 1.740..1.760 in.
#[test]
fn a_decision_rule_draws_the_limits_in() {
    let options = FirstArticleOptions {
        rule: DecisionRule::Iso14253Whole,
        uncertainty: size(".0005 in"),
        uncertainties: [(1, size(".002 in"))].into(),
        pieces: None,
    };
    let verdict = |text: &str| {
        let made = FirstArticle::new(&plan(), &readings(&[(1, text)]), &options).unwrap();
        made.verdicts[0].verdict.unwrap()
    };
    assert_eq!(verdict("1.758 in"), Verdict::Conforming);
    assert_eq!(verdict("1.7581 in"), Verdict::Indeterminate);
    assert_eq!(verdict("1.7621 in"), Verdict::NotConforming);
    let error = |options: &FirstArticleOptions| {
        FirstArticle::new(&plan(), &ReadingTable::new(), options).unwrap_err().to_string()
    };
    let without = FirstArticleOptions { uncertainty: Size::ZERO, ..options.clone() };
    assert!(
        error(&without)
            .starts_with("characteristic 2: the expanded uncertainty for ISO 14253-1:1998 must be")
    );
    let unknown = FirstArticleOptions { uncertainties: [(7, size("1 mm"))].into(), ..options };
    assert!(error(&unknown).contains("characteristic 7, which is not in the plan"));
    let none = FirstArticleOptions { pieces: Some(0), ..FirstArticleOptions::default() };
    assert_eq!(error(&none), "the count of pieces must be 1 or more, not 0");
    let many = FirstArticleOptions { pieces: Some(100_000), ..FirstArticleOptions::default() };
    assert!(error(&many).contains("600000 verdicts are more than 250000"), "{}", error(&many));
}

#[test]
fn slips_of_the_pen_are_remarked() {
    for (text, remark) in [
        ("44.45 in", "looks like millimetres read as inches"),
        ("1.75 mm", "looks like inches read as millimetres"),
        ("17.5 in", "looks like a slip of the decimal point"),
        ("-1.75 in", "is not a size of a part"),
    ] {
        let made = with(1, text);
        assert_eq!(made.remarks.len(), 1, "{text}");
        assert!(
            made.remarks[0].contains(remark) && made.remarks[0].starts_with("No. 1, piece 1: "),
            "{text}: {:?}",
            made.remarks
        );
    }
    assert!(with(1, "1.80 in").remarks.is_empty());
}

#[test]
fn a_share_of_the_tolerance_is_counted_from_its_middle() {
    let share = |limits: &str, of: &str| {
        let mut document = plan().document().clone();
        document.characteristics[0].limits.limits = Limits::parse(limits).unwrap();
        let decision =
            Decision::new(&document.characteristics[0].limits, Size::ZERO, DecisionRule::Simple, None)
                .unwrap();
        let reading = PieceReading {
            piece: 1,
            value: MeasuredValue::parse(of).unwrap(),
            measured_with: None,
            by: None,
            date: None,
        };
        CharacteristicVerdict::new(&document.characteristics[0], 1, Some(&reading), &decision).share
    };
    for (limits, of, used) in [
        ("25 +0.02/0 mm", "25.01 mm", Some(0.0)),
        ("25 +0.02/0 mm", "25 mm", Some(1.0)),
        ("25 +0.02/0 mm", "25.015 mm", Some(0.5)),
        ("25 +0.02/0 mm", "25.03 mm", Some(2.0)),
        ("0.2 max mm", "0.05 mm", Some(0.25)),
        ("25 +0/0 mm", "25 mm", None),
    ] {
        assert_eq!(share(limits, of), used, "{limits}, {of}");
    }
}

#[test]
fn csv_reads_back_as_the_same_readings() {
    let mut table = readings(&GOOD[1..]);
    let text = |text: &str| Some(std::sync::Arc::from(text));
    table.push(
        1,
        PieceReading {
            piece: 1,
            value: MeasuredValue::parse("44.5 mm").unwrap(),
            measured_with: text("=1+1, \"new\""),
            by: text("-ak"),
            date: text("2026-11-29"),
        },
    );
    let options = FirstArticleOptions::default();
    let made = FirstArticle::new(&plan(), &table, &options).unwrap();
    for comma in [false, true] {
        let csv = made.to_csv(comma);
        let form = CsvForm { decimal_comma: comma, ..CsvForm::default() };
        let read =
            ReadingTable::from_csv(csv.as_bytes(), &form).unwrap_or_else(|error| panic!("{error}\n{csv}"));
        assert_eq!(FirstArticle::new(&plan(), &read, &options).unwrap(), made, "{csv}");
    }
    assert!(made.to_csv(false).contains(",\"'=1+1, \"\"new\"\"\","), "{}", made.to_csv(false));
    // A size with no end in inches keeps its own unit.
    assert!(made.to_csv(false).contains(",44.5 mm,"), "{}", made.to_csv(false));
    let blank = judged(&[]).to_csv(false);
    assert!(
        blank.starts_with(
            "number,characteristic,lower limit,upper limit,unit,inspection,gauge,piece,measured,"
        )
    );
    assert!(blank.contains("\r\n2,rest diameter,0.497,0.501,in,ring gauges,ring,1,,,,,,,\r\n"), "{blank}");
}

#[test]
fn markdown_shows_text_as_it_was_written() {
    let mut table = ReadingTable::new();
    let text = |text: &str| Some(std::sync::Arc::from(text));
    table.push(
        1,
        PieceReading {
            piece: 1,
            value: MeasuredValue::parse("1.77 in").unwrap(),
            measured_with: text("a|b <script>"),
            by: text("*me*"),
            date: text("line\nend"),
        },
    );
    let made = FirstArticle::new(&plan(), &table, &FirstArticleOptions::default()).unwrap();
    let shown = made.to_markdown();
    assert!(
        shown.contains("a&#124;b &#60;script&#62;")
            && shown.contains("\\*me\\*")
            && shown.contains("line end")
    );
    for part in [
        "# First article: Rest pin of a drill jig (JP-0500-K)",
        "Result: **NOT ACCEPTED**.",
        "| NOT CONFORMING |",
        "| 200 %",
        "## Readings still missing\n\n- No. 2, 3, 4, 5, 6\n",
        "## Not judged here\n\n- No. 2: roughness Ra at most 32 µin",
        "- SHA-256 of the plan: ",
    ] {
        assert!(shown.contains(part), "{part}\n{shown}");
    }
    // The page says the same, and no name ends its markup.
    let html = made.to_html();
    for part in [
        "First article",
        "NOT ACCEPTED",
        "200 %",
        "a|b &lt;script&gt;",
        "Readings still missing",
        "Inspected by",
    ] {
        assert!(html.contains(part), "{part}\n{html}");
    }
    assert!(!html.contains("<script"), "{html}");
    // The form has columns to fill in, and no result yet.
    let form = judged(&[]).to_markdown();
    assert!(form.contains("| measured | measured with | verdict |") && !form.contains("Result:"), "{form}");
}

#[test]
fn json_has_every_figure() {
    let made = with(1, "1.751 in");
    let json: serde_json::Value = serde_json::from_str(&made.to_json()).unwrap();
    assert_eq!(json["accepted"], true);
    assert_eq!(json["verdicts"][0]["deviation"], "0.001 in");
    assert_eq!(json["verdicts"][0]["share"], 0.1);
    assert_eq!(json["verdicts"][1]["gauged"], "go entered, no-go refused");
}

#[test]
fn a_first_article_is_restored_from_its_fields() {
    use crate::object::{Object as _, Restored as _};
    let made = with(1, "1.77 in");
    assert_eq!(FirstArticle::restore(&made.tell()), Some(made));
}

/// The demo plan with a capability demanded of the length, and pieces with these lengths in thousandths about 1.750 in.
fn with_capability(demanded: f64, thousandths: &[i64]) -> FirstArticle {
    let text = PLAN.replacen("\"number\": 1,", &format!("\"number\": 1, \"capability\": {demanded},"), 1);
    let plan = Plan::from_json(&text).unwrap_or_else(|error| panic!("{error}"));
    let of = |off: &i64| (1, format!("{} in", 1.750 + *off as f64 / 1e3));
    let list: Vec<_> = thousandths.iter().map(of).collect();
    let list: Vec<_> = list.iter().map(|(number, text)| (*number, text.as_str())).collect();
    FirstArticle::new(&plan, &readings(&list), &FirstArticleOptions::default()).unwrap()
}

// By hand: twenty pieces of ±1 about the middle have s = √(20/19) = 1.026 and with ±10 a Cpk of 3.249. Bissell's bound is
// 3.249 - 1.645 √(1/180 + 3.249²/38) = 2.373. Off the middle by 8 the Cpk is 2/3.078 = 0.650.
#[test]
fn a_capability_that_pieces_do_not_show_is_a_finding() {
    let centred: Vec<i64> = (0..20).map(|k| if k % 2 == 0 { 1 } else { -1 }).collect();
    assert_eq!(with_capability(1.33, &centred).findings(), []);
    assert_eq!(with_capability(2.37, &centred).findings(), []);
    let [found] = with_capability(2.4, &centred).findings().try_into().unwrap();
    assert_eq!((found.code, found.severity), ("capability_not_shown", crate::Severity::Warning));
    assert_eq!(found.place, "/characteristics/0/capability");
    assert!(found.message.starts_with("No. 1: 20 pieces have a Cpk of 3.249 and show 2.37"), "{found:?}");
    assert!(found.remedy.ends_with("pieces, which show it if they come out the same"), "{found:?}");
    let off: Vec<i64> = centred.iter().map(|off| off + 8).collect();
    let [found] = with_capability(1.33, &off).findings().try_into().unwrap();
    assert_eq!(found.severity, crate::Severity::Error);
    assert!(found.message.contains("a Cpk of 0.6498 "), "{found:?}");
}

#[test]
fn a_capability_needs_pieces_that_were_measured_and_differ() {
    for (lengths, severity, words) in [
        (&[][..], crate::Severity::Note, "no piece has a measured size"),
        (&[1], crate::Severity::Note, "only one piece has a measured size"),
        (&[1, 1, 1], crate::Severity::Warning, "without spread"),
    ] {
        let made = with_capability(1.33, lengths);
        let [found] = made.findings().try_into().unwrap();
        assert_eq!(found.severity, severity);
        assert!(found.message.contains(words), "{found:?}");
        assert!(
            made.to_markdown().contains("## Capability") && made.to_json().contains("capability_not_shown")
        );
    }
    assert!(!judged(&GOOD).to_markdown().contains("## Capability"));
}
