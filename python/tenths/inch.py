"""Every formula with bare numbers in inches, feet per minute, pounds-force, horsepower."""

from ._namespace import fill as _fill

__all__ = _fill(globals(), "inch")
