from collections.abc import Mapping, Sequence
from typing import Any

from numpy.typing import NDArray

from ._tenths import Formula

def broadcast(columns: Sequence[Any], is_single: bool) -> tuple[Sequence[NDArray[Any]], Any, Any]: ...
def on(
    formula: Formula,
    frame: Any,
    columns: Mapping[str, str] | None,
    join: bool,
    remarks: str | None,
    on_error: str | None,
    constants: Mapping[str, Any],
) -> Any: ...
def warn(formula: Formula, result: Any, args: Sequence[Any]) -> None: ...

__all__ = ["broadcast", "on", "warn"]
