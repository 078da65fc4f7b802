from collections.abc import Iterable, Mapping
from typing import Any

from ._tenths import Limits, Plan, _Length

def draft_plan(
    *,
    units: str,
    material: str | Mapping[str, Any],
    quantity: int,
    features: Iterable[Mapping[str, Any]],
    name: str | None = None,
    number: str | None = None,
    length: _Length | Limits | None = None,
    bar: Limits | str | Mapping[str, Any] | None = None,
    standards: str | dict[str, Any] | None = None,
) -> Plan: ...
