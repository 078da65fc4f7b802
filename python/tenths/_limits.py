"""Which readings limits accept."""

from . import _numbers, _tenths


def faces(system, module):
    """The judge of readings in the unit of a namespace."""
    wanted = _tenths._wanted_length(system)

    def accepts(limits, readings, resolution=None):
        least, greatest = _tenths._good_readings(limits, system, resolution)
        number = wanted.number(readings)
        if number is not None:
            return bool(least <= number <= greatest)
        readings = _numbers.column(wanted, readings)
        if not hasattr(type(readings), "dtype") and not hasattr(type(readings), "dtypes"):
            readings = _numbers.floats(readings)
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
    return {"accepts": accepts}
