//! Plain data of Python's, made straight of what serde would write as JSON.
use pyo3::IntoPyObjectExt;
use pyo3::exceptions::PyValueError;
use pyo3::prelude::*;
use pyo3::types::{PyDict, PyList, PyString};
use serde::ser::{Error, Impossible, SerializeMap, SerializeSeq, SerializeStruct, SerializeTuple};
use serde::{Serialize, Serializer};
use std::cell::RefCell;
use std::collections::HashMap;
use std::fmt;
use std::hash::{BuildHasherDefault, Hasher};
use std::sync::{Mutex, PoisonError};

/// What `json.loads` makes of the JSON of a value: numbers that are not finite are None.
pub fn plain_of<'py>(py: Python<'py>, value: &impl Serialize) -> PyResult<Bound<'py, PyAny>> {
    static NAMES: Mutex<Option<Names>> = Mutex::new(None);
    let kept = || NAMES.lock().unwrap_or_else(PoisonError::into_inner);
    // Taken out rather than held: a garbage collection on the way may run any code of Python's.
    let names = RefCell::new(kept().take().unwrap_or_default());
    let made = value.serialize(Plain { py, names: &names });
    *kept() = Some(names.into_inner());
    made.map_err(|Failed(error)| error)
}

/// The names of fields as text of Python's, each made once. A name is known by where it stands in the library.
type Names = HashMap<(usize, usize), Py<PyString>, BuildHasherDefault<ByPlace>>;

/// Mixes places in memory.
#[derive(Default)]
struct ByPlace(u64);

impl Hasher for ByPlace {
    fn finish(&self) -> u64 {
        self.0
    }

    fn write(&mut self, bytes: &[u8]) {
        bytes.iter().for_each(|&byte| self.write_usize(byte.into()));
    }

    fn write_usize(&mut self, number: usize) {
        // An odd number near the golden ratio of 2^64 spreads the low bits over the high ones, and back.
        let mixed = (self.0 ^ number as u64).wrapping_mul(0x9e37_79b9_7f4a_7c15);
        self.0 = mixed ^ (mixed >> 32);
    }
}

/// An exception of Python's on its way through serde.
#[derive(Debug)]
struct Failed(PyErr);

impl fmt::Display for Failed {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.0.fmt(f)
    }
}

impl std::error::Error for Failed {}

impl Error for Failed {
    fn custom<T: fmt::Display>(message: T) -> Failed {
        Failed(PyValueError::new_err(message.to_string()))
    }
}

/// Makes one value.
#[derive(Clone, Copy)]
struct Plain<'n, 'py> {
    py: Python<'py>,
    names: &'n RefCell<Names>,
}

type Made<'py> = Result<Bound<'py, PyAny>, Failed>;
type NoVariant<'py> = Impossible<Bound<'py, PyAny>, Failed>;

impl<'n, 'py> Plain<'n, 'py> {
    fn name(self, name: &'static str) -> Bound<'py, PyString> {
        let mut names = self.names.borrow_mut();
        let kept = names.entry((name.as_ptr() as usize, name.len()));
        kept.or_insert_with(|| PyString::intern(self.py, name).unbind()).bind(self.py).clone()
    }

    fn made<T: IntoPyObject<'py>>(self, value: T) -> Made<'py> {
        value.into_bound_py_any(self.py).map_err(Failed)
    }

    fn fields(self) -> Result<Fields<'n, 'py>, Failed> {
        Ok(Fields { to: self, dict: PyDict::new(self.py), key: None })
    }

    fn items(self, count: usize) -> Result<Items<'n, 'py>, Failed> {
        Ok(Items { to: self, items: Vec::with_capacity(count) })
    }
}

/// A dict so far, and the key whose value comes next.
struct Fields<'n, 'py> {
    to: Plain<'n, 'py>,
    dict: Bound<'py, PyDict>,
    key: Option<Bound<'py, PyAny>>,
}

/// The items of a list so far.
struct Items<'n, 'py> {
    to: Plain<'n, 'py>,
    items: Vec<Bound<'py, PyAny>>,
}

/// Methods that make one value of a number or the like.
macro_rules! made_as_it_is {
    ($($method:ident: $type:ty;)*) => {
        $(fn $method(self, value: $type) -> Made<'py> {
            self.made(value)
        })*
    };
}

impl<'n, 'py> Serializer for Plain<'n, 'py> {
    type Ok = Bound<'py, PyAny>;
    type Error = Failed;
    type SerializeSeq = Items<'n, 'py>;
    type SerializeTuple = Items<'n, 'py>;
    type SerializeTupleStruct = NoVariant<'py>;
    type SerializeTupleVariant = NoVariant<'py>;
    type SerializeMap = Fields<'n, 'py>;
    type SerializeStruct = Fields<'n, 'py>;
    type SerializeStructVariant = NoVariant<'py>;

