//! Standard tapers. The designation comes in as text; sizes go out in picometres.
use tenths::{StandardTaper, TaperError};
use tenths_macros::export;

/// A standard taper by its designation: `tenths_make_standard_taper("MT3", &taper)`, `"Morse 4 1/2"`, `"metric 80"`,
/// `"7:24 No. 40"`, `"Jarno 7"`, `"Brown & Sharpe 9"`.
///
/// Of the figures only some were read in print: check a taper that matters against the standard.
#[export(taper)]
pub(crate) fn make_standard_taper(designation: &str) -> Result<StandardTaper, TaperError> {
    StandardTaper::parse(designation)
}
