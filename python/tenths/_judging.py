"""What a decision rule says of readings, one or a column of them."""

import functools
import numbers

import numpy

from . import _numbers, _tenths


def faces(system, module):
    """The judge of readings in the unit of a namespace."""
    wanted = _tenths._wanted_length(system, "judge")

    def judge(decision, readings, resolution=None):
        edges = _tenths._decision_edges(decision, system, resolution)
        number = wanted.number(readings)
        if number is not None:
            return _verdicts(edges, number).item()
        readings = _numbers.column(wanted, readings)
        if not hasattr(type(readings), "dtype") and not hasattr(type(readings), "dtypes"):
            readings = _numbers.floats(readings)
        return _like(readings, functools.partial(_verdicts, edges))

    unit = {"inch": "inches", "metric": "millimetres"}[system]
    judge.__module__, judge.__qualname__ = module, "judge"
    judge.__doc__ = f"""What a Decision says of readings in {unit}, one or a column: each 'conforming', 'not conforming' or 'indeterminate'.

    Readings are read as `accepts` reads them, exactly at every edge of a zone: text with a unit and quantities of pint's
    too, and with a resolution in {unit} a reading within a millionth of a step of a whole number of steps is taken as
    that number of steps. A column keeps its index and its shape. NaN, an infinity and a gap are no reading and get None.
    """
    return {"judge": judge}


def sized(decision, readings):
    """The verdicts on a column of sizes that carry their units, each judged exactly: what `Decision.judge` does."""
    if _numbers._is_quantity(readings):
        return _judge_of_quantities(decision, readings)
    if isinstance(readings, numbers.Real):
        return _of_size(decision, readings)
    if not hasattr(type(readings), "dtype") and not hasattr(type(readings), "dtypes"):
        if not isinstance(readings, (list, tuple)):
            return _of_size(decision, readings)
        readings = numpy.array(readings, dtype=object)
    return _like(readings, functools.partial(_of_sizes, decision))


# Of quantities of pint's, whose unit it converts.
_judge_of_quantities = faces("metric", __name__)["judge"]


def _verdicts(edges, readings):
    """The verdicts on an array of floats."""
    (least, greatest), (low, high) = edges
    readings = numpy.asarray(readings, dtype=float)
    told = numpy.full(readings.shape, None, dtype=object)
    told[numpy.isfinite(readings)] = "not conforming"
    told[(readings >= low) & (readings <= high)] = "indeterminate"
    told[(readings >= least) & (readings <= greatest)] = "conforming"
    return told


def _of_sizes(decision, readings):
    told = numpy.full(numpy.shape(readings), None, dtype=object)
    for place, reading in numpy.ndenumerate(numpy.asarray(readings, dtype=object)):
        try:
            told[place] = _of_size(decision, reading)
        except (TypeError, ValueError) as error:
            error.args = (f"row {', '.join(map(str, place))}: {error}",)
            raise
    return told


def _of_size(decision, reading):
    if _numbers.is_missing(reading) or (isinstance(reading, numbers.Real) and reading != reading):
        return None
    if _numbers._is_quantity(reading):
        return _judge_of_quantities(decision, reading)
    if isinstance(reading, (str, _tenths.Size)):
        return decision.judge(reading)
    raise TypeError(
        f"judge: a reading of {reading!r:.40} has no unit: give text such as '10.05 mm', or numbers to tenths.metric.judge "
        "or tenths.inch.judge"
    )


def _like(column, verdicts):
    """The verdicts in what holds the readings: a frame, a series, or an array of any library."""
    if _numbers._any_is([column], "dask.dataframe", "Series", "DataFrame"):
        return column.map_partitions(functools.partial(_like, verdicts=verdicts))
    if _numbers._any_is([column], "pandas", "DataFrame"):
        return column.apply(functools.partial(_like, verdicts=verdicts))
    if _numbers._any_is([column], "pandas", "Series"):
        kind = object if column.dtype.kind in "OSTU" else float
        values = column.to_numpy(dtype=kind, na_value=numpy.nan)
        return type(column)(verdicts(values), index=column.index, name=column.name, dtype=object)
    if _numbers._any_is([column], "xarray", "DataArray", "Dataset", "Variable"):
        import xarray

        return xarray.apply_ufunc(verdicts, column, dask="parallelized", output_dtypes=[object], keep_attrs=True)
    if _numbers._any_is([column], "dask.array", "Array"):
        return column.map_blocks(verdicts, dtype=object)
    if isinstance(column, numpy.ma.MaskedArray):
        mask = numpy.ma.getmaskarray(column)
        bare = column.astype(object).filled(numpy.nan)
        return numpy.ma.array(verdicts(bare), mask=mask)
    return verdicts(column)