    made_as_it_is! {
        serialize_bool: bool;
        serialize_i8: i8;
        serialize_i16: i16;
        serialize_i32: i32;
        serialize_i64: i64;
        serialize_u8: u8;
        serialize_u16: u16;
        serialize_u32: u32;
        serialize_u64: u64;
        serialize_char: char;
        serialize_str: &str;
    }

    fn serialize_f32(self, value: f32) -> Made<'py> {
        self.serialize_f64(value.into())
    }

    fn serialize_f64(self, value: f64) -> Made<'py> {
        self.made(value.is_finite().then_some(value))
    }

    fn serialize_bytes(self, bytes: &[u8]) -> Made<'py> {
        self.collect_seq(bytes)
    }

    fn serialize_none(self) -> Made<'py> {
        self.serialize_unit()
    }

    fn serialize_some<T: Serialize + ?Sized>(self, value: &T) -> Made<'py> {
        value.serialize(self)
    }

    fn serialize_unit(self) -> Made<'py> {
        Ok(self.py.None().into_bound(self.py))
    }

    fn serialize_unit_struct(self, _: &'static str) -> Made<'py> {
        self.serialize_unit()
    }

    fn serialize_unit_variant(self, _: &'static str, _: u32, name: &'static str) -> Made<'py> {
        Ok(self.name(name).into_any())
    }

    fn serialize_newtype_struct<T: Serialize + ?Sized>(self, _: &'static str, value: &T) -> Made<'py> {
        value.serialize(self)
    }

    fn serialize_newtype_variant<T: Serialize + ?Sized>(
        self,
        _: &'static str,
        _: u32,
        name: &'static str,
        value: &T,
    ) -> Made<'py> {
        let mut fields = self.fields()?;
        SerializeStruct::serialize_field(&mut fields, name, value)?;
        SerializeStruct::end(fields)
    }

    fn serialize_seq(self, count: Option<usize>) -> Result<Items<'n, 'py>, Failed> {
        self.items(count.unwrap_or_default())
    }

    fn serialize_tuple(self, count: usize) -> Result<Items<'n, 'py>, Failed> {
        self.items(count)
    }

    fn serialize_tuple_struct(self, name: &'static str, _: usize) -> Result<NoVariant<'py>, Failed> {
        Err(Failed::custom(name))
    }

    fn serialize_tuple_variant(
        self,
        name: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<NoVariant<'py>, Failed> {
        Err(Failed::custom(name))
    }

    fn serialize_map(self, _: Option<usize>) -> Result<Fields<'n, 'py>, Failed> {
        self.fields()
    }

    fn serialize_struct(self, _: &'static str, _: usize) -> Result<Fields<'n, 'py>, Failed> {
        self.fields()
    }

    fn serialize_struct_variant(
        self,
        name: &'static str,
        _: u32,
        _: &'static str,
        _: usize,
    ) -> Result<NoVariant<'py>, Failed> {
        Err(Failed::custom(name))
    }
}

impl<'py> SerializeStruct for Fields<'_, 'py> {
    type Ok = Bound<'py, PyAny>;
    type Error = Failed;

    fn serialize_field<T: Serialize + ?Sized>(
        &mut self,
        name: &'static str,
        value: &T,
    ) -> Result<(), Failed> {
        let value = value.serialize(self.to)?;
        self.dict.set_item(self.to.name(name), value).map_err(Failed)
    }

    fn end(self) -> Made<'py> {
        Ok(self.dict.into_any())
    }
}

impl<'py> SerializeMap for Fields<'_, 'py> {
    type Ok = Bound<'py, PyAny>;
    type Error = Failed;

    fn serialize_key<T: Serialize + ?Sized>(&mut self, key: &T) -> Result<(), Failed> {
        self.key = Some(key.serialize(self.to)?);
        Ok(())
    }

    fn serialize_value<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Failed> {
        let value = value.serialize(self.to)?;
        self.dict.set_item(self.key.take(), value).map_err(Failed)
    }

    fn end(self) -> Made<'py> {
        Ok(self.dict.into_any())
    }
}

impl<'py> SerializeSeq for Items<'_, 'py> {
    type Ok = Bound<'py, PyAny>;
    type Error = Failed;

    fn serialize_element<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Failed> {
        self.items.push(value.serialize(self.to)?);
        Ok(())
    }

    fn end(self) -> Made<'py> {
        Ok(PyList::new(self.to.py, self.items).map_err(Failed)?.into_any())
    }
}

impl<'py> SerializeTuple for Items<'_, 'py> {
    type Ok = Bound<'py, PyAny>;
    type Error = Failed;

    fn serialize_element<T: Serialize + ?Sized>(&mut self, value: &T) -> Result<(), Failed> {
        SerializeSeq::serialize_element(self, value)
    }

    fn end(self) -> Made<'py> {
        SerializeSeq::end(self)
    }
}
