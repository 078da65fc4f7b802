"""Drift of a process: what is taken for readings in order, part numbers and limits."""

from . import _tenths
from ._capability import pair
from ._readings import check_order, row
from ._tenths import DomainError


def faces(units, module):
    """The function `tool_drift` for the namespace of a unit system."""
    unit = {"inch": "inches", "metric": "millimetres"}[units]
    length = _tenths._wanted_length(units, "capability", "limits")

    def tool_drift(data, limits, parts=None, *, capability=1.0, confidence=0.95):
        check_order(data=data, parts=parts)
        table = row("data", data)
        numbers = None if parts is None else row("parts", parts)
        if numbers is not None and numbers.size != table.size:
            raise DomainError(f"{numbers.size} part numbers were given; expected one for each of {table.size} readings")
        made = None if numbers is None else numbers.tobytes()
        ends = pair(length, limits, "tool_drift")
        return _tenths._tool_drift(units, table.tobytes(), made, ends, float(capability), float(confidence))

    tool_drift.__doc__ = f"""The drift of a characteristic from part to part by wear of the tool, and what the limits leave it.

    ``data`` are readings in the order of making, in {unit}; ``parts`` are the numbers of the parts that were measured, such as
    ``range(1, 100, 5)``, where not every one was. ``limits`` are a pair, either of which may be None; text such as
    '10 ±0.05 mm'; or Limits. ``capability`` is the Cpk to keep between two settings of the tool, ``confidence`` that of the
    interval of the drift.

    The line is that of least squares. Readings from before and after a setting of the tool do not go on one line.
    """
    tool_drift.__module__, tool_drift.__qualname__ = module, "tool_drift"
    return {"tool_drift": tool_drift}
