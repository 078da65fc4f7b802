//! Objects of the core as structs: what every generated one in `objects.rs` is filled and cleared by.
use crate::guard::sized;
use crate::status::Failure;
use std::ffi::{CString, c_char};
use tenths::Units;
use tenths::object::{FieldKind, Object, Told, Value};

/// The struct of an object. An absent value always has `has_…` = 0, and its other fields are 0, NaN or null.
pub(crate) trait Filled: Sized {
    /// The struct of the values.
    fn fill(values: &mut Fill<'_>) -> Self;
}

/// The values of an object, one after the other; of an object that is absent, nothing for each.
pub(crate) struct Fill<'a> {
    told: Option<&'a Told>,
    place: usize,
    units: Units,
}

impl<'a> Fill<'a> {
    fn next(&mut self) -> &'a Value {
        let value = self.peek();
        self.place += 1;
        value
    }

    fn peek(&self) -> &'a Value {
        self.told.and_then(|told| told.values.get(self.place)).unwrap_or(&Value::Absent)
    }

    /// 1 where the next value is there, 0 where it is absent.
    pub(crate) fn has(&self) -> i32 {
        i32::from(!matches!(self.peek(), Value::Absent))
    }

    pub(crate) fn size(&mut self) -> i64 {
        match self.next() {
            Value::Size(size) => size.picometres(),
            _ => 0,
        }
    }

    /// Lower limit, upper limit and nominal size.
    pub(crate) fn limits(&mut self) -> [i64; 3] {
        match self.next() {
            Value::Limits(limits) => {
                [limits.lower(), limits.upper(), limits.nominal()].map(tenths::Size::picometres)
            }
            _ => [0; 3],
        }
    }

    pub(crate) fn number(&mut self) -> f64 {
        let kind =
            self.told.and_then(|told| told.record.fields().nth(self.place)).map(|field| field.kind.present());
        match (self.next(), kind) {
            (Value::Number(metric), Some(FieldKind::Quantity(kind))) => {
                kind.unit(self.units).from_base(kind.base_in(*metric, self.units))
            }
            (value, _) => number(value),
        }
    }

    pub(crate) fn whole(&mut self) -> i64 {
        match self.next() {
            Value::Whole(count) => *count,
            _ => 0,
        }
    }

    /// A flag, or a choice by its place.
    pub(crate) fn small(&mut self) -> i32 {
        small(self.next())
    }

    /// An amount of money as text, and in the smallest unit of its currency.
    pub(crate) fn amount(&mut self) -> (*mut c_char, i64) {
        match self.next() {
            Value::Amount(amount) => (owned(&amount.to_string()), amount.minor()),
            _ => (std::ptr::null_mut(), 0),
        }
    }

    pub(crate) fn text(&mut self) -> *mut c_char {
        match self.next() {
            Value::Text(text) => owned(text),
            _ => std::ptr::null_mut(),
        }
    }

    /// The values of an object within this one.
    pub(crate) fn object(&mut self) -> Fill<'a> {
        let told = match self.next() {
            Value::Object(told) => Some(told),
            _ => None,
        };
        Fill { told, place: 0, units: self.units }
    }

    /// An array of what each element of a list is made of, and its length.
    fn list<T>(&mut self, mut make: impl FnMut(&'a Value, Units) -> T) -> (*mut T, usize) {
        let units = self.units;
        match self.next() {
            Value::List(values) => owned_list(values.iter().map(|value| make(value, units)).collect()),
            _ => (std::ptr::null_mut(), 0),
        }
    }

    pub(crate) fn objects<T: Filled>(&mut self) -> (*mut T, usize) {
        self.list(|value, units| match value {
            Value::Object(told) => T::fill(&mut Fill { told: Some(told), place: 0, units }),
            _ => T::fill(&mut Fill { told: None, place: 0, units }),
        })
    }

    /// Numbers, those of lists within the list one after the other.
    pub(crate) fn numbers(&mut self) -> (*mut f64, usize) {
        let mut numbers = vec![];
        flatten(self.next(), &mut numbers);
        owned_list(numbers)
    }

    /// Names and as many numbers.
    pub(crate) fn numbers_by_name(&mut self) -> (*mut *mut c_char, *mut f64, usize) {
        self.by_name(number)
    }

    /// Names and as many flags.
    pub(crate) fn smalls_by_name(&mut self) -> (*mut *mut c_char, *mut i32, usize) {
        self.by_name(small)
    }

    fn by_name<T>(&mut self, make: fn(&Value) -> T) -> (*mut *mut c_char, *mut T, usize) {
        let pairs: &[_] = match self.next() {
            Value::ByName(pairs) => pairs,
            _ => &[],
        };
        let (names, _) = owned_list(pairs.iter().map(|(name, _)| owned(name)).collect());
        let (values, count) = owned_list(pairs.iter().map(|(_, value)| make(value)).collect());
        (names, values, count)
    }

    pub(crate) fn wholes(&mut self) -> (*mut i64, usize) {
        self.list(|value, _| match value {
            Value::Whole(count) => *count,
            Value::Size(size) => size.picometres(),
            _ => 0,
        })
    }

    /// Choices by their places.
    pub(crate) fn smalls(&mut self) -> (*mut i32, usize) {
        self.list(|value, _| match value {
            Value::Choice(place) => i32::try_from(*place).unwrap_or(-1),
            _ => -1,
        })
    }

    pub(crate) fn texts(&mut self) -> (*mut *mut c_char, usize) {
        self.list(|value, _| match value {
            Value::Text(text) => owned(text),
            _ => std::ptr::null_mut(),
        })
    }
}

