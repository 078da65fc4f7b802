//! Knurls of the standards. The designation comes in as text; sizes go out in picometres.
use tenths::{Knurl, KnurlError};
use tenths_macros::export;

/// A knurl by its designation: `tenths_make_knurl("RAA 0.8", &knurl)`, `tenths_make_knurl("96 DP class II", &knurl)`.
///
/// After DIN 82:1973 or ASME B94.6-1984. The growth is an estimate, which leaves out rounded teeth and the metal: roll
/// a trial piece. Of the figures only some were read in print: check a knurl that matters against the standard.
#[export(knurl)]
pub(crate) fn make_knurl(designation: &str) -> Result<Knurl, KnurlError> {
    Knurl::parse(designation)
}
