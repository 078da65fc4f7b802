"""The results of a formula that has several: by name, in order, as a table."""

import importlib
import operator

import numpy

from . import _numbers, _text

__all__ = ["Results"]

_SHOWN = 20  # rows of arrays in a notebook


class Results(dict):
    """The results of a formula by name, each a number or an array; they also unpack as a tuple, in order.

    ``cut.torque``, ``cut["torque"]`` and ``cut[2]`` read one. Results cannot be changed. A loop over them gives the
    values; ``keys``, ``values`` and ``items`` are those of a dict, so that ``pandas.DataFrame(cut)`` of arrays has a
    column for each result.
    """

    __slots__ = ()
    _system = _formula = None
    _fields = ()
    units = {}
    """The unit of every result, by name."""

    @classmethod
    def _make(cls, values):
        """Results from their values in order; a series of pandas' gets the name of its result."""
        made = cls.__new__(cls)
        for name, value in zip(cls._fields, values, strict=True):
            dict.__setitem__(made, name, _named(value, name))
        return made

    @property
    def formula(self):
        """The formula that gave them."""
        return getattr(importlib.import_module(f"tenths.{self._system}"), self._formula)

    def __getitem__(self, key):
        return dict.__getitem__(self, key) if isinstance(key, str) else tuple(self.values())[key]

    def __iter__(self):
        return iter(self.values())

    def __reversed__(self):
        return reversed(self.values())

    def __eq__(self, other):
        if isinstance(other, Results) and self._of() != other._of():
            return False
        return tuple(self) == tuple(other) if isinstance(other, (tuple, Results)) else NotImplemented

    __ne__ = object.__ne__

    def __hash__(self):
        return hash(tuple(self))

    def __array__(self, dtype=None, copy=None):
        return numpy.array(tuple(self), dtype)

    def __reduce__(self):
        return _restored, (*self._of(), tuple(self))

    def __repr__(self):
        return f"{type(self).__name__}({', '.join(f'{name}={value!r}' for name, value in self.items())})"

    def __str__(self):
        return repr(self) if self._rows() else "\n".join([f"{self._formula}:", *_text.lines(self._lines())])

    def _repr_html_(self):
        count, title = self._rows(), _text.words(self._formula)
        if not count:
            return _text.table(["result", "", "unit"], [[_text.words(row[0]), *row[1:]] for row in self._lines()], title)
        heads = [", ".join(filter(None, [_text.words(name), unit])) for name, unit in self.units.items()]
        shown = [numpy.ravel(value)[:_SHOWN] for value in self._columns().values()]
        rows = [[_text.figure(number) for number in row] for row in zip(*shown)]
        labels = getattr(self[0], "index", range(count))[: len(rows)]
        more = f" of {count:,} rows, of which these are the first" if count > len(rows) else ""
        return _text.table(["", *heads], [[str(label), *row] for label, row in zip(labels, rows)], title + more)

    def _asdict(self):
        return dict(self.items())

    def _replace(self, **changes):
        return self._make({**self, **changes}.values())

    def to_dict(self):
        """The results by name as a plain dict."""
        return dict(self.items())

    def to_frame(self):
        """The results as a DataFrame of pandas' (of Dask's for series of Dask's), a row for each row of the input.

        The index of the input is kept; quantities of pint's become numbers in `units`, which stand in
        ``frame.attrs["units"]`` as well.
        """
        frame = self._frame(self._columns())
        if hasattr(frame, "attrs"):
            frame.attrs["units"] = dict(self.units)
        return frame

    def _frame(self, columns):
        if _numbers._any_is(self, "dask.dataframe", "Series"):
            first, *rest = columns.items()
            return first[1].to_frame(name=first[0]).assign(**dict(rest))
        import pandas

        shapes = {numpy.ndim(value) for value in columns.values()}
        if shapes == {0}:
            return pandas.DataFrame([{name: _item(value) for name, value in columns.items()}])
        if _numbers._any_is(self, "xarray", "DataArray"):
            import xarray

            return xarray.Dataset(columns).to_dataframe()[list(columns)]
        if _numbers._any_is(self, "pandas", "DataFrame"):
            return pandas.concat(columns, axis=1)
        if max(shapes) < 2:
            return pandas.DataFrame(columns)
        places = map(range, self[0].shape)
        columns = {name: numpy.ravel(value) for name, value in columns.items()}
        return pandas.DataFrame(columns, index=pandas.MultiIndex.from_product(places))

    def _columns(self):
        """The results as plain numbers by name, NaN under a mask."""
        return {name: self._bare(name, value) for name, value in self.items()}

    def _bare(self, name, value):
        if _numbers._is_quantity(value):
            kinds = dict(zip(self._fields, self.formula._output_quantities(), strict=True))
            value = _numbers.magnitude(value, self._formula, name, kinds[name], self.units[name])
        return value.filled(numpy.nan) if isinstance(value, numpy.ma.MaskedArray) else value

    def _of(self):
        return self._system, self._formula

    def _rows(self):
        """How many rows arrays at hand have; 0 of single numbers and of what is still to be computed."""
        first = self[0]
        return numpy.size(first) if numpy.ndim(first) and not hasattr(first, "dask") else 0

    def _lines(self):
        """Each single result with its unit, and whatever else shows itself."""
        is_number = lambda value: isinstance(value, (float, numpy.ndarray))
        return [
            [name, _text.figure(float(value)), unit] if is_number(value) else [name, str(value), ""]
            for (name, value), unit in zip(self.items(), self.units.values(), strict=True)
        ]

    def _frozen(self, *_args, **_named):
        raise TypeError(f"the results of {self._formula} cannot be changed")

    __setitem__ = __delitem__ = __ior__ = _frozen
    update = setdefault = pop = popitem = clear = _frozen


def results(system, formula, fields):
    """The class of the results of a formula of a namespace, from the name, the unit and the meaning of each."""
    about = {"_system": system, "_formula": formula, "units": {name: unit for name, unit, _ in fields}}
    about |= {"__slots__": (), "__doc__": f"The results of {formula}.", "__module__": f"tenths.{system}"}
    about["_fields"] = about["__match_args__"] = tuple(about["units"])
    # Reads past `__getitem__`, which takes places too.
    about |= {name: property(operator.methodcaller("get", name), doc=doc) for name, _, doc in fields}
    return type("".join(map(str.capitalize, formula.split("_"))), (Results,), about)


def _restored(system, formula, values):
    """What a pickle leads to."""
    return getattr(importlib.import_module(f"tenths.{system}"), formula)._results._make(values)


def _named(value, name):
    if any(_numbers._any_is([value], module, "Series") for module in ("pandas", "dask.dataframe")):
        return value.rename(name)
    return value.rename(name) if _numbers._any_is([value], "xarray", "DataArray") else value


def _item(value):
    """A single number out of an array without axes."""
    return value.item() if hasattr(value, "item") else value
