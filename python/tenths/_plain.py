"""What a document takes that JSON has no form for."""

from collections.abc import Mapping
from decimal import Decimal

from . import _tenths

__all__ = ["money", "plain"]


def plain(value):
    """Any mapping as a dict, a Size or Limits as text, a decimal or a number or an array of NumPy as a number."""
    if isinstance(value, Decimal):
        return int(value) if value == value.to_integral_value() else float(value)
    return _known(value, "a document cannot have {!r:.60}. Fix: give a number, text, a Size or Limits")


def money(value):
    """The same for rates, whose decimals go as text so that amounts stay exact."""
    if isinstance(value, Decimal):
        return format(value, "f")
    return _known(value, "rates must be numbers, text, Decimal or Size, not {!r:.60}")


def _known(value, refusal):
    if isinstance(value, (_tenths.Size, _tenths.Limits)):
        return str(value)
    if isinstance(value, Mapping):
        return dict(value)
    if hasattr(value, "tolist"):
        return value.tolist()
    raise TypeError(refusal.format(value))
