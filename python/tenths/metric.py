"""Every formula with bare numbers in millimetres, metres per minute, newtons, kilowatts."""

from ._namespace import fill as _fill

__all__ = _fill(globals(), "metric")
