"""Every formula with bare numbers in inches, feet per minute, pounds-force, horsepower."""

from ._namespace import fill as _fill

_fill(globals(), "inch")

__all__ = sorted(name for name in globals() if not name.startswith("_"))
