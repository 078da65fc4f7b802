from typing import Any

from ._tenths import Formula

__all__ = ["solve_for"]

def solve_for(
    formula: Formula, argument: str, wanted: Any, output: str | None, on_error: str | None, given: dict[str, Any] | None
) -> Any: ...
