from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

from numpy.typing import NDArray

__all__ = ["PathFeeds", "faces"]

@dataclass(frozen=True, eq=False)
class PathFeeds:
    feed_rate: NDArray[Any]
    bound: NDArray[Any]
    chip_thickness: NDArray[Any]
    time: NDArray[Any]
    total_time: float
    rubbing: int
    units: str
    @property
    def bounds(self) -> dict[str, int]: ...
    def to_frame(self) -> Any: ...
    def to_dict(self) -> dict[str, Any]: ...
    def __len__(self) -> int: ...
    def _repr_html_(self) -> str: ...

def faces(units: str, module: str) -> dict[str, Callable[..., Any]]: ...