/// The numbers of a value, and of the lists within it.
fn flatten(value: &Value, numbers: &mut Vec<f64>) {
    match value {
        Value::Absent => {}
        Value::List(values) => values.iter().for_each(|value| flatten(value, numbers)),
        value => numbers.push(number(value)),
    }
}

fn number(value: &Value) -> f64 {
    match value {
        Value::Number(number) => *number,
        _ => f64::NAN,
    }
}

fn small(value: &Value) -> i32 {
    match value {
        Value::Flag(flag) => i32::from(*flag),
        Value::Choice(place) => i32::try_from(*place).unwrap_or(-1),
        _ => 0,
    }
}

/// An array of the caller's, to be freed with its struct, and its length; null for nothing.
fn owned_list<T>(list: Vec<T>) -> (*mut T, usize) {
    match list.len() {
        0 => (std::ptr::null_mut(), 0),
        count => (Box::into_raw(list.into_boxed_slice()).cast(), count),
    }
}

/// Text of the caller's, to be freed with its struct. No text of an object has a NUL in it; one would end it.
fn owned(text: &str) -> *mut c_char {
    let end = text.find('\0').unwrap_or(text.len());
    CString::new(&text[..end]).map_or(std::ptr::null_mut(), CString::into_raw)
}

/// The struct of an object, or of an absent one.
// Inlined, the values of an absent object would be looked at before it is known that there are none.
#[inline(never)]
fn filled<T: Filled>(told: Option<&Told>, units: Units) -> T {
    T::fill(&mut Fill { told, place: 0, units })
}

/// Writes the struct of an object; on an error that of an absent one, so that no old values are taken for its own.
///
/// # Safety
/// `out` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn write<T: Filled, O: Object>(
    out: *mut T,
    name: &'static str,
    units: Units,
    made: impl FnOnce() -> Result<O, Failure>,
) -> Result<(), Failure> {
    // SAFETY: the caller's promise.
    let struct_size = unsafe { sized(out, name, name) }?;
    let (told, outcome) = match made() {
        Ok(object) => (Some(object.tell()), Ok(())),
        Err(failure) => (None, Err(failure)),
    };
    let filled: T = filled(told.as_ref(), units);
    // SAFETY: the struct is at least as large as ours, and begins with its size, which stays as the caller set it.
    unsafe {
        out.write(filled);
        out.cast::<usize>().write(struct_size);
    }
    outcome
}

/// Frees a text of a struct, and makes it null.
///
/// # Safety
/// The text is null or came from [`Fill`].
pub(crate) unsafe fn free_text(text: &mut *mut c_char) {
    let old = std::mem::replace(text, std::ptr::null_mut());
    if !old.is_null() {
        // SAFETY: the caller's promise.
        drop(unsafe { CString::from_raw(old) });
    }
}

/// Frees an array of a struct and what its elements lead to, and makes it null.
///
/// # Safety
/// The array is null or came from [`Fill`] with this count.
pub(crate) unsafe fn free_list<T>(list: &mut *mut T, count: &mut usize, mut free: impl FnMut(&mut T)) {
    let (old, count) = (std::mem::replace(list, std::ptr::null_mut()), std::mem::take(count));
    if !old.is_null() {
        // SAFETY: the caller's promise.
        let mut owned = unsafe { Box::from_raw(std::ptr::slice_from_raw_parts_mut(old, count)) };
        owned.iter_mut().for_each(&mut free);
    }
}

/// A struct to be cleared, if it is there and as long as ours.
///
/// # Safety
/// `object` is null or valid for as many bytes as its first word says.
pub(crate) unsafe fn cleared<'a, T>(object: *mut T) -> Option<&'a mut T> {
    // SAFETY: the caller's promise.
    unsafe {
        sized(object, "object", "object").ok()?;
        object.as_mut()
    }
}
