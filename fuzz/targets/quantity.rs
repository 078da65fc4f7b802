//! Text as a reading of every quantity on both sides: it is finite, and reads back the same.
#![no_main]
use libfuzzer_sys::fuzz_target;
use tenths::Units;
use tenths::quantity::KINDS;

fuzz_target!(|text: &str| {
    for kind in KINDS {
        for units in Units::ALL {
            match kind.read(text, units) {
                Ok(value) => {
                    assert!(value.is_finite(), "{text} is {value}");
                    let written = format!("{value:e} {}", kind.unit(units).label);
                    let read = kind.read(&written, units).map(f64::to_bits);
                    assert_eq!(read, Ok(value.to_bits()), "{written}");
                }
                Err(error) => {
                    assert!(error.to_string().len() < 600, "a message of {} bytes", error.to_string().len());
                }
            }
        }
    }
});
