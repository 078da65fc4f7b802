"""Limits of ISO 286 for columns of designations, and what is wrong with a pressed joint."""

import sys

import numpy

from . import _formula, _tables, _tenths
from ._results import Results
from ._tenths import DomainError


def faces(system, module):
    """The functions of this module for the namespace of a unit system."""
    return {"iso_limits": _iso_limits(system, module), "joint_findings": _joint_findings(system, module)}


def _iso_limits(system, module):

    def iso_limits(designations, *, rounded_js=False, on_error=None):
        if on_error not in (None, "nan", "raise"):
            raise ValueError(f"on_error must be 'nan' or 'raise', not {on_error!r}")
        if isinstance(designations, str):
            lower, upper, _, why = _tenths._iso_limits([designations], system, rounded_js)
            if why is not None:
                raise DomainError(why.removeprefix("row 0: "))
            return float(numpy.frombuffer(lower)[0]), float(numpy.frombuffer(upper)[0])
        texts = numpy.asarray(designations, dtype=object)
        lower, upper, faults, why = _tenths._iso_limits(_without_gaps(texts.ravel()), system, rounded_js)
        if faults and on_error == "raise":
            raise DomainError(why)
        if faults:
            # Sets numpy's flag for invalid rows.
            numpy.subtract(numpy.inf, numpy.inf)
        ends = [numpy.frombuffer(end).reshape(texts.shape).copy() for end in (lower, upper)]
        if _is_series(designations):
            ends = [type(designations)(end, index=designations.index) for end in ends]
        return tuple(ends)

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    iso_limits.__module__ = module
    iso_limits.__qualname__ = "iso_limits"
    iso_limits.__doc__ = f"""Lower and upper limits in {unit} of designations of ISO 286, one or an array.

    A designation, such as '25 H7', is in millimetres wherever it stands. A Series gives two of its index. A row that is
    missing is NaN; one at fault is NaN and sets numpy's invalid flag, or with on_error='raise' makes an exception that
    says why. The figures are those of ISO 286:2010, from reprints and in part from memory. js is unrounded, or with
    rounded_js as older tables have it, where an odd tolerance of the grades 7 to 11 is first rounded down.
    """
    return iso_limits


def _joint_findings(system, module):
    press_joint = _formula.find(system, "press_joint")

    def joint_findings(joint):
        if not isinstance(joint, press_joint._results):
            given = f"those of {_named(joint.formula)}" if isinstance(joint, Results) else type(joint).__name__
            raise TypeError(f"joint_findings takes the results of {_named(press_joint)}, not {given}")
        columns, absent, _ = _tables.broadcast(tuple(joint), False)
        findings = numpy.frompyfunc(find, len(columns) + 1, 1)(absent, *columns)
        return findings.tolist() if isinstance(findings, numpy.ndarray) else findings

    def find(is_absent, *row):
        return [] if is_absent else _tenths._joint_findings(row, system)

    joint_findings.__module__ = module
    joint_findings.__qualname__ = "joint_findings"
    joint_findings.__doc__ = """What is wrong with the results of press_joint of this namespace: a list of Findings.

    A joint that may be loose has the code joint_may_be_loose, a hub or a shaft that yields joint_yields; their place is
    the result that they speak of. A sound joint has none. Of the results of arrays it is a list with such a list for
    each row, nested where the arrays have more than one axis; a row that is NaN is no sound joint, and one under a mask
    has no findings.
    """
    return joint_findings


def _named(formula):
    return f"tenths.{formula.system}.{formula.__name__}"


def _without_gaps(texts):
    """A list with None for whatever marks a missing row."""
    texts = texts.tolist()
    if {str}.issuperset(map(type, texts)):
        return texts
    pandas = sys.modules.get("pandas")
    missing = None if pandas is None else pandas.NA

    def is_gap(value):
        return value is missing or (isinstance(value, float) and numpy.isnan(value))

    return [None if is_gap(value) else value for value in texts]


def _is_series(values):
    pandas = sys.modules.get("pandas")
    return pandas is not None and isinstance(values, pandas.Series)
