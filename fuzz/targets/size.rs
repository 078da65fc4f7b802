//! Text and floats as sizes: what is read is written and read again the same.
#![no_main]
use libfuzzer_sys::fuzz_target;
use tenths::{Size, Units};

fuzz_target!(|text: &str| {
    for default in [None, Some(Units::Inch), Some(Units::Metric)] {
        match Size::parse_in(text, default) {
            Ok(size) => reads_back(size),
            Err(error) => {
                assert!(error.to_string().len() < 600, "a message of {} bytes", error.to_string().len())
            }
        }
    }
    let Some(bits) = text.as_bytes().first_chunk() else { return };
    for units in Units::ALL {
        if let Ok(size) = Size::from_float(f64::from_le_bytes(*bits), units) {
            reads_back(size);
        }
    }
});

fn reads_back(size: Size) {
    for units in Units::ALL {
        let text = size.format(units);
        // The sign tells that the text is rounded.
        if !text.starts_with('≈') {
            assert_eq!(Size::parse(&text), Ok(size), "{text}");
        }
    }
}
