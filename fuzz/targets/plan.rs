//! Plan documents: every fault and finding leads to a place in the document, and a sheet is JSON and Markdown.
#![no_main]
use libfuzzer_sys::fuzz_target;
use serde_json::Value;
use tenths::document::{FaultKind, MAX_FAULTS};
use tenths::{DocumentError, Plan, Sheet, SheetKind};

fuzz_target!(|given: &str| {
    // The library reads over a byte order mark, which serde_json refuses.
    let text = given.strip_prefix('\u{feff}').unwrap_or(given);
    match Plan::from_json(given).map(|plan| plan.evaluate()) {
        Ok(Ok(sheet)) => {
            let json: Value = serde_json::from_str(&sheet.to_json()).expect("a sheet is JSON");
            assert!(json.is_object() && sheet.to_markdown(SheetKind::Process).unwrap().starts_with('#'));
            assert!(sheet.minutes_per_part.is_finite());
            assert!(Sheet::from_json(&sheet.to_json()).expect("a sheet reads back") == sheet);
            let document = serde_json::from_str(text).expect("a plan is JSON");
            for finding in &sheet.findings {
                assert!(is_placed(&document, &finding.place), "{}: {}", finding.place, finding.message);
            }
        }
        Ok(Err(error)) | Err(error) => faults_are_located(text, &error),
    }
});

fn faults_are_located(text: &str, error: &DocumentError) {
    assert!(error.count() > 0 && error.faults().len() == error.count().min(MAX_FAULTS));
    assert!(!error.to_string().is_empty());
    let Ok(document) = serde_json::from_str::<Value>(text) else {
        assert!(error.faults()[0].line_and_column.is_some() || error.faults()[0].kind == FaultKind::TooLarge);
        return;
    };
    // Of fields that stand twice, `document` has only the last.
    let is_whole =
        error.count() <= MAX_FAULTS && error.faults().iter().all(|fault| fault.kind != FaultKind::GivenTwice);
    for fault in error.faults() {
        // A name of inordinate length is cut.
        assert!(!is_whole || fault.place.contains('…') || is_placed(&document, &fault.place), "{fault}");
    }
}

/// Whether a document has a place, or an object that lacks a field on the way to it: a whole object may be missing.
fn is_placed(document: &Value, place: &str) -> bool {
    match (document.pointer(place), place.rsplit_once('/')) {
        (Some(_), _) => true,
        (None, Some((parent, _))) => match document.pointer(parent) {
            Some(parent) => parent.is_object(),
            None => is_placed(document, parent),
        },
        (None, None) => false,
    }
}
