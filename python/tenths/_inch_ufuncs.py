"""The ufuncs of the formulas of `tenths.inch` by name: where a pickle finds them."""

from . import _numbers, inch

__getattr__ = _numbers.ufuncs(inch, __name__)
