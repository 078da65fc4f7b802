"""The spindle speeds of a geared head."""

import numpy

from . import _numbers, _tenths


def faces(system, module):
    """The choice among the steps of a geared head for a namespace."""
    one, several = _tenths._wanted_speeds(system)

    def lower_spindle_step(wanted, steps):
        steps = _numbers.floats(_numbers.column(several, steps)).tolist()
        number = one.number(wanted)
        if number is not None:
            return _tenths._lower_spindle_step(number, steps, system)
        # Judges every step, and gives the highest.
        _tenths._lower_spindle_step(numpy.finfo(float).max, steps, system)
        ladder, wanted = numpy.sort(steps), _numbers.floats(_numbers.column(one, wanted))
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
    return {"lower_spindle_step": lower_spindle_step}
