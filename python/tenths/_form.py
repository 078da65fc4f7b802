"""Form from measured points, and positions of holes in a datum frame."""

import numpy

from . import _numbers, _tenths
from ._readings import floats
from ._tenths import DomainError


def _points(value, argument, unit, columns):
    """Rows of coordinates in the unit of a namespace."""
    if _numbers._is_quantity(value):
        value = _numbers.magnitude(value, "points", argument, "Length", unit)
    if isinstance(value, numpy.ma.MaskedArray) and numpy.ma.is_masked(value):
        raise TypeError(f"'{argument}' has masked entries. Fix: leave those points out")
    array = floats(argument, value)
    if array.size == 0:
        array = array.reshape(0, columns[-1])
    if array.ndim != 2 or array.shape[1] not in columns:
        wanted = " or ".join(map(str, columns))
        raise TypeError(f"'{argument}' must have a row of {wanted} coordinates for each point, not the shape {array.shape}")
    return numpy.ascontiguousarray(array, dtype=float)


def _listed(name, values, count, what):
    """So many values, as a list."""
    try:
        values = list(values)
    except TypeError:
        values = [values]
    if len(values) != count:
        raise TypeError(f"{name} must be {what}; {len(values)} given")
    return values


def faces(units, module):
    """The functions of this module for the namespace of a unit system."""
    unit = {"inch": "in", "metric": "mm"}[units]

    def fit_form(feature, points, criterion="least squares"):
        if not isinstance(feature, str):
            raise TypeError(f"feature must be text such as 'circle', not {feature!r:.40}")
        array = _points(points, "points", unit, (2, 3))
        return _tenths._fit_form(units, feature, array, array.shape[1], criterion)

    def hole_position(points, nominal, tolerance, *, datums=None, member="hole", condition=None, limits=None):
        array = _points(points, "points", unit, (3,))
        if datums is not None:
            datums = [_points(one, "datums", unit, (3,)) for one in _listed("datums", datums, 3, "the points of three planes")]
        nominal = tuple(_listed("nominal", nominal, 2, "two distances, from the secondary and the tertiary plane"))
        if isinstance(condition, str) and condition.strip().upper() == "RFS":
            raise DomainError("condition is 'MMC' or 'LMC': leave it out for RFS")
        return _tenths._hole_position(units, array, datums, nominal, tolerance, member, condition, limits)

    fit_form.__doc__ = f"""The feature through measured points in {unit}, and how far they deviate from it.

    ``feature`` is 'line', 'plane', 'circle', 'sphere', 'cylinder' or 'cone', ``criterion`` 'least squares' or 'minimum zone',
    which is the narrowest zone next to the least-squares feature. ``points`` has a row for each point: x and y for a circle or
    a line in a plane, x, y and z for the others and a line in space. ``deviation`` is the roundness, straightness, flatness or
    cylindricity, ``highest`` and ``lowest`` the places of the points that make it.
    """
    hole_position.__doc__ = f"""The position of a hole or pin from measured points in {unit}, with its check.

    ``points`` and the three of ``datums`` have rows of x, y and z; the datum planes have at least 3, 2 and 1. Without datums
    the points are in the datum frame. The axis is square to the primary plane; ``nominal`` are its true distances from the
    secondary and the tertiary one, ``tolerance`` is a diameter. For a bonus ``condition`` is 'MMC' or 'LMC', and ``limits`` are
    those of size; the actual size is taken from the points.
    """
    made = {"fit_form": fit_form, "hole_position": hole_position}
    for name, function in made.items():
        function.__module__, function.__qualname__ = module, name
    return made
