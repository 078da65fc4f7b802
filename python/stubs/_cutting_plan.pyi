from collections.abc import Iterable, Mapping
from typing import Any, SupportsIndex

from ._tenths import CuttingPlan, SharedCuttingPlan, _Length, _Progress, _Units

def cutting_plan(
    pieces: Iterable[tuple[_Length, SupportsIndex]],
    bars: Iterable[
        _Length
        | tuple[_Length]
        | tuple[_Length, SupportsIndex | None]
        | tuple[_Length, SupportsIndex | None, Any]
    ],
    <CuttingOptions kerf, end_trim>
    *,
    <CuttingOptions remnant, facing_allowance, keep_from, time_limit, work_limit>
    units: _Units | None = None,
    threads: int = 1,
    progress: _Progress = None,
) -> CuttingPlan: ...
def shared_cutting_plan(
    orders: Mapping[str, Iterable[tuple[_Length, SupportsIndex]]]
    | Iterable[tuple[str, Iterable[tuple[_Length, SupportsIndex]]]],
    bars: Iterable[
        _Length
        | tuple[_Length]
        | tuple[_Length, SupportsIndex | None]
        | tuple[_Length, SupportsIndex | None, Any]
    ],
    <CuttingOptions kerf, end_trim>
    *,
    <CuttingOptions remnant, facing_allowance, keep_from, time_limit, work_limit>
    units: _Units | None = None,
    threads: int = 1,
    progress: _Progress = None,
) -> SharedCuttingPlan: ...
