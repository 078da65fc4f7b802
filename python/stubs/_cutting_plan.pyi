from collections.abc import Iterable
from typing import Any, Literal, SupportsIndex

from ._tenths import CuttingPlan, Size, _Progress

_Length = Size | str | float

def cutting_plan(
    pieces: Iterable[tuple[_Length, SupportsIndex]],
    bars: Iterable[
        _Length
        | tuple[_Length]
        | tuple[_Length, SupportsIndex | None]
        | tuple[_Length, SupportsIndex | None, Any]
    ],
    <CuttingOptions 0..2>
    *,
    <CuttingOptions 2..>
    units: Literal["inch", "metric", "in", "mm"] | None = None,
    threads: int = 1,
    progress: _Progress = None,
) -> CuttingPlan: ...
