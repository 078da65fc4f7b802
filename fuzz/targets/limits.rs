//! Drawing notation: limits are in order, read back from both of their forms, and their gauges
//! by the ten percent rule lie inside.
#![no_main]
use libfuzzer_sys::fuzz_target;
use tenths::{Limits, Units, length_gauge, plug_gauge, ring_gauge};

fuzz_target!(|text: &str| {
    for default in [None, Some(Units::Inch), Some(Units::Metric)] {
        match Limits::parse_in(text, default) {
            Ok(limits) => holds(&limits),
            Err(error) => {
                assert!(error.to_string().len() < 800, "a message of {} bytes", error.to_string().len())
            }
        }
    }
});

fn holds(limits: &Limits) {
    assert!(limits.lower() <= limits.upper() && !limits.tolerance().is_negative());
    assert!(
        limits.accepts(limits.lower()) && limits.accepts(limits.upper()) && limits.accepts(limits.middle())
    );
    for units in Units::ALL {
        let (both, deviations) = (limits.format(units), limits.format_deviations(units));
        // The sign tells that the text is rounded.
        if !both.contains('≈') {
            let read = Limits::parse(&both).map(|read| (read.lower(), read.upper()));
            assert_eq!(read, Ok((limits.lower(), limits.upper())), "{both}");
        }
        if !deviations.contains('≈') {
            assert_eq!(Limits::parse(&deviations).as_ref(), Ok(limits), "{deviations}");
        }
    }
    for gauge in [plug_gauge(limits), ring_gauge(limits), length_gauge(limits)].into_iter().flatten() {
        assert!(limits.contains(&gauge.go.limits) && limits.contains(&gauge.no_go.limits));
    }
}
