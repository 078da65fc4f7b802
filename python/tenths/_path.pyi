from collections.abc import Callable
from typing import Any

from numpy.typing import NDArray

__all__ = ["PathFeeds", "faces"]

class PathFeeds:
    __match_args__ = ("feed_rate", "bound", "chip_thickness", "time", "total_time", "rubbing", "units")
    feed_rate: NDArray[Any]
    bound: NDArray[Any]
    chip_thickness: NDArray[Any]
    time: NDArray[Any]
    total_time: float
    rubbing: int
    units: str
    def __init__(
        self,
        feed_rate: NDArray[Any],
        bound: NDArray[Any],
        chip_thickness: NDArray[Any],
        time: NDArray[Any],
        total_time: float,
        rubbing: int,
        units: str,
    ) -> None: ...
    @property
    def bounds(self) -> dict[str, int]: ...
    def to_frame(self) -> Any: ...
    def to_dict(self) -> dict[str, Any]: ...
    def __len__(self) -> int: ...
    def _repr_html_(self) -> str: ...

def faces(units: str, module: str) -> dict[str, Callable[..., Any]]: ...
