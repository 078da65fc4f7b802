//! Options of the core as structs: what every generated one in `options.rs` is read by.
use crate::guard::{sized_from, text};
use crate::handle::array;
use crate::status::Failure;
use crate::watch::{tenths_watch, watch};
use std::ffi::c_char;
use tenths::object::{Field, FieldKind, Options, Value};
use tenths::{Limits, Size, Watch};

/// The struct of options.
pub(crate) trait Given: Copy {
    /// What they are in the core.
    type Options: Options;
    /// The name of the struct.
    const NAME: &'static str;
    /// The size of its first version, which is the least that a caller may have.
    const FIRST: usize;
    /// The defaults.
    const DEFAULTS: Self;

    /// Its fields, in the order of the record.
    fn fields(&self) -> Vec<Word>;

    /// By what the work is watched.
    fn watch(&self) -> *const tenths_watch {
        std::ptr::null()
    }
}

/// Options of long work and by what it is watched, as a parameter of a function under `#[export]`.
pub(crate) type Watched<O> = (O, Watch<'static>);

/// A field as C gives it.
#[derive(Clone, Copy)]
pub(crate) enum Word {
    Whole(i64),
    Small(i32),
    Number(f64),
    Text(*const c_char),
    Numbers(*const f64, usize),
}

macro_rules! from {
    ($($type:ty: $kind:ident)*) => {$(
        impl From<$type> for Word {
            fn from(value: $type) -> Self {
                Word::$kind(value)
            }
        }
    )*};
}

from!(i64: Whole  i32: Small  f64: Number  *const c_char: Text);

impl From<u32> for Word {
    fn from(count: u32) -> Self {
        Word::Whole(count.into())
    }
}

impl From<usize> for Word {
    fn from(count: usize) -> Self {
        (count as u64).into()
    }
}

/// An array of so many numbers.
impl From<(*const f64, usize)> for Word {
    fn from((pointer, count): (*const f64, usize)) -> Self {
        Word::Numbers(pointer, count)
    }
}

/// A count beyond those of `i64` is more than there is of anything.
impl From<u64> for Word {
    fn from(count: u64) -> Self {
        Word::Whole(i64::try_from(count).unwrap_or(i64::MAX))
    }
}

impl Word {
    /// Whether an optional field is absent: a size or a count of 0, a choice of -1, a number that is NaN, a time without
    /// end, a text that is null.
    fn is_absent(self, kind: &FieldKind) -> bool {
        match self {
            Word::Whole(count) => count == 0,
            Word::Small(place) => place == -1,
            Word::Number(number) if matches!(kind, FieldKind::Seconds) => number == f64::INFINITY,
            Word::Number(number) => number.is_nan(),
            Word::Text(pointer) => pointer.is_null(),
            Word::Numbers(pointer, _) => pointer.is_null(),
        }
    }
}

/// The options that a caller gave; the defaults for null.
///
/// # Safety
/// `pointer` is null or valid for as many bytes as its first word says, and its texts end with a NUL.
pub(crate) unsafe fn options<T: Given>(pointer: *const T) -> Result<T::Options, Failure> {
    if pointer.is_null() {
        return Ok(T::Options::default());
    }
    // SAFETY: the caller's promise.
    let given = unsafe { taken(pointer) }?;
    let fields = T::Options::RECORD.fields.iter().zip(given.fields());
    // SAFETY: the caller's promise.
    let values: Result<Vec<_>, _> = fields.map(|(field, given)| unsafe { value(field, given) }).collect();
    Ok(T::Options::of_values(&values?)?)
}

/// [`options`] of long work, and by what it is watched.
///
/// # Safety
/// As [`options`]; the watch is one whose function may be called while the work lasts.
pub(crate) unsafe fn watched_options<T: Given>(pointer: *const T) -> Result<Watched<T::Options>, Failure> {
    // SAFETY: the caller's promises.
    unsafe {
        let watcher = if pointer.is_null() { std::ptr::null() } else { taken(pointer)?.watch() };
        Ok((options(pointer)?, watch(watcher)?))
    }
}

/// The struct as the caller filled it, with the defaults of those fields that an older caller does not have.
///
/// # Safety
/// `pointer` is valid for as many bytes as its first word says.
unsafe fn taken<T: Given>(pointer: *const T) -> Result<T, Failure> {
    // SAFETY: the caller's promise.
    let size = unsafe { sized_from(pointer.cast_mut(), T::NAME, T::NAME, T::FIRST) }?;
    let mut taken = T::DEFAULTS;
    // SAFETY: both have so many bytes, and any bytes are a struct of numbers and pointers.
    unsafe {
        pointer.cast::<u8>().copy_to_nonoverlapping((&raw mut taken).cast(), size.min(size_of::<T>()));
    }
    Ok(taken)
}

/// The value of a field.
///
/// # Safety
/// A text is null or ends with a NUL; an array has as many numbers as it says.
pub(crate) unsafe fn value(field: &Field, given: Word) -> Result<Value, Failure> {
    let kind = field.kind.present();
    if matches!(field.kind, FieldKind::Optional(_)) && given.is_absent(kind) {
        return Ok(Value::Absent);
    }
    Ok(match (kind, given) {
        (FieldKind::Size, Word::Whole(picometres)) => Value::Size(Size::from_picometres(picometres)),
        (_, Word::Whole(count)) => Value::Whole(count),
        (_, Word::Number(number)) => Value::Number(number),
        (FieldKind::Choice(names), Word::Small(place)) => match usize::try_from(place) {
            Ok(place) if place < names.len() => Value::Choice(place),
            _ => {
                let last = i32::try_from(names.len()).unwrap_or(i32::MAX) - 1;
                return Err(Failure::Choice { what: field.name, last, got: place });
            }
        },
        (_, Word::Small(flag)) => Value::Flag(flag != 0),
        (_, Word::Numbers(pointer, count)) => {
            // SAFETY: the caller's promise.
            let numbers = unsafe { array(pointer, count, field.name) }?;
            Value::List(numbers.iter().map(|number| Value::Number(*number)).collect())
        }
        (kind, Word::Text(pointer)) => {
            // SAFETY: the caller's promise.
            let text = unsafe { text(pointer, field.name) }?;
            match kind {
                FieldKind::Size => Value::Size(Size::parse(text)?),
                FieldKind::Limits => Value::Limits(Limits::parse(text)?),
                _ => Value::Text(text.to_string().into()),
            }
        }
    })
}
