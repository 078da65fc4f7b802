"""Control charts: what is taken for readings, subgroups and phases."""

import numpy

from . import _labels, _tenths
from ._options import takes
from ._readings import check_order, readings
from ._tenths import DomainError


@takes("ChartOptions")
def control_chart(kind, data, *, sizes=None, subgroup=None, phases=None, **options):
    """A control chart: points, limits, and the rules that points broke.

    ``kind`` is ``xbar_r``, ``xbar_s``, ``i_mr``, ``p``, ``np``, ``c``, ``u``, ``ewma`` or ``cusum``. ``data`` of subgroups
    has a row for each: a table, a list of lists of any lengths, or readings in order with ``sizes`` (one for all, or one
    for each subgroup) or ``subgroup``, the label of each reading or the size of all subgroups. Of ``p``, ``np`` and ``u`` it is the counts, and
    ``sizes`` what was inspected. ``phases`` labels each point; a phase has limits of its own.

    Limits come from the readings, or from a known ``centre`` and ``sigma``. Missing readings are refused: leave them out.
    """
    subgrouped = _tenths._takes_subgroups(kind)
    check_order(data=data, sizes=sizes, subgroup=subgroup)
    check_order(data=data, phases=None if subgroup is not None else phases)
    flat, sizes = _flat(kind, subgrouped, data, sizes, subgroup)
    phases = [] if phases is None else _labels.phases(phases)
    return _tenths._control_chart(kind, flat.tobytes(), sizes.tobytes(), phases, options)


def average_run_length(kind, shift, *, size=1, sigmas=3.0, weight=0.2, slack=0.5, decision=5.0):
    """The average number of points until one lies beyond the limits, from the start of a lasting shift.

    ``kind`` is ``xbar_r``, ``xbar_s``, ``i_mr``, ``ewma`` or ``cusum``. ``shift`` is in standard deviations of single
    readings, of which each point is the mean of ``size``; a list or an array of shifts gives an array. With a shift of 0 it is
    how long the chart runs until a false alarm. Rules beyond the first do not count. An EWMA needs a ``weight`` of 0.02 or
    more and ``sigmas`` up to 20, a CUSUM a ``decision`` up to 20.
    """
    shifts = readings("shift", shift)
    options = {"sigmas": sigmas, "weight": weight, "slack": slack, "decision": decision}
    one = numpy.vectorize(lambda moved: _tenths._average_run_length(kind, moved, size, options), otypes=[float])
    return one(shifts) if shifts.ndim else float(one(shifts))


def _flat(kind, subgrouped, data, sizes, subgroup):
    """Readings in one row, and the sizes that go with them."""
    if subgrouped and _is_ragged(data):
        _refuse_both(sizes, subgroup)
        rows = [readings(f"subgroup {k + 1}", row) for k, row in enumerate(data)]
        return numpy.concatenate(rows), numpy.array([len(row) for row in rows], dtype=float)
    table = readings("data", data)
    if table.ndim == 2 and subgrouped:
        _refuse_both(sizes, subgroup)
        return table.ravel(), numpy.array([table.shape[1]], dtype=float)
    if table.ndim != 1:
        raise DomainError(f"data must be one row of numbers for {kind}, not {table.ndim} dimensions")
    if subgroup is not None:
        if sizes is not None:
            raise TypeError("give sizes or subgroup, not both")
        table, sizes = _labels.grouped(table, subgroup)
        return table, numpy.array(sizes, dtype=float)
    sizes = readings("sizes", [] if sizes is None else sizes)
    return table, numpy.atleast_1d(sizes)


def _refuse_both(sizes, subgroup):
    if sizes is not None or subgroup is not None:
        raise TypeError("the rows of data are the subgroups: give neither sizes nor subgroup")


def _is_ragged(data):
    if not isinstance(data, (list, tuple)):
        return False
    lengths = {len(row) if hasattr(row, "__len__") and not isinstance(row, str) else None for row in data}
    return len(lengths) > 1 and None not in lengths
