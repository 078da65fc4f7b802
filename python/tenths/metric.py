"""Every formula with bare numbers in millimetres, metres per minute, newtons, kilowatts."""

from ._namespace import fill as _fill

_fill(globals(), "metric")

__all__ = sorted(name for name in globals() if not name.startswith("_"))
