"""What a formula does that is better said in Python: rows of arrays, signatures, named results."""

import collections
import importlib
import inspect
import typing

import numpy

from . import _tenths

__all__ = ["Remark", "find", "formulas"]


class Remark(typing.NamedTuple):
    """Something to say about one row of a call."""

    row: "tuple[int, ...]"
    """The place of the row in the broadcast arrays; empty for a call with single numbers."""
    kind: str
    """``error`` where there is no answer, ``advice`` where the answer is to be taken with care."""
    argument: "str | None"
    """The argument concerned, or None where several do not go together."""
    value: "float | None"
    """Its value."""
    message: str
    """What is wrong and what would be right."""


def find(system, name):
    """The formula of a namespace; what a pickle names."""
    return getattr(importlib.import_module(f"tenths.{system}"), name)


def formulas():
    """The names of all formulas."""
    namespace = vars(importlib.import_module("tenths.metric"))
    return sorted(name for name, value in namespace.items() if isinstance(value, _tenths.Formula))


def signature(formula):
    """Arguments with a default are keyword-only."""
    kinds = inspect.Parameter
    return inspect.Signature(
        [
            kinds(name, kinds.POSITIONAL_OR_KEYWORD)
            if about["default"] is None
            else kinds(name, kinds.KEYWORD_ONLY, default=about["default"])
            for name, about in formula.arguments.items()
        ]
    )


_RESULTS = {}


def result_type(formula_name, fields):
    """The named tuple of a formula of several results, one for both sides, found by pickle in this module."""
    if formula_name not in _RESULTS:
        name = "".join(word.capitalize() for word in formula_name.split("_"))
        made = collections.namedtuple(name, fields, module=__name__)
        made.__doc__ = f"The results of {formula_name}."
        _RESULTS[formula_name] = globals()[name] = made
        __all__.append(name)
    return _RESULTS[formula_name]


def _rows(formula, args, kwargs):
    """The arguments of a call as broadcast arrays of floats, in the order of the record."""
    bound = signature(formula).bind(*args, **(kwargs or {}))
    bound.apply_defaults()
    single = []
    for name, value in bound.arguments.items():
        if isinstance(value, (str, _tenths.Size)):
            value = _bare(formula, name, value)
        single.append(numpy.asarray(value, dtype=float))
    return numpy.broadcast_arrays(*single)


def _bare(formula, name, value):
    unit = formula.arguments[name]["unit"]
    if isinstance(value, _tenths.Size):
        return value.to_float(unit)
    return formula._read(name, value)


def check(formula, args, kwargs):
    """The remarks on every row of a call."""
    arrays = _rows(formula, args, kwargs)
    return [
        Remark(row, *remark)
        for row in numpy.ndindex(arrays[0].shape)
        for remark in formula._judge([float(array[row]) for array in arrays])
    ]


def explain(formula, args, kwargs):
    """The remarks on every row of a call as text, a line each."""
    remarks = check(formula, args, kwargs)
    lines = [f"{_place(remark.row)}{remark.kind}: {remark.message}" for remark in remarks]
    return "\n".join(lines) or f"{formula.__name__}: nothing to remark"


def _place(row):
    return f"row {', '.join(map(str, row))}: " if row else ""


def call(formula, on_error, args):
    """An array call that says what to do about rows without an answer."""
    if on_error not in ("nan", "raise"):
        raise ValueError(f"on_error must be 'nan' or 'raise', not {on_error!r}")
    if on_error == "raise":
        errors = [remark for remark in check(formula, _positional(formula, args), _named(formula, args))
                  if remark.kind == "error"]
        if errors:
            told = "; ".join(_place(error.row) + error.message for error in errors[:3])
            more = f"; and {len(errors) - 3} more" if len(errors) > 3 else ""
            raise _tenths.DomainError(told + more)
    result = formula.ufunc(*args)
    return result if len(formula.outputs) == 1 else result_type(formula.__name__, formula.outputs)._make(result)


def _positional(formula, args):
    return [arg for arg, about in zip(args, formula.arguments.values()) if about["default"] is None]


def _named(formula, args):
    return {name: arg for arg, (name, about) in zip(args, formula.arguments.items()) if about["default"] is not None}


def accepts(system, module):
    """The judge of readings in the unit of a namespace."""

    def accepts(limits, readings, resolution=None):
        least, greatest = _tenths._good_readings(limits, system, resolution)
        if isinstance(readings, (int, float)):
            return least <= readings <= greatest
        return (readings >= least) & (readings <= greatest) if hasattr(readings, "dtype") else (
            (numpy.asarray(readings, dtype=float) >= least) & (numpy.asarray(readings, dtype=float) <= greatest)
        )

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    accepts.__module__ = module
    accepts.__qualname__ = "accepts"
    accepts.__doc__ = f"""Whether readings in {unit}, one or an array, are within limits, both of which are good.

    Limits are Limits or drawing notation. Without a resolution a reading is its shortest decimal, so that 1.425
    is good against 1.420 ±.005; with one, the step of the instrument in {unit}, a reading within a millionth of
    a step of a whole number of steps is taken as that number of steps. NaN is never good.
    """
    return accepts
