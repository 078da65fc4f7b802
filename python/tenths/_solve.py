"""Solving a formula: the value of an argument that gives a wanted result."""

import functools
import itertools

import numpy

from . import _formula, _numbers, _tenths

__all__ = ["solve_for"]

_SHOWN = 3  # rows that an exception tells of


def solve_for(formula, argument, wanted, output, on_error, given):
    """What `Formula.solve_for` does; `given` is a dict of the other arguments, or None."""
    if on_error not in (None, "nan", "raise"):
        raise ValueError(f"on_error must be 'nan' or 'raise', not {on_error!r}")
    solver = _solver(formula, argument, output)  # refuses what cannot be solved for
    given = _others(formula, argument, given or {})
    # The wanted result stands in the place of the argument that is sought.
    row = [given[name] if name != argument else _read(_tenths._wanted_result(formula, output), wanted) for name in _formula.defaults(formula)]
    if all(type(value) is float for value in row):
        try:
            return _tenths._solve(formula, argument, output, row)
        except _tenths.DomainError:
            if on_error == "nan":
                return numpy.nan
            raise
    if on_error != "raise":
        return solver(*row)
    with numpy.errstate(invalid="ignore"):
        solved = solver(*row)
    _raise_for_rows(formula, argument, output, row, solved)
    return solved


_solver = functools.cache(_tenths._solver)


def _others(formula, argument, given):
    """The arguments but the one that is sought, those left out by their defaults."""
    call = f"{formula.__name__}.solve_for()"
    for name in given:
        if name == argument:
            raise TypeError(f"{call} solves for '{name}': leave that argument out")
        if name not in _formula.defaults(formula):
            raise TypeError(f"{call} got an unexpected keyword argument '{name}'")
    others = {}
    for name, default in _formula.defaults(formula).items():
        value = given.get(name, default)
        if name != argument and value is None:
            raise TypeError(f"{call} missing required argument: '{name}'")
        if name != argument:
            others[name] = _read(formula._wanted(name), value)
    return others


def _read(asked, value):
    """A number as a float; arrays as numpy takes them."""
    number = asked.number(value)
    return _numbers.column(asked, value) if number is None else number


def _raise_for_rows(formula, argument, output, row, solved):
    """An exception of the first rows without a solution, if there are any."""
    unsolved = numpy.argwhere(numpy.isnan(numpy.asarray(solved)))
    if not len(unsolved):
        return
    columns = numpy.broadcast_arrays(*map(_numbers.floats, row))
    told = []
    for place in itertools.islice(map(tuple, unsolved), _SHOWN):
        try:
            _tenths._solve(formula, argument, output, [float(column[place]) for column in columns])
        except _tenths.DomainError as error:
            told.append(f"row {', '.join(map(str, place))}: {error}")
    more = len(unsolved) - len(told)
    raised = _tenths.DomainError("; ".join(told) + (f"; and {more} more" if more else ""))
    raised.formula, raised.argument = formula.__name__, argument
    raise raised
