"""What a quote takes that JSON has no form for."""

from decimal import Decimal

from . import _tenths

__all__ = ["written"]


def written(value):
    """A decimal or a size as text, which stays exact."""
    if isinstance(value, Decimal):
        return format(value, "f")
    if isinstance(value, _tenths.Size):
        return str(value)
    raise TypeError(f"rates must be numbers, text, Decimal or Size, not {value!r}")
