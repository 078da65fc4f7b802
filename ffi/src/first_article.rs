//! First-article inspection: readings as CSV in, verdicts or the form to fill in out.
use crate::guard::{document, guard, optional_size, optional_text, place, text};
use crate::object::write;
use crate::objects::tenths_first_article;
use crate::status::{Failure, tenths_status};
use crate::text::give;
use std::ffi::c_char;
use tenths::{CsvForm, DecisionRule, FirstArticle, FirstArticleOptions, Plan, ReadingTable, Size};

/// Judges what was measured of a part by its plan: a verdict for each characteristic of each piece.
/// `tenths_make_first_article(plan, strlen(plan), NULL, 0, NULL, NULL, NULL, 3, &article)` is the form for three pieces.
///
/// `plan` is a plan document. `readings` is CSV with headings in its first row: `number` of the characteristic, `measured`,
/// and if wanted `piece`, `unit`, `measured with`, `by` and `date`. A reading is a number, text with its unit, or what gauges
/// did, such as `go entered, no-go refused`; `readings` may be null for none. `form` says how the CSV is written, such as
/// `units=mm; decimal=comma; number=Feature; measured=Actual`; `form` may be null. Both texts are UTF-8 of a length and need
/// no NUL.
///
/// `rule` is a decision rule as of `tenths_make_decision`, such as `simple`, which is taken where it is null: `rule` may be
/// null. `uncertainty` is the expanded uncertainty of measurement, such as `0.002 mm`; `uncertainty` may be null for zero.
/// `pieces` are to be measured; 0 stands for as many as there are readings of.
///
/// # Safety
/// `plan` is null or readable for `length` bytes, `readings` null or readable for `readings_length` bytes; the other texts end
/// with a NUL; `article->struct_size` is set to the size of the struct.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_make_first_article(
    plan: *const c_char,
    length: usize,
    readings: *const c_char,
    readings_length: usize,
    form: *const c_char,
    rule: *const c_char,
    uncertainty: *const c_char,
    pieces: u32,
    article: *mut tenths_first_article,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let made = unsafe {
            first_article(plan, length, readings, readings_length, form, rule, uncertainty, pieces)
        };
        let units = made.as_ref().map_or(tenths::Units::Metric, |made| made.units);
        // SAFETY: the caller's promises.
        unsafe { write(article, "article", units, || made) }
    })
}

/// Judges what was measured as `tenths_make_first_article` does, and gives it as text: `markdown`, `html`, `json`, `csv`, or
/// `csv comma` with decimal commas between semicolons. Without readings it is the form to fill in:
/// `tenths_first_article_text(plan, strlen(plan), NULL, 0, NULL, NULL, NULL, 3, "markdown", &text)`.
///
/// `readings` may be null, `form` may be null, `rule` may be null, `uncertainty` may be null, and `format` may be null for
/// Markdown. The result is freed by `tenths_text_free`, and null on an error.
///
/// # Safety
/// As `tenths_make_first_article`; `format` is null or ends with a NUL, and `result` is null or writable.
#[unsafe(no_mangle)]
pub unsafe extern "C" fn tenths_first_article_text(
    plan: *const c_char,
    length: usize,
    readings: *const c_char,
    readings_length: usize,
    form: *const c_char,
    rule: *const c_char,
    uncertainty: *const c_char,
    pieces: u32,
    format: *const c_char,
    result: *mut *mut c_char,
) -> tenths_status {
    guard(|| {
        // SAFETY: the caller's promises.
        let (result, format) = unsafe {
            let format = if format.is_null() { Ok("markdown") } else { text(format, "format") };
            (place(result, "the place for the result")?, format)
        };
        *result = std::ptr::null_mut();
        // SAFETY: the caller's promises.
        let made = unsafe {
            first_article(plan, length, readings, readings_length, form, rule, uncertainty, pieces)?
        };
        *result = give(match format? {
            "markdown" => made.to_markdown(),
            "html" => made.to_html(),
            "json" => made.to_json(),
            "csv" => made.to_csv(false),
            "csv comma" => made.to_csv(true),
            other => return Err(Failure::Format(other.into())),
        });
        Ok(())
    })
}

/// # Safety
/// As [`tenths_make_first_article`].
unsafe fn first_article(
    plan: *const c_char,
    length: usize,
    readings: *const c_char,
    readings_length: usize,
    form: *const c_char,
    rule: *const c_char,
    uncertainty: *const c_char,
    pieces: u32,
) -> Result<FirstArticle, Failure> {
    // SAFETY: the caller's promise.
    let optional = |pointer, name| unsafe { optional_text(pointer, name) };
    let form = optional(form, "form")?.map_or(Ok(CsvForm::default()), CsvForm::parse)?;
    let readings = match readings.is_null() {
        true if readings_length == 0 => ReadingTable::new(),
        true => return Err(Failure::Length(readings_length)),
        // SAFETY: the caller's promise.
        false => ReadingTable::from_csv(unsafe { bytes(readings, readings_length) }?, &form)?,
    };
    let options = FirstArticleOptions {
        rule: optional(rule, "rule")?.map_or(Ok(DecisionRule::Simple), DecisionRule::parse)?,
        // SAFETY: the caller's promise.
        uncertainty: unsafe { optional_size(uncertainty, "uncertainty") }?.unwrap_or(Size::ZERO),
        pieces: (pieces > 0).then_some(pieces),
        ..FirstArticleOptions::default()
    };
    // SAFETY: the caller's promise.
    let plan = Plan::from_json(unsafe { document(plan, length, "plan") }?)?;
    Ok(FirstArticle::new(&plan, &readings, &options)?)
}

/// Bytes that the reader of CSV decodes itself, so that it can say where they are not UTF-8.
///
/// # Safety
/// `pointer` is readable for `length` bytes for as long as the call lasts.
unsafe fn bytes<'a>(pointer: *const c_char, length: usize) -> Result<&'a [u8], Failure> {
    match length > isize::MAX as usize {
        true => Err(Failure::Length(length)),
        // SAFETY: the caller's promise, and `length` is one that a slice can have.
        false => Ok(unsafe { std::slice::from_raw_parts(pointer.cast::<u8>(), length) }),
    }
}
