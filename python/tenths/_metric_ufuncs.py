"""The ufuncs of the formulas of `tenths.metric` by name: where a pickle finds them."""

from . import _numbers, metric

__getattr__ = _numbers.ufuncs(metric, __name__)
