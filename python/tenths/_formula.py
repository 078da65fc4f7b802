"""The parts of a formula that are written in Python: rows of arrays, signatures."""

import importlib
import inspect

import numpy

from . import _numbers, _remarks, _tenths
from ._remarks import Remarks

__all__ = ["find", "wanted"]


def find(system, name):
    """The formula of a namespace; what a pickle names."""
    return getattr(importlib.import_module(f"tenths.{system}"), name)


def wanted(system, name, argument):
    """What the formula of a namespace asks of an argument; what a pickle names."""
    return find(system, name)._wanted(argument)


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


def _rows(formula, args, kwargs):
    """The arguments of a call as broadcast arrays of floats, in the order of the record, and the rows under a mask."""
    bound = signature(formula).bind(*args, **(kwargs or {}))
    bound.apply_defaults()
    columns = []
    for name, value in bound.arguments.items():
        wanted = formula._wanted(name)
        number = wanted.number(value)
        columns.append(_numbers.column(wanted, value) if number is None else numpy.float64(number))
    return _broadcast(columns)


def _broadcast(columns):
    """Columns as broadcast arrays of floats, and which rows a mask hides."""
    arrays = numpy.broadcast_arrays(*map(_floats, columns))
    if not any(isinstance(column, numpy.ma.MaskedArray) for column in columns):
        return arrays, numpy.False_
    return arrays, numpy.broadcast_to(_numbers.mask_of(columns), arrays[0].shape)


def _floats(values):
    """An array of floats, from what a ufunc would take as one: no text, complex number or None."""
    values = numpy.asarray(values)
    return values.astype(float, casting="same_kind" if values.dtype.kind == "f" else "safe", copy=False)


def check(formula, args, kwargs):
    """The remarks on every row of a call."""
    return Remarks(formula, *_rows(formula, args, kwargs))


def explain(formula, args, kwargs):
    """The remarks on a call as text, a line each, of which the first ones are shown."""
    return str(check(formula, args, kwargs))


def raise_for_rows(formula, args):
    """The ufunc, where the first rows without an answer make an exception."""
    with numpy.errstate(invalid="ignore"):
        result = _numbers.apply(formula.ufunc, args)
    return _remarks.raise_for_rows(formula, result, *_broadcast(args))


def accepts(system, module):
    """The judge of readings in the unit of a namespace."""
    wanted = _tenths._wanted_length(system)

    def accepts(limits, readings, resolution=None):
        least, greatest = _tenths._good_readings(limits, system, resolution)
        number = wanted.number(readings)
        if number is not None:
            return bool(least <= number <= greatest)
        readings = _numbers.column(wanted, readings)
        if not hasattr(type(readings), "dtype") and not hasattr(type(readings), "dtypes"):
            readings = _floats(readings)
        return (readings >= least) & (readings <= greatest)

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    accepts.__module__ = module
    accepts.__qualname__ = "accepts"
    accepts.__doc__ = f"""Whether readings in {unit}, one or an array, are within limits, both of which are good.

    Limits are Limits or drawing notation; readings may be text with a unit, or quantities of pint's. Without a
    resolution a reading is its shortest decimal, in its own precision, so that 1.425 and numpy.float32(1.425) are good
    against 1.420 ±.005; with one, the step of the instrument in {unit}, a reading within a millionth of a step of a
    whole number of steps is taken as that number of steps. NaN is never good.
    """
    return accepts


def lower_spindle_step(system, module):
    """The choice among the steps of a geared head for a namespace."""
    one, several = _tenths._wanted_speeds(system)

    def lower_spindle_step(wanted, steps):
        steps = _floats(_numbers.column(several, steps)).tolist()
        number = one.number(wanted)
        if number is not None:
            return _tenths._lower_spindle_step(number, steps, system)
        # Judges every step, and gives the highest.
        _tenths._lower_spindle_step(numpy.finfo(float).max, steps, system)
        ladder, wanted = numpy.sort(steps), _floats(_numbers.column(one, wanted))
        place = numpy.searchsorted(ladder, wanted, side="right") - 1
        none = (place < 0) | numpy.isinf(wanted)
        # The root of a negative number is NaN and sets numpy's flag; that of NaN does not.
        return ladder[place] * numpy.sqrt(numpy.where(numpy.isnan(wanted), wanted, numpy.where(none, -1.0, 1.0)))

    lower_spindle_step.__module__ = module
    lower_spindle_step.__qualname__ = "lower_spindle_step"
    lower_spindle_step.__doc__ = """The nearest of the steps of a geared head that is not above a spindle speed in rev/min.

    The wanted speed is one or an array; the steps stand in any order. One speed below all steps is a DomainError that
    tells the lowest; in an array it gives NaN, and sets numpy's invalid flag.
    """
    return lower_spindle_step
