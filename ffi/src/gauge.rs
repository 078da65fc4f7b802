//! What gauges prove.
use tenths::{GaugeError, GaugeForm};
use tenths_macros::export;

/// What the members of a form of gauge prove, in English: GO, NO-GO, and when the envelope is asked for, a line each.
#[export(proofs)]
pub(crate) fn gauge_proofs(form: &str) -> Result<String, GaugeError> {
    let [go, no_go] = GaugeForm::parse(form)?.proves();
    Ok(format!("{go}\n{no_go}\n{}\n", tenths::gauge::ENVELOPE))
}
