"""Which readings limits accept."""

import sys

import numpy

from . import _numbers, _tenths

# A pickle finds it here by its name.
within = _tenths._within()


class _ByRow:
    """Judges each reading by limits of its own; it goes to partitions and masks as a ufunc does."""

    nin, nout = 3, 1

    def __init__(self, system, resolution):
        self.system, self.resolution = system, resolution

    def __call__(self, readings, lower, upper):
        pandas = sys.modules.get("pandas")
        if pandas and isinstance(readings, pandas.DataFrame):
            return readings.apply(self, args=(lower, upper))
        columns = (readings, lower, upper)
        series = [column for column in columns if pandas and isinstance(column, pandas.Series)]
        if series:
            table = pandas.concat(series, axis=1) if len(series) > 1 else series[0].to_frame()
            places = iter(range(len(series)))
            columns = [
                table.iloc[:, next(places)] if isinstance(column, pandas.Series) else column for column in columns
            ]
        labels = table.index if series else None
        columns = numpy.broadcast_arrays(*(numpy.asarray(column, dtype=float) for column in columns))
        verdicts = numpy.empty(columns[0].shape, dtype=bool)
        flat = [numpy.ascontiguousarray(column).ravel() for column in columns]
        if verdicts.size:
            _tenths._accept_rows(flat, verdicts, self.system, self.resolution, labels)
        return pandas.Series(verdicts, index=labels, name=series[0].name) if series else verdicts[()]

    def __dask_tokenize__(self):
        return "tenths", type(self).__qualname__, self.system, str(self.resolution)


def faces(system, module):
    """The judge of readings in the unit of a namespace."""
    wanted, wanted_limit = (_tenths._wanted_length(system, "accepts", name) for name in ("readings", "limits"))

    def accepts(limits, readings, resolution=None):
        number = wanted.number(readings)
        if isinstance(limits, (str, _tenths.Limits)):
            least, greatest = _tenths._good_readings(limits, system, resolution)
            if number is not None:
                return bool(least <= number <= greatest)
            return _numbers.apply(within, (_column(wanted, readings), least, greatest))
        lower, upper = _pair(wanted_limit, system, limits)
        readings = _column(wanted, readings) if number is None else number
        verdicts = _numbers.apply(_ByRow(system, resolution), (readings, lower, upper))
        return bool(verdicts) if isinstance(verdicts, numpy.bool_) else verdicts

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    accepts.__module__ = module
    accepts.__qualname__ = "accepts"
    accepts.__doc__ = f"""Whether readings in {unit}, one or an array, are within limits, both of which are good.

    `limits` is Limits, drawing notation, or a tuple (lower, upper) in {unit} or as text with a unit; None leaves that side
    open. For limits that differ from row to row, give a list or a column of Limits or texts, or a tuple of two columns. In
    a column, minus infinity or infinity leaves that side open, and a row without limits accepts nothing. Series are
    matched by label.

    Readings may be text with a unit, or quantities of pint's. Without a resolution a reading is its shortest decimal, in its
    own precision, so that 1.425 and numpy.float32(1.425) are good against 1.420 ±.005; with one, the step of the instrument
    in {unit}, a reading within a millionth of a step of a whole number of steps is taken as that number of steps. NaN is
    never good.
    """
    return {"accepts": accepts}


def _column(wanted, values):
    """Numbers in the unit wanted, as an array of any library that numpy dispatches to."""
    values = _numbers.column(wanted, values)
    return values if hasattr(type(values), "dtype") or hasattr(type(values), "dtypes") else _numbers.floats(values)


def _pair(wanted, system, limits):
    """Lower and upper limits, each a number or a column."""
    if isinstance(limits, tuple):
        if len(limits) != 2:
            raise TypeError(f"accepts: a tuple of limits is a lower and an upper one, not {len(limits)} values")
        return [_limit(wanted, limit, none) for limit, none in zip(limits, (-numpy.inf, numpy.inf), strict=True)]
    if limits is None or isinstance(limits, dict) or numpy.ndim(limits) == 0:
        expected = "Limits, text such as '25 ±0.1 mm', a tuple (lower, upper), or a list or column of Limits or texts"
        raise TypeError(f"accepts: 'limits' must be {expected}, not {limits!r:.40}")
    pandas = sys.modules.get("pandas")
    labels = limits.index if pandas and isinstance(limits, pandas.Series) else None
    rows = list(limits) if labels is not None else list(numpy.asarray(limits, dtype=object))
    ends = _tenths._limits_of_rows([None if _is_gap(row) else row for row in rows], system, labels)
    return ends if labels is None else [pandas.Series(end, index=labels) for end in ends]


def _is_gap(row):
    return _numbers.is_missing(row) or (isinstance(row, float) and row != row)


def _limit(wanted, limit, none):
    if limit is None:
        return none
    number = wanted.number(limit)
    return _column(wanted, limit) if number is None else number
